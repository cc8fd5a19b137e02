// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/spread_json.hpp"

#include <fmt/format.h>

#include <cmath>

#include "study/spread_words.hpp"

namespace poise::study {
namespace {

using nlohmann::json;

json number(const std::optional<double>& value) {
  return value && std::isfinite(*value) ? json(*value) : json(nullptr);
}

json share_to_json(const Share& share) {
  return {{"share", share.value}, {"low", share.low}, {"high", share.high}, {"text", words_of(share)}};
}

json margins_to_json(const PromiseSpread& of, const Job& job) {
  if (of.margins.empty()) return nullptr;
  const auto at = [&](double share) -> json {
    const auto room = of.room_below(share);
    return {{"value",
             room ? json(units::difference_in_unit(*room, of.promise.quantity, job.world)) : json(nullptr)},
            {"text", room_in_words(of, share, job)}};
  };
  return {{"least", at(0.0)}, {"p05", at(0.05)}, {"median", at(0.5)}, {"p95", at(0.95)}, {"most", at(1.0)}};
}

json histogram_to_json(const PromiseSpread& of, const Job& job) {
  constexpr std::size_t bins = 24;
  if (of.margins.empty()) return nullptr;
  const Histogram bars = histogram(of.margins, bins);
  return {{"from", units::difference_in_unit(bars.from, of.promise.quantity, job.world)},
          {"to", units::difference_in_unit(bars.to, of.promise.quantity, job.world)},
          {"unit", job.world[of.promise.quantity]},
          {"counts", bars.counts}};
}

json drivers_to_json(const PromiseSpread& of, const Spread& spread) {
  json all = json::array();
  if (!of.drivers.enough) return all;
  constexpr double worth_telling = 0.005;
  for (const Driver& driver : of.drivers.ranked) {
    if (driver.share < worth_telling) break;
    const std::string_view more = !driver.straight     ? "both"
                                  : driver.slope < 0.0 ? "takes room"
                                                       : "gives room";
    all.push_back({{"name", name_of(spread.loose()[driver.loose], spread.job())},
                   {"share", driver.share},
                   {"more", more},
                   {"text", fmt::format("{:.0f} %", 100.0 * driver.share)}});
  }
  return all;
}

json nearest_to_json(const std::optional<Nearest>& nearest, const Spread& spread) {
  if (!nearest) return nullptr;
  json changes = json::array();
  for (std::size_t i = 0; i < nearest->off.size(); ++i) {
    if (nearest->off[i] == 0.0) continue;
    changes.push_back({{"name", name_of(spread.loose()[i], spread.job())},
                       {"off", nearest->off[i]},
                       {"text", off_in_words(spread.loose()[i], nearest->off[i], spread.job())}});
  }
  return {{"found", nearest->found},
          {"inside", nearest->found && nearest->reach <= 1.0},
          {"reach", nearest->found ? json(nearest->reach) : json(nullptr)},
          {"text", nearest_in_words(nearest, spread)},
          {"changes", changes}};
}

json promise_to_json(const PromiseSpread& of, const std::optional<Nearest>& nearest, const Spread& spread) {
  const Job& job = spread.job();
  json worst = nullptr;
  if (of.worst) worst = {{"machine", *of.worst}, {"text", kept_in_words(of.worst_kept, of.promise, job)}};
  return {{"name", of.promise.name},
          {"promised", of.promise.promised},
          {"quantity", units::name(of.promise.quantity)},
          {"unit", job.world[of.promise.quantity]},
          {"nominal",
           {{"answer", word(of.nominal.mark)},
            {"share", number(of.nominal.share)},
            {"text", kept_in_words(of.nominal, of.promise, job)}}},
          {"broken", of.broken.of},
          {"not_seen", of.unseen},
          {"without_number", of.without_number},
          {"share_broken", share_to_json(of.broken)},
          {"margins", margins_to_json(of, job)},
          {"histogram", histogram_to_json(of, job)},
          {"worst", worst},
          {"drivers", drivers_to_json(of, spread)},
          {"together", of.drivers.enough ? json(of.drivers.together) : json(nullptr)},
          {"typical", typical_in_words(of, spread, 3)},
          {"nearest", nearest_to_json(nearest, spread)}};
}

json inputs_to_json(const Spread& spread) {
  const Job& job = spread.job();
  json all = json::array();
  for (const search::Loose& loose : spread.loose()) {
    const auto at = [&](double off) {
      return units::show(loose.at(off), quantity_of(loose, job), job.world);
    };
    all.push_back({{"name", name_of(loose, job)},
                   {"stated", at(0.0)},
                   {"low", at(-1.0)},
                   {"high", at(1.0)},
                   {"from", words_of(loose.from)}});
  }
  return all;
}

}  // namespace

json to_json(const SpreadAnswer& answer, const std::vector<std::optional<Nearest>>& nearest,
             const Spread& spread) {
  json share = share_to_json(answer.kept);
  share["text"] = answer_in_words(answer);
  json worst = nullptr;
  if (answer.worst) {
    const PromiseSpread& of = answer.promises[answer.worst_promise];
    worst = {{"machine", *answer.worst},
             {"promise", of.promise.name},
             {"text", kept_in_words(of.worst_kept, of.promise, spread.job())}};
  }
  json promises = json::array();
  for (std::size_t p = 0; p < answer.promises.size(); ++p)
    promises.push_back(
        promise_to_json(answer.promises[p], p < nearest.size() ? nearest[p] : std::nullopt, spread));
  return {{"kind", "spread"},
          {"title", spread.job().title},
          {"wanted", answer.wanted},
          {"done", answer.kept.all},
          {"kept", answer.kept.of},
          {"broken", answer.broken},
          {"not_proven", answer.not_proven},
          {"answer", share},
          {"shape", shape_in_words(spread)},
          {"inputs", inputs_to_json(spread)},
          {"worst", worst},
          {"promises", promises},
          {"notice", notice}};
}

json to_json(const Nearest& nearest) {
  return {{"found", nearest.found},
          {"reach", nearest.reach},
          {"off", nearest.off},
          {"mark", word(nearest.kept.mark)},
          {"margin", number(nearest.kept.margin)},
          {"share", number(nearest.kept.share)}};
}

std::optional<Nearest> nearest_of(const json& json) {
  try {
    Nearest nearest{.found = json.at("found"), .reach = json.at("reach"), .off = json.at("off")};
    nearest.kept.mark = mark_of(json.at("mark").get<std::string>()).value_or(Mark::unseen);
    if (json.at("margin").is_number()) nearest.kept.margin = json.at("margin").get<double>();
    if (json.at("share").is_number()) nearest.kept.share = json.at("share").get<double>();
    return nearest;
  } catch (const nlohmann::json::exception&) {
    return std::nullopt;
  }
}

}  // namespace poise::study
