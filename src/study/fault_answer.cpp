// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/fault_answer.hpp"

#include <array>
#include <nlohmann/json.hpp>

namespace poise::study {
namespace {

using nlohmann::json;

constexpr std::array<std::string_view, 5> severities{"can hurt someone", "can damage", "works badly",
                                                     "not proven", "nothing breaks"};
constexpr std::array<std::string_view, 4> shown_by{"gauge", "switch", "motion", "nothing"};

template <class Word, std::size_t N>
Word read(const std::array<std::string_view, N>& words, const json& value) {
  const auto text = value.get<std::string>();
  for (std::size_t i = 0; i < N; ++i) {
    if (words[i] == text) return static_cast<Word>(i);
  }
  throw json::other_error::create(500, "no such word: " + text, &value);
}

template <class Word, std::size_t N>
std::string_view word(const std::array<std::string_view, N>& words, Word value) {
  return words[static_cast<std::size_t>(value)];
}

Outcome read_outcome(const json& value) {
  const auto text = value.get<std::string>();
  if (const auto outcome = outcome_of(text)) return *outcome;
  throw json::other_error::create(500, "no such word: " + text, &value);
}

FaultAnswer read_answer(const json& from) {
  FaultAnswer answer{.t = from.at("t"),
                     .change = from.at("change"),
                     .outcome = read_outcome(from.at("outcome")),
                     .breaks = {},
                     .severity = read<Severity>(severities, from.at("severity")),
                     .shown = {},
                     .protects = from.at("protects"),
                     .left_pressed = from.at("left_pressed"),
                     .ended = from.at("ended")};
  for (const json& each : from.at("breaks"))
    answer.breaks.push_back(
        {each.at("name"), each.at("text"), read<Severity>(severities, each.at("severity")), each.at("time")});
  const json& shown = from.at("shown");
  answer.shown = {read<Shown::By>(shown_by, shown.at("by")), shown.at("before"), shown.at("text")};
  return answer;
}

}  // namespace

std::string_view words_of(Severity severity) { return word(severities, severity); }
std::string_view words_of(Shown::By by) { return word(shown_by, by); }

Severity severity_of(rules::Harm harm) {
  switch (harm) {
    case rules::Harm::hurts:
      return Severity::hurts;
    case rules::Harm::damages:
      return Severity::damages;
    default:
      return Severity::works_badly;
  }
}

std::string_view when_shown(const Shown& shown, bool breaks) {
  switch (shown.by) {
    case Shown::By::gauge:
    case Shown::By::contact:
      if (!breaks) return "yes";
      return shown.before ? "before it breaks" : "when it breaks";
    case Shown::By::motion:
      return "only by what moves";
    default:
      return "by nothing in this circuit";
  }
}

json to_json(const FaultAnswer& answer) {
  json breaks = json::array();
  for (const Break& each : answer.breaks)
    breaks.push_back({{"name", each.name},
                      {"text", each.text},
                      {"severity", words_of(each.severity)},
                      {"time", each.time}});
  return {{"t", answer.t},
          {"change", answer.change},
          {"outcome", word(answer.outcome)},
          {"breaks", std::move(breaks)},
          {"severity", words_of(answer.severity)},
          {"shown",
           {{"by", words_of(answer.shown.by)},
            {"before", answer.shown.before},
            {"when", when_shown(answer.shown, !answer.breaks.empty())},
            {"text", answer.shown.text}}},
          {"protects", answer.protects},
          {"left_pressed", answer.left_pressed},
          {"ended", answer.ended}};
}

std::optional<FaultAnswer> answer_from(std::string_view json_text) {
  try {
    return read_answer(json::parse(json_text));
  } catch (const json::exception&) {
    return std::nullopt;
  }
}

}  // namespace poise::study
