// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/switch_use.hpp"

#include <algorithm>

namespace poise::rules {
namespace {

/// Whether a condition asks for this switch.
bool asks_for(const std::vector<Condition>& conditions, int contact) {
  return std::ranges::any_of(conditions, [&](const Condition& each) {
    return each.signal.what == Signal::What::mode && each.signal.part == contact;
  });
}
bool sets_a_pump(const Sight& sight, const Control& control) {
  return std::ranges::any_of(control.commands, [&](const Command& each) {
    return sight.role(each.part) == Role::source || sight.is(each.part, "electric_motor");
  });
}

}  // namespace

SwitchUse switch_use(const Sight& sight, int contact) {
  SwitchUse use;
  for (const Step& step : sight.steps) use.lets_go_on |= asks_for(step.until, contact);
  for (const Control& control : sight.controls) {
    if (!asks_for(control.when, contact)) continue;
    (sets_a_pump(sight, control) ? use.ends_pumping : use.lets_go_on) = true;
  }
  return use;
}

}  // namespace poise::rules
