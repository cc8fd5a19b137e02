// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "desk/desk.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compose/change.hpp"
#include "desk/reply.hpp"
#include "desk/words.hpp"
#include "job/section.hpp"
#include "search/cores.hpp"

namespace poise::desk {
namespace {

/// The start's text under a title of one's own: the first line that has a title is changed.
std::string titled(std::string text, const std::string& title) {
  if (title.empty()) return text;
  const job::Edit edit{.at = {std::string("title")}, .value = {title}};
  job::Edited edited = job::edited(text, {&edit, 1});
  return edited.complaint.empty() ? edited.text : text;
}

}  // namespace

Desk::Desk(const std::filesystem::path& folder, std::string version, std::string opened, Studies studies)
    : folder_(folder),
      version_(std::move(version)),
      opened_(std::move(opened)),
      words_(words(version_).dump()),
      cores_(static_cast<std::ptrdiff_t>(search::cores_allowed())),
      studies_(std::move(studies)),
      atlases_(version_) {}

Reply Desk::answer(const Request& request) {
  Json body = Json::object();
  if (request.changes) {
    body = Json::parse(request.body, nullptr, false);
    if (!body.is_object()) return refuse(400, "what was sent is no JSON object");
  }
  const auto& way = request.way;
  if (way.size() == 1 && way[0] == "words" && !request.changes) return {.body = words_};
  if (way.size() == 1 && way[0] == "jobs") return request.changes ? begin(body) : jobs();
  if (way.size() >= 2 && way.size() <= 4 && way[0] == "job") return job(request, body);
  return refuse(404, "there is nothing of this name");
}

void Desk::stop() {
  atlases_.close();
  const std::lock_guard lock(mutex_);
  for (const auto& [name, place] : places_) {
    place->works.close();
    place->spread.close();
    place->faults.close();
    place->readings.close();
  }
}

Reply Desk::jobs() const {
  Json list = Json::array();
  for (const std::string& name : folder_.names()) {
    const auto text = folder_.read(name);
    if (!text) continue;
    const job::Reading reading =
        job::read_as_far_as_understood(*text, name, job::ReadTo::run, folder_.path());
    list.push_back({{"name", name}, {"title", reading.job.title.empty() ? name : reading.job.title}});
  }
  return reply({{"folder", folder_.path().string()},
                {"jobs", std::move(list)},
                {"opened", opened_.empty() ? Json(nullptr) : Json(opened_)}});
}

Reply Desk::begin(const Json& wish) {
  const std::string name = text_of(wish, "name");
  if (!Folder::is_name(name))
    return refuse(422, fmt::format("{} cannot be a job's file name; write one such as \"frame-lift.toml\"",
                                   job::quote(name)));
  const auto& starts = compose::starts();
  const auto start = std::ranges::find(starts, text_of(wish, "start"), &compose::Start::name);
  if (start == starts.end()) return refuse(422, "there is no such job to begin with");
  const bool us = text_of(wish, "units") == "us";
  const std::string text = titled(std::string(us ? start->us : start->metric), text_of(wish, "title"));
  if (const std::string complaint = folder_.create(name, text); !complaint.empty())
    return refuse(409, complaint);
  return reply({{"name", name}});
}

Desk::Here Desk::place(const std::string& name) {
  if (!Folder::is_name(name)) return nullptr;
  const std::lock_guard lock(mutex_);
  if (const auto found = places_.find(name); found != places_.end()) return found->second;
  auto text = folder_.read(name);
  if (!text) return nullptr;
  return places_[name] =
             std::make_shared<Place>(folder_, name, std::move(*text), studies_, atlas_studies_, turn_);
}

Reply Desk::job(const Request& request, const Json& body) {
  const Here here = place(request.way[1]);
  if (!here) return refuse(404, fmt::format("there is no job {} in this folder", job::quote(request.way[1])));
  std::string what;
  for (std::size_t i = 2; i < request.way.size(); ++i) what += (i > 2 ? "/" : "") + request.way[i];
  if (!request.changes) {
    if (what.empty()) return page_of(*here->job.present(), *here, request);
    if (what == "revision") return reply({{"revision", here->job.present()->revision}});
    if (what == "progress") return progress(*here, request);
    if (what == "drawing") return drawing(*here, request);
    if (what == "legend") return legend(*here, request);
    if (what == "sides") return sides(*here, request);
    if (what == "part") return part(*here, request);
    if (what == "study") return study(*here, request);
    if (what == "readings") return readings(*here, request, nullptr);
    return refuse(404, "there is nothing of this name");
  }
  if (what == "prove") return prove(*here, request, body);
  if (what == "stop") {
    here->works.stop(text_of(body, "tab"));
    return reply(Json::object());
  }
  if (what == "study") return begin_study(*here, body);
  if (what == "readings") return readings(*here, request, &body);
  if (what == "study/stop") return stop_study(*here, body);
  if (!body.contains("revision") || !body["revision"].is_number_integer())
    return refuse(400, "the revision that this is about is not said");
  const long revision = body["revision"].get<long>();
  if (what == "edit") return edit(*here, request, body);
  if (what == "text") return text(*here, request, body);
  if (what == "circuit") return circuit(*here, request, body);
  if (what == "undo") return written(here->job.undo(revision), *here, request);
  if (what == "redo") return written(here->job.redo(revision), *here, request);
  return refuse(404, "there is nothing of this name");
}

}  // namespace poise::desk
