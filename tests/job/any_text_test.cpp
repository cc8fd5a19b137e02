// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

// The glue for GoogleTest needs GoogleTest before it.
#include <rapidcheck/gtest.h>

#include "job/press_job.hpp"

namespace poise {
namespace {

// Whatever the text, there is a job or a reason why not, and the reason can be printed.
void expect_an_answer(const std::string& text) {
  const auto result = read_job(text, "any.toml");
  if (const auto* complaints = std::get_if<Complaints>(&result)) {
    RC_ASSERT(!complaints->list.empty());
    const std::string printed = complaints->text(text);
    RC_ASSERT(printed.find("any.toml") == 0u);
    for (const Remark& remark : complaints->list) RC_ASSERT(!remark.sentence.empty());
  } else {
    RC_ASSERT(!std::get<Job>(result).plan.parts.empty());
  }
}

RC_GTEST_PROP(AnyText, random_bytes_end_in_an_answer, (const std::string& text)) { expect_an_answer(text); }

RC_GTEST_PROP(AnyText, a_job_cut_off_anywhere_ends_in_an_answer, ()) {
  expect_an_answer(
      std::string(reading::good.substr(0, *rc::gen::inRange<std::size_t>(0, reading::good.size()))));
}

RC_GTEST_PROP(AnyText, a_job_with_changed_letters_ends_in_an_answer, ()) {
  std::string text(reading::good);
  const int changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) {
    text[*rc::gen::inRange<std::size_t>(0, text.size())] =
        *rc::gen::elementOf(std::string("a1.\"[]{}=,-> \n#\xC3\0", 17));
  }
  expect_an_answer(text);
}

RC_GTEST_PROP(AnyText, a_job_with_pieces_put_in_ends_in_an_answer, ()) {
  const std::vector<std::string> pieces{
      "ä",  "µm", "中", "😀",  "[[",   "[[[",      "]",  "\"\"\"", "'''",        "\\u", "\n",
      ".",  "{",  "}",  "= ", "nan",  "-inf",     "0x", "true",   "1979-05-27", "#",   "1e999",
      "\\", "\r", "\t", ",",  "\x7F", "\"V1.P\"", "'",  "\"",     " > 5 bar"};
  std::string text(reading::good);
  const int changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) {
    text.insert(*rc::gen::inRange<std::size_t>(0, text.size()), *rc::gen::elementOf(pieces));
  }
  expect_an_answer(text);
}

RC_GTEST_PROP(AnyText, a_job_with_lines_taken_out_moved_and_doubled_ends_in_an_answer, ()) {
  std::vector<std::string> lines;
  for (std::string_view rest = reading::good; !rest.empty(); rest.remove_prefix(rest.find('\n') + 1)) {
    lines.emplace_back(rest.substr(0, rest.find('\n') + 1));
  }
  const int changes = *rc::gen::inRange(1, 8);
  for (int i = 0; i < changes; ++i) {
    const auto from = *rc::gen::inRange<std::size_t>(0, lines.size()),
               to = *rc::gen::inRange<std::size_t>(0, lines.size());
    if (*rc::gen::arbitrary<bool>()) {
      std::swap(lines[from], lines[to]);
    } else if (*rc::gen::arbitrary<bool>()) {
      lines[from] = lines[to];
    } else {
      lines[from].clear();
    }
  }
  std::string text;
  for (const std::string& line : lines) text += line;
  expect_an_answer(text);
}

}  // namespace
}  // namespace poise
