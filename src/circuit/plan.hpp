// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "oil/oil.hpp"
#include "parts/kind.hpp"

namespace poise {

/// Where in the job's text something stands; line 0 where there is no text.
struct Place {
  int line = 0;
  int column = 0;
};

struct PlannedPart {
  std::string tag;
  const Kind* kind;
  Values values;
  Place place;
};

/// One port of one part, by index.
struct PortOf {
  int part = 0;
  int port = 0;
  friend auto operator<=>(const PortOf&, const PortOf&) = default;
};

/// Two ports joined without anything between them.
struct Joint {
  PortOf a, b;
  Place place;
};

/// A circuit as planned: parts, what is joined to what, and the oil in it.
struct Plan {
  std::vector<PlannedPart> parts;
  std::vector<Joint> joints;
  std::vector<PortOf> plugged;  ///< ports closed by a plug on purpose
  OilData oil;

  const Port& port(PortOf p) const { return parts[p.part].kind->ports[p.port]; }
  /// "C1.A"
  std::string name(PortOf p) const { return parts[p.part].tag + "." + std::string(port(p).name); }
};

/// Something wrong or worth a word in a plan, in a practitioner's words: what, where, what would be right.
struct Remark {
  Place place;
  std::string sentence;
};

}  // namespace poise
