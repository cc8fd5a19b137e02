// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "judge/wording.hpp"
#include "papers/cycle.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"

namespace poise::papers {
namespace {

/// Parts of one kind that do the same, and what the job and their kind say of them; not the lines of which
/// the job says nothing.
Table parts_by_task(const Job& job) {
  Table table{"parts", {{"part", 1.2}, {"what it is", 3.0}, {"what it does here", 2.2}}, {}};
  std::map<std::pair<const Kind*, std::string>, std::size_t> row_of;
  for (std::size_t p = 0; p < job.plan.parts.size(); ++p) {
    const PlannedPart& part = job.plan.parts[p];
    const std::string note = p < job.drawn.size() ? job.drawn[p].note : "";
    if (part.kind->about.role == Role::line && note.empty()) continue;
    const auto [known, is_new] = row_of.try_emplace({part.kind, note}, table.rows.size());
    if (is_new) {
      table.rows.push_back({{part.tag}, {std::string(part.kind->about.sentence)}, {note}});
    } else {
      table.rows[known->second][0].text += ", " + part.tag;
    }
  }
  return table;
}

/// "R1 and R2 move from 0 mm to 18.1 mm, done after 0.740 s": ways of one step, those alike together.
std::vector<std::string> motions_in_words(const std::vector<Way>& ways, std::size_t step,
                                          const units::World& world) {
  std::vector<std::pair<std::string, std::vector<std::string>>> alike;
  for (const Way& way : ways) {
    if (way.step != step) continue;
    const std::string words =
        fmt::format("from {} to {}, beginning after {} and taking {}", place_of(way, way.from, world).text,
                    place_of(way, way.to, world).text, seen(way.begins, Quantity::time, world).text,
                    seen(way.took, Quantity::time, world).text);
    const std::string name = way.signal.name.substr(0, way.signal.name.rfind('.'));
    const auto known =
        std::ranges::find(alike, words, &std::pair<std::string, std::vector<std::string>>::first);
    if (known == alike.end()) {
      alike.push_back({words, {name}});
    } else {
      known->second.push_back(name);
    }
  }
  std::vector<std::string> sentences;
  sentences.reserve(alike.size());
  for (const auto& [words, names] : alike)
    sentences.push_back(
        fmt::format("{} {} {}.", wording::joined(names, " and "), names.size() == 1 ? "goes" : "go", words));
  return sentences;
}

std::string wait_in_words(const Step& step, const units::World& world) {
  if (step.until.empty()) return "";
  std::vector<std::string> words;
  for (const Condition& condition : step.until) words.push_back(wording::of(condition, world));
  return fmt::format(" It waits for {}, {} at most.", wording::joined(words, " and "),
                     wording::stated(step.lasts, Quantity::time, world));
}

std::string step_in_words(std::size_t i, const std::vector<Way>& ways, const Subject& subject) {
  const Job& job = subject.job;
  const StepSpan& span = subject.trace.steps[i];
  const auto told = std::ranges::find(job.steps, span.name, &Step::name);
  std::string head =
      fmt::format("{}, {}", span.name, seen(span.end - span.begin, Quantity::time, job.world).text);
  std::string words;
  if (told != job.steps.end()) {
    const std::string set = commands_in_words(*told, job);
    words += (set.empty() ? "Nothing is set anew." : "Set: " + set + ".") + wait_in_words(*told, job.world);
  }
  for (const std::string& sentence : motions_in_words(ways, i, job.world)) words += " " + sentence;
  if (const auto readings = readings_at_end(i, subject); !readings.empty())
    words += " At its end " + wording::joined(readings, " and ") + ".";
  if (!span.finished) words += " It was not finished.";
  return html::element("li", html::element("strong", html::text(head)) + html::text(". " + words));
}

std::string control_in_words(const Control& control, const Job& job) {
  std::vector<std::string> when;
  for (const Condition& condition : control.when) when.push_back(wording::of(condition, job.world));
  const Step as_step{.name = {}, .commands = control.commands};
  return fmt::format("Each time {}: {}.", wording::joined(when, " and "), commands_in_words(as_step, job));
}

std::string promise(const Requirement& requirement, const units::World& world) {
  const std::string words = wording::of(requirement, world);
  if (words == requirement.name) return html::entry(words + ".");
  return html::element(
      "li", html::element("strong", html::text(requirement.name)) + html::text(": " + words + "."));
}

/// The steps behind the one in which the run ended.
std::string not_reached(const Subject& subject) {
  std::vector<std::string> names;
  for (const Step& step : subject.job.steps) {
    if (std::ranges::find(subject.trace.steps, step.name, &StepSpan::name) == subject.trace.steps.end())
      names.push_back(step.name);
  }
  if (names.empty()) return "";
  return html::paragraph("The run ended before: " + wording::joined(names, " and ") + ".");
}

std::string cycle(const Subject& subject) {
  if (subject.trace.steps.empty()) return html::paragraph("The run ended before the first step.");
  const std::vector<Way> ways = ways_of(subject);
  std::string steps;
  for (std::size_t i = 0; i < subject.trace.steps.size(); ++i) steps += step_in_words(i, ways, subject);
  return html::element("ol", steps) + not_reached(subject);
}

}  // namespace

std::string job_in_words(const Subject& subject) {
  const Job& job = subject.job;
  std::string text;
  if (!job.note.empty()) text += html::paragraph(job.note);
  text += html::heading(3, "What must hold");
  std::string promises;
  for (const Requirement& requirement : job.requirements) promises += promise(requirement, job.world);
  text += job.requirements.empty() ? html::paragraph("The job asks for nothing of its own.")
                                   : html::element("ul", promises);
  text +=
      html::paragraph("Besides, every step comes to its end, and no part sees more than its rated pressure.");
  text += html::heading(3, "The cycle, as it was worked out") + cycle(subject);
  if (!job.controls.empty()) {
    text += html::heading(3, "What acts by itself all the time");
    std::string controls;
    for (const Control& control : job.controls) controls += html::entry(control_in_words(control, job));
    text += html::element("ul", controls);
  }
  return text + html::heading(3, "The parts") + html::table(parts_by_task(job), "There are no parts.");
}

}  // namespace poise::papers
