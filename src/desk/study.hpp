// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <chrono>
#include <condition_variable>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <semaphore>
#include <string>
#include <thread>

#include "desk/json.hpp"
#include "units/units.hpp"

namespace poise::desk {

/// What a study is of: a job's text as it stands or stood.
struct StudyOf {
  std::string kind;  ///< "spread", "faults" or "readings"
  std::string job;   ///< its file name
  std::string text;
  std::filesystem::path folder;  ///< the job's; its record lies there too
  long wanted = 0;               ///< machines of a spread

  /// The file beside the job that every finished run is recorded in.
  std::filesystem::path record() const;
  bool operator==(const StudyOf&) const = default;
};

/// What is recorded of a study.
struct Recorded {
  Json answer;
  bool of_this_text = true;  ///< false: of an earlier text of the job
};

/// How studies are run and read: by the room `study`, or by what a test puts in its place.
struct Studies {
  /// Told the share of what is wanted that is done, 0…1, by any of its threads; false: it is to end.
  using At = std::function<bool(double)>;
  /// Runs what is not recorded yet on so many threads. Empty, or why it could not go on, in a sentence.
  std::function<std::string(const StudyOf&, unsigned threads, const At& at)> run;
  /// What is recorded by now of this text, else of the latest earlier one; none where nothing is.
  std::function<std::optional<Recorded>(const StudyOf&, const units::World&)> read;
};

/// Studies take turns, whatever job they are of: more at once would not be done sooner.
using StudyTurn = std::counting_semaphore<>;

/// The studies of one kind of one job: one at a time, in a thread of its own, behind every proof of an edit.
/// Safe from several threads.
class StudyRunner {
 public:
  StudyRunner(const Studies& studies, StudyTurn& turn) : studies_(studies), turn_(turn) {}
  ~StudyRunner() { close(); }
  StudyRunner(const StudyRunner&) = delete;
  StudyRunner& operator=(const StudyRunner&) = delete;

  /// Runs this study from now on, in the place of another one. The same one, where it runs, goes on.
  void begin(const StudyOf& of);
  /// Ends what runs; what is done of it is recorded.
  void stop();
  /// Ends what runs, and begins no other. Does not wait for it.
  void close();

  struct State {
    std::optional<StudyOf> running;
    bool waits = false;  ///< another study has its turn
    double share = 0.0;
    std::optional<double> left;  ///< s, at the pace so far
    std::string trouble;         ///< why the last one ended before its end
  };
  State state() const;

  /// What is known of a study, with a number that rises with every other answer; 0: nothing.
  struct Known {
    long number = 0;
    std::shared_ptr<const Recorded> recorded;
  };
  Known known(const StudyOf& of, const units::World& world);

 private:
  using Clock = std::chrono::steady_clock;
  struct Read {
    StudyOf of;
    std::string stamp;
    Known known;
    Clock::time_point when;
    Clock::duration took{};
  };
  void work();
  void run(const StudyOf& of, long wish);
  bool take_turn(long wish);
  bool at(double share, long wish);

  const Studies& studies_;
  StudyTurn& turn_;
  mutable std::mutex mutex_;  ///< of what stands below
  std::condition_variable wished_;
  std::optional<StudyOf> wanted_;
  long wish_ = 0;  ///< number of the latest wish to begin or to end
  bool closed_ = false, waits_ = false;
  double share_ = 0.0;
  std::optional<std::pair<double, Clock::time_point>> first_;  ///< the first share heard above 0, and when
  std::string trouble_;

  std::mutex reading_;                ///< of what stands below
  std::map<std::string, Read> read_;  ///< by world of units
  long answers_ = 0;

  std::jthread thread_;  ///< last: it ends before what it uses goes
};

}  // namespace poise::desk
