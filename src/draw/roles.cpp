// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/roles.hpp"

#include <algorithm>

namespace poise::draw {

bool is_actuator(const PlannedPart& part, const Oil& oil) {
  const Kind& kind = *part.kind;
  if (kind.oil_ports == 0 || kind.motion_ports == 0 || kind.about.role == Role::source) return false;
  const Laws laws = kind.make(part.values, oil);
  const Body body = laws.body(laws.numbers.get(), 0);
  return body.mass > 0.0 || body.start.has_value();
}

bool opens_by_itself(const Kind& kind) {
  if (kind.oil_ports < 2 || kind.motion_ports > 0 || !kind.inputs.empty()) return false;
  if (kind.about.role == Role::pressure_limit || kind.about.role == Role::one_way) return true;
  return kind.about.role == Role::none &&
         std::ranges::find(kind.states, Quantity::share, &State::quantity) != kind.states.end();
}

std::string kind_in_words(const Kind& kind) {
  std::string text(kind.about.kind);
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto figure = [&](std::size_t k) { return k < text.size() && text[k] >= '0' && text[k] <= '9'; };
    if (text[i] == '_') text[i] = figure(i - 1) && figure(i + 1) ? '/' : ' ';
  }
  return text;
}

}  // namespace poise::draw
