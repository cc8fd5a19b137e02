// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Branches that lift, press, push and turn.
#include <fmt/format.h>

#include <algorithm>

#include "support/made_up_shop.hpp"

namespace poise::made_up {

/// A jack on a directional valve whose load a check or a counterbalance valve holds.
void Shop::held_jack() {
  const std::string v = directional("directional_4_3", {{"centre", chance_.of({"open", "float"})}});
  lay(supply_, v + ".P");
  job_.tank.push_back(v + ".T");
  const Ram ram = single_acting(flow_, false);
  std::string line = v + ".A";
  if (chance_.one_in(3)) {
    const Sheet sheet = valve({{"setting", 1.2 * pressure_}, {"ratio", 3.0}});
    const std::string held = job_.put("V", "counterbalance", sheet);
    job_.join({line, held + ".B"});
    job_.join({held + ".X", v + ".B"});
    line = held + ".A";
  } else {
    const std::string held = job_.put("V", "pilot_operated_check", valve({{"ratio", 4.0}}));
    job_.join({line, held + ".A"});
    job_.join({held + ".X", v + ".B"});
    line = metered(held + ".B", true);
  }
  if (chance_.one_in(3)) gauge(line);
  lay(line, ram.tag + ".A");
  load(ram, chance_.between(0.2, 0.7));
  const std::string up = chance_.one_in(3) ? past(ram, 0.7) : "";
  step("up", {{v, quoted("a")}}, 1.3 * ram.time + 0.5, up);
  step("hold", {{v, quoted("centre")}}, chance_.between(1.0, 10.0));
  step("down", {{v, quoted("b")}}, 2.0 * ram.time + 1.0);
  reached(past(ram, 0.7), 3.0 * ram.time + 1.0, "up");
  job_.require({{"drift", quoted(ram.tag + ".position")},
                {"limit", job_.value(0.5 * si::mm, Quantity::length)},
                {"settle", time(0.5)},
                {"during", quoted(fmt::format("hold {}", branch_))}});
}

/// A jack on a seat valve, with a burst valve at its port, perhaps a nut on its rod.
void Shop::plain_jack() {
  const std::string v = directional("directional_3_2");
  job_.join({supply_, v + ".P"});
  job_.tank.push_back(v + ".T");
  const Ram ram = single_acting(flow_, false);
  std::string line = v + ".A";
  if (chance_.one_in(2)) line = metered(line, true);
  if (chance_.one_in(2)) {
    const std::string burst =
        job_.put("V", "hose_burst_valve", valve({{"trip_flow", chance_.between(1.5, 3.0) * flow_}}));
    lay(line, burst + ".B");
    line = burst + ".A";
  }
  lay(line, ram.tag + ".A");
  const std::string m =
      job_.put("M", "mass", {{"mass", chance_.between(0.2, 0.6) * pressure_ * ram.area / si::gravity}});
  std::vector<std::string> rod{ram.tag + ".rod", m + ".rod"};
  const bool nut = chance_.one_in(2);
  const std::string n = nut ? job_.put("U", "lock_nut", {}) : "";
  if (nut) rod.push_back(n + ".rod");
  job_.join(rod);
  step("up", {{v, quoted("shifted")}}, 1.4 * ram.time + 0.5);
  if (nut) {
    step("nut on", {{n, quoted("on")}}, 6.0);
    step("on the nut", {{v, quoted("rest")}}, 2.0);
    step("lift off", {{v, quoted("shifted")}}, 2.0);
    step("nut off", {{n, quoted("off")}}, 6.0);
  }
  step("down", {{v, quoted("rest")}}, 2.0 * ram.time + 1.0);
  reached(past(ram, 0.6), 2.0 * ram.time + 1.0, "up");
  never_above(ram.tag + ".A.pressure", 1.3 * pressure_, Quantity::pressure);
}

/// A double-acting ram that presses against something.
void Shop::press() {
  const std::string v = directional("directional_4_3", {{"centre", "closed"}});
  lay(supply_, v + ".P");
  job_.tank.push_back(v + ".T");
  const Ram ram = double_acting(flow_);
  std::string a = v + ".A", b = v + ".B";
  if (chance_.one_in(3)) a = metered(a, true);
  if (chance_.one_in(3)) b = metered(b, true);
  if (chance_.one_in(3)) {
    const std::string held = job_.put("V", "pilot_operated_check", valve({{"ratio", 3.0}}));
    job_.join({a, held + ".A"});
    job_.join({held + ".X", b});
    a = held + ".B";
  }
  lay(a, ram.tag + ".A");
  lay(b, ram.tag + ".B");
  gauge(ram.tag + ".A");
  const double force = chance_.between(0.5, 1.5) * pressure_ * ram.area;
  const std::string s =
      job_.put("S", "spring", {{"rate", force / (0.1 * ram.stroke)}, {"free_travel", 0.8 * ram.stroke}});
  job_.join({ram.tag + ".rod", s + ".rod"});
  const std::string full =
      fmt::format("{}.A.pressure > {}", ram.tag, job_.bare(0.5 * pressure_, Quantity::pressure));
  step("press", {{v, quoted("a")}}, 1.5 * ram.time + 0.5, chance_.one_in(3) ? full : "");
  step("stay", {{v, quoted("centre")}}, chance_.between(0.5, 5.0));
  step("return", {{v, quoted("b")}}, 1.5 * ram.time + 0.5);
  reached(full, 4.0 * ram.time + 1.0, "press");
  job_.require({{"band", quoted(s + ".force")},
                {"low", job_.value(0.0, Quantity::force)},
                {"high", job_.value(2.0 * force, Quantity::force)}});
}

/// A ram on a slide that a cam slows before its end.
void Shop::slide() {
  const std::string v = directional("directional_4_3", {{"centre", centre()}});
  lay(supply_, v + ".P");
  job_.tank.push_back(v + ".T");
  const Ram ram = double_acting(flow_);
  lay(v + ".A", ram.tag + ".A");
  const Sheet sheet = valve({{"acts_from", 0.6 * ram.stroke},
                             {"acts_over", 0.2 * ram.stroke},
                             {"reverse_check", "yes"},
                             {"leakage", 0.03 * si::litre_per_minute}});
  const std::string cam = job_.put("V", "cam_valve", sheet);
  const std::string n = job_.put("N", "needle", {{"bore", 1 * si::mm}, {"turns", chance_.between(1.0, 6.0)}});
  job_.join({ram.tag + ".B", cam + ".A", n + ".A"});
  job_.join({cam + ".B", n + ".B", v + ".B"});
  const Sheet mass{{"mass", chance_.decades(20.0, 800.0)}, {"slope", 0.0}};
  job_.join({ram.tag + ".rod", cam + ".cam", job_.put("M", "mass", mass) + ".rod"});
  step("out", {{v, quoted("a")}}, 2.0 * ram.time + 1.0);
  step("back", {{v, quoted("b")}}, 2.0 * ram.time + 1.0, chance_.one_in(2) ? before(ram, 0.2) : "");
  step("stop", {{v, quoted("centre")}}, 0.5);
  reached(past(ram, 0.9), 6.0 * ram.time + 2.0, "out");
}

void Shop::regenerative() {
  const std::string v = directional("directional_4_3", {{"centre", "regenerative"}, {"position", "b"}});
  job_.join({v + ".P", through(supply_, "check", valve({}))});
  job_.tank.push_back(v + ".T");
  const Ram ram = double_acting(flow_);
  lay(v + ".A", ram.tag + ".A");
  lay(v + ".B", ram.tag + ".B");
  const Sheet mass{{"mass", chance_.decades(20.0, 800.0)}, {"slope", 0.0}};
  const std::string f = job_.put("F", "force", {{"force", 0.0}});
  job_.join({ram.tag + ".rod", job_.put("M", "mass", mass) + ".rod", f + ".rod"});
  const double force = chance_.between(0.2, 0.6) * pressure_ * ram.area;
  step("quickly out", {{v, quoted("centre")}}, 0.7 * ram.time);
  step("push", {{v, quoted("a")}, {f, job_.value(force, Quantity::force)}}, ram.time + 0.5);
  step("back", {{v, quoted("b")}, {f, job_.value(0.0, Quantity::force)}}, 1.5 * ram.time + 0.5);
  never_above(ram.tag + ".B.pressure", 2.5 * pressure_, Quantity::pressure);
}

void Shop::winch() {
  const std::string v = directional("directional_4_3", {{"centre", "float"}});
  std::string from = supply_;
  if (chance_.one_in(2))
    from = through(from, "compensated_flow_control", valve({{"flow", chance_.between(0.4, 0.9) * flow_}}));
  lay(from, v + ".P");
  job_.tank.push_back(v + ".T");
  const double turn = flow_ / chance_.between(2.0, 8.0);  // m3/rev
  const double torque = pressure_ * turn / 6.2832;
  const Sheet sheet{{"displacement", turn},
                    {"rated_pressure", 1.4 * pressure_},
                    {"rated_speed", 10.0},
                    {"load_torque", chance_.between(0.1, 0.6) * torque},
                    {"inertia", chance_.between(0.02, 0.1) * torque}};
  const std::string r = job_.put("R", "hydraulic_motor", sheet);
  job_.tank.push_back(r + ".L");
  lay(v + ".A", r + ".A");
  lay(v + ".B", r + ".B");
  for (const auto& [over, to] : {std::pair{".A", ".B"}, std::pair{".B", ".A"}}) {
    const std::string shock =
        job_.put("V", "relief", {{"setting", 1.1 * pressure_}, {"rated_flow", 2.0 * flow_}});
    job_.join({r + over, shock + ".P"});
    job_.join({r + to, shock + ".T"});
  }
  step("wind", {{v, quoted("a")}}, chance_.between(1.0, 4.0));
  step("coast", {{v, quoted("centre")}}, 1.0);
  if (chance_.one_in(2)) step("pay out", {{v, quoted("b")}}, chance_.between(1.0, 3.0));
  step("stand", {{v, quoted("centre")}}, 1.0);
  never_above(r + ".A.pressure", 1.5 * pressure_, Quantity::pressure);
}

/// Jacks that a divider keeps level, under one load or each under its own.
void Shop::pair() {
  const std::string v = directional("directional_4_3", {{"centre", chance_.of({"closed", "open"})}});
  lay(supply_, v + ".P");
  job_.tank.push_back(v + ".T");
  const bool gears = chance_.one_in(2), one_load = chance_.one_in(2);
  const int count = gears && chance_.one_in(2) ? 4 : 2;
  std::string d;
  if (gears) {
    const double turn = flow_ / (count * 20.0), slip = 0.01 * flow_;
    const Points sections(static_cast<std::size_t>(count), CurvePoint{turn, slip});
    d = job_.put("D", "gear_flow_divider", valve({{"sections", sections}}));
  } else {
    const Sheet sheet = valve({{"minimum_flow", 0.3 * flow_}, {"combining", "yes"}});
    d = job_.put("D", "flow_divider", sheet);
  }
  lay(v + ".A", d + ".P");
  std::vector<Ram> rams{single_acting(flow_ / count, false)};
  const Sheet same{{"bore", std::sqrt(rams[0].area * 4.0 / 3.14159265)}, {"stroke", rams[0].stroke}};
  while (std::cmp_less(rams.size(), count)) {
    rams.push_back(rams[0]);
    rams.back().tag = job_.put("C", "single_acting_cylinder", same);
  }
  const double weight = chance_.between(0.2, 0.6) * pressure_ * rams[0].area;
  std::string whole;
  if (one_load) {
    const double x = chance_.between(0.5, 2.0), y = chance_.between(0.3, 1.0);
    Points points{{-x, 0.0}, {x, 0.0}};
    if (count == 4) points = {{-x, -y}, {x, -y}, {x, y}, {-x, y}};
    const Sheet sheet{{"mass", count * weight / si::gravity},
                      {"points", points},
                      {"centre_x", chance_.between(-0.1, 0.1) * x},
                      {"centre_y", 0.0}};
    whole = job_.put("M", "rigid_load", sheet);
  }
  for (int i = 0; i < count; ++i) {
    const std::string& tag = rams[static_cast<std::size_t>(i)].tag;
    job_.join({d + "." + "ABCD"[i], tag + ".A"});
    const std::string on = one_load ? fmt::format("{}.point_{}", whole, i + 1)
                                    : job_.put("M", "mass", {{"mass", weight / si::gravity}}) + ".rod";
    job_.join({tag + ".rod", on});
  }
  job_.plug(v + ".B");
  step("up", {{v, quoted("a")}}, 1.1 * rams[0].time + 0.3);
  step("hold", {{v, quoted("centre")}}, 1.0);
  step("down", {{v, quoted("b")}}, rams[0].time + 0.5);
  job_.require({{"level", fmt::format("[\"{}.position\", \"{}.position\"]", rams[0].tag, rams[1].tag)},
                {"limit", job_.value(2 * si::mm, Quantity::length)}});
}

}  // namespace poise::made_up
