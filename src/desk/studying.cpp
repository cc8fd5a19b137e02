// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The part of the desk that lets studies run behind the jobs and tells what came of them by now.
#include <fmt/format.h>

#include <charconv>

#include "desk/desk.hpp"
#include "desk/reply.hpp"
#include "desk/world.hpp"

namespace poise::desk {
namespace {

constexpr long most_machines = 10'000'000;

long number_of(const std::string& text) {
  long number = 0;
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

}  // namespace

StudyOf Desk::study_of(const Edition& present, const Place& place, const std::string& kind) const {
  return {.kind = kind, .job = place.job.name(), .text = present.text, .folder = folder_.path()};
}

StudyRunner* Desk::runner(Place& place, const std::string& kind) {
  if (kind == "spread") return &place.spread;
  if (kind == "faults") return &place.faults;
  if (kind == "readings") return &place.readings;
  return nullptr;
}

Reply Desk::study(Place& place, const Request& request) {
  StudyRunner* const runner = Desk::runner(place, asked(request, "kind"));
  if (!runner) return refuse(400, "there is no study of this kind");
  const auto present = place.job.present();
  const StudyRunner::State state = runner->state();
  const StudyOf now = study_of(*present, place, asked(request, "kind"));
  StudyOf shown = state.running.value_or(now);
  shown.wanted = 0;
  const auto known = runner->known(shown, world_of(request, present->reading.job));
  const bool has_it = known.number == number_of(asked(request, "known"));
  const bool of_this_text = !known.recorded || (known.recorded->of_this_text && shown.text == now.text);
  return reply({{"running", state.running.has_value()},
                {"waits", state.waits},
                {"runs_this_text", state.running && state.running->text == now.text},
                {"share", state.share},
                {"left", state.left ? Json(*state.left) : Json(nullptr)},
                {"trouble", state.trouble},
                {"of_this_text", of_this_text},
                {"number", known.number},
                {"answer", known.recorded && !has_it ? known.recorded->answer : Json(nullptr)}});
}

Reply Desk::begin_study(Place& place, const Json& body) {
  const std::string kind = text_of(body, "kind");
  StudyRunner* const runner = Desk::runner(place, kind);
  if (!runner) return refuse(400, "there is no study of this kind");
  const auto present = place.job.present();
  const std::size_t complaints = present->reading.complaints.list.size();
  if (complaints > 0) {
    return refuse(422, fmt::format("The job cannot be run yet: {} {} to mend", complaints,
                                   complaints == 1 ? "thing" : "things"));
  }
  StudyOf of = study_of(*present, place, kind);
  if (kind == "spread") {
    const auto wanted = body.find("wanted");
    if (wanted == body.end() || !wanted->is_number_integer())
      return refuse(400, "how many machines is not said");
    of.wanted = wanted->get<long>();
    if (of.wanted < 1 || of.wanted > most_machines)
      return refuse(422, fmt::format("A spread has 1 to {} machines", most_machines));
  }
  runner->begin(of);
  return reply(Json::object());
}

Reply Desk::stop_study(Place& place, const Json& body) {
  StudyRunner* const runner = Desk::runner(place, text_of(body, "kind"));
  if (!runner) return refuse(400, "there is no study of this kind");
  runner->stop();
  return reply(Json::object());
}

}  // namespace poise::desk
