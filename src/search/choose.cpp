// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/choose.hpp"

#include <algorithm>
#include <cmath>

#include "search/climb.hpp"

namespace poise::search {
namespace {

constexpr std::size_t most_combinations = 600;  // tried one by one where nothing else is open
constexpr int most_rounds = 20;
constexpr std::size_t tried_further = 2;  // of the neighbours of one choice, with the settings brought along
constexpr double alike = 1e-2;            // of shares: less room than that is not worth a dearer part

std::vector<std::size_t> choices_of(const std::vector<OpenValue>& values) {
  std::vector<std::size_t> all;
  for (std::size_t j = 0; j < values.size(); ++j) {
    if (values[j].chosen()) all.push_back(j);
  }
  return all;
}

std::size_t place_of(const OpenValue& value, double chosen) {
  const auto far = [&](double choice) { return std::abs(value.share_of(choice) - value.share_of(chosen)); };
  return static_cast<std::size_t>(std::ranges::min_element(value.choices, {}, far) - value.choices.begin());
}

class Chooser {
 public:
  Chooser(Bench& bench, const ChoiceWish& wish)
      : bench_(bench),
        wish_(wish),
        choices_(choices_of(bench.values())),
        settings_(settings_of(bench.values())) {}

  const Trial& from(const Trial& start) {
    const Trial* best = &tuned(bench_.at(on_choices(start.at)));
    if (settings_.empty() && combinations() <= most_combinations) return *best_of_all(*best);
    bool moved = true;
    for (int round = 0; moved && round < most_rounds && may_go_on(); ++round) {
      moved = false;
      for (const std::size_t j : choices_) {
        const Trial* next = best_neighbour(*best, j);
        if (next == best) continue;
        best = next;
        moved = true;
      }
    }
    return *best;
  }

 private:
  bool is_banned(std::size_t j, double choice) const {
    return std::ranges::find(wish_.banned, std::pair(j, choice)) != wish_.banned.end();
  }
  bool may_go_on() const { return !bench_.stopped() && bench_.runs() < wish_.most_runs; }

  Point on_choices(Point point) const {
    for (const std::size_t j : choices_) {
      const OpenValue& value = bench_.values()[j];
      point[j] = value.choices[place_of(value, point[j])];
    }
    return point;
  }

  std::size_t combinations() const {
    std::size_t all = 1;
    for (const std::size_t j : choices_) {
      all *= bench_.values()[j].choices.size();
      if (all > most_combinations) break;
    }
    return all;
  }

  const Trial& tuned(const Trial& trial) {
    if (settings_.empty()) return trial;
    return climb(
        bench_, trial,
        {.moving = settings_, .radius = 0.1, .iterations = wish_.climb_iterations, .next_smallest = false});
  }

  const Trial* better_of(const Trial* a, const Trial* b) const {
    return better_choice(bench_, *b, *a, wish_.enough) ? b : a;
  }

  const Trial* best_of_all(const Trial& start) {
    std::vector<Point> points{start.at};
    for (const std::size_t j : choices_) {
      std::vector<Point> more;
      for (const Point& each : points) {
        for (const double choice : bench_.values()[j].choices) {
          if (is_banned(j, choice)) continue;
          more.push_back(each);
          more.back()[j] = choice;
        }
      }
      points = std::move(more);
    }
    const std::vector<const Trial*> trials = bench_.at(points);
    if (trials.empty()) return &start;
    const Trial* best = trials.front();
    for (const Trial* trial : trials) best = better_of(best, trial);
    return best;
  }

  /// Neighbours of one choice: the next and those two and four further in a series, all others of words and
  /// models.
  std::vector<Point> neighbours(const Point& point, std::size_t j) const {
    const OpenValue& value = bench_.values()[j];
    const auto count = static_cast<std::ptrdiff_t>(value.choices.size());
    const auto here = static_cast<std::ptrdiff_t>(place_of(value, point[j]));
    std::vector<Point> points;
    for (std::ptrdiff_t place = 0; place < count; ++place) {
      const std::ptrdiff_t away = std::abs(place - here);
      const bool near = away == 1 || away == 2 || away == 4;
      if (away == 0 || (value.is == OpenValue::Is::size && !near)) continue;
      if (is_banned(j, value.choices[static_cast<std::size_t>(place)])) continue;
      points.push_back(point);
      points.back()[j] = value.choices[static_cast<std::size_t>(place)];
    }
    return points;
  }

  bool is_next_smaller(const Trial& trial, const Trial& here, std::size_t j) const {
    const OpenValue& value = bench_.values()[j];
    return value.is == OpenValue::Is::size && place_of(value, trial.at[j]) + 1 == place_of(value, here.at[j]);
  }

  const Trial* best_neighbour(const Trial& here, std::size_t j) {
    std::vector<const Trial*> beside = bench_.at(neighbours(here.at, j));
    std::ranges::stable_sort(
        beside, [&](const Trial* a, const Trial* b) { return better_choice(bench_, *a, *b, wish_.enough); });
    // The next smaller is tried in any case: with the settings as they are for the one here it may look
    // hopeless.
    const auto smaller =
        std::ranges::find_if(beside, [&](const Trial* trial) { return is_next_smaller(*trial, here, j); });
    const Trial* also = smaller != beside.end() ? *smaller : nullptr;
    if (beside.size() > tried_further) beside.resize(tried_further);
    if (also && std::ranges::find(beside, also) == beside.end()) beside.push_back(also);
    const Trial* best = &here;
    for (const Trial* trial : beside) {
      if (!may_go_on()) break;
      best = better_of(best, &tuned(*trial));
    }
    return best;
  }

  Bench& bench_;
  const ChoiceWish& wish_;
  std::vector<std::size_t> choices_, settings_;
};

}  // namespace

double size_of(const std::vector<OpenValue>& values, const Point& point) {
  double size = 0.0;
  for (std::size_t j = 0; j < values.size(); ++j) {
    if (values[j].is == OpenValue::Is::size) size += values[j].share_of(point[j]);
  }
  return size;
}

double cost_of(const std::vector<OpenValue>& values, const Point& point) {
  double cost = 0.0;
  for (std::size_t j = 0; j < values.size(); ++j) {
    if (values[j].is == OpenValue::Is::model)
      cost += values[j].items[static_cast<std::size_t>(point[j])]->cost;
  }
  return cost;
}

bool better_choice(const Bench& bench, const Trial& a, const Trial& b, double enough) {
  const int by_fit = compared(a, b, enough, alike);
  if (by_fit != 0) return by_fit < 0;
  // However near to enough, what has less is not picked for being smaller or cheaper.
  const bool enough_of_a = a.smallest() >= enough, enough_of_b = b.smallest() >= enough;
  if (enough_of_a != enough_of_b) return enough_of_a;
  const double cheaper = cost_of(bench.values(), b.at) - cost_of(bench.values(), a.at);
  if (std::abs(cheaper) > 1e-9) return cheaper > 0.0;
  return size_of(bench.values(), a.at) < size_of(bench.values(), b.at) - 1e-9;
}

const Trial& choose(Bench& bench, const Trial& start, const ChoiceWish& wish) {
  return Chooser(bench, wish).from(start);
}

}  // namespace poise::search
