// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/work.hpp"

#include <algorithm>

namespace poise::desk {

Work::Progress Work::progress() const {
  const std::chrono::duration<double> gone = Clock::now() - begin_;
  const double done = std::clamp(share_.load(), 1e-3, 1.0);
  return {share_.load(), gone.count() * (1.0 - done) / done};
}

std::shared_ptr<Work> Works::begin(const std::string& tab) {
  auto work = std::make_shared<Work>();
  const std::lock_guard lock(mutex_);
  std::shared_ptr<Work>& here = works_[tab];
  if (here) here->stop(Work::Why::overtaken);
  here = work;
  if (closed_) work->stop(Work::Why::stopped);
  return work;
}

void Works::end(const std::string& tab, const std::shared_ptr<Work>& work) {
  const std::lock_guard lock(mutex_);
  const auto here = works_.find(tab);
  if (here != works_.end() && here->second == work) works_.erase(here);
}

void Works::stop(const std::string& tab) {
  const std::lock_guard lock(mutex_);
  const auto here = works_.find(tab);
  if (here != works_.end()) here->second->stop(Work::Why::stopped);
}

void Works::close() {
  const std::lock_guard lock(mutex_);
  closed_ = true;
  for (const auto& [tab, work] : works_) work->stop(Work::Why::stopped);
}

std::optional<Work::Progress> Works::progress(const std::string& tab) const {
  const std::lock_guard lock(mutex_);
  const auto here = works_.find(tab);
  if (here == works_.end()) return std::nullopt;
  return here->second->progress();
}

}  // namespace poise::desk
