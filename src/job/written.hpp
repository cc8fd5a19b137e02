// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>

#include "job/tree.hpp"

namespace poise::job {

/// A value on one line: `"210 bar"`, `[40, 25]`, `{ bore = "8 mm", length = "2 m" }`.
std::string in_toml(const Written& value);

/// A key, in quotation marks where it needs them; with several stops of a way, dots between them. Places in
/// lists are left out, as headings leave them out.
std::string key_in_toml(std::span<const Stop> way);

/// One line each, `key = value`; in front of each key stands `indent`, between key and value `equals`.
std::string lines_in_toml(const Written::Table& table, const std::string& indent = "",
                          const std::string& equals = " = ");

/// Whether the value is a list that has entries, all of them tables.
bool is_list_of_tables(const Written& value);

}  // namespace poise::job
