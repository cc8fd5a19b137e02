// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <algorithm>
#include <nlohmann/json.hpp>

#include "study/fault_table.hpp"

namespace poise::study {
namespace {

using nlohmann::json;

json breaks_of(const FaultAnswer& answer) {
  json breaks = json::array();
  for (const Break& each : answer.breaks)
    breaks.push_back({{"name", each.name}, {"text", each.text}, {"severity", words_of(each.severity)}});
  return breaks;
}

json size_of(const FaultAnswer& answer, std::string_view size) {
  return {{"size", size},
          {"change", answer.change},
          {"outcome", word(answer.outcome)},
          {"breaks", breaks_of(answer)},
          {"ended", answer.ended}};
}

void add_telling(json& to, const FaultAnswer& answer) {
  to["shown"] = {{"by", words_of(answer.shown.by)},
                 {"when", when_shown(answer.shown, !answer.breaks.empty())},
                 {"text", answer.shown.text}};
  to["protects"] = answer.protects;
  to["left_pressed"] = answer.left_pressed;
}

json fault_to_json(const Job& job, const FaultResult& fault, std::size_t number) {
  const FaultPlace& place = fault.place;
  json out{{"number", number},
           {"name", place.name},
           {"part", place.part},
           {"fault", place.fault},
           {"sentence", place.sentence},
           {"source", place.source},
           {"change", change_of(job, place)},
           {"breaks_from", nullptr},
           {"severity", words_of(fault.severity())},
           {"sizes", json::array()}};
  for (const FaultAnswer& answer : fault.answers) {
    const bool slight = answer.t == 0.0;
    if (slight || answer.t == 1.0) out["sizes"].push_back(size_of(answer, slight ? "slight" : "grave"));
  }
  if (const std::string from = fault.breaks_from_in_words(); !from.empty()) out["breaks_from"] = from;
  add_telling(out, fault.telling() ? *fault.telling() : FaultAnswer{});
  return out;
}

json pair_to_json(const PairResult& pair, std::size_t number) {
  const FaultAnswer answer = pair.answer.value_or(FaultAnswer{});
  json out{{"number", number},
           {"name", pair.name},
           {"part", ""},
           {"fault", pair.name},
           {"sentence", ""},
           {"source", ""},
           {"change", answer.change},
           {"breaks_from", nullptr},
           {"severity", words_of(answer.severity)},
           {"sizes", json::array({size_of(answer, "grave")})}};
  add_telling(out, answer);
  return out;
}

}  // namespace

json faults_to_json(const Job& job, std::span<const FaultResult> faults, std::span<const PairResult> pairs,
                    std::span<const NotApplicable> not_applicable, Progress progress) {
  json out{{"kind", "faults"},
           {"title", job.title},
           {"wanted", progress.wanted},
           {"done", progress.done},
           {"faults", json::array()},
           {"pairs", json::array()},
           {"not_applicable", json::array()}};
  for (std::size_t i = 0; i < faults.size(); ++i) out["faults"].push_back(fault_to_json(job, faults[i], i));
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (pairs[i].answer) out["pairs"].push_back(pair_to_json(pairs[i], i));
  }
  for (const NotApplicable& each : not_applicable)
    out["not_applicable"].push_back({{"name", each.name}, {"reason", each.reason}});
  return out;
}

}  // namespace poise::study
