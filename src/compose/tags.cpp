// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/tags.hpp"

#include <algorithm>
#include <array>
#include <cctype>

namespace poise::compose {
namespace {

/// What tags begin with; all other kinds are valves, V.
struct Letter {
  std::string_view kind, letter;
};
constexpr std::array letters{
    Letter{"reservoir", "T"},
    Letter{"pump", "P"},
    Letter{"two_stage_pump", "P"},
    Letter{"variable_pump", "P"},
    Letter{"air_driven_pump", "P"},
    Letter{"hand_pump", "P"},
    Letter{"shaft_pump", "P"},
    Letter{"electric_motor", "E"},
    Letter{"accumulator", "A"},
    Letter{"intensifier", "I"},
    Letter{"cycling_intensifier", "I"},
    Letter{"hydraulic_motor", "R"},
    Letter{"pressure_switch", "S"},
    Letter{"needle", "N"},
    Letter{"one_way_flow_control", "N"},
    Letter{"gear_flow_divider", "D"},
    Letter{"flow_divider", "D"},
    Letter{"snubber", "D"},
    Letter{"capillary", "D"},
    Letter{"hose", "H"},
    Letter{"tube", "L"},
    Letter{"fitting", "B"},
    Letter{"manifold", "B"},
    Letter{"quick_coupling", "Q"},
    Letter{"filter", "F"},
    Letter{"cooler", "Y"},
    Letter{"gauge", "G"},
    Letter{"warmed_oil", "U"},
    Letter{"single_acting_cylinder", "C"},
    Letter{"double_acting_cylinder", "C"},
    Letter{"swing_clamp", "K"},
    Letter{"work_support", "W"},
    Letter{"mass", "M"},
    Letter{"force", "F"},
    Letter{"spring", "X"},
    Letter{"rigid_load", "L"},
    Letter{"lock_nut", "L"},
};

std::string next(const Sheet& sheet, std::string_view beginning, const std::vector<std::string>& taken) {
  for (int number = 1;; ++number) {
    std::string tag = std::string(beginning) + std::to_string(number);
    if (!sheet.find(tag) && std::ranges::find(taken, tag) == taken.end()) return tag;
  }
}

}  // namespace

std::string next_tag(const Sheet& sheet, std::string_view kind, const std::vector<std::string>& taken) {
  const auto letter = std::ranges::find(letters, kind, &Letter::kind);
  return next(sheet, letter == letters.end() ? "V" : letter->letter, taken);
}

std::string next_like(const Sheet& sheet, std::string_view tag, const std::vector<std::string>& taken) {
  while (!tag.empty() && std::isdigit(static_cast<unsigned char>(tag.back()))) tag.remove_suffix(1);
  return next(sheet, tag, taken);
}

}  // namespace poise::compose
