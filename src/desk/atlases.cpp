// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/atlases.hpp"

#include <algorithm>
#include <utility>

#include "desk/recorded.hpp"
#include "diagnose/kept.hpp"

namespace poise::desk {
namespace {

constexpr std::size_t atlases_held = 4;

}  // namespace

std::shared_ptr<Atlases::Entry> Atlases::entry(const StudyOf& of) {
  const std::lock_guard lock(mutex_);
  const auto is_of = [&](const auto& each) {
    return each->job == of.folder / of.job && each->text == of.text;
  };
  const auto found = std::ranges::find_if(entries_, is_of);
  std::shared_ptr<Entry> entry = found == entries_.end() ? std::make_shared<Entry>(of) : *found;
  if (found != entries_.end()) entries_.erase(found);
  entries_.push_front(entry);
  if (entries_.size() > atlases_held) entries_.pop_back();
  return entry;
}

void Atlases::prepare(Entry& entry, const StudyOf& of) {
  Held held;
  const auto job = job_of(of);
  if (const auto* why = std::get_if<std::string>(&job)) {
    held.complaint = *why;
  } else {
    auto prepared = diagnose::prepare_atlas(std::get<Job>(job), [this] { return !closed_; });
    if (const auto* no_answer = std::get_if<std::string>(&prepared)) held.complaint = *no_answer;
    if (auto* work = std::get_if<diagnose::AtlasWork>(&prepared))
      held.work = std::make_shared<const diagnose::AtlasWork>(std::move(*work));
  }
  if (held.work) {
    auto kept = diagnose::kept_atlas(*held.work, of.text, version_, of.record(), diagnose::Much::all);
    if (kept) held.atlas = std::make_shared<const diagnose::Atlas>(*std::move(kept));
  }
  const std::lock_guard lock(entry.mutex);
  entry.held = std::move(held);
}

Atlases::Held Atlases::of(const StudyOf& of) {
  const std::shared_ptr<Entry> entry = this->entry(of);
  const std::lock_guard preparing(entry->preparing);
  const auto there = [&] {
    const std::lock_guard lock(entry->mutex);
    return entry->held;
  };
  Held held = there();
  if (held.work || !held.complaint.empty()) return held;
  prepare(*entry, of);
  return there();
}

std::string Atlases::run(const StudyOf& of, unsigned threads, const Studies::At& at) {
  const Held held = this->of(of);
  if (!held.work) return held.complaint;
  if (held.atlas) return "";
  auto atlas =
      diagnose::atlas_of(*held.work, of.text, version_, of.record(), diagnose::Much::all, at, threads);
  if (!atlas) return "";
  const std::shared_ptr<Entry> entry = this->entry(of);
  const std::lock_guard lock(entry->mutex);
  entry->held = {held.work, std::make_shared<const diagnose::Atlas>(*std::move(atlas)), ""};
  return "";
}

}  // namespace poise::desk
