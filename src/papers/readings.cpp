// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "diagnose/motion.hpp"
#include "draw/words.hpp"
#include "papers/cycle.hpp"

namespace poise::papers {
namespace {

using diagnose::Band;
using diagnose::Instrument;
using diagnose::Watch;
using diagnose::When;

constexpr double too_short = 1.0;  // s, for a stop-watch in a hand; common practice
constexpr std::string_view band_head = "19 of 20 sound machines read";

/// The oil first; in a step what is read as something starts, then what is read at the end, then times and
/// places.
auto turn_of(const Watch& watch) {
  const auto last = [&] {
    switch (watch.instrument) {
      case Instrument::stop_watch:
        return 2;
      case Instrument::rule:
        return 3;
      default:
        return watch.when == When::end ? 1 : 0;
    }
  };
  return std::tuple(watch.instrument != Instrument::thermometer, watch.step, last());
}

/// The bands, or where nobody has worked them out what the run shows and no band.
std::vector<ReadingBand> sheet_of(const Subject& subject) {
  if (subject.bands) return *subject.bands;
  if (subject.trace.time.empty()) return {};
  const std::vector<Watch> watches = diagnose::list_watches(subject.job, subject.circuit, subject.trace);
  const std::vector<double> sound = diagnose::seen(subject.job, subject.trace, watches);
  std::vector<ReadingBand> sheet;
  for (const std::size_t w : sheet_in_order(watches, sound))
    sheet.push_back({watches[w], {sound[w], sound[w], sound[w]}});
  return sheet;
}

/// The rows of some instruments, each with what the run shows, which agrees with all other papers.
struct Row {
  ReadingBand reading;
  double value = 0.0;
};
std::vector<Row> rows_of(const Subject& subject, std::initializer_list<Instrument> instruments) {
  std::vector<Row> rows;
  std::vector<Watch> watches;
  for (ReadingBand& each : sheet_of(subject)) {
    if (std::ranges::find(instruments, each.watch.instrument) == instruments.end()) continue;
    watches.push_back(each.watch);
    rows.push_back({std::move(each)});
  }
  const std::vector<double> values = diagnose::seen(subject.job, subject.trace, watches);
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i].value = values[i];
  return rows;
}

std::string moment_in_words(const Watch& watch, const Job& job) {
  return watch.instrument == Instrument::thermometer ? "before and after" : moment_of(watch, job);
}

/// "limits the pump line": what the job says of a gauge.
std::string note_of(const Watch& watch, const Job& job) {
  const bool of_a_part = watch.instrument == Instrument::gauge || watch.instrument == Instrument::contact;
  const auto part = static_cast<std::size_t>(watch.signal.part);
  return of_a_part && part < job.drawn.size() ? job.drawn[part].note : "";
}

/// What a gauge itself may be off by.
std::string class_of(const Watch& watch, const units::World& world) {
  const bool is_gauge = watch.instrument == Instrument::gauge;
  return is_gauge ? "± " + measured(watch.accuracy, Quantity::pressure, world).text : "";
}

/// The heads of two or three columns in which every reading ends: what it should be, its band where there is
/// one, and its box.
void add_heads(Table& table, const Subject& subject, std::string should, std::string does) {
  table.columns.push_back({std::move(should), 1.4, true});
  if (subject.bands) table.columns.push_back({std::string(band_head), 2.2, true});
  table.columns.push_back({std::move(does), 1.5});
}

void add_values(std::vector<Cell>& row, const Subject& subject, const Row& from, std::string box = {}) {
  row.push_back(shows(from.reading.watch, from.value, subject.job.world));
  if (subject.bands) row.push_back({band_in_words(from.reading.watch, from.reading.band, subject.job.world)});
  row.push_back({std::move(box)});
}

/// A number with as many decimals as a share of the band is worth.
std::string with_decimals(double number, double half) {
  const int decimals =
      half > 0.0 ? std::clamp(-static_cast<int>(std::floor(std::log10(half / 3.0))), 0, 6) : 2;
  std::string text = fmt::format("{:.{}f}", number, decimals);
  if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-') text.erase(0, 1);
  return text;
}

/// What cannot be less than nothing is told from nothing on.
bool ends_at_zero(Quantity quantity) {
  return quantity == Quantity::pressure || quantity == Quantity::time || quantity == Quantity::length;
}

}  // namespace

std::vector<std::size_t> sheet_in_order(const std::vector<Watch>& watches, const std::vector<double>& sound) {
  std::vector<std::size_t> sheet = diagnose::usual_sheet(watches, sound);
  std::ranges::stable_sort(sheet, {}, [&](std::size_t w) { return turn_of(watches[w]); });
  return sheet;
}

std::vector<ReadingBand> bands_of(const diagnose::Atlas& atlas) {
  std::vector<ReadingBand> all;
  for (const std::size_t w : sheet_in_order(atlas.watches, atlas.sound))
    all.push_back({atlas.watches[w], diagnose::band_of(atlas, w)});
  return all;
}

