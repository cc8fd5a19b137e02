// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The paper that shows how the answer was come by and that its accounts close.
#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "draw/words.hpp"
#include "papers/html.hpp"
#include "papers/paper.hpp"

namespace poise::papers {
namespace {

Table two_columns(std::string name) {
  return {std::move(name), {{"what", 3.0}, {"how much", 1.2, true}}, {}};
}

Cell in_percent(double share) { return measured(share, Quantity::share, units::metric()); }

/// "as a share of what was put in (allowed 0.1 %)"
std::string as_a_share(std::string_view of, double allowed) {
  return fmt::format("as a share of {} (allowed {})", of,
                     stated(allowed, Quantity::share, units::metric()).text);
}

Table oil_of(const Books& b, const units::World& world) {
  Table table = two_columns("oil");
  table.rows = {{{"in the circuit at the start, without the reservoir"},
                 measured(b.mass_at_start, Quantity::mass, world)},
                {{"drawn from the reservoir in all, what came back not taken off"},
                 measured(b.mass_drawn, Quantity::mass, world)},
                {{"appeared or lost: must be nothing"}, measured(b.mass_residual, Quantity::mass, world)},
                {{as_a_share("what was drawn and held", Books::mass_closes)}, in_percent(b.mass_share())}};
  return table;
}

/// The most oil that was out of a reservoir at once, m3: what the parts at it took in, less what they gave.
double most_out_of(int part, const Subject& subject) {
  const Trace& trace = subject.trace;
  const int reservoir = subject.circuit.node_of(part, 0);
  std::vector<const std::vector<double>*> flows;
  for (std::size_t column = 0; column < trace.signals.size(); ++column) {
    const Signal& signal = trace.signals[column];
    if (signal.what == Signal::What::flow && subject.circuit.node_of(signal.part, signal.index) == reservoir)
      flows.push_back(&trace.values[column]);
  }
  double out = 0.0, most = 0.0;
  for (std::size_t row = 1; row < trace.time.size(); ++row) {
    for (const std::vector<double>* flow : flows)
      out += 0.5 * ((*flow)[row - 1] + (*flow)[row]) * (trace.time[row] - trace.time[row - 1]);
    most = std::max(most, out);
  }
  return most;
}

void add_reservoirs(Table& table, const Subject& subject) {
  const Plan& plan = subject.job.plan;
  for (int p = 0; p < static_cast<int>(plan.parts.size()); ++p) {
    const PlannedPart& part = plan.parts[p];
    if (part.kind->about.role != Role::reservoir) continue;
    table.rows.push_back({{fmt::format("most that was out of {} at once", part.tag)},
                          measured(most_out_of(p, subject), Quantity::volume, subject.job.world)});
    table.rows.push_back({{fmt::format("usable oil of {}", part.tag)},
                          stated(part.values["usable_oil"], Quantity::volume, subject.job.world)});
  }
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
                {{as_a_share("what was put in", Books::energy_closes)}, in_percent(b.energy_share())}};
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
  return text +
         html::paragraph(
             "The same file gives the same papers. The verdict is the one that \"poise prove\" prints and "
             "the workbench shows; curves, ratings, "
             "operating points and heat are from a run of the same cycle in which everything was recorded.");
}

}  // namespace

std::string books(const Subject& subject) {
  const Books& b = subject.verdict.books;
  const units::World& world = subject.job.world;
  std::string text = html::paragraph(
      subject.verdict.books_close
          ? "Every run accounts for its oil and its energy. These books close: what went in is what came out."
          : "These books do not close: nothing in these papers is proven.");
  Table oil = oil_of(b, world);
  add_reservoirs(oil, subject);
  text += html::heading(3, "Oil") + html::table(oil, "");
  text += html::heading(3, "Energy") + html::table(energy_of(b, world), "");
  text += html::heading(3, "Where the heat is made") + html::table(heat_of(subject), "There is none.");
  return text + html::heading(3, "Where these papers come from") + origin(subject);
}

}  // namespace poise::papers
