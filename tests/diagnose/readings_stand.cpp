// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/readings_stand.hpp"

#include <fmt/format.h>

#include <stdexcept>

#include "diagnose/atlas.hpp"
#include "diagnose/readings_file.hpp"
#include "job/file_text.hpp"

namespace poise::stand {
namespace {

diagnose::AtlasWork prepared() {
  const std::string path = POISE_SOURCE_DIR "/jobs/drilling-stand.toml";
  std::string text = std::get<std::string>(job::text_of_file(path));
  const std::string line = "\"G2.M\"]";
  text.replace(text.find(line), line.size(), "\"G2.M\", \"B1.M\"]");
  text += "\n[parts.B1]\nkind = \"pressure_switch\"\nsetting = \"150 bar\"\nreset = \"140 bar\"\n";
  auto read = read_job(text, path);
  if (const auto* complaints = std::get_if<Complaints>(&read))
    throw std::runtime_error(complaints->text(text));
  auto work = diagnose::prepare_atlas(std::get<Job>(read), [] { return true; });
  if (const auto* why = std::get_if<std::string>(&work)) throw std::runtime_error(*why);
  return std::move(std::get<diagnose::AtlasWork>(work));
}

const diagnose::AtlasWork& work() {
  static const diagnose::AtlasWork once = prepared();
  return once;
}

const diagnose::Reading* find(const diagnose::Readings& readings, std::string_view name) {
  for (const diagnose::Reading& reading : readings.list) {
    if (diagnose::name_of(watch_of(readings, reading), job()) == name) return &reading;
  }
  return nullptr;
}

}  // namespace

const Job& job() { return work().job; }
const std::vector<diagnose::Watch>& watches() { return work().watches; }

diagnose::Readings read(std::string_view text) { return read(text, job()); }

diagnose::Readings read(std::string_view text, const Job& of) {
  auto result = diagnose::read_readings(text, "readings", of, watches());
  if (const auto* complaints = std::get_if<Complaints>(&result))
    throw std::runtime_error(complaints->text(text));
  return std::move(std::get<diagnose::Readings>(result));
}

std::string complaints_about(std::string_view text) { return complaints_about(text, job()); }

std::string complaints_about(std::string_view text, const Job& of) {
  const auto result = diagnose::read_readings(text, "readings", of, watches());
  std::string all;
  const auto* complaints = std::get_if<Complaints>(&result);
  if (!complaints) return "none";
  for (const Remark& remark : complaints->list)
    all += fmt::format("{}: {}\n", remark.place.line, remark.sentence);
  return all;
}

const diagnose::Reading& reading_of(const diagnose::Readings& readings, std::string_view name) {
  const diagnose::Reading* reading = find(readings, name);
  if (!reading) throw std::runtime_error(fmt::format("no reading of {}", name));
  return *reading;
}

bool has(const diagnose::Readings& readings, std::string_view name) {
  return find(readings, name) != nullptr;
}

const diagnose::Watch& watch_of(const diagnose::Readings& readings, const diagnose::Reading& reading) {
  const std::size_t listed = watches().size();
  return reading.watch < listed ? watches()[reading.watch] : readings.more[reading.watch - listed];
}

}  // namespace poise::stand
