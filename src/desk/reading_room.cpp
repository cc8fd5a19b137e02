// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/reading_room.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "desk/typed_reading.hpp"
#include "diagnose/diagnosis.hpp"
#include "diagnose/readings_file.hpp"
#include "diagnose/sheet.hpp"
#include "diagnose/shown.hpp"
#include "judge/outcome.hpp"

namespace poise::desk {
namespace {

using diagnose::Atlas;
using diagnose::AtlasWork;
using diagnose::Instrument;
using diagnose::Reading;
using diagnose::Readings;
using diagnose::Watch;
using diagnose::When;

std::string_view word(Instrument instrument) {
  switch (instrument) {
    case Instrument::gauge:
      return "gauge";
    case Instrument::portable_gauge:
      return "portable gauge";
    case Instrument::contact:
      return "switch";
    case Instrument::rule:
      return "rule";
    case Instrument::stop_watch:
      return "stop-watch";
    case Instrument::bucket:
      return "bucket";
    case Instrument::thermometer:
      return "thermometer";
  }
  return "";
}

/// "182 … 214 bar": the unit once.
std::string from_to(double low, double high, Quantity quantity, const units::World& world) {
  std::string from = units::show(low, quantity, world);
  const std::string to = units::show(high, quantity, world), unit = " " + world[quantity];
  if (from.ends_with(unit)) from.resize(from.size() - unit.size());
  return from + " … " + to;
}

/// No gauge, stop-watch or bucket shows less than nothing on a sound machine that may stand at nothing.
bool begins_at_nothing(const Watch& watch) {
  return watch.instrument != Instrument::rule && watch.instrument != Instrument::thermometer;
}

std::string band_text(const Atlas& atlas, std::size_t w, const units::World& world) {
  const Watch& watch = atlas.watches[w];
  const diagnose::Band band = diagnose::band_of(atlas, w);
  if (watch.instrument == Instrument::contact) return std::string(diagnose::lamp(band.middle));
  const bool cut = begins_at_nothing(watch) && band.low < 0.0 && band.middle >= 0.0;
  return from_to(cut ? 0.0 : band.low, band.high, diagnose::quantity_of(watch), world);
}

Json one_watch(const Atlases::Held& held, std::size_t w, const std::string& key, bool usual,
               const units::World& world) {
  const AtlasWork& work = *held.work;
  const Watch& watch = work.watches[w];
  const Quantity quantity = diagnose::quantity_of(watch);
  const bool oil = watch.instrument == Instrument::thermometer,
             lamp = watch.instrument == Instrument::contact;
  const bool comes = !std::isnan(work.sound[w]);
  return {{"key", key},
          {"at", watch.at},
          {"moment", diagnose::moment_of(watch, work.job)},
          {"step", oil ? Json(nullptr) : Json(work.job.steps[watch.step].name)},
          {"place", oil ? Json(nullptr) : Json(watch.step)},
          {"instrument", word(watch.instrument)},
          {"unit", lamp ? "" : world[quantity]},
          {"sound", diagnose::shown(watch, work.sound[w], world)},
          {"comes", comes},
          {"band", held.atlas && comes ? Json(band_text(*held.atlas, w, world)) : Json(nullptr)},
          {"accuracy", lamp ? "" : units::show_difference(watch.accuracy, quantity, world)},
          {"usual", usual}};
}

Json of_baseline(const std::optional<Baseline>& baseline) {
  if (!baseline) return nullptr;
  return {{"file", baseline->file},
          {"date", baseline->readings.date},
          {"by", baseline->readings.by},
          {"readings", baseline->readings.list.size()},
          {"trouble", baseline->trouble}};
}

template <std::size_t n>
std::optional<std::size_t> chosen(const Json& typed, const char* key,
                                  const std::array<std::string_view, n>& words) {
  const auto found = std::ranges::find(words, text_of(typed, key));
  return found == words.end() ? std::nullopt : std::optional(static_cast<std::size_t>(found - words.begin()));
}

/// In the order of `Comes`; where nobody knows, the page says "unknown".
constexpr std::array<std::string_view, 4> ways_to_come{"slowly", "suddenly", "after work", "in the cold"};

diagnose::Looked looked(const Json& typed, const char* key) {
  constexpr std::array<std::string_view, 3> looks{"no", "good", "bad"};
  return static_cast<diagnose::Looked>(chosen(typed, key, looks).value_or(0));
}

Readings what_is_said(const Json& typed) {
  Readings said{.level = looked(typed, "level"),
                .filter = looked(typed, "filter"),
                .since = text_of(typed, "since"),
                .after = text_of(typed, "after")};
  if (const auto way = chosen(typed, "came", ways_to_come)) said.came = static_cast<Comes>(*way);
  return said;
}

std::string_view mark_of(const Atlas& atlas, const Reading& reading) {
  switch (diagnose::beside(diagnose::band_of(atlas, reading.watch), reading.value)) {
    case diagnose::Beside::within:
      return "within";
    case diagnose::Beside::above:
      return "above";
    case diagnose::Beside::below:
      return "below";
    case diagnose::Beside::missing:
      return "missing";
    case diagnose::Beside::unexpected:
      return "unexpected";
  }
  return "";
}

/// Takes the readings out of what was typed; complaints are about those that cannot be read.
class Typing {
 public:
  Typing(const AtlasWork& work, const units::World& world)
      : work_(work), world_(world), keys_(keys_of(work.watches, work.job)) {
    for (std::size_t w = 0; w < keys_.size(); ++w) places_.emplace(keys_[w], w);
  }

