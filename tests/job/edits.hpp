// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <vector>

#include "job/edit.hpp"

namespace poise::edits {

using job::Edit;
using job::Way;
using job::Written;
using List = Written::List;
using Table = Written::Table;

inline Written text(std::string_view value) { return {std::string(value)}; }
inline Written number(double value) { return {value}; }
inline Written list(List items) { return {std::move(items)}; }
inline Written table(Table fields) { return {std::move(fields)}; }

/// "parts.V1.setting", "steps.0.set": a way whose keys have no dots, places counted from 0.
inline Way way(std::string_view dotted) {
  Way way;
  while (!dotted.empty()) {
    const std::string stop(dotted.substr(0, dotted.find('.')));
    dotted.remove_prefix(std::min(dotted.size(), stop.size() + 1));
    if (stop.find_first_not_of("0123456789") == std::string::npos) {
      way.emplace_back(static_cast<std::size_t>(std::stoul(stop)));
    } else {
      way.emplace_back(stop);
    }
  }
  return way;
}

inline Edit set(std::string_view at, Written value) { return {Edit::Does::set, way(at), std::move(value)}; }
inline Edit remove(std::string_view at) { return {Edit::Does::remove, way(at)}; }
inline Edit rename(std::string_view at, std::string_view to) {
  return {Edit::Does::rename, way(at), text(to)};
}
inline Edit move(std::string_view at, std::size_t place) { return {Edit::Does::move, way(at), {}, place}; }
inline Edit add(std::string_view at, Written value, std::optional<std::size_t> place = {}) {
  return {Edit::Does::add, way(at), std::move(value), place};
}

/// The text after the edits; the complaint in angle brackets where it cannot be had.
inline std::string after(std::string_view text, const std::vector<Edit>& edits) {
  const job::Edited edited = job::edited(text, edits);
  return edited.complaint.empty() ? edited.text : "<" + edited.complaint + ">";
}

/// A text, what is done to it, and what must come of it.
struct Case {
  std::string_view name;
  std::string_view before;
  std::vector<Edit> edits;
  std::string_view after;
};

inline void expect(const std::vector<Case>& cases) {
  for (const Case& each : cases) EXPECT_EQ(after(each.before, each.edits), each.after) << each.name;
}

}  // namespace poise::edits
