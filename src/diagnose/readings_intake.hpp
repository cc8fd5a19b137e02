// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "circuit/circuit.hpp"
#include "diagnose/reading.hpp"
#include "diagnose/readings_words.hpp"
#include "job/job.hpp"
#include "job/section.hpp"

namespace poise::diagnose {

/// One reading as it stands in a file, whatever the file's form.
struct Entry {
  job::Text at;
  job::Text value;
  std::optional<job::Text> step{}, when{}, accuracy{};
};

/// What of a machine can be read, by the names that people give it.
class Instruments {
 public:
  /// Views both, which must outlive it.
  Instruments(const Job& job, const std::vector<Watch>& watches);

  /// A watch of what is read there: a name of the list, any port of the same oil, a signal's name. None where
  /// nothing is known by this name.
  std::optional<std::size_t> find(std::string_view name) const;
  /// Why nothing is, and what was likely meant.
  std::string unknown(std::string_view name) const;
  /// All watches of one name of the list.
  const std::vector<std::size_t>& of(const std::string& at) const { return by_name_.at(at); }

  const Job& job() const { return *job_; }
  const std::vector<Watch>& watches() const { return *watches_; }

 private:
  std::optional<PortOf> port(std::string_view name) const;
  std::string unknown_on(const PlannedPart& part, std::string_view name) const;

  const Job* job_;
  const std::vector<Watch>* watches_;
  Circuit circuit_;
  std::map<std::string, std::vector<std::size_t>, std::less<>> by_name_{};
};

/// The step by its name, or by its number from 1; none where there is no such step.
std::optional<std::size_t> step_called(const Job& job, std::string_view name);
/// `there is no step "clmp"; did you mean "clamp"?`
std::string unknown_step(const Job& job, std::string_view name);
/// When a step begins in the cycle, s, where all before it last their time.
std::optional<double> begin_of(const Job& job, std::size_t step);

/// Takes readings in, one by one, and collects what is wrong with them.
class Intake {
 public:
  Intake(const Job& job, const std::vector<Watch>& watches) : instruments_(job, watches) {}

  const Instruments& instruments() const { return instruments_; }
  Readings& readings() { return readings_; }
  job::Remarks& remarks() { return remarks_; }
  void complain(Place place, std::string sentence) { remarks_.push_back({place, std::move(sentence)}); }

  void take(const Entry& entry);
  /// A reading whose watch and value are known already. A second one of the same watch has to agree.
  void add(const Reading& reading);
  /// What was taken in, or the complaints.
  std::variant<Readings, Complaints> end(std::string_view file_name) &&;

 private:
  std::optional<std::size_t> watch_of(const Entry& entry);
  std::optional<std::size_t> step_of(const Entry& entry, const Watch& watch, Instant& instant);
  std::optional<std::size_t> step_at(double time, const job::Text& said, Instant& instant);
  std::optional<std::size_t> watch_at(const Watch& what, const Instant& instant, const job::Text& said);
  bool moves_in(int mover, std::size_t step) const;
  std::string steps_of(int mover) const;
  std::optional<double> accuracy_of(const Entry& entry, const Watch& watch);
  const Watch& watch(std::size_t at) const;

  Instruments instruments_;
  Readings readings_{};
  job::Remarks remarks_{};
  std::map<std::size_t, std::size_t> taken_{};  ///< watch, place in the list of readings
};

}  // namespace poise::diagnose
