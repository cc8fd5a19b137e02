// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <array>
#include <utility>

#include "parts/accumulator.hpp"
#include "parts/air_driven_pump.hpp"
#include "parts/cam_valve.hpp"
#include "parts/check.hpp"
#include "parts/compensated_flow_control.hpp"
#include "parts/cooler.hpp"
#include "parts/counterbalance.hpp"
#include "parts/cycling_intensifier.hpp"
#include "parts/cylinder.hpp"
#include "parts/directional.hpp"
#include "parts/electric_motor.hpp"
#include "parts/erase.hpp"
#include "parts/filter.hpp"
#include "parts/fitting.hpp"
#include "parts/flow_divider.hpp"
#include "parts/gauge.hpp"
#include "parts/gear_flow_divider.hpp"
#include "parts/hand_pump.hpp"
#include "parts/hose_burst_valve.hpp"
#include "parts/hydraulic_motor.hpp"
#include "parts/intensifier.hpp"
#include "parts/line.hpp"
#include "parts/loads.hpp"
#include "parts/lock_nut.hpp"
#include "parts/manifold.hpp"
#include "parts/one_way_flow_control.hpp"
#include "parts/pilot_operated_check.hpp"
#include "parts/pilot_operated_relief.hpp"
#include "parts/pressure_switch.hpp"
#include "parts/pump.hpp"
#include "parts/quick_coupling.hpp"
#include "parts/reducing.hpp"
#include "parts/reducing_non_relieving.hpp"
#include "parts/relief.hpp"
#include "parts/reservoir.hpp"
#include "parts/rigid_load.hpp"
#include "parts/sequence.hpp"
#include "parts/shaft_pump.hpp"
#include "parts/shut_off.hpp"
#include "parts/shuttle.hpp"
#include "parts/snubber.hpp"
#include "parts/swing_clamp.hpp"
#include "parts/two_stage_pump.hpp"
#include "parts/unloading_valve.hpp"
#include "parts/variable_pump.hpp"
#include "parts/warmed_oil.hpp"
#include "parts/work_support.hpp"

namespace poise {

std::span<const Kind> all_kinds() {
  static const std::array kinds{
      kind_of<Reservoir>(),
      kind_of<Pump>(),
      kind_of<TwoStagePump>(),
      kind_of<VariablePump>(),
      kind_of<AirDrivenPump>(),
      kind_of<HandPump>(),
      kind_of<ElectricMotor>(),
      kind_of<ShaftPump>(),
      kind_of<Accumulator>(),
      kind_of<Intensifier>(),
      kind_of<CyclingIntensifier>(),
      kind_of<HydraulicMotor>(),
      kind_of<Relief>(),
      kind_of<PilotOperatedRelief>(),
      kind_of<ExternallyDrainedRelief>(),
      kind_of<UnloadingValve>(),
      kind_of<PressureSwitch>(),
      kind_of<Reducing>(),
      kind_of<ReducingNonRelieving>(),
      kind_of<Sequence>(),
      kind_of<Check>(),
      kind_of<PilotOperatedCheck>(),
      kind_of<Counterbalance>(),
      kind_of<Needle>(),
      kind_of<OneWayFlowControl>(),
      kind_of<CompensatedFlowControl>(),
      kind_of<FlowDivider>(),
      kind_of<GearFlowDivider>(),
      kind_of<Shuttle>(),
      kind_of<HoseBurstValve>(),
      kind_of<CamValve>(),
      kind_of<ShutOff>(),
      kind_of<Directional<directional::TwoTwo>>(),
      kind_of<Directional<directional::ThreeTwo>>(),
      kind_of<Directional<directional::FourTwo>>(),
      kind_of<Directional<directional::FourThree>>(),
      kind_of<Hose>(),
      kind_of<Tube>(),
      kind_of<Fitting>(),
      kind_of<Manifold>(),
      kind_of<QuickCoupling>(),
      kind_of<Filter>(),
      kind_of<Cooler>(),
      kind_of<Snubber>(),
      kind_of<Capillary>(),
      kind_of<Gauge>(),
      kind_of<WarmedOil>(),
      kind_of<SingleActingCylinder>(),
      kind_of<DoubleActingCylinder>(),
      kind_of<SwingClamp>(),
      kind_of<WorkSupport>(),
      kind_of<MassLoad>(),
      kind_of<ForceLoad>(),
      kind_of<SpringLoad>(),
      kind_of<RigidLoad>(),
      kind_of<LockNut>(),
  };
  return kinds;
}

const Kind* find_kind(std::string_view name) {
  for (const Kind& kind : all_kinds()) {
    if (kind.about.kind == name) return &kind;
  }
  return nullptr;
}

bool port_exists(const Port& port, const Values& values) {
  if (port.needed_if_parameter.empty()) return true;
  const Parameter& parameter = values.table()[*find_parameter(values.table(), port.needed_if_parameter)];
  if (!parameter.words.empty()) return values.word(port.needed_if_parameter) == port.needed_if_word;
  return std::cmp_greater(values.points(port.needed_if_parameter).size(), port.needed_if_word);
}

std::string condition_of(const Port& port, std::span<const Parameter> table) {
  const Parameter& parameter = table[*find_parameter(table, port.needed_if_parameter)];
  std::string text;
  if (parameter.words.empty()) {
    text.append(std::to_string(port.needed_if_word + 1)).append(" points or more in ").append(parameter.name);
  } else {
    text.append(parameter.name).append(" = \"").append(parameter.words[port.needed_if_word]).append("\"");
  }
  return text;
}

}  // namespace poise
