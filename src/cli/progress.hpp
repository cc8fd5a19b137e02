// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <chrono>
#include <string>

namespace poise::cli {

/// A line on the terminal with the share done and the time left, once work has lasted a second; and Ctrl-C,
/// or the end of the session, as a wish to stop, not as a crash. One at a time.
class Progress {
 public:
  explicit Progress(std::string what);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  /// Shows where the work stands, 0…1. False once the person has asked to stop.
  bool at(double share);

 private:
  using Clock = std::chrono::steady_clock;
  std::string what_;
  bool terminal_;
  bool shown_ = false;
  Clock::time_point begin_ = Clock::now(), last_ = begin_;
};

}  // namespace poise::cli
