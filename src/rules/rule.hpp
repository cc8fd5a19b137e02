// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace poise::rules {

class Sight;

/// What becomes of it where a rule is not kept, the worst first.
enum class Harm { hurts, damages, works_badly, worth_knowing };

/// "can hurt someone", "can damage", "works badly", "worth knowing".
std::string_view words_of(Harm harm);

/// One place where a rule is not kept.
struct Found {
  int part = -1;                 ///< of the plan; −1: the circuit as a whole
  std::string sentence;          ///< what is so, with this job's numbers
  std::string remedy;            ///< what to do about it, with this job's numbers
  std::optional<double> time{};  ///< s, where a moment of the run decides
  std::vector<int> also{};       ///< further parts of which the sentence says that it is likewise with them
};

/// What one look at a job found.
class Report {
 public:
  void add(Found found) { found_.push_back(std::move(found)); }
  void add(int part, std::string sentence, std::string remedy, std::optional<double> time = {}) {
    found_.push_back({part, std::move(sentence), std::move(remedy), time, {}});
  }
  /// What was added last is likewise with these parts.
  void also(const std::vector<int>& parts) { found_.back().also = parts; }
  std::vector<Found>& found() { return found_; }

 private:
  std::vector<Found> found_;
};

/// A rule of the trade that can be computed: what has to hold, why, and the look that finds where it does
/// not.
struct TradeRule {
  std::string_view name;  ///< plain words, unique; what `poise rules NAME` and waivers call it
  Harm harm = Harm::works_badly;
  std::string_view holds;      ///< when it applies and what has to hold, with the threshold and its unit
  std::string_view otherwise;  ///< what happens where it does not
  std::string_view remedy;     ///< what to do, in general
  std::string_view source = "common practice";
  std::span<const std::string_view> kinds{};  ///< parts that it concerns, for their pages; empty: the circuit
  void (*look)(const Sight&, Report&) = nullptr;
};

}  // namespace poise::rules
