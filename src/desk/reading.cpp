// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The part of the desk that takes what the gauges of a machine read and says what may be wrong with it.
#include <fmt/format.h>

#include "desk/desk.hpp"
#include "desk/reading_room.hpp"
#include "desk/reply.hpp"
#include "desk/world.hpp"
#include "diagnose/readings_file.hpp"

namespace poise::desk {
namespace {

std::optional<Reply> refused(const Edition& present) {
  const std::size_t complaints = present.reading.complaints.list.size();
  if (complaints == 0) return std::nullopt;
  return refuse(422, fmt::format("The job cannot be run yet: {} {} to mend", complaints,
                                 complaints == 1 ? "thing" : "things"));
}

}  // namespace

Studies Desk::working_out_atlases() {
  return {.run = [this](const StudyOf& of, unsigned threads,
                        const Studies::At& at) { return atlases_.run(of, threads, at); },
          .read = [](const StudyOf&, const units::World&) { return std::optional<Recorded>(); }};
}

Reply Desk::readings(Place& place, const Request& request, const Json* typed) {
  const auto present = place.job.present();
  if (auto no = refused(*present)) return *std::move(no);
  const Atlases::Held held = atlases_.of(study_of(*present, place, "readings"));
  if (!held.work) return refuse(422, held.complaint.empty() ? "it was stopped" : held.complaint);
  const units::World world = world_of(request, present->reading.job);
  const std::string file = diagnose::baseline_of(place.job.name()).filename().string();
  const auto baseline = baseline_in(folder_.read(file), file, *held.work);
  Json answer = typed ? weighed(held, baseline, *typed, world) : what_can_be_read(held, baseline, world);
  answer["revision"] = present->revision;
  return reply(answer);
}

}  // namespace poise::desk
