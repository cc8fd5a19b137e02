// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/pressure_colours.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace poise::draw {
namespace {

using Vector = std::array<double, 3>;
using Matrix = std::array<Vector, 3>;

constexpr int steps = 12;  // twice as many as a legend has

double linear(unsigned char part) {
  const double v = part / 255.0;
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}
unsigned char encoded(double light) {
  const double v = std::clamp(light, 0.0, 1.0);
  return static_cast<unsigned char>(
      std::lround(255.0 * (v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055)));
}
/// Relative luminance and contrast on white (W3C, Web Content Accessibility Guidelines 2.1).
double luminance(const Colour& c) {
  return 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue);
}
double contrast_on_white(const Colour& c) { return 1.05 / (luminance(c) + 0.05); }

double distance(const Colour& a, const Colour& b) {
  const Oklab p = oklab_of(a), q = oklab_of(b);
  return std::hypot(p.lightness - q.lightness, p.a - q.a, p.b - q.b);
}

Colour times(const Matrix& m, const Colour& c) {
  const Vector light{linear(c.red), linear(c.green), linear(c.blue)};
  const auto row = [&](int i) {
    return encoded(m[i][0] * light[0] + m[i][1] * light[1] + m[i][2] * light[2]);
  };
  return {row(0), row(1), row(2)};
}

TEST(Oklab, gives_published_values) {
  // B. Ottosson, "A perceptual color space for image processing" (2020), first row of the table of test
  // pairs: XYZ (0.950, 1.000, 1.089), which is sRGB white, is (1.000, 0.000, 0.000).
  const Oklab white = oklab_of({255, 255, 255});
  EXPECT_NEAR(white.lightness, 1.000, 5e-4);
  EXPECT_NEAR(white.a, 0.000, 5e-4);
  EXPECT_NEAR(white.b, 0.000, 5e-4);
  // sRGB red is oklch(0.62796 0.25768 29.234), as tests of several colour libraries have it.
  const Oklab red = oklab_of({255, 0, 0});
  EXPECT_NEAR(red.lightness, 0.62796, 2e-5);
  EXPECT_NEAR(red.a, 0.22486, 2e-5);
  EXPECT_NEAR(red.b, 0.12585, 2e-5);
}

TEST(Oklab, there_and_back_is_the_same_colour) {
  for (int red = 0; red < 256; red += 15) {
    for (int green = 0; green < 256; green += 15) {
      for (int blue = 0; blue < 256; blue += 15) {
        const Colour c{static_cast<unsigned char>(red), static_cast<unsigned char>(green),
                       static_cast<unsigned char>(blue)};
        EXPECT_EQ(colour_of(oklab_of(c)), c);
      }
    }
  }
}

TEST(PressureColours, equal_steps_of_pressure_look_equally_different) {
  const double whole = distance(colour_of(0.0), colour_of(1.0));
  // A byte holds a colour to 1/255; two of them differ from the line by less than 0.004.
  for (int i = 0; i < steps; ++i)
    EXPECT_NEAR(distance(colour_of(1.0 * i / steps), colour_of((i + 1.0) / steps)), whole / steps, 0.004)
        << i;
}

TEST(PressureColours, more_pressure_is_darker_in_grey_print_too) {
  for (int i = 0; i < steps; ++i) {
    const Colour low = colour_of(1.0 * i / steps), high = colour_of((i + 1.0) / steps);
    EXPECT_LT(oklab_of(high).lightness, oklab_of(low).lightness);
    EXPECT_LT(luminance(high), luminance(low));
  }
}

TEST(PressureColours, every_colour_stands_out_from_white_paper) {
  // 3 : 1 for graphic objects (W3C, Web Content Accessibility Guidelines 2.1, 1.4.11).
  for (int i = 0; i <= steps; ++i) EXPECT_GE(contrast_on_white(colour_of(1.0 * i / steps)), 3.0);
}

TEST(PressureColours, steps_of_the_legend_differ_for_every_kind_of_sight) {
  // G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A physiologically-based model for simulation of color
  // vision deficiency", IEEE TVCG 15 (2009) 1291: matrices of severity 1, in linear sRGB.
  constexpr Matrix protanopia{
      {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}};
  constexpr Matrix deuteranopia{
      {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}};
  constexpr Matrix tritanopia{
      {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}};
  // A just noticeable difference is about 0.02 (common practice); colours apart on a sheet want more.
  constexpr double clearly_different = 0.04;
  for (const Matrix& sight : {protanopia, deuteranopia, tritanopia}) {
    for (int i = 0; i < 6; ++i) {
      EXPECT_GT(distance(times(sight, colour_of(i / 6.0)), times(sight, colour_of((i + 1) / 6.0))),
                clearly_different);
    }
  }
}

TEST(PressureColours, below_none_and_above_the_top_the_scale_ends) {
  EXPECT_EQ(colour_of(-0.3), colour_of(0.0));
  EXPECT_EQ(colour_of(1.7), colour_of(1.0));
  EXPECT_EQ(colour_of(std::nan("")), colour_of(0.0));
}

std::vector<double> in_unit(const PressureScale& scale, const units::World& world) {
  std::vector<double> all;
  for (double p : scale.steps)
    all.push_back(std::round(1e6 * units::in_unit(p, Quantity::pressure, world)) / 1e6);
  return all;
}

TEST(PressureScale, goes_in_round_steps_of_the_jobs_unit_to_a_round_top) {
  using testing::ElementsAre;
  const auto bar = [](double highest) {
    return in_unit(scale_up_to(highest * 1e5, units::metric()), units::metric());
  };
  EXPECT_THAT(bar(211.3), ElementsAre(0, 50, 100, 150, 200, 250));
  EXPECT_THAT(bar(300.0), ElementsAre(0, 50, 100, 150, 200, 250, 300));
  EXPECT_THAT(bar(700.0), ElementsAre(0, 200, 400, 600, 800));
  EXPECT_THAT(bar(61.0), ElementsAre(0, 20, 40, 60, 80));
  const double psi = 6894.757293;
  EXPECT_THAT(in_unit(scale_up_to(2950 * psi, units::us()), units::us()),
              ElementsAre(0, 500, 1000, 1500, 2000, 2500, 3000));
}

TEST(PressureScale, a_circuit_at_rest_is_not_shown_as_pressed) {
  EXPECT_DOUBLE_EQ(scale_up_to(0.2e5, units::metric()).top, 10e5);
  EXPECT_DOUBLE_EQ(scale_up_to(-0.3e5, units::metric()).top, 10e5);
}

}  // namespace
}  // namespace poise::draw
