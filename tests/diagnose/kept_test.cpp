// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/kept.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <atomic>
#include <cmath>
#include <fstream>

#include "study/load_on_a_shut_jack.hpp"

namespace poise::diagnose {
namespace {

namespace fs = std::filesystem;

/// A job of milliseconds with a few suspects, and a folder of its own.
class KeptAtlas : public testing::Test {
 protected:
  void SetUp() override {
    work_.suspects.resize(std::min<std::size_t>(work_.suspects.size(), 6));
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  static AtlasWork prepare() {
    auto read = read_job(study::load_on_a_shut_jack, "job.toml");
    return std::get<AtlasWork>(prepare_atlas(std::get<Job>(read), [] { return true; }));
  }
  std::optional<Atlas> run(Much much, long stop_after = -1) {
    std::atomic<long> asked = 0;
    return atlas_of(
        work_, "text", "1", file_, much, [&](double) { return stop_after < 0 || ++asked <= stop_after; }, 1);
  }

  AtlasWork work_ = prepare();
  fs::path folder_ = fs::temp_directory_path() / ("poise-kept-" + std::to_string(::getpid()));
  fs::path file_ = folder_ / "job.studies";
};

bool same(const Atlas& a, const Atlas& b) {
  if (a.strays != b.strays || a.rest != b.rest || a.courses.size() != b.courses.size()) return false;
  for (std::size_t c = 0; c < a.courses.size(); ++c) {
    if (a.courses[c].sizes.size() != b.courses[c].sizes.size()) return false;
    for (std::size_t s = 0; s < a.courses[c].sizes.size(); ++s) {
      const auto &x = a.courses[c].sizes[s].shows, &y = b.courses[c].sizes[s].shows;
      for (std::size_t w = 0; w < x.size(); ++w) {
        // Six digits are kept.
        if (std::isnan(x[w]) != std::isnan(y[w]) || std::abs(x[w] - y[w]) > 1e-5 * std::abs(x[w]) + 1e-12)
          return false;
      }
    }
  }
  return true;
}

TEST_F(KeptAtlas, is_read_the_second_time) {
  EXPECT_FALSE(kept_atlas(work_, "text", "1", file_, Much::all));
  ASSERT_TRUE(run(Much::all));
  const auto kept = kept_atlas(work_, "text", "1", file_, Much::all);
  ASSERT_TRUE(kept);
  const auto again = run(Much::all);
  ASSERT_TRUE(again);
  EXPECT_TRUE(same(*kept, *again));
}

TEST_F(KeptAtlas, of_the_sound_machine_is_the_beginning_of_the_whole) {
  ASSERT_TRUE(run(Much::sound));
  EXPECT_TRUE(kept_atlas(work_, "text", "1", file_, Much::sound));
  EXPECT_FALSE(kept_atlas(work_, "text", "1", file_, Much::all));
  const auto whole = run(Much::all);
  ASSERT_TRUE(whole);
  EXPECT_EQ(whole->courses.size(), work_.suspects.size());
}

TEST_F(KeptAtlas, goes_on_where_it_was_stopped) {
  EXPECT_FALSE(run(Much::all, 5));
  const auto stopped = run(Much::all);
  fs::remove(file_);
  const auto at_once = run(Much::all);
  ASSERT_TRUE(stopped && at_once);
  for (std::size_t c = 0; c < at_once->courses.size(); ++c)
    EXPECT_EQ(stopped->courses[c].sizes.size(), at_once->courses[c].sizes.size());
}

TEST_F(KeptAtlas, of_another_text_is_not_this_one) {
  ASSERT_TRUE(run(Much::sound));
  EXPECT_FALSE(kept_atlas(work_, "another text", "1", file_, Much::sound));
  EXPECT_FALSE(kept_atlas(work_, "text", "2", file_, Much::sound));
}

TEST_F(KeptAtlas, is_worked_out_all_the_same_where_the_file_is_no_record) {
  std::ofstream(file_) << "no database";
  EXPECT_TRUE(run(Much::sound));
  std::ifstream in(file_);
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(in), {}), "no database");
}

}  // namespace
}  // namespace poise::diagnose
