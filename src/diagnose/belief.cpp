// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/belief.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "diagnose/history.hpp"

namespace poise::diagnose {
namespace {

// Of what an instrument may be off by: the part that it keeps from reading to reading, and that of each
// reading for itself, as standard deviations. Common practice.
constexpr double kept_error = 0.46, reading_error = 0.2;
// A run with a fault in it strays otherwise than the sound one: by this share of what the fault changes.
constexpr double own_share = 0.04;
// Between two sizes that were run, a straight line is off by up to this share of their difference.
constexpr double between_sizes = 0.1;
constexpr double contact_error = 0.25;
// Logarithm of the likelihood of a moment that comes where it should not, or the other way round: the first
// in a step, and each further one.
constexpr double against_moment = -25.0, against_further = -10.0;
// Whether an actuator has got to its place is judged by eye.
constexpr double against_by_eye = -6.0;
constexpr double against_as_misses =
    16.0;  // what one counts for where it is asked whether a suspect fits at all
constexpr int sizes = 41;

const double sound_prior = 0.33;

/// What the latent values of a machine are: loose values, then gauges by tag.
std::map<std::string, Eigen::Index> gauges_of(const Atlas& atlas) {
  std::map<std::string, Eigen::Index> places;
  for (const Watch& watch : atlas.watches) {
    if (watch.instrument != Instrument::gauge) continue;
    const auto next = atlas.strays.cols() + static_cast<Eigen::Index>(places.size());
    places.try_emplace(watch.at, next);
  }
  return places;
}

Eigen::MatrixXd strays_of(const Atlas& atlas, std::span<const Reading> readings, Eigen::Index latent) {
  const auto gauges = gauges_of(atlas);
  Eigen::MatrixXd strays = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(readings.size()), latent);
  for (std::size_t r = 0; r < readings.size(); ++r) {
    const Watch& watch = atlas.watches[readings[r].watch];
    const auto row = static_cast<Eigen::Index>(r);
    strays.row(row).head(atlas.strays.cols()) =
        atlas.strays.row(static_cast<Eigen::Index>(readings[r].watch));
    if (watch.instrument == Instrument::gauge)
      strays(row, gauges.at(watch.at)) = kept_error * readings[r].accuracy;
  }
  return strays;
}

double square(double x) { return x * x; }

/// Variance of one reading for itself.
double noise_of(const Atlas& atlas, const Reading& reading) {
  const Watch& watch = atlas.watches[reading.watch];
  const double rest = atlas.rest[static_cast<Eigen::Index>(reading.watch)];
  if (watch.instrument == Instrument::contact) return square(contact_error) + square(rest);
  const bool keeps = watch.instrument == Instrument::gauge;
  const double error = keeps ? reading_error : std::hypot(kept_error, reading_error);
  return square(error * reading.accuracy) + square(rest);
}

/// What a course shows at a size: straight between those that were run, and how far that may be off.
struct Between {
  double value = 0.0, off = 0.0;
};

Between between(const Course& course, double t, std::size_t watch) {
  const auto& at = course.sizes;
  if (at.size() == 1) return {at.front().shows[watch], 0.0};
  std::size_t upper = 1;
  while (upper + 1 < at.size() && at[upper].t < t) ++upper;
  const auto &a = at[upper - 1], &b = at[upper];
  const double share = std::clamp((t - a.t) / (b.t - a.t), 0.0, 1.0);
  const double from = a.shows[watch], to = b.shows[watch];
  if (std::isnan(from) || std::isnan(to)) return {share < 0.5 ? from : to, 0.0};
  return {from + share * (to - from), between_sizes * std::abs(to - from) * 4.0 * share * (1.0 - share)};
}

/// People misread: what is far off counts less than its square, as in Student's distribution with this many
/// degrees of freedom; near the middle it is the same.
double heavy(double misses, double count) {
  constexpr double freedom = 20.0;
  return (freedom + count) * std::log1p(misses / (freedom + count));
}

double log_of_mean(const std::vector<double>& logs) {
  const double most = *std::ranges::max_element(logs);
  double sum = 0.0;
  for (const double each : logs) sum += std::exp(each - most);
  return most + std::log(sum / static_cast<double>(logs.size()));
}

}  // namespace

