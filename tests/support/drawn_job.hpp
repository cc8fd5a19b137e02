// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "draw/schematic.hpp"
#include "support/drawing_rules.hpp"

namespace poise::drawing {

/// Every job that drawings are tried on: jobs/, tests/drawings/, tests/independent/, in the order of their
/// names.
std::vector<std::filesystem::path> jobs_to_draw();

/// The plan of a job file; throws std::runtime_error with the complaints if it is not in order.
Plan plan_of(const std::filesystem::path& job);

/// Words as they stand beside a part: a code, the tag, and up to two of the values that were given.
std::vector<draw::Words> words_of(const Plan& plan);

/// A plan with its drawing.
struct Arranged {
  Plan plan;
  std::vector<draw::Words> words;
  std::vector<draw::Wish> wishes;
  draw::Schematic schematic;

  explicit Arranged(Plan of, std::vector<draw::Wish> wanted = {})
      : plan(std::move(of)),
        words(words_of(plan)),
        wishes(std::move(wanted)),
        schematic(draw::arrange(plan, words, wishes)) {}
  Drawn drawn() const { return {plan, words, wishes, schematic}; }
};

/// The sentences, a line each, for a test to show.
std::string listed(const Sentences& sentences);

}  // namespace poise::drawing
