// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// What the steps of a job without a circuit ask of its actuators.
#include <fmt/format.h>

#include <algorithm>

#include "job/draft.hpp"

namespace poise::job {
namespace {

std::optional<Move::Goes> read_word(Draft& draft, const Field& field, const std::string& step) {
  const auto word = std::ranges::find(move_words, field.value.text);
  if (field.value.form == Node::Form::text && word != move_words.end())
    return static_cast<Move::Goes>(word - move_words.begin());
  const std::string found =
      field.value.form == Node::Form::text ? quote(field.value.text) : std::string(form_of(field.value));
  draft.remarks.push_back({field.value.place, fmt::format("move of {}: expected \"out\", \"in\" or \"hold\" "
                                                          "for {}, found {}",
                                                          step, field.key, found)});
  return std::nullopt;
}

void read_move(Draft& draft, const Field& field, const std::string& step) {
  if (draft.left_out.contains(field.key)) return;
  const auto part = draft.parts.find(field.key);
  if (part == draft.parts.end()) {
    draft.remarks.push_back(
        {field.place, fmt::format("move of {}: {}", step, no_such_part(draft, field.key))});
    return;
  }
  const Kind& kind = *draft.job.plan.parts[part->second].kind;
  if (kind.about.role != Role::actuator) {
    draft.remarks.push_back(
        {field.place, fmt::format("move of {}: {} ({}) is not what oil moves; name a cylinder, a clamp or a "
                                  "support, and change loads with set",
                                  step, field.key, kind.about.kind)});
    return;
  }
  if (const auto goes = read_word(draft, field, step))
    draft.job.moves.push_back(
        {static_cast<int>(draft.job.steps.size()), part->second, *goes, field.value.place});
}

}  // namespace

void read_moves(Draft& draft, Section& step) {
  const Node* moves = step.table("move");
  if (!moves) return;
  if (!draft.no_circuit) draft.no_circuit = moves->place;
  for (const Field& field : moves->fields) read_move(draft, field, step.owner());
}

}  // namespace poise::job
