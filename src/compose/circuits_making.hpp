// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compose/circuits.hpp"
#include "compose/circuits_wanted.hpp"
#include "job/edit.hpp"

namespace poise::compose {

using PartValues = job::Written::Table;

/// One step of the cycle as the circuit runs it: a step of the job, or one put in before it.
struct RunStep {
  int step = 0;                    ///< of the job; of one that was put in, the step that it comes before
  std::string name;                ///< empty: the job's own
  std::string lasts;               ///< of one that was put in
  std::vector<std::string> until;  ///< of one that was put in, instead
  int lets_off = -1;               ///< the branch whose pressed oil it lets off
  std::vector<std::pair<std::string, std::string>> set{};  ///< what it changes, in order

  bool is_own() const { return name.empty(); }
};

/// A port that oil gets to some actuators by.
struct End {
  std::vector<int> members;  ///< of Wanted::actuators
  std::string port;
};

/// Actuators that one valve works, on their way from their ports back to the pump. What is put in stands
/// between the ends and the pump; then its own port is the end.
struct Branch {
  const Group* group = nullptr;
  std::vector<std::vector<int>> stages;  ///< members of the group, one stage after the other
  std::vector<End> ends{};               ///< where they are pressed from
  std::vector<std::string> backs{};      ///< ports at B, and pilots: they get oil when it goes back
  std::vector<Goes> goes{};              ///< in each run step
  /// What the valve that works it is to be: of three positions, its centre for holding or not; of two; or one
  /// that only lowers.
  enum class Valve {
    holds_in_centre,
    holds_pressed,
    two_positions,
    lowers
  } valve_kind = Valve::two_positions;
  std::string valve{};      ///< its tag, once it is there
  std::string supply{};     ///< the port that the pump feeds
  std::string let_off{};    ///< tag of the valve that lets pressed oil off
  bool is_checked = false;  ///< whether a check stands ahead of its valve

  std::vector<int> members() const;
};

/// The circuit in the making.
class Making {
 public:
  Making(const Wanted& what, std::vector<int> ways);

  const Wanted& wanted;
  std::vector<Branch> branches;
  std::vector<RunStep> steps;
  std::vector<BlockReason> reasons;

  /// Which of its ways a block is to take.
  int way_of(std::string_view block) const;
  const Actuator& actuator(int member) const { return wanted.actuators[member]; }
  /// Puts a step in before a run step; all stands then as it does in the run step `like`.
  void put_step(std::size_t before, RunStep step, std::size_t like);

  /// Adds a part; its tag is the next free one of its kind.
  std::string add(std::string_view kind, std::string_view note, PartValues values);
  /// Joins ports, the first of them named first.
  void join(std::vector<std::string> ports);
  /// Joins two by a hose of a bore that suits the flow.
  void lay_hose(const std::string& from, const std::string& to, double flow);
  void plug(const std::string& port) { plugged.push_back(port); }
  void to_tank(const std::string& port) { tank_.push_back(port); }
  void because(const std::string& tag, std::string_view block, std::string sentence);
  void control(std::string when, std::string tag, std::string value);

  /// What a valve of this circuit is rated for, as it is written.
  std::string rated_flow(double flow) const;
  std::string rated_pressure() const;
  std::string dial(double reads) const;
  /// A value in the job's unit, to two figures; upwards or downwards where asked.
  std::string say(double value, Quantity quantity, int towards = 0) const;
  /// A volume in whole litres, or gallons, upwards.
  std::string say_litres(double volume) const;
  /// The pressure that the circuit is to work with, Pa: enough for the strongest, and some to spare.
  double main() const;
  /// A gauge on the line of a port; the sentence goes on behind its tag.
  void gauge_at(const std::string& port, const std::string& note, std::string sentence,
                std::string_view block, double reads = 0.0);
  /// A needle, shut, from a line to tank: what a hand opens to let shut-in oil off. Its tag.
  std::string needle_to_tank(const std::string& port, const std::string& note);
  /// The bore of a round hole that passes a flow, m3/s, of the job's oil at a drop, Pa, with this share of
  /// its area open (`Orifice`).
  double bore_passing(double flow, double drop, double open) const;
  /// A relief valve for oil that is shut in; above the main one, below what the weakest part bears.
  void guard(const std::string& port, const std::string& note, std::string sentence);
  void finish();  ///< joins what goes to tank

  struct Part {
    std::string tag;
    std::string_view kind;
    PartValues values;  ///< kind and note first
  };
  struct Line {
    std::vector<std::string> ports;
    PartValues hose{};
    std::string tag{};
  };
  struct Control {
    std::string when, tag, value;
  };
  std::vector<Part> parts;
  std::vector<Line> lines;
  std::vector<std::string> plugged;
  std::vector<Control> controls;
  std::string tank;  ///< the reservoir's port
  /// What the pump is to do: run on and idle or hold its pressure; stop where nothing moves; or stop by a
  /// switch as well.
  enum class Pump { runs_on, holds_pressure, stops } pump = Pump::runs_on;

 private:
  std::string next_tag_of(std::string_view kind) const;
  std::vector<int> ways_;
  std::vector<std::string> tank_;
};

/// "find": what the search works out.
inline const job::Written to_find{std::string("find")};
inline job::Written text(std::string value) { return {std::move(value)}; }

}  // namespace poise::compose
