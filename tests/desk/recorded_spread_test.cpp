// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A spread of a small job as the desk runs and reads it, in the record that the command uses.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/recorded.hpp"
#include "desk/scratch_folder.hpp"

namespace poise::desk {
namespace {

using testing::HasSubstr;

const Studies studies = recorded_studies("0.1.0");

std::string start(const std::string& name) {
  std::ifstream in(std::filesystem::path(POISE_SOURCE_DIR) / "src/compose/starts" / name, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// The smallest of the starting points: each of its machines is run in some milliseconds.
struct GaugeLine {
  explicit GaugeLine(long wanted)
      : of{.kind = "spread",
           .job = "line.toml",
           .text = start("gauge-line.toml"),
           .folder = folder.path(),
           .wanted = wanted} {}
  std::string run(const Studies::At& at) const { return studies.run(of, 1, at); }
  Recorded read(const units::World& world = units::metric()) const {
    const auto recorded = studies.read(of, world);
    EXPECT_TRUE(recorded);
    return recorded.value_or(Recorded{});
  }
  long done() const { return read().answer["done"].get<long>(); }
  ScratchFolder folder;
  StudyOf of;
};

/// Ends as soon as a machine is done.
const Studies::At for_a_moment = [](double share) { return share <= 0.0; };

TEST(recorded_spread, nothing_is_recorded_before_it_was_run) {
  const GaugeLine line(3);
  EXPECT_FALSE(studies.read(line.of, units::metric()));
}

TEST(recorded_spread,
     what_was_stopped_goes_on_where_it_was_left_to_the_nearest_machine_that_breaks_each_promise) {
  const GaugeLine line(60);  // enough to tell which way each promise breaks
  EXPECT_EQ(line.run(for_a_moment), "");
  const long before = line.done();
  EXPECT_GE(before, 1);
  EXPECT_LT(before, 60);
  double last = 0.0, first = 0.0;
  const auto rises = [&](double share) {
    EXPECT_GE(share, last);
    if (first == 0.0) first = share;
    last = share;
    return true;
  };
  EXPECT_EQ(line.run(rises), "");
  EXPECT_GT(first, 0.0);  // what was done before counts
  EXPECT_DOUBLE_EQ(last, 1.0);
  const Json answer = line.read().answer;
  EXPECT_EQ(answer["done"], 60);
  EXPECT_EQ(answer["wanted"], 60);
  EXPECT_EQ(answer["kept"].get<long>() + answer["broken"].get<long>() + answer["not_proven"].get<long>(), 60);
  ASSERT_FALSE(answer["promises"].empty());
  for (const Json& promise : answer["promises"])
    EXPECT_FALSE(promise["nearest"].is_null()) << promise["name"];
}

TEST(recorded_spread, it_reads_in_the_units_asked_for_whatever_the_jobs_own) {
  const GaugeLine line(2);
  EXPECT_EQ(line.run(for_a_moment), "");
  const Json metric = line.read().answer, us = line.read(units::us()).answer;
  ASSERT_EQ(metric["promises"].size(), us["promises"].size());
  bool seen = false;
  for (std::size_t i = 0; i < metric["promises"].size(); ++i) {
    const std::string promised = metric["promises"][i]["promised"], other = us["promises"][i]["promised"];
    if (promised.find(" bar") == std::string::npos) continue;
    seen = true;
    EXPECT_THAT(other, HasSubstr(" psi"));
  }
  EXPECT_TRUE(seen);
}

TEST(recorded_spread, of_a_text_that_has_changed_the_earlier_answer_is_told_as_such) {
  GaugeLine line(2);
  EXPECT_EQ(line.run(for_a_moment), "");
  EXPECT_TRUE(line.read().of_this_text);
  line.of.text += "# looked over\n";
  EXPECT_FALSE(line.read().of_this_text);
  EXPECT_GE(line.done(), 1);
  EXPECT_EQ(line.run(for_a_moment), "");
  EXPECT_TRUE(line.read().of_this_text);
}

TEST(recorded_spread, a_record_that_cannot_be_written_is_told_in_a_sentence) {
  const GaugeLine line(2);
  std::filesystem::create_directory(line.of.record());
  EXPECT_THAT(line.run(for_a_moment), HasSubstr("line.studies"));
}

}  // namespace
}  // namespace poise::desk
