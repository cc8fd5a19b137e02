// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Any bytes as a parts list, in CSV and in TOML; the items that are read are made into parts.
#include <cmath>

#include "fuzz/any_law.hpp"
#include "fuzz/hold.hpp"
#include "job/stock.hpp"
#include "support/plausible.hpp"

namespace poise {
namespace {

/// The item with usual values where its list states none.
Values filled(const StockItem& item) {
  Values values = workshop::plausible(*item.kind);
  for (std::size_t i = 0; i < item.kind->parameters.size(); ++i) {
    const Parameter& parameter = item.kind->parameters[i];
    if (!item.given.given(parameter.name)) continue;
    if (parameter.against) {
      const auto points = item.given.points(parameter.name);
      values.set_points(static_cast<int>(i), {points.begin(), points.end()});
    } else {
      values.set(static_cast<int>(i), item.given[parameter.name]);
    }
  }
  return values;
}

void hold_item(const Stock& stock, const StockItem& item) {
  hold(stock.find(item.model) == &item, "an item is found by its name");
  hold(std::isfinite(item.cost), "a cost is a number");
  for (const auto& [parameter, tolerance] : item.tolerances)
    hold(std::isfinite(tolerance.below) && std::isfinite(tolerance.above), "a tolerance is a number");
  hold_law(*item.kind, filled(item));
}

void read(const std::string& text, std::string_view name) {
  const auto read = read_stock_text(text, name);
  if (const auto* stock = std::get_if<Stock>(&read)) {
    hold(!stock->items.empty(), "a list without complaints has items");
    for (const StockItem& item : stock->items) hold_item(*stock, item);
    return;
  }
  const auto& complaints = std::get<StockComplaints>(read);
  hold(!complaints.list.empty(), "what is refused is complained about");
  for (const StockRemark& remark : complaints.list)
    hold(remark.text().starts_with(name), "a complaint names its list");
}

}  // namespace
}  // namespace poise

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text = poise::text_of(data, size);
  poise::read(text, "any.csv");
  poise::read(text, "any.toml");
  return 0;
}
