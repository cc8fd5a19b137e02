// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Any bytes as the table of a datasheet: the first byte says which curve of which kind, what follows are its
// points as a job writes them and, line by line behind them, other values of the part.
#include <fmt/format.h>

#include <utility>
#include <vector>

#include "fuzz/any_law.hpp"
#include "fuzz/hold.hpp"
#include "job/stock.hpp"
#include "support/plausible.hpp"

namespace poise {
namespace {

using Curve = std::pair<const Kind*, std::size_t>;

const std::vector<Curve>& all_curves() {
  static const std::vector<Curve> all = [] {
    std::vector<Curve> curves;
    for (const Kind& kind : all_kinds()) {
      for (std::size_t i = 0; i < kind.parameters.size(); ++i)
        if (kind.parameters[i].against) curves.emplace_back(&kind, i);
    }
    return curves;
  }();
  return all;
}

/// A part of this kind as usual, but for what the list says of it.
Values with(const Kind& kind, const Values& given) {
  Values values = workshop::plausible(kind);
  for (std::size_t i = 0; i < kind.parameters.size(); ++i) {
    const Parameter& parameter = kind.parameters[i];
    if (!given.given(parameter.name)) continue;
    const auto points = given.points(parameter.name);
    if (parameter.against) values.set_points(static_cast<int>(i), {points.begin(), points.end()});
    if (!parameter.against) values.set(static_cast<int>(i), given[parameter.name]);
  }
  return values;
}

void read(const Curve& curve, const std::string& table) {
  const Kind& kind = *curve.first;
  const std::string list = fmt::format("[[items]]\nmodel = \"any\"\nkind = \"{}\"\ncost = 1\n{} = {}\n",
                                       kind.about.kind, kind.parameters[curve.second].name, table);
  const auto read = read_stock_text(list, "any.toml");
  const auto* stock = std::get_if<Stock>(&read);
  if (!stock)
    return hold(!std::get<StockComplaints>(read).list.empty(), "what is refused is complained about");
  for (const StockItem& item : stock->items) hold_law(*item.kind, with(*item.kind, item.given));
}

}  // namespace
}  // namespace poise

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const auto& curves = poise::all_curves();
  poise::read(curves[data[0] % curves.size()], poise::text_of(data + 1, size - 1));
  return 0;
}
