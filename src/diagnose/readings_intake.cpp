// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/readings_intake.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "diagnose/readings_value.hpp"
#include "diagnose/shown.hpp"
#include "units/system.hpp"
#include "units/text.hpp"

namespace poise::diagnose {
namespace {

constexpr double same_time = 1e-6;  // s; nobody writes more digits

/// Steps or oil of the cycle as watches have it: what is read once for all, and what is counted from the
/// step's beginning, has no moment.
bool has_moments(const Watch& watch) {
  return watch.instrument != Instrument::stop_watch && watch.instrument != Instrument::thermometer;
}

bool is_at(const Watch& watch, std::size_t step, const Instant& instant) {
  if (watch.step != step) return false;
  if (!has_moments(watch)) return true;
  if (watch.when != instant.when) return false;
  if (instant.when == When::after) return std::abs(watch.after - instant.after) <= same_time;
  const bool of_mover = instant.when == When::starts || instant.when == When::moves;
  return !of_mover || watch.mover == instant.mover;
}

/// Half of a tolerance: of a temperature it is a difference, whatever the zero of its scale.
Understood accuracy_from(const Watch& watch, std::string_view text) {
  const Quantity quantity = quantity_of(watch);
  const std::string_view unit = unit_behind(text);
  if (quantity == Quantity::temperature) {
    const auto scale = units::scale(units::plain(unit), quantity);
    const units::Reading read = units::read(text, quantity);
    if (scale && read.value) return {*read.value - scale->zero, {}};
    return {{}, units::read(text, Quantity::warming).complaint};
  }
  units::Reading read = units::read(text, quantity);
  return {read.value, std::move(read.complaint)};
}

std::string written(const Watch& watch, const Job& job, std::optional<double> value) {
  if (!value) return "none";
  if (watch.instrument == Instrument::contact) return std::string(lamp(*value));
  return units::show(*value, quantity_of(watch), job.world);
}

}  // namespace

const Watch& Intake::watch(std::size_t at) const {
  const std::vector<Watch>& listed = instruments_.watches();
  return at < listed.size() ? listed[at] : readings_.more[at - listed.size()];
}

bool Intake::moves_in(int mover, std::size_t step) const {
  return std::ranges::any_of(instruments_.watches(),
                             [&](const Watch& w) { return w.mover == mover && w.step == step; });
}

std::string Intake::steps_of(int mover) const {
  std::vector<std::string> names;
  const Job& job = instruments_.job();
  for (std::size_t step = 0; step < job.steps.size(); ++step) {
    if (moves_in(mover, step)) names.push_back(job.steps[step].name);
  }
  return names.empty() ? "it does in no step" : "it does in " + job::listed(names, "and");
}

std::optional<std::size_t> Intake::step_at(double time, const job::Text& said, Instant& instant) {
  const Job& job = instruments_.job();
  for (std::size_t step = 0; step < job.steps.size(); ++step) {
    const auto begin = begin_of(job, step);
    if (!begin) {
      complain(said.place, fmt::format("{} of the cycle may lie in more than one step, for {} waits for a "
                                       "condition; name the step and count from its beginning",
                                       job::quote(said.value), job::quote(job.steps[step - 1].name)));
      return std::nullopt;
    }
    if (time > *begin + job.steps[step].lasts + same_time) continue;
    instant.after = std::max(0.0, time - *begin);
    return step;
  }
  complain(said.place, fmt::format("{} is later than the cycle ends", job::quote(said.value)));
  return std::nullopt;
}

std::optional<std::size_t> Intake::step_of(const Entry& entry, const Watch& watch, Instant& instant) {
  const Job& job = instruments_.job();
  if (watch.instrument == Instrument::thermometer) return watch.step;
  if (!entry.step && instant.when == When::after) return step_at(instant.after, *entry.when, instant);
  if (!entry.step) {
    complain(entry.at.place, fmt::format("the reading of {} has no step; name the one it was taken in, such "
                                         "as {}",
                                         job::quote(entry.at.value), job::quote(job.steps.front().name)));
    return std::nullopt;
  }
  const auto step = step_called(job, entry.step->value);
  if (!step) complain(entry.step->place, unknown_step(job, entry.step->value));
  return step;
}

std::optional<std::size_t> Intake::watch_at(const Watch& what, const Instant& instant,
                                            const job::Text& said) {
  const Job& job = instruments_.job();
  const std::vector<Watch>& listed = instruments_.watches();
  for (const std::size_t w : instruments_.of(what.at)) {
    if (is_at(listed[w], what.step, instant)) return w;
  }
  const bool of_mover = instant.when == When::starts || instant.when == When::moves;
  const int mover = of_mover ? instant.mover : what.mover;
  if (mover >= 0 && (of_mover || !has_moments(what)) && !moves_in(mover, what.step)) {
    complain(said.place,
             fmt::format("{} does not move in {} of the sound machine; {}", job.plan.parts[mover].tag,
                         job::quote(job.steps[what.step].name), steps_of(mover)));
    return std::nullopt;
  }
  if (!has_moments(what)) {
    complain(said.place,
             fmt::format("{} is not read in {}", job::quote(what.at), job::quote(job.steps[what.step].name)));
    return std::nullopt;
  }
  for (std::size_t m = 0; m < readings_.more.size(); ++m) {
    if (readings_.more[m].at == what.at && is_at(readings_.more[m], what.step, instant))
      return listed.size() + m;
  }
  Watch more = what;
  more.when = instant.when;
  more.mover = instant.mover;
  for (const Watch& other : listed) {
    if (of_mover && other.mover == mover && other.step == what.step) more.way = other.way;
  }
  more.after = instant.after;
  readings_.more.push_back(std::move(more));
  return listed.size() + readings_.more.size() - 1;
}

std::optional<std::size_t> Intake::watch_of(const Entry& entry) {
  const Job& job = instruments_.job();
  const auto found = instruments_.find(entry.at.value);
  if (!found) complain(entry.at.place, instruments_.unknown(entry.at.value));
  Instant instant;
  bool good = found.has_value();
  if (entry.when) {
    const auto read = instant_from(entry.when->value, job, instruments_.watches());
    if (const auto* fault = std::get_if<std::string>(&read)) {
      complain(entry.when->place, "when: " + *fault);
      good = false;
    } else {
      instant = std::get<Instant>(read);
    }
  }
  if (!good) {
    if (entry.step && !step_called(job, entry.step->value))
      complain(entry.step->place, unknown_step(job, entry.step->value));
    return std::nullopt;
  }
  Watch what = instruments_.watches()[*found];
  if (what.instrument == Instrument::thermometer) return found;
  if (what.instrument == Instrument::stop_watch && entry.when && instant.when != When::end) {
    complain(entry.when->place,
             fmt::format("{} is a time already, from the step's beginning; leave out when", what.at));
    return std::nullopt;
  }
  const auto step = step_of(entry, what, instant);
  if (!step) return std::nullopt;
  what.step = *step;
  const Step& of = job.steps[*step];
  if (instant.when == When::after && instant.after > of.lasts + same_time) {
    complain(entry.when->place,
             fmt::format("when: {} is later than step {} can last, {}", job::quote(entry.when->value),
                         job::quote(of.name), units::show(of.lasts, Quantity::time, job.world)));
    return std::nullopt;
  }
  // At its last moment the next step's commands are not given yet: that is its end.
  if (instant.when == When::after && of.until.empty() && instant.after >= of.lasts - same_time) instant = {};
  return watch_at(what, instant, entry.when ? *entry.when : entry.step ? *entry.step : entry.at);
}

std::optional<double> Intake::accuracy_of(const Entry& entry, const Watch& watch) {
  if (!entry.accuracy) return watch.accuracy;
  const std::string owner = fmt::format("accuracy of {}", entry.at.value);
  if (watch.instrument == Instrument::contact) {
    complain(entry.accuracy->place, owner + ": a switch is on or off; leave it out");
    return std::nullopt;
  }
  const Understood read = accuracy_from(watch, entry.accuracy->value);
  if (!read.value) {
    complain(entry.accuracy->place, fmt::format("{}: {}", owner, read.fault));
    return std::nullopt;
  }
  if (*read.value > 0.0) return read.value;
  complain(entry.accuracy->place,
           fmt::format("{} is {}; every instrument is off by something: write by how much at most, or leave "
                       "it out for the usual {}",
                       owner, job::quote(entry.accuracy->value),
                       units::show_difference(watch.accuracy, quantity_of(watch), instruments_.job().world)));
  return std::nullopt;
}

void Intake::take(const Entry& entry) {
  const Job& job = instruments_.job();
  const auto w = watch_of(entry);
  const auto named = w ? w : instruments_.find(entry.at.value);
  if (!named) return;
  const Watch of = watch(*named);
  const Understood value = value_from(of, entry.value.value);
  const std::string fault =
      !value.fault.empty() ? value.fault
      : value.value        ? fault_of_value(of, job, *value.value, unit_behind(entry.value.value), job.world)
                           : std::string();
  // How long a step can last is known only where the step is.
  const bool blamed = !fault.empty() && (w || of.instrument != Instrument::stop_watch);
  if (blamed) complain(entry.value.place, fmt::format("value of {}: {}", of.at, fault));
  const auto accuracy = accuracy_of(entry, of);
  if (w && fault.empty() && accuracy) add({*w, value.value, *accuracy, entry.at.place});
}

void Intake::add(const Reading& reading) {
  const auto [known, fresh] = taken_.try_emplace(reading.watch, readings_.list.size());
  if (fresh) {
    readings_.list.push_back(reading);
    return;
  }
  const Reading& first = readings_.list[known->second];
  const Watch& of = watch(reading.watch);
  const bool same =
      first.value.has_value() == reading.value.has_value() &&
      (!first.value || std::abs(*first.value - *reading.value) <= 1e-9 * std::abs(*first.value));
  if (same) return;
  const Job& job = instruments_.job();
  complain(reading.place,
           fmt::format("{} reads {} here and {} in line {}; one machine shows one of them: keep that",
                       name_of(of, job), written(of, job, reading.value), written(of, job, first.value),
                       first.place.line));
}

std::variant<Readings, Complaints> Intake::end(std::string_view file_name) && {
  constexpr std::size_t most = 500;
  if (remarks_.empty() && readings_.list.empty())
    complain({},
             "there is no reading in it; write at least one, with what was read, where and in which step");
  if (remarks_.empty()) return std::move(readings_);
  std::ranges::stable_sort(remarks_, [](const Remark& a, const Remark& b) {
    return std::tie(a.place.line, a.place.column) < std::tie(b.place.line, b.place.column);
  });
  if (remarks_.size() > most) {
    const std::size_t left = remarks_.size() - most;
    remarks_.resize(most);
    complain(remarks_.back().place, fmt::format("and {} more complaints behind this one", left));
  }
  return Complaints{std::string(file_name), std::move(remarks_)};
}

}  // namespace poise::diagnose
