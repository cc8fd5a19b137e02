// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Readings from a log: one moment a row, a column for each instrument.
#include "diagnose/readings_log.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "diagnose/shown.hpp"
#include "units/system.hpp"
#include "units/text.hpp"

namespace poise::diagnose {
namespace {

constexpr std::size_t most_rows = 200'000;
constexpr int most_of_a_column = 3;  // complaints; what is wrong with one value is wrong with thousands

std::optional<double> number_in(const std::string& text) {
  std::string_view rest = text;
  if (rest.starts_with('+')) rest.remove_prefix(1);
  double number = 0.0;
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), number);
  if (error != std::errc{} || end != rest.data() + rest.size() || !std::isfinite(number)) return std::nullopt;
  return number;
}

class LogReader {
 public:
  LogReader(CsvRows& rows, Intake& intake) : rows_(rows), intake_(intake) {}

  Log read(const std::vector<Column>& header) {
    for (const Column& column : header) columns_.push_back(meaning_of(column));
    job::Row row;
    while (rows_.next(row)) {
      if (is_header(row, header)) {
        intake_.complain(row.front().place,
                         "the header stands here again; a log is one run: keep the rows of one");
        continue;
      }
      if (log_.time.size() == most_rows) {
        intake_.complain(
            row.front().place,
            fmt::format("a log has at most {} rows; keep one cycle, or every tenth row", most_rows));
        break;
      }
      take(row);
    }
    for (Meaning& column : columns_) {
      if (column.bad > most_of_a_column)
        intake_.complain(column.place, fmt::format("the column {} has {} more cells that are wrong",
                                                   job::quote(column.name), column.bad - most_of_a_column));
    }
    return std::move(log_);
  }

 private:
  /// What a column is to the reader.
  struct Meaning {
    enum class Is { time, step, value, nothing } is = Is::nothing;
    std::string name{};
    Place place{};
    units::Scale scale{};
    std::size_t to = 0;  ///< column of the log
    bool contact = false, outward = false;
    int bad = 0;
  };

  static bool is_header(const job::Row& row, const std::vector<Column>& header) {
    return row.front().text.starts_with(header.front().name) && !header.front().name.empty();
  }

  /// Sets the scale by the unit in the header; complains where there is none or it does not fit.
  bool take_unit(Meaning& meaning, const Column& column, std::string_view unit, Quantity quantity,
                 std::string_view example) {
    if (unit.empty()) {
      intake_.complain(column.place,
                       fmt::format("the column {} has no unit; write {} above it", job::quote(meaning.name),
                                   job::quote(fmt::format("{} [{}]", meaning.name, example))));
      return false;
    }
    const units::Reading read = units::read(fmt::format("1 {}", unit), quantity);
    const auto scale = units::scale(units::plain(unit), quantity);
    if (!read.value || !scale) {
      intake_.complain(column.place,
                       fmt::format("unit of the column {}: {}", job::quote(meaning.name),
                                   read.complaint.empty() ? "it is not known" : read.complaint));
      return false;
    }
    meaning.scale = *scale;
    return true;
  }

  Meaning meaning_of(const Column& column) {
    Meaning meaning{.name = column.name, .place = column.place};
    if (!column.read || column.name.empty()) return meaning;
    std::string unit = column.unit;
    const std::size_t line = column.name.rfind('_');
    const bool has_watch = find_column(column.name).has_value();
    if (unit.empty() && !has_watch && line != std::string::npos && line > 0) {
      meaning.name = column.name.substr(0, line);
      unit = column.name.substr(line + 1);
    }
    if (meaning.name == "step") {
      meaning.is = Meaning::Is::step;
      log_.has_steps = true;
      return meaning;
    }
    if (meaning.name == "time") {
      if (std::ranges::any_of(columns_, [](const Meaning& m) { return m.is == Meaning::Is::time; }))
        intake_.complain(column.place, "the column \"time\" stands twice; keep one");
      else if (take_unit(meaning, column, unit, Quantity::time, "s"))
        meaning.is = Meaning::Is::time;
      return meaning;
    }
    const auto found = find_column(meaning.name);
    if (!found) {
      intake_.complain(column.place, intake_.instruments().unknown(meaning.name) +
                                         "; a column that is not to be read stands in round brackets");
      return meaning;
    }
    take_instrument(meaning, column, unit, *found);
    return meaning;
  }

  /// The watch of a column: what is read by this name, or where an actuator stands that only has a time.
  std::optional<std::size_t> find_column(std::string_view name) const {
    const std::vector<Watch>& watches = intake_.instruments().watches();
    const auto found = intake_.instruments().find(name);
    if (found && watches[*found].instrument != Instrument::stop_watch) return found;
    const auto moved = std::ranges::find_if(watches, [&](const Watch& w) {
      return w.instrument == Instrument::stop_watch && w.signal.name == name;
    });
    if (moved == watches.end()) return std::nullopt;
    return static_cast<std::size_t>(moved - watches.begin());
  }

  void take_instrument(Meaning& meaning, const Column& column, const std::string& unit, std::size_t w) {
    const Watch& watch = intake_.instruments().watches()[w];
    const bool oil = watch.instrument == Instrument::thermometer;
    const Quantity quantity = oil ? Quantity::temperature : watch.signal.quantity;
    meaning.contact = watch.instrument == Instrument::contact;
    meaning.outward = watch.instrument == Instrument::bucket;
    if (!meaning.contact &&
        !take_unit(meaning, column, unit, quantity, intake_.instruments().job().world[quantity]))
      return;
    for (const LogColumn& other : log_.columns) {
      if (other.watch != w) continue;
      intake_.complain(column.place, fmt::format("the columns {} and {} are one reading; keep one",
                                                 job::quote(other.name), job::quote(meaning.name)));
      return;
    }
    meaning.is = Meaning::Is::value;
    meaning.to = log_.columns.size();
    log_.columns.push_back({.watch = w, .name = meaning.name, .unit = unit, .place = column.place});
  }

