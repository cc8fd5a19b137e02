// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>

#include "desk/atlases.hpp"
#include "desk/json.hpp"
#include "diagnose/reading.hpp"
#include "units/units.hpp"

namespace poise::desk {

/// What a machine read when it was commissioned, from the file beside its job.
struct Baseline {
  std::string file;               ///< its name
  diagnose::Readings readings{};  ///< those of what the job's list of watches has
  std::string trouble;            ///< why it cannot be used, in a sentence
};
/// `text` is the file's; none where there is no such file.
std::optional<Baseline> baseline_in(const std::optional<std::string>& text, const std::string& file,
                                    const diagnose::AtlasWork& work);

/// What can be read on a job's machine, each with what a sound one shows.
Json what_can_be_read(const Atlases::Held& held, const std::optional<Baseline>& baseline,
                      const units::World& world);

/// Readings as typed, weighed: what is wrong with each, where it lies beside its band, and what may be wrong
/// with the machine.
Json weighed(const Atlases::Held& held, const std::optional<Baseline>& baseline, const Json& typed,
             const units::World& world);

}  // namespace poise::desk
