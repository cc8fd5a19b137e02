// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <Eigen/Core>
#include <string>
#include <variant>
#include <vector>

#include "diagnose/watch.hpp"
#include "study/crew.hpp"
#include "study/fault_place.hpp"
#include "study/spread.hpp"

namespace poise::diagnose {

/// What the machine would show with one thing wrong, at rising sizes from slight (0) to grave (1).
struct Course {
  study::FaultPlace place;
  struct At {
    double t = 0.0;
    std::vector<double> shows{};  ///< by watch, SI; NaN where its moment does not come
  };
  std::vector<At> sizes{};
};

/// What a job's machine shows to every instrument: sound, with its values off within their tolerances, and
/// with each thing that may be wrong.
struct Atlas {
  Job job;
  std::vector<Watch> watches{};
  std::vector<double> sound{};  ///< by watch, SI; NaN where its moment does not come
  std::vector<search::Loose> loose{};
  /// Watches × loose values: the change by one standard deviation of each; a value anywhere within its
  /// tolerance has 1/√3 of it. 0 where either moment does not come.
  Eigen::MatrixXd strays{};
  Eigen::VectorXd rest{};  ///< standard deviation of what the strays do not explain, by watch
  std::vector<Course> courses{};
};

/// A run of an atlas: everything that the machine shows.
struct AtlasRun {
  long number = 0;
  std::vector<double> shows{};
};

/// All that is needed to run an atlas.
struct AtlasWork {
  Job job;
  std::vector<Watch> watches{};
  std::vector<Signal> signals{};
  std::size_t followed = 0;
  std::vector<double> sound{};
  study::Spread machines;
  std::vector<study::FaultPlace> suspects{};
  long most_steps = 0;

  /// Items: each loose value, then machines of the spread, then suspects.
  long items() const;
};

/// Runs the sound machine and lists what can be read on it and what may be wrong with it; a sentence where it
/// has no answer, nothing where `go_on` stopped it.
std::variant<std::monostate, AtlasWork, std::string> prepare_atlas(const Job& job, const study::GoOn& go_on);

/// The same work with further things to be read; they come behind those listed.
void add_watches(AtlasWork& work, const std::vector<Watch>& more);

/// What a job's machine shows in a run; `split_step` as `study::run_faulty` has it. Empty where `go_on`
/// stopped it.
std::vector<double> run_watched(const AtlasWork& work, const Job& job, int split_step,
                                const study::GoOn& go_on);

/// Runs one item; false where told to stop. `have` are runs of it that are there already.
bool run_item(const AtlasWork& work, long item, std::span<const AtlasRun> have,
              const std::function<bool(AtlasRun)>& put_away, const study::GoOn& go_on);

/// Whether these runs of an item are all that it takes.
bool is_done(const AtlasWork& work, long item, std::span<const AtlasRun> have);
/// Numbers that each suspect has for its sizes.
inline constexpr long runs_of_a_kind = 3;
/// The first item that is a suspect.
long first_suspect(const AtlasWork& work);
/// The item to which a run belongs.
long item_of(const AtlasWork& work, long number);

/// The atlas from the runs of all its items.
Atlas atlas_from(const AtlasWork& work, std::span<const AtlasRun> runs);

/// Runs every item on all cores; an atlas of what there is where `told` stopped it is none.
std::optional<Atlas> run_atlas(const AtlasWork& work, const std::function<bool(double share)>& told,
                               std::size_t cores = search::cores_allowed());

}  // namespace poise::diagnose
