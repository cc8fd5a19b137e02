// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The part of the desk that changes a job.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desk/changes.hpp"
#include "desk/desk.hpp"
#include "desk/page.hpp"
#include "desk/reply.hpp"
#include "desk/tree.hpp"
#include "desk/world.hpp"
#include "draw/words.hpp"
#include "job/file_text.hpp"

namespace poise::desk {
namespace {

std::string said(const Json& body) {
  constexpr std::size_t longest = 200;
  const std::string says = text_of(body, "says");
  return says.empty() ? "a change" : says.substr(0, longest);
}

Json page_json(const Edition& edition, const std::string& name, const Folder& folder,
               const Request& request) {
  return page(edition, name, (folder.path() / name).string(), world_of(request, edition.reading.job));
}

}  // namespace

Reply Desk::page_of(const Edition& edition, const Place& place, const Request& request) const {
  return reply(page_json(edition, place.job.name(), folder_, request));
}

Reply Desk::written(const OpenJob::Written& written, const Place& place, const Request& request) const {
  if (!written.complaint.empty()) return refuse(422, written.complaint);
  if (!written.stale) return page_of(*written.edition, place, request);
  return reply({{"sentence", "the job has changed since: in another tab, or on disk"},
                {"page", page_json(*written.edition, place.job.name(), folder_, request)}},
               409);
}

Reply Desk::edit(Place& place, const Request& request, const Json& body) {
  const auto edits = body.contains("edits") ? read_edits(body["edits"]) : std::nullopt;
  if (!edits) return refuse(400, "these changes are not understood");
  const auto present = place.job.present();
  const long revision = body["revision"].get<long>();
  if (revision != present->revision)
    return written({.edition = present, .stale = true, .complaint = {}}, place, request);
  job::Edited edited = job::edited(present->text, *edits);
  if (!edited.complaint.empty()) return refuse(422, edited.complaint);
  return written(place.job.write(revision, edited.text, said(body)), place, request);
}

Reply Desk::text(Place& place, const Request& request, const Json& body) {
  const std::string text = text_of(body, "text");
  if (const std::string fault = job::fault_of(text); !fault.empty()) return refuse(422, fault);
  return written(place.job.write(body["revision"].get<long>(), text, "the text"), place, request);
}

Reply Desk::circuit(Place& place, const Request& request, const Json& body) {
  const Json wish = body.contains("change") ? body["change"] : Json();
  const std::string what = wish.is_object() ? text_of(wish, "what") : std::string();
  if (what == "nudge" || what == "settle") return nudge(place, request, body);
  const auto present = place.job.present();
  const long revision = body["revision"].get<long>();
  if (revision != present->revision)
    return written({.edition = present, .stale = true, .complaint = {}}, place, request);
  compose::Changed changed = change(present->text, wish);
  if (!changed.complaint.empty()) return refuse(422, changed.complaint);
  const auto result = place.job.write(revision, changed.text, changed.says);
  if (result.stale || !result.complaint.empty()) return written(result, place, request);
  Json page = page_json(*result.edition, place.job.name(), folder_, request);
  page["select"] = changed.tag.empty() ? Json(nullptr) : Json(changed.tag);
  return reply(page);
}

/// Where a part's table stands in the text: its own, or the entry of the line that it is the hose of.
Reply Desk::nudge(Place& place, const Request& request, const Json& body) {
  const Json& wish = body["change"];
  const std::string tag = text_of(wish, "part");
  const auto present = place.job.present();
  const Plan& plan = present->reading.job.plan;
  const auto part = std::ranges::find(plan.parts, tag, &PlannedPart::tag);
  const auto at = part == plan.parts.end() ? std::nullopt : job::way_to(present->reading.tree, part->place);
  if (!at) return refuse(422, fmt::format("there is no part {} on the drawing", tag));
  job::Way way = *at;
  if (way.size() > 2) way.resize(2);
  way.emplace_back(std::string("drawn_at"));
  job::Edit edit{.does = job::Edit::Does::remove, .at = std::move(way)};
  if (text_of(wish, "what") == "nudge") {
    const Json by = wish.contains("by") ? wish["by"] : Json();
    if (!by.is_array() || by.size() != 2 || !by[0].is_number() || !by[1].is_number())
      return refuse(400, "how far is not said");
    const auto schematic = at_rest(place, *present, present->reading.job);
    const draw::Point stands = schematic->symbols[static_cast<std::size_t>(part - plan.parts.begin())].at;
    edit.does = job::Edit::Does::set;
    edit.value = {job::Written::List{{std::round(stands.x + by[0].get<double>())},
                                     {std::round(stands.y + by[1].get<double>())}}};
  }
  job::Edited edited = job::edited(present->text, {&edit, 1});
  if (!edited.complaint.empty()) return refuse(422, edited.complaint);
  return written(place.job.write(body["revision"].get<long>(), edited.text, "where " + tag + " stands"),
                 place, request);
}

}  // namespace poise::desk
