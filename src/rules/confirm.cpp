// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/confirm.hpp"

#include <algorithm>
#include <array>

namespace poise::rules {
namespace {

/// Of the machine as a whole. Sources: ISO 4413 as a university page restates it; fluid power safety alerts;
/// accident insurance information on safe maintenance of hydraulic systems; the rest common practice.
constexpr std::array of_the_machine{
    Rule{"local codes",
         "Codes of the place and a licensed person have the last word on lifting, presses and vessels under "
         "pressure, and have said it."},
    Rule{
        "loss of power",
        "When electric power, air or oil fails nothing falls, opens or moves by itself; what each valve does "
        "then has been tried.",
        "ISO 4413, restated by a university page"},
    Rule{"emergency stop",
         "The emergency stop needs nothing to be energised, and ends every motion that can hurt.",
         "ISO 4413, restated by a university page"},
    Rule{"no hidden restart", "When power or oil comes back nothing moves before a person starts it anew."},
    Rule{"zero energy before work",
         "Before anyone works on it: loads down, pump off and locked, every valve worked, every "
         "trapped place bled, and zero read at each of them.",
         "fluid power safety alerts; accident insurance information"},
    Rule{"no cracked fittings",
         "Every place that can stay under pressure has a bleed valve; nobody opens a fitting to let it "
         "off.",
         "fluid power safety alerts"},
    Rule{"nobody in the way",
         "Where people stand while it moves has been decided and marked: not under loads, not in line with "
         "hoses and rods, not within reach of clamps."},
    Rule{"settings locked",
         "Every valve that can be adjusted is locked, capped or sealed, and its setting stands on a plate.",
         "ISO 4413, content from memory"},
    Rule{"no heat, no air", "Nobody heats a cylinder with a flame or drives its parts out with air.",
         "forestry safety alert"},
    Rule{"oil clean",
         "The oil was filled through a filter and is as clean as the most delicate valve needs: ISO 4406 "
         "18/16/13, "
         "17/15/12 with pressure valves and piston pumps.",
         "target tables of two distributors"},
    Rule{"setting in order", "Valves were set in this order: main relief, reducing, sequence, flow."},
};

}  // namespace

std::vector<ToConfirm> to_confirm(const Plan& plan) {
  std::vector<ToConfirm> all;
  for (const Rule& rule : of_the_machine) all.push_back({rule.name, rule.sentence, rule.source, {}});
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    for (const Rule& rule : plan.parts[p].kind->rules) {
      const auto known = std::ranges::find(all, rule.sentence, &ToConfirm::sentence);
      if (known != all.end())
        known->parts.push_back(p);
      else
        all.push_back({rule.name, rule.sentence, rule.source, {p}});
    }
  }
  return all;
}

}  // namespace poise::rules
