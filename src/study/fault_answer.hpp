// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "judge/outcome.hpp"
#include "rules/rule.hpp"

namespace poise::study {

/// How bad a fault is, in words; no chances are given, since nobody has them.
enum class Severity { hurts, damages, works_badly, not_proven, nothing_breaks };
std::string_view words_of(Severity severity);
Severity severity_of(rules::Harm harm);

/// Something that held on the sound machine and does not on the faulty one.
struct Break {
  std::string name;  ///< of the promise
  std::string text;  ///< what was found
  Severity severity = Severity::works_badly;
  double time = 0.0;  ///< when it shows itself broken, s
};

/// What of the circuit lets a person see that something is wrong.
struct Shown {
  enum class By { gauge, contact, motion, nothing };
  By by = By::nothing;
  bool before = false;  ///< it shows before anything breaks
  std::string text;
};
/// "gauge", "switch", "motion", "nothing".
std::string_view words_of(Shown::By by);
/// "before it breaks", "when it breaks", "only by what moves", "by nothing in this circuit"; "yes" for
/// "before" where nothing breaks.
std::string_view when_shown(const Shown& shown, bool breaks);

/// What one case shows: one fault, or two, at one size. All texts are in the job's units.
struct FaultAnswer {
  double t = 1.0;      ///< its size, from slight (0) to grave (1)
  std::string change;  ///< the same in words
  Outcome outcome = Outcome::not_proven;
  std::vector<Break> breaks;  ///< the worst first
  Severity severity = Severity::not_proven;
  Shown shown;
  std::vector<std::string> protects;      ///< what acts that does not act, or less, on the sound machine
  std::vector<std::string> left_pressed;  ///< what is still pressed at the end and should not be
  std::string ended;                      ///< why the run ended early; empty: it did not
};

nlohmann::json to_json(const FaultAnswer& answer);
/// None where the text is not the JSON of an answer.
std::optional<FaultAnswer> answer_from(std::string_view json_text);

}  // namespace poise::study