Machine unknown_machine(const Atlas& atlas) {
  const auto count = atlas.strays.cols() + static_cast<Eigen::Index>(gauges_of(atlas).size());
  return {Eigen::VectorXd::Zero(count), Eigen::MatrixXd::Identity(count, count)};
}

Machine machine_of(const Atlas& atlas, std::span<const Reading> baseline) {
  Machine machine = unknown_machine(atlas);
  const Eigen::MatrixXd strays = strays_of(atlas, baseline, machine.mean.size());
  for (std::size_t r = 0; r < baseline.size(); ++r) {
    const double sound = atlas.sound[baseline[r].watch];
    if (!baseline[r].value || std::isnan(sound)) continue;
    // One reading after the other: the least squares of all of them (Kalman's update with one value).
    const Eigen::VectorXd row = strays.row(static_cast<Eigen::Index>(r));
    const Eigen::VectorXd gain =
        machine.spread * row / (row.dot(machine.spread * row) + noise_of(atlas, baseline[r]));
    machine.mean += gain * (*baseline[r].value - sound - row.dot(machine.mean));
    machine.spread -= gain * (row.transpose() * machine.spread);
  }
  for (std::size_t i = 0; i < atlas.loose.size(); ++i) {
    if (atlas.loose[i].of != search::Loose::Of::oil_temperature) continue;
    const auto at = static_cast<Eigen::Index>(i);
    machine.mean[at] = 0.0;
    machine.spread.row(at).setZero();
    machine.spread.col(at).setZero();
    machine.spread(at, at) = 1.0;
  }
  return machine;
}

Belief::Belief(const Atlas& atlas, const Machine& machine, const Readings& readings)
    : atlas_(atlas), machine_(machine), readings_(readings.list) {
  strays_ = strays_of(atlas, readings_, machine.mean.size());
  shift_ = strays_ * machine.mean;
  shared_ = strays_ * machine.spread * strays_.transpose();
  noise_.resize(static_cast<Eigen::Index>(readings_.size()));
  for (std::size_t r = 0; r < readings_.size(); ++r)
    noise_[static_cast<Eigen::Index>(r)] = noise_of(atlas, readings_[r]);
  suspects_.push_back(weigh(Suspect::sound));
  for (std::size_t c = 0; c < atlas.courses.size(); ++c) suspects_.push_back(weigh(c));
  double most = -std::numeric_limits<double>::infinity(), sum = 0.0;
  for (Suspect& suspect : suspects_) {
    suspect.share = suspect.evidence + prior(suspect.course, readings);
    most = std::max(most, suspect.share);
  }
  for (Suspect& suspect : suspects_) sum += suspect.share = std::exp(suspect.share - most);
  for (Suspect& suspect : suspects_) suspect.share /= sum;
  std::ranges::stable_sort(suspects_, std::greater{}, &Suspect::share);
}

double Belief::prior(std::size_t course, const Readings& readings) const {
  if (course == Suspect::sound) return std::log(sound_prior);
  const double each = (1.0 - sound_prior) / static_cast<double>(atlas_.courses.size());
  return std::log(each * factor_of(atlas_.job, atlas_.courses[course].place, readings));
}

Belief::Foretold Belief::foretell(std::size_t course, double t) const {
  const auto count = static_cast<Eigen::Index>(readings_.size());
  Foretold foretold{shift_, Eigen::VectorXd::Zero(count), std::vector<bool>(readings_.size())};
  for (std::size_t r = 0; r < readings_.size(); ++r) {
    const auto row = static_cast<Eigen::Index>(r);
    const std::size_t watch = readings_[r].watch;
    const double sound = atlas_.sound[watch];
    const Between here =
        course == Suspect::sound ? Between{sound, 0.0} : between(atlas_.courses[course], t, watch);
    foretold.present[r] = !std::isnan(here.value);
    if (!foretold.present[r]) continue;
    foretold.mean[row] += here.value;
    const double change = std::isnan(sound) ? 0.0 : here.value - sound;
    foretold.own[row] = square(here.off) + square(own_share * change);
  }
  return foretold;
}

