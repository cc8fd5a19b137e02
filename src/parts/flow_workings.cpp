// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Calculations of needles, flow controls, dividers and other valves that take pressure of a flow.
#include <cmath>

#include "parts/cam_valve.hpp"
#include "parts/compensated_flow_control.hpp"
#include "parts/directional.hpp"
#include "parts/flow_divider.hpp"
#include "parts/gear_flow_divider.hpp"
#include "parts/one_way_flow_control.hpp"
#include "parts/orifice_working.hpp"
#include "parts/shut_off.hpp"
#include "parts/worked.hpp"

namespace poise {
namespace {

using Q = Quantity;
using worked::add;
using worked::Seen;

/// Which way the oil goes through a needle, from port 0 on or towards it.
struct Way {
  bool forwards;
  std::string name;  ///< "from A to B"
};

/// The needle's area as it is set, and the drop of a flow over it. The needle may be turned by steps, which
/// no value tells of: what cannot have been in the run is left out.
void add_needle(std::vector<Working>& all, const Values& v, const Oil& oil, const Seen& seen,
                const Way& way) {
  const NeedleArea needle(v, oil);
  const double share = needle.share(v["turns"]);
  const double flow = way.forwards ? seen.into(0) : seen.out_of(0);
  const int from = way.forwards ? 0 : 1;
  const double pressure = seen.highest(from);
  const worked::Hole hole{needle.orifice, share, "share of its area that is open, as set"};
  const worked::Expression drop = worked::drop_of(hole, oil, {flow}, pressure);
  const double behind = seen.lowest(1 - from);
  const double difference = pressure - (std::isfinite(behind) ? behind : 0.0);
  constexpr double swelled =
      1.1;  // the flow is told at port 0, where oil that has come through is less dense
  if (!(drop.value <= swelled * difference)) return;
  worked::add_drop(all, "drop " + way.name + " with the greatest flow, turned as it is set", drop);
}

void add_area(std::vector<Working>& all, const Values& v, const Oil& oil) {
  const NeedleArea needle(v, oil);
  const double share = needle.share(v["turns"]);
  if (v.given("flow_curve")) {
    add(all, {.name = "flow area as it is set",
              .formula = "A = x·A_0",
              .terms = {{"x", "share that is open at these turns, by its curve", share, Q::share},
                        {"A_0", "area at the end of its curve", needle.orifice.area, Q::area}},
              .result = {"A", "flow area", share * needle.orifice.area, Q::area},
              .source = "the valve's datasheet, sharp-edged orifice"});
    return;
  }
  add(all, {.name = "flow area as it is set",
            .formula = "A = k·(n/n_0)·π/4·d²",
            .terms = {{"k", "area over that of the datasheet", v["area_factor"], Q::share},
                      {"n", "turns open", v["turns"], Q::turns},
                      {"n_0", "turns from shut to fully open", v["full_turns"], Q::turns},
                      {"d", "diameter of the hole of its full area", v["bore"], Q::length}},
            .result = {"A", "flow area", share * needle.orifice.area, Q::area},
            .source = "area that grows evenly with the turns"});
}

/// A greatest flow at any one port; no open way has more, where a port is open to one way only.
double greatest(const Seen& seen, int ports) {
  double most = std::nan("");
  for (int i = 0; i < ports; ++i) most = std::fmax(most, seen.through(i));
  return most;
}

/// A difference of two ports' pressures that the run may have had: the highest here, the lowest there.
double difference(const Seen& seen, int from, int to) { return seen.highest(from) - seen.lowest(to); }

}  // namespace

std::vector<Working> Needle::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  if (!(v["turns"] > 0.0)) return all;
  add_area(all, v, oil);
  add_needle(all, v, oil, seen, {true, "from A to B"});
  add_needle(all, v, oil, seen, {false, "from B to A"});
  return all;
}

std::vector<Working> OneWayFlowControl::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  if (v["turns"] > 0.0) {
    add_area(all, v, oil);
    if (v["check_least"] == 0.0) add_needle(all, v, oil, seen, {false, "from B to A"});
  }
  if (v["check_least"] > 0.0 || v["check_most"] < 1.0) return all;
  const common::CheckOpening check(v["cracking_pressure"]);
  worked::add_opening(all, "drop from A to B with the greatest flow, through the check alone",
                      {.cracking = check.cracking, .band = check.band}, common::drop_of(v, oil),
                      worked::drop_of(v, oil, {seen.into(0)}));
  return all;
}

