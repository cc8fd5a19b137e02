// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <memory>

#include "desk/open_folder.hpp"
#include "parts/kind.hpp"

namespace poise::desk {
namespace {

const std::string shelf = "shelf.toml";

Json field(const Json& fields, const std::string& name) {
  const auto found = std::ranges::find_if(fields, [&](const Json& f) { return f["name"] == name; });
  return found == fields.end() ? Json() : *found;
}

Json fields_of(OpenFolder& folder, const std::string& setting,
               const std::map<std::string, std::string>& query = {}) {
  folder.write(shelf,
               "[parts.V1]\nkind = \"relief\"\nsetting = \"" + setting + "\"\nrated_flow = \"12 L/min\"\n");
  return folder.good(folder.get({"job", shelf}, query))["parts"][0]["fields"];
}

TEST(page, a_field_holds_the_number_the_unit_as_typed_and_the_range_in_that_unit) {
  OpenFolder folder;
  const Json setting = field(fields_of(folder, "3000 psi"), "setting");
  EXPECT_EQ(setting["text"], "3000 psi");
  EXPECT_EQ(setting["number"], 3000.0);
  EXPECT_EQ(setting["unit"], "psi");
  EXPECT_EQ(setting["at"], Json({"parts", "V1", "setting"}));
  const auto table = find_kind("relief")->parameters;
  const Parameter& p = table[static_cast<std::size_t>(*find_parameter(table, "setting"))];
  EXPECT_NEAR(setting["high"].get<double>(), p.high / 6894.757, 1.0);  // 1 psi = 6894.757 Pa (NIST SP 811)
}

TEST(page, a_value_typed_in_other_units_is_also_read_in_those_that_are_shown) {
  OpenFolder folder;
  EXPECT_EQ(field(fields_of(folder, "3000 psi"), "setting")["reading"], "207 bar");
  EXPECT_TRUE(field(fields_of(folder, "210 bar"), "setting")["reading"].is_null());
  EXPECT_EQ(field(fields_of(folder, "210 bar", {{"units", "us"}}), "setting")["reading"], "3050 psi");
}

TEST(page, what_is_no_value_stands_in_its_field_as_it_was_typed) {
  OpenFolder folder;
  const Json setting = field(fields_of(folder, "lots"), "setting");
  EXPECT_EQ(setting["text"], "lots");
  EXPECT_TRUE(setting["number"].is_null());
  EXPECT_TRUE(field(fields_of(folder, "210 bar"), "rated_pressure")["text"].is_null());
}

TEST(page, a_tolerance_beside_a_value_changes_nothing_in_its_form) {
  OpenFolder folder;
  const Json plain = fields_of(folder, "210 bar");
  EXPECT_EQ(fields_of(folder, "210 bar\"\nsetting_tolerance = [\"-5 %\", \"+3 %\"]\nnote = \"N"), plain);
}

TEST(page, a_part_from_stock_shows_what_its_model_states_where_nothing_is_typed) {
  OpenFolder folder;  // the lists lie outside it and are only read
  folder.write(shelf, "stock = \"" POISE_SOURCE_DIR
                      "/stock\"\n[parts.V1]\nkind = \"relief\"\n"
                      "model = \"relief 350 bar 12 L\"\nsetting = \"180 bar\"\n");
  const Json fields = folder.page(shelf)["parts"][0]["fields"];
  EXPECT_TRUE(field(fields, "rated_flow")["text"].is_null());
  EXPECT_EQ(field(fields, "rated_flow")["default"], "12.0 L/min");
  EXPECT_EQ(field(fields, "response_time")["default"], "0.0100 s");  // the list does not say: the kind does
}

TEST(page, the_words_tell_of_every_kind_with_its_symbol_and_whole_datasheet) {
  OpenFolder folder;
  const Json words = folder.good(folder.get({"words"}));
  ASSERT_EQ(words["kinds"].size(), all_kinds().size());
  for (std::size_t k = 0; k < all_kinds().size(); ++k) {
    const Json& told = words["kinds"][k];
    EXPECT_EQ(told["kind"], all_kinds()[k].about.kind);
    EXPECT_EQ(told["parameters"].size(), all_kinds()[k].parameters.size());
    EXPECT_EQ(told["ports"].size(), all_kinds()[k].ports.size());
    EXPECT_THAT(told["symbol"].get<std::string>(), testing::StartsWith("<svg"));
    EXPECT_THAT(told["symbol"].get<std::string>(), testing::Not(testing::HasSubstr("style")));
    EXPECT_FALSE(told["family"].get<std::string>().empty());
  }
}

TEST(page, a_line_with_a_hose_is_a_part_with_its_own_way_in_the_tree) {
  OpenFolder folder;
  folder.write(shelf, text_of_job("drilling-stand.toml"));
  const Json page = folder.page(shelf);
  const auto hose = std::ranges::find_if(page["parts"], [](const Json& p) { return p["tag"] == "L1"; });
  ASSERT_NE(hose, page["parts"].end());
  EXPECT_TRUE((*hose)["line"]);
  const Json bore = field((*hose)["fields"], "bore");
  EXPECT_EQ(bore["text"], "8 mm");
  EXPECT_EQ(bore["at"][0], "lines");
  EXPECT_TRUE(page["open"].empty());
  EXPECT_TRUE(page["runnable"]);
}

TEST(page, what_steps_can_set_is_told_with_its_words) {
  OpenFolder folder;
  folder.write(shelf, text_of_job("drilling-stand.toml"));
  const Json page = folder.page(shelf);
  const auto valve = std::ranges::find_if(page["settable"], [](const Json& s) { return s["name"] == "V1"; });
  ASSERT_NE(valve, page["settable"].end());
  EXPECT_EQ((*valve)["words"], Json({"centre", "a", "b"}));
}

TEST(page, what_a_job_lacks_is_complained_of_where_it_would_stand) {
  OpenFolder folder;
  folder.write(shelf, "title = \"nothing yet\"\n");
  const Json page = folder.page(shelf);
  std::vector<Json> ways;
  for (const Json& complaint : page["complaints"]) ways.push_back(complaint["at"]);
  EXPECT_THAT(ways, testing::IsSupersetOf({Json({"parts"}), Json({"steps"})}));
}

}  // namespace
}  // namespace poise::desk
