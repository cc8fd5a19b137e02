// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/circuits.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "compose/circuits_blocks.hpp"
#include "compose/circuits_text.hpp"

namespace poise::compose {
namespace {

constexpr std::size_t most_circuits = 8;

using Choice = std::vector<int>;  ///< of each block, which of its ways

/// All choices, those first that take the plainest way in most blocks.
std::vector<Choice> choices(const Wanted& wanted) {
  std::vector<Choice> all{{}};
  for (const Block& block : blocks()) {
    const auto ways = static_cast<int>(block.ways(wanted).size());
    std::vector<Choice> longer;
    for (const Choice& choice : all) {
      for (int way = 0; way < ways; ++way) {
        longer.push_back(choice);
        longer.back().push_back(way);
      }
    }
    all = std::move(longer);
  }
  std::erase_if(all, [&](const Choice& choice) { return !goes_together(wanted, choice); });
  std::ranges::stable_sort(all, {}, [](const Choice& choice) {
    return std::ranges::count_if(choice, [](int way) { return way > 0; });
  });
  if (all.size() > most_circuits) all.resize(most_circuits);
  return all;
}

std::string name_of(const Wanted& wanted, const Choice& choice) {
  std::vector<std::string_view> words;
  for (std::size_t i = 0; i < choice.size(); ++i) {
    const std::string_view way = blocks()[i].ways(wanted)[static_cast<std::size_t>(choice[i])];
    if (!way.empty()) words.push_back(way);
  }
  return words.empty() ? "the plain circuit" : fmt::format("{}", fmt::join(words, ", "));
}

Composed composed(std::string_view text, const Wanted& wanted, const Choice& choice) {
  Making making(wanted, choice);
  for (std::size_t i = 0; i < choice.size(); ++i) blocks()[i].put(making, choice[i]);
  return {text_with(text, making), name_of(wanted, choice), std::move(making.reasons)};
}

}  // namespace

std::variant<std::vector<Composed>, Complaints> circuits_for(std::string_view text,
                                                             std::string_view file_name) {
  auto read = read_job_to_compose(text, file_name);
  if (auto* complaints = std::get_if<Complaints>(&read)) return std::move(*complaints);
  const auto wanted = wanted_from(std::get<Job>(std::move(read)));
  if (const auto* against = std::get_if<std::vector<Remark>>(&wanted))
    return Complaints{std::string(file_name), *against};
  std::vector<Composed> all;
  for (const Choice& choice : choices(std::get<Wanted>(wanted)))
    all.push_back(composed(text, std::get<Wanted>(wanted), choice));
  return all;
}

}  // namespace poise::compose
