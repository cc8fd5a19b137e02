// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// docs/faults.md names for each fault of the trade's list what stands for it: its table against the rooms.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <iterator>
#include <sstream>

#include "study/faulty_jobs.hpp"
#include "support/plausible.hpp"

namespace poise::study {
namespace {

struct StandsFor {
  std::string number, kind, fault;  ///< kind empty: none, and `fault` says why
};

std::vector<std::string> parted(const std::string& text, const std::string& by) {
  std::vector<std::string> parts;
  std::size_t at = 0;
  for (std::size_t next; (next = text.find(by, at)) != std::string::npos; at = next + by.size())
    parts.push_back(text.substr(at, next - at));
  parts.push_back(text.substr(at));
  return parts;
}

/// The rows whose first cell is a number of the list.
std::vector<StandsFor> table() {
  std::ifstream in(POISE_SOURCE_DIR "/docs/faults.md");
  std::vector<StandsFor> rows;
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with("| F")) continue;
    const auto cells = parted(line.substr(2, line.size() - 4), " | ");
    if (cells.size() != 3) {
      ADD_FAILURE() << line;
      continue;
    }
    if (cells[2].starts_with("none: ")) {
      rows.push_back({cells[0], "", cells[2].substr(6)});
      continue;
    }
    for (const std::string& each : parted(cells[2], "; ")) {
      const auto words = parted(each, "`: ");
      if (words.size() == 2 && words[0].starts_with("`"))
        rows.push_back({cells[0], words[0].substr(1), words[1]});
      else
        ADD_FAILURE() << cells[0] << ": " << each;
    }
  }
  return rows;
}

constexpr std::array chapters{"circuit", "oil", "power", "people"};
bool is_chapter(const std::string& word) { return std::ranges::find(chapters, word) != chapters.end(); }

std::string kind_name(const std::string& word) { return word == "directional" ? "directional_4_3" : word; }

// The list itself has no numbers 19, 76 to 79 and 94.
TEST(fault_library, has_a_row_for_each_number_of_the_trades_list) {
  std::vector<std::string> numbers;
  for (const StandsFor& row : table()) {
    if (numbers.empty() || numbers.back() != row.number) numbers.push_back(row.number);
  }
  std::vector<std::string> wanted;
  for (int i = 1; i <= 104; ++i) {
    const bool gap = i == 19 || (i >= 76 && i <= 79) || i == 94;
    if (!gap) wanted.push_back((i < 10 ? "F0" : "F") + std::to_string(i));
  }
  EXPECT_EQ(numbers.size(), 98u);
  EXPECT_EQ(numbers, wanted);
}

/// A job of one part with plausible values; no circuit, since only its values are looked at.
Job with_one_part(const Kind& kind) {
  Job job;
  job.world = units::metric();
  job.plan.parts.push_back({"X1", &kind, workshop::plausible(kind), {}});
  job.drawn.emplace_back();
  return job;
}

bool same_values(const Job& a, const Job& b) {
  const auto one = a.plan.parts[0].values.all(), other = b.plan.parts[0].values.all();
  for (std::size_t i = 0; i < one.size(); ++i) {
    if (one[i] != other[i] && !(std::isnan(one[i]) && std::isnan(other[i]))) return false;
  }
  return true;
}

TEST(fault_library, names_faults_that_rooms_have_and_that_change_a_part) {
  for (const StandsFor& row : table()) {
    if (row.kind.empty() || is_chapter(row.kind)) continue;
    const Kind* kind = find_kind(kind_name(row.kind));
    ASSERT_TRUE(kind) << row.number << ": " << row.kind;
    Job job = with_one_part(*kind);
    // What another value stands for in the plausible part is stated the way that this fault changes.
    const auto at = std::ranges::find(kind->faults, std::string_view(row.fault), &Fault::name);
    ASSERT_NE(at, kind->faults.end()) << row.number << ": " << row.kind << " has no " << row.fault;
    Values& values = job.plan.parts[0].values;
    const int parameter = *find_parameter(kind->parameters, at->parameter);
    if (at->change != Fault::Change::becomes && !(std::abs(values.all()[parameter]) > 0.0)) {
      const Parameter& line = kind->parameters[parameter];
      values.set(parameter, line.low > 0.0 ? std::sqrt(line.low * line.high) : 0.5 * (line.low + line.high));
    }
    if (at->parameter == "speed") {
      values.set(*find_parameter(kind->parameters, "displacement"), 4 * si::cm3);
      values.set(*find_parameter(kind->parameters, "flow"), std::nan(""));
    }
    const FaultList list = list_faults(job);
    const auto place = std::ranges::find(list.places, "X1 " + row.fault, &FaultPlace::name);
    ASSERT_NE(place, list.places.end())
        << row.number << ": " << row.kind << " " << row.fault << ": "
        << (list.not_applicable.empty() ? "" : list.not_applicable.front().reason);
    const auto faulty = with_fault(job, *place, 1.0);
    ASSERT_TRUE(faulty) << row.number;
    EXPECT_FALSE(same_values(job, *faulty)) << row.number << ": " << row.kind << " " << row.fault;
  }
}

TEST(fault_library, names_faults_of_the_circuit_the_oil_and_people_that_the_examples_have) {
  std::vector<FaultPlace> all;
  for (const char* name : {"drilling-stand", "axle-box-lift"}) {
    for (FaultPlace& place : faults_of(faulty_jobs::example(name))) all.push_back(std::move(place));
  }
  for (const StandsFor& row : table()) {
    if (!is_chapter(row.kind)) continue;
    EXPECT_TRUE(std::ranges::any_of(all,
                                    [&](const FaultPlace& place) {
                                      return place.of != FaultPlace::Of::room &&
                                             place.fault.find(row.fault) != std::string::npos;
                                    }))
        << row.number << ": " << row.fault;
  }
}

TEST(fault_library, says_why_where_nothing_stands_for_a_fault) {
  for (const StandsFor& row : table()) {
    if (!row.kind.empty()) continue;
    EXPECT_GT(row.fault.size(), 20u) << row.number;
  }
}

}  // namespace
}  // namespace poise::study
