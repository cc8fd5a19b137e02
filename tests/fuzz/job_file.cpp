// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Any bytes as a job: read for every purpose; what is understood is built, looked over by the rules, and
// changed.
#include "circuit/circuit.hpp"
#include "fuzz/hold.hpp"
#include "job/edit.hpp"
#include "job/reading.hpp"
#include "rules/all.hpp"
#include "rules/people.hpp"

namespace poise {
namespace {

constexpr std::string_view name = "any.toml";
constexpr std::size_t most_pieces =
    4'000;  // of long lines: laying them out is the solver's work, not the reader's

void hold_complaints(const Complaints& complaints, std::string_view text) {
  if (!complaints.list.empty()) hold(complaints.text(text).starts_with(name), "a complaint names its file");
  for (const Remark& remark : complaints.list) hold(!remark.sentence.empty(), "a complaint says something");
}

void look_over(const Job& job) {
  hold(!job.plan.parts.empty(), "a job that can be run has parts");
  const rules::Sight sight(job.plan, job.steps, job.controls, job.world);
  for (const rules::Breach& breach : rules::breaches(sight)) {
    hold(!breach.found.sentence.empty(), "a rule says what it found");
    hold(breach.found.part < static_cast<int>(job.plan.parts.size()), "a rule names a part of the job");
  }
  for (const std::string& said : rules::for_people(sight)) hold(!said.empty(), "a caution says something");
  std::size_t pieces = 0;
  for (const PlannedPart& part : job.plan.parts) pieces += part.kind->pieces(part.values);
  if (pieces <= most_pieces) build(job.plan);
}

/// A change of one value leaves a text that can be read again, or none.
void change(const std::string& text) {
  const job::Edit edit{.at = {std::string("title")}, .value = {std::string("another")}};
  const job::Edited edited = job::edited(text, {&edit, 1});
  if (!edited.complaint.empty()) return;
  const job::Reading again = job::read_as_far_as_understood(edited.text, name);
  hold(again.is_toml, "a changed text is TOML");
  hold(again.job.title == "another", "a changed text says what it was changed to");
}

void read(const std::string& text) {
  for (const auto how : {job::ReadTo::run, job::ReadTo::find, job::ReadTo::compose}) {
    const job::Reading reading = job::read_as_far_as_understood(text, name, how);
    hold_complaints(reading.complaints, text);
    if (how == job::ReadTo::run && reading.complaints.list.empty()) look_over(reading.job);
    if (how == job::ReadTo::run && reading.is_toml) change(text);
  }
}

}  // namespace
}  // namespace poise

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  poise::read(poise::text_of(data, size));
  return 0;
}
