// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "desk/reply.hpp"
#include "desk/request.hpp"
#include "job/job.hpp"
#include "units/units.hpp"

namespace poise::desk {

/// The units that the page wants to see, else the job's own.
inline units::World world_of(const Request& request, const Job& job) {
  const std::string wanted = asked(request, "units");
  if (wanted.empty() || wanted == job.world.name) return job.world;
  return wanted == "us" ? units::us() : units::metric();
}

}  // namespace poise::desk
