// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/document.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <vector>

#include "papers/answer.hpp"
#include "papers/package.hpp"
#include "support/proven.hpp"

namespace poise::papers {
namespace {

using testing::HasSubstr;
using testing::Not;
using workshop::Proven;

std::string text_of(const Proven& proven, std::string_view paper) {
  return document(proven.subject(), std::array{find_paper(paper)});
}

const Proven& stand() {
  static const Proven proven("jobs/drilling-stand.toml");
  return proven;
}
const Proven& broken_lift() {
  static const Proven proven("jobs/axle-box-lift-needle-too-far-open.toml");
  return proven;
}

TEST(document, of_all_papers_begins_with_a_cover_that_lists_each_once) {
  std::vector<const Paper*> papers;
  for (const Paper& paper : all_papers()) papers.push_back(&paper);
  const std::string text = document(stand().subject(), papers);
  EXPECT_THAT(text, HasSubstr("id=\"cover\""));
  for (const Paper& paper : all_papers()) {
    EXPECT_THAT(text, HasSubstr("<section id=\"" + std::string(paper.name) + "\""));
    EXPECT_THAT(text, HasSubstr("href=\"#" + std::string(paper.name) + "\""));
  }
}

TEST(document, of_one_paper_has_no_cover_and_no_other_paper) {
  const std::string text = text_of(stand(), "settings");
  EXPECT_THAT(text, Not(HasSubstr("id=\"cover\"")));
  EXPECT_THAT(text, Not(HasSubstr("id=\"books\"")));
}

TEST(document, of_a_job_that_does_not_hold_says_so_at_the_head_of_each_page) {
  const std::string head = "@top-center";
  const std::string broken = text_of(broken_lift(), "settings"), held = text_of(stand(), "settings");
  EXPECT_THAT(broken.substr(broken.find(head), 120), HasSubstr("NOT PROVEN: 2 of 8 requirements are broken"));
  EXPECT_THAT(held, Not(HasSubstr("NOT PROVEN")));
}

TEST(document, of_the_same_job_has_the_same_bytes) {
  const Proven again("jobs/drilling-stand.toml");
  for (const Paper& paper : all_papers())
    EXPECT_EQ(text_of(stand(), paper.name), text_of(again, paper.name)) << paper.name;
}

TEST(document, tells_every_finding_of_the_verdict) {
  const std::string text = text_of(broken_lift(), "requirements");
  for (const Finding& finding : broken_lift().verdict.findings) {
    EXPECT_THAT(text, HasSubstr(finding.found));
    if (finding.margin) {
      EXPECT_THAT(text, HasSubstr(units::show_difference(*finding.margin, finding.quantity,
                                                         broken_lift().job.world)));
    }
  }
}

TEST(document, of_a_broken_run_is_written_all_the_same) {
  std::string text = stand().text;
  const std::string lasts = "lasts = \"2.5 s\"";
  text.replace(text.find(lasts), lasts.size(), "until = \"K1.position > 900 mm\"\nat_most = \"2.5 s\"");
  const Proven proven(text, "jobs/drilling-stand.toml");
  ASSERT_TRUE(proven.verdict.halt);
  for (const Paper& paper : all_papers()) EXPECT_THAT(text_of(proven, paper.name), HasSubstr("NOT PROVEN"));
}

TEST(papers, are_known_by_name_and_traces_besides) {
  for (const Paper& paper : all_papers()) EXPECT_EQ(find_paper(paper.name), &paper);
  EXPECT_EQ(find_paper("cover"), nullptr);
  EXPECT_EQ(names().size(), all_papers().size() + 1);
}

TEST(page_names, are_those_of_the_pages) {
  for (const std::vector<std::string>& only : {std::vector<std::string>{}, {"settings", "job"}, {"traces"}}) {
    std::vector<std::string> of_pages;
    for (const File& file : pages(stand().subject(), only, "stand")) of_pages.push_back(file.name);
    EXPECT_EQ(page_names(only, "stand"), of_pages);
  }
}

}  // namespace
}  // namespace poise::papers