std::vector<Eigen::Index> Belief::both_of(const Foretold& foretold) const {
  std::vector<Eigen::Index> both;
  for (std::size_t r = 0; r < readings_.size(); ++r) {
    if (foretold.present[r] && readings_[r].value) both.push_back(static_cast<Eigen::Index>(r));
  }
  return both;
}

Eigen::MatrixXd Belief::covariance_of(const Foretold& foretold) const {
  Eigen::MatrixXd covariance = shared_;
  covariance.diagonal() += noise_ + foretold.own;
  return covariance;
}

Belief::Likelihood Belief::likelihood(const Foretold& foretold) const {
  std::set<std::size_t> against;
  std::size_t against_count = 0;
  double log = 0.0;
  for (std::size_t r = 0; r < readings_.size(); ++r) {
    if (foretold.present[r] == readings_[r].value.has_value()) continue;
    const Watch& watch = atlas_.watches[readings_[r].watch];
    ++against_count;
    if (watch.instrument == Instrument::stop_watch)
      log += against_by_eye;
    else
      log += against.insert(watch.step).second ? against_moment : against_further;
  }
  const std::vector<Eigen::Index> both = both_of(foretold);
  const auto count = static_cast<Eigen::Index>(both.size());
  Eigen::VectorXd off(count);
  for (Eigen::Index i = 0; i < count; ++i) {
    const Eigen::Index a = both[static_cast<std::size_t>(i)];
    off[i] = *readings_[static_cast<std::size_t>(a)].value - foretold.mean[a];
  }
  const Eigen::LLT<Eigen::MatrixXd> root(covariance_of(foretold)(both, both));
  const Eigen::VectorXd white = root.matrixL().solve(off);
  double size = 0.0;
  // Counted in deviations of the sound machine, so that readings which a suspect does not have cost it
  // nothing by their unit.
  for (Eigen::Index i = 0; i < count; ++i) {
    const Eigen::Index a = both[static_cast<std::size_t>(i)];
    size += std::log(root.matrixLLT()(i, i)) - 0.5 * std::log(shared_(a, a) + noise_[a]);
  }
  return {.log = log - 0.5 * heavy(white.squaredNorm(), static_cast<double>(count)) - size,
          .misses = white.squaredNorm() + against_as_misses * static_cast<double>(against_count),
          .counted = static_cast<double>(count) + static_cast<double>(against_count)};
}

Suspect Belief::weigh(std::size_t course) const {
  Suspect suspect{.course = course};
  if (course == Suspect::sound || atlas_.courses[course].sizes.size() == 1) {
    suspect.t = course == Suspect::sound ? 0.0 : 1.0;
    suspect.fit = suspect.evidence = likelihood(foretell(course, suspect.t)).log;
    suspect.t_low = suspect.t_high = suspect.t;
    return suspect;
  }
  std::vector<double> logs;
  for (int i = 0; i < sizes; ++i)
    logs.push_back(likelihood(foretell(course, static_cast<double>(i) / (sizes - 1))).log);
  const auto best = std::ranges::max_element(logs);
  suspect.fit = *best;
  suspect.t = static_cast<double>(best - logs.begin()) / (sizes - 1);
  suspect.evidence = log_of_mean(logs);
  constexpr double nearly = 1.92;
  suspect.t_low = 1.0;
  suspect.t_high = 0.0;
  for (int i = 0; i < sizes; ++i) {
    if (logs[static_cast<std::size_t>(i)] < *best - nearly) continue;
    suspect.t_low = std::min(suspect.t_low, static_cast<double>(i) / (sizes - 1));
    suspect.t_high = std::max(suspect.t_high, static_cast<double>(i) / (sizes - 1));
  }
  return suspect;
}

std::vector<Group> Belief::groups() const {
  // Twice the difference of two logarithms is above 6 in one of seventy by chance alone (χ² of one value).
  constexpr double told_apart = 3.0;
  std::vector<Group> groups;
  for (const Suspect& suspect : suspects_) {
    const auto home = std::ranges::find_if(
        groups, [&](const Group& group) { return suspect.fit >= group.suspects.front().fit - told_apart; });
    if (home == groups.end())
      groups.push_back({{suspect}, suspect.share});
    else {
      home->suspects.push_back(suspect);
      home->share += suspect.share;
    }
  }
  return groups;
}