std::string when_in_step(const Watch& watch, const Job& job) {
  if (watch.instrument == Instrument::stop_watch || watch.instrument == Instrument::thermometer) return "";
  const auto mover = [&] { return job.plan.parts[watch.mover].tag; };
  switch (watch.when) {
    case When::end:
      return "at the end";
    case When::half_way:
      return "in the middle";
    case When::starts:
      return fmt::format("as {} starts", mover());
    case When::moves:
      return fmt::format("while {} moves", mover());
    case When::after:
      return "after " + units::show(watch.after, Quantity::time, job.world);
  }
  return "";
}

std::string where_read(const Watch& watch) {
  const bool of_an_actuator =
      watch.instrument == Instrument::stop_watch || watch.instrument == Instrument::rule;
  return of_an_actuator ? watch.at.substr(0, watch.at.rfind('.')) : watch.at;
}

Cell shows(const Watch& watch, double value, const units::World& world) {
  if (!std::isfinite(value)) return {};
  if (watch.instrument == Instrument::contact) return {value > 0.5 ? "made" : "not made"};
  // A piston that is pressed on its stop stands a little behind it; to whoever looks it is at its end.
  const bool is_place = watch.instrument == Instrument::rule;
  return seen(is_place ? std::max(value, 0.0) : value, diagnose::quantity_of(watch), world);
}

std::string range_in_words(double low, double high, Quantity quantity, const units::World& world) {
  if (!std::isfinite(low) || !std::isfinite(high)) return "";
  if (ends_at_zero(quantity)) low = std::max(low, 0.0);
  const units::World told = draw::world_to_show(std::max(std::abs(low), std::abs(high)), quantity, world);
  const double from = units::in_unit(low, quantity, told), to = units::in_unit(high, quantity, told);
  const double half = 0.5 * (to - from);
  return fmt::format("{} … {} {}", with_decimals(from, half), with_decimals(to, half),
                     draw::with_raised_figures(told[quantity]));
}

std::string band_in_words(const Watch& watch, const Band& band, const units::World& world) {
  if (watch.instrument != Instrument::contact)
    return range_in_words(band.low, band.high, diagnose::quantity_of(watch), world);
  const bool may_be_made = band.high > 0.5, may_be_broken = band.low <= 0.5;
  return may_be_made && may_be_broken ? "either" : shows(watch, band.middle, world).text;
}

Table readings(const Subject& subject) {
  Table table{"readings", {{"when", 2.6}, {"read", 0.8}, {"at", 2.2}}, {}};
  if (!subject.bands) table.columns.push_back({"class of the gauge", 1.4, true});
  add_heads(table, subject, "should read", "reads");
  for (const Row& from :
       rows_of(subject, {Instrument::thermometer, Instrument::gauge, Instrument::contact})) {
    const Watch& watch = from.reading.watch;
    std::vector<Cell> row{
        {moment_in_words(watch, subject.job)}, {where_read(watch)}, {note_of(watch, subject.job)}};
    if (!subject.bands) row.push_back({class_of(watch, subject.job.world)});
    add_values(row, subject, from);
    table.rows.push_back(std::move(row));
  }
  return table;
}

Table times(const Subject& subject) {
  Table table{"times", {{"step", 1.7}, {"part", 0.9}, {"way", 2.2}}, {}};
  add_heads(table, subject, "should take", "takes");
  const units::World& world = subject.job.world;
  for (const Row& from : rows_of(subject, {Instrument::stop_watch})) {
    const Watch& watch = from.reading.watch;
    const StepSpan& span = subject.trace.steps[watch.step];
    const int column = subject.trace.column(watch.signal.name);
    const Way way{.step = watch.step, .part = watch.mover, .signal = watch.signal};
    const auto place_at = [&](double time, bool before) {
      const double value = diagnose::value_at(subject.trace, column, time, before);
      return place_of(way, turns(way) ? value : std::max(value, 0.0), world).text;
    };
    std::vector<Cell> row{{span.name},
                          {where_read(watch)},
                          {fmt::format("{} to {}", place_at(span.begin, false), place_at(span.end, true))}};
    add_values(row, subject, from, from.value < too_short ? "too short to time" : "");
    table.rows.push_back(std::move(row));
  }
  return table;
}

Table places(const Subject& subject) {
  Table table{"places", {{"at the end of", 2.6}, {"part", 1.4}}, {}};
  add_heads(table, subject, "should stand at", "stands at");
  for (const Row& from : rows_of(subject, {Instrument::rule})) {
    const Watch& watch = from.reading.watch;
    std::vector<Cell> row{{subject.job.steps[watch.step].name}, {where_read(watch)}};
    add_values(row, subject, from);
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace poise::papers
