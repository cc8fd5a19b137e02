// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/atlas.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "solve/run.hpp"
#include "study/fault_run.hpp"
#include "study/machine.hpp"

namespace poise::diagnose {
namespace {

constexpr long machines = 20;  // of the spread, for what straight lines leave
constexpr std::uint64_t seed = 10;

/// How far apart two machines look, in accuracies of the instruments; what one shows and the other never does
/// is as far as can be.
double apart(const AtlasWork& work, const std::vector<double>& a, const std::vector<double>& b) {
  constexpr double for_good = 100.0;
  double most = 0.0;
  for (std::size_t w = 0; w < work.watches.size(); ++w) {
    const Watch& watch = work.watches[w];
    if (watch.when == When::after) continue;
    if (std::isnan(a[w]) && std::isnan(b[w])) continue;
    if (std::isnan(a[w]) != std::isnan(b[w])) return for_good;
    const double seen = watch.instrument == Instrument::contact ? 0.5 : watch.accuracy;
    most = std::max(most, std::abs(a[w] - b[w]) / seen);
  }
  return most;
}

long first_machine(const AtlasWork& work) { return static_cast<long>(work.machines.loose().size()); }

/// Sizes of one suspect by the order in which they may be run.
constexpr std::array order{1.0, 0.5, 0.0};
static_assert(order.size() == runs_of_a_kind);

long number_of(const AtlasWork& work, long suspect, double t) {
  const auto at = std::ranges::find(order, t) - order.begin();
  return first_suspect(work) + suspect * runs_of_a_kind + at;
}

using Sizes = std::map<double, std::vector<double>>;

Sizes sizes_of(const AtlasWork& work, std::span<const AtlasRun> runs) {
  Sizes sizes;
  for (const AtlasRun& run : runs)
    sizes[order[static_cast<std::size_t>((run.number - first_suspect(work)) % runs_of_a_kind)]] = run.shows;
  return sizes;
}

/// The size to run next: grave, then the middle where that shows at all, then slight where the middle shows
/// so much that a straight line from the sound machine may hide what a slight one does. Finer ones made the
/// blind trials no better by more than a hundredth.
std::optional<double> next_of(const AtlasWork& work, const study::FaultPlace& place, const Sizes& done) {
  constexpr double shows = 1.0, plain = 8.0;
  if (!done.contains(1.0)) return 1.0;
  if (place.one_size || apart(work, work.sound, done.at(1.0)) < shows) return std::nullopt;
  if (!done.contains(0.5)) return 0.5;
  if (!done.contains(0.0) && apart(work, work.sound, done.at(0.5)) > plain) return 0.0;
  return std::nullopt;
}

std::vector<double> run_size(const AtlasWork& work, const study::FaultPlace& place, double t,
                             const study::GoOn& go_on) {
  const auto faulty = study::with_fault(work.job, place, t);
  if (!faulty) return work.sound;
  return run_watched(work, *faulty, study::splits_a_step(place) ? place.step : -1, go_on);
}

bool run_suspect(const AtlasWork& work, long suspect, std::span<const AtlasRun> have,
                 const std::function<bool(AtlasRun)>& put_away, const study::GoOn& go_on) {
  const study::FaultPlace& place = work.suspects[static_cast<std::size_t>(suspect)];
  Sizes done = sizes_of(work, have);
  while (const auto t = next_of(work, place, done)) {
    AtlasRun run{number_of(work, suspect, *t), run_size(work, place, *t, go_on)};
    if (run.shows.empty()) return false;
    done[*t] = run.shows;
    if (!put_away(std::move(run))) return false;
  }
  return true;
}

/// The end of a tolerance that is farther from the stated value: one with all of it on one side has none at
/// the other.
double farther_end(const search::Loose& loose) {
  return loose.tolerance.above >= loose.tolerance.below ? 1.0 : -1.0;
}

/// A value anywhere within its tolerance strays by this share of half of it.
const double one_deviation = 1.0 / std::sqrt(3.0);

void add_stray(Atlas& atlas, const AtlasWork& work, long at, const std::vector<double>& shows) {
  const search::Loose& loose = work.machines.loose()[static_cast<std::size_t>(at)];
  const double moved = study::place_of(loose, farther_end(loose)) - study::place_of(loose, 0.0);
  if (moved == 0.0) return;
  for (std::size_t w = 0; w < shows.size(); ++w) {
    const double change = shows[w] - work.sound[w];
    atlas.strays(static_cast<Eigen::Index>(w), at) =
        std::isfinite(change) ? change / moved * one_deviation : 0.0;
  }
}

/// What machines of the spread show beside what straight lines foretell.
void add_rest(Atlas& atlas, const AtlasWork& work, std::span<const AtlasRun> runs) {
  const auto count = static_cast<Eigen::Index>(work.watches.size());
  Eigen::VectorXd sum = Eigen::VectorXd::Zero(count), seen = Eigen::VectorXd::Zero(count);
  for (const AtlasRun& run : runs) {
    const long machine = run.number - first_machine(work);
    if (machine < 0 || machine >= machines) continue;
    Eigen::VectorXd places(atlas.strays.cols());
    const std::vector<double> off = work.machines.off(machine + 1);
    for (std::size_t i = 0; i < off.size(); ++i) {
      const search::Loose& loose = work.machines.loose()[i];
      places[static_cast<Eigen::Index>(i)] =
          (study::place_of(loose, off[i]) - study::place_of(loose, 0.0)) / one_deviation;
    }
    const Eigen::VectorXd foretold = atlas.strays * places;
    for (Eigen::Index w = 0; w < count; ++w) {
      const double left =
          run.shows[static_cast<std::size_t>(w)] - work.sound[static_cast<std::size_t>(w)] - foretold[w];
      if (!std::isfinite(left)) continue;
      sum[w] += left * left;
      seen[w] += 1.0;
    }
  }
  atlas.rest = (sum.array() / seen.array().max(1.0)).sqrt();
}

}  // namespace

long first_suspect(const AtlasWork& work) { return first_machine(work) + machines; }

bool is_done(const AtlasWork& work, long item, std::span<const AtlasRun> have) {
  if (item < first_suspect(work)) return !have.empty();
  const auto suspect = static_cast<std::size_t>(item - first_suspect(work));
  return !next_of(work, work.suspects[suspect], sizes_of(work, have));
}

long AtlasWork::items() const { return first_suspect(*this) + static_cast<long>(suspects.size()); }

std::variant<std::monostate, AtlasWork, std::string> prepare_atlas(const Job& job, const study::GoOn& go_on) {
  const Circuit circuit = build(job.plan);
  bool stopped = false;
  solve::RunOptions options{.controls = job.controls};
  options.progress = [&](double, double) {
    stopped = stopped || !go_on();
    return !stopped;
  };
  std::vector<Signal> signals = signals_needed(job);
  options.followed = signals.size();
  for (Signal& signal : signals_to_list(job)) {
    if (std::ranges::find(signals, signal.name, &Signal::name) == signals.end())
      signals.push_back(std::move(signal));
  }
  const Trace sound = solve::run(circuit, job.steps, signals, options);
  if (stopped) return std::monostate{};
  if (const std::string why = study::why_no_study(judge(job, sound)); !why.empty()) return why;
  AtlasWork work{.job = job,
                 .watches = list_watches(job, circuit, sound),
                 .machines = study::Spread(job, seed),
                 .suspects = study::faults_of(job, &sound),
                 .most_steps = study::patience(sound.solver_steps)};
  for (study::FaultPlace& place : study::wrong_settings(job)) work.suspects.push_back(std::move(place));
  work.signals = signals_for(job, work.watches, work.followed);
  work.sound = run_watched(work, job, -1, go_on);
  if (work.sound.empty()) return std::monostate{};
  return work;
}

void add_watches(AtlasWork& work, const std::vector<Watch>& more) {
  if (more.empty()) return;
  work.watches.insert(work.watches.end(), more.begin(), more.end());
  work.signals = signals_for(work.job, work.watches, work.followed);
  work.sound = run_watched(work, work.job, -1, [] { return true; });
}

std::vector<double> run_watched(const AtlasWork& work, const Job& job, int split_step,
                                const study::GoOn& go_on) {
  const Circuit circuit = build(job.plan);
  long steps = 0;
  bool stopped = false;
  solve::RunOptions options{.followed = work.followed, .controls = job.controls, .progress = {}};
  options.progress = [&](double, double) {
    stopped = stopped || !go_on();
    return !stopped && ++steps <= work.most_steps;
  };
  Trace trace = solve::run(circuit, job.steps, work.signals, options);
  if (stopped) return {};
  study::join_halves(trace, split_step);
  return seen(job, trace, work.watches);
}

long item_of(const AtlasWork& work, long number) {
  if (number < first_suspect(work)) return number;
  return first_suspect(work) + (number - first_suspect(work)) / runs_of_a_kind;
}

bool run_item(const AtlasWork& work, long item, std::span<const AtlasRun> have,
              const std::function<bool(AtlasRun)>& put_away, const study::GoOn& go_on) {
  if (item >= first_suspect(work))
    return run_suspect(work, item - first_suspect(work), have, put_away, go_on);
  if (!have.empty()) return true;
  Job job = work.job;
  if (item < first_machine(work)) {
    const search::Loose& loose = work.machines.loose()[static_cast<std::size_t>(item)];
    search::put_off(job, loose, farther_end(loose));
  } else {
    job = work.machines.machine(item - first_machine(work) + 1);
  }
  AtlasRun run{item, run_watched(work, job, -1, go_on)};
  return !run.shows.empty() && put_away(std::move(run));
}

Atlas atlas_from(const AtlasWork& work, std::span<const AtlasRun> runs) {
  Atlas atlas{.job = work.job, .watches = work.watches, .sound = work.sound, .loose = work.machines.loose()};
  atlas.strays = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(work.watches.size()),
                                       static_cast<Eigen::Index>(atlas.loose.size()));
  std::vector<Sizes> sizes(work.suspects.size());
  for (const AtlasRun& run : runs) {
    if (run.number < first_machine(work)) add_stray(atlas, work, run.number, run.shows);
    if (run.number < first_suspect(work)) continue;
    const auto from = static_cast<std::size_t>(run.number - first_suspect(work));
    sizes[from / runs_of_a_kind][order[from % runs_of_a_kind]] = run.shows;
  }
  add_rest(atlas, work, runs);
  for (std::size_t s = 0; s < work.suspects.size(); ++s) {
    Course course{work.suspects[s]};
    // What does not show at its gravest shows no more when it is slighter; where the slight size was not run,
    // the sound machine stands a little before it.
    constexpr double before_slight = -0.15;
    const bool graded = !course.place.one_size;
    if (graded && !sizes[s].contains(0.0)) course.sizes.push_back({before_slight, work.sound});
    for (auto& [t, shows] : sizes[s]) course.sizes.push_back({t, std::move(shows)});
    atlas.courses.push_back(std::move(course));
  }
  return atlas;
}

std::optional<Atlas> run_atlas(const AtlasWork& work, const std::function<bool(double share)>& told,
                               std::size_t cores) {
  std::vector<std::vector<AtlasRun>> runs(static_cast<std::size_t>(work.items()));
  std::vector<long> items(runs.size());
  for (std::size_t i = 0; i < items.size(); ++i) items[i] = static_cast<long>(i);
  const auto one = [&](long item, const study::PutAway&, const study::GoOn& go_on) {
    run_item(
        work, item, {},
        [&](AtlasRun run) {
          runs[static_cast<std::size_t>(item)].push_back(std::move(run));
          return true;
        },
        go_on);
  };
  const study::Came came = study::do_all(
      items, one, [](const study::Row&) { return std::string(); },
      [&](long done) { return told(static_cast<double>(done) / static_cast<double>(items.size())); }, cores);
  if (came.stopped) return std::nullopt;
  std::vector<AtlasRun> all;
  for (auto& each : runs) std::ranges::move(each, std::back_inserter(all));
  return atlas_from(work, all);
}

}  // namespace poise::diagnose
