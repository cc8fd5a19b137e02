// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "units/units.hpp"

namespace poise::papers {

/// One place of a table: words, or a value with its unit.
struct Cell {
  std::string text{};              ///< as it stands on paper: "210 bar", "Relief valve, direct"
  std::optional<double> number{};  ///< the value in `unit`, not rounded
  std::string unit{};              ///< as the job file writes it: "bar", "cm3"; empty of a count
};

struct Column {
  std::string head;
  double width = 1.0;     ///< compared with the other columns
  bool measured = false;  ///< holds values: on the right on paper, number and unit apart in a list
  bool counted = false;   ///< of a measured one: its values have no unit, so that it stays one column there
};

/// A table of a paper, which is also written as a list for other programs. Every row has a cell for each
/// column.
struct Table {
  std::string name;
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;
};

/// A result in three figures with its unit as paper shows it, "12.0 cm³".
Cell measured(double value, Quantity quantity, const units::World& world);
/// The same of a value that a run showed: what a circuit at rest creeps by is 0.
Cell seen(double value, Quantity quantity, const units::World& world);
/// A value that the job states, in as many figures as it has there: up to four, more come of another unit and
/// are told in three.
Cell stated(double value, Quantity quantity, const units::World& world);

}  // namespace poise::papers
