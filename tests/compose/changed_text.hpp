// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "circuit/join.hpp"
#include "compose/change.hpp"
#include "job/reading.hpp"

namespace poise::compose {

/// The text after a change that must succeed.
inline std::string text_of(const Changed& changed) {
  EXPECT_EQ(changed.complaint, "");
  EXPECT_NE(changed.says, "");
  return changed.text;
}

inline job::Reading reading_of(const std::string& text) {
  return job::read_as_far_as_understood(text, "test.toml");
}

/// What a text says of the circuit, whatever the order of its lines: parts with their values, which ports are
/// joined, which are plugged.
inline std::set<std::string> circuit_of(const std::string& text) {
  const job::Reading reading = reading_of(text);
  EXPECT_TRUE(reading.is_toml) << text;
  const Plan& plan = reading.job.plan;
  std::set<std::string> all;
  for (const PlannedPart& part : plan.parts) {
    std::string line = fmt::format("{}: {}", part.tag, part.kind->about.kind);
    for (const double value : part.values.all()) line += fmt::format(" {:.12g}", value);
    all.insert(line);
  }
  for (const auto& members : join(plan).members) {
    std::vector<std::string> names;
    for (const PortOf& port : members) names.push_back(plan.name(port));
    std::ranges::sort(names);
    if (names.size() > 1) all.insert(fmt::format("{}", fmt::join(names, " ")));
  }
  for (const PortOf& port : plan.plugged) all.insert("plugged " + plan.name(port));
  return all;
}

/// The complaints about a text without those about ports that are not joined yet.
inline std::vector<std::string> complaints_beside_open_ports(const std::string& text) {
  std::vector<std::string> all;
  for (const Remark& remark : reading_of(text).complaints.list) {
    if (remark.sentence.find("is connected to nothing") == std::string::npos) all.push_back(remark.sentence);
  }
  return all;
}

}  // namespace poise::compose
