// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>

#include "support/made_up_shop.hpp"

namespace poise::made_up {

void Shop::oil() {
  if (chance_.one_in(3))
    job_.oil("fluid", chance_.of({"mineral oil", "water glycol", "biodegradable ester"}));
  job_.oil("grade", chance_.of({"ISO VG 22", "ISO VG 32", "ISO VG 46", "ISO VG 68"}));
  job_.oil("temperature", si::zero_celsius + static_cast<double>(chance_.from_to(10, 60)));
  if (chance_.one_in(4)) job_.oil("air", chance_.decades(0.001, 0.03));
  if (chance_.one_in(6)) job_.oil("pressure_viscosity", chance_.of({"Barus", "Roelands"}));
}

/// What limits the pressure, with its tank line.
void Shop::relief_at(const std::string& port, double setting) {
  const double passes = chance_.between(1.5, 3.0) * flow_;
  switch (chance_.below(6)) {
    case 0: {
      const bool vent = chance_.one_in(2);
      Sheet sheet = rated({{"setting", setting}, {"rated_flow", passes}});
      if (vent) sheet.emplace_back("vent", "fitted");
      const std::string v = job_.put("V", "pilot_operated_relief", sheet);
      job_.join({port, v + ".P"});
      job_.tank.push_back(v + ".T");
      if (!vent) return;
      const std::string idle = directional("directional_2_2", {{"position", "open"}});
      job_.join({v + ".X", idle + ".P"});
      job_.tank.push_back(idle + ".A");
      start_.emplace_back(idle, quoted("shut"));
      stop_.emplace_back(idle, quoted("open"));
      return;
    }
    case 1: {
      const Sheet sheet = rated({{"setting", setting}, {"rated_flow", passes}});
      const std::string v = job_.put("V", "externally_drained_relief", sheet);
      job_.join({port, v + ".P"});
      for (const char* drained : {".T", ".Y"}) job_.tank.push_back(v + drained);
      return;
    }
    default: {
      Sheet sheet = rated({});
      if (chance_.one_in(5)) {
        sheet.emplace_back("override_curve",
                           Points{{0.0, setting}, {0.5 * passes, 1.05 * setting}, {passes, 1.12 * setting}});
      } else {
        sheet.emplace_back("setting", setting);
        sheet.emplace_back("rated_flow", passes);
        if (chance_.one_in(2)) sheet.emplace_back("setting_flow", 0.95 * flow_);
      }
      const std::string v = job_.put("V", "relief", sheet);
      job_.join({port, v + ".P"});
      job_.tank.push_back(v + ".T");
    }
  }
}

void Shop::motor_pump() {
  Sheet sheet{{"rated_pressure", 1.4 * pressure_}};
  if (chance_.one_in(3)) {
    sheet.emplace_back("displacement", flow_ / (1450 * si::per_minute));
  } else {
    sheet.emplace_back("flow", flow_);
  }
  const std::string p = job_.put("P", "pump", sheet);
  job_.tank.push_back(p + ".S");
  supply_ = p + ".P";
  start_.emplace_back(p, quoted("on"));
  stop_.emplace_back(p, quoted("off"));
  relief_at(supply_, pressure_);
}

void Shop::two_stage() {
  const Sheet sheet{{"low_pressure_flow", flow_},
                    {"high_pressure_flow", 0.2 * flow_},
                    {"unloading_pressure", 0.35 * pressure_},
                    {"rated_pressure", 1.4 * pressure_}};
  const std::string p = job_.put("P", "two_stage_pump", sheet);
  job_.tank.push_back(p + ".S");
  supply_ = p + ".P";
  start_.emplace_back(p, quoted("on"));
  stop_.emplace_back(p, quoted("off"));
  relief_at(supply_, pressure_);
}

void Shop::compensated() {
  Sheet sheet{{"flow", flow_}, {"setting", pressure_}, {"rated_pressure", 1.4 * pressure_}};
  if (chance_.one_in(4)) sheet.emplace_back("power_limit", 0.5 * pressure_ * flow_);
  const std::string p = job_.put("P", "variable_pump", sheet);
  for (const char* port : {".S", ".L"}) job_.tank.push_back(p + port);
  supply_ = p + ".P";
  start_.emplace_back(p, quoted("on"));
  stop_.emplace_back(p, quoted("off"));
  relief_at(supply_, 1.15 * pressure_);
}

void Shop::from_air() {
  flow_ = std::min(flow_, 6 * si::litre_per_minute);
  const Sheet sheet{{"ratio", 1.25 * pressure_ / (6 * si::bar)}, {"flow", flow_}};
  const std::string p = job_.put("P", "air_driven_pump", sheet);
  job_.tank.push_back(p + ".S");
  supply_ = p + ".P";
  start_.emplace_back(p, job_.value(6 * si::bar, Quantity::pressure));
  stop_.emplace_back(p, job_.value(0.0, Quantity::pressure));
  relief_at(supply_, pressure_);
}

void Shop::by_hand() {
  flow_ = chance_.between(0.3, 1.2) * si::litre_per_minute;
  const double rate = chance_.between(20.0, 45.0) * si::per_minute;
  const std::string p =
      job_.put("P", "hand_pump", {{"stroke_volume", flow_ / rate}, {"rated_pressure", 1.4 * pressure_}});
  job_.tank.push_back(p + ".S");
  supply_ = p + ".P";
  start_.emplace_back(p, job_.value(rate, Quantity::stroke_rate));
  stop_.emplace_back(p, job_.value(0.0, Quantity::stroke_rate));
  relief_at(supply_, pressure_);
}

void Shop::on_a_shaft() {
  const Sheet motor{{"rated_power", std::max(1.5 * pressure_ * flow_, 400.0)}};
  const std::string e = job_.put("E", "electric_motor", motor);
  const Sheet sheet{{"displacement", flow_ / (1450 * si::per_minute)}, {"rated_pressure", 1.4 * pressure_}};
  const std::string p = job_.put("P", "shaft_pump", sheet);
  job_.join({e + ".shaft", p + ".shaft"});
  job_.tank.push_back(p + ".S");
  supply_ = p + ".P";
  start_.emplace_back(e, quoted("on"));
  stop_.emplace_back(e, quoted("off"));
  relief_at(supply_, pressure_);
}

/// A large and a small pump: the large one is let idle from a pressure on.
void Shop::high_and_low() {
  std::vector<std::string> pumps;
  for (const double share : {0.75, 0.25}) {
    pumps.push_back(job_.put("P", "pump", {{"flow", share * flow_}, {"rated_pressure", 1.4 * pressure_}}));
    job_.tank.push_back(pumps.back() + ".S");
    start_.emplace_back(pumps.back(), quoted("on"));
    stop_.emplace_back(pumps.back(), quoted("off"));
  }
  const std::string idle = job_.put("V", "unloading_valve", valve({{"setting", 0.4 * pressure_}}));
  supply_ = pumps.back() + ".P";
  job_.join({pumps.front() + ".P", idle + ".P"});
  job_.join({supply_, idle + ".X", through(pumps.front() + ".P", "check", valve({}))});
  job_.tank.push_back(idle + ".T");
  relief_at(supply_, pressure_);
}

/// Filter, gauge, check, cooler about the supply.
void Shop::conditioning() {
  if (chance_.one_in(3)) gauge(supply_);
  if (chance_.one_in(3)) supply_ = through(supply_, "check", valve({}));
  if (chance_.one_in(4)) supply_ = through(supply_, "filter", rated({{"rated_flow", 2.0 * flow_}}));
  if (!chance_.one_in(4)) return;
  const bool filter = chance_.one_in(2);
  Sheet sheet{{"rated_flow", 4.0 * flow_}};
  sheet.emplace_back(filter ? "bypass_pressure" : "conductance", filter ? 2 * si::bar : 80.0);
  const std::string x = job_.put(filter ? "F" : "Y", filter ? "filter" : "cooler", sheet);
  const std::vector<std::string> returns(job_.tank.begin() + 1, job_.tank.end());
  std::vector<std::string> before{x + ".A"};
  for (const std::string& port : returns) (port.ends_with(".T") ? before : job_.tank).push_back(port);
  job_.tank.erase(job_.tank.begin() + 1, job_.tank.begin() + 1 + static_cast<int>(returns.size()));
  job_.tank.push_back(x + ".B");
  if (before.size() == 1) before.push_back("T1.T");
  job_.join(before);
}

/// An accumulator that a pressure switch keeps charged.
void Shop::store() {
  supply_ = through(supply_, "check", valve({}));
  const double seconds = chance_.between(2.0, 5.0);
  Sheet sheet = rated({{"gas_volume", std::max(flow_ * seconds, 20 * si::cm3)},
                       {"precharge", chance_.between(0.4, 0.6) * pressure_}});
  if (chance_.one_in(3)) sheet.emplace_back("separator", "piston");
  const std::string a = job_.put("A", "accumulator", sheet);
  const std::string drain = job_.put("V", "shut_off", valve({{"position", "shut"}}));
  const std::string s =
      job_.put("S", "pressure_switch", {{"setting", 0.9 * pressure_}, {"reset", 0.75 * pressure_}});
  job_.join({supply_, a + ".A", drain + ".A", s + ".M"});
  job_.tank.push_back(drain + ".B");
  start_time_ = 1.0 + 0.6 * seconds;
  if (chance_.likely(0.7)) {
    job_.control({{"when", quoted(s + " on")}, {"set", table_of(stop_)}});
    job_.control({{"when", quoted(s + " off")}, {"set", table_of(start_)}});
  }
  stop_.emplace_back(drain, quoted("open"));
}

void Shop::supply() {
  job_.put("T", "reservoir", {{"usable_oil", 0.02}});
  pressure_ = chance_.decades(60.0, 320.0) * si::bar;
  flow_ = chance_.decades(1.0, 25.0) * si::litre_per_minute;
  switch (chance_.below(10)) {
    case 0:
      two_stage();
      break;
    case 1:
    case 2:
      compensated();
      break;
    case 3:
      from_air();
      break;
    case 4:
      by_hand();
      break;
    case 5:
      on_a_shaft();
      break;
    case 6:
      high_and_low();
      break;
    default:
      motor_pump();
  }
  if (chance_.one_in(8)) {
    store();
  } else {
    conditioning();
  }
  never_above(supply_ + ".pressure", 1.25 * pressure_, Quantity::pressure);
}

void Shop::start_step() {
  job_.step({{"name", quoted("start")}, {"set", table_of(start_)}, {"lasts", time(start_time_)}});
}

}  // namespace poise::made_up
