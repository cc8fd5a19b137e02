// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <map>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "job/edit.hpp"
#include "job/node.hpp"

namespace poise::forms {

using Random = std::mt19937;

/// A number from 0 up to, but without, `end`.
std::size_t pick(Random& random, std::size_t end);

/// The texts of all jobs of the repository.
const std::vector<std::string>& all_jobs();

/// A text with other line ends, a mark at its beginning, an open end, without blank lines, or as it is.
std::string in_another_dress(std::string text, Random& random);

/// A tree as TOML in forms chosen at random: headings, braces, dotted keys, lists over several lines, all
/// kinds of texts, comments that look like something else.
std::string in_random_form(const job::Node& tree, Random& random);

/// What stands in a tree by the ways to it; lists and tables without anything in them are left out.
std::map<job::Way, std::string> leaves_of(const job::Node& tree);

/// The ways to everything in a tree but the tree itself.
std::vector<job::Way> ways_of(const job::Node& tree);

/// The tree of a text that must be TOML.
job::Node tree_of(std::string_view text);

}  // namespace poise::forms
