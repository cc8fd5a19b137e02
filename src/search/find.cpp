// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/find.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job/outline.hpp"
#include "job/written.hpp"
#include "search/bounds.hpp"
#include "search/choose.hpp"
#include "search/climb.hpp"
#include "search/explore.hpp"
#include "search/graduation.hpp"
#include "search/harden.hpp"
#include "search/seen.hpp"
#include "search/settle.hpp"

namespace poise::search {
namespace {

constexpr std::size_t fewest_spread = 16, spread_per_value = 8, most_spread = 64;
constexpr std::size_t climbs = 2;
constexpr int relaxed_iterations = 8, final_iterations = 26;
constexpr long most_runs = 1200, runs_on_conflicts = 600;

/// Settings, and sizes as if they came in every size.
std::vector<std::size_t> numbers_of(const std::vector<OpenValue>& values) {
  std::vector<std::size_t> all;
  for (std::size_t j = 0; j < values.size(); ++j) {
    if (values[j].has_order()) all.push_back(j);
  }
  return all;
}

const Trial& better_of(const Trial& a, const Trial& b) { return better(b, a, no_limit) ? b : a; }

/// The trial nearest to holding of those that keep more rules of the trade than this one does, if it is not
/// far from holding.
const Trial* with_fewer_rules_broken(const Bench& bench, const Trial& top) {
  constexpr double near = 1.0;
  const Trial* best = nullptr;
  for (const auto& [point, trial] : bench.tried()) {
    if (!trial->runs || trial->rules > top.rules - 0.5 || trial->missing > near) continue;
    if (!best || std::pair(trial->rules, trial->missing) < std::pair(best->rules, best->missing))
      best = trial.get();
  }
  return best;
}

/// Bans the items that are too weak; where the one taken is among them the cheapest other takes its place.
void ban_weak(const OpenValue& value, std::size_t j, const Seen& seen, const units::World& world,
              ChoiceWish& wish, Point& point) {
  std::optional<double> strong;
  bool taken_is_weak = false;
  for (const double choice : value.choices) {
    const bool weak = !too_weak(*value.items[static_cast<std::size_t>(choice)], seen, world).empty();
    if (weak) wish.banned.emplace_back(j, choice);
    if (weak && choice == point[j]) taken_is_weak = true;
    const bool banned = std::ranges::find(wish.banned, std::pair(j, choice)) != wish.banned.end();
    if (!banned && !strong) strong = choice;
  }
  if (taken_is_weak && strong) point[j] = *strong;
}

/// Chooses again while a model that was taken is too weak for what its part sees.
const Trial& choose_strong(Bench& bench, const Trial& start, const Job& job, const FindWish& wish) {
  constexpr int most_times = 4;
  ChoiceWish choice{.enough = wish.enough, .most_runs = most_runs};
  const std::vector<OpenValue>& values = bench.values();
  const Trial* top = &choose(bench, start, choice);
  for (int i = 0; i < most_times && !bench.stopped(); ++i) {
    const std::vector<Seen> seen = seen_by_models(job, values, top->at);
    Point next = top->at;
    for (std::size_t j = 0; j < values.size(); ++j) {
      if (values[j].is == OpenValue::Is::model) ban_weak(values[j], j, seen[j], job.world, choice, next);
    }
    if (next == top->at) break;
    top = &choose(bench, bench.at(next), choice);
  }
  return *top;
}

/// Explores, climbs from the best places, chooses sizes, and settles on what people set.
const Trial& search_all(Bench& bench, const FindWish& wish, const Job& job) {
  const std::vector<OpenValue>& values = bench.values();
  const std::size_t count = std::clamp(spread_per_value * values.size(), fewest_spread, most_spread);
  std::vector<const Trial*> starts = explore(bench, count);
  const bool choices = has_choices(values);
  const Trial* top = starts.front();
  for (std::size_t i = 0; i < std::min(climbs, starts.size()); ++i) {
    top = &better_of(*top, climb(bench, *starts[i],
                                 {.moving = numbers_of(values),
                                  .iterations = choices ? relaxed_iterations : final_iterations,
                                  .next_smallest = !choices}));
    if (top->holds() && i == 0 && !choices) break;
  }
  if (const Trial* fairer = with_fewer_rules_broken(bench, *top)) {
    top = &better_of(*top, climb(bench, *fairer,
                                 {.moving = numbers_of(values),
                                  .radius = 0.1,
                                  .iterations = relaxed_iterations,
                                  .next_smallest = false,
                                  .rules_at_most = fairer->rules}));
  }
  if (choices) {
    top = &choose_strong(bench, *top, job, wish);
    top =
        &climb(bench, *top, {.moving = settings_of(values), .radius = 0.05, .iterations = final_iterations});
  }
  return settle(bench, *top, job.world);
}

job::Written word_for(const OpenValue& open, double value, const Job& job) {
  const Parameter& line = job.plan.parts[open.at.part].kind->parameters[open.at.parameter];
  if (open.is == OpenValue::Is::model) return {open.items[static_cast<std::size_t>(value)]->model};
  if (open.is == OpenValue::Is::word) return {std::string(line.words[static_cast<std::size_t>(value)])};
  if (open.quantity == Quantity::none) return {std::stod(written(value, open.quantity, job.world))};
  return {written(value, open.quantity, job.world)};
}

std::string text_of(const job::Written& word) {
  if (const auto* number = std::get_if<double>(&word.is)) return fmt::format("{:g}", *number);
  return std::get<std::string>(word.is);
}

/// The text with the values of edits in place of what stands there, and not a byte changed besides: not even
/// the blanks before a comment, as `job::edited` would. None where something does not stand where it should.
std::optional<std::string> with_words(std::string_view text, const std::vector<job::Edit>& edits) {
  const job::Outline outline = job::outline_of(text);
  std::vector<std::pair<job::Stretch, std::string>> words;
  for (const job::Edit& edit : edits) {
    const job::Spot spot = job::spot_of(outline, edit.at);
    if (!spot.value) return std::nullopt;
    words.emplace_back(spot.value->at, job::in_toml(edit.value));
  }
  std::ranges::sort(words, {}, [](const auto& word) { return word.first.begin; });
  std::string replaced;
  std::size_t done = 0;
  for (const auto& [at, word] : words) {
    replaced += text.substr(done, at.begin - done);
    replaced += word;
    done = at.end;
  }
  return replaced += text.substr(done);
}

/// How many runs a search usually takes, for the share done.
double expected_runs(const std::vector<OpenValue>& values, const FindWish& wish) {
  const double few = 60.0 + 60.0 * static_cast<double>(values.size());
  return (has_choices(values) ? few + 0.5 * most_runs : few) * (wish.worst ? 5.0 : 1.0);
}

}  // namespace

Found find(std::string_view text, const Job& job, const FindWish& wish) {
  Found found;
  std::vector<OpenValue> open_values = open_values_of(job);
  for (const OpenValue& open : open_values) {
    if (open.is == OpenValue::Is::model && open.items.empty())
      found.values.push_back({.open = open, .passed_over = shelf_of(job, open.at).rejected});
  }
  if (!found.values.empty()) {
    found.text = text;
    return found;
  }
  const double expected = expected_runs(open_values, wish);
  Bench bench(job, std::move(open_values), [&](long runs) {
    const double share = static_cast<double>(runs) / expected;
    return !wish.progress || wish.progress(std::min(share, 0.99));
  });
  const Trial* nominal = &search_all(bench, wish, job);
  if (wish.worst && nominal->runs) nominal = &harden(bench, Point(nominal->at), job, wish.enough);
  const Trial& best = *nominal;
  found.stopped = bench.stopped();
  if (found.stopped) return found;
  const std::vector<Edges> edges =
      best.runs && best.holds() ? edges_of(bench, best) : std::vector<Edges>(bench.values().size());
  if (!best.holds()) found.conflicts = conflicts_of(bench, best, runs_on_conflicts);
  std::vector<std::vector<Rejected>> others(bench.values().size());
  if (best.runs) {
    others = passed_over(bench, job, best);
    found.too_weak = models_too_weak(bench, job, best);
  }
  std::vector<job::Edit> edits;
  for (std::size_t j = 0; j < bench.values().size(); ++j) {
    const OpenValue& open = bench.values()[j];
    const job::Written word = word_for(open, best.at[j], job);
    edits.push_back({.at = open.at.way, .value = word});
    found.values.push_back({open, best.at[j], text_of(word), edges[j]});
    if (open.is != OpenValue::Is::model) continue;
    found.values.back().cost = open.items[static_cast<std::size_t>(best.at[j])]->cost;
    found.values.back().passed_over = std::move(others[j]);
  }
  found.trial = best;
  if (auto replaced = with_words(text, edits)) {
    found.text = *std::move(replaced);
  } else {
    found.complaint = "an open word was not found in the text again";
  }
  found.stock = job.stock;
  found.runs = bench.runs();
  found.stopped = bench.stopped();
  return found;
}

}  // namespace poise::search
