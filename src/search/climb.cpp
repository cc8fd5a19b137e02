// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/climb.hpp"

#include <algorithm>
#include <cmath>

#include "search/linear_model.hpp"

namespace poise::search {
namespace {

constexpr double difference = 0.01, finest_difference = 4e-4;  // of a value's range, for slopes
constexpr double smallest_radius = 4e-3;  // about one step of what people set: settling goes on from there
constexpr double largest_radius = 0.4;
constexpr double no_slope = 1e-4;   // less is the noise of a run
constexpr double alike = 2e-3;      // shares this close to the smallest are at their best with it
constexpr double given_way = 5e-4;  // of a share at its best, while the next is lifted
constexpr double gain = 5e-4;       // less is no gain
constexpr double sharp = 400.0;
constexpr int most_settled = 2;  // times that the smallest shares get a floor

class Climb {
 public:
  Climb(Bench& bench, const Trial& start, const ClimbWish& wish)
      : bench_(bench), wish_(wish), here_(&start), radius_(wish.radius) {}

  const Trial& top() {
    floors_.assign(here_->shares.size(), std::nullopt);
    counted_.assign(here_->shares.size(), wish_.only.empty());
    for (const std::size_t i : wish_.only) counted_[i] = true;
    for (const std::size_t i : wish_.kept) floors_[i] = given_way;
    if (wish_.moving.empty() || !here_->runs) return *here_;
    for (int i = 0; i < wish_.iterations && !bench_.stopped(); ++i) {
      if (!slopes_are_here_) find_slopes();
      if (climb_a_step()) continue;
      if (!slopes_are_fresh_) {
        slopes_are_here_ = false;
        continue;
      }
      slopes_are_here_ = by_ <= radius_;
      if (radius_ > smallest_radius) continue;
      if (!wish_.next_smallest || !settle_the_smallest()) break;
    }
    return *here_;
  }

 private:
  const OpenValue& value(std::size_t j) const { return bench_.values()[wish_.moving[j]]; }
  double share(std::size_t j) const { return value(j).share_of(here_->at[wish_.moving[j]]); }

  Point moved(const std::vector<double>& step) const {
    Point point = here_->at;
    for (std::size_t j = 0; j < step.size(); ++j) {
      if (step[j] != 0.0) point[wish_.moving[j]] = value(j).at_share(share(j) + step[j]);
    }
    return point;
  }

  double missing(const Trial& trial) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < counted_.size(); ++i) {
      if (counted_[i]) sum += std::max(-trial.shares[i], 0.0);
    }
    return sum;
  }

  bool above_floors(const Trial& trial) const {
    for (std::size_t i = 0; i < floors_.size(); ++i) {
      if (counted_[i] && floors_[i] && trial.shares[i] < *floors_[i] - given_way) {
        if (wish_.kept.empty() || !holds_as_far_as_seen(trial, i)) return false;
      }
    }
    return true;
  }

  bool moves(std::size_t i) const {
    return std::ranges::any_of(lines_[i].slope, [](double s) { return std::abs(s) > no_slope; });
  }

  /// By how much the smooth minimum of the shares that are not settled is above the one here. Those that
  /// nothing moves do not count: they would hide the others.
  double gained(const Trial& trial) const {
    std::vector<double> there, here;
    for (std::size_t i = 0; i < floors_.size(); ++i) {
      if (floors_[i] || !counted_[i]) continue;
      if (!moves(i) && std::abs(trial.shares[i] - here_->shares[i]) < no_slope) continue;
      there.push_back(trial.shares[i]);
      here.push_back(here_->shares[i]);
    }
    return there.empty() ? 0.0 : smooth_minimum(there, sharp) - smooth_minimum(here, sharp);
  }

  bool higher(const Trial& trial) const {
    if (!trial.runs || trial.shares.size() != floors_.size()) return false;
    if (trial.rules > std::max(wish_.rules_at_most, 0.0) + 0.5) return false;
    if (!wish_.kept.empty()) return above_floors(trial) && gained(trial) > gain;
    const double there = missing(trial), here = missing(*here_);
    if (there < here - gain) return true;
    if (there > here + 1e-9) return false;
    if (wish_.only.empty() && std::abs(trial.rules - here_->rules) > 0.5) return trial.rules < here_->rules;
    return above_floors(trial) && gained(trial) > gain;
  }

  /// The best of several, if it is higher than here.
  bool go_to_the_highest(const std::vector<const Trial*>& trials) {
    const Trial* before = here_;
    for (const Trial* trial : trials) {
      if (higher(*trial)) here_ = trial;
    }
    return here_ != before;
  }

  /// Slopes by differences, one run each.
  void find_slopes() {
    slopes_are_here_ = slopes_are_fresh_ = true;
    by_ = std::clamp(0.5 * radius_, finest_difference, difference);
    const std::size_t count = wish_.moving.size();
    std::vector<Point> points;
    std::vector<double> steps;
    for (std::size_t j = 0; j < count; ++j) {
      std::vector<double> step(count, 0.0);
      step[j] = share(j) + by_ <= 1.0 ? by_ : -by_;
      steps.push_back(step[j]);
      points.push_back(moved(step));
    }
    around_ = bench_.at(points);
    lines_.assign(floors_.size(), {});
    for (std::size_t i = 0; i < floors_.size(); ++i) {
      lines_[i].base = here_->shares[i];
      lines_[i].slope.assign(count, 0.0);
      for (std::size_t j = 0; j < count; ++j) {
        const Trial& beside = *around_[j];
        const bool numbers =
            beside.runs && here_->shares[i] > unseen_share && beside.shares[i] > unseen_share;
        if (numbers) lines_[i].slope[j] = (beside.shares[i] - here_->shares[i]) / steps[j];
      }
    }
  }

