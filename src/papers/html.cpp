// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/html.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "draw/svg.hpp"
#include "draw/svg_path.hpp"

namespace poise::papers::html {
namespace {

std::string columns_of(const Table& table) {
  double sum = 0.0;
  for (const Column& column : table.columns) sum += column.width;
  std::string text = "<colgroup>";
  for (const Column& column : table.columns)
    text += fmt::format("<col style=\"width:{:.1f}%\">", 100.0 * column.width / sum);
  return text + "</colgroup>\n";
}

// Behind these a line's end would show as a blank.
constexpr std::array<std::string_view, 6> within_a_line{"strong", "a", "code", "span", "td", "th"};

std::string_view class_of(const Column& column) { return column.measured ? " class=\"measured\"" : ""; }

std::string heads_of(const Table& table) {
  std::string heads;
  for (const Column& column : table.columns) heads += element("th", text(column.head), class_of(column));
  return heads;
}

std::string rows_of(const Table& table) {
  std::string rows;
  for (const auto& row : table.rows) {
    std::string cells;
    for (std::size_t i = 0; i < row.size(); ++i)
      cells += element("td", text(row[i].text), class_of(table.columns[i]));
    rows += element("tr", cells);
  }
  return rows;
}

std::string around(const Table& table, std::string_view head, std::string_view style) {
  return element("table", columns_of(table) + element("thead", head) + element("tbody", rows_of(table)),
                 style.empty() ? "" : fmt::format(" class=\"{}\"", style));
}

}  // namespace

std::string text(std::string_view words) { return draw::xml_text(words); }

std::string element(std::string_view name, std::string_view content, std::string_view attributes) {
  const bool inline_one = std::ranges::find(within_a_line, name) != within_a_line.end();
  return fmt::format("<{0}{1}>{2}</{0}>{3}", name, attributes, content, inline_one ? "" : "\n");
}

std::string heading(int level, std::string_view words) {
  return element(fmt::format("h{}", level), text(words));
}
std::string paragraph(std::string_view words) { return element("p", text(words)); }
std::string entry(std::string_view words) { return element("li", text(words)); }

std::string table(const Table& table, std::string_view instead, std::string_view style) {
  if (table.rows.empty()) return paragraph(instead);
  return around(table, element("tr", heads_of(table)), style);
}

std::string titled_table(const Table& table, std::string_view style) {
  const std::string across = fmt::format(" class=\"title\" colspan=\"{}\"", table.columns.size());
  return around(
      table, element("tr", element("th", text(table.name), across)) + element("tr", heads_of(table)), style);
}

std::string figure(const draw::Sheet& sheet, double width, double height, double most) {
  const double scale = std::min({width / sheet.width, height / sheet.height, most});
  std::string drawn = draw::svg(sheet);
  const auto replace = [&](std::string_view attribute, double size) {
    const std::string begin = fmt::format(" {}=\"", attribute);
    const auto from = drawn.find(begin) + begin.size();
    drawn.replace(from, drawn.find('"', from) - from, fmt::format("{:.2f}mm", size));
  };
  replace("width", sheet.width * scale);
  replace("height", sheet.height * scale);
  return element("figure", drawn);
}

}  // namespace poise::papers::html
