// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/spread_answer.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>

namespace poise::study {
namespace {

constexpr double least = -std::numeric_limits<double>::infinity();

/// What a promise leaves of itself; −∞ where it is broken and nothing says by how much.
double room(const Kept& kept) { return kept.share.value_or(kept.mark == Mark::broken ? least : 1.0); }

using Machines = std::vector<const Row*>;

Eigen::MatrixXd places(const Spread& spread, const Machines& machines) {
  Eigen::MatrixXd all(static_cast<Eigen::Index>(machines.size()),
                      static_cast<Eigen::Index>(spread.loose().size()));
  for (Eigen::Index m = 0; m < all.rows(); ++m) {
    const std::vector<double> off = spread.off(machines[static_cast<std::size_t>(m)]->number);
    for (Eigen::Index i = 0; i < all.cols(); ++i)
      all(m, i) = place_of(spread.loose()[static_cast<std::size_t>(i)], off[static_cast<std::size_t>(i)]);
  }
  return all;
}

/// Fits kept for the sets of machines that have a margin: most promises have one on all of them.
class Fits {
 public:
  Fits(const Spread& spread, const Machines& machines)
      : machines_(machines), places_(places(spread, machines)) {}

  Drivers drivers_of(std::size_t promise) {
    std::vector<Eigen::Index> with;
    for (std::size_t m = 0; m < machines_.size(); ++m) {
      if (machines_[m]->promises[promise].margin) with.push_back(static_cast<Eigen::Index>(m));
    }
    Eigen::VectorXd margin(static_cast<Eigen::Index>(with.size()));
    for (Eigen::Index m = 0; m < margin.size(); ++m)
      margin(m) =
          *machines_[static_cast<std::size_t>(with[static_cast<std::size_t>(m)])]->promises[promise].margin;
    auto found = fits_.find(with);
    if (found == fits_.end()) found = fits_.emplace(with, DriverFit(places_(with, Eigen::all))).first;
    return found->second.drivers_of(margin);
  }

 private:
  const Machines& machines_;
  Eigen::MatrixXd places_;
  std::map<std::vector<Eigen::Index>, DriverFit> fits_;
};

std::vector<Pull> pulls_of(const Spread& spread, const Drivers& drivers) {
  if (!drivers.enough) return {};
  std::vector<Pull> pulls(spread.loose().size());
  for (const Driver& driver : drivers.ranked) {
    if (driver.share <= 0.0) continue;
    const auto& [below, above, of] = spread.loose()[driver.loose].tolerance;
    pulls[driver.loose] = {.down = 2.0 * driver.slope * below / (below + above),
                           .up = -2.0 * driver.slope * above / (below + above)};
  }
  return pulls;
}

/// Values whose mean place among the broken machines is off the middle by more than chance brings it.
std::vector<std::pair<std::size_t, double>> typical_of(const Spread& spread, const Machines& broken) {
  constexpr std::size_t fewest = 3;
  constexpr double beyond_chance = 3.5;  // of the deviation of a mean of places
  std::vector<std::pair<std::size_t, double>> typical;
  if (broken.size() < fewest) return typical;
  const Eigen::RowVectorXd mean = places(spread, broken).colwise().mean();
  const double deviation = 1.0 / std::sqrt(3.0 * static_cast<double>(broken.size()));
  std::vector<Eigen::Index> order;
  for (Eigen::Index i = 0; i < mean.size(); ++i) {
    if (std::abs(mean(i)) > beyond_chance * deviation) order.push_back(i);
  }
  std::ranges::stable_sort(order, std::ranges::greater{}, [&](Eigen::Index i) { return std::abs(mean(i)); });
  for (const Eigen::Index i : order) {
    const auto loose = static_cast<std::size_t>(i);
    typical.emplace_back(loose, off_at(spread.loose()[loose], mean(i)));
  }
  return typical;
}

void look_at(PromiseSpread& of, std::size_t place, const Spread& spread, const Machines& machines) {
  Machines broken;
  double least_room = std::numeric_limits<double>::infinity(), nearest = least_room;
  for (const Row* row : machines) {
    const Kept& kept = row->promises[place];
    if (kept.margin) of.margins.push_back(*kept.margin);
    if (kept.mark == Mark::unseen) {
      ++of.unseen;
      continue;
    }
    if (room(kept) < least_room) {
      least_room = room(kept);
      of.worst = row->number;
      of.worst_kept = kept;
    }
    if (kept.mark == Mark::held) continue;
    broken.push_back(row);
    if (!kept.margin) ++of.without_number;
    const std::vector<double> off = spread.off(row->number);
    const double length = std::inner_product(off.begin(), off.end(), off.begin(), 0.0);
    if (length < nearest) {
      nearest = length;
      of.nearest_broken = row->number;
    }
  }
  of.broken = share_of(static_cast<long>(broken.size()), static_cast<long>(machines.size()) - of.unseen);
  of.typical = typical_of(spread, broken);
  std::ranges::sort(of.margins);
}

}  // namespace

std::optional<double> PromiseSpread::room_below(double share) const {
  const auto without = static_cast<double>(without_number), with = static_cast<double>(margins.size());
  if (margins.empty()) return std::nullopt;
  const double at = share * (without + with - 1.0) - without;
  if (at < 0.0) return std::nullopt;
  return quantile(margins, with > 1.0 ? std::min(at / (with - 1.0), 1.0) : 0.0);
}

SpreadAnswer answer_of(const Spread& spread, std::span<const Promise> promises, std::span<const Row> rows,
                       long wanted) {
  SpreadAnswer answer{.wanted = wanted};
  Machines machines;
  const Row* nominal = nullptr;
  for (const Row& row : rows) {
    if (row.number == 0)
      nominal = &row;
    else if (row.number <= wanted)
      machines.push_back(&row);
  }
  long held = 0;
  for (const Row* row : machines) {
    held += row->outcome == Outcome::held;
    answer.broken += row->outcome == Outcome::broken;
    answer.not_proven += row->outcome == Outcome::not_proven;
  }
  answer.kept = share_of(held, static_cast<long>(machines.size()));
  Fits fits(spread, machines);
  double least_room = std::numeric_limits<double>::infinity();
  for (std::size_t p = 0; p < promises.size(); ++p) {
    PromiseSpread of{.promise = promises[p]};
    if (nominal) of.nominal = nominal->promises[p];
    look_at(of, p, spread, machines);
    of.drivers = fits.drivers_of(p);
    of.pulls = pulls_of(spread, of.drivers);
    if (of.worst && room(of.worst_kept) < least_room) {
      least_room = room(of.worst_kept);
      answer.worst = of.worst;
      answer.worst_promise = p;
    }
    answer.promises.push_back(std::move(of));
  }
  return answer;
}

}  // namespace poise::study
