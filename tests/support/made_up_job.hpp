// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "circuit/plan.hpp"
#include "units/units.hpp"

namespace poise::made_up {

/// What stands behind a parameter's name: SI, a word, or the points of a curve.
using Said = std::variant<double, std::string_view, Points>;
using Sheet = std::vector<std::pair<std::string_view, Said>>;

/// A job while it is made up: what its text says, and the parts that the text must be read as. Throws
/// std::logic_error where a name of a parameter or word is none of its kind's.
class MadeUpJob {
 public:
  /// `tidy`: numbers have four figures, as people write them.
  MadeUpJob(std::string title, bool us, bool tidy);

  Plan plan;                              ///< parts with their values; joints stand in the text alone
  std::vector<std::string> tank{"T1.T"};  ///< ports that are joined to the reservoir

  /// Adds a part under the next free tag of a letter, and gives that tag.
  std::string put(std::string_view letter, std::string_view kind, const Sheet& sheet);
  /// The same for a hose or tube, which stands in its line instead of among the parts.
  std::string line(std::string_view letter, std::string_view kind, const std::string& from,
                   const std::string& to, const Sheet& sheet);
  void add(const std::string& tag, const Kind& kind, Sheet sheet, bool in_a_line = false);
  void join(std::vector<std::string> ports) { groups_.push_back(std::move(ports)); }
  void plug(std::string port) { plugged_.push_back(std::move(port)); }
  void oil(std::string_view key, Said said);

  /// A value as the job writes it: in quotation marks with the unit of its world, or a plain number.
  std::string value(double si, Quantity quantity) const;
  /// The same without quotation marks, for conditions.
  std::string bare(double si, Quantity quantity) const;

  using Lines = std::vector<std::pair<std::string, std::string>>;  ///< key, and what stands behind "="
  void step(Lines lines) { steps_.push_back(std::move(lines)); }
  void control(Lines lines) { controls_.push_back(std::move(lines)); }
  void require(Lines lines) { requirements_.push_back(std::move(lines)); }
  std::size_t steps() const { return steps_.size(); }

  std::string text() const;

 private:
  struct Conduit {
    std::string kind, from, to, tag;
  };
  std::string sheet_in_words(int part, std::string_view between) const;
  std::string said_in_words(const Parameter& parameter, const Said& said) const;

  double tidied(double si, Quantity quantity) const;

  std::string title_;
  bool us_, tidy_;
  units::World world_;
  std::vector<Sheet> sheets_;  ///< one for each part
  std::vector<bool> in_a_line_;
  std::vector<Conduit> conduits_;
  std::vector<std::vector<std::string>> groups_;
  std::vector<std::string> plugged_;
  Sheet oil_;
  std::vector<Lines> steps_, controls_, requirements_;
  int made_ = 0;
};

/// The values of a part as its text is read: what is stated, and the defaults.
Values values_of(const Kind& kind, const Sheet& sheet);

std::string quoted(std::string_view text);
/// `["a", "b"]`, or the text alone where there is one.
std::string listed(const std::vector<std::string>& texts);
/// `{ V1 = "a", P1 = "on" }` of keys and what stands behind them; keys with a dot in quotation marks.
std::string table_of(const MadeUpJob::Lines& entries);

/// A job that a practitioner might draw, and one that the reader lets through and nobody would: each a
/// function of its number alone.
MadeUpJob sensible(int number);
MadeUpJob perverse(int number);

}  // namespace poise::made_up
