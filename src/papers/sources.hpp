// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace poise::papers {

/// Where formulas and figures of a paper are from, each named once and told by its number.
class Sources {
 public:
  /// "[3]"; a source that is new gets the next number.
  std::string number_of(std::string_view source);
  /// All of them under a heading, as HTML; nothing where there are none.
  std::string list() const;

 private:
  std::vector<std::string> all_;
};

}  // namespace poise::papers
