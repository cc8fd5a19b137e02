// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "diagnose/reading.hpp"
#include "job/job.hpp"
#include "job/section.hpp"

namespace poise::diagnose {

/// A moment within a step.
struct Instant {
  When when = When::end;
  int mover = -1;
  double after = 0.0;  ///< s
};

/// "end", "half way", "K1 starts", "K1 moves", "1.2 s": the moment of a watch as files have it.
std::string instant_in_words(const Watch& watch, const Job& job);
/// The moment that these words say, or what is wrong with them. Actuators are those that move in `watches`.
std::variant<Instant, std::string> instant_from(std::string_view words, const Job& job,
                                                const std::vector<Watch>& watches);

/// The keys that say something of all readings: date, by, came, since, after, level, filter.
const std::vector<std::string>& occasion_keys();
/// Takes what stands behind one of them; complains about a word that it does not know.
void take_occasion(Readings& readings, std::string_view key, const job::Text& value, job::Remarks& remarks);
/// Key and value of each that says something, in the order of the keys.
std::vector<std::pair<std::string, std::string>> occasion_of(const Readings& readings);

/// What follows the number of a value: "bar" of "118 bar"; empty where there is none.
std::string_view unit_behind(std::string_view value);

}  // namespace poise::diagnose
