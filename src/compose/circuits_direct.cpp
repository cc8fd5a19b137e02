// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Direct: the valve that works each branch, and what it does in each step.
#include <fmt/format.h>

#include <algorithm>

#include "compose/circuits_blocks.hpp"

namespace poise::compose {
namespace {

using Valve = Branch::Valve;

struct Words {
  std::string_view out, in, hold, rest;
};
Words words_of(Valve valve) {
  if (valve == Valve::holds_in_centre) return {"a", "b", "centre", "centre"};
  if (valve == Valve::holds_pressed) return {"a", "b", "a", "centre"};
  if (valve == Valve::two_positions) return {"b", "a", "b", "b"};
  return {"shut", "open", "shut", "shut"};
}

double return_flow(const Making& making, const Branch& branch) {
  double ratio = 1.0;
  for (const int m : branch.members()) {
    const Actuator& a = making.actuator(m);
    if (a.both) ratio = std::max(ratio, a.area_a / a.area_b);
  }
  return ratio * making.wanted.flow;
}

void lay_lines(Making& making, Branch& branch, const std::string& out, const std::string& back) {
  making.lay_hose(out, branch.ends.front().port, return_flow(making, branch));
  if (branch.backs.empty()) {
    making.plug(back);
    return;
  }
  making.lay_hose(back, branch.backs.front(), making.wanted.flow);
  if (branch.backs.size() > 1) making.join(branch.backs);
}

void put_three_positions(Making& making, Branch& branch) {
  const bool centre_holds = branch.valve_kind == Valve::holds_in_centre;
  const bool alone = making.branches.size() == 1 && making.pump != Making::Pump::stops;
  const std::string names = making.wanted.names(branch.members());
  const std::string_view centre = !centre_holds ? "closed" : alone ? "open" : "float";
  PartValues values{{"centre", text(std::string(centre))}};
  if (centre == "open") values.emplace_back("overlap", text("-30 %"));
  // As it goes to its centre the pump is still running out.
  if (centre == "float") values.emplace_back("shift_time", text("0.4 s"));
  values.emplace_back("rated_flow", text(making.rated_flow(return_flow(making, branch))));
  values.emplace_back("rated_pressure", text(making.rated_pressure()));
  branch.valve = making.add("directional_4_3", fmt::format("a: {} out, b: in", names), std::move(values));
  lay_lines(making, branch, branch.valve + ".A", branch.valve + ".B");
  branch.supply = branch.valve + ".P";
  making.to_tank(branch.valve + ".T");
  making.because(
      branch.valve, "direct",
      !centre_holds
          ? fmt::format(
                "{} moves {}; its centre, where it goes without current, shuts all: nothing comes out and "
                "nothing opens{}",
                branch.valve, names,
                branch.let_off.empty() ? "" : "; from there pressed oil is let off first")
      : alone
          ? fmt::format(
                "{} moves {}; its centre lets both lines go to tank, so that what holds shuts, and the "
                "pump idles",
                branch.valve, names)
          : fmt::format("{} moves {}; its centre lets both lines go to tank, so that what holds shuts, and "
                        "shuts the pump off, which stands or works for others",
                        branch.valve, names));
}

void put_two_positions(Making& making, Branch& branch) {
  const std::string names = making.wanted.names(branch.members());
  branch.valve = making.add("directional_4_2", fmt::format("b, at rest: {} out; a: in", names),
                            {{"overlap", text("20 %")},
                             {"rated_flow", text(making.rated_flow(return_flow(making, branch)))},
                             {"rated_pressure", text(making.rated_pressure())}});
  lay_lines(making, branch, branch.valve + ".B", branch.valve + ".A");
  branch.supply = branch.valve + ".P";
  making.to_tank(branch.valve + ".T");
  making.because(branch.valve, "direct",
                 fmt::format("{} presses {} at rest: without current nothing opens", branch.valve, names));
}

void put_lowering(Making& making, Branch& branch) {
  const Actuator& a = making.actuator(branch.members().front());
  const std::string check = making.add("check", fmt::format("holds {} while the pump stands", a.tag),
                                       {{"rated_flow", text(making.rated_flow(making.wanted.flow))},
                                        {"rated_pressure", text(making.rated_pressure())}});
  branch.valve =
      making.add("directional_2_2", fmt::format("lets {} down; a poppet valve, shut without current", a.tag),
                 {{"shift_time", text("0.4 s")},
                  {"rated_flow", text(making.rated_flow(making.wanted.flow))},
                  {"rated_pressure", text(making.rated_pressure())}});
  making.lay_hose(check + ".B", branch.ends.front().port, making.wanted.flow);
  making.join({check + ".B", branch.valve + ".P"});
  const std::string asked = a.in_limit_for.empty() ? std::string("nothing else limits how fast it comes down")
                                                   : fmt::format("\"{}\" asks for it", a.in_limit_for);
  making.to_tank(meter_at(making, branch.valve + ".A", Metered::coming_back, a.area_a * lowering_speed(a),
                          std::max(a.weight / a.area_a, 5 * si::bar),
                          fmt::format("it sets how fast {} comes down: {}", a.tag, asked)));
  branch.supply = check + ".A";
  making.because(check, "hold", fmt::format("{} holds {} while the pump stands", check, a.tag));
  making.because(branch.valve, "direct",
                 fmt::format("{} lets {} down by its weight; the pump only lifts", branch.valve, a.tag));
}

/// What the valve is told in each run step, where that changes.
void command(Making& making, const Branch& branch, int number) {
  const Words words = words_of(branch.valve_kind);
  std::string_view now = words.rest;
  bool moved = false;
  for (std::size_t i = 0; i < making.steps.size(); ++i) {
    // Before anything has moved no pump runs; from then on what rests must be told to.
    const bool any_out =
        std::ranges::any_of(making.branches, [&](const Branch& other) { return other.goes[i] != Goes::in; });
    const bool three = branch.valve_kind != Valve::two_positions;
    moved = moved || (three ? branch.goes[i] != Goes::in : any_out);
    if (!moved) continue;
    std::string_view wants = branch.goes[i] == Goes::out  ? words.out
                             : branch.goes[i] == Goes::in ? words.in
                                                          : words.hold;
    if (making.steps[i].lets_off == number) wants = "centre";
    if (wants == now) continue;
    making.steps[i].set.emplace_back(branch.valve, wants);
    now = wants;
  }
}

}  // namespace

void block_idle(Making& making, int way) {
  if (way == 1) making.pump = Making::Pump::stops;
}

void block_direct(Making& making, int) {
  for (Branch& branch : making.branches) {
    if (branch.ends.size() > 1) {
      std::vector<std::string> ports;
      for (const End& end : branch.ends) ports.push_back(end.port);
      making.join(ports);
    }
    if (branch.valve_kind == Valve::lowers) {
      put_lowering(making, branch);
    } else if (branch.valve_kind == Valve::two_positions) {
      put_two_positions(making, branch);
    } else {
      put_three_positions(making, branch);
    }
  }
  for (std::size_t b = 0; b < making.branches.size(); ++b)
    command(making, making.branches[b], static_cast<int>(b));
}

}  // namespace poise::compose
