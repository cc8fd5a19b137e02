// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The part of the desk that runs a job and shows what came of it.
#include <fmt/format.h>
#include <malloc.h>

#include <algorithm>
#include <charconv>
#include <chrono>

#include "desk/answer.hpp"
#include "desk/desk.hpp"
#include "desk/drawing.hpp"
#include "desk/page.hpp"
#include "desk/part.hpp"
#include "desk/reply.hpp"
#include "desk/tree.hpp"
#include "desk/world.hpp"

namespace poise::desk {
namespace {

// Each thread keeps for itself what it has freed: seen, 160 MB after some rounds of a crowd, of which 80 were
// free.
constexpr long proofs_between_tidying = 4;
constexpr std::size_t proofs_kept = 6;

template <class Number>
std::optional<Number> number(const std::string& text) {
  Number value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

/// The answer where there is nothing to run.
Json cannot_run(const job::Reading& reading, long revision) {
  const std::size_t count = reading.complaints.list.size();
  return {{"run", nullptr},
          {"revision", revision},
          {"outcome", "cannot run"},
          {"line", count == 1 ? "Cannot be run: " + reading.complaints.list.front().sentence
                              : fmt::format("Cannot be run yet: {} things to mend", count)},
          {"complaints", complaints(reading)},
          {"verdict", nullptr},
          {"notice", ""},
          {"duration", 0.0},
          {"steps", Json::array()},
          {"events", Json::array()},
          {"frames", Json::array()},
          {"panels", Json::array()},
          {"milliseconds", 0}};
}

/// A run's place among those of its tab.
class Turn {
 public:
  Turn(Works& works, std::string tab) : works_(works), tab_(std::move(tab)), work_(works.begin(tab_)) {}
  ~Turn() { works_.end(tab_, work_); }
  Turn(const Turn&) = delete;
  Turn& operator=(const Turn&) = delete;
  Work& work() { return *work_; }

 private:
  Works& works_;
  std::string tab_;
  std::shared_ptr<Work> work_;
};

/// What is being proven, noted for as long as it is, however it ends.
class UnderWay {
 public:
  UnderWay(std::mutex& mutex, std::multiset<std::string>& all, std::condition_variable& done, std::string key)
      : mutex_(mutex), all_(all), done_(done), key_(std::move(key)) {}
  ~UnderWay() {
    const std::lock_guard lock(mutex_);
    all_.erase(all_.find(key_));
    done_.notify_all();
  }
  UnderWay(const UnderWay&) = delete;
  UnderWay& operator=(const UnderWay&) = delete;

 private:
  std::mutex& mutex_;
  std::multiset<std::string>& all_;
  std::condition_variable& done_;
  std::string key_;
};

/// A core for as long as a run lasts.
class Core {
 public:
  explicit Core(std::counting_semaphore<>& cores) : cores_(cores) { cores_.acquire(); }
  ~Core() { cores_.release(); }
  Core(const Core&) = delete;
  Core& operator=(const Core&) = delete;

 private:
  std::counting_semaphore<>& cores_;
};

}  // namespace

Reply Desk::prove(Place& place, const Request& request, const Json& body) {
  const auto present = place.job.present();
  std::string text = present->text;
  const bool trial = body.contains("trial") && !body["trial"].empty();
  if (trial) {
    const auto edits = read_edits(body["trial"]);
    if (!edits) return refuse(400, "these changes are not understood");
    job::Edited edited = job::edited(text, *edits);
    if (!edited.complaint.empty()) return refuse(422, edited.complaint);
    text = std::move(edited.text);
  }
  const job::Reading reading =
      trial ? job::read_as_far_as_understood(text, place.job.name(), job::ReadTo::run, folder_.path())
            : present->reading;
  if (!reading.complaints.list.empty()) return reply(cannot_run(reading, present->revision));
  Job job = reading.job;
  job.world = world_of(request, job);
  const std::vector<std::string> signals = texts_of(body, "signals");
  std::string made_from = text + '\n' + job.world.name;
  for (const std::string& signal : signals) made_from += '\n' + signal;
  Turn turn(place.works, text_of(body, "tab"));
  const auto proof = proven(place, std::move(job), made_from, signals, turn.work());
  if (!proof) return refuse(499, "overtaken by a later wish of this tab");
  if (proof->number % proofs_between_tidying == 0) ::malloc_trim(0);
  return reply(desk::answer(*proof, present->revision));
}

/// A proof of the same text is taken as it is, and waited for where it is under way: a value that was tried
/// is saved without another run. None where the wish was overtaken.
std::shared_ptr<const Proof> Desk::proven(Place& place, Job job, const std::string& made_from,
                                          const std::vector<std::string>& signals, Work& work) {
  constexpr std::chrono::milliseconds look_again{20};
  const auto overtaken = [&] { return work.why() == Work::Why::overtaken; };
  {
    std::unique_lock lock(place.mutex);
    while (place.under_way.contains(made_from) && work.why() == Work::Why::none)
      place.done.wait_for(lock, look_again);
    if (overtaken()) return nullptr;
    const auto found = std::ranges::find(place.proofs, made_from, &Proof::made_from);
    if (found != place.proofs.end()) return *found;
    place.under_way.insert(made_from);
  }
  const UnderWay under_way(place.mutex, place.under_way, place.done, made_from);
  std::shared_ptr<Proof> proof;
  {
    const Core core(cores_);
    if (!overtaken()) proof = desk::prove(std::move(job), signals, work);
  }
  const std::lock_guard lock(place.mutex);
  if (!proof || overtaken()) return nullptr;
  proof->number = ++proofs_;
  if (work.why() == Work::Why::none) proof->made_from = made_from;
  place.proofs.push_back(proof);
  if (place.proofs.size() > proofs_kept) place.proofs.pop_front();
  return proof;
}

Reply Desk::progress(Place& place, const Request& request) {
  const auto progress = place.works.progress(asked(request, "tab"));
  if (!progress) return reply({{"running", false}});
  return reply({{"running", true}, {"share", progress->share}, {"left", progress->left}});
}

std::shared_ptr<const Proof> Desk::proof(Place& place, const Request& request) {
  const auto run = number<long>(asked(request, "run"));
  if (!run) return nullptr;
  const std::lock_guard lock(place.mutex);
  const auto found = std::ranges::find(place.proofs, *run, [](const auto& each) { return each->number; });
  return found == place.proofs.end() ? nullptr : *found;
}

std::shared_ptr<const draw::Schematic> Desk::at_rest(Place& place, const Edition& edition, const Job& job) {
  const std::lock_guard lock(place.mutex);
  if (!place.at_rest || place.at_rest_of != edition.revision || place.at_rest_units != job.world.name) {
    place.at_rest = std::make_shared<const draw::Schematic>(set_down(job));
    place.at_rest_of = edition.revision;
    place.at_rest_units = job.world.name;
  }
  return place.at_rest;
}

Reply Desk::drawing(Place& place, const Request& request) {
  const auto as_svg = [](std::string svg) { return Reply{.type = "image/svg+xml", .body = std::move(svg)}; };
  if (!asked(request, "run").empty()) {
    const auto proof = this->proof(place, request);
    const auto frame = number<std::size_t>(asked(request, "frame"));
    if (!proof || !frame || *frame >= proof->trace.moments.size())
      return refuse(404, "this run is no longer at hand");
    return as_svg(desk::drawing(*proof, *frame));
  }
  const auto present = place.job.present();
  Job job = present->reading.job;
  job.world = world_of(request, job);
  std::string svg = desk::drawing(job, *at_rest(place, *present, job));
  if (svg.empty()) return refuse(404, "there is nothing to draw yet");
  return as_svg(std::move(svg));
}

Reply Desk::legend(Place& place, const Request& request) {
  const auto proof = this->proof(place, request);
  return proof ? reply(desk::legend(*proof)) : refuse(404, "this run is no longer at hand");
}

Reply Desk::sides(Place& place, const Request& request) {
  const auto x = number<double>(asked(request, "x")), y = number<double>(asked(request, "y"));
  if (!x || !y) return refuse(400, "which place is not said");
  const auto present = place.job.present();
  Job job = present->reading.job;
  job.world = world_of(request, job);
  const auto found = desk::sides(job, *at_rest(place, *present, job), asked(request, "line"), *x, *y);
  if (!found) return refuse(404, "there is no such line on the drawing");
  return reply({{"here", (*found)[0]}, {"there", (*found)[1]}});
}

Reply Desk::part(Place& place, const Request& request) {
  const auto proof = this->proof(place, request);
  const auto frame = number<std::size_t>(asked(request, "frame"));
  const std::string tag = asked(request, "tag");
  if (!proof) return reply({{"tag", tag}, {"curve", nullptr}, {"now", Json::array()}});
  const auto found = part_at_work(*proof, tag, frame.value_or(0));
  return found ? reply(*found) : refuse(404, "there is no such part in this run");
}

}  // namespace poise::desk
