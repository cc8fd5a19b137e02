// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <string>

#include "papers/subject.hpp"

namespace poise::workshop {

/// A job that has been run and judged as `poise prove` does, with all that papers are about. Throws
/// std::runtime_error with the complaints where it cannot be read.
class Proven {
 public:
  explicit Proven(const std::filesystem::path& job_file);
  /// The job of a text, as if it stood in a file of that name: paths in it start from there.
  Proven(std::string words, const std::filesystem::path& job_file);
  // A subject views it.
  Proven(const Proven&) = delete;
  Proven& operator=(const Proven&) = delete;

  papers::Subject subject(papers::Format format = papers::Format::a4) const;

  const std::string text;
  const std::string file;  ///< without its folder
  const Job job;
  const Circuit circuit;
  const Trace trace;
  const Verdict verdict;
};

}  // namespace poise::workshop
