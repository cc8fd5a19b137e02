// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "rules/sequence_order.hpp"

namespace poise::rules {

PortOf pilot_of(const Sight& sight, int valve) { return sight.port(valve, "X").value_or(PortOf{valve, 0}); }

double setting_of(const Sight& sight, int valve) { return sight.values(valve)["setting"]; }

std::vector<Order> orders_of(const Sight& sight) {
  std::vector<Order> found;
  if (!sight.ran()) return found;
  const double end = sight.trace().time.back();
  for (int valve : sight.all({"sequence"})) {
    Order order{.valve = valve,
                .first = driven_in(sight, pressed_at_once(sight, {valve, 0})),
                .second = driven_in(sight, pressed_at_once(sight, {valve, 1})),
                .pilot = sight.pressure(pilot_of(sight, valve)),
                .opening = sight.state(valve, "opening"),
                .opens = end,
                .ends = end};
    if (!order.pilot || !order.opening) continue;
    order.opens = order.opening.first_above(sequence_open_from).value_or(end);
    for (const StepSpan& span : sight.spans()) {
      if (order.opens < end && order.opens >= span.begin && order.opens <= span.end) order.ends = span.end;
    }
    found.push_back(std::move(order));
  }
  return found;
}

bool ever_opens(const Sight& sight, const Order& order) { return order.opens < sight.trace().time.back(); }

}  // namespace poise::rules
