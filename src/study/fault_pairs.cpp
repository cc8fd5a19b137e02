// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Faults two at a time.
#include <algorithm>

#include "study/fault_order.hpp"
#include "study/fault_parts.hpp"

namespace poise::study {
namespace {

using Of = FaultPlace::Of;

/// The greatest size at which a fault alone breaks nothing and is proven to; none where the slightest does
/// not hold.
std::optional<double> greatest_held(const FaultResult& result) {
  std::optional<double> greatest;
  double least_other = 2.0;
  for (const FaultAnswer& answer : result.answers) {
    if (answer.outcome != Outcome::held) least_other = std::min(least_other, answer.t);
  }
  for (const FaultAnswer& answer : result.answers) {
    const bool held = answer.outcome == Outcome::held && answer.t < least_other;
    if (held && (!greatest || answer.t > *greatest)) greatest = answer.t;
  }
  return greatest;
}

enum class OilProperty { none, temperature, viscosity, air, fluid };
OilProperty property_of(Of of) {
  switch (of) {
    case Of::oil_colder:
    case Of::oil_hotter:
      return OilProperty::temperature;
    case Of::oil_thinner:
    case Of::oil_thicker:
    case Of::other_fluid:
      return OilProperty::viscosity;
    case Of::oil_aerated:
    case Of::sucks_air:
      return OilProperty::air;
    default:
      return OilProperty::none;
  }
}

bool same_part(const FaultPlace& a, const FaultPlace& b) {
  const auto is = [](int p, int q) { return p >= 0 && p == q; };
  return is(a.on, b.on) || is(a.on, b.other) || is(a.other, b.on) || is(a.other, b.other);
}

bool same_place(const FaultPlace& a, const FaultPlace& b) {
  const OilProperty property = property_of(a.of);
  return same_part(a, b) || (splits_a_step(a) && splits_a_step(b)) ||
         (property != OilProperty::none && property == property_of(b.of));
}

/// What is put in first: places of commands in steps must still be good, and steps are cut in two last.
bool goes_first(const FaultPlace& a, const FaultPlace& b) {
  const auto rank = [](const FaultPlace& place) {
    return splits_a_step(place) ? 2 : place.of == Of::forgotten ? 1 : 0;
  };
  if (rank(a) != rank(b)) return rank(a) < rank(b);
  return a.command > b.command;
}

}  // namespace

std::vector<FaultPair> pairs_of(std::span<const FaultResult> results) {
  std::vector<FaultPair> pairs;
  for (std::size_t a = 0; a < results.size(); ++a) {
    const auto t_a = greatest_held(results[a]);
    if (!t_a) continue;
    for (std::size_t b = a + 1; b < results.size(); ++b) {
      const auto t_b = greatest_held(results[b]);
      if (t_b && !same_place(results[a].place, results[b].place)) pairs.push_back({a, b, *t_a, *t_b});
    }
  }
  return pairs;
}

std::string name_of(const FaultPair& pair, const std::vector<FaultPlace>& places) {
  return places[pair.a].name + ", with " + places[pair.b].name;
}

std::optional<Job> with_pair(const Job& job, const std::vector<FaultPlace>& places, const FaultPair& pair) {
  const bool a_first = goes_first(places[pair.a], places[pair.b]);
  const std::size_t first = a_first ? pair.a : pair.b, second = a_first ? pair.b : pair.a;
  const auto once = with_fault(job, places[first], a_first ? pair.t_a : pair.t_b);
  return once ? with_fault(*once, places[second], a_first ? pair.t_b : pair.t_a) : std::nullopt;
}

FaultCase case_of(const Nominal& nominal, const std::vector<FaultPlace>& places, const FaultPair& pair,
                  const RunProgress& progress) {
  const FaultPlace &a = places[pair.a], &b = places[pair.b];
  FaultCase done;
  if (auto faulty = with_pair(nominal.job, places, pair)) {
    const int split = splits_a_step(a) ? a.step : splits_a_step(b) ? b.step : -1;
    FaultyRun run = run_faulty(nominal, *std::move(faulty), split, progress);
    done.answer = answer_of(nominal, run, std::vector{a.part, b.part});
    done.verdict = std::move(run.verdict);
  } else {
    done.answer.ended = "the two do not go together";
  }
  done.answer.change = change_at(nominal.job, a, pair.t_a) + ", with " + change_at(nominal.job, b, pair.t_b);
  return done;
}

std::vector<PairResult> results_of(std::span<const FaultPair> pairs, const std::vector<FaultPlace>& places,
                                   std::span<const Row> rows) {
  std::vector<PairResult> results;
  for (const FaultPair& pair : pairs) results.push_back({name_of(pair, places), pair, std::nullopt});
  for (const Row& row : rows) {
    if (row.number >= 0 && row.number < static_cast<long>(results.size()))
      results[row.number].answer = answer_from(row.detail);
  }
  return results;
}

}  // namespace poise::study
