// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "job/script.hpp"

namespace poise::job {

/// A new member of a list in brackets or a table in braces, at `place`, or behind the last. Where each member
/// has a line of its own, this one gets one too.
std::vector<Splice> put_in(const Script& script, const Value& holder, std::size_t place,
                           std::string_view member);

/// Takes a member out, with its comma, the comment behind it, and those in the lines directly above it.
std::vector<Splice> take_out(const Script& script, const Value& holder, std::size_t place);

/// Lets a member of a list stand at another place.
std::vector<Splice> move_within(const Script& script, const Value& list, std::size_t from, std::size_t to);

}  // namespace poise::job
