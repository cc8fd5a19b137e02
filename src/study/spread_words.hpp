// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "study/spread_answer.hpp"

namespace poise::study {

/// How the values of a machine are taken to be off, in one sentence.
std::string shape_in_words(const Spread& spread);

/// "97.3 % (96.9 … 97.6 %) of 10,000 machines keep every promise"
std::string answer_in_words(const SpreadAnswer& answer);

/// "V2.setting 117 bar (−2.4 %)"
std::string off_in_words(const search::Loose& loose, double off, const Job& job);

/// The room below which a share of the machines lies: "1.79 s"; "none, it never comes".
std::string room_in_words(const PromiseSpread& of, double share, const Job& job);

/// What becomes of a promise on one machine: "0.12 s left", "broken by 1.20 bar", "broken".
std::string kept_in_words(const Kept& kept, const Promise& promise, const Job& job);

/// "V2.setting 61 %, R1.friction 12 %": what drives a margin, down to a share of 2 %, at most `most` of them.
std::string drivers_in_words(const PromiseSpread& of, const Spread& spread, std::size_t most);

/// What those have in common that break a promise: "K1.arm_factor 81.3 % (−9.7 %)"; at most `most` values.
std::string typical_in_words(const PromiseSpread& of, const Spread& spread, std::size_t most);

/// Where it breaks first: "at 0.62 of the tolerances: V2.setting 117 bar (−1.9 %), ..."; empty where that is
/// not known.
std::string nearest_in_words(const std::optional<Nearest>& nearest, const Spread& spread);

/// "its kind", "its list", "the job", "usual".
std::string_view words_of(search::Loose::From from);

/// A spread for a person at a terminal, at most 100 columns wide. `nearest` has one entry for each promise,
/// or none at all.
std::string show(const SpreadAnswer& answer, const std::vector<std::optional<Nearest>>& nearest,
                 const Spread& spread, bool colour);

}  // namespace poise::study
