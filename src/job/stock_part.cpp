// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/stock_part.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "job/value.hpp"
#include "units/nearest.hpp"

namespace poise::job {
namespace {

// The same value in two units differs by the last digits of the conversion.
constexpr double rounding = 1e-6;
constexpr std::size_t most_complaints = 20;  // of the lists, in the complaints of a job

bool is_control(unsigned char c) { return c < 0x20 || c == 0x7F; }

std::string where(const StockItem& item) { return fmt::format("{}:{}", item.file, item.place.line); }

/// The nearest of the models of this kind, or, where none is near, of all.
std::string near_model(const Stock& stock, std::string_view model, const Kind& kind) {
  std::vector<std::string> of_kind, all;
  for (const StockItem& item : stock.items) {
    all.push_back(item.model);
    if (item.kind == &kind) of_kind.push_back(item.model);
  }
  if (const auto near = units::nearest_word(model, of_kind))
    return fmt::format("; did you mean {}?", quote(*near));
  if (const auto near = units::nearest_word(model, all))
    return fmt::format("; did you mean {}?", quote(*near));
  return hint(model, of_kind);
}

/// The item that stands in while a model is to be found, or null after a complaint.
const StockItem* stand_in_of(Draft& draft, Section& section, const Kind& kind) {
  const auto& items = draft.job.stock->items;
  const auto item = std::ranges::find(items, &kind, &StockItem::kind);
  if (item != items.end()) return &*item;
  section.complain("model", fmt::format("there is no {} in the stock to find one among", kind.about.kind));
  return nullptr;
}

const StockItem* named_item(Draft& draft, Section& section, const std::string& model, const Kind& kind) {
  const StockItem* item = draft.job.stock->find(model);
  if (!item) {
    section.complain("model", fmt::format("there is no {} in the stock{}", quote(model),
                                          near_model(*draft.job.stock, model, kind)));
    return nullptr;
  }
  if (item->kind == &kind) return item;
  section.complain(
      "model", fmt::format("{} is of the kind {} ({})", quote(model), item->kind->about.kind, where(*item)));
  return nullptr;
}

std::string shown(double value, const Parameter& parameter, const units::World& world) {
  if (!parameter.words.empty()) return quote(parameter.words[static_cast<std::size_t>(value)]);
  return units::show(value, parameter.quantity, world);
}

bool same(double a, double b) { return std::abs(a - b) <= rounding * std::max(std::abs(a), std::abs(b)); }

bool same_points(std::span<const CurvePoint> a, std::span<const CurvePoint> b) {
  return std::ranges::equal(
      a, b, [](const CurvePoint& p, const CurvePoint& q) { return same(p.x, q.x) && same(p.y, q.y); });
}

/// One value of a part beside the one of its model.
struct Comparison {
  Draft& draft;
  const std::string& tag;
  const StockItem& item;
  const Values& values;

  void complain(const Node& node, std::string_view name, std::string_view sentence) {
    draft.remarks.push_back({node.place, fmt::format("{} of {} {}", name, tag, sentence)});
  }

  void differ(const Node& node, const Parameter& parameter, int index) {
    const auto i = static_cast<std::size_t>(index);
    if (parameter.against) {
      if (same_points(values.points(parameter.name), item.given.points(parameter.name))) return;
      complain(
          node, parameter.name,
          fmt::format("is not the one of its model {} ({}); leave it out", quote(item.model), where(item)));
      return;
    }
    const double here = values.all()[i], there = item.given.all()[i];
    if (same(here, there)) return;
    complain(node, parameter.name,
             fmt::format("is {}, but its model {} has {} ({}); leave it out, or name another model",
                         shown(here, parameter, draft.job.world), quote(item.model),
                         shown(there, parameter, draft.job.world), where(item)));
  }

  void state_twice(const Node& node, const Parameter& parameter) {
    complain(node, parameter.instead,
             fmt::format("stands instead of {}, which its model {} states ({}); leave it out", parameter.name,
                         quote(item.model), where(item)));
  }

