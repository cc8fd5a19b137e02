// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.hpp"
#include "job/node.hpp"
#include "job/section.hpp"

namespace poise::job {

/// A job half read, and all that was found wrong so far.
struct Draft {
  Job job;
  Remarks remarks;
  std::map<std::string, int, std::less<>> parts{};  ///< index in the plan by tag
  std::set<std::string, std::less<>>
      left_out{};             ///< tags of parts that could not be made; no word about their ports
  std::set<PortOf> unsure{};  ///< ports joined to something that was not understood
  bool stock_unsure =
      false;  ///< the parts lists could not be read; no word about models that are not in them
  std::set<int> unsure_parts{};       ///< parts of which a port was named that they do not have
  std::optional<Place> no_circuit{};  ///< where a step first says `move`: oil ports are open then
};

/// Brings remarks into the order of the lines, each once.
void sort_by_line(Remarks& remarks);

/// Reads all of a job; the complaints in the order of the lines. Paths in it start from `folder`.
Draft read_draft(const Node& root, std::string_view file_name, const std::filesystem::path& folder);

/// Each reads its part of the job's text into the draft, in this order.
void read_units(Draft& draft, Section& top);
void read_oil(Draft& draft, Section& top);
void read_lists(Draft& draft, Section& top, const std::filesystem::path& folder);
void read_parts(Draft& draft, Section& top);
void read_lines(Draft& draft, Section& top);
void read_steps(Draft& draft, Section& top);
/// `move` of the step that is being read: what its actuators are to do while there is no circuit.
void read_moves(Draft& draft, Section& step);
void read_controls(Draft& draft, Section& top);
void read_requirements(Draft& draft, Section& top);
void read_waivers(Draft& draft, Section& top);
void read_drawing(Draft& draft, Section& top);

/// How a part or a line with a tag is to be drawn: `drawn_at`, `assembly`, `code`, `note`.
DrawnPart read_drawn(Draft& draft, Section& section);

/// Makes a part of a known kind from its table and adds it to the plan. Keys beside the parameters' names
/// must have been asked for before. The part is left out if it cannot be known which ports it has.
void add_part(Draft& draft, Section& section, const std::string& tag, const Kind& kind, Place place,
              DrawnPart drawn);

/// Whether a tag can be used; complains if not.
bool is_usable_tag(Draft& draft, const std::string& tag, Place place);

/// Complains about a tag such as "C1.A" beside a part C1: its names would read like those of a port.
void refuse_tag_inside_tag(Draft& draft, const std::string& tag, Place place);

/// All tags of the job, for the nearest of them.
std::vector<std::string> known_tags(const Draft& draft);

/// `there is no part "P2"; did you mean "P1"?`
std::string no_such_part(const Draft& draft, std::string_view tag);

/// The tag that a dotted name begins with: the longest one known; else what stands before the last dot.
std::string_view tag_of(const Draft& draft, std::string_view name);

/// The port by name, "P1.P"; none after a complaint, or without one where the part was left out.
std::optional<PortOf> read_port(Draft& draft, const Text& name);

/// The signal by name, "C1.A.pressure"; none after a complaint that begins with `what`, or without one where
/// the part was left out.
std::optional<Signal> read_signal(Draft& draft, const Text& name, const std::string& what);

/// "C1.A.pressure > 180 bar", or "S1 on", "S1 off" of a part that has one mode.
std::optional<Condition> read_condition(Draft& draft, const Text& text, const std::string& what);
/// Those of a key, one or several.
std::vector<Condition> read_conditions(Draft& draft, Section& section, std::string_view key);

}  // namespace poise::job
