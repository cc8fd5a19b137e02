// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "parts/laws.hpp"
#include "parts/table.hpp"
#include "parts/working.hpp"

/// What rooms write their calculations with. A number that nothing is known of is NaN, and a calculation with
/// one in it is left out: rooms need not ask first.
namespace poise::worked {

/// What a run showed of a part, each value at its own moment, SI; NaN where it showed nothing.
class Seen {
 public:
  explicit Seen(const Duty& duty) : duty_(duty) {}
  double highest(int port) const;   ///< pressure at an oil port, NaN too where it was never above zero
  double lowest(int port) const;    ///< pressure at an oil port
  double into(int port) const;      ///< greatest flow into the part, NaN too where none went in
  double out_of(int port) const;    ///< greatest flow out of it, NaN too where none came out
  double through(int port) const;   ///< the greater of both
  double farthest(int port) const;  ///< highest position of a motion port
  double nearest(int port) const;   ///< lowest position of a motion port
  double fastest(int port) const;   ///< greatest speed of a motion port, without its sign
  double output(int index) const;   ///< highest of an output, NaN too where it was never above zero

 private:
  const Duty& duty_;
};

/// Adds a calculation if all its numbers are known.
void add(std::vector<Working>& all, Working working);

/// The value if it is above zero, else NaN.
double above_zero(double value);

/// The right side of an equation with its terms, what it comes to, and where it is from.
struct Expression {
  std::string formula;
  std::vector<Term> terms;
  double value;
  std::string source;
};

/// The flow that a drop is worked out for.
struct Flow {
  double value;
  std::string meaning = "greatest flow";
};

/// What the restriction of a part with `rated_flow`, `pressure_drop`, `drop_curve` and `measured_viscosity`
/// takes of a flow, fully open.
Expression drop_of(const Values& v, const Oil& oil, const Flow& flow);
/// The same of a restriction through one point, the rated flow and the drop there.
Expression drop_through(double rated_flow, double rated_drop, const Flow& flow);
/// Δp = a·Q² + b·Q with coefficients that something else has given.
Expression drop_with(const Restriction& open, const Flow& flow, const std::string& coefficients,
                     std::string source);

/// Δp of that expression as a calculation.
void add_drop(std::vector<Working>& all, std::string name, Expression drop);

/// A valve that opens in proportion over a band: where it stands with a flow over it at rest.
struct Band {
  double cracking, band;  ///< Pa
  std::string cracking_meaning = "cracking pressure", band_meaning = "rise from cracking to fully open";
};
/// The pressure over it and its opening: two equations that hold together, or the drop alone where it is
/// fully open. Returns the pressure.
double add_opening(std::vector<Working>& all, const std::string& name, const Band& valve,
                   const Restriction& open, const Expression& drop);

}  // namespace poise::worked
