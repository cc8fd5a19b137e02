// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "circuit/rating.hpp"
#include "oil/oil.hpp"
#include "papers/bill.hpp"
#include "papers/naming.hpp"
#include "papers/seen.hpp"

namespace poise::papers {
namespace {

/// A conduit with an end on each side and a bore: hose, tube, fitting.
bool is_conduit(const Kind& kind) {
  return kind.about.role == Role::line && kind.oil_ports == 2 && find_parameter(kind.parameters, "bore");
}

/// Speeds of oil are told in m/s or ft/s, not in the unit of the machine's motions.
units::World of_oil(const units::World& world) {
  units::World told = world;
  const bool inches = world[Quantity::length] == units::us()[Quantity::length];
  units::set_unit(told, Quantity::speed, inches ? "ft/s" : "m/s");
  return told;
}

/// The ports that are joined to one end of a line.
std::string joined_to(const Plan& plan, PortOf end) {
  std::vector<std::string> names;
  for (const Joint& joint : plan.joints) {
    for (const auto& [own, other] : {std::pair(joint.a, joint.b), std::pair(joint.b, joint.a)}) {
      if (own == end) names.push_back(plan.name(other));
    }
  }
  return fmt::format("{}", fmt::join(names, ", "));
}

double value_or(const Values& values, std::string_view name, double otherwise) {
  return find_parameter(values.table(), name) && values.given(name) ? values[name] : otherwise;
}

/// What the run showed of one line.
class Run {
 public:
  Run(const Subject& subject, int line)
      : subject_(subject),
        part_(subject.job.plan.parts[line]),
        a_(part_.tag + "." + port(0)),
        b_(part_.tag + "." + port(1)) {}

  /// Highest speed of the oil. A line in pieces reports that of its first; at its far end its flow tells.
  std::optional<Point> speed() const {
    std::optional<Point> found = greatest(subject_.trace, part_.tag + ".velocity", whole(subject_.trace));
    const bool in_pieces = value_or(part_.values, "segments", 1.0) > 1.5;
    if (found && !in_pieces) return found;
    const double bore = part_.values["bore"], area = std::numbers::pi / 4.0 * bore * bore;
    for (const std::string& end : {a_, b_}) {
      auto flow = greatest(subject_.trace, end + ".flow", whole(subject_.trace));
      if (!flow) continue;
      flow->value /= area;
      if (!found || std::abs(flow->value) > std::abs(found->value)) found = flow;
    }
    return found;
  }

  /// Greatest loss by friction: what is between its ends' pressures less the height. Where the oil's mass
  /// counts, only at the highest speed, when nothing is accelerated.
  std::optional<double> loss() const {
    const Trace& trace = subject_.trace;
    const int a = trace.column(a_ + ".pressure"), b = trace.column(b_ + ".pressure");
    if (a < 0 || b < 0 || trace.time.empty()) return std::nullopt;
    const bool with_inertia = value_or(part_.values, "inertia", 0.0) > 0.5;
    const std::optional<Point> fastest = with_inertia ? speed() : std::nullopt;
    double most = 0.0;
    for (std::size_t row = 0; row < trace.time.size(); ++row) {
      if (fastest && trace.time[row] != fastest->time) continue;
      most = std::max(most, std::abs(trace.values[a][row] - trace.values[b][row] - height()));
    }
    return most;
  }

  std::optional<double> highest_pressure() const {
    std::optional<double> most;
    for (const std::string& end : {a_, b_}) {
      const int column = subject_.trace.column(end + ".pressure");
      if (column < 0 || subject_.trace.time.empty()) continue;
      most = std::max(most.value_or(-no_limit), std::ranges::max(subject_.trace.values[column]));
    }
    return most;
  }

 private:
  std::string port(int index) const { return std::string(part_.kind->ports[index].name); }
  /// Pressure of the column of oil from one end up to the other, Pa.
  double height() const {
    return value_or(part_.values, "rise", 0.0) * si::gravity * Oil(subject_.job.plan.oil).density_at_zero();
  }

  const Subject& subject_;
  const PlannedPart& part_;
  std::string a_, b_;
};

std::vector<Cell> row_of(const Subject& subject, int line, const std::string& code) {
  const Job& job = subject.job;
  const PlannedPart& part = job.plan.parts[line];
  const auto given = [&](std::string_view name) -> Cell {
    const auto index = find_parameter(part.kind->parameters, name);
    if (!index || !part.values.given(name)) return {};
    return stated(part.values[name], part.kind->parameters[*index].quantity, job.world);
  };
  const auto seen = [&](std::optional<double> value, Quantity quantity, const units::World& world) {
    return value ? measured(std::abs(*value), quantity, world) : Cell{};
  };
  const Run run(subject, line);
  const auto speed = run.speed();
  return {{.text = code},
          {.text = part.tag},
          {.text = called(*part.kind)},
          {.text = joined_to(job.plan, {line, 0})},
          {.text = joined_to(job.plan, {line, 1})},
          given("bore"),
          given("length"),
          given(rating_parameter(*part.kind)),
          seen(run.highest_pressure(), Quantity::pressure, job.world),
          seen(speed ? std::optional(speed->value) : std::nullopt, Quantity::speed, of_oil(job.world)),
          seen(run.loss(), Quantity::pressure, job.world)};
}

}  // namespace

Table list_of_lines(const Subject& subject) {
  Table table{.name = "Lines",
              .columns = {{.head = "Code", .width = 0.7},
                          {.head = "Tag", .width = 1.0},
                          {.head = "Name", .width = 0.7},
                          {.head = "From", .width = 1.4},
                          {.head = "To", .width = 1.4},
                          {.head = "Bore", .width = 0.8, .measured = true},
                          {.head = "Length", .width = 0.8, .measured = true},
                          {.head = "Rated pressure", .width = 0.8, .measured = true},
                          {.head = "Highest pressure", .width = 0.8, .measured = true},
                          {.head = "Peak speed of the oil", .width = 0.8, .measured = true},
                          {.head = "Greatest loss", .width = 0.8, .measured = true}},
              .rows = {}};
  const Job& job = subject.job;
  const std::vector<std::string> codes = codes_shown(job);
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    if (is_conduit(*job.plan.parts[p].kind)) table.rows.push_back(row_of(subject, p, codes[p]));
  }
  return table;
}

}  // namespace poise::papers
