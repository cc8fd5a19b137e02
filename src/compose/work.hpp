// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "compose/change.hpp"
#include "compose/names.hpp"
#include "compose/nets.hpp"
#include "compose/port_use.hpp"
#include "compose/rejoin.hpp"

namespace poise::compose {

/// A change in the making: the text as it was, and the circuit as it will be.
struct Work {
  std::string_view text;
  Sheet sheet;
  Nets nets;                       ///< as wanted
  Wish wish{};                     ///< how the lines are written
  std::vector<job::Edit> edits{};  ///< beside those of the lines
};

/// A part that is to be written.
struct NewPart {
  std::string tag;
  const Kind* kind = nullptr;
  PortUse use;
  std::string port(const std::string& name) const { return tag + "." + name; }
};

Changed cannot(std::string sentence);

/// Reads the text and works on it; a text that is no TOML is the complaint.
Changed with_sheet(std::string_view text, const std::function<Changed(Work&)>& change);

/// Makes the changes. `says` gets a word on hoses that went along.
Changed finished(Work& work, std::string says, std::string tag);

/// A part of the kind with its values, its ports not joined yet; `beside` are the ports that it comes to be
/// on.
NewPart add_part(Work& work, const Kind& kind, const std::vector<std::string>& beside);
/// Joins ports of a part that give oil off to the reservoir that belongs to a port's line; where there is
/// none they stay open.
void join_drains(Work& work, const NewPart& part, const std::string& near);

/// The port by which a line's text speaks of this one: of a hose's end, the port that it is on.
std::string as_written(const Sheet& sheet, const std::string& port);

/// "pilot operated check", "double acting cylinder": the kind as it is spoken of.
std::string spoken(const Kind& kind);
/// "an accumulator", "a pump".
std::string one(const Kind& kind);
/// Why a name is no kind, or no port of the job.
std::string no_such_kind(std::string_view kind);
std::string no_such_port(const Sheet& sheet, std::string_view port);
std::string no_such_part(std::string_view tag);

}  // namespace poise::compose
