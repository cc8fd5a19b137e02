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

struct Lift {
  explicit Lift(long wanted)
      : of{.kind = "spread",
           .job = "lift.toml",
           .text = start("single-lift.toml"),
           .folder = folder.path(),
           .wanted = wanted} {}
  std::string run(const Studies::At& at) const { return studies.run(of, 1, at); }
  Recorded read(const units::World& world = units::metric()) const {
    const auto recorded = studies.read(of, world);
    EXPECT_TRUE(recorded);
    return recorded.value_or(Recorded{});
  }
  ScratchFolder folder;
  StudyOf of;
};

const Studies::At to_the_end = [](double) { return true; };

TEST(recorded_spread, nothing_is_recorded_before_it_was_run) {
  const Lift lift(3);
  EXPECT_FALSE(studies.read(lift.of, units::metric()));
}

TEST(recorded_spread, what_was_stopped_goes_on_where_it_was_left) {
  const Lift lift(12);
  EXPECT_EQ(lift.run([](double share) { return share <= 0.0; }), "");  // ends as soon as a machine is done
  const long done = lift.read().answer["done"].get<long>();
  EXPECT_GE(done, 1);
  EXPECT_LT(done, 12);
  EXPECT_EQ(lift.run(to_the_end), "");
  const Json answer = lift.read().answer;
  EXPECT_EQ(answer["done"], 12);
  EXPECT_EQ(answer["wanted"], 12);
  EXPECT_EQ(answer["kept"].get<long>() + answer["broken"].get<long>() + answer["not_proven"].get<long>(), 12);
}

TEST(recorded_spread, the_share_rises_to_its_end_and_every_promise_has_its_nearest_machine_looked_for) {
  const Lift lift(12);
  double last = 0.0;
  const auto rises = [&](double share) {
    EXPECT_GE(share, last);
    last = share;
    return true;
  };
  EXPECT_EQ(lift.run(rises), "");
  EXPECT_DOUBLE_EQ(last, 1.0);
  const Json answer = lift.read().answer;
  ASSERT_FALSE(answer["promises"].empty());
  for (const Json& promise : answer["promises"])
    EXPECT_FALSE(promise["nearest"].is_null()) << promise["name"];
}

TEST(recorded_spread, it_reads_in_the_units_asked_for_whatever_the_jobs_own) {
  const Lift lift(2);
  EXPECT_EQ(lift.run(to_the_end), "");
  const Json metric = lift.read().answer, us = lift.read(units::us()).answer;
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
  Lift lift(2);
  EXPECT_EQ(lift.run(to_the_end), "");
  EXPECT_TRUE(lift.read().of_this_text);
  lift.of.text += "# looked over\n";
  const Recorded earlier = lift.read();
  EXPECT_FALSE(earlier.of_this_text);
  EXPECT_EQ(earlier.answer["done"], 2);
  lift.of.wanted = 3;
  EXPECT_EQ(lift.run(to_the_end), "");
  EXPECT_TRUE(lift.read().of_this_text);
  EXPECT_EQ(lift.read().answer["done"], 3);
}

TEST(recorded_spread, a_record_that_cannot_be_written_is_told_in_a_sentence) {
  const Lift lift(2);
  std::filesystem::create_directory(lift.of.record());
  EXPECT_THAT(lift.run(to_the_end), HasSubstr("lift.studies"));
}

}  // namespace
}  // namespace poise::desk
