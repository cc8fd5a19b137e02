// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/look.hpp"

#include <fmt/format.h>

#include "draw/words.hpp"

namespace poise::cli {
namespace {

/// Who drew it and the revision, for the title block's note.
std::string note_of(const Drawing& drawing) {
  std::string note = drawing.author;
  if (!drawing.revision.empty()) note += (note.empty() ? "" : ", ") + ("revision " + drawing.revision);
  return note;
}

}  // namespace

draw::Look look_of(const Job& job, const std::string& paper, const std::filesystem::path& file) {
  const auto unit = [&](Quantity quantity) { return job.world[quantity]; };
  draw::TitleBlock block;
  block.job = job.title;
  block.oil = draw::oil_of(job.plan.oil, job.world);
  block.units =
      fmt::format("{}, {}, {}", unit(Quantity::pressure), unit(Quantity::flow), unit(Quantity::length));
  block.note = note_of(job.drawing);
  block.file = file.filename().string();
  block.date = job.drawing.date;
  return {.paper = paper, .block = std::move(block), .world = job.world};
}

}  // namespace poise::cli
