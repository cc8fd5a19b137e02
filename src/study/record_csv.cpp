// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/record_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace poise::study {
namespace {

/// As RFC 4180 has it.
std::string field(std::string_view text) {
  if (text.find_first_of(",\"\n\r") == std::string_view::npos) return std::string(text);
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + '"';
}

std::string head(const Heading& heading, const units::World& world, bool with_detail) {
  std::string line = "number,answer";
  for (const Promise& promise : heading.promises) {
    const std::string& unit = world[promise.quantity];
    line += ',' + field(promise.name) + ',';
    line += field(promise.name + (unit.empty() ? ", margin" : fmt::format(", margin [{}]", unit)));
  }
  return line + (with_detail ? ",detail\n" : "\n");
}

std::string line_of(const Row& row, const Heading& heading, const units::World& world, bool with_detail) {
  std::string line = fmt::format("{},{}", row.number, word(row.outcome));
  for (std::size_t i = 0; i < row.promises.size(); ++i) {
    const Kept& kept = row.promises[i];
    line += fmt::format(",{},", word(kept.mark));
    if (!kept.margin) continue;
    // Without a precision this is the shortest text that reads back to the same double.
    line += fmt::format("{}", units::difference_in_unit(*kept.margin, heading.promises[i].quantity, world));
  }
  if (with_detail) line += ',' + field(row.detail);
  return line + '\n';
}

}  // namespace

std::string write_csv(std::ostream& out, const Record& record, long study, const units::World& world) {
  std::string complaint;
  const std::vector<Study> studies = record.studies(complaint);
  const auto found = std::ranges::find(studies, study, &Study::id);
  if (found == studies.end()) return complaint.empty() ? "There is no such study in the file" : complaint;
  const Heading& heading = found->heading;
  const bool with_detail = record.has_details(study, complaint);
  if (!complaint.empty()) return complaint;
  out << head(heading, world, with_detail);
  return record.each_row(study, [&](const Row& row) { out << line_of(row, heading, world, with_detail); });
}

}  // namespace poise::study
