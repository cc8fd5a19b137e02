// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The worked example of CONTRIBUTING compiles, obeys the laws of every part, and stands there as it is here.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "parts/bleed_screw.hpp"
#include "parts/erase.hpp"

namespace poise {
namespace {

std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(worked_example, becomes_a_kind_of_part_and_passes_what_the_orifice_law_says) {
  const Kind kind = kind_of<BleedScrew>();
  const Oil oil{OilData{}};
  const double nan = std::nan("");
  const Laws laws = kind.make(Values(kind.parameters, {1 * si::mm, 1.0, 0.5, nan, 0.2 * si::cm3}), oil);
  Neighbourhood n{};
  const auto high = oil.density(50 * si::bar), low = oil.density(0.0);
  n.oil[0] = {50 * si::bar, high.value, 1.0, high.slope};
  n.oil[1] = {0.0, low.value, 1.0, low.slope};
  n.input[0] = {0.0, 1.0, 1.0};
  Answers a;
  laws.answer(laws.numbers.get(), n, a);
  // Q = 0.62·A·sqrt(2·Δp/ρ) less the laminar share of a percent or two; the mass that enters leaves.
  const double turbulent =
      high.value * 0.62 * circle(1 * si::mm) * std::sqrt(2.0 * 50 * si::bar / high.value);
  EXPECT_LT(a.row[0], turbulent);
  EXPECT_GT(a.row[0], 0.9 * turbulent);
  EXPECT_EQ(a.row[0], -a.row[1]);
}

TEST(worked_example, stands_in_contributing_word_for_word) {
  const std::filesystem::path root = POISE_SOURCE_DIR;
  const std::string example = text_of(root / "tests/parts/bleed_screw.hpp");
  ASSERT_GT(example.size(), 1000u);
  EXPECT_NE(text_of(root / "CONTRIBUTING.md").find("```cpp\n" + example + "```"), std::string::npos)
      << "CONTRIBUTING.md must show tests/parts/bleed_screw.hpp as it is";
}

}  // namespace
}  // namespace poise