  void fixed(const Node& node, const Parameter& parameter) {
    complain(node, parameter.name,
             fmt::format("cannot be found: its model {} states it ({}); leave it out", quote(item.model),
                         where(item)));
  }
};

}  // namespace

void read_lists(Draft& draft, Section& top, const std::filesystem::path& folder) {
  const std::vector<Text> lists = top.texts("stock");
  draft.stock_unsure = top.has("stock") && lists.empty();
  std::vector<StockPlace> places;
  for (const Text& list : lists) {
    if (list.value.empty() || std::ranges::any_of(list.value, is_control)) {
      draft.remarks.push_back(
          {list.place, fmt::format("stock of the job: {} is no file or folder", quote(list.value))});
      draft.stock_unsure = true;
      continue;
    }
    places.push_back({folder / list.value, list.value});
  }
  if (places.empty()) return;
  auto read = read_stock(places, draft.job.world);
  if (auto* stock = std::get_if<Stock>(&read)) {
    draft.job.stock = std::make_shared<const Stock>(std::move(*stock));
    return;
  }
  draft.stock_unsure = true;
  const auto& complaints = std::get<StockComplaints>(read).list;
  for (std::size_t i = 0; i < std::min(complaints.size(), most_complaints); ++i) {
    const auto list = std::ranges::find_if(
        lists, [&](const Text& text) { return complaints[i].file.starts_with(text.value); });
    draft.remarks.push_back({list == lists.end() ? lists[0].place : list->place,
                             fmt::format("stock of the job: {}", complaints[i].text())});
  }
  if (complaints.size() > most_complaints) {
    draft.remarks.push_back(
        {lists[0].place, fmt::format("stock of the job: {} more complaints about its lists",
                                     complaints.size() - most_complaints)});
  }
}

FromStock read_model(Draft& draft, Section& section, const std::string& tag, const Kind& kind) {
  FromStock from;
  const auto model = section.text("model");
  if (!model) {
    from.unsure = section.has("model");
    return from;
  }
  from.place = model->place;
  from.sought = model->value == "find";
  if (!from.sought) from.model = model->value;
  if (!draft.job.stock) {
    from.unsure = true;
    if (!draft.stock_unsure) {
      section.complain("model",
                       fmt::format("{} names a model, but the job no parts list; write stock = \"FOLDER\" "
                                   "above the first table",
                                   tag));
    }
    return from;
  }
  from.item =
      from.sought ? stand_in_of(draft, section, kind) : named_item(draft, section, model->value, kind);
  from.unsure = !from.item;
  return from;
}

void compare_with_model(Draft& draft, Section& section, const std::string& tag, const FromStock& from,
                        const Values& values, std::span<const std::string_view> stand_ins) {
  if (!from.item || from.sought) return;
  Comparison comparison{draft, tag, *from.item, values};
  for (int i = 0; i < static_cast<int>(values.table().size()); ++i) {
    const Parameter& parameter = values.table()[static_cast<std::size_t>(i)];
    const bool given = from.gives(parameter.name), ranged = from.item->range_of(i) != nullptr;
    const Node* node = section.find(parameter.name);
    const Node* other = parameter.instead.empty() ? nullptr : section.find(parameter.instead);
    if (!node && other && given && !from.gives(parameter.instead)) comparison.state_twice(*other, parameter);
    if (!node) continue;
    const bool read = std::ranges::find(stand_ins, parameter.name) == stand_ins.end();
    if (!read && given && !ranged && is_open(*node, parameter)) comparison.fixed(*node, parameter);
    if (!read) continue;
    if (ranged) {
      check_range(draft, from.item, tag, i, values.all()[static_cast<std::size_t>(i)], node->place);
    } else if (given) {
      comparison.differ(*node, parameter, i);
    }
  }
}

void check_range(Draft& draft, const StockItem* item, const std::string& tag, int parameter, double value,
                 Place place) {
  const AdjustableRange* range = item ? item->range_of(parameter) : nullptr;
  if (!range || (value >= range->from && value <= range->to) || same(value, range->from) ||
      same(value, range->to))
    return;
  const Parameter& line = item->kind->parameters[static_cast<std::size_t>(parameter)];
  const auto show = [&](double v) { return units::show(v, line.quantity, draft.job.world); };
  draft.remarks.push_back({place, fmt::format("{} of {} is {}, but its model {} is set from {} to {} ({})",
                                              line.name, tag, show(value), quote(item->model),
                                              show(range->from), show(range->to), where(*item))});
}

}  // namespace poise::job
