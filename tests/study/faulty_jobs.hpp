// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Jobs for the study of faults, and what the tests ask of them.
#pragma once

#include <algorithm>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "study/fault_order.hpp"
#include "study/fault_run.hpp"

namespace poise::faulty_jobs {

inline Job job_of(const std::string& text) {
  auto read = read_job(text, "job.toml");
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(text));
  return std::get<Job>(std::move(read));
}

inline Job example(const std::string& name) {
  const std::string path = std::string(POISE_SOURCE_DIR "/jobs/") + name + ".toml";
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error("no job " + path);
  return job_of({std::istreambuf_iterator<char>(in), {}});
}

/// The fault of that name; throws with all names where there is none.
inline study::FaultPlace fault(const study::Nominal& nominal, const std::string& name) {
  std::string all;
  for (study::FaultPlace& place : study::faults_of(nominal.job, &nominal.trace)) {
    if (place.name == name) return std::move(place);
    all += "\n" + place.name;
  }
  throw std::runtime_error("no fault " + name + " among" + all);
}

inline study::FaultAnswer answer(const study::Nominal& nominal, const std::string& name, double t = 1.0) {
  return study::case_of(nominal, fault(nominal, name), t).answer;
}

inline bool breaks(const study::FaultAnswer& answer, const std::string& promise) {
  return std::ranges::find(answer.breaks, promise, &study::Break::name) != answer.breaks.end();
}

/// A load of 2 t that a single-acting cylinder lifts for 4 s and holds for 5; `parts` and `lines` say what
/// stands between V2.A and the cylinder, `plugs` what else is plugged: ", \"V3.X\"". All data invented.
inline std::string lift(const std::string& parts, const std::string& lines,
                        const std::string& requirements = "", const std::string& plugs = "") {
  return R"(
title = "Stand for one axle end"
plugged = ["V2.B")" +
         plugs + R"(]
[parts.T1]
kind = "reservoir"
usable_oil = "10 L"
[parts.P1]
kind = "pump"
flow = "4 L/min"
rated_pressure = "350 bar"
[parts.V1]
kind = "relief"
setting = "150 bar"
rated_flow = "10 L/min"
[parts.V2]
kind = "directional_4_3"
centre = "closed"
overlap = "-30 %"
rated_flow = "20 L/min"
[parts.C1]
kind = "single_acting_cylinder"
bore = "60 mm"
stroke = "150 mm"
[parts.M1]
kind = "mass"
mass = "2 t"
[parts.G1]
kind = "gauge"
range = "250 bar"
)" + parts +
         R"(
[[lines]]
from = "T1.T"
to = ["P1.S", "V1.T", "V2.T"]
[[lines]]
from = "P1.P"
to = ["V1.P", "V2.P", "G1.M"]
[[lines]]
from = "C1.rod"
to = "M1.rod"
)" + lines +
         R"(
[[steps]]
name = "up"
set = { P1 = "on", V2 = "a" }
lasts = "4 s"
[[steps]]
name = "hold"
set = { V2 = "centre", P1 = "off" }
lasts = "5 s"
)" + requirements;
}

}  // namespace poise::faulty_jobs
