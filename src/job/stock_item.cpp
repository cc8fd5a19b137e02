// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/stock_item.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "job/section.hpp"
#include "job/stock_words.hpp"
#include "job/tolerance.hpp"
#include "job/value.hpp"

namespace poise::job {
namespace {

constexpr double not_stated = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t longest_model = 100;
constexpr Parameter cost_line{.name = "cost", .low = 0.0, .high = 1e12};

std::optional<std::string> read_model(Section& section) {
  const auto model = section.text("model");
  if (!model) {
    if (!section.has("model")) section.complain("needs model, the name it is ordered by");
    return std::nullopt;
  }
  const bool printable =
      std::ranges::none_of(model->value, [](unsigned char c) { return c < 0x20 || c == 0x7F; });
  if (model->value.empty() || model->value.size() > longest_model || !printable) {
    section.complain("model", fmt::format("{} is no name; it has up to {} letters, on one line",
                                          quote(model->value), longest_model));
    return std::nullopt;
  }
  if (model->value == "find") {
    section.complain("model",
                     "\"find\" is what a job says where a model is to be found; give it another name");
    return std::nullopt;
  }
  return model->value;
}

const Kind* read_kind(Section& section, Remarks& remarks) {
  const auto word = section.text("kind");
  if (word) return known_kind(*word, remarks);
  if (!section.has("kind")) section.complain("needs kind, such as kind = \"pump\"");
  return nullptr;
}

/// An item while it is read.
struct Reader {
  Section& section;
  const units::World& world;
  Remarks& remarks;
  StockItem& item;
  bool good = true;

  void complain(const std::string& key, const std::string& sentence) {
    section.complain(key, sentence);
    good = false;
  }

  std::optional<double> number(const Node& node, const Parameter& parameter) {
    const auto value = read_value(node, parameter, section.owner(), world, remarks);
    good = good && value;
    return value;
  }

  void read_given(int index, const Parameter& parameter) {
    const Node* node = section.find(parameter.name);
    if (!node) return;
    if (!parameter.against) {
      if (const auto value = number(*node, parameter)) item.given.set(index, *value);
      return;
    }
    auto points = read_points(*node, parameter, section.owner(), world, remarks);
    good = good && points;
    if (points) item.given.set_points(index, std::move(*points));
  }

  /// One end of the range of a setting; `otherwise` where the list does not state it.
  double end(const Parameter& parameter, const std::string& key, double otherwise) {
    const Node* node = section.find(key);
    if (!node) return otherwise;
    Parameter line = parameter;
    line.name = key;
    return number(*node, line).value_or(otherwise);
  }

  void read_range(int index, const Parameter& parameter) {
    const std::string name(parameter.name), from = name + "_from", to = name + "_to";
    const bool any = section.has(from) || section.has(to);
    const AdjustableRange range{index, end(parameter, from, parameter.low),
                                end(parameter, to, parameter.high)};
    if (!any) return;
    if (range.from > range.to) complain(from, fmt::format("it is above {}", to));
    const double value = item.given.all()[static_cast<std::size_t>(index)];
    if (good && (value < range.from || value > range.to))
      complain(name, fmt::format("it is outside {} … {}", from, to));
    item.adjustable.push_back(range);
  }

  void read_table() {
    for (int i = 0; i < static_cast<int>(item.kind->parameters.size()); ++i) {
      const Parameter& parameter = item.kind->parameters[static_cast<std::size_t>(i)];
      read_given(i, parameter);
      if (parameter.adjusted) read_range(i, parameter);
    }
    read_tolerances();
  }

  /// A tolerance may also be of what the job states.
  void read_tolerances() {
    const auto known = [&](int index) -> KnownValue {
      const Parameter& parameter = item.kind->parameters[static_cast<std::size_t>(index)];
      if (parameter.against || !item.given.given(parameter.name)) return {};
      return {KnownValue::Is::stated, item.given[parameter.name]};
    };
    const std::size_t complaints = remarks.size();
    for (const ReadTolerance& each :
         job::read_tolerances(section, item.kind->parameters, known, world, remarks))
      item.tolerances.emplace_back(each.parameter, each.tolerance);
    good = good && remarks.size() == complaints;
  }

  /// What the part would be with the defaults of its kind and its settings at their lower ends; none where
  /// the list leaves more to the job.
  std::optional<Values> filled() const {
    Values values = item.given;
    for (int i = 0; i < static_cast<int>(item.kind->parameters.size()); ++i) {
      const Parameter& parameter = item.kind->parameters[static_cast<std::size_t>(i)];
      if (values.given(parameter.name) || item.given.given(parameter.instead)) continue;
      const AdjustableRange* range = item.range_of(i);
      if (parameter.fallback || range) {
        values.set(i, range ? range->from : *parameter.fallback);
      } else if (!parameter.optional) {
        return std::nullopt;
      }
    }
    return values;
  }

  void check() {
    const auto values = good ? filled() : std::nullopt;
    if (!values) return;
    for (const Mismatch& mismatch : item.kind->check(*values)) {
      const Node* node = section.find(mismatch.parameter);
      remarks.push_back(
          {node ? node->place : section.place(), fmt::format("{}: {}", section.owner(), mismatch.sentence)});
    }
  }
};

/// What is there for people alone is not read.
void pass_over(Section& section, const Node& table) {
  for (const Field& field : table.fields) {
    if (is_left_alone(field.key)) section.find(field.key);
  }
}

}  // namespace

std::optional<StockItem> read_item(const Node& table, const units::World& world, Remarks& remarks) {
  Section section(table, "this item", remarks);
  const auto model = read_model(section);
  if (model) section.call(quote(*model));
  const Kind* kind = read_kind(section, remarks);
  if (!model || !kind) return std::nullopt;
  section.call(fmt::format("{} ({})", quote(*model), kind->about.kind));
  StockItem item{.model = *model,
                 .kind = kind,
                 .given = Values(kind->parameters, std::vector<double>(kind->parameters.size(), not_stated)),
                 .place = table.place};
  Reader reader{section, world, remarks, item};
  const Node* cost = section.find("cost");
  if (cost) item.cost = reader.number(*cost, cost_line).value_or(0.0);
  if (!cost) section.complain("needs cost, a plain number in the list's own currency");
  if (const auto note = section.text("note")) item.note = note->value;
  reader.read_table();
  pass_over(section, table);
  section.refuse_unknown_keys();
  reader.check();
  return item;
}

}  // namespace poise::job
