// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "job/script.hpp"
#include "job/tree.hpp"

namespace poise::job {

/// A key and its value, or a heading and all up to the next one, with the comment lines directly above; of a
/// heading also those directly below that belong to nothing else.
Stretch block_of(const Script& script, std::size_t entry);

/// The blocks of several entries, one stretch where they follow on one another.
std::vector<Stretch> blocks_of(const Script& script, std::span<const std::size_t> entries);

/// Takes blocks out, without leaving two blank lines or one at the end.
std::vector<Splice> take_out(const Script& script, std::span<const std::size_t> entries);

/// Whole lines of ours between the others at the beginning of a line; blank lines around them if headings of
/// this text have such.
Splice put_apart(const Script& script, std::size_t at, std::string_view lines);

/// The entry behind which a further key of the table with this heading is written: its last one, or the
/// heading.
std::size_t last_of_section(const Script& script, std::size_t heading);

/// A key with its value as lines behind an entry, indented as it is. A table becomes several lines with
/// dotted keys where `dotted`.
Splice put_behind(const Script& script, std::size_t entry, const Way& keys, const Written& value,
                  bool dotted);

/// A key of the job itself, before the first heading.
Splice put_on_top(const Script& script, const std::string& key, const Written& value);

/// Where a heading that begins with this key of the job stands, in the usual order of a job's file.
std::size_t place_of_section(const Script& script, const std::string& key);

/// A table under its heading, or a list of tables each under its own; a table of the job that has nothing but
/// tables is written as these.
std::string sections_in_toml(const Way& way, const Written& value);

}  // namespace poise::job
