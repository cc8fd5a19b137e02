// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/point.hpp"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "judge/nothing.hpp"
#include "judge/oils_way.hpp"
#include "judge/page.hpp"

namespace poise {
namespace {

constexpr std::size_t tag_width = 10, way_width = 8, column = 13;

struct Sheet {
  const Moment& moment;
  const Circuit& circuit;
  const Job& job;

  std::string show(double value, Quantity quantity) const { return units::show(value, quantity, job.world); }
  std::string cell(double value, Quantity quantity) const {
    return " " + right(is_nothing(value, quantity) ? "-" : show(value, quantity), column - 1);
  }
  const Kind& kind(int p) const { return *job.plan.parts[p].kind; }
  bool exists(int p, int port) const { return port_exists(kind(p).ports[port], job.plan.parts[p].values); }

  std::string head() const {
    return left("part", tag_width) + left("way", way_width) + right("pressure", column) +
           right("behind", column) + right("drop", column) + right("flow", column) + right("lost", column) +
           '\n';
  }
  std::string through(int p) const;
  std::string ports(int p) const;
  std::string motion(int p) const;
  std::string outputs(int p) const;
  std::string part(int p) const;
  std::string power() const;
};

/// A part with two oil ports on one line, along the flow.
std::string Sheet::through(int p) const {
  const PartMoment& m = moment.parts[p];
  const int from = m.flow[0] >= -creep_of(Quantity::flow) ? 0 : 1, to = 1 - from;
  const auto& names = kind(p).ports;
  return left(job.plan.parts[p].tag, tag_width) +
         left(fmt::format("{}→{}", names[from].name, names[to].name), way_width) +
         cell(m.pressure[from], Quantity::pressure) + cell(m.pressure[to], Quantity::pressure) +
         cell(m.pressure[from] - m.pressure[to], Quantity::pressure) + cell(m.flow[from], Quantity::flow) +
         cell(m.heat, Quantity::power) + '\n';
}

/// Any other part: a line for each oil port; flow into the part is positive.
std::string Sheet::ports(int p) const {
  const PartMoment& m = moment.parts[p];
  std::string text;
  for (int i = 0; i < kind(p).oil_ports; ++i) {
    if (!exists(p, i)) continue;
    const bool rests = is_nothing(m.flow[i], Quantity::flow);
    const std::string_view sense = rests ? "" : m.flow[i] > 0.0 ? " in" : " out";
    text += left(text.empty() ? job.plan.parts[p].tag : "", tag_width) +
            left(fmt::format("{}{}", kind(p).ports[i].name, sense), way_width) +
            cell(m.pressure[i], Quantity::pressure) + right("", 2 * column) +
            cell(std::abs(m.flow[i]), Quantity::flow) + (text.empty() ? cell(m.heat, Quantity::power) : "") +
            '\n';
  }
  return text;
}

std::string Sheet::motion(int p) const {
  const PartMoment& m = moment.parts[p];
  std::string text;
  for (int i = 0; i < kind(p).motion_ports; ++i) {
    const Port& port = kind(p).ports[kind(p).oil_ports + i];
    if (!exists(p, kind(p).oil_ports + i)) continue;
    const bool first = kind(p).oil_ports == 0 && text.empty();
    const Quantity speed = port.turns ? Quantity::rate_of_turning : Quantity::speed;
    const Quantity force = port.turns ? Quantity::torque : Quantity::force;
    text += left(first ? job.plan.parts[p].tag : "", tag_width) +
            fmt::format("{} at {}{}, force on it {}\n", port.name,
                        show(m.position[i], port.turns ? Quantity::angle : Quantity::length),
                        is_nothing(m.speed[i], speed) ? ", at rest" : ", " + show(m.speed[i], speed),
                        show(is_nothing(m.force[i], force) ? 0.0 : m.force[i], force));
  }
  return text;
}

std::string Sheet::outputs(int p) const {
  std::string text;
  for (std::size_t i = 0; i < kind(p).outputs.size(); ++i) {
    const double value = moment.parts[p].outputs[i];
    const Quantity quantity = kind(p).outputs[i].quantity;
    text += (text.empty() ? "" : ", ") + std::string(kind(p).outputs[i].name) + " " +
            show(is_nothing(value, quantity) ? 0.0 : value, quantity);
  }
  if (text.empty()) return "";
  return std::string(tag_width, ' ') + wrapped(text, 100, tag_width) + '\n';
}

std::string Sheet::part(int p) const {
  const bool two =
      kind(p).oil_ports == 2 && kind(p).motion_ports == 0 && exists(p, 1) && moment.parts[p].shaft == 0.0;
  std::string text = two ? through(p) : ports(p);
  if (moment.parts[p].shaft != 0.0) {
    text +=
        std::string(tag_width, ' ') + "power put in " + show(moment.parts[p].shaft, Quantity::power) + '\n';
  }
  return text + motion(p) + outputs(p);
}

std::string Sheet::power() const {
  double shaft = 0.0, heat = 0.0, delivered = 0.0;
  for (const PartMoment& m : moment.parts) {
    shaft += m.shaft;
    heat += m.heat;
    delivered += m.delivered;
  }
  return fmt::format("\nPower: {} put in, {} lost as heat, {} given to outside forces, {} stored\n",
                     show(shaft, Quantity::power), show(heat, Quantity::power),
                     show(delivered, Quantity::power), show(shaft - heat - delivered, Quantity::power));
}

}  // namespace

std::string show_point(const Moment& moment, const Circuit& circuit, const Job& job) {
  const Sheet sheet{moment, circuit, job};
  std::string text =
      fmt::format("{}, {}{}, oil at {}\n\n", job.title, units::show(moment.time, Quantity::time, job.world),
                  moment.step.empty() ? "" : " in step \"" + moment.step + "\"",
                  units::show(job.plan.oil.temperature, Quantity::temperature, job.world));
  text += sheet.head();
  for (int p : along_the_oils_way(circuit, moment)) text += sheet.part(p);
  return text + sheet.power();
}

nlohmann::json point_to_json(const Moment& moment, const Circuit& circuit, const Job& job) {
  using nlohmann::json;
  const auto value = [&](double si, Quantity quantity) {
    return json{{"si", si},
                {"value", units::in_unit(si, quantity, job.world)},
                {"unit", job.world[quantity]},
                {"quantity", units::name(quantity)}};
  };
  json parts = json::array();
  for (int p : along_the_oils_way(circuit, moment)) {
    const PlannedPart& planned = job.plan.parts[p];
    const PartMoment& m = moment.parts[p];
    const Kind& kind = *planned.kind;
    json part{{"tag", planned.tag}, {"kind", kind.about.kind}, {"ports", json::array()}};
    for (int i = 0; i < static_cast<int>(kind.ports.size()); ++i) {
      const Port& port = kind.ports[i];
      if (!port_exists(port, planned.values)) continue;
      json entry{{"port", port.name}};
      if (const int b = i - kind.oil_ports; b >= 0) {
        entry["position"] = value(m.position[b], port.turns ? Quantity::angle : Quantity::length);
        entry["speed"] = value(m.speed[b], port.turns ? Quantity::rate_of_turning : Quantity::speed);
        entry["force"] = value(m.force[b], port.turns ? Quantity::torque : Quantity::force);
      } else {
        entry["pressure"] = value(m.pressure[i], Quantity::pressure);
        entry["flow"] = value(m.flow[i], Quantity::flow);
      }
      part["ports"].push_back(entry);
    }
    for (std::size_t i = 0; i < kind.outputs.size(); ++i)
      part["outputs"][std::string(kind.outputs[i].name)] = value(m.outputs[i], kind.outputs[i].quantity);
    part["put_in"] = value(m.shaft, Quantity::power);
    part["heat"] = value(m.heat, Quantity::power);
    part["delivered"] = value(m.delivered, Quantity::power);
    parts.push_back(std::move(part));
  }
  return {{"job", job.title},
          {"time", value(moment.time, Quantity::time)},
          {"step", moment.step},
          {"parts", parts}};
}

}  // namespace poise
