// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/edges.hpp"

#include <algorithm>
#include <cmath>

namespace poise::search {
namespace {

constexpr double first_look = 0.02;  // of the range
constexpr int most_looks = 8;
constexpr double close = 0.05;

/// Smallest share over those that hold in the trial found, below zero where one breaks; rules count as well.
double room(const Trial& trial, const Trial& found) {
  if (!trial.runs) return unseen_share;
  double least = 1.0;
  for (std::size_t i = 0; i < found.shares.size(); ++i) {
    if (found.shares[i] >= 0.0) least = std::min(least, trial.shares[i]);
  }
  if (least >= 0.0 && trial.rules > found.rules + 0.5) return -1e-3;
  return least;
}

/// At how many parts a rule is not kept.
std::size_t places(const Trial& trial, const rules::TradeRule& rule) {
  std::size_t count = 0;
  for (const RuleNotKept& broken : trial.verdict.rules) {
    if (broken.rule == &rule && broken.waived.empty()) count += 1 + broken.also.size();
  }
  return count;
}

Edge edge_at(double value, const Trial& trial, const Trial& found) {
  Edge edge = what_breaks(trial, found);
  if (edge.breaks.empty()) edge.breaks = "the bad end of a tolerance";
  edge.at = value;
  return edge;
}

/// The edge of a setting in one direction: out until it breaks, in steps that grow or as the rooms foretell,
/// then by halves. All walks go on together, so that every core has a run.
class Walk {
 public:
  Walk(const OpenValue& value, const Trial& found, std::size_t j, double direction)
      : value_(&value), found_(&found), j_(j), direction_(direction), start_(value.share_of(found.at[j])) {
    end_ = direction > 0.0 ? 1.0 - start_ : start_;
    next_ = std::min(first_look, end_);
    at_good_ = room(found, found);
    done_ = !(end_ > 1e-6);
  }

  bool done() const { return done_; }
  Point wants() const {
    Point point = found_->at;
    point[j_] = value_->at_share(start_ + direction_ * next_);
    return point;
  }
  void sees(const Trial& trial) {
    const double here = room(trial, *found_);
    if (here < 0.0) {
      bad_ = next_;
      last_bad_ = &trial;
    } else {
      const double fall = (at_good_ - here) / (next_ - good_);
      good_ = next_;
      at_good_ = here;
      if (!last_bad_) return go_further(fall);
    }
    next_ = 0.5 * (good_ + bad_);
    done_ = bad_ - good_ < close * bad_ || ++looks_ >= most_looks;
  }
  Edge edge() const {
    Edge edge = last_bad_ ? edge_at(last_bad_->at[j_], *last_bad_, *found_) : Edge{};
    edge.good = value_->at_share(start_ + direction_ * good_);
    edge.to_the_end = !last_bad_ && good_ >= end_ - 1e-9;
    return edge;
  }

 private:
  void go_further(double fall) {
    done_ = good_ >= end_ || ++looks_ >= most_looks;
    const double foretold = fall > 1e-6 ? good_ + 1.1 * at_good_ / fall : 4.0 * good_;
    next_ = std::min(end_, std::clamp(foretold, 1.5 * good_, 8.0 * good_));
  }

  const OpenValue* value_;
  const Trial* found_;
  std::size_t j_;
  double direction_, start_;
  double end_ = 0.0, next_ = 0.0, good_ = 0.0, bad_ = 0.0, at_good_ = 0.0;
  int looks_ = 0;
  bool done_ = false;
  const Trial* last_bad_ = nullptr;
};

/// Of a size: the next choices in a direction, until one breaks.
Edge next_choice(Bench& bench, const Trial& found, std::size_t j, int direction) {
  constexpr int far = 3;
  const OpenValue& value = bench.values()[j];
  auto place = std::ranges::find(value.choices, found.at[j]) - value.choices.begin();
  for (int i = 0; i < far; ++i) {
    place += direction;
    if (place < 0 || place >= static_cast<std::ptrdiff_t>(value.choices.size()))
      return {.good = value.choices[static_cast<std::size_t>(place - direction)], .to_the_end = true};
    Point point = found.at;
    point[j] = value.choices[static_cast<std::size_t>(place)];
    const Trial& trial = bench.at(point);
    if (room(trial, found) >= 0.0) continue;
    Edge edge = edge_at(point[j], trial, found);
    edge.good = value.choices[static_cast<std::size_t>(place - direction)];
    return edge;
  }
  return {.good = value.choices[static_cast<std::size_t>(place)]};
}

void walk_together(Bench& bench, std::vector<Walk>& walks) {
  while (!bench.stopped()) {
    std::vector<Walk*> going;
    std::vector<Point> points;
    for (Walk& walk : walks) {
      if (walk.done()) continue;
      going.push_back(&walk);
      points.push_back(walk.wants());
    }
    if (going.empty()) return;
    const std::vector<const Trial*> trials = bench.at(points);
    for (std::size_t i = 0; i < going.size(); ++i) going[i]->sees(*trials[i]);
  }
}

}  // namespace

Edge what_breaks(const Trial& trial, const Trial& found) {
  if (!trial.runs) return {.breaks = "it cannot be run"};
  for (const Finding& finding : trial.verdict.findings) {
    if (finding.held) continue;
    const auto before = std::ranges::find(found.verdict.findings, finding.name, &Finding::name);
    if (before == found.verdict.findings.end() || before->held) return {.breaks = finding.name};
  }
  for (const RuleNotKept& rule : trial.verdict.rules) {
    if (rule.rule->harm == rules::Harm::worth_knowing || !rule.waived.empty()) continue;
    if (places(trial, *rule.rule) > places(found, *rule.rule))
      return {.breaks = std::string(rule.rule->name), .is_rule = true};
  }
  return {};
}

std::vector<Edges> edges_of(Bench& bench, const Trial& found) {
  std::vector<Edges> edges(bench.values().size());
  std::vector<Walk> walks;
  std::vector<Edge*> of_walk;
  for (std::size_t j = 0; j < edges.size(); ++j) {
    const OpenValue& value = bench.values()[j];
    if (!value.has_order()) continue;
    if (value.is == OpenValue::Is::size) {
      edges[j] = {next_choice(bench, found, j, -1), next_choice(bench, found, j, 1)};
      continue;
    }
    walks.emplace_back(value, found, j, -1.0);
    of_walk.push_back(&edges[j].below);
    walks.emplace_back(value, found, j, 1.0);
    of_walk.push_back(&edges[j].above);
  }
  walk_together(bench, walks);
  for (std::size_t i = 0; i < walks.size(); ++i) *of_walk[i] = walks[i].edge();
  return edges;
}

}  // namespace poise::search
