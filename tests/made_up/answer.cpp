// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "made_up/answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <fstream>
#include <sstream>

#include "circuit/circuit.hpp"
#include "draw/show.hpp"
#include "draw/svg.hpp"
#include "draw/words.hpp"
#include "judge/csv.hpp"
#include "judge/json.hpp"
#include "judge/outcome.hpp"
#include "judge/schema.hpp"
#include "judge/show.hpp"
#include "solve/run.hpp"

namespace poise::made_up {
namespace {

using nlohmann::json;

/// Collects what is wrong with one answer.
class Looker {
 public:
  Looker(Answer& answer, Look look) : answer_(answer), closely_(look == Look::closely) {}

  void complaints(const Complaints& said, const std::string& text);
  void trace(const Trace& trace);
  void verdict(const Verdict& verdict, const Job& job, const Trace& trace);
  void drawing(const Job& job);

 private:
  void need(bool good, std::string sentence) {
    if (!good) answer_.wrong.push_back(std::move(sentence));
  }
  void finite(std::span<const double> values, std::string_view what) {
    const auto bad = std::ranges::find_if_not(values, [](double v) { return std::isfinite(v); });
    if (bad != values.end()) need(false, fmt::format("{} is {}", what, *bad));
  }
  void numbers(const std::string& text, std::string_view what);
  void no_nulls(const json& value, const std::string& at);

