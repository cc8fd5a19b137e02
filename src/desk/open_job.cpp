// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/open_job.hpp"

#include <utility>

namespace poise::desk {
namespace {

constexpr std::size_t longest_history = 500;

}  // namespace

OpenJob::OpenJob(const Folder& folder, std::string name, std::string text)
    : folder_(&folder), name_(std::move(name)) {
  show(std::move(text));
}

std::shared_ptr<const Edition> OpenJob::present() {
  const std::lock_guard lock(mutex_);
  take_over_the_file();
  return present_;
}

OpenJob::Written OpenJob::write(long revision, const std::string& text, const std::string& says) {
  const std::lock_guard lock(mutex_);
  take_over_the_file();
  if (revision != present_->revision) return {.edition = present_, .stale = true, .complaint = {}};
  if (text == present_->text) return {.edition = present_, .complaint = {}};
  std::string complaint = in_the_way();
  if (complaint.empty()) complaint = folder_->write(name_, text);
  if (!complaint.empty()) return {.edition = present_, .complaint = std::move(complaint)};
  forth_.clear();
  back_.push_back({present_->text, says});
  if (back_.size() > longest_history) back_.erase(back_.begin());
  show(text);
  return {.edition = present_, .complaint = {}};
}

OpenJob::Written OpenJob::undo(long revision) {
  const std::lock_guard lock(mutex_);
  return go(revision, back_, forth_);
}

OpenJob::Written OpenJob::redo(long revision) {
  const std::lock_guard lock(mutex_);
  return go(revision, forth_, back_);
}

OpenJob::Written OpenJob::go(long revision, std::vector<Past>& from, std::vector<Past>& to) {
  take_over_the_file();
  if (revision != present_->revision) return {.edition = present_, .stale = true, .complaint = {}};
  if (from.empty()) return {.edition = present_, .complaint = {}};
  std::string complaint = in_the_way();
  if (complaint.empty()) complaint = folder_->write(name_, from.back().text);
  if (!complaint.empty()) return {.edition = present_, .complaint = std::move(complaint)};
  Past past = std::move(from.back());
  from.pop_back();
  to.push_back({present_->text, past.says});
  show(std::move(past.text));
  return {.edition = present_, .complaint = {}};
}

/// A file that is gone keeps its last text here: the next change writes it anew.
void OpenJob::take_over_the_file() {
  auto on_disk = folder_->read(name_);
  if (!on_disk || *on_disk == present_->text) return;
  forth_.clear();
  back_.push_back({present_->text, "a change made outside"});
  show(std::move(*on_disk));
}

std::string OpenJob::in_the_way() const {
  if (!folder_->holds_something_else(name_)) return {};
  return "\"" + name_ +
         "\" was replaced by something that cannot be read as a job: it is no plain file, not yours to read, "
         "or "
         "larger than 4 MB; move it away, then save again";
}

void OpenJob::show(std::string text) {
  auto next = std::make_shared<Edition>();
  next->revision = present_ ? present_->revision + 1 : 1;
  next->reading = job::read_as_far_as_understood(text, name_, job::ReadTo::run, folder_->path());
  next->text = std::move(text);
  if (!back_.empty()) next->undo = back_.back().says;
  if (!forth_.empty()) next->redo = forth_.back().says;
  present_ = std::move(next);
}

}  // namespace poise::desk
