// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Reads the jobs whose paths stand on its input, one a line, and prints of each a line of JSON: all that the
// reader complains about, with the way to it. A job may leave values open and may have no circuit.
#include <fstream>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>

#include "job/reading.hpp"

namespace {

using Json = nlohmann::json;
namespace job = poise::job;

Json in_json(const job::Way& way) {
  Json steps = Json::array();
  for (const auto& step : way) std::visit([&](const auto& key) { steps.push_back(key); }, step);
  return steps;
}

Json complaints_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  const job::Reading reading = job::read_as_far_as_understood(text, path, job::ReadTo::compose);
  Json all = Json::array();
  for (const poise::Remark& remark : reading.complaints.list) {
    all.push_back({{"way", in_json(job::way_to(reading.tree, remark.place).value_or(job::Way{}))},
                   {"sentence", remark.sentence},
                   {"toml", reading.is_toml}});
  }
  return all;
}

}  // namespace

int main() {
  for (std::string path; std::getline(std::cin, path);)
    std::cout << complaints_of(path).dump(-1, ' ', false, Json::error_handler_t::replace) << std::endl;
}
