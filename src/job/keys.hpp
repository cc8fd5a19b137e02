// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>

#include "quantity/quantity.hpp"

namespace poise::job {

/// What stands behind a key of a job.
enum class KeyForm {
  text,          ///< free text
  name,          ///< free text that is not empty
  tag,           ///< what a part or line is called: "V1", "1-H2.3"
  tags,          ///< one or several
  port,          ///< "P1.P"
  ports,         ///< one or several
  joints,        ///< lists of ports that are joined
  signal,        ///< "C1.A.pressure"
  signals,       ///< two or more
  condition,     ///< "C1.A.pressure > 180 bar", "S1 on"
  conditions,    ///< one or several
  limit,         ///< a value of what the requirement's signal measures
  duration,      ///< a time
  commands,      ///< tags with values; numbers may read "find"
  switching,     ///< tags with values
  moves,         ///< tags of actuators with words
  kind,          ///< of a part
  model,         ///< of a parts list, or "find"
  place,         ///< two numbers: modules of the drawing
  code,          ///< after ISO 1219-2
  files,         ///< one or several files or folders
  temperatures,  ///< the coldest and the hottest
  steps,         ///< one or several names of steps
  rule,          ///< of the trade, by name
  reason,        ///< a sentence
  harm,          ///< words for what breaking it does
  paper,         ///< words for sizes of paper
  on_off,        ///< "on" or "off"
  base,          ///< "metric" or "us"
  units,         ///< such a word, or a table
  oil,           ///< a table, as the following
  hose,
  tube,
  drawing,
  parts,  ///< tables by tag
  lines,  ///< lists of tables, as the following
  step_list,
  controls,
  requirements,
  waivers,
};

/// A key that one of the job's tables has. Whoever reads the table asks for no other (`Section`), and what is
/// written about the table lists them all.
struct Key {
  std::string_view name;
  KeyForm form;
  std::string_view meaning;
  bool needed = false;
};

/// One thing that a requirement may ask, by the key that says so, with the keys that go with it.
struct Question {
  std::string_view key;
  std::array<std::string_view, 2> needs;
  std::string_view may = {};
  std::string_view meaning;
};

/// The keys of each table, without the values of a part's kind or of the oil, which have tables of their own.
namespace keys {

std::span<const Key> of_job();
std::span<const Key> of_part();
/// Of the table behind `hose` or `tube`.
std::span<const Key> of_conduit();
std::span<const Key> of_line();
std::span<const Key> of_oil();
/// Beside the quantities.
std::span<const Key> of_units();
std::span<const Key> of_step();
std::span<const Key> of_control();
std::span<const Key> of_requirement();
std::span<const Key> of_waiver();
std::span<const Key> of_drawing();

}  // namespace keys

/// The key of [units] that names the unit of a quantity: "spring_rate".
std::string unit_key(Quantity quantity);

/// What a requirement may ask; exactly one of them.
std::span<const Question> questions();

/// What a step may ask of an actuator while there is no circuit, in the order of `Move::Goes`.
inline constexpr std::array<std::string_view, 3> move_words{"out", "in", "hold"};
/// The systems of units by name.
inline constexpr std::array<std::string_view, 2> base_words{"metric", "us"};
inline constexpr std::array<std::string_view, 2> on_off_words{"on", "off"};
/// The letters of the media in a code; from memory.
inline constexpr std::string_view code_media = "HPCKLG";
/// How far from the lower left corner a part may be drawn, modules.
inline constexpr double farthest_drawn = 2000.0;
/// A reason with fewer letters is none.
inline constexpr int fewest_letters_of_reason = 12;

}  // namespace poise::job
