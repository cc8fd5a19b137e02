// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/bill.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "circuit/rating.hpp"
#include "draw/words.hpp"
#include "papers/naming.hpp"

namespace poise::papers {
namespace {

/// Oil parts, and what a hand or a contact works beside them: motors, lock nuts. The oil's own warmth is
/// none, and what else has no oil in it is a load.
bool is_bought(const Kind& kind) {
  const bool worked =
      std::ranges::any_of(kind.inputs, [&](int i) { return !kind.parameters[i].words.empty(); });
  return worked || (kind.oil_ports > 0 && !kind.warms);
}

bool same(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

bool same(const CurvePoint& a, const CurvePoint& b) { return a.x == b.x && a.y == b.y; }

bool same(const Values& a, const Values& b) {
  if (!std::ranges::equal(a.all(), b.all(), [](double x, double y) { return same(x, y); })) return false;
  return std::ranges::all_of(a.table(), [&](const Parameter& each) {
    return !each.against ||
           std::ranges::equal(a.points(each.name), b.points(each.name),
                              [](const CurvePoint& x, const CurvePoint& y) { return same(x, y); });
  });
}

/// Parts of one row: of one kind, one datasheet and one model.
using Alike = std::vector<int>;

std::vector<Alike> parts_alike(const Job& job) {
  std::vector<Alike> all;
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const PlannedPart& part = job.plan.parts[p];
    if (!is_bought(*part.kind)) continue;
    const auto known = std::ranges::find_if(all, [&](const Alike& alike) {
      const PlannedPart& other = job.plan.parts[alike.front()];
      return other.kind == part.kind && item_of(job, alike.front()) == item_of(job, p) &&
             same(other.values, part.values);
    });
    if (known == all.end()) {
      all.push_back({p});
    } else {
      known->push_back(p);
    }
  }
  return all;
}

std::string joined(const std::vector<std::string>& words, std::string_view by) {
  return fmt::format("{}", fmt::join(words, by));
}

/// The figures of a code or tag count as numbers: H1.2 before H1.10. What is empty comes last.
bool before(std::string_view a, std::string_view b) {
  if (a.empty() || b.empty()) return !a.empty() && b.empty();
  const auto figure = [](char c) { return c >= '0' && c <= '9'; };
  std::size_t i = 0, j = 0;
  while (i < a.size() && j < b.size()) {
    if (figure(a[i]) && figure(b[j])) {
      const auto number = [&](std::string_view text, std::size_t& at) {
        std::size_t value = 0;
        for (; at < text.size() && figure(text[at]); ++at)
          value = value * 10 + static_cast<std::size_t>(text[at] - '0');
        return value;
      };
      const std::size_t x = number(a, i), y = number(b, j);
      if (x != y) return x < y;
    } else if (a[i] != b[j]) {
      return a[i] < b[j];
    } else {
      ++i, ++j;
    }
  }
  return a.size() - i < b.size() - j;
}

/// What the datasheet says beside what stands by the symbol: what a job has to give of such a part, such as
/// the rated flow.
std::vector<std::string> further_data(const Job& job, int p) {
  const PlannedPart& part = job.plan.parts[p];
  const std::vector<std::string_view>* stand_ins = job.drawn.empty() ? nullptr : &job.drawn[p].stand_ins;
  std::vector<std::string> all;
  for (const Parameter& each : part.kind->parameters) {
    const bool to_be_given = !each.fallback && !each.optional && each.words.empty() && !each.against;
    const bool told =
        part.kind->about.beside.find("{" + std::string(each.name) + "}") != std::string_view::npos;
    if (!to_be_given || told || each.adjusted || each.set_by_steps) continue;
    if (each.name == rating_parameter(*part.kind) || !part.values.given(each.name)) continue;
    if (stand_ins && std::ranges::find(*stand_ins, each.name) != stand_ins->end()) continue;
    all.push_back(in_words(each.name) + " " + draw::shown(part.values[each.name], each.quantity, job.world));
  }
  return all;
}

/// Whether the data by the symbol begin with what is adjusted: a bare "120 bar" would pass for a rating.
bool begins_with_setting(const Kind& kind) {
  std::string_view beside = kind.about.beside;
  if (beside.starts_with('[')) beside.remove_prefix(1);
  return std::ranges::any_of(kind.parameters, [&](const Parameter& each) {
    return each.adjusted && beside.starts_with("{" + std::string(each.name) + "}");
  });
}

/// Beside a symbol "210 bar" and "at 3.90 L/min" stand under each other; they are one thing.
std::vector<std::string> in_one_line(const std::vector<std::string>& lines) {
  std::vector<std::string> data;
  for (const std::string& line : lines) {
    if (!data.empty() && (line.starts_with("at ") || line == "cracking")) {
      data.back() += " " + line;
    } else {
      data.push_back(line);
    }
  }
  return data;
}

Cell key_data(const Job& job, int p) {
  const PlannedPart& part = job.plan.parts[p];
  std::vector<std::string> data = in_one_line(draw::data_of(job, p));
  if (!data.empty() && begins_with_setting(*part.kind)) data.front().insert(0, "set to ");
  std::ranges::move(further_data(job, p), std::back_inserter(data));
  return {.text = joined(data, ", ")};
}

Cell rated_pressure(const Job& job, int p) {
  const PlannedPart& part = job.plan.parts[p];
  const std::string_view name = rating_parameter(*part.kind);
  if (name.empty() || !part.values.given(name)) return {};
  return stated(part.values[name], Quantity::pressure, job.world);
}

Cell count(std::size_t number) {
  return {.text = fmt::format("{}", number), .number = static_cast<double>(number)};
}

/// A sum in the currency of the parts list, which does not name it.
Cell money(double sum) {
  const bool whole = std::abs(sum - std::round(sum)) < 0.005;
  return {.text = fmt::format("{:.{}f}", sum, whole ? 0 : 2), .number = sum};
}

/// What one of these costs; a list that knows no cost writes 0.
std::optional<double> cost_of(const Job& job, int p) {
  const StockItem* item = item_of(job, p);
  return item && item->cost > 0.0 ? std::optional(item->cost) : std::nullopt;
}

std::vector<Cell> bill_row(const Job& job, const Alike& alike, const std::vector<std::string>& codes) {
  const int p = alike.front();
  std::vector<std::string> own_codes, tags;
  for (const int each : alike) {
    if (!codes[each].empty()) own_codes.push_back(codes[each]);
    tags.push_back(job.plan.parts[each].tag);
  }
  const StockItem* item = item_of(job, p);
  const std::optional<double> cost = cost_of(job, p);
  return {{.text = joined(own_codes, ", ")},
          {.text = joined(tags, ", ")},
          count(alike.size()),
          {.text = called(*job.plan.parts[p].kind)},
          key_data(job, p),
          rated_pressure(job, p),
          {.text = item ? item->model : std::string()},
          cost ? money(*cost) : Cell{},
          cost ? money(*cost * static_cast<double>(alike.size())) : Cell{}};
}

struct Costs {
  double sum = 0.0;
  std::size_t parts = 0, without = 0;
};

Costs costs_of(const Job& job, const std::vector<Alike>& rows) {
  Costs costs;
  for (const Alike& alike : rows) {
    const auto count = alike.size();
    costs.parts += count;
    if (const auto cost = cost_of(job, alike.front())) {
      costs.sum += *cost * static_cast<double>(count);
    } else {
      costs.without += count;
    }
  }
  return costs;
}

std::string named(const Costs& costs) {
  if (costs.without == 0) return "Bill of materials";
  if (costs.without == costs.parts) return "Bill of materials (no cost known)";
  return fmt::format("Bill of materials ({} of {} parts without a cost)", costs.without, costs.parts);
}

}  // namespace

Table bill_of_materials(const Subject& subject) {
  const Job& job = subject.job;
  const std::vector<std::string> codes = codes_shown(job);
  std::vector<Alike> rows = parts_alike(job);
  for (Alike& alike : rows)
    std::ranges::stable_sort(alike, [&](int a, int b) { return before(codes[a], codes[b]); });
  std::ranges::stable_sort(
      rows, [&](const Alike& a, const Alike& b) { return before(codes[a.front()], codes[b.front()]); });
  const Costs costs = costs_of(job, rows);
  Table table{.name = named(costs),
              .columns = {{.head = "Code", .width = 1.0},
                          {.head = "Tag", .width = 1.0},
                          {.head = "Quantity", .width = 0.8, .measured = true, .counted = true},
                          {.head = "Name", .width = 1.8},
                          {.head = "Key data", .width = 2.6},
                          {.head = "Rated pressure", .width = 0.8, .measured = true},
                          {.head = "Model", .width = 1.6},
                          {.head = "Cost each", .width = 0.7, .measured = true, .counted = true},
                          {.head = "Cost", .width = 0.6, .measured = true, .counted = true}},
              .rows = {}};
  for (const Alike& alike : rows) table.rows.push_back(bill_row(job, alike, codes));
  if (costs.parts > 0 && costs.without == 0) {
    std::vector<Cell> total(table.columns.size());
    total[1].text = "Total";
    total[2] = count(costs.parts);
    total.back() = money(costs.sum);
    table.rows.push_back(std::move(total));
  }
  return table;
}

}  // namespace poise::papers