std::vector<Working> CompensatedFlowControl::workings(const Values& v, const Oil&, const Duty& duty) {
  std::vector<Working> all;
  const double set = v["flow"], least = v["minimum_drop"], over = difference(Seen(duty), 0, 1);
  if (!(set > 0.0) || v["compensation"] < 1.0) return all;
  if (over > least) {
    const double rated = common::leakage_pressure(v);
    add(all, {.name = "flow at the greatest difference of pressure, as it is set",
              .formula = "Q = Q_s·(1 + e·(Δp − Δp_m)/p_r)",
              .terms = {{"Q_s", "flow it is set to", set, Q::flow},
                        {"e", "error from the minimum drop to the rated pressure", v["error"], Q::share},
                        {"Δp", "highest pressure at A less the lowest at B", over, Q::pressure},
                        {"Δp_m", "least difference at which it holds its flow", least, Q::pressure},
                        {"p_r", "rated pressure (350 bar if none is given)", rated, Q::pressure}},
              .result = {"Q", "flow", set * (1.0 + v["error"] * (over - least) / rated), Q::flow},
              .source = "metering orifice with a pressure compensator in series; corner left sharp"});
  }
  add(all, {.name = "heat at the greatest difference of pressure, as it is set",
            .formula = "P = Δp·Q_s",
            .terms = {{"Δp", "highest pressure at A less the lowest at B", over, Q::pressure},
                      {"Q_s", "flow it is set to", set, Q::flow}},
            .result = {"P", "power that becomes heat", over * set, Q::power},
            .source = "power of a flow (closed form)"});
  return all;
}

std::vector<Working> FlowDivider::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const double flow = Seen(duty).into(0), ratio = v["ratio"], error = v["error"];
  add(all, {.name = "flow to A of the greatest flow, without error",
            .formula = "Q_A = r·Q_P",
            .terms = {{"r", "share that goes to A", ratio, Q::share},
                      {"Q_P", "greatest flow at P", flow, Q::flow}},
            .result = {"Q_A", "flow at A", ratio * flow, Q::flow},
            .source = "definition of the ratio"});
  add(all, {.name = "flow to B of the greatest flow, without error",
            .formula = "Q_B = (1 − r)·Q_P",
            .terms = {{"r", "share that goes to A", ratio, Q::share},
                      {"Q_P", "greatest flow at P", flow, Q::flow}},
            .result = {"Q_B", "flow at B", (1.0 - ratio) * flow, Q::flow},
            .source = "definition of the ratio"});
  add(all, {.name = "how far ahead one side may be after a stroke, as a share of it",
            .formula = "s = 2·e",
            .terms = {{"e", "greatest deviation of an outlet's flow", error, Q::share}},
            .result = {"s", "share of the stroke, one side fast and the other slow", 2.0 * error, Q::share},
            .source = "continuity"});
  worked::add_drop(all, "drop with the greatest flow, outlets at one pressure",
                   worked::drop_of(v, oil, {flow, "greatest flow at P"}));
  return all;
}

std::vector<Working> GearFlowDivider::workings(const Values& v, const Oil&, const Duty& duty) {
  std::vector<Working> all;
  static constexpr std::array<std::string_view, most_sections> outlets{"A", "B", "C", "D"};
  const Seen seen(duty);
  const auto sections = v.points("sections");
  const double inlet = seen.highest(0), flow = seen.into(0);
  double sum = 0.0;
  for (const CurvePoint& section : sections) sum += section.x;
  add(all, {.name = "speed of its shaft with the greatest flow, leakage left out",
            .formula = "n = Q_P/V",
            .terms = {{"Q_P", "greatest flow at P", flow, Q::flow},
                      {"V", "displacement of all sections together", sum, Q::displacement}},
            .result = {"n", "speed", flow / sum, Q::rotation},
            .source = "continuity"});
  for (std::size_t i = 0; i < sections.size() && i < outlets.size(); ++i) {
    const std::string at(outlets[i]);
    const double own = sections[i].x;
    add(all,
        {.name = "pressure that " + at +
                 " can reach while the other outlets have none, without friction and leakage",
         .formula = "p_" + at + " = p_P·V/V_" + at,
         .terms = {{"p_P", "highest pressure at P", inlet, Q::pressure},
                   {"V", "displacement of all sections together", sum, Q::displacement},
                   {"V_" + at, "displacement of this section", own, Q::displacement}},
         .result = {"p_" + at, "pressure at " + at, inlet * sum / own, Q::pressure},
         .source = "torque balance of sections on one shaft; troubleshooting story on gear dividers in a "
                   "trade magazine's e-book"});
  }
  return all;
}

std::vector<Working> CamValve::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  const Seen seen(duty);
  worked::add_drop(all, "drop from A to B with the greatest flow, fully open",
                   worked::drop_of(v, oil, {seen.into(0)}));
  const double speed = seen.fastest(0), way = v["acts_over"];
  add(all, {.name = "time to shut or open at the greatest speed, were it kept",
            .formula = "t = s/v",
            .terms = {{"s", "way of the cam", way, Q::length},
                      {"v", "greatest speed of the moving part", speed, Q::speed}},
            .result = {"t", "time", way / speed, Q::time},
            .source = "continuity"});
  return all;
}

std::vector<Working> ShutOff::workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  worked::add_drop(all, "drop with the greatest flow, fully open",
                   worked::drop_of(v, oil, {Seen(duty).through(0)}));
  return all;
}

namespace directional {

std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty) {
  std::vector<Working> all;
  if (v["path_opening"] < 1.0) return all;
  const Seen seen(duty);
  worked::add_drop(
      all, "drop of one open way with the greatest flow at a port",
      worked::drop_of(v, oil,
                      {greatest(seen, static_cast<int>(duty.flow.size())), "greatest flow at any port"}));
  return all;
}

}  // namespace directional
}  // namespace poise
