// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Any bytes as readings of the drilling stand: TOML, table or log.
#include <cmath>

#include "diagnose/readings_file.hpp"
#include "diagnose/readings_stand.hpp"
#include "fuzz/hold.hpp"

namespace poise {
namespace {

void hold_readings(const diagnose::Readings& readings) {
  hold(!readings.list.empty(), "readings without a complaint read something");
  for (const diagnose::Reading& reading : readings.list) {
    hold(reading.watch < stand::watches().size() + readings.more.size(), "a reading has its watch");
    hold(!reading.value || std::isfinite(*reading.value), "a reading is a number");
    hold(std::isfinite(reading.accuracy) && reading.accuracy >= 0.0, "an accuracy is a number");
  }
  const std::string written = diagnose::to_toml(readings, stand::job(), stand::watches());
  const auto again = diagnose::read_readings(written, "again", stand::job(), stand::watches());
  hold(std::holds_alternative<diagnose::Readings>(again), "what is written can be read");
  hold(std::get<diagnose::Readings>(again).list.size() == readings.list.size(), "nothing is lost in writing");
}

void read(const std::string& text) {
  const auto read = diagnose::read_readings(text, "any", stand::job(), stand::watches());
  if (const auto* readings = std::get_if<diagnose::Readings>(&read)) return hold_readings(*readings);
  const auto& complaints = std::get<Complaints>(read);
  hold(!complaints.list.empty(), "what is refused is complained about");
  hold(complaints.text(text).starts_with("any"), "a complaint names its file");
}

}  // namespace
}  // namespace poise

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  poise::read(poise::text_of(data, size));
  return 0;
}