  void wrong(Meaning& column, Place place, std::string_view sentence) {
    if (++column.bad <= most_of_a_column)
      intake_.complain(place, fmt::format("{} {}", column.name, sentence));
  }

  std::optional<double> value_of(Meaning& column, const job::Cell& cell) {
    if (cell.text.empty()) {
      wrong(column, cell.place,
            "has a gap here; a log has a value in every row: leave out the row or the column");
      return std::nullopt;
    }
    if (column.contact) {
      if (const auto state = lamp_from(cell.text)) return state;
    }
    const auto number = number_in(rows_.comma_is_decimal() ? with_point(cell.text) : cell.text);
    const bool good = number && (!column.contact || *number == 0.0 || *number == 1.0);
    if (good) return column.outward ? -column.scale.to_si(*number) : column.scale.to_si(*number);
    wrong(
        column, cell.place,
        fmt::format("has {} here, which is {}", job::quote(cell.text),
                    column.contact ? "no state of a switch; write \"on\" or \"off\""
                                   : "no number; the unit stands in the header, and decimals have a point"));
    return std::nullopt;
  }

  /// The step of a row, or that of none where the cell is empty.
  std::optional<int> step_of(Meaning& column, const job::Cell& cell) {
    if (cell.text.empty()) return no_step;
    if (cell.text != last_step_text_) {
      const auto step = step_called(intake_.instruments().job(), cell.text);
      if (!step) {
        if (++column.bad <= most_of_a_column)
          intake_.complain(cell.place, unknown_step(intake_.instruments().job(), cell.text));
        return std::nullopt;
      }
      last_step_text_ = cell.text;
      last_step_ = static_cast<int>(*step);
    }
    return last_step_;
  }

  void take(const job::Row& row) {
    if (row.size() != columns_.size()) {
      if (++ragged_ <= most_of_a_column)
        intake_.complain(
            row.front().place,
            fmt::format("this row has {} cells and the header {}; decimal commas need semicolons "
                        "between the cells",
                        row.size(), columns_.size()));
      return;
    }
    values_.assign(log_.columns.size(), 0.0);
    std::optional<double> time;
    std::optional<int> step = no_step;
    bool good = true;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      Meaning& column = columns_[c];
      if (column.is == Meaning::Is::step) step = step_of(column, row[c]);
      if (column.is == Meaning::Is::time) time = value_of(column, row[c]);
      if (column.is != Meaning::Is::value) continue;
      const auto value = value_of(column, row[c]);
      good = good && value;
      values_[column.to] = value.value_or(0.0);
    }
    if (!good || !time || !step || !rises(*time, *step, row.front().place)) return;
    log_.time.push_back(*time);
    log_.step.push_back(*step);
    log_.line.push_back(row.front().place.line);
    for (std::size_t c = 0; c < values_.size(); ++c) log_.columns[c].values.push_back(values_[c]);
  }

  bool rises(double time, int step, Place place) {
    const bool first = log_.time.empty();
    const bool new_step = !first && step != log_.step.back();
    if (first || time > log_.time.back() || (new_step && time == log_.time.back())) return true;
    if (++falling_ <= most_of_a_column)
      intake_.complain(place,
                       fmt::format("the time {:.6g} s does not come after {:.6g} s of the row before; a "
                                   "log is one run, its rows in order",
                                   time, log_.time.back()));
    return false;
  }

  CsvRows& rows_;
  Intake& intake_;
  Log log_{};
  std::vector<Meaning> columns_{};
  std::vector<double> values_{};
  std::string last_step_text_{};
  int last_step_ = no_step, ragged_ = 0, falling_ = 0;
};

/// Complains about holes in time that are much longer than the usual distance of rows, and long in the log:
/// loggers that write only what changes leave short ones.
void complain_about_holes(const Log& log, Intake& intake) {
  constexpr double much = 10.0, share = 0.05;
  const double least = share * (log.time.back() - log.time.front());
  int found = 0;
  for (std::size_t r = 1; r < log.time.size(); ++r) {
    if (log.time[r] - log.time[r - 1] <= std::max(much * log.usual_distance, least)) continue;
    if (log.has_steps && (log.step[r] == no_step || log.step[r - 1] == no_step)) continue;
    if (++found > most_of_a_column) return;
    intake.complain(
        {log.line[r], 1},
        fmt::format("nothing was logged from {:.6g} s to {:.6g} s, where a row comes every {:.3g} s "
                    "elsewhere; log the cycle again, or write its readings as a table",
                    log.time[r - 1], log.time[r], log.usual_distance));
  }
}

double usual_distance(const std::vector<double>& time) {
  if (time.size() < 2) return 0.0;
  std::vector<double> all;
  for (std::size_t r = 1; r < time.size(); ++r) all.push_back(time[r] - time[r - 1]);
  const auto middle = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
  std::ranges::nth_element(all, middle);
  return *middle;
}

}  // namespace

void read_log(const std::vector<Column>& columns, CsvRows& rows, Intake& intake) {
  Log log = LogReader(rows, intake).read(columns);
  if (log.columns.empty() && intake.remarks().empty())
    intake.complain(columns.front().place,
                    "the log has no column for an instrument, such as \"G1 [bar]\" or \"K1.position [mm]\"");
  if (log.time.empty() || log.columns.empty()) return;
  log.usual_distance = usual_distance(log.time);
  complain_about_holes(log, intake);
  take_log(log, intake);
}

}  // namespace poise::diagnose
