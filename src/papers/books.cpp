// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The paper that shows how the answer was come by and that its accounts close.
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "draw/words.hpp"
#include "judge/outcome.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"

namespace poise::papers {
namespace {

Table two_columns(std::string name) {
  return {std::move(name), {{"what", 3.0}, {"how much", 1.2, true}}, {}};
}

Table oil_of(const Books& b, const units::World& world) {
  Table table = two_columns("oil");
  table.rows = {
      {{"in the circuit at the start, without the reservoir"},
       measured(b.mass_at_start, Quantity::mass, world)},
      {{"drawn from the reservoir, less what came back"}, measured(b.mass_drawn, Quantity::mass, world)},
      {{"appeared or lost: must be nothing"}, measured(b.mass_residual, Quantity::mass, world)},
      {{fmt::format("as a share of what was drawn and held (allowed {:.0e})", allowed_mass_share)},
       {fmt::format("{:.1e}", b.mass_share())}}};
  return table;
}

Table energy_of(const Books& b, const units::World& world) {
  const auto row = [&](std::string what, double energy) {
    return std::vector<Cell>{{std::move(what)}, measured(energy, Quantity::energy, world)};
  };
  Table table = two_columns("energy");
  table.rows = {row("put in by pumps, and by warmth that swells trapped oil", b.shaft),
                row("lost as heat where oil is throttled, and in pumps", b.flow_heat),
                row("lost as heat of rubbing and of stops", b.friction_heat),
                row("given to outside forces", b.delivered),
                row("stored more than at the start: oil, walls, motion, springs, height", b.stored_gain),
                row("left over: must be nothing", b.energy_residual()),
                {{fmt::format("as a share of what was put in (allowed {:.0e})", allowed_energy_share)},
                 {fmt::format("{:.1e}", b.energy_share())}}};
  return table;
}

/// The parts that make most of the heat, down to a hundredth of it.
Table heat_of(const Subject& subject) {
  Table table{"heat", {{"part", 1.0}, {"heat in the cycle", 1.3, true}, {"share", 1.0, true}}, {}};
  const std::vector<double>& heat = subject.trace.heat_of_part;
  const double sum = std::accumulate(heat.begin(), heat.end(), 0.0);
  std::vector<std::size_t> order(std::min(heat.size(), subject.job.plan.parts.size()));
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, std::greater{}, [&](std::size_t p) { return heat[p]; });
  for (const std::size_t p : order) {
    if (!(heat[p] >= 0.01 * sum) || sum <= 0.0) break;
    table.rows.push_back({{subject.job.plan.parts[p].tag},
                          measured(heat[p], Quantity::energy, subject.job.world),
                          measured(heat[p] / sum, Quantity::share, units::metric())});
  }
  return table;
}

std::string origin(const Subject& subject) {
  std::string text =
      html::paragraph(fmt::format("Worked out by Poise {} from the file {}. The fingerprint is the SHA-256 "
                                  "of that file: \"sha256sum {}\" prints the same "
                                  "where papers and file belong together.",
                                  subject.version, subject.file, subject.file));
  text += html::element("p", html::element("code", html::text(subject.fingerprint)));
  return text + html::paragraph(
                    "The same file gives the same papers. Every number in them comes from one run of the "
                    "whole cycle and the verdict "
                    "on it, which \"poise prove\" prints and the workbench shows.");
}

}  // namespace

std::string books(const Subject& subject) {
  const Books& b = subject.verdict.books;
  const units::World& world = subject.job.world;
  std::string text = html::paragraph(
      subject.verdict.books_close
          ? "Every run accounts for its oil and its energy. These books close: what went in is what came out."
          : "These books do not close: nothing in these papers is proven.");
  text += html::heading(3, "Oil") + html::table(oil_of(b, world), "");
  text += html::heading(3, "Energy") + html::table(energy_of(b, world), "");
  text += html::heading(3, "Where the heat is made") + html::table(heat_of(subject), "There is none.");
  return text + html::heading(3, "Where these papers come from") + origin(subject);
}

}  // namespace poise::papers