  Answer& answer_;
  bool closely_;
};

/// Words that stand where a number should.
void Looker::numbers(const std::string& text, std::string_view what) {
  std::string word;
  for (const char c : text + ' ') {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) {
      word += c;
      continue;
    }
    if (word == "nan" || word == "inf" || word == "infinity")
      need(false, fmt::format("{} says {}", what, word));
    word.clear();
  }
  const std::size_t none = text.find("no value");
  if (none != std::string::npos)
    need(false, fmt::format("{} says: {}", what, text.substr(none < 60 ? 0 : none - 60, 90)));
}

void Looker::complaints(const Complaints& said, const std::string& text) {
  need(!said.list.empty(), "refused without a complaint");
  for (const Remark& remark : said.list) {
    answer_.complaints.push_back(remark.sentence);
    need(remark.place.line > 0 && remark.place.column > 0, "no place: " + remark.sentence);
    // What would be right: an expectation, a range, a question, or what to do.
    bool remedy = false;
    for (const char* word :
         {"expected", "must", "need", "?", ";", "only", "cannot", "leave", "give", "state"})
      remedy = remedy || remark.sentence.find(word) != std::string::npos;
    need(remedy, "no remedy: " + remark.sentence);
    numbers(remark.sentence, "a complaint");
  }
  need(!said.text(text).empty(), "the complaints cannot be printed");
}

void Looker::trace(const Trace& trace) {
  finite(trace.time, "a time of the trace");
  need(std::ranges::is_sorted(trace.time), "the times of the trace do not rise");
  for (std::size_t i = 0; i < trace.signals.size(); ++i) finite(trace.values[i], trace.signals[i].name);
  for (std::size_t i = 0; i < trace.glances.signals.size(); ++i)
    finite(trace.glances.values[i], trace.glances.signals[i].name + " at a glance");
  for (const Event& event : trace.events)
    need(std::isfinite(event.time) && !event.sentence.empty(), "an event without a time or words");
  const Books& b = trace.books;
  finite(std::array{b.mass_at_start, b.mass_drawn, b.mass_residual, b.shaft, b.put_in, b.flow_heat,
                    b.friction_heat, b.delivered, b.stored_gain},
         "an account of the books");
  if (!trace.halt) return;
  need(trace.halt->sentence.size() > 20 && std::isfinite(trace.halt->time), "a halt without a sentence");
  numbers(trace.halt->sentence, "the halt");
}

/// A measured value without a number stands as null.
void Looker::no_nulls(const json& value, const std::string& at) {
  if (value.is_object() && value.contains("si"))
    need(!value["si"].is_null() && !value["value"].is_null(), at + " has no number");
  if (!value.is_structured()) return;
  for (const auto& [key, inner] : value.items()) no_nulls(inner, at + "/" + key);
}

void Looker::verdict(const Verdict& verdict, const Job& job, const Trace& trace) {
  const Outcome outcome = poise::outcome(verdict);
  answer_.ending = outcome == Outcome::held     ? Ending::held
                   : outcome == Outcome::broken ? Ending::broken
                   : verdict.books_close        ? Ending::too_early
                                                : Ending::books_open;
  const std::string page = show(verdict, job, false);
  numbers(page, "the verdict");
  const char* said = outcome == Outcome::held ? "HELD" : outcome == Outcome::broken ? "BROKEN" : "NOT PROVEN";
  need(page.find(said) != std::string::npos, "the verdict's page lacks its answer");
  if (!verdict.books_close) need(outcome == Outcome::not_proven, "proven by books that do not close");
  if (verdict.halt) need(outcome != Outcome::held, "held although the run did not come to its end");
  for (const RuleNotKept& rule : verdict.rules) need(!rule.remedy.empty(), "a rule without a remedy");
  if (!closely_) return;
  static const json schema = json::parse(std::ifstream(POISE_SOURCE_DIR "/docs/schema/verdict.schema.json"));
  const json told = json::parse(to_json(verdict, job).dump());
  for (const std::string& complaint : schema::complaints(told, schema)) need(false, "JSON: " + complaint);
  no_nulls(told, "JSON");
  std::ostringstream csv;
  write_csv(csv, trace, job.world);
  need(csv.str().find(",,") == std::string::npos, "the CSV has an empty field");
}

void Looker::drawing(const Job& job) {
  const std::vector<draw::Words> words = draw::words_of(job);
  const draw::Schematic schematic = draw::arrange(job.plan, words, draw::wishes_of(job));
  need(schematic.symbols.size() == job.plan.parts.size(), "the drawing lacks a part");
  const draw::Look look{.block = {.job = job.title}, .world = job.world};
  const std::string svg = draw::svg(draw::sheet_of(schematic, job.plan, words, look));
  need(svg.find("</svg>") != std::string::npos, "the drawing has no end");
  numbers(svg, "the drawing");
}

/// Whether a value was read as it was written; words are places in a list.
bool same(double written, double read) {
  if (std::isnan(written) || std::isnan(read)) return std::isnan(written) && std::isnan(read);
  return std::abs(written - read) <= 1e-9 * std::abs(written) + 1e-15;
}

void compare(const PlannedPart& written, const PlannedPart& read, std::vector<std::string>& wrong) {
  const auto complain = [&](std::string_view what) {
    wrong.push_back(fmt::format("{} of {} is not read as it was written", what, written.tag));
  };
  if (written.kind != read.kind) return complain("the kind");
  for (const Parameter& p : written.kind->parameters) {
    const auto a = written.values.points(p.name), b = read.values.points(p.name);
    const auto alike = [](const CurvePoint& one, const CurvePoint& other) {
      return same(one.x, other.x) && same(one.y, other.y);
    };
    if (!same(written.values[p.name], read.values[p.name]) || !std::ranges::equal(a, b, alike))
      complain(p.name);
  }
}

void compare(const Plan& written, const Plan& read, std::vector<std::string>& wrong) {
  if (written.parts.size() != read.parts.size()) wrong.emplace_back("parts were lost while reading");
  for (const PlannedPart& part : written.parts) {
    const auto found = std::ranges::find(read.parts, part.tag, &PlannedPart::tag);
    if (found != read.parts.end()) compare(part, *found, wrong);
  }
}

void answer(const std::string& text, const Plan* plan, Look look, long most_steps, Answer& answer) {
  Looker looker(answer, look);
  const auto read = read_job(text, "made-up.toml");
  if (const auto* said = std::get_if<Complaints>(&read)) return looker.complaints(*said, text);
  const Job& job = std::get<Job>(read);
  if (plan) compare(*plan, job.plan, answer.wrong);
  const Circuit circuit = build(job.plan);
  solve::RunOptions options;
  options.most_steps = most_steps;
  options.glanced_at = signals_of_rules(job);
  options.controls = job.controls;
  const Trace trace = solve::run(circuit, job.steps, signals_needed(job), options);
  answer.steps = trace.solver_steps;
  answer.mass_share = trace.books.mass_share();
  answer.energy_share = trace.books.energy_share();
  if (trace.halt) answer.halt = trace.halt->sentence;
  looker.trace(trace);
  looker.verdict(judge(job, trace), job, trace);
  if (look == Look::closely) looker.drawing(job);
}

Answer timed(const std::string& text, const Plan* plan, Look look, long most_steps) {
  Answer all;
  const std::clock_t begin = std::clock();
  try {
    answer(text, plan, look, most_steps, all);
  } catch (const std::exception& thrown) {
    all.wrong.push_back(fmt::format("thrown: {}", thrown.what()));
  }
  all.cpu_seconds = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
  return all;
}

}  // namespace

std::string_view word(Ending ending) {
  constexpr std::array words{"refused", "held", "broken", "too early", "books open"};
  return words[static_cast<std::size_t>(ending)];
}

Answer answer_to(const MadeUpJob& job, Look look, long most_steps) {
  return timed(job.text(), &job.plan, look, most_steps);
}

Answer answer_to(const std::string& text, Look look, long most_steps) {
  return timed(text, nullptr, look, most_steps);
}

}  // namespace poise::made_up
