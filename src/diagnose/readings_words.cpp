// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/readings_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "units/text.hpp"

namespace poise::diagnose {
namespace {

using CameWord = std::pair<std::string_view, Comes>;
constexpr std::array came_words{
    CameWord{"slowly", Comes::slowly},
    CameWord{"suddenly", Comes::suddenly},
    CameWord{"after work", Comes::after_work},
    CameWord{"in the cold", Comes::in_the_cold},
};

std::string lower(std::string_view text) {
  std::string all(units::trimmed(text));
  for (char& c : all) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return all;
}

/// Tags of what moves in these watches.
std::vector<std::string> movers_of(const Job& job, const std::vector<Watch>& watches) {
  std::vector<std::string> tags;
  for (const Watch& watch : watches) {
    if (watch.mover < 0) continue;
    const std::string& tag = job.plan.parts[watch.mover].tag;
    if (std::ranges::find(tags, tag) == tags.end()) tags.push_back(tag);
  }
  return tags;
}

std::variant<Instant, std::string> of_mover(std::string_view tag, When when, const Job& job,
                                            const std::vector<Watch>& watches) {
  tag = units::trimmed(tag);
  const std::vector<std::string> tags = movers_of(job, watches);
  if (std::ranges::find(tags, tag) == tags.end())
    return fmt::format("no actuator {} moves in the cycle{}", job::quote(tag), job::hint(tag, tags));
  const auto part = std::ranges::find(job.plan.parts, tag, &PlannedPart::tag);
  return Instant{.when = when, .mover = static_cast<int>(part - job.plan.parts.begin())};
}

bool begins_with_a_number(std::string_view text) {
  if (text.starts_with('+') || text.starts_with('-')) text.remove_prefix(1);
  return !text.empty() && (text.front() == '.' || (text.front() >= '0' && text.front() <= '9'));
}

void take_looked(Looked& looked, std::string_view key, std::string_view bad, const job::Text& value,
                 job::Remarks& remarks) {
  const std::string word = lower(value.value);
  if (word == "good") {
    looked = Looked::good;
  } else if (word == bad) {
    looked = Looked::bad;
  } else {
    const std::vector<std::string> known{"good", std::string(bad)};
    remarks.push_back({value.place, fmt::format("{}: {} is not a word for it; write {}", key,
                                                job::quote(value.value), job::listed(known))});
  }
}

void take_came(std::optional<Comes>& came, const job::Text& value, job::Remarks& remarks) {
  const auto known = std::ranges::find(came_words, lower(value.value), &CameWord::first);
  if (known != came_words.end()) {
    came = known->second;
    return;
  }
  std::vector<std::string> words;
  for (const auto& [word, meant] : came_words) words.emplace_back(word);
  remarks.push_back(
      {value.place, fmt::format("came: {} is not a word for it; write {}, or leave it out where nobody knows",
                                job::quote(value.value), job::listed(words))});
}

}  // namespace

std::string instant_in_words(const Watch& watch, const Job& job) {
  switch (watch.when) {
    case When::end:
      return "end";
    case When::half_way:
      return "half way";
    case When::starts:
      return job.plan.parts[watch.mover].tag + " starts";
    case When::moves:
      return job.plan.parts[watch.mover].tag + " moves";
    case When::after:
      return fmt::format("{:.10g} {}", units::in_unit(watch.after, Quantity::time, job.world),
                         job.world[Quantity::time]);
  }
  return {};
}

std::variant<Instant, std::string> instant_from(std::string_view words, const Job& job,
                                                const std::vector<Watch>& watches) {
  constexpr std::string_view starts = " starts", moves = " moves";
  words = units::trimmed(words);
  const std::string word = lower(words);
  if (word == "end") return Instant{};
  if (word == "half way") return Instant{.when = When::half_way};
  if (word.ends_with(starts))
    return of_mover(words.substr(0, words.size() - starts.size()), When::starts, job, watches);
  if (word.ends_with(moves))
    return of_mover(words.substr(0, words.size() - moves.size()), When::moves, job, watches);
  if (begins_with_a_number(words)) {
    const units::Reading time = units::read(words, Quantity::time);
    if (!time.value) return time.complaint;
    if (*time.value < 0.0)
      return fmt::format("{} lies before the step begins; count from its beginning", job::quote(words));
    return Instant{.when = When::after, .after = *time.value};
  }
  std::vector<std::string> known{"end", "half way"};
  for (const std::string& tag : movers_of(job, watches)) {
    known.push_back(tag + " starts");
    known.push_back(tag + " moves");
  }
  return fmt::format("{} is no moment of a step{}; a time such as \"1.2 s\" counts from its beginning",
                     job::quote(words), job::hint(words, known));
}

const std::vector<std::string>& occasion_keys() {
  static const std::vector<std::string> keys{"date", "by", "came", "since", "after", "level", "filter"};
  return keys;
}

void take_occasion(Readings& readings, std::string_view key, const job::Text& value, job::Remarks& remarks) {
  const std::string text(units::trimmed(value.value));
  if (key == "came") return take_came(readings.came, value, remarks);
  if (key == "level") return take_looked(readings.level, key, "low", value, remarks);
  if (key == "filter") return take_looked(readings.filter, key, "clogged", value, remarks);
  if (key == "date") readings.date = text;
  if (key == "by") readings.by = text;
  if (key == "since") readings.since = text;
  if (key == "after") readings.after = text;
}

std::vector<std::pair<std::string, std::string>> occasion_of(const Readings& readings) {
  std::vector<std::pair<std::string, std::string>> all;
  const auto add = [&](std::string_view key, std::string_view value) {
    if (!value.empty()) all.emplace_back(key, value);
  };
  const auto looked = [](Looked state, std::string_view bad) -> std::string_view {
    if (state == Looked::no) return {};
    return state == Looked::good ? std::string_view("good") : bad;
  };
  add("date", readings.date);
  add("by", readings.by);
  const auto came = std::ranges::find(came_words, readings.came, &CameWord::second);
  if (came != came_words.end()) add("came", came->first);
  add("since", readings.since);
  add("after", readings.after);
  add("level", looked(readings.level, "low"));
  add("filter", looked(readings.filter, "clogged"));
  return all;
}

std::string_view unit_behind(std::string_view value) {
  value = units::trimmed(value);
  if (value.starts_with('+')) value.remove_prefix(1);
  double number = 0.0;
  const auto [end, error] = std::from_chars(value.data(), value.data() + value.size(), number);
  if (error != std::errc{}) return {};
  return units::trimmed(value.substr(static_cast<std::size_t>(end - value.data())));
}

}  // namespace poise::diagnose