  /// Brings the slopes along a step that was made, without a run (Broyden's rule).
  void carry_slopes(const std::vector<double>& step, const Trial& from) {
    double squared = 0.0;
    for (const double s : step) squared += s * s;
    if (squared < 1e-12) return;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      lines_[i].base = here_->shares[i];
      if (here_->shares[i] <= unseen_share || from.shares[i] <= unseen_share) continue;
      double foretold = from.shares[i];
      for (std::size_t j = 0; j < step.size(); ++j) foretold += lines_[i].slope[j] * step[j];
      const double missed = here_->shares[i] - foretold;
      for (std::size_t j = 0; j < step.size(); ++j) lines_[i].slope[j] += missed * step[j] / squared;
    }
    slopes_are_fresh_ = false;
  }

  /// The lines that a step can change, those at their best with their floors.
  std::vector<Line> lines_that_move() const {
    std::vector<Line> moving;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      if (!counted_[i] || !moves(i)) continue;
      moving.push_back(lines_[i]);
      moving.back().floor = floors_[i];
    }
    return moving;
  }

  std::vector<double> step_within(const std::vector<Line>& lines, double radius) const {
    std::vector<double> low, high;
    for (std::size_t j = 0; j < wish_.moving.size(); ++j) {
      low.push_back(std::max(-radius, -share(j)));
      high.push_back(std::min(radius, 1.0 - share(j)));
    }
    return best_step(lines, low, high, missing(*here_) > 0.0 ? Lift::all : Lift::smallest);
  }

  /// Tries the model's step, a third of its radius, and, where that proves no better, the step without each
  /// of its components: one of them may run into a rule of the trade or off an edge that slopes do not show.
  /// False: none is higher.
  bool climb_a_step() {
    const std::vector<Line> lines = lines_that_move();
    if (lines.empty()) {
      radius_ = 0.0;
      return slopes_are_fresh_ && went_to_one_of(around_);
    }
    const std::vector<double> far = step_within(lines, radius_), near = step_within(lines, radius_ / 3.0);
    const std::vector<const Trial*> two = bench_.at({moved(far), moved(near)});
    const Trial* before = here_;
    if (go_to_the_highest({two[0], two[1]})) {
      const bool went_far = here_ == two[0], fresh = slopes_are_fresh_;
      radius_ = went_far ? std::min(2.0 * radius_, largest_radius) : 0.5 * radius_;
      carry_slopes(went_far ? far : near, *before);
      if (fresh) went_to_one_of(around_);
      return true;
    }
    if (!slopes_are_fresh_) return false;
    radius_ /= 4.0;
    const bool beside = near.size() > 1 && sidestep(near);
    return went_to_one_of(around_) || beside;
  }

  bool went_to_one_of(const std::vector<const Trial*>& trials) {
    if (!go_to_the_highest(trials)) return false;
    slopes_are_here_ = false;
    return true;
  }

  bool sidestep(const std::vector<double>& step) {
    std::vector<Point> points;
    for (std::size_t j = 0; j < step.size(); ++j) {
      if (step[j] == 0.0) continue;
      std::vector<double> without = step;
      without[j] = 0.0;
      points.push_back(moved(without));
    }
    return went_to_one_of(bench_.at(points));
  }

  /// The smallest shares that moved get a floor, so that the next can be lifted. False: none is left to lift.
  bool settle_the_smallest() {
    if (!wish_.only.empty() || here_->missing > 0.0 || ++settled_ > most_settled) return false;
    double smallest = 2.0;
    std::size_t open = 0;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      if (!moves(i) || floors_[i]) continue;
      ++open;
      smallest = std::min(smallest, here_->shares[i]);
    }
    if (open < 2) return false;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      if (!floors_[i] && here_->shares[i] <= smallest + alike) floors_[i] = here_->shares[i];
    }
    radius_ = 0.5 * wish_.radius;
    slopes_are_here_ = false;
    return true;
  }

  Bench& bench_;
  const ClimbWish& wish_;
  const Trial* here_;
  int settled_ = 0;
  bool slopes_are_here_ =
      false;  ///< the lines go through the trial here, and not by steps wider than the radius
  bool slopes_are_fresh_ = false;  ///< by differences about it, not carried along
  double radius_, by_ = 0.0;
  std::vector<std::optional<double>> floors_;  ///< of shares that are at their best
  std::vector<bool> counted_;
  std::vector<const Trial*> around_;  ///< those that gave the slopes
  std::vector<Line> lines_;
};

}  // namespace

const Trial& climb(Bench& bench, const Trial& start, const ClimbWish& wish) {
  return Climb(bench, start, wish).top();
}

}  // namespace poise::search
