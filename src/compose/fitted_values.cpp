// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/fitted_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "compose/built_in.hpp"
#include "job/tree.hpp"

namespace poise::compose {
namespace {

using job::Node;
using job::Written;

/// A value that a part states, as it is written and in SI.
struct Stated {
  std::string text;
  double value = 0.0;
};

std::optional<Stated> stated(const Placed& part, std::string_view name) {
  if (!part.kind || !part.table) return std::nullopt;
  const auto index = find_parameter(part.kind->parameters, name);
  const Node* node = find_key(*part.table, name);
  if (!index || !node || node->form != Node::Form::text) return std::nullopt;
  const auto value = units::read(node->text, part.kind->parameters[*index].quantity).value;
  return value ? std::optional(Stated{node->text, *value}) : std::nullopt;
}

/// The circuit as the values of a new part see it.
class Surroundings {
 public:
  Surroundings(const Sheet& sheet, const Nets& nets, const std::vector<std::string>& beside) : sheet_(sheet) {
    for (const std::string& port : beside) {
      const auto net = nets.of(port);
      if (!net) note(port);
      if (net) {
        for (const std::string& other : nets.ports(*net)) note(other);
      }
    }
    for (const Placed& part : sheet.parts) {
      if (!part.kind) continue;
      if (part.kind->about.role == Role::source) {
        for (const std::string_view name : {"flow", "low_pressure_flow"}) {
          if (const auto flow = stated(part, name)) pump_flow_ += flow->value;
        }
      }
      if (part.kind->about.role != Role::pressure_limit) continue;
      if (const auto setting = stated(part, "setting")) main_ = std::max(main_, setting->value);
    }
  }

  /// Highest setting of a pressure limit; 0 where there is none.
  double main() const { return main_; }
  double pump_flow() const { return pump_flow_; }

  /// The highest or lowest value of this name among the parts around.
  std::optional<Stated> extreme(std::string_view name, bool highest) const {
    std::optional<Stated> found;
    for (const Placed* part : around_) {
      if (part->kind->about.role == Role::reservoir) continue;
      const auto one = stated(*part, name);
      if (one && (!found || (highest ? one->value > found->value : one->value < found->value))) found = one;
    }
    return found;
  }

  /// Written with two figures in the job's unit: a setting, not a result.
  std::string text(double value, Quantity quantity, bool down = false) const {
    const double number = units::in_unit(value, quantity, sheet_.world);
    const double step = std::pow(10.0, std::floor(std::log10(number)) - 1.0);
    const double steps = down ? std::floor(number / step + 1e-9) : std::round(number / step);
    return fmt::format("{:.10g} {}", steps * step, sheet_.world[quantity]);
  }

 private:
  void note(const std::string& port) {
    const Placed* part = sheet_.owner(port);
    if (part && part->kind) around_.insert(part);
  }

