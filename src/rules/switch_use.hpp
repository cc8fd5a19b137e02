// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "rules/sight.hpp"

namespace poise::rules {

/// What a pressure switch is there for.
struct SwitchUse {
  bool ends_pumping = false;
  bool lets_go_on = false;  ///< a step, or something other than a pump, waits for it
};
SwitchUse switch_use(const Sight& sight, int contact);

}  // namespace poise::rules
