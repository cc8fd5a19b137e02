// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "job/edit.hpp"
#include "job/node.hpp"
#include "parts/kind.hpp"
#include "units/units.hpp"

namespace poise::compose {

/// A part as it stands in a job's text.
struct Placed {
  std::string tag;
  const Kind* kind = nullptr;        ///< null where the text names none that there is
  const job::Node* table = nullptr;  ///< its values
  job::Way at;                       ///< the way to them
  std::vector<std::string> ports;    ///< "P1.P"; those that exist with these values
  std::optional<std::size_t> line;   ///< of a hose or tube that an entry of [[lines]] is laid as
  bool tagged = true;                ///< false: its tag is made of its line's ends
};

/// Ports that one entry of the text joins.
struct Entry {
  enum class Is {
    line,        ///< of [[lines]], joined directly
    group,       ///< of joined
    hose_begin,  ///< `from` of a line with a hose or tube, and the end A of that
    hose_end,    ///< its `to`, and the end B
  };
  Is is = Is::line;
  std::size_t index = 0;           ///< in [[lines]], or in joined
  std::vector<std::string> ports;  ///< as written, `from` first; of a hose's end: the port it is on, its own
};

/// A job's text as its circuit stands there, whether or not it can be run.
struct Sheet {
  job::Node tree;
  units::World world;
  std::vector<Placed> parts;
  std::vector<Entry> entries;
  std::vector<std::string> plugged;

  bool us() const { return world.name == units::us().name; }
  const Placed* find(std::string_view tag) const;
  /// The part that a dotted name, of a port or a signal, belongs to: the one with the longest tag.
  const Placed* owner(std::string_view name) const;
  /// The port of its kind; null where there is none of that name.
  const Port* port(std::string_view name) const;
};

/// Reads as much of a text as says how parts are joined; a sentence where it is not TOML.
std::variant<Sheet, std::string> read_sheet(std::string_view text);

/// The entry of a table by its key, or null.
const job::Node* find_key(const job::Node& table, std::string_view key);
/// Ports of a kind, by name, that exist where a part's values stand as in the table.
std::vector<std::string_view> existing_ports(const Kind& kind, const job::Node& values);

}  // namespace poise::compose
