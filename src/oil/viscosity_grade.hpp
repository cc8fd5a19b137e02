// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <string_view>

#include "quantity/quantity.hpp"

namespace poise {

/// A viscosity grade of ISO 3448: an oil may lie 10 % to either side of the midpoint. Kinematic viscosities
/// at 40 °C, m2/s.
struct ViscosityGrade {
  std::string_view word;
  double midpoint;

  constexpr double lowest() const { return 0.9 * midpoint; }
  constexpr double highest() const { return 1.1 * midpoint; }
};

inline constexpr std::array viscosity_grades{
    ViscosityGrade{"ISO VG 2", 2.2 * si::mm2_per_s},     ViscosityGrade{"ISO VG 3", 3.2 * si::mm2_per_s},
    ViscosityGrade{"ISO VG 5", 4.6 * si::mm2_per_s},     ViscosityGrade{"ISO VG 7", 6.8 * si::mm2_per_s},
    ViscosityGrade{"ISO VG 10", 10 * si::mm2_per_s},     ViscosityGrade{"ISO VG 15", 15 * si::mm2_per_s},
    ViscosityGrade{"ISO VG 22", 22 * si::mm2_per_s},     ViscosityGrade{"ISO VG 32", 32 * si::mm2_per_s},
    ViscosityGrade{"ISO VG 46", 46 * si::mm2_per_s},     ViscosityGrade{"ISO VG 68", 68 * si::mm2_per_s},
    ViscosityGrade{"ISO VG 100", 100 * si::mm2_per_s},   ViscosityGrade{"ISO VG 150", 150 * si::mm2_per_s},
    ViscosityGrade{"ISO VG 220", 220 * si::mm2_per_s},   ViscosityGrade{"ISO VG 320", 320 * si::mm2_per_s},
    ViscosityGrade{"ISO VG 460", 460 * si::mm2_per_s},   ViscosityGrade{"ISO VG 680", 680 * si::mm2_per_s},
    ViscosityGrade{"ISO VG 1000", 1000 * si::mm2_per_s}, ViscosityGrade{"ISO VG 1500", 1500 * si::mm2_per_s},
};

}  // namespace poise
