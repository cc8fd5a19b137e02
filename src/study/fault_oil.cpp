// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Faults of the oil: its temperature, its grade, the air in it, another fluid.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "job/oil_table.hpp"
#include "oil/fluid.hpp"
#include "oil/viscosity_grade.hpp"
#include "oil/viscosity_index.hpp"
#include "study/fault_parts.hpp"

namespace poise::study {
namespace {

using Of = FaultPlace::Of;

constexpr double usual_index = 100.0;

const Fluid& water_glycol() { return fluids[1]; }

/// Place of the grade whose midpoint is nearest, by ratio.
int grade_of(double viscosity_40) {
  int nearest = 0;
  for (int i = 1; i < static_cast<int>(viscosity_grades.size()); ++i) {
    const auto off = [&](int g) { return std::abs(std::log(viscosity_grades[g].midpoint / viscosity_40)); };
    if (off(i) < off(nearest)) nearest = i;
  }
  return nearest;
}

/// Thicker or thinner with the index that it has; where no such oil exists, by the same share at 100 °C.
void set_viscosity(OilData& oil, double viscosity_40) {
  const double index = oil.viscosity_100 > 2 * si::mm2_per_s
                           ? viscosity_index(oil.viscosity_40, oil.viscosity_100)
                           : usual_index;
  const auto at_100 = viscosity_100_of(viscosity_40, index);
  oil.viscosity_100 = at_100 ? *at_100 : oil.viscosity_100 * viscosity_40 / oil.viscosity_40;
  oil.viscosity_40 = viscosity_40;
}

double within(double value, std::string_view key) {
  const Parameter& line = oil_parameters()[*find_parameter(oil_parameters(), key)];
  return std::clamp(value, line.low, line.high);
}

FaultPlace of_oil(Of of, std::string fault, std::string sentence, double slight, double grave) {
  std::string name = "oil " + fault;
  return {.of = of,
          .name = std::move(name),
          .fault = std::move(fault),
          .sentence = std::move(sentence),
          .source = "common practice",
          .slight = slight,
          .grave = grave};
}

void add_grades(const Job& job, FaultList& list) {
  const int grade = grade_of(job.plan.oil.viscosity_40), last = static_cast<int>(viscosity_grades.size()) - 1;
  const auto ratio = [&](int steps) {
    return viscosity_grades[std::clamp(grade + steps, 0, last)].midpoint / viscosity_grades[grade].midpoint;
  };
  const auto add = [&](Of of, std::string fault, std::string sentence, int way) {
    if (ratio(way) == 1.0) return;
    FaultPlace place = of_oil(of, std::move(fault), std::move(sentence), ratio(way), ratio(2 * way));
    place.factors = true;
    place.one_size = place.slight == place.grave;
    list.places.push_back(std::move(place));
  };
  add(Of::oil_thinner, "of a thinner grade",
      "The wrong can: one or two grades too thin. Pumps slip, valves leak, needles are fast.", -1);
  add(Of::oil_thicker, "of a thicker grade",
      "The wrong can: one or two grades too thick. Everything is slow, suction is hard, drops are high.", 1);
}

}  // namespace

void add_faults_of_oil(const Job& job, FaultList& list) {
  list.places.push_back(of_oil(Of::oil_colder, "too cold",
                               "A cold morning: slow, large drops in lines, valves open too early.", 10.0,
                               20.0));
  list.places.push_back(of_oil(Of::oil_hotter, "too hot",
                               "Hours over the relief or a dead cooler: thin oil slips and leaks.", 10.0,
                               30.0));
  add_grades(job, list);
  const double air = std::min(job.plan.oil.air, 0.1);
  list.places.push_back(of_oil(Of::oil_aerated, "full of air",
                               "Foam, low level or a leaking suction: soft, late and noisy.", air + 0.02,
                               std::min(air + 0.1, 0.2)));
  if (job.plan.oil.density_15 == water_glycol().density_15) {
    list.not_applicable.push_back({"oil is water glycol", "it is water glycol by the job"});
    return;
  }
  FaultPlace other = of_oil(Of::other_fluid, "is water glycol",
                            "The wrong drum: another fluid of the same grade, heavier and stiffer. Seals and "
                            "pumps for mineral oil do not stand it for long.",
                            1.0, 1.0);
  other.one_size = true;
  list.places.push_back(std::move(other));
}

bool put_oil_fault(Job& job, const FaultPlace& place, double t) {
  OilData& oil = job.plan.oil;
  const double size = place.size(t);
  switch (place.of) {
    case Of::oil_colder:
      oil.temperature = within(oil.temperature - size, "temperature");
      return true;
    case Of::oil_hotter:
      oil.temperature = within(oil.temperature + size, "temperature");
      return true;
    case Of::oil_thinner:
    case Of::oil_thicker:
      set_viscosity(oil, oil.viscosity_40 * size);
      return true;
    case Of::oil_aerated:
      oil.air = within(size, "air");
      return true;
    case Of::other_fluid: {
      const Fluid& fluid = water_glycol();
      oil.density_15 = fluid.density_15;
      oil.expansivity = fluid.expansivity;
      oil.modulus = fluid.modulus;
      oil.modulus_slope = fluid.modulus_slope;
      oil.heat_capacity = fluid.heat_capacity;
      oil.pressure_viscosity_coefficient = fluid.pressure_viscosity_coefficient;
      if (const auto at_100 = viscosity_100_of(oil.viscosity_40, fluid.viscosity_index))
        oil.viscosity_100 = *at_100;
      return true;
    }
    default:
      return false;
  }
}

std::string oil_change(const Job& job, const FaultPlace& place, double t) {
  const auto show = [&](double value, Quantity quantity) { return units::show(value, quantity, job.world); };
  Job faulty = job;
  put_oil_fault(faulty, place, t);
  switch (place.of) {
    case Of::oil_colder:
    case Of::oil_hotter:
      return show(faulty.plan.oil.temperature, Quantity::temperature);
    case Of::oil_aerated:
      return show(faulty.plan.oil.air, Quantity::share) + " of air";
    case Of::other_fluid:
      return "another fluid";
    default:
      return show(faulty.plan.oil.viscosity_40, Quantity::viscosity) + " at 40 °C";
  }
}

}  // namespace poise::study
