// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "parts/series.hpp"
#include "quantity/quantity.hpp"

namespace poise {

/// How far off its stated value a value may be on the machine as built; both sides unsigned.
struct Tolerance {
  enum class Of {
    value,     ///< shares of the value itself
    rest,      ///< shares of what it lacks to 1: of the loss behind an efficiency
    absolute,  ///< SI
  };
  double below = 0.0, above = 0.0;
  Of of = Of::value;

  constexpr Tolerance() = default;
  /// The same share of the value to both sides.
  constexpr Tolerance(double share) : below(share), above(share) {}
  constexpr Tolerance(double down, double up, Of what = Of::value) : below(down), above(up), of(what) {}
  constexpr bool exact() const { return below == 0.0 && above == 0.0; }
  /// The value where it is off by `u` of what is allowed: −1 the lower end, 1 the upper one.
  constexpr double at(double value, double u) const {
    const double off = u < 0.0 ? u * below : u * above;
    if (of == Of::absolute) return value + off;
    return value + off * (of == Of::rest ? 1.0 - value : value);
  }
};

/// One line of a part's datasheet: declared once in its room, read by the parser, the reference and the
/// forms.
struct Parameter {
  std::string_view name;
  Quantity quantity = Quantity::none;
  std::optional<double> fallback;  ///< SI; none: the job may leave it out only where `optional` says so
  double low = 0.0, high = 0.0;    ///< closed range, SI; outside it the value is refused
  std::string_view meaning;
  std::string_view source = "common practice";
  std::span<const std::string_view>
      words{};                 ///< if not empty the value is one of these words (stored as its index)
  bool set_by_steps = false;   ///< a step of the job may change it while the machine runs
  bool no_half_way = false;    ///< its words are positions with nothing between them
  bool optional = false;       ///< may be left out although it has no fallback
  std::string_view instead{};  ///< may be left out where the parameter of this name is given
  /// If set, the value is a curve of the datasheet: points of (`quantity`, `against`), the first rising; low
  /// and high bound the first.
  std::optional<Quantity> against{};
  std::size_t fewest_points = 2;
  bool rising = true;     ///< whether the first values must rise; places of points need not
  bool adjusted = false;  ///< a setting: people bring it to any value on the machine
  Series series =
      Series::general;    ///< the sizes that it is made in, where it is neither a setting nor a word
  Tolerance tolerance{};  ///< of the part as fitted, where neither its list nor the job says more
};

/// A point of a datasheet's curve, SI.
struct CurvePoint {
  double x = 0.0, y = 0.0;
};
using Points = std::vector<CurvePoint>;

enum class Domain { oil, motion };

/// Where a part is joined to others. Oil ports come before motion ports in a part's list.
struct Port {
  std::string_view name;
  Domain domain = Domain::oil;
  std::string_view meaning;
  bool may_stay_free = false;              ///< an unconnected rod, or a port that is plugged in the shop
  std::string_view needed_if_parameter{};  ///< if set, the port exists only while this parameter ...
  int needed_if_word = 0;                  ///< ... has this word, or a list parameter more points than this
  bool pilot = false;                      ///< a pilot or drain line: drawn dashed
  bool turns = false;                      ///< a motion port that turns: positions are angles, forces torques
};

/// A state of a part beside its motion, with the size below which its changes are noise.
struct State {
  std::string_view name;
  double noise = 1e-5;
  std::string_view meaning;
  Quantity quantity = Quantity::share;
};

/// Something a part reports beside its ports and motion, such as the force at a clamp's arm.
struct Output {
  std::string_view name;
  Quantity quantity = Quantity::none;
  std::string_view meaning;
};

/// A two-way state that a part keeps until something turns it: a tripped valve, a made contact.
struct Mode {
  std::string_view name;
  std::string_view meaning;
  std::string_view on, off;  ///< "trips", "opens again": what the part does as it turns
};

/// How a fault usually comes about; common practice, after the habits of the trade: slowly comes what wears
/// and clogs; suddenly what sticks, bursts or fails; after work things are set wrong, exchanged, left open
/// and full of air; in the cold oil is thick.
enum class Comes { slowly, suddenly, after_work, in_the_cold };

/// A way in which a part goes wrong, as a change of one of its parameters; a range from slight to grave.
struct Fault {
  enum class Change { times, plus, becomes };
  std::string_view name;      ///< "seat leaks"
  std::string_view sentence;  ///< what is behind it and what the machine shows
  std::string_view parameter;
  Change change = Change::times;
  double slight = 1.0, grave = 1.0;  ///< factor, SI difference or SI value
  std::string_view source = "common practice";
  Comes comes = Comes::slowly;
};

/// What a practitioner keeps to with this part.
struct Rule {
  std::string_view name;  ///< "relief above work"
  std::string_view sentence;
  std::string_view source = "common practice";
};

/// How a setting of a part is brought to its value on the machine.
struct Adjusting {
  /// The order in which a machine's settings are made; common practice.
  enum class Turn { precharge, relief, pump, reducing, sequence, flow, load_holding, contact };
  std::string_view parameter;  ///< the setting
  Turn turn = Turn::relief;
  std::string_view port{};   ///< whose pressure tells; empty: no gauge tells, a stop-watch or the turns do
  std::string_view begin{};  ///< where it stands before oil is let in: "fully open"
  std::string_view while_setting{};  ///< the state of the machine in which it is set and read
  enum class Safe { neither, lower, higher };
  Safe safe = Safe::neither;  ///< the side to which it may be rounded and may drift
  std::string_view source = "common practice";
};

/// What has to be looked at again and again as long as the machine lives.
struct Care {
  std::string_view what;      ///< "Look at the cover for cuts, blisters and rubbed places"
  std::string_view interval;  ///< "before each shift", "every year"
  std::string_view limit;     ///< what is still good, or what to do: "replace after 6 years"
  std::string_view source = "common practice";
};

/// Something that happens to a part at a moment, located by the engine where a value passes zero going up.
struct Happening {
  std::string_view sentence;  ///< "reaches the end of its stroke"
};

/// What a part means to the circuit around it, for what can be seen without running it.
enum class Role {
  none,
  source,          ///< presses oil out of its second port
  pressure_limit,  ///< lets oil off from its first port to its second above a setting
  one_way,         ///< lets oil pass from its first port to its second only
  line,            ///< always open between its ports
  actuator,        ///< what the oil is there for: it moves something
  reservoir,       ///< holds the oil that is not in the circuit
};

/// How a part gives heat to its surroundings, and what of it gets warm with the oil.
struct HeatPath {
  double conductance = 0.0;   ///< W/K
  double surroundings = 0.0;  ///< K
  double capacity = 0.0;      ///< J/K of the steel that gets as warm as the oil
};

/// What a room says of itself in the reference.
struct About {
  std::string_view kind;
  std::string_view sentence;
  std::string_view law;     ///< the equation with signs, in the words of the parameters
  std::string_view source;  ///< of the law
  Role role = Role::none;
  std::string_view
      ramp{};  ///< name of the parameter that says how long a commanded change takes; empty: at once
  /// The data that stand beside the symbol, line by line: "{bore}/{rod} × {stroke}". In braces a parameter
  /// with its unit (once where the next one has the same), "name.first" the first value of a curve, or "note"
  /// and "oil" of the job. What stands in brackets is left out where one of its values is not given; behind a
  /// bar, what stands there instead.
  std::string_view beside{};
};

/// The values of one part's parameters, SI, in the order of its table; words as indices; of a curve the
/// number of its points; NaN where an optional one was left out.
class Values {
 public:
  Values(std::span<const Parameter> table, std::vector<double> numbers)
      : table_(table), numbers_(std::move(numbers)) {}
  /// Overwrites one value.
  void set(int index, double value) { numbers_[index] = value; }
  /// Puts a curve in its place.
  void set_points(int index, Points points);
  /// The value by name; the name must be in the table.
  double operator[](std::string_view name) const;
  bool given(std::string_view name) const;
  int word(std::string_view name) const { return static_cast<int>((*this)[name]); }
  /// The points of a curve; none where it was left out.
  std::span<const CurvePoint> points(std::string_view name) const;
  std::span<const double> all() const { return numbers_; }
  std::span<const Parameter> table() const { return table_; }

 private:
  std::span<const Parameter> table_;
  std::vector<double> numbers_;
  std::vector<std::pair<int, Points>> curves_;
};

/// A datasheet's curve beside what the part's law makes of it.
struct CurveFit {
  std::string_view parameter;
  struct Row {
    double x, given, fitted;
  };
  std::vector<Row> rows;
  /// Greatest |fitted − given| as a share of the greatest |given|.
  double worst() const;
};

/// Index of a parameter in a table, or none.
std::optional<int> find_parameter(std::span<const Parameter> table, std::string_view name);

/// A sentence about values of one part that do not go together, and which parameter to blame.
struct Mismatch {
  std::string_view parameter;
  std::string sentence;
};

inline constexpr double no_limit = std::numeric_limits<double>::infinity();

}  // namespace poise
