// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

// The glue for GoogleTest needs GoogleTest before it.
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "job/edits.hpp"
#include "job/toml_forms.hpp"
#include "job/tree.hpp"

namespace poise {
namespace {

using namespace edits;
using forms::pick;
using forms::Random;
using job::Node;

/// A few parts, lines, steps of a job.
Node piece_of(const std::string& job, Random& random) {
  Node piece = forms::tree_of(job);
  const auto leave_some = [&](auto& all) {
    constexpr std::size_t some = 4;
    while (all.size() > some) all.erase(all.begin() + static_cast<std::ptrdiff_t>(pick(random, all.size())));
  };
  for (job::Field& field : piece.fields) {
    leave_some(field.value.items);
    leave_some(field.value.fields);
  }
  return piece;
}

/// A job of the repository, or a piece of one in other forms of TOML.
std::string any_job(Random& random) {
  const auto& jobs = forms::all_jobs();
  std::string text = jobs[pick(random, jobs.size())];
  constexpr std::size_t one_in = 4;
  if (pick(random, one_in) > 0) text = forms::in_random_form(piece_of(text, random), random);
  return forms::in_another_dress(std::move(text), random);
}

Way any_way(const Node& tree, Random& random) {
  const auto ways = forms::ways_of(tree);
  return ways.empty() ? Way{} : ways[pick(random, ways.size())];
}

bool is_leaf(const Node& node) { return node.form != Node::Form::table && node.form != Node::Form::list; }

Written any_value(Random& random) {
  static const std::vector<Written> values{text("210 bar"),
                                           text("\"#] \\ ä"),
                                           text(""),
                                           number(3),
                                           number(-0.25),
                                           Written{true},
                                           list({number(40), number(25)}),
                                           list({}),
                                           table({{"bore", text("8 mm")}, {"a.b", list({text("x")})}})};
  return values[pick(random, values.size())];
}

Written any_plain_value(Random& random) {
  return pick(random, 2) == 0 ? text("value " + std::to_string(random()))
                              : number(0.5 * static_cast<double>(pick(random, 1000)));
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    lines.emplace_back(text.substr(0, text.find('\n')));
    text.remove_prefix(std::min(text.size(), lines.back().size() + 1));
  }
  return lines;
}

std::size_t comments_in(std::string_view text) {
  const auto lines = lines_of(text);
  return static_cast<std::size_t>(std::ranges::count_if(lines, [](const std::string& line) {
    const std::size_t first = line.find_first_not_of(" \t");
    return first != std::string::npos && line[first] == '#';
  }));
}

std::string edited_text(const std::string& before, const Edit& edit) {
  const job::Edited result = job::edited(before, std::vector<Edit>{edit});
  if (!result.complaint.empty()) RC_FAIL(result.complaint + "\n" + job::shown(edit.at) + "\n" + before);
  return result.text;
}

RC_GTEST_PROP(EditProperty, a_value_that_is_set_changes_nothing_else, (unsigned seed)) {
  Random random(seed);
  const std::string before = any_job(random);
  const Node tree = forms::tree_of(before);
  auto leaves = forms::leaves_of(tree);
  auto leaf = leaves.begin();
  std::advance(leaf, pick(random, leaves.size()));
  const Written value = any_plain_value(random);
  const std::string now = edited_text(before, {Edit::Does::set, leaf->first, value});
  leaf->second = forms::leaves_of(job::node_of(value)).begin()->second;
  RC_ASSERT(forms::leaves_of(forms::tree_of(now)) == leaves);
  RC_ASSERT(comments_in(now) == comments_in(before));
  const auto old_lines = lines_of(before), new_lines = lines_of(now);
  if (old_lines.size() != new_lines.size()) return;  // it stood in several lines
  std::size_t changed = 0;
  for (std::size_t i = 0; i < old_lines.size(); ++i) changed += old_lines[i] != new_lines[i];
  RC_ASSERT(changed == 1u);
}

RC_GTEST_PROP(EditProperty, what_is_there_already_leaves_every_byte, (unsigned seed)) {
  Random random(seed);
  const std::string before = any_job(random);
  const Node tree = forms::tree_of(before);
  const Way way = any_way(tree, random);
  RC_ASSERT(edited_text(before, {Edit::Does::set, way, job::written_of(*job::node_at(tree, way))}) == before);
}

RC_GTEST_PROP(EditProperty, what_is_removed_and_put_back_means_the_same, (unsigned seed)) {
  Random random(seed);
  const std::string before = any_job(random);
  const Node tree = forms::tree_of(before);
  const Way way = any_way(tree, random);
  const Written value = job::written_of(*job::node_at(tree, way));
  const std::string without = edited_text(before, {Edit::Does::remove, way});
  Edit back{Edit::Does::set, way, value};
  if (const auto* place = std::get_if<std::size_t>(&way.back()))
    back = {Edit::Does::add, Way(way.begin(), way.end() - 1), value, *place};
  RC_ASSERT(forms::leaves_of(forms::tree_of(edited_text(without, back))) == forms::leaves_of(tree));
}

RC_GTEST_PROP(EditProperty, an_entry_that_moves_away_and_back_means_the_same, (unsigned seed)) {
  Random random(seed);
  const std::string before = any_job(random);
  const Node tree = forms::tree_of(before);
  auto ways = forms::ways_of(tree);
  std::erase_if(ways, [](const Way& way) { return !std::holds_alternative<std::size_t>(way.back()); });
  const Way way = ways[pick(random, ways.size())];
  const Way list(way.begin(), way.end() - 1);
  const std::size_t from = std::get<std::size_t>(way.back()),
                    to = pick(random, job::node_at(tree, list)->items.size());
  const std::string moved = edited_text(before, {Edit::Does::move, way, {}, to});
  Way there = list;
  there.emplace_back(to);
  RC_ASSERT(job::same(*job::node_at(forms::tree_of(moved), there), *job::node_at(tree, way)));
  const std::string back = edited_text(moved, {Edit::Does::move, there, {}, from});
  RC_ASSERT(forms::leaves_of(forms::tree_of(back)) == forms::leaves_of(tree));
  RC_ASSERT(comments_in(back) == comments_in(before));
}

/// One of all that can be done to a job.
Edit any_edit(const Node& tree, Random& random) {
  const Way way = any_way(tree, random);
  const Node& there = *job::node_at(tree, way);
  Way inner = way;
  switch (pick(random, 6)) {
    case 0:
      if (is_leaf(there)) return {Edit::Does::set, way, any_value(random)};
      break;
    case 1:
      return {Edit::Does::remove, way};
    case 2:
      if (there.form != Node::Form::list || there.items.empty()) break;
      return {Edit::Does::add, way, job::written_of(there.items[pick(random, there.items.size())]),
              pick(random, there.items.size() + 2)};
    case 3:
      if (there.form != Node::Form::list || there.items.empty()) break;
      inner.emplace_back(pick(random, there.items.size()));
      return {Edit::Does::move, inner, {}, pick(random, there.items.size())};
    case 4:
      if (!std::holds_alternative<std::string>(way.back())) break;
      return {Edit::Does::rename, way, text(pick(random, 2) == 0 ? "renamed" : "a \"tag\"")};
    default:
      if (there.form != Node::Form::table) break;
      inner.emplace_back("new" + std::to_string(pick(random, 3)));
      return {Edit::Does::set, inner, any_value(random)};
  }
  return {Edit::Does::set,
          Way{std::string("parts"), "V" + std::to_string(pick(random, 9)), std::string("note")},
          any_value(random)};
}

RC_GTEST_PROP(EditProperty, any_sequence_of_edits_succeeds_and_leaves_toml, (unsigned seed)) {
  Random random(seed);
  std::string text = any_job(random);
  for (int i = 0; i < 4; ++i) {
    const Node tree = forms::tree_of(text);
    if (tree.fields.empty()) return;
    const Edit edit = any_edit(tree, random);
    const auto wanted = job::changed(tree, edit);
    if (std::holds_alternative<std::string>(wanted))
      continue;  // such as a part's note below what is no table
    text = edited_text(text, edit);
    RC_ASSERT(job::same(forms::tree_of(text), std::get<Node>(wanted)));
  }
}

}  // namespace
}  // namespace poise
