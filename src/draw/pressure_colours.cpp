// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/pressure_colours.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace poise::draw {
namespace {

using Vector = std::array<double, 3>;
using Matrix = std::array<Vector, 3>;

// Ottosson 2020: linear sRGB to cone responses, their cube roots to lightness and colour, and both ways back.
constexpr Matrix to_cones{{{0.4122214708, 0.5363325363, 0.0514459929},
                           {0.2119034982, 0.6806995451, 0.1073969566},
                           {0.0883024619, 0.2817188376, 0.6299787005}}};
constexpr Matrix to_look{{{0.2104542553, 0.7936177850, -0.0040720468},
                          {1.9779984951, -2.4285922050, 0.4505937099},
                          {0.0259040371, 0.7827717662, -0.8086757660}}};
constexpr Matrix from_look{{{1.0, 0.3963377774, 0.2158037573},
                            {1.0, -0.1055613458, -0.0638541728},
                            {1.0, -0.0894841775, -1.2914855480}}};
constexpr Matrix from_cones{{{4.0767416621, -3.3077115913, 0.2309699292},
                             {-1.2684380046, 2.6097574011, -0.3413193965},
                             {-0.0041960863, -0.7034186147, 1.7076147010}}};

// Ends of the scale. The blue has a contrast of 3 : 1 on white, the red is the strongest a screen has there.
constexpr Oklab no_pressure{0.665, -0.045, -0.145}, top_pressure{0.300, 0.122, -0.004};

Vector times(const Matrix& m, const Vector& v) {
  Vector result{};
  for (int i = 0; i < 3; ++i) result[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
  return result;
}

// The transfer function of sRGB (IEC 61966-2-1).
double linear(unsigned char part) {
  const double v = part / 255.0;
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}
unsigned char on_screen(double light) {
  const double v = std::clamp(light, 0.0, 1.0);
  const double part = v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1.0 / 2.4) - 0.055;
  return static_cast<unsigned char>(std::lround(255.0 * part));
}

}  // namespace

Oklab oklab_of(const Colour& colour) {
  Vector cones = times(to_cones, {linear(colour.red), linear(colour.green), linear(colour.blue)});
  for (double& c : cones) c = std::cbrt(c);
  const Vector look = times(to_look, cones);
  return {look[0], look[1], look[2]};
}

Colour colour_of(const Oklab& look) {
  Vector cones = times(from_look, {look.lightness, look.a, look.b});
  for (double& c : cones) c = c * c * c;
  const Vector light = times(from_cones, cones);
  return {on_screen(light[0]), on_screen(light[1]), on_screen(light[2])};
}

Colour colour_of(double share) {
  const double s = std::isfinite(share) ? std::clamp(share, 0.0, 1.0) : 0.0;
  const auto between = [s](double from, double to) { return from + s * (to - from); };
  return colour_of(Oklab{between(no_pressure.lightness, top_pressure.lightness),
                         between(no_pressure.a, top_pressure.a), between(no_pressure.b, top_pressure.b)});
}

PressureScale scale_up_to(double highest, const units::World& world) {
  constexpr double least_top = 10 * si::bar;
  constexpr double most_steps = 6.0, rounding = 1e-9;
  const double unit = 1.0 / units::in_unit(1.0, Quantity::pressure, world);
  const double needed = std::max(highest, least_top) / unit;
  double power = std::pow(10.0, std::floor(std::log10(needed / most_steps)));
  double step = 10.0 * power;
  for (const double round : {1.0, 2.0, 5.0}) {
    if (needed <= most_steps * round * power * (1.0 + rounding)) {
      step = round * power;
      break;
    }
  }
  const int count = static_cast<int>(std::ceil(needed / step * (1.0 - rounding)));
  PressureScale scale;
  for (int i = 0; i <= count; ++i) scale.steps.push_back(i * step * unit);
  scale.top = scale.steps.back();
  return scale;
}

}  // namespace poise::draw
