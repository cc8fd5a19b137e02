// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/fingerprint.hpp"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace poise::study {

std::string fingerprint_of(std::string_view text) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int size = 0;
  if (EVP_Digest(text.data(), text.size(), digest.data(), &size, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("the fingerprint of the job cannot be worked out");
  std::string digits;
  for (unsigned int i = 0; i < size; ++i) digits += fmt::format("{:02x}", digest[i]);
  return digits;
}

std::string fingerprint_of(const Job& job, std::string_view text) {
  if (!job.stock) return fingerprint_of(text);
  std::string all(text);
  for (const PlannedPart& part : job.plan.parts) {
    all += fmt::format("\n{} {}", part.tag, part.kind->about.kind);
    for (const double value : part.values.all()) all += fmt::format(" {:a}", value);
    for (const Parameter& line : part.kind->parameters) {
      if (!line.against) continue;
      for (const CurvePoint& point : part.values.points(line.name))
        all += fmt::format(" {:a},{:a}", point.x, point.y);
    }
  }
  for (const StatedTolerance& each : job.tolerances)
    all += fmt::format("\n{} {} {:a} {:a} {}", each.part, each.parameter, each.tolerance.below,
                       each.tolerance.above, static_cast<int>(each.tolerance.of));
  return fingerprint_of(all);
}

std::string in_groups(std::string_view fingerprint) {
  std::string text;
  for (std::size_t i = 0; i < 16 && i < fingerprint.size(); i += 4)
    text += (i == 0 ? "" : " ") + std::string(fingerprint.substr(i, 4));
  return text;
}

}  // namespace poise::study
