// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "cli/read.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <utility>
#include <variant>

namespace poise::cli {

std::optional<Job> read_or_complain(const std::string& path, std::string* text) {
  std::string own;
  if (!text) text = &own;
  auto read = read_job_file(path, text);
  if (const auto* complaints = std::get_if<Complaints>(&read)) {
    fmt::print(stderr, "{}", complaints->text(*text));
    return std::nullopt;
  }
  return std::get<Job>(std::move(read));
}

}  // namespace poise::cli
