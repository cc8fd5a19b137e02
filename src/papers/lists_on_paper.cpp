// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The papers that are lists for other programs too: parts, lines, settings.
#include "papers/answer.hpp"
#include "papers/bill.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"
#include "papers/settings.hpp"

namespace poise::papers {
namespace {

constexpr std::size_t few = 9,
                      many = 18;  // rows of the settings sheet that one page takes in large and usual letters

std::string_view letters_for(std::size_t rows) {
  if (rows <= few) return "large";
  return rows <= many ? "" : "small";
}

}  // namespace

std::string parts_and_lines(const Subject& subject) {
  const Table parts = bill_of_materials(subject), lines = list_of_lines(subject);
  return html::table(parts, "There is nothing to order.", "small") + html::heading(3, "Lines") +
         html::table(lines, "Parts are joined without hose or tube.", "small");
}

std::string settings_sheet(const Subject& subject) {
  const Table table = settings(subject);
  std::string text =
      html::table(table, "Nothing on this machine is adjusted.", letters_for(table.rows.size()));
  text += html::element(
      "p",
      html::text(
          "Set in this order. A gauge is read in the state that stands beside the value. Do not touch an "
          "adjuster, loosen a fitting or stand under a load while there is pressure. To make it safe: loads "
          "down, pump off and locked, every valve worked, every trapped place bled, zero read at each "
          "gauge."),
      " class=\"mind\"");
  return text;
}

}  // namespace poise::papers
