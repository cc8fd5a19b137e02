// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "parts/orifice_working.hpp"

#include <cmath>

namespace poise::worked {

using Q = Quantity;

Upstream::Upstream(const Oil& oil, double pressure) {
  const double here = std::isfinite(pressure) ? pressure : 0.0;
  density = oil.density(here).value;
  viscosity = oil.viscosity_law().at(here).value;
}

Term Upstream::density_term() const {
  return {"ρ", "density of the oil at the highest pressure upstream", density, Q::density};
}

Term Upstream::viscosity_term() const {
  return {"ν", "viscosity of the oil at the highest pressure upstream", viscosity, Q::viscosity};
}

Expression drop_of(const Hole& hole, const Oil& oil, const Flow& flow, double pressure) {
  const Upstream here(oil, pressure);
  const Orifice& orifice = hole.orifice;
  const double whole = orifice.area, open = hole.share * whole;
  const double laminar =
      orifice.transition * here.viscosity * whole / std::sqrt(4.0 * whole / std::numbers::pi);
  const double a = here.density / (2.0 * orifice.discharge * orifice.discharge * open * open);
  const bool always_open = hole.share_meaning.empty();
  Expression drop{
      .formula = always_open ? "ρ·(Q² + Re_t·ν·√(π·A_0/4)·Q)/(2·C²·A_0²)"
                             : "ρ·(Q² + Re_t·ν·√(π·A_0/4)·Q)/(2·C²·x²·A_0²)",
      .terms = {here.density_term(),
                {"C", "discharge coefficient", orifice.discharge, Q::none},
                {"A_0", "area, fully open", whole, Q::area},
                {"Q", flow.meaning, flow.value, Q::flow},
                {"Re_t", "Reynolds number at which the flow turns turbulent", orifice.transition, Q::none},
                here.viscosity_term()},
      .value = a * (flow.value + laminar) * flow.value,
      .source = "sharp-edged orifice, Merritt, Hydraulic Control Systems (from memory)"};
  if (!always_open) drop.terms.push_back({"x", hole.share_meaning, hole.share, Q::share});
  return drop;
}

}  // namespace poise::worked