  void add(const Json& entry) {
    const std::string key = text_of(entry, "key"), text = text_of(entry, "text");
    const auto found = places_.find(key);
    if (found == places_.end()) return complain(key, "this job has no such reading");
    if (text.find_first_not_of(" \t\r\n") == std::string::npos || !taken_.insert(found->second).second)
      return;
    const Watch& watch = work_.watches[found->second];
    const auto value = typed_reading(text, watch, work_.job, world_);
    if (const auto* why = std::get_if<std::string>(&value)) return complain(key, *why);
    list_.push_back({.watch = found->second,
                     .value = std::get<std::optional<double>>(value),
                     .accuracy = watch.accuracy});
  }

  const std::vector<Reading>& list() const { return list_; }
  const std::string& key(std::size_t watch) const { return keys_[watch]; }
  const Json& complaints() const { return complaints_; }

 private:
  void complain(const std::string& key, const std::string& sentence) {
    complaints_.push_back({{"key", key}, {"sentence", sentence}});
  }

  const AtlasWork& work_;
  const units::World& world_;
  std::vector<std::string> keys_;
  std::map<std::string, std::size_t> places_{};
  std::set<std::size_t> taken_{};
  std::vector<Reading> list_{};
  Json complaints_ = Json::array();
};

Json answer_of(const Atlas& atlas, const std::optional<Baseline>& baseline, const Readings& readings,
               const Typing& typing, const units::World& world) {
  const bool known = baseline && baseline->trouble.empty();
  const diagnose::Machine machine =
      known ? diagnose::machine_of(atlas, baseline->readings.list) : diagnose::unknown_machine(atlas);
  const diagnose::Diagnosis diagnosis = diagnose::diagnose(atlas, machine, readings, world);
  Json answer = Json(diagnose::to_json(diagnosis));
  for (std::size_t i = 0; i < diagnosis.next.size(); ++i)
    answer["next"][i]["key"] = typing.key(diagnosis.next[i].watch);
  return answer;
}

}  // namespace

std::optional<Baseline> baseline_in(const std::optional<std::string>& text, const std::string& file,
                                    const AtlasWork& work) {
  if (!text) return std::nullopt;
  Baseline baseline{.file = file, .trouble = {}};
  auto read = diagnose::read_readings(*text, file, work.job, work.watches);
  if (const auto* complaints = std::get_if<Complaints>(&read)) {
    const Remark* first = complaints->list.empty() ? nullptr : &complaints->list.front();
    baseline.trouble =
        first ? fmt::format("line {}: {}", first->place.line, first->sentence) : "it cannot be read";
    return baseline;
  }
  baseline.readings = std::get<Readings>(std::move(read));
  std::erase_if(baseline.readings.list,
                [&](const Reading& reading) { return reading.watch >= work.watches.size(); });
  return baseline;
}

Json what_can_be_read(const Atlases::Held& held, const std::optional<Baseline>& baseline,
                      const units::World& world) {
  const AtlasWork& work = *held.work;
  const std::vector<std::string> keys = keys_of(work.watches, work.job);
  const std::vector<std::size_t> usual = diagnose::usual_sheet(work.watches, work.sound);
  const std::set<std::size_t> on_the_sheet(usual.begin(), usual.end());
  Json list = Json::array();
  for (const std::size_t w : usual) list.push_back(one_watch(held, w, keys[w], true, world));
  for (std::size_t w = 0; w < work.watches.size(); ++w) {
    if (work.watches[w].when == When::after || on_the_sheet.contains(w)) continue;
    list.push_back(one_watch(held, w, keys[w], false, world));
  }
  return {{"ready", held.atlas != nullptr},
          {"runs", work.items()},
          {"baseline", of_baseline(baseline)},
          {"notice", notice},
          {"watches", std::move(list)}};
}

Json weighed(const Atlases::Held& held, const std::optional<Baseline>& baseline, const Json& typed,
             const units::World& world) {
  Typing typing(*held.work, world);
  if (const auto list = typed.find("readings"); list != typed.end() && list->is_array()) {
    for (const Json& entry : *list) {
      if (entry.is_object()) typing.add(entry);
    }
  }
  Json marks = Json::array();
  if (held.atlas) {
    for (const Reading& reading : typing.list())
      marks.push_back({{"key", typing.key(reading.watch)}, {"mark", mark_of(*held.atlas, reading)}});
  }
  Readings readings = what_is_said(typed);
  readings.list = typing.list();
  Json answer = nullptr;
  if (held.atlas) answer = answer_of(*held.atlas, baseline, readings, typing, world);
  return {{"ready", held.atlas != nullptr},
          {"complaints", typing.complaints()},
          {"marks", std::move(marks)},
          {"answer", std::move(answer)}};
}

}  // namespace poise::desk
