// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "desk/json.hpp"
#include "desk/open_job.hpp"
#include "units/units.hpp"

namespace poise::desk {

/// A job as the page shows it: its tree as typed, its parts with a form for each, what is wrong and where,
/// what conditions can ask for. Values typed in other units than `world` are given in these too.
Json page(const Edition& edition, const std::string& name, const std::string& path,
          const units::World& world);

/// Complaints with the way to what each is about, where that is known.
Json complaints(const job::Reading& reading);

}  // namespace poise::desk
