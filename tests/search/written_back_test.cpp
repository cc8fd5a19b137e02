// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// A job is written back with the found words in it and nothing else changed; proving it gives what was
// promised.
#include <gtest/gtest.h>

#include <algorithm>
#include <ostream>

#include "search/open_jobs.hpp"

namespace poise {
namespace {

std::string with_crlf(const std::string& text) {
  std::string all;
  for (const char c : text) all += c == '\n' ? std::string("\r\n") : std::string(1, c);
  return all;
}

std::string exchanged(std::string text, const std::string& piece, const std::string& instead) {
  const std::size_t at = text.find(piece);
  if (at == std::string::npos) throw std::runtime_error("no " + piece);
  return text.replace(at, piece.size(), instead);
}

std::string as_it_is(const std::string& text) { return text; }

/// The word in odd places, and where it is no word of the job's.
std::string odd(const std::string& text) {
  const std::string all =
      exchanged(text, "setting = \"find\"",
                "\"setting\"\t=   'find'   # \"find\" stands here; 60 µm filter, Prüfstand");
  return "# setting = \"find\"\n\n\n" +
         exchanged(all, "[parts.V1]", "   [ parts . V1 ]  # \"find\"\nnote = 'a \"find\" that is text'");
}

std::string without_last_line_end(const std::string& text) {
  return text.substr(0, text.find_last_not_of('\n') + 1);
}

struct Written {
  const char* name;
  const char* job;
  std::string (*layout)(const std::string& text);
};
void PrintTo(const Written& written, std::ostream* out) { *out << written.name; }

const Written written[] = {
    {"a_setting", "relief-between", as_it_is},
    {"with_line_ends_of_two_characters", "relief-between", with_crlf},
    {"odd_layout", "relief-between", odd},
    {"odd_layout_with_line_ends_of_two_characters", "relief-between",
     [](const std::string& text) { return with_crlf(odd(text)); }},
    {"without_a_last_line_end", "stroke", without_last_line_end},
    {"in_a_line_of_its_own_table", "hose-bore", as_it_is},
    {"in_a_steps_command", "turned-in-a-step", as_it_is},
    {"a_word", "centre", as_it_is},
    {"two_settings", "linked-pressures", as_it_is},
    {"a_size_and_a_setting", "bore-and-setting", as_it_is},
    {"us_units", "us-relief", as_it_is},
    {"a_flow_of_a_series", "pump-flow", as_it_is},
};

/// Offset of a place, from its line and column in bytes.
std::size_t offset(const std::string& text, const Place& place) {
  std::size_t at = 0;
  for (int line = 1; line < place.line; ++line) at = text.find('\n', at) + 1;
  return at + static_cast<std::size_t>(place.column) - 1;
}

/// The text with the found values in place of the words, by cutting it where they stand.
std::string with_found(const std::string& text, const Job& job, const search::Found& found) {
  std::string all;
  std::size_t done = 0;
  for (std::size_t i = 0; i < job.sought.size(); ++i) {
    const std::size_t at = offset(text, job.sought[i].place), word = std::string("'find'").size();
    EXPECT_EQ(text.substr(at + 1, word - 2), "find");
    all += text.substr(done, at - done) + '"' + found.values[i].text + '"';
    done = at + word;
  }
  return all + text.substr(done);
}

class written_back : public testing::TestWithParam<Written> {
 protected:
  const std::string text_ = GetParam().layout(open_jobs::text_of(std::string("known/") + GetParam().job));
  const Job job_ = open_jobs::job_of(text_);
};

void expect_alike(const search::Found& one, const search::Found& other) {
  EXPECT_EQ(one.text, other.text);
  EXPECT_EQ(one.runs, other.runs);
  EXPECT_EQ(one.trial.at, other.trial.at);
  EXPECT_EQ(one.trial.shares, other.trial.shares);
  ASSERT_EQ(one.values.size(), other.values.size());
  for (std::size_t i = 0; i < one.values.size(); ++i) {
    EXPECT_EQ(one.values[i].text, other.values[i].text);
    EXPECT_EQ(one.values[i].edges.below.at, other.values[i].edges.below.at);
    EXPECT_EQ(one.values[i].edges.above.at, other.values[i].edges.above.at);
    EXPECT_EQ(one.values[i].edges.below.breaks, other.values[i].edges.below.breaks);
    EXPECT_EQ(one.values[i].edges.above.breaks, other.values[i].edges.above.breaks);
  }
}

/// The margins of a job as it reads now are those that were promised, to the last bit.
void expect_promised(const Verdict& again, const search::Found& found) {
  ASSERT_EQ(again.findings.size(), found.trial.verdict.findings.size());
  for (std::size_t i = 0; i < again.findings.size(); ++i) {
    const Finding &now = again.findings[i], &promised = found.trial.verdict.findings[i];
    EXPECT_EQ(now.name, promised.name);
    EXPECT_EQ(now.held, promised.held) << now.name;
    EXPECT_EQ(now.margin, promised.margin) << now.name;
    EXPECT_EQ(now.share, promised.share) << now.name;
    EXPECT_EQ(now.found, promised.found) << now.name;
  }
  ASSERT_EQ(again.rules.size(), found.trial.verdict.rules.size());
}

TEST_P(written_back, differs_in_the_found_words_only_and_keeps_what_was_promised) {
  const search::Found found = search::find(text_, job_, {});
  EXPECT_EQ(found.text, with_found(text_, job_, found));
  const auto read = read_job(found.text, "job.toml");
  const auto* complaints = std::get_if<Complaints>(&read);
  ASSERT_FALSE(complaints) << complaints->text(found.text);
  expect_promised(open_jobs::proven(std::get<Job>(read)), found);
}

TEST(written_back_twice, is_the_same_each_time) {
  for (const char* name : {"two-reduced", "pump-flow"}) {
    const std::string text = open_jobs::text_of(std::string("known/") + name);
    const Job job = open_jobs::job_of(text);
    expect_alike(search::find(text, job, {}), search::find(text, job, {}));
  }
}

INSTANTIATE_TEST_SUITE_P(jobs, written_back, testing::ValuesIn(written),
                         [](const auto& entry) { return std::string(entry.param.name); });

}  // namespace
}  // namespace poise
