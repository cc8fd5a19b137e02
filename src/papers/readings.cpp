// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "diagnose/shown.hpp"
#include "draw/words.hpp"

namespace poise::papers {
namespace {

using diagnose::Band;
using diagnose::Instrument;
using diagnose::Watch;
using diagnose::When;

constexpr double too_short = 1.0;  // s, for a stop-watch in a hand; common practice

/// When it comes within its step: as actuators start, in the order in which they get there, then the end,
/// then times and places, which are noted when the step is over.
double turn_in_step(const Watch& watch, const std::vector<Watch>& watches, const std::vector<double>& sound) {
  constexpr double end = 1e9, times = 2e9, places = 3e9;
  if (watch.instrument == Instrument::stop_watch) return times;
  if (watch.instrument == Instrument::rule) return places;
  if (watch.when == When::end) return end;
  for (std::size_t w = 0; w < watches.size(); ++w) {
    const Watch& other = watches[w];
    if (other.instrument == Instrument::stop_watch && other.step == watch.step && other.mover == watch.mover)
      return sound[w];
  }
  return 0.0;
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

/// What heads the places of one reading: what it should be, its band where there is one, and its box.
struct Heads {
  std::string_view should, band, does;
};
void add_heads(Table& table, const Subject& subject, const Heads& heads) {
  table.columns.push_back({std::string(heads.should), 1.2, true});
  if (subject.bands)
    table.columns.push_back({fmt::format("19 of 20 sound machines {}", heads.band), 1.8, true});
  table.columns.push_back({std::string(heads.does), 1.2});
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
  std::ranges::stable_sort(sheet, {}, [&](std::size_t w) {
    const Watch& watch = watches[w];
    const bool after_the_oil = watch.instrument != Instrument::thermometer;
    return std::tuple(after_the_oil, watch.step, turn_in_step(watch, watches, sound));
  });
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
  if (watch.instrument == Instrument::contact) return {std::string(diagnose::lamp(value))};
  // A piston that is pressed on its stop stands a little behind it; to whoever looks it is at its end.
  if (watch.instrument == Instrument::rule) value = std::max(value, 0.0);
  return seen(diagnose::is_nothing(watch, value) ? 0.0 : value, diagnose::quantity_of(watch), world);
}

std::string range_in_words(double low, double high, Quantity quantity, const units::World& world) {
  if (!std::isfinite(low) || !std::isfinite(high)) return "";
  if (ends_at_zero(quantity)) low = std::max(low, 0.0);
  const units::World told = draw::world_to_show(std::max(std::abs(low), std::abs(high)), quantity, world);
  const double from = units::in_unit(low, quantity, told), to = units::in_unit(high, quantity, told);
  const double half = 0.5 * (to - from);
  return fmt::format("{} … {} {}", low == 0.0 ? "0" : with_decimals(from, half), with_decimals(to, half),
                     draw::with_raised_figures(told[quantity]));
}

std::string band_in_words(const Watch& watch, const Band& band, const units::World& world) {
  if (watch.instrument != Instrument::contact)
    return range_in_words(band.low, band.high, diagnose::quantity_of(watch), world);
  const bool may_be_on = band.high > 0.5, may_be_off = band.low <= 0.5;
  return may_be_on && may_be_off ? "either" : shows(watch, band.middle, world).text;
}

Table readings(const Subject& subject) {
  Table table{"readings", {{"when", 2.3}, {"read", 0.7}, {"at", 2.1}}, {}};
  if (!subject.bands) table.columns.push_back({"class of the gauge", 1.4, true});
  add_heads(table, subject, {"should read", "read", "reads"});
  for (const Row& from :
       rows_of(subject, {Instrument::thermometer, Instrument::gauge, Instrument::contact})) {
    const Watch& watch = from.reading.watch;
    std::vector<Cell> row{
        {moment_in_words(watch, subject.job)}, {where_read(watch)}, {note_of(watch, subject.job)}};
    if (!subject.bands) row.push_back({class_of(watch, subject.job.world)});
    add_values(row, subject, from);
    table.rows.push_back(std::move(row));
  }
  if (table.rows.size() == 1) table.rows.clear();  // the oil's temperature alone says nothing
  return table;
}

Table times(const Subject& subject) {
  Table table{"times", {{"step", 1.4}, {"part", 0.7}}, {}};
  add_heads(table, subject, {"should take", "take", "takes"});
  const std::size_t timed = table.columns.size();
  add_heads(table, subject, {"should end at", "end at", "ends at"});
  const std::vector<Row> places = rows_of(subject, {Instrument::rule});
  for (const Row& from : rows_of(subject, {Instrument::stop_watch})) {
    const Watch& watch = from.reading.watch;
    std::vector<Cell> row{{subject.job.steps[watch.step].name}, {where_read(watch)}};
    add_values(row, subject, from, from.value < too_short ? "too short to time" : "");
    const auto place = std::ranges::find_if(places, [&](const Row& each) {
      const Watch& other = each.reading.watch;
      return other.step == watch.step && other.signal.name == watch.signal.name;
    });
    if (place != places.end()) add_values(row, subject, *place);
    row.resize(table.columns.size());
    table.rows.push_back(std::move(row));
  }
  if (!places.empty()) return table;
  table.columns.resize(timed);
  for (std::vector<Cell>& row : table.rows) row.resize(timed);
  return table;
}

}  // namespace poise::papers
