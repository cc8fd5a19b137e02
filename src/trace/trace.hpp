// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "circuit/signal.hpp"

namespace poise {

/// When a step began and ended.
struct StepSpan {
  std::string name;
  double begin = 0.0, end = 0.0;
  bool finished = true;  ///< false: its condition was not reached in time, or the run stopped in it
};

/// A located moment: "C1 reaches the end of its stroke".
struct Event {
  double time;
  int part;
  std::string sentence;
  std::string control{};  ///< name of the control that acted, if it was one
};

/// Oil and energy accounts of a run from its first moment to its last.
struct Books {
  double mass_at_start = 0.0;  ///< kg, in the circuit without the reservoir
  double mass_drawn = 0.0;     ///< kg, out of the reservoir
  double mass_residual = 0.0;  ///< kg appeared (+) or lost (−), all oil counted
  double shaft = 0.0;          ///< J put in by pumps, and by warmth that swells trapped oil
  double put_in = 0.0;         ///< J, of pumps, warmth and outside forces (gross), and from store to store
  double flow_heat = 0.0;      ///< J, restrictions and pumps
  double friction_heat = 0.0;  ///< J, rubbing and stops
  double delivered = 0.0;      ///< J given to outside forces
  double stored_gain = 0.0;    ///< J, oil, walls, motion, springs, height

  /// Shares up to which the books are closed.
  static constexpr double mass_closes = 1e-6;
  static constexpr double energy_closes = 1e-3;

  double energy_residual() const { return shaft - flow_heat - friction_heat - delivered - stored_gain; }
  /// Residuals as shares: of the oil drawn and held; of the energy put in, else of the heat.
  double mass_share() const;
  double energy_share() const;
};

/// Why a run ended before its last step did.
struct Halt {
  enum class Why {
    waited,   ///< a step's condition did not come true
    burst,    ///< a pressure or a speed past all bounds
    stuck,    ///< the equations could not be followed
    stopped,  ///< by hand
  };
  Why why;
  double time;
  std::string sentence;

  /// The machine did it, not the calculation: the verdict is "broken", not "cannot be run".
  bool by_the_machine() const { return why == Why::waited || why == Why::burst; }
};

/// One part at one moment.
struct PartMoment {
  std::vector<double> pressure, flow;          ///< of each oil port; volume flow into the part
  std::vector<double> position, speed, force;  ///< of each motion port; force of the part on what it moves
  std::vector<double> outputs;
  std::vector<Input> input;            ///< what steps and controls have set
  std::array<bool, max_modes> mode{};  ///< what it has turned to by itself
  double shaft = 0.0, heat = 0.0,
         delivered = 0.0;  ///< W: put in; lost in flow and rubbing; given to outside forces
};

/// The whole circuit at one moment, parts in the plan's order.
struct Moment {
  double time = 0.0;
  std::string step;
  std::vector<PartMoment> parts;
};

/// Signals that were looked at now and then: enough for what lasts. Of pressures, and of nothing else, the
/// highest and lowest of every step of the integrator are known besides.
struct Glances {
  struct Extreme {
    double time = 0.0, value = 0.0;
  };
  std::vector<double> time;
  std::vector<Signal> signals;              ///< those of a part behind each other
  std::vector<std::vector<double>> values;  ///< one column per signal, as long as time
  std::vector<Extreme> highest, lowest;     ///< one per signal
};

/// What happened: one row of signal values per moment, the moments as close as the motion needs.
struct Trace {
  std::vector<double> time;
  std::vector<Signal> signals;
  std::vector<std::vector<double>> values;  ///< one column per signal, as long as time
  std::vector<StepSpan> steps;
  std::vector<Event> events;
  Books books;
  std::optional<Halt> halt;
  long solver_steps = 0;
  std::vector<Moment> moments;       ///< where the run was asked to look closer
  Glances glances;                   ///< where they were asked for
  std::vector<double> heat_of_part;  ///< J over the run, where it was asked for

  /// Column of a signal by name, or −1.
  int column(std::string_view name) const;
};

}  // namespace poise
