// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Any circuit put together at random is drawn by the rules (RapidCheck, fixed seed).
#include <gtest/gtest.h>

// RapidCheck needs GoogleTest before it.
#include <rapidcheck/gtest.h>

#include <string>
#include <vector>

#include "support/drawn_job.hpp"
#include "support/workshop.hpp"

namespace poise::drawing {
namespace {

using workshop::Bench;

int one_of(int kinds) { return *rc::gen::inRange(0, kinds); }

/// Puts parts on a bench one after another and gives each its tag.
class Assembler {
 public:
  Bench bench;
  std::vector<std::string> pilots;  ///< pilot ports that want a line

  std::string put(const std::string& letter, std::string_view kind, Bench::Numbers numbers) {
    const std::string tag = letter + std::to_string(++parts_);
    bench.part(tag, kind, numbers);
    return tag;
  }

  /// One part that oil passes through, either way round; its far port.
  std::string pass(const std::string& from) {
    const bool backwards = one_of(4) == 0;
    std::string tag;
    switch (one_of(6)) {
      case 0:
        tag = put("V", "check", {{"rated_flow", 1e-4}});
        break;
      case 1:
        tag = put("N", "needle", {{"bore", 1e-3}, {"turns", 2.0}});
        break;
      case 2:
        tag = put("H", "hose", {{"bore", 8e-3}, {"length", 1.0}});
        break;
      case 3:
        tag = put("V", "one_way_flow_control", {{"bore", 1e-3}, {"turns", 2.0}, {"rated_flow", 1e-4}});
        break;
      case 4:
        tag = put("V", "shut_off", {{"rated_flow", 1e-4}});
        break;
      default:
        tag = put("V", "pilot_operated_check", {{"ratio", 4.0}, {"rated_flow", 1e-4}});
        pilots.push_back(tag + ".X");
    }
    bench.join({from, tag + (backwards ? ".B" : ".A")});
    return tag + (backwards ? ".A" : ".B");
  }

  void gauge_on(const std::string& port) { bench.join({port, put("G", "gauge", {{"range", 250e5}}) + ".M"}); }
  void limit(const std::string& port) {
    const std::string tag = put("V", "relief", {{"setting", 1e7}, {"rated_flow", 1e-4}});
    bench.join({port, tag + ".P"});
    bench.join({tag + ".T", "T1.T"});
  }

  /// A cylinder, with a load or without, on one line or between two.
  void actuator(const std::string& a, const std::string& b) {
    std::string tag;
    if (b.empty()) {
      tag = put("C", "single_acting_cylinder", {{"bore", 0.05}, {"stroke", 0.1}});
    } else {
      tag = put("C", "double_acting_cylinder", {{"bore", 0.05}, {"rod", 0.03}, {"stroke", 0.1}});
      bench.join({b, tag + ".B"});
    }
    bench.join({a, tag + ".A"});
    const int loads = one_of(3);
    if (loads > 0) bench.join({tag + ".rod", put("M", "mass", {{"mass", 100.0}}) + ".rod"});
    if (loads > 1) bench.join({tag + ".rod", put("S", "spring", {{"rate", 1e6}}) + ".rod"});
  }

  /// A way from a port through some parts, with what hangs on it.
  std::string way(std::string from) {
    for (int i = one_of(4); i > 0; --i) {
      from = pass(from);
      if (one_of(5) == 0) gauge_on(from);
      if (one_of(8) == 0) limit(from);
    }
    return from;
  }

  void branch(const std::string& supply) {
    const std::string from = way(supply);
    switch (one_of(4)) {
      case 0:
        bench.join({from, "T1.T"});
        break;
      case 1:
        actuator(from, "");
        break;
      case 2: {  // several on one line
        for (int i = 1 + one_of(4); i > 0; --i) actuator(from, "");
        break;
      }
      default: {
        const std::string tag = put("V", "directional_4_3", {{"centre", 0.0}, {"rated_flow", 1e-4}});
        bench.join({from, tag + ".P"});
        bench.join({tag + ".T", "T1.T"});
        const std::string a = way(tag + ".A"), b = way(tag + ".B");
        for (int i = 1 + one_of(2); i > 0; --i) actuator(a, b);
        while (!pilots.empty() && one_of(3) > 0) {
          bench.join({pilots.back(), tag + ".B"});
          pilots.pop_back();
        }
      }
    }
  }

 private:
  int parts_ = 0;
};

Plan random_plan() {
  Assembler a;
  a.bench.part("T1", "reservoir", {{"usable_oil", 0.02}});
  a.bench.part("P1", "pump", {{"flow", 1e-4}, {"rated_pressure", 2.5e7}});
  a.bench.join({"T1.T", "P1.S"});
  a.limit("P1.P");
  const std::string supply = a.way("P1.P");
  for (int i = 1 + one_of(6); i > 0; --i) a.branch(supply);
  for (const std::string& pilot : a.pilots) a.bench.join({pilot, supply});
  return a.bench.plan;
}

RC_GTEST_PROP(random_drawings, keep_every_rule, ()) {
  const Arranged job(random_plan());
  const std::string wrong = listed(broken_rules(job.drawn()));
  RC_LOG(wrong);
  RC_ASSERT(wrong.empty());
}

RC_GTEST_PROP(random_drawings, keep_every_rule_with_parts_in_enclosures, ()) {
  Plan plan = random_plan();
  std::vector<draw::Wish> wishes(plan.parts.size());
  const int assemblies = 1 + one_of(2);
  for (draw::Wish& wish : wishes) {
    const int which = one_of(4);
    if (which < assemblies) wish.assembly = which == 0 ? "Unit" : "Block";
  }
  for (const Joint& j : plan.joints) {  // a load goes where its rod goes
    if (plan.port(j.a).domain != Domain::motion) continue;
    const bool load_first = plan.parts[j.a.part].kind->oil_ports == 0;
    (load_first ? wishes[j.a.part] : wishes[j.b.part]) = load_first ? wishes[j.b.part] : wishes[j.a.part];
  }
  const Arranged job(std::move(plan), std::move(wishes));
  const std::string wrong = listed(broken_rules(job.drawn()));
  RC_LOG(wrong);
  RC_ASSERT(wrong.empty());
}

RC_GTEST_PROP(random_drawings, keep_every_rule_with_a_part_placed_by_hand, ()) {
  Plan plan = random_plan();
  const int part = one_of(static_cast<int>(plan.parts.size()));
  std::vector<draw::Wish> wishes(plan.parts.size());
  wishes[part].at = draw::Point{static_cast<double>(one_of(80)), static_cast<double>(one_of(80))};
  const draw::Point wanted = *wishes[part].at;
  const Arranged job(std::move(plan), std::move(wishes));
  const std::string wrong = listed(broken_rules(job.drawn()));
  RC_LOG(wrong);
  RC_ASSERT(wrong.empty());
  RC_ASSERT(job.schematic.symbols[part].at == wanted || !job.schematic.remarks.empty());
}

}  // namespace
}  // namespace poise::drawing
