// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/history.hpp"

namespace poise::diagnose {
namespace {

using Of = study::FaultPlace::Of;

const Kind& kind_of(const Job& job, const study::FaultPlace& place) {
  return *job.plan.parts[static_cast<std::size_t>(place.on)].kind;
}

}  // namespace

Comes usual_course(const Job& job, const study::FaultPlace& place) {
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
      return Comes::after_work;
    case Of::return_blocked:
    case Of::source_stops:
    case Of::power_lost:
    case Of::leaks_outside:
      return Comes::suddenly;
    case Of::suction_clogged:
    case Of::sucks_air:
    case Of::oil_aerated:
    case Of::oil_hotter:
      return Comes::slowly;
    case Of::oil_colder:
      return Comes::in_the_cold;
    case Of::room:
      break;
  }
  return kind_of(job, place).faults[static_cast<std::size_t>(place.which)].comes;
}

double factor_of(const Job& job, const study::FaultPlace& place, const Readings& readings) {
  constexpr double usual = 4.0, looked = 8.0;
  double factor = 1.0;
  if (readings.came && usual_course(job, place) == *readings.came) factor *= usual;
  // Who stands there hears a motor stop.
  if (place.of == Of::power_lost || place.of == Of::source_stops) factor /= usual;
  const bool in_a_room = place.of == Of::room && place.on >= 0;
  const bool of_level = place.of == Of::sucks_air || place.of == Of::leaks_outside ||
                        place.of == Of::oil_aerated ||
                        (in_a_room && kind_of(job, place).about.role == Role::reservoir);
  if (readings.level != Looked::no && of_level)
    factor *= readings.level == Looked::bad ? looked : 1.0 / looked;
  const bool of_filter =
      place.of == Of::suction_clogged || (in_a_room && kind_of(job, place).about.kind == "filter");
  if (readings.filter != Looked::no && of_filter)
    factor *= readings.filter == Looked::bad ? looked : 1.0 / looked;
  return factor;
}

}  // namespace poise::diagnose
