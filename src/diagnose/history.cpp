// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/history.hpp"

#include <algorithm>
#include <string_view>

namespace poise::diagnose {
namespace {

using Of = study::FaultPlace::Of;

bool any_in(std::string_view text, std::initializer_list<std::string_view> words) {
  return std::ranges::any_of(
      words, [&](std::string_view word) { return text.find(word) != std::string_view::npos; });
}

}  // namespace

Came usual_course(const study::FaultPlace& place) {
  switch (place.of) {
    case Of::forgotten:
    case Of::wrong_way:
    case Of::swapped:
    case Of::wide_open:
    case Of::left_shut:
    case Of::left_open:
    case Of::wrong_spool:
    case Of::set_low:
    case Of::set_high:
    case Of::air_left:
    case Of::other_fluid:
    case Of::oil_thinner:
    case Of::oil_thicker:
      return Came::after_work;
    case Of::return_blocked:
    case Of::source_stops:
    case Of::power_lost:
    case Of::leaks_outside:
      return Came::suddenly;
    case Of::suction_clogged:
    case Of::sucks_air:
    case Of::oil_aerated:
    case Of::oil_hotter:
      return Came::slowly;
    case Of::oil_colder:
      return Came::in_the_cold;
    case Of::room:
      break;
  }
  const std::string_view fault = place.fault;
  if (any_in(fault, {"turned", "left ", "wrong", "not where", "reckoned", "exchanged", "too long", "reads"}))
    return Came::after_work;
  if (any_in(fault, {"stuck", "stick", "hangs", "does not", "broken", "burst", "lost", "jam"}))
    return Came::suddenly;
  return Came::slowly;
}

double factor_of(const Job& job, const study::FaultPlace& place, const Readings& readings) {
  constexpr double usual = 4.0, looked = 8.0;
  double factor = 1.0;
  if (readings.came != Came::unknown && usual_course(place) == readings.came) factor *= usual;
  // Who stands there hears a motor stop.
  if (place.of == Of::power_lost || place.of == Of::source_stops) factor /= usual;
  const bool of_level = place.of == Of::sucks_air || place.of == Of::leaks_outside ||
                        place.of == Of::oil_aerated || any_in(place.fault, {"leaks to the outside", "level"});
  if (readings.level != Looked::no && of_level)
    factor *= readings.level == Looked::bad ? looked : 1.0 / looked;
  const bool in_a_filter =
      place.on >= 0 && job.plan.parts[static_cast<std::size_t>(place.on)].kind->about.kind == "filter";
  const bool of_filter = place.of == Of::suction_clogged || (place.of == Of::room && in_a_filter);
  if (readings.filter != Looked::no && of_filter)
    factor *= readings.filter == Looked::bad ? looked : 1.0 / looked;
  return factor;
}

}  // namespace poise::diagnose
