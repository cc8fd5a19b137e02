// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <optional>
#include <string_view>

#include "job/edit.hpp"
#include "job/job.hpp"
#include "job/node.hpp"

namespace poise::job {

/// A job's text as far as it is understood.
struct Reading {
  bool is_toml = false;   ///< false: there is no tree, and one complaint
  Node tree;              ///< what stands in the text
  Job job;                ///< what could be made of it; ports may be open, parts may be left out
  Complaints complaints;  ///< in the order of the lines; none: the job can be run
};

/// What a job is read for: one that is run leaves no value open, and one that is not composed has its
/// circuit.
enum class ReadTo { run, find, compose };

/// Reads a job that may be half written, for those who work on it. `read_job` is the same with all or
/// nothing. Paths in the job start from `folder`; without one, from that of `file_name`.
Reading read_as_far_as_understood(std::string_view text, std::string_view file_name, ReadTo to = ReadTo::run,
                                  const std::filesystem::path& folder = {});

/// The way to what a complaint is about: the deepest key, table or entry that stands at its place; none where
/// nothing does. The empty way is the job itself.
std::optional<Way> way_to(const Node& tree, Place place);

}  // namespace poise::job
