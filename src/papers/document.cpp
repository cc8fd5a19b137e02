// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/document.hpp"

#include <fmt/format.h>

#include "draw/words.hpp"
#include "judge/outcome.hpp"
#include "papers/answer.hpp"
#include "papers/html.hpp"
#include "papers/style.hpp"

namespace poise::papers {
namespace {

using html::element;
using html::text;

std::string title_of(const Subject& subject) {
  return subject.job.title.empty() ? subject.file : subject.job.title;
}

std::string row(std::string_view name, std::string_view content) {
  return element("tr", element("th", text(name)) + element("td", content));
}

/// What the job says, or a line to be filled in by hand.
std::string or_blank(const std::string& words) {
  return words.empty() ? "<span class=\"blank\"></span>" : text(words);
}

std::string particulars(const Subject& subject) {
  const Job& job = subject.job;
  std::string rows =
      row("Revision", or_blank(job.drawing.revision)) + row("Date", or_blank(job.drawing.date)) +
      row("Author", or_blank(job.drawing.author)) + row("Checked by", or_blank("")) +
      row("Job file", text(subject.file)) + row("Fingerprint", text(subject.fingerprint)) +
      row("Worked out by", text("Poise " + subject.version)) +
      row("Oil", text(fmt::format("{}, {}", draw::oil_of(job.plan.oil, job.world),
                                  draw::shown(job.plan.oil.temperature, Quantity::temperature, job.world))));
  return element("table", "<colgroup><col style=\"width:26%\"><col></colgroup>" + element("tbody", rows),
                 " class=\"large\"");
}

std::string answer_box(const Verdict& verdict) {
  const bool proven = is_proven(verdict);
  std::string content =
      element("strong", proven ? "PROVEN" : "NOT PROVEN") + text(": " + answer(verdict)) + ".";
  const long hurts = verdict.not_kept(rules::Harm::hurts), damages = verdict.not_kept(rules::Harm::damages);
  if (hurts > 0 || damages > 0) {
    content +=
        fmt::format("<br>Rules of the trade not kept that can hurt someone: {}; that can damage: {}. See {}.",
                    hurts, damages, text("Safety"));
  }
  if (!proven) content += "<br>Nothing may be built, set or run by these papers.";
  return element("div", content, proven ? " class=\"answer\"" : " class=\"answer unproven\"");
}

std::string list_of(std::span<const Paper* const> papers) {
  std::string rows;
  for (const Paper* paper : papers) {
    const std::string link = fmt::format(" href=\"#{}\"", paper->name);
    rows += element("tr", element("td", element("a", text(paper->title), link)) +
                              element("td", text(paper->what)) +
                              element("td", element("a", "", link), " class=\"page measured\""));
  }
  return element(
      "nav", element("table", "<colgroup><col style=\"width:32%\"><col><col style=\"width:8%\"></colgroup>" +
                                  element("tbody", rows)));
}

std::string cover(const Subject& subject, std::span<const Paper* const> papers) {
  return element("section",
                 element("h1", text(title_of(subject))) + answer_box(subject.verdict) + particulars(subject) +
                     html::heading(3, "Papers") + list_of(papers) +
                     element("p", text(notice), " class=\"mind\""),
                 " id=\"cover\"");
}

std::string section(const Paper& paper, const Subject& subject) {
  // Said here too: a browser that prints no heads of pages would leave a sheet without it.
  const std::string title = std::string(paper.title) + (is_proven(subject.verdict) ? "" : ": NOT PROVEN");
  return element("section", html::heading(2, title) + paper.content(subject),
                 fmt::format(" id=\"{}\"{}", paper.name, paper.lies_wide(subject) ? " class=\"wide\"" : ""));
}

}  // namespace

std::string document(const Subject& subject, std::span<const Paper* const> papers) {
  std::string body;
  if (papers.size() > 1) body += cover(subject, papers);
  for (const Paper* paper : papers) body += section(*paper, subject);
  std::string head =
      "<meta charset=\"utf-8\">\n" +
      std::string("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n") +
      element("title", text(title_of(subject))) +
      fmt::format("<meta name=\"generator\" content=\"Poise {}\">\n", text(subject.version));
  if (!subject.job.drawing.author.empty())
    head += fmt::format("<meta name=\"author\" content=\"{}\">\n", text(subject.job.drawing.author));
  head += element("style", style_of(subject));
  const std::string mark =
      element("p", element("strong", text(mark_of(subject.verdict))), " class=\"screen\"");
  return "<!DOCTYPE html>\n" +
         element("html", element("head", head) + element("body", mark + body), " lang=\"en\"");
}

}  // namespace poise::papers
