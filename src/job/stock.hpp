// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "circuit/plan.hpp"
#include "units/units.hpp"

namespace poise {

/// From where to where a setting of an item can be brought, SI.
struct AdjustableRange {
  int parameter = 0;  ///< place in the table of its kind
  double from = 0.0, to = 0.0;
};

/// One line of a parts list: what can be ordered under one name.
struct StockItem {
  std::string model;  ///< its name; no other item of a job's lists has it
  const Kind* kind;
  double cost = 0.0;  ///< in the list's own currency
  std::string note{};
  Values given;  ///< what the list states; NaN where it states nothing, defaults are not filled in
  std::vector<AdjustableRange> adjustable{};
  std::vector<std::pair<int, Tolerance>>
      tolerances{};    ///< by place in the table of its kind, where it says so
  std::string file{};  ///< the list it stands in, as messages name it
  Place place{};

  /// From where to where a parameter can be set; none where the list does not say.
  const AdjustableRange* range_of(int parameter) const;
};

/// The parts that can be had: all lists of a job.
struct Stock {
  std::vector<StockItem> items;  ///< in the order of the lists
  std::map<std::string, int, std::less<>> by_model{};

  /// The item of a name, or null.
  const StockItem* find(std::string_view model) const;
};

/// Something wrong in a parts list: which file, where, what was expected, the nearest known word.
struct StockRemark {
  std::string file;
  Remark remark;  ///< its place has line 0 where it is about the file as a whole
  /// "stock/relief.csv:12:5: sentence"
  std::string text() const;
};

/// All that is wrong with the lists, list by list in the order of the lines.
struct StockComplaints {
  std::vector<StockRemark> list;
};

/// A file or folder with parts lists and what messages call it.
struct StockPlace {
  std::filesystem::path path;
  std::string name;
};

/// Reads the text of one list; its form is that of the ending of `file_name`, ".toml" or else CSV. Never
/// throws for what is in the text. Ranges in complaints are told in the units of `world`.
std::variant<Stock, StockComplaints> read_stock_text(std::string_view text, std::string_view file_name,
                                                     const units::World& world = units::metric());

/// Reads lists: of a folder all its files that end in .csv or .toml, in the order of their names.
std::variant<Stock, StockComplaints> read_stock(std::span<const StockPlace> places,
                                                const units::World& world = units::metric());

}  // namespace poise