  const Sheet& sheet_;
  std::set<const Placed*> around_;
  double main_ = 0.0, pump_flow_ = 0.0;
};

void put(Written::Table& table, std::string_view name, std::string text) {
  const auto field = std::ranges::find(table, name, &Written::Table::value_type::first);
  if (field != table.end()) field->second = Written{std::move(text)};
}

std::optional<double> value_of(const Written::Table& table, std::string_view name, Quantity quantity) {
  const auto field = std::ranges::find(table, name, &Written::Table::value_type::first);
  const auto* text = field == table.end() ? nullptr : std::get_if<std::string>(&field->second.is);
  return text ? units::read(*text, quantity).value : std::nullopt;
}

/// What makes pressure or takes it is chosen for its own work, the others for the line that they are in.
void fit_rating(Written::Table& table, const Kind& kind, const Surroundings& around) {
  if (kind.about.kind.ends_with("intensifier")) return;
  if (kind.about.role == Role::source || kind.about.role == Role::actuator) {
    const auto usual = value_of(table, "rated_pressure", Quantity::pressure);
    if (usual && *usual < 1.1 * around.main())
      put(table, "rated_pressure", around.text(1.25 * around.main(), Quantity::pressure));
    return;
  }
  if (const auto rating = around.extreme("rated_pressure", true)) put(table, "rated_pressure", rating->text);
}

/// What a kind is set to, as a share of the flow that it is rated for.
struct FlowShare {
  std::string_view kind, parameter;
  double share;
};
constexpr std::array flow_shares{
    FlowShare{"flow_divider", "minimum_flow", 0.1},
    FlowShare{"hose_burst_valve", "trip_flow", 0.6},
    FlowShare{"compensated_flow_control", "flow", 0.1},
};

void fit_flows(Written::Table& table, const Kind& kind, const Surroundings& around) {
  const auto usual = value_of(table, "rated_flow", Quantity::flow);
  if (!usual || kind.about.role == Role::source) return;
  if (const auto flow = around.extreme("rated_flow", true); flow && flow->value >= around.pump_flow()) {
    put(table, "rated_flow", flow->text);
  } else if (*usual < around.pump_flow()) {
    put(table, "rated_flow", around.text(1.5 * around.pump_flow(), Quantity::flow));
  }
  const double rated = *value_of(table, "rated_flow", Quantity::flow);
  for (const FlowShare& share : flow_shares) {
    if (share.kind == kind.about.kind && rated != *usual)
      put(table, share.parameter, around.text(share.share * rated, Quantity::flow));
  }
}

/// What a kind is set to, as a share of the main relief valve's setting.
struct Share {
  std::string_view kind, parameter;
  double share;
};
constexpr std::array shares{
    Share{"variable_pump", "setting", 0.9},    Share{"unloading_valve", "setting", 0.4},
    Share{"pressure_switch", "setting", 0.85}, Share{"pressure_switch", "reset", 0.75},
    Share{"reducing", "setting", 0.5},         Share{"reducing_non_relieving", "setting", 0.5},
    Share{"sequence", "setting", 0.6},         Share{"counterbalance", "setting", 1.0},
    Share{"accumulator", "precharge", 0.5},
};

void fit_settings(Written::Table& table, const Kind& kind, const Surroundings& around) {
  for (const Share& share : shares) {
    if (share.kind == kind.about.kind && around.main() > 0.0)
      put(table, share.parameter, around.text(share.share * around.main(), Quantity::pressure));
  }
}

/// 10 % above the main relief valve, but below the weakest of what it guards; the first one a tenth below
/// that.
void fit_relief(Written::Table& table, const Surroundings& around) {
  const auto weakest = around.extreme("rated_pressure", false);
  const double above = 1.1 * around.main();
  if (weakest && (above == 0.0 || above > 0.9 * weakest->value)) {
    put(table, "setting", around.text(0.9 * weakest->value, Quantity::pressure, true));
  } else if (above > 0.0) {
    put(table, "setting", around.text(above, Quantity::pressure));
  }
}

/// The next dial on which the main relief valve's setting stands at three quarters or less.
void fit_range(Written::Table& table, const Surroundings& around, bool us) {
  constexpr std::array metric_dials{100.0, 160.0, 250.0, 400.0, 600.0, 1000.0};
  constexpr std::array us_dials{1500.0, 3000.0, 5000.0, 6000.0, 10000.0, 15000.0};
  if (around.main() == 0.0) return;
  for (const double dial : us ? us_dials : metric_dials) {
    const std::string text = fmt::format("{} {}", dial, us ? "psi" : "bar");
    if (*units::read(text, Quantity::pressure).value < 1.33 * around.main()) continue;
    put(table, "range", text);
    return;
  }
}

}  // namespace

const Node& usual_values(const Kind& kind, bool us) {
  const auto parsed = [](std::string_view file) { return std::get<Node>(job::parse(built_in(file))); };
  static const Node metric_values = parsed("usual/metric.toml"), us_values = parsed("usual/us.toml");
  static const Node none;
  const Node* values = find_key(us ? us_values : metric_values, kind.about.kind);
  return values ? *values : none;
}

Written::Table values_for(const Sheet& sheet, const Nets& nets, const Kind& kind,
                          const std::vector<std::string>& beside) {
  Written::Table table{{"kind", {std::string(kind.about.kind)}}};
  for (const job::Field& field : usual_values(kind, sheet.us()).fields)
    table.emplace_back(field.key, job::written_of(field.value));
  const Surroundings around(sheet, nets, beside);
  fit_rating(table, kind, around);
  fit_flows(table, kind, around);
  fit_settings(table, kind, around);
  if (kind.about.role == Role::pressure_limit) fit_relief(table, around);
  if (kind.about.kind == "gauge") fit_range(table, around, sheet.us());
  return table;
}

}  // namespace poise::compose
