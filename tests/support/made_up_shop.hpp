// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "support/chance.hpp"
#include "support/made_up_job.hpp"

namespace poise::made_up {

/// Puts a sensible job together: a supply, then branches one after another, each with its steps and what must
/// hold. Sizes follow from each other as a practitioner would choose them: bores from flow and time, loads
/// from bores and pressure, valves from flow (common practice).
class Shop {
 public:
  explicit Shop(int number);
  MadeUpJob made();

 private:
  using Lines = MadeUpJob::Lines;
  struct Ram {
    std::string tag;
    double area = 0.0, stroke = 0.0, time = 0.0;  ///< time: for the stroke with the whole flow
  };

  // The supply (made_up_supply.cpp): each leaves `supply_`, `start_` and `stop_`.
  void oil();
  void supply();
  void motor_pump();
  void two_stage();
  void compensated();
  void from_air();
  void by_hand();
  void on_a_shaft();
  void high_and_low();
  void relief_at(const std::string& port, double setting);
  void conditioning();
  void store();
  void start_step();

  // Branches (made_up_branches.cpp, made_up_clamping.cpp): from the supply through a valve to what moves.
  void held_jack();
  void plain_jack();
  void press();
  void slide();
  void regenerative();
  void winch();
  void pair();
  void clamps();
  void intensified();
  void coupled_tool();
  void either_place();

  // Pieces (made_up_pieces.cpp).
  Sheet valve(Sheet sheet, double flow = 0.0);
  Sheet rated(Sheet sheet);
  std::string directional(std::string_view kind, Sheet sheet = {});
  std::string_view centre();
  void lay(const std::string& from, const std::string& to);
  std::string through(const std::string& from, std::string_view kind, const Sheet& sheet);
  std::string metered(const std::string& from, bool towards_ram);
  void gauge(const std::string& port);
  Ram single_acting(double flow, bool spring_return);
  Ram double_acting(double flow);
  void load(const Ram& ram, double share);
  void step(const std::string& name, const Lines& set, double time, const std::string& until = {});
  void never_above(const std::string& signal, double limit, Quantity quantity);
  void reached(const std::string& condition, double within, const std::string& step);
  std::string past(const Ram& ram, double share) const;
  std::string before(const Ram& ram, double share) const;
  std::string time(double seconds) const { return job_.value(seconds, Quantity::time); }

  Chance chance_;
  MadeUpJob job_;
  double pressure_ = 0.0, flow_ = 0.0;  ///< what the supply gives
  bool alone_ = true;                   ///< one branch: its valve may idle the pump in its centre
  std::string supply_;
  Lines start_, stop_;
  double start_time_ = 1.0;
  int branch_ = 0;
};

}  // namespace poise::made_up
