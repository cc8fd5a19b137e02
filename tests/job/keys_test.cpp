// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/keys.hpp"

#include <gtest/gtest.h>

#include <set>
#include <stdexcept>
#include <string>

#include "job/press_job.hpp"
#include "job/section.hpp"
#include "parts/kind.hpp"

namespace poise {
namespace {

TEST(Keys, a_table_is_asked_for_no_key_that_its_list_lacks) {
  const job::Node table;
  job::Remarks remarks;
  job::Section section(table, "[drawing]", remarks, job::keys::of_drawing());
  EXPECT_EQ(section.find("paper"), nullptr);
  EXPECT_THROW(section.find("size"), std::logic_error);
  section.take(find_kind("relief")->parameters);
  EXPECT_EQ(section.find("setting"), nullptr);
  EXPECT_EQ(section.find("setting_tolerance"), nullptr);
  EXPECT_THROW(section.find("bore"), std::logic_error);
}

TEST(Keys, each_stands_once_in_its_list_and_has_a_meaning) {
  for (const auto& list :
       {job::keys::of_job(), job::keys::of_part(), job::keys::of_conduit(), job::keys::of_line(),
        job::keys::of_oil(), job::keys::of_units(), job::keys::of_step(), job::keys::of_control(),
        job::keys::of_requirement(), job::keys::of_waiver(), job::keys::of_drawing()}) {
    std::set<std::string_view> names;
    for (const job::Key& key : list) {
      EXPECT_TRUE(names.insert(key.name).second) << key.name;
      EXPECT_FALSE(key.meaning.empty()) << key.name;
    }
  }
}

TEST(Keys, a_line_that_names_the_schema_is_a_comment) {
  EXPECT_EQ(reading::complaints_of("#:schema /usr/local/share/poise/schema/job.json\n" +
                                   std::string(reading::good)),
            "");
}

}  // namespace
}  // namespace poise
