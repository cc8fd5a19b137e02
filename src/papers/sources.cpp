// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/sources.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "papers/html.hpp"

namespace poise::papers {

std::string Sources::number_of(std::string_view source) {
  const auto known = std::ranges::find(all_, source);
  const auto number = known - all_.begin() + 1;
  if (known == all_.end()) all_.emplace_back(source);
  return fmt::format("[{}]", number);
}

std::string Sources::list() const {
  if (all_.empty()) return "";
  std::string entries;
  for (std::size_t i = 0; i < all_.size(); ++i)
    entries += html::entry(fmt::format("[{}] {}", i + 1, all_[i]));
  return html::heading(3, "Sources") + html::element("ul", entries, " class=\"plain twofold quiet\"");
}

}  // namespace poise::papers
