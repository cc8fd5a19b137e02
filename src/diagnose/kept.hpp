// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "diagnose/atlas.hpp"

namespace poise::diagnose {

/// How much of an atlas is wanted.
enum class Much {
  sound,  ///< the sound machine and its tolerances: enough for a commissioning sheet
  all,    ///< every suspect as well
};

/// The atlas of a job that `prepare_atlas` has prepared. What the studies' file beside the job has of it is
/// read, what it lacks is run and kept there; where it cannot be written it is run all the same. `text` is
/// the job's, `version` that of Poise. Nothing where `told` stopped it: what was run is kept.
std::optional<Atlas> atlas_of(const AtlasWork& work, const std::string& text, const std::string& version,
                              const std::filesystem::path& file, Much much,
                              const std::function<bool(double share)>& told,
                              std::size_t cores = search::cores_allowed());

/// The same where the file has all of it, without a run; none otherwise.
std::optional<Atlas> kept_atlas(const AtlasWork& work, const std::string& text, const std::string& version,
                                const std::filesystem::path& file, Much much);

}  // namespace poise::diagnose