bool Belief::fits(const Suspect& suspect) const {
  constexpr double one_in_ten_thousand = 3.72;  // of a normal distribution
  const Likelihood likely = likelihood(foretell(suspect.course, suspect.t));
  if (likely.counted == 0.0) return true;
  const double spread = 2.0 / (9.0 * likely.counted);
  return (std::cbrt(likely.misses / likely.counted) - (1.0 - spread)) / std::sqrt(spread) <
         one_in_ten_thousand;
}

std::vector<Expected> Belief::expected(const Suspect& suspect) const {
  const Foretold foretold = foretell(suspect.course, suspect.t);
  const Eigen::MatrixXd all_of_them = covariance_of(foretold);
  const std::vector<Eigen::Index> both = both_of(foretold);
  const auto count = static_cast<Eigen::Index>(both.size());
  const Eigen::MatrixXd covariance = all_of_them(both, both);
  Eigen::VectorXd off(count);
  for (Eigen::Index i = 0; i < count; ++i) {
    const Eigen::Index a = both[static_cast<std::size_t>(i)];
    off[i] = *readings_[static_cast<std::size_t>(a)].value - foretold.mean[a];
  }
  const Eigen::MatrixXd inverse = covariance.llt().solve(Eigen::MatrixXd::Identity(count, count));
  const Eigen::VectorXd pull = inverse * off;
  std::vector<Expected> all;
  for (std::size_t r = 0; r < readings_.size(); ++r) {
    const auto row = static_cast<Eigen::Index>(r);
    constexpr double as_far_as_can_be = 10.0, not_seen = std::numeric_limits<double>::quiet_NaN();
    Expected each{.value = not_seen, .by_others = not_seen};
    if (foretold.present[r]) {
      each = {.value = foretold.mean[row],
              .sigma = std::sqrt(all_of_them(row, row)),
              .by_others = foretold.mean[row]};
    }
    if (foretold.present[r] != readings_[r].value.has_value()) each.off = as_far_as_can_be;
    all.push_back(each);
  }
  for (Eigen::Index i = 0; i < count; ++i) {
    Expected& each = all[static_cast<std::size_t>(both[static_cast<std::size_t>(i)])];
    each.by_others = *readings_[static_cast<std::size_t>(both[static_cast<std::size_t>(i)])].value -
                     pull[i] / inverse(i, i);
    each.off = pull[i] / std::sqrt(inverse(i, i));
  }
  return all;
}

Expected Belief::foretold(const Suspect& suspect, std::size_t watch) const {
  const bool is_sound = suspect.course == Suspect::sound;
  const double sound = atlas_.sound[watch];
  const Between here =
      is_sound ? Between{sound, 0.0} : between(atlas_.courses[suspect.course], suspect.t, watch);
  if (std::isnan(here.value)) return {.value = here.value};
  const Foretold known = foretell(suspect.course, suspect.t);
  const Reading asked{watch, std::nullopt, 0.0};
  const Eigen::RowVectorXd row = strays_of(atlas_, std::span(&asked, 1), machine_.mean.size()).row(0);
  const std::vector<Eigen::Index> both = both_of(known);
  const auto count = static_cast<Eigen::Index>(both.size());
  Eigen::VectorXd off(count);
  const Eigen::VectorXd cross = strays_ * (machine_.spread * row.transpose()), with = cross(both);
  for (Eigen::Index i = 0; i < count; ++i) {
    const Eigen::Index at = both[static_cast<std::size_t>(i)];
    off[i] = *readings_[static_cast<std::size_t>(at)].value - known.mean[at];
  }
  const Eigen::LLT<Eigen::MatrixXd> root(covariance_of(known)(both, both));
  const Eigen::VectorXd gain = root.solve(with);
  const double change = std::isnan(sound) ? 0.0 : here.value - sound;
  const double own =
      square(here.off) + square(own_share * change) + square(atlas_.rest[static_cast<Eigen::Index>(watch)]);
  const double variance = row.dot(machine_.spread * row.transpose()) - gain.dot(with) + own;
  return {.value = here.value + row.dot(machine_.mean) + gain.dot(off),
          .sigma = std::sqrt(std::max(variance, 0.0))};
}

}  // namespace poise::diagnose
