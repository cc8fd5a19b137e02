// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <chrono>
#include <fstream>
#include <functional>
#include <map>
#include <mutex>
#include <semaphore>
#include <string>
#include <thread>
#include <vector>

#include "desk/study.hpp"

namespace poise::desk {

/// Studies whose runs end only when the test lets them: what the desk makes of studies is seen without the
/// runs of a machine. They are recorded as a line each beside the job.
class MadeUpStudies {
 public:
  Studies studies() {
    return {.run = [this](const StudyOf& of, unsigned threads,
                          const Studies::At& at) { return run(of, threads, at); },
            .read = [](const StudyOf& of, const units::World& world) { return read(of, world); }};
  }
  /// Lets so many further runs come to their end.
  void let(int runs) { gate_.release(runs); }
  /// What the next studies end with instead of running.
  void fail_with(std::string trouble) {
    const std::lock_guard lock(mutex_);
    trouble_ = std::move(trouble);
  }
  std::vector<StudyOf> begun() const {
    const std::lock_guard lock(mutex_);
    return begun_;
  }
  std::vector<unsigned> threads() const {
    const std::lock_guard lock(mutex_);
    return threads_;
  }

 private:
  static constexpr long faults = 3;

  std::string run(const StudyOf& of, unsigned threads, const Studies::At& at) {
    {
      const std::lock_guard lock(mutex_);
      begun_.push_back(of);
      threads_.push_back(threads);
      if (trouble_ == "throws") throw std::runtime_error("a made-up invariant");
      if (!trouble_.empty()) return trouble_;
    }
    const long wanted = of.kind == "faults" ? faults : of.wanted;
    for (long done = count(of); done < wanted; ++done) {
      do {
        if (!at(static_cast<double>(done) / static_cast<double>(wanted))) return "";
      } while (!gate_.try_acquire_for(std::chrono::milliseconds(1)));
      std::ofstream(of.record(), std::ios::app) << line_of(of) << '\n';
    }
    return "";
  }

  static std::string line_of(const StudyOf& of) {
    return of.kind + ' ' + std::to_string(std::hash<std::string>()(of.text));
  }
  static long count(const StudyOf& of) {
    std::ifstream in(of.record());
    long count = 0;
    for (std::string line; std::getline(in, line);) count += line == line_of(of) ? 1 : 0;
    return count;
  }
  static std::optional<Recorded> read(const StudyOf& of, const units::World& world) {
    if (const long done = count(of); done > 0) return Recorded{{{"done", done}, {"units", world.name}}, true};
    std::ifstream in(of.record());
    std::map<std::string, long> counts;
    std::string last;
    for (std::string line; std::getline(in, line);) {
      if (!line.starts_with(of.kind)) continue;
      last = line;
      ++counts[line];
    }
    if (last.empty()) return std::nullopt;
    return Recorded{{{"done", counts[last]}, {"units", world.name}}, false};
  }

  std::counting_semaphore<> gate_{0};
  mutable std::mutex mutex_;
  std::string trouble_;
  std::vector<StudyOf> begun_;
  std::vector<unsigned> threads_;
};

}  // namespace poise::desk
