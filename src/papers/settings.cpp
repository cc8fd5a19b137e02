// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/settings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge/wording.hpp"
#include "papers/naming.hpp"
#include "papers/setting.hpp"
#include "rules/pressed.hpp"

namespace poise::papers {
namespace {

using rules::Sight;

/// What a portable gauge, or one on a bench, is off by at most, of what it reads: class 1, its range half as
/// great again; common practice.
constexpr double portable = 0.015;

/// "relief"; where the value has a name of its own, "accumulator, precharge".
std::string valve_in_words(const Kind& kind, const Parameter& parameter) {
  const std::string valve = called(kind);
  return parameter.name == "setting" ? valve : valve + ", " + in_words(parameter.name);
}

/// The nearest gauge on a port's line, group by group; none where no gauge stands there.
std::optional<int> gauge_at(const Sight& sight, PortOf at, rules::Passes passes) {
  std::vector<int> groups{sight.group(at)};
  for (std::size_t next = 0; next < groups.size(); ++next) {
    const std::vector<PortOf>& here = sight.members(groups[next]);
    const auto gauge = std::ranges::find_if(here, [&](PortOf p) { return sight.is(p.part, "gauge"); });
    if (gauge != here.end()) return gauge->part;
    if (sight.has_reservoir({groups[next]})) continue;  // what is behind a free surface is another line
    for (const PortOf& through : here) {
      if (sight.plan.port(through).domain != Domain::oil || !passes(sight.part(through.part))) continue;
      for (const PortOf& other : sight.oil_ports(through.part)) {
        if (std::ranges::find(groups, sight.group(other)) == groups.end())
          groups.push_back(sight.group(other));
      }
    }
  }
  return std::nullopt;
}

/// What damps a gauge lets it read the same pressure at rest.
bool through_gauge_line(const PlannedPart& part) {
  const std::string_view kind = part.kind->about.kind;
  return rules::through_lines(part) || kind == "snubber" || kind == "capillary";
}

/// Behind an open throttle a gauge reads the same when nothing flows.
bool through_throttles(const PlannedPart& part) {
  const std::string_view kind = part.kind->about.kind;
  const bool throttle = kind == "needle" || kind == "one_way_flow_control";
  return through_gauge_line(part) || (throttle && part.values.given("turns") && part.values["turns"] > 0.0);
}

/// Where a setting is read.
struct ReadAt {
  std::optional<int> gauge{};
  std::string words{};  ///< as it stands on the sheet
};

ReadAt read_at(const Sight& sight, const Setting& setting) {
  if (!setting.how) return {};
  if (setting.how->port.empty())
    return {.words = setting.how->turn == Adjusting::Turn::flow ? "stop-watch" : ""};
  // Where a pilot from outside opens it, that is the pressure it is set by.
  const auto pilot = sight.port(setting.part, "X");
  const bool by_pilot = setting.how->turn == Adjusting::Turn::sequence && pilot;
  const auto port = by_pilot ? pilot : sight.port(setting.part, setting.how->port);
  if (!port) return {};
  auto gauge = gauge_at(sight, *port, rules::through_lines);
  if (!gauge) gauge = gauge_at(sight, *port, through_gauge_line);
  if (gauge) return {gauge, sight.tag(*gauge)};
  const bool set_at_rest = setting.how->turn == Adjusting::Turn::reducing;
  if (const auto behind = gauge_at(sight, *port, through_throttles); behind && set_at_rest)
    return {behind, sight.tag(*behind) + ", when nothing flows"};
  return {.words = fmt::format("no gauge: portable gauge at {}", sight.plan.name(*port))};
}

/// What a relief valve does at its setting: a number on a shop's sheet means the reading with a flow over
/// it, one on a datasheet the pressure at which it cracks. Where something else comes first no flow of the
/// machine gets there, and only the flow that the job states tells.
std::string cracks_and_reads(const Sight& sight, int part, bool comes_second) {
  const rules::Limit limit = sight.limit(part);
  const auto say = [&](double value, Quantity quantity) {
    return measured(value, quantity, sight.world).text;
  };
  const std::string cracks = "cracks at " + say(limit.cracking, Quantity::pressure);
  const bool is_stated = sight.given(part, "setting").has_value();
  if (const auto flow = sight.given(part, "setting_flow"); flow && is_stated)
    return fmt::format("{}; reads {} with {}", cracks, say(sight.values(part)["setting"], Quantity::pressure),
                       say(*flow, Quantity::flow));
  const double flow = comes_second ? 0.0 : rules::flow_over(sight, limit);
  if (!(flow > 0.0)) return cracks;
  const bool several = rules::pumps_with_all_flow(sight, {part, 0}).size() > 1;
  return fmt::format("{}; reads {} with {}, the whole flow of the {}", cracks,
                     say(rules::pressure_over(sight, limit, flow), Quantity::pressure),
                     say(flow, Quantity::flow), several ? "pumps" : "pump");
}

/// What ends the rise of the pressure at a relief valve before it cracks; none where nothing does.
std::optional<rules::Ceiling> first_before(const Sight& sight, int part) {
  const auto ceiling = rules::ceiling_of(sight, {part, 0});
  const bool first = ceiling && ceiling->part != part && ceiling->pressure < sight.limit(part).cracking;
  return first ? ceiling : std::nullopt;
}

/// A flow through a throttle, one way.
struct Passed {
  double flow = 0.0;  ///< m3/s; without blows shorter than a tenth of a second, where it lasts at all
  bool for_a_moment = false;
};

/// What passes while the value stands, from the first port to the second (1) or back (−1).
Passed greatest_flow(const Subject& subject, const Setting& setting, double way) {
  constexpr double lasts = 0.1, counts = 0.05;  // s; of the blow, to be more than what seeps after it
  const PlannedPart& part = subject.job.plan.parts[setting.part];
  const Trace& trace = subject.trace;
  const int column = trace.column(part.tag + "." + std::string(part.kind->ports[0].name) + ".flow");
  double lasting = 0.0, most = 0.0;
  for (const Window& window : setting.stands) {
    const auto first = std::ranges::lower_bound(trace.time, window.begin) - trace.time.begin();
    const auto behind = std::ranges::upper_bound(trace.time, window.end) - trace.time.begin();
    if (column < 0 || behind <= first) continue;
    const std::vector<double> time(trace.time.begin() + first, trace.time.begin() + behind);
    std::vector<double> flow(trace.values[column].begin() + first, trace.values[column].begin() + behind);
    for (double& each : flow) each *= way;
    const rules::Course course(time, flow);
    const auto always = [](std::size_t) { return true; };
    most = std::max(most, course.highest().value);
    lasting = std::max(lasting, rules::lasting_while(course, lasts, 0.0, always).value);
  }
  if (lasting >= counts * most) return {.flow = lasting};
  return {.flow = most, .for_a_moment = true};
}

/// "passes up to 1.20 L/min from A to B, 3.00 L/min from B to A": where a check lets oil by, only one of them
/// is throttled.
std::string passes(const Subject& subject, const Setting& setting) {
  constexpr double counts = 0.02;  // of the flow the other way
  const Kind& kind = *subject.job.plan.parts[setting.part].kind;
  const Passed there = greatest_flow(subject, setting, 1.0), back = greatest_flow(subject, setting, -1.0);
  const std::string_view a = kind.ports[0].name, b = kind.ports[1].name;
  std::vector<std::string> ways;
  const auto add = [&](const Passed& passed, const Passed& other, std::string_view from,
                       std::string_view to) {
    if (passed.flow <= counts * other.flow || passed.flow <= 0.0) return;
    ways.push_back(fmt::format("{} from {} to {}{}",
                               measured(passed.flow, Quantity::flow, subject.job.world).text, from, to,
                               passed.for_a_moment ? " for a moment" : ""));
  };
  add(there, back, a, b);
  add(back, there, b, a);
  return ways.empty() ? "" : fmt::format("passes up to {} in the cycle", fmt::join(ways, ", "));
}

bool is_throttle(const Setting& setting, const Kind& kind) {
  const Quantity quantity = setting.parameter->quantity;
  return kind.oil_ports >= 2 && (quantity == Quantity::turns || quantity == Quantity::flow);
}

bool limits_pressure(const Sight& sight, const Setting& setting) {
  return sight.role(setting.part) == Role::pressure_limit && setting.parameter->name == "setting";
}

/// No pump of this machine sends its flow over the valve at that pressure.
bool never_flows_over(const Sight& sight, int part) {
  return !(rules::flow_over(sight, sight.limit(part)) > 0.0);
}

std::string while_setting(const Subject& subject, const Sight& sight, const Setting& setting) {
  const bool limits = limits_pressure(sight, setting);
  const auto first = limits ? first_before(sight, setting.part) : std::nullopt;
  std::vector<std::string> all;
  if (setting.is_changed) all.emplace_back("as the cycle begins");
  if (!setting.step.empty()) all.push_back(fmt::format("from \"{}\" on", setting.step));
  if (first) {
    all.push_back(fmt::format("on a bench: here {} comes first, at {}", sight.tag(first->part),
                              measured(first->pressure, Quantity::pressure, sight.world).text));
  } else if (limits && never_flows_over(sight, setting.part)) {
    all.emplace_back("on a bench: here no pump's flow gets over it");
  } else if (is_throttle(setting, *sight.part(setting.part).kind) && !is_passed(subject, setting)) {
    all.emplace_back("for use by hand: nothing passes in the cycle; kept shut till then");
  } else if (setting.how) {
    all.emplace_back(setting.how->while_setting);
  }
  if (limits) all.push_back(cracks_and_reads(sight, setting.part, first.has_value()));
  if (is_throttle(setting, *sight.part(setting.part).kind)) all.push_back(passes(subject, setting));
  std::erase(all, "");
  return fmt::format("{}", fmt::join(all, "; "));
}

Cell set_to(const Setting& setting, const units::World& world) {
  const Quantity quantity = setting.parameter->quantity;
  Cell cell =
      setting.is_stated ? stated(setting.value, quantity, world) : measured(setting.value, quantity, world);
  if (quantity != Quantity::turns) return cell;
  if (cell.text == "1 turns") cell.text = "1 turn";
  cell.text = setting.value > 0.0 ? cell.text + " from shut" : "shut (0 turns)";
  return cell;
}

/// The job's word goes before that of its kind.
Tolerance tolerance_of(const Job& job, const Setting& setting) {
  const std::span<const Parameter> table = job.plan.parts[setting.part].kind->parameters;
  const auto parameter = static_cast<int>(setting.parameter - table.data());
  const auto stated = std::ranges::find_if(job.tolerances, [&](const StatedTolerance& each) {
    return each.part == setting.part && each.parameter == parameter;
  });
  return stated == job.tolerances.end() ? setting.parameter->tolerance : stated->tolerance;
}

Cell tolerance_cell(const Tolerance& tolerance, Quantity quantity, const units::World& world) {
  if (tolerance.exact()) return {};
  const bool absolute = tolerance.of == Tolerance::Of::absolute;
  Cell cell = measured(tolerance.above, absolute ? quantity : Quantity::share, world);
  cell.text = poise::wording::of(tolerance, quantity, world);
  return cell;
}

std::string may_err(const Setting& setting) {
  if (!setting.how) return {};
  switch (setting.how->safe) {
    case Adjusting::Safe::lower:
      return "lower";
    case Adjusting::Safe::higher:
      return "higher";
    case Adjusting::Safe::neither:
      break;
  }
  return "neither";
}

std::vector<Cell> row_of(const Subject& subject, const Sight& sight, const Setting& setting,
                         const std::vector<std::string>& codes) {
  const Job& job = subject.job;
  const PlannedPart& part = job.plan.parts[setting.part];
  return {{.text = codes[setting.part]},
          {.text = part.tag},
          {.text = valve_in_words(*part.kind, *setting.parameter)},
          {.text = job.drawn.empty() ? std::string() : job.drawn[setting.part].note},
          set_to(setting, job.world),
          {.text = while_setting(subject, sight, setting)},
          tolerance_cell(tolerance_of(job, setting), setting.parameter->quantity, job.world),
          {.text = read_at(sight, setting).words},
          {.text = may_err(setting)},
          {.text = "see its datasheet"},
          {},
          {},
          {}};
}

}  // namespace

bool is_set_on_a_bench(const Subject& subject, const Setting& setting) {
  const Job& job = subject.job;
  const Sight sight(job.plan, job.steps, job.controls, job.world, &subject.trace);
  return limits_pressure(sight, setting) &&
         (first_before(sight, setting.part) || never_flows_over(sight, setting.part));
}

bool is_passed(const Subject& subject, const Setting& setting) {
  return greatest_flow(subject, setting, 1.0).flow > 0.0 || greatest_flow(subject, setting, -1.0).flow > 0.0;
}

WhileSet while_set(const Subject& subject, const Setting& setting) {
  using Turn = Adjusting::Turn;
  if (!setting.how || setting.parameter->quantity != Quantity::pressure ||
      setting.how->turn == Turn::load_holding)
    return {};
  const Job& job = subject.job;
  const Sight sight(job.plan, job.steps, job.controls, job.world, &subject.trace);
  double reads = setting.value;
  const bool on_a_bench = is_set_on_a_bench(subject, setting);
  if (limits_pressure(sight, setting)) {
    const rules::Limit limit = sight.limit(setting.part);
    reads = on_a_bench ? limit.cracking : rules::pressure_over(sight, limit, rules::flow_over(sight, limit));
  }
  const ReadAt at = on_a_bench ? ReadAt{} : read_at(sight, setting);
  const double instrument =
      at.gauge ? sight.values(*at.gauge)["accuracy"] * sight.values(*at.gauge)["range"] : portable * reads;
  const Tolerance tolerance = tolerance_of(job, setting);
  return {.reads = reads,
          .lowest = reads + tolerance.at(setting.value, -1.0) - setting.value - instrument,
          .highest = reads + tolerance.at(setting.value, 1.0) - setting.value + instrument};
}

Table settings(const Subject& subject) {
  Table table{.name = "Settings",
              .columns = {{.head = "Code", .width = 0.8},
                          {.head = "Tag", .width = 0.6},
                          {.head = "Valve", .width = 1.4},
                          {.head = "Guards, does", .width = 1.9},
                          {.head = "Set to", .width = 0.9, .measured = true},
                          {.head = "While setting", .width = 3.2},
                          {.head = "Tolerance", .width = 1.05, .measured = true},
                          {.head = "Read at", .width = 1.1},
                          {.head = "May err", .width = 0.75},
                          {.head = "Raise", .width = 0.75},
                          {.head = "Locked", .width = 0.85},
                          {.head = "By", .width = 0.6},
                          {.head = "Date", .width = 0.7}},
              .rows = {}};
  const Job& job = subject.job;
  const Sight sight(job.plan, job.steps, job.controls, job.world, &subject.trace);
  const std::vector<std::string> codes = codes_shown(job);
  for (const Setting& setting : settings_of(job, subject.trace))
    table.rows.push_back(row_of(subject, sight, setting, codes));
  return table;
}

}  // namespace poise::papers
