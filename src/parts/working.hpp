// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "quantity/quantity.hpp"

namespace poise {

/// The lowest and the highest that a value came to, SI.
struct Reach {
  double low = 0.0, high = 0.0;
  double greatest() const { return high > -low ? high : -low; }  ///< without its sign
};

/// What one part went through in a run, SI. Empty lists: the run showed nothing of it.
struct Duty {
  std::vector<Reach> pressure, flow;   ///< of each oil port in the order of the kind's; flow into the part
  std::vector<Reach> position, speed;  ///< of each motion port
  std::vector<Reach> output;           ///< of each output of its kind
  double duration = 0.0;               ///< s
};

/// A symbol of a formula with what it stands for and its value, SI.
struct Term {
  std::string symbol;   ///< as in the formula: "p_A"
  std::string meaning;  ///< "highest pressure at A"
  double value = 0.0;
  Quantity quantity = Quantity::none;
};

/// A calculation as it stands on paper. The formula is one equation in SI, "F = p_A · A_A", of its terms'
/// symbols, numbers, π, + − · /, brackets, √(…), ², ³ and powers such as ^0.5; it holds for the values as
/// they are.
struct Working {
  std::string name;  ///< what is worked out: "push at the highest pressure"
  std::string formula;
  std::vector<Term> terms;  ///< those to the right of the equals sign
  Term result;
  std::string source = "common practice";  ///< of the formula
};

}  // namespace poise
