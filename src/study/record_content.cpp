// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <tuple>

#include "judge/outcome.hpp"
#include "study/record.hpp"
#include "units/units.hpp"

namespace poise::study {
namespace {

/// On one line, and no two texts look alike.
std::string on_one_line(std::string_view text) {
  std::string line = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\')
      line += {'\\', c};
    else if (byte < 0x20)
      line += fmt::format("\\x{:02x}", byte);
    else
      line += c;
  }
  return line + '"';
}

/// The shortest number that reads back to the same double.
std::string exact(const std::optional<double>& value) { return value ? fmt::format("{}", *value) : "none"; }

std::string lines_of(const Heading& heading) {
  std::string text =
      fmt::format("study {}\n  title {}\n  fingerprint {}\n  options {}\n  version {}\n  job {}\n",
                  on_one_line(heading.kind), on_one_line(heading.title), on_one_line(heading.fingerprint),
                  on_one_line(heading.options), on_one_line(heading.version), on_one_line(heading.job));
  text += fmt::format("  first {}\n  wanted {}\n", heading.first, heading.wanted);
  for (const Promise& promise : heading.promises)
    text += fmt::format("  promise {} {} {}\n", on_one_line(promise.name), on_one_line(promise.promised),
                        units::name(promise.quantity));
  return text;
}

std::string lines_of(const Row& row) {
  std::string text = fmt::format("  run {} {} {}\n", row.number, word(row.outcome), on_one_line(row.detail));
  for (const Kept& kept : row.promises)
    text +=
        fmt::format("    {}, margin {}, share {}\n", word(kept.mark), exact(kept.margin), exact(kept.share));
  return text;
}

}  // namespace

std::string content(const Record& record, std::string& complaint) {
  std::vector<std::pair<std::string, long>> studies;
  for (const Study& study : record.studies(complaint))
    studies.emplace_back(lines_of(study.heading), study.id);
  std::ranges::sort(studies);
  std::string text;
  for (const auto& [heading, id] : studies) {
    text += heading;
    const std::string said = record.each_row(id, [&](const Row& row) { text += lines_of(row); });
    if (!said.empty()) complaint = said;
  }
  return text;
}

}  // namespace poise::study
