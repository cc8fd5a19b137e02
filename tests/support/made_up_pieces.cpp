// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "support/made_up_shop.hpp"

namespace poise::made_up {
namespace {

constexpr double circle(double bore) { return std::numbers::pi / 4.0 * bore * bore; }

/// The next bore of common ones that is no smaller.
double next_bore(double least) {
  for (const double bore : {0.016, 0.02, 0.025, 0.032, 0.04, 0.05, 0.063, 0.08, 0.1, 0.125, 0.16}) {
    if (bore >= least) return bore;
  }
  return 0.2;
}

}  // namespace

Sheet Shop::rated(Sheet sheet) {
  if (chance_.likely(0.7)) sheet.emplace_back("rated_pressure", std::max(1.5 * pressure_, 100 * si::bar));
  return sheet;
}

/// The lines of a valve's datasheet beside those given.
Sheet Shop::valve(Sheet sheet, double flow) {
  const double through = flow > 0.0 ? flow : flow_;
  if (chance_.one_in(6)) {
    const double q = chance_.between(1.2, 2.0) * through;
    const double drop = chance_.between(2.0, 8.0) * si::bar;
    sheet.emplace_back("drop_curve", Points{{0.25 * q, 0.1 * drop}, {0.5 * q, 0.3 * drop}, {q, drop}});
  } else {
    sheet.emplace_back("rated_flow", chance_.between(1.2, 3.0) * through);
    if (chance_.one_in(3)) sheet.emplace_back("pressure_drop", chance_.between(2.0, 9.0) * si::bar);
    if (chance_.one_in(6)) sheet.emplace_back("measured_viscosity", 32 * si::mm2_per_s);
  }
  return rated(std::move(sheet));
}

std::string Shop::directional(std::string_view kind, Sheet sheet) {
  sheet.emplace_back("overlap", chance_.between(-0.4, 0.2));
  if (chance_.one_in(3)) sheet.emplace_back("shift_time", chance_.decades(0.02, 0.3));
  if (chance_.one_in(4)) sheet.emplace_back("leakage_class", chance_.of({"none visible", "spool"}));
  return job_.put("V", kind, valve(std::move(sheet)));
}

/// A centre position: only a valve that is alone on its pump lets it idle.
std::string_view Shop::centre() {
  if (!alone_) return chance_.of({"closed", "float"});
  return chance_.of({"closed", "open", "tandem", "float"});
}

/// A line from one port to another, as a hose, a tube, through a block or a fitting, or screwed together.
void Shop::lay(const std::string& from, const std::string& to) {
  const double bore =
      std::max(0.004, 1e-3 * std::round(1e3 * std::sqrt(4.0 * flow_ / (std::numbers::pi * 4.0))));
  const double length = chance_.decades(0.3, 6.0);
  switch (chance_.below(8)) {
    case 0:
    case 1: {
      Sheet sheet = rated({{"bore", bore}, {"length", length}});
      if (chance_.one_in(4)) sheet.emplace_back("segments", static_cast<double>(chance_.from_to(2, 6)));
      if (chance_.one_in(8)) sheet.emplace_back("inertia", "yes");
      job_.line("H", "hose", from, to, sheet);
      break;
    }
    case 2: {
      Sheet sheet = rated({{"bore", bore}, {"length", length}, {"rise", chance_.between(-1.0, 1.0)}});
      if (chance_.one_in(4)) sheet.emplace_back("segments", static_cast<double>(chance_.from_to(2, 6)));
      if (chance_.one_in(8)) sheet.emplace_back("inertia", "yes");
      job_.line("L", "tube", from, to, sheet);
      break;
    }
    case 3: {
      const std::string x = job_.put("X", "fitting", rated({{"bore", bore}}));
      job_.join({from, x + ".A"});
      job_.join({x + ".B", to});
      break;
    }
    case 4: {
      const std::string x = job_.put("X", "manifold", rated({{"rated_flow", 3.0 * flow_}}));
      job_.join({from, x + ".P"});
      job_.join({x + ".A", to});
      break;
    }
    case 5: {
      const std::string x = job_.put("X", "quick_coupling", valve({}));
      job_.join({from, x + ".A"});
      job_.join({x + ".B", to});
      break;
    }
    default:
      job_.join({from, to});
  }
}

/// A valve with the ports A and B in a line; its far port.
std::string Shop::through(const std::string& from, std::string_view kind, const Sheet& sheet) {
  const std::string tag = job_.put("V", kind, sheet);
  job_.join({from, tag + ".A"});
  return tag + ".B";
}

/// Past a throttle of some kind; free the other way where `towards_ram` says that it meters out.
std::string Shop::metered(const std::string& from, bool towards_ram) {
  const double bore = std::sqrt(flow_) * 0.12;  // some 20 bar at half its turns
  const double turns = chance_.between(2.0, 6.0);
  switch (chance_.below(4)) {
    case 0:
      return through(from, "needle", rated({{"bore", bore}, {"turns", turns}}));
    case 1: {
      const Sheet sheet = valve({{"flow", chance_.between(0.3, 0.8) * flow_}, {"reverse_check", "yes"}});
      const std::string v = job_.put("V", "compensated_flow_control", sheet);
      job_.join({from, v + (towards_ram ? ".B" : ".A")});
      return v + (towards_ram ? ".A" : ".B");
    }
    default: {
      const std::string v = job_.put("V", "one_way_flow_control", valve({{"bore", bore}, {"turns", turns}}));
      job_.join({from, v + (towards_ram ? ".A" : ".B")});
      return v + (towards_ram ? ".B" : ".A");
    }
  }
}

void Shop::gauge(const std::string& port) {
  const std::string g = job_.put("G", "gauge", {{"range", std::ceil(2e-5 * pressure_) * si::bar}});
  if (chance_.likely(0.6)) return job_.join({port, g + ".M"});
  const bool long_one = chance_.one_in(2);
  const Sheet sheet = long_one ? Sheet{{"length", chance_.between(0.3, 3.0)}}
                               : Sheet{{"bore", chance_.between(0.2, 0.5) * si::mm}};
  const std::string x = job_.put("X", long_one ? "capillary" : "snubber", sheet);
  job_.join({port, x + ".A"});
  job_.join({x + ".B", g + ".M"});
}

/// A ram whose stroke the flow makes in one to four seconds.
Shop::Ram Shop::single_acting(double flow, bool spring_return) {
  const double bore = next_bore(std::sqrt(flow * chance_.between(8.0, 30.0)));
  const double area = circle(bore), time = chance_.between(1.0, 4.0);
  const double stroke = std::clamp(flow * time / area, 0.008, 0.5);
  Sheet sheet = rated({{"bore", bore}, {"stroke", stroke}});
  if (spring_return) {
    const double weak = 0.04 * pressure_ * area;
    sheet.emplace_back("spring_preload", weak);
    sheet.emplace_back("spring_rate", weak / stroke);
  }
  if (chance_.one_in(3)) sheet.emplace_back("friction", 0.01 * pressure_ * area);
  return {job_.put("C", "single_acting_cylinder", sheet), area, stroke, area * stroke / flow};
}

Shop::Ram Shop::double_acting(double flow) {
  const double bore = next_bore(std::sqrt(flow * chance_.between(8.0, 30.0)));
  const double area = circle(bore), time = chance_.between(0.8, 3.0);
  const double stroke = std::clamp(flow * time / area, 0.008, 0.5);
  Sheet sheet =
      rated({{"bore", bore}, {"rod", bore * chance_.of({0.5, 0.56, 0.63, 0.7})}, {"stroke", stroke}});
  if (chance_.one_in(3)) sheet.emplace_back("friction", 0.01 * pressure_ * area);
  return {job_.put("C", "double_acting_cylinder", sheet), area, stroke, area * stroke / flow};
}

/// A load that asks for a share of the supply's pressure.
void Shop::load(const Ram& ram, double share) {
  const double force = share * pressure_ * ram.area;
  std::vector<std::string> group{ram.tag + ".rod"};
  const int which = chance_.below(4);
  if (which != 1) {
    const bool level = chance_.one_in(4);
    Sheet sheet{{"mass", force / si::gravity}};
    if (level) sheet.emplace_back("slope", 0.0);
    group.push_back(job_.put("M", "mass", sheet) + ".rod");
  }
  if (which == 1) group.push_back(job_.put("F", "force", {{"force", force}}) + ".rod");
  if (which == 2) {
    const Sheet sheet{{"rate", force / (0.2 * ram.stroke)}, {"free_travel", 0.7 * ram.stroke}};
    group.push_back(job_.put("S", "spring", sheet) + ".rod");
  }
  job_.join(group);
}

void Shop::step(const std::string& name, const Lines& set, double time, const std::string& until) {
  Lines lines{{"name", quoted(fmt::format("{} {}", name, branch_))}};
  if (!set.empty()) lines.emplace_back("set", table_of(set));
  if (until.empty()) {
    lines.emplace_back("lasts", this->time(time));
  } else {
    lines.emplace_back("until", quoted(until));
    lines.emplace_back("at_most", this->time(8.0 * time));
  }
  job_.step(std::move(lines));
}

void Shop::never_above(const std::string& signal, double limit, Quantity quantity) {
  job_.require({{"never_above", quoted(signal)}, {"limit", job_.value(limit, quantity)}});
}

void Shop::reached(const std::string& condition, double within, const std::string& step) {
  job_.require({{"reached", quoted(condition)},
                {"within", time(within)},
                {"during", quoted(fmt::format("{} {}", step, branch_))}});
}

std::string Shop::past(const Ram& ram, double share) const {
  return fmt::format("{}.position > {}", ram.tag, job_.bare(share * ram.stroke, Quantity::length));
}

std::string Shop::before(const Ram& ram, double share) const {
  return fmt::format("{}.position < {}", ram.tag, job_.bare(share * ram.stroke, Quantity::length));
}

}  // namespace poise::made_up
