// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <atomic>
#include <chrono>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

namespace poise::desk {

/// One run that somebody waits for; others may look how far it is and stop it.
class Work {
 public:
  /// Notes how far the run is, 0…1; false when it is to stop.
  bool at(double share) {
    share_ = share;
    return why_ == Why::none;
  }
  enum class Why { none, stopped, overtaken };
  void stop(Why why) {
    Why none = Why::none;
    why_.compare_exchange_strong(none, why);
  }
  Why why() const { return why_; }

  struct Progress {
    double share = 0.0;
    double left = 0.0;  ///< s, at the pace so far
  };
  Progress progress() const;

 private:
  using Clock = std::chrono::steady_clock;
  std::atomic<double> share_ = 0.0;
  std::atomic<Why> why_ = Why::none;
  Clock::time_point begin_ = Clock::now();
};

/// The runs of a job under way, one for each tab of a browser.
class Works {
 public:
  /// A new run for a tab; an earlier one of the same tab is stopped as overtaken.
  std::shared_ptr<Work> begin(const std::string& tab);
  void end(const std::string& tab, const std::shared_ptr<Work>& work);
  void stop(const std::string& tab);
  /// Stops all of them, and whatever begins from now on.
  void close();
  /// None: nothing runs for this tab.
  std::optional<Work::Progress> progress(const std::string& tab) const;

 private:
  mutable std::mutex mutex_;
  std::map<std::string, std::shared_ptr<Work>> works_;
  bool closed_ = false;
};

}  // namespace poise::desk
