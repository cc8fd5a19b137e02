// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Branches that clamp, and the order in which a sensible job is put together.
#include <fmt/format.h>

#include <algorithm>

#include "support/made_up_shop.hpp"

namespace poise::made_up {

/// Swing clamps behind what is to come first; supports behind them, some of them at reduced pressure.
void Shop::clamps() {
  const bool by_oil = chance_.one_in(2);
  const std::string v = directional(by_oil ? "directional_4_2" : "directional_3_2");
  job_.join({supply_, v + ".P"});
  job_.tank.push_back(v + ".T");
  std::string line = v + ".A";
  if (chance_.one_in(2)) {
    const Ram first = single_acting(flow_, true);
    job_.join({line, first.tag + ".A"});
    job_.join({first.tag + ".rod", job_.put("S", "spring",
                                            {{"rate", 0.05 * pressure_ * first.area / si::mm},
                                             {"free_travel", 0.6 * first.stroke}}) +
                                       ".rod"});
    const std::string next = job_.put("V", "sequence", valve({{"setting", 0.5 * pressure_}}));
    job_.join({line, next + ".A"});
    job_.tank.push_back(next + ".Y");
    line = next + ".B";
  }
  if (chance_.one_in(3)) {
    const bool lets_off = chance_.one_in(2);
    const std::string low = job_.put("V", lets_off ? "reducing" : "reducing_non_relieving",
                                     valve({{"setting", chance_.between(0.3, 0.7) * pressure_}}));
    const std::string back = through(low + ".A", "check", valve({}));
    job_.join({line, low + ".P", back});
    job_.tank.push_back(low + ".T");
    line = low + ".A";
  }
  if (chance_.one_in(2)) gauge(line);
  std::vector<std::string> clamping{line}, opening{v + ".B"};
  std::string first_clamp;
  for (int i = chance_.from_to(1, 4); i > 0; --i) {
    Sheet sheet = rated({{"clamp_area", chance_.between(2.0, 6.0) * si::cm2},
                         {"swing_stroke", 10 * si::mm},
                         {"clamp_stroke", 12 * si::mm},
                         {"gap", 6 * si::mm}});
    if (by_oil) {
      sheet.emplace_back("return", "oil");
      sheet.emplace_back("unclamp_area", 8 * si::cm2);
    }
    const std::string k = job_.put("K", "swing_clamp", sheet);
    clamping.push_back(k + ".A");
    opening.push_back(k + ".B");
    first_clamp = k;
  }
  if (chance_.one_in(2)) {
    const Sheet sheet = rated({{"capacity", chance_.between(3.0, 15.0) * si::kN},
                               {"capacity_pressure", std::max(pressure_, 50e5)}});
    clamping.push_back(job_.put("K", "work_support", sheet) + ".A");
  }
  job_.join(clamping);
  if (by_oil) job_.join(opening);
  step("clamp", {{v, quoted(by_oil ? "a" : "shifted")}}, chance_.between(1.5, 4.0));
  step("work", {}, chance_.between(0.5, 20.0));
  step("open", {{v, quoted(by_oil ? "b" : "rest")}}, 2.0);
  const std::string down = fmt::format("{}.position > {}", first_clamp, job_.bare(0.012, Quantity::length));
  reached(down, 4.0, "clamp");
  const std::string line_up =
      fmt::format("{} > {}", supply_ + ".pressure", job_.bare(0.2 * pressure_, Quantity::pressure));
  job_.require({{"first", quoted(line_up)}, {"then", quoted(down)}});
}

/// A short ram fed by an intensifier: one that goes to and fro by itself, or one stroke of a piston.
void Shop::intensified() {
  const std::string v = directional("directional_3_2");
  job_.join({supply_, v + ".P"});
  job_.tank.push_back(v + ".T");
  const double ratio = std::min(chance_.between(1.5, 4.0), 700 * si::bar / pressure_);
  const bool to_and_fro = chance_.one_in(2);
  std::string i, high;
  if (to_and_fro) {
    i = job_.put("I", "cycling_intensifier", valve({{"ratio", ratio}, {"high_flow", 0.1 * flow_}}));
    high = i + ".B";
    job_.join({v + ".A", i + ".A"});
  } else {
    const Sheet sheet{{"ratio", ratio},
                      {"plunger", 20 * si::mm},
                      {"stroke", 80 * si::mm},
                      {"spring_preload", 200.0},
                      {"spring_rate", 2000.0}};
    i = job_.put("I", "intensifier", sheet);
    high = i + ".B";
    const std::string fill = through(v + ".A", "check", valve({}));
    const std::string empty = job_.put("V", "pilot_operated_check", valve({{"ratio", 6.0}}));
    job_.join({v + ".A", i + ".A", empty + ".A"});
    job_.join({high, fill, empty + ".B"});
    job_.join({empty + ".X", supply_});
  }
  job_.tank.push_back(i + ".R");
  const std::string limit =
      job_.put("V", "relief", {{"setting", 1.1 * ratio * pressure_}, {"rated_flow", flow_}});
  job_.join({high, limit + ".P"});
  job_.tank.push_back(limit + ".T");
  const Ram ram = single_acting(0.2 * flow_, true);
  job_.join({high, ram.tag + ".A"});
  const Sheet seat{{"rate", ratio * pressure_ * ram.area / (2 * si::mm)}, {"free_travel", 0.5 * ram.stroke}};
  job_.join({ram.tag + ".rod", job_.put("S", "spring", seat) + ".rod"});
  step("clamp", {{v, quoted("shifted")}}, 2.0);
  step("open", {{v, quoted("rest")}}, 2.0);
  never_above(high + ".pressure", 1.3 * ratio * pressure_, Quantity::pressure);
}

/// A tool on couplings that springs back; trapped oil that the sun warms.
void Shop::coupled_tool() {
  const std::string cock = job_.put("V", "shut_off", valve({{"position", "shut"}}));
  const std::string back = job_.put("V", "shut_off", valve({{"position", "shut"}}));
  const std::string x = job_.put("X", "quick_coupling", valve({}));
  const Ram ram = single_acting(flow_, true);
  lay(supply_, cock + ".A");
  job_.join({cock + ".B", back + ".A", x + ".A"});
  job_.tank.push_back(back + ".B");
  lay(x + ".B", ram.tag + ".A");
  const bool warm = chance_.one_in(2);
  const std::string w = warm ? job_.put("W", "warmed_oil", {}) : "";
  if (warm) job_.join({w + ".A", ram.tag + ".A"});
  if (warm) relief_at(ram.tag + ".A", 1.3 * pressure_);
  load(ram, chance_.between(0.2, 0.6));
  step("spread", {{cock, quoted("open")}}, 1.5 * ram.time + 1.0);
  step("shut", {{cock, quoted("shut")}}, 1.0);
  if (warm) step("in the sun", {{w, job_.value(chance_.between(1.0, 6.0), Quantity::warming)}}, 60.0);
  step("let off", {{back, quoted("open")}}, 2.0 * ram.time + 1.0);
  if (chance_.one_in(2)) reached(past(ram, 0.5), 2.0 * ram.time + 1.0, "spread");
}

/// A ram that is worked from two places.
void Shop::either_place() {
  const std::string one = directional("directional_3_2"), other = directional("directional_3_2");
  job_.join({supply_, one + ".P", other + ".P"});
  for (const std::string& v : {one, other}) job_.tank.push_back(v + ".T");
  const std::string either = job_.put("V", "shuttle", valve({}));
  job_.join({one + ".A", either + ".A"});
  job_.join({other + ".A", either + ".B"});
  const Ram ram = single_acting(flow_, true);
  lay(either + ".C", ram.tag + ".A");
  const std::string s =
      job_.put("S", "pressure_switch", {{"setting", 0.6 * pressure_}, {"reset", 0.3 * pressure_}});
  job_.join({ram.tag + ".A", s + ".M"});
  step("from here", {{one, quoted("shifted")}}, 1.5 * ram.time + 0.5, chance_.one_in(3) ? s + " on" : "");
  step("back", {{one, quoted("rest")}}, 1.5);
  step("from there", {{other, quoted("shifted")}}, 1.5 * ram.time + 0.5);
  step("both", {{one, quoted("shifted")}, {other, quoted("rest")}}, 1.0);
  if (chance_.one_in(2))
    job_.control({{"when", quoted(s + " on")}, {"set", table_of({{one, quoted("rest")}})}});
}

Shop::Shop(int number)
    : chance_(0x5E75'0000'0000U + static_cast<std::uint64_t>(number)),
      job_(fmt::format("Sensible job {} (invented)", number), chance_.one_in(4), true) {}

MadeUpJob Shop::made() {
  oil();
  const int branches = chance_.of({1, 1, 2, 2, 3});
  alone_ = branches == 1;
  supply();
  start_step();
  for (branch_ = 1; branch_ <= branches; ++branch_) {
    constexpr std::array kinds{&Shop::held_jack,   &Shop::plain_jack,   &Shop::press,
                               &Shop::slide,       &Shop::winch,        &Shop::regenerative,
                               &Shop::pair,        &Shop::clamps,       &Shop::clamps,
                               &Shop::intensified, &Shop::coupled_tool, &Shop::either_place};
    (this->*chance_.any(kinds))();
  }
  job_.step({{"name", quoted("stop")}, {"set", table_of(stop_)}, {"lasts", time(chance_.between(0.5, 3.0))}});
  return std::move(job_);
}

MadeUpJob sensible(int number) { return Shop(number).made(); }

}  // namespace poise::made_up
