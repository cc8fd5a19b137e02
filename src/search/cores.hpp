// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <cstddef>
#include <functional>

namespace poise::search {

/// How many cores this process may use: those that the machine, a cluster's job or `taskset` leaves it; at
/// least one.
std::size_t cores_allowed();

/// Does the work of each index on up to `cores` cores, the calling thread among them; `between` is called by
/// the calling thread after each piece of its own. What one of them throws, a broken invariant, is thrown
/// here when all are done.
void on_all_cores(std::size_t count, const std::function<void(std::size_t)>& work,
                  const std::function<void()>& between, std::size_t cores = cores_allowed());

}  // namespace poise::search
