// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "job/job.hpp"
#include "judge/verdict.hpp"
#include "study/studied.hpp"
#include "trace/trace.hpp"

namespace poise::papers {

/// The papers' own sizes.
enum class Format { a4, letter };

struct ReadingBand;

/// What papers are about: a job that has been run and judged. Views all of it, which must outlive it.
struct Subject {
  const Job& job;
  const Circuit& circuit;
  const Verdict& verdict;  ///< the one that the screen shows
  /// All signals of all parts, with a moment at the end of each step and the heat of each part.
  const Trace& trace;
  std::string file;         ///< the job's file, without its folder
  std::string fingerprint;  ///< SHA-256 of the file's text, 64 hexadecimal digits
  std::string version;      ///< of Poise
  Format format = Format::a4;
  const study::Studied* studied = nullptr;  ///< what has been studied of the job as it is; null: nothing
  /// The commissioning sheet with its bands, in order of work; null: nobody has worked them out.
  const std::vector<ReadingBand>* bands = nullptr;
};

}  // namespace poise::papers
