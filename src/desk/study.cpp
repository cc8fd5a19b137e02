// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/study.hpp"

#include <fmt/format.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <exception>
#include <system_error>

#include "search/cores.hpp"

namespace poise::desk {
namespace {

/// Leaves a core for the proofs of edits.
unsigned threads_for_studies() {
  return static_cast<unsigned>(std::max<std::size_t>(2, search::cores_allowed())) - 1;
}

/// Where the cores do not suffice the proof of an edit goes first. Threads begun by this one are as patient.
void be_patient() {
  constexpr int patience = 10;
  setpriority(PRIO_PROCESS, static_cast<id_t>(gettid()), patience);
}

/// Another one wherever something was written to the record: SQLite writes beside the file first.
std::string stamp_of(const std::filesystem::path& record) {
  std::string stamp;
  for (const char* end : {"", "-wal"}) {
    std::filesystem::path path = record;
    path += end;
    std::error_code error;
    const auto size = std::filesystem::file_size(path, error);
    if (error) continue;
    const auto time = std::filesystem::last_write_time(path, error);
    stamp += fmt::format("{}:{} ", size, time.time_since_epoch().count());
  }
  return stamp;
}

}  // namespace

std::filesystem::path StudyOf::record() const {
  return folder / std::filesystem::path(job).replace_extension(".studies");
}

void StudyRunner::begin(const StudyOf& of) {
  const std::lock_guard lock(mutex_);
  if (closed_ || wanted_ == of) return;
  wanted_ = of;
  ++wish_;
  trouble_.clear();
  first_.reset();
  share_ = 0.0;
  if (!thread_.joinable()) thread_ = std::jthread([this] { work(); });
  wished_.notify_all();
}

void StudyRunner::stop() {
  const std::lock_guard lock(mutex_);
  wanted_.reset();
  ++wish_;
}

void StudyRunner::close() {
  const std::lock_guard lock(mutex_);
  closed_ = true;
  wanted_.reset();
  ++wish_;
  wished_.notify_all();
}

StudyRunner::State StudyRunner::state() const {
  const std::lock_guard lock(mutex_);
  State state{.running = wanted_, .waits = waits_, .share = share_, .left = {}, .trouble = trouble_};
  if (first_ && share_ > first_->first) {
    const std::chrono::duration<double> gone = Clock::now() - first_->second;
    state.left = gone.count() * (1.0 - share_) / (share_ - first_->first);
  }
  return state;
}

void StudyRunner::work() {
  be_patient();
  std::unique_lock lock(mutex_);
  for (;;) {
    wished_.wait(lock, [this] { return closed_ || wanted_; });
    if (closed_) return;
    const StudyOf of = *wanted_;
    const long wish = wish_;
    lock.unlock();
    run(of, wish);
    lock.lock();
  }
}

void StudyRunner::run(const StudyOf& of, long wish) {
  if (!take_turn(wish)) return;
  std::string trouble;
  try {
    trouble = studies_.run(of, threads_for_studies(), [this, wish](double share) { return at(share, wish); });
  } catch (const std::exception& error) {
    trouble = fmt::format("Poise failed at this study: {}", error.what());
  }
  turn_.release();
  const std::lock_guard lock(mutex_);
  if (wish_ != wish) return;
  wanted_.reset();
  trouble_ = std::move(trouble);
}

bool StudyRunner::take_turn(long wish) {
  constexpr std::chrono::milliseconds look_again{20};
  for (;;) {
    const bool taken = turn_.try_acquire_for(look_again);
    const std::lock_guard lock(mutex_);
    waits_ = !taken && wish_ == wish;
    if (wish_ == wish && !taken) continue;
    if (wish_ != wish && taken) turn_.release();
    return wish_ == wish;
  }
}

bool StudyRunner::at(double share, long wish) {
  const std::lock_guard lock(mutex_);
  if (wish_ != wish) return false;
  share_ = std::max(share_, std::clamp(share, 0.0, 1.0));
  if (!first_ && share_ > 0.0) first_ = {share_, Clock::now()};
  return true;
}

/// Reading takes a fifth of the time at most while runs are recorded all along.
StudyRunner::Known StudyRunner::known(const StudyOf& of, const units::World& world) {
  constexpr int rest = 4;
  const std::lock_guard lock(reading_);
  const std::string stamp = stamp_of(of.record());
  const auto begin = Clock::now();
  Read& last = read_[world.name];
  const bool same = last.of == of && last.known.number > 0;
  if (same && (last.stamp == stamp || begin - last.when < rest * last.took)) return last.known;
  auto recorded = studies_.read(of, world);
  if (!recorded) {
    last = {};
    return {};
  }
  const auto end = Clock::now();
  last = {of, stamp, {++answers_, std::make_shared<const Recorded>(std::move(*recorded))}, end, end - begin};
  return last.known;
}

}  // namespace poise::desk
