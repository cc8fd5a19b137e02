// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Readings as people keep them, and the table they fill in.
#include <fmt/format.h>

#include <cmath>

#include "diagnose/readings_file.hpp"
#include "diagnose/readings_words.hpp"
#include "diagnose/shown.hpp"
#include "job/written.hpp"

namespace poise::diagnose {
namespace {

bool has_step(const Watch& watch) { return watch.instrument != Instrument::thermometer; }

bool has_moment(const Watch& watch) { return has_step(watch) && watch.instrument != Instrument::stop_watch; }

/// With all digits that a calculation can tell apart.
std::string exact(double number, const std::string& unit) { return fmt::format("{:.12g} {}", number, unit); }

std::string value_in_words(const Reading& reading, const Watch& watch, const Job& job) {
  if (!reading.value) return "none";
  if (watch.instrument == Instrument::contact) return std::string(lamp(*reading.value));
  const Quantity quantity = quantity_of(watch);
  return exact(units::in_unit(*reading.value, quantity, job.world), job.world[quantity]);
}

job::Written text_of(std::string text) { return {std::move(text)}; }

std::string in_csv(const std::string& text) {
  if (text.find_first_of(",;\"\n") == std::string::npos) return text;
  std::string all = "\"";
  for (const char c : text) all += c == '"' ? std::string("\"\"") : std::string(1, c);
  return all + '"';
}

}  // namespace

std::string to_toml(const Readings& readings, const Job& job, const std::vector<Watch>& watches) {
  job::Written::Table top;
  for (auto& [key, value] : occasion_of(readings)) top.emplace_back(key, text_of(value));
  std::string all = job::lines_in_toml(top);
  for (const Reading& reading : readings.list) {
    const bool listed = reading.watch < watches.size();
    const Watch& watch = listed ? watches[reading.watch] : readings.more[reading.watch - watches.size()];
    job::Written::Table entry{{"at", text_of(watch.at)}};
    if (has_step(watch)) entry.emplace_back("step", text_of(job.steps[watch.step].name));
    if (has_moment(watch) && watch.when != When::end)
      entry.emplace_back("when", text_of(instant_in_words(watch, job)));
    entry.emplace_back("value", text_of(value_in_words(reading, watch, job)));
    const Quantity quantity = quantity_of(watch);
    if (watch.instrument != Instrument::contact && reading.accuracy != watch.accuracy)
      entry.emplace_back("accuracy",
                         text_of(exact(units::difference_in_unit(reading.accuracy, quantity, job.world),
                                       job.world[quantity])));
    all += (all.empty() ? "" : "\n") + std::string("[[readings]]\n") + job::lines_in_toml(entry);
  }
  return all;
}

std::string empty_table(const std::vector<std::size_t>& sheet, const Job& job,
                        const std::vector<Watch>& watches) {
  std::string all =
      "# Fill in value. Write on or off for a switch, none where the moment did not come; leave empty what "
      "was "
      "not read.\n# date:\n# by:\nat,step,when,value,unit,accuracy\n";
  for (const std::size_t w : sheet) {
    const Watch& watch = watches[w];
    const Quantity quantity = quantity_of(watch);
    const bool contact = watch.instrument == Instrument::contact;
    const std::string accuracy =
        contact ? "" : fmt::format("{:.4g}", units::difference_in_unit(watch.accuracy, quantity, job.world));
    all += fmt::format("{},{},{},,{},{}\n", in_csv(watch.at),
                       has_step(watch) ? in_csv(job.steps[watch.step].name) : "",
                       has_moment(watch) ? in_csv(instant_in_words(watch, job)) : "",
                       contact ? "" : in_csv(job.world[quantity]), accuracy);
  }
  return all;
}

}  // namespace poise::diagnose
