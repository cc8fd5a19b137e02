// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "cli/read.hpp"
#include "judge/page.hpp"
#include "search/warm_up.hpp"

namespace poise::cli {
namespace {

constexpr double too_warm = si::zero_celsius + 65.0;  // common practice

struct WarmWish {
  std::string job, from, every;
};

std::optional<double> read_option(const std::string& text, Quantity quantity, const char* option) {
  const units::Reading reading = units::read(text, quantity);
  if (!reading.value) fmt::print(stderr, "{}: {}\n", option, reading.complaint);
  return reading.value;
}

std::string minutes(double seconds) {
  if (seconds < 120.0) return fmt::format("{:.0f} s", seconds);
  if (seconds < 7200.0) return fmt::format("{:.0f} min", seconds / 60.0);
  return fmt::format("{:.1f} h", seconds / 3600.0);
}

std::string in_words(const Verdict& verdict) {
  if (verdict.holds()) return "all hold";
  for (const Finding& finding : verdict.findings) {
    if (!finding.held) return "broken: " + finding.name;
  }
  return verdict.halt ? verdict.halt->sentence : "not proven";
}

void print_hottest_parts(const search::AtTemperature& at, const Job& job) {
  constexpr std::size_t shown = 6;
  std::vector<std::size_t> order(at.heat_of_part.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::sort(order, std::greater{}, [&](std::size_t p) { return at.heat_of_part[p]; });
  fmt::print("\nWhere the heat comes from\n");
  for (std::size_t i = 0; i < std::min(shown, order.size()); ++i) {
    const double heat = at.heat_of_part[order[i]];
    if (heat < 0.005 * at.heat) break;
    fmt::print("  {}{}  {}\n", left(job.plan.parts[order[i]].tag, 12),
               right(units::show(heat, Quantity::power, job.world), 12),
               units::show(heat / at.heat, Quantity::share, job.world));
  }
}

void print_result(const search::WarmUp& found, const Job& job) {
  const auto show = [&](double value, Quantity quantity) { return units::show(value, quantity, job.world); };
  fmt::print(
      "{}\n\nOne cycle every {}; oil and steel take {}, walls and coolers carry off {}, surroundings {}\n",
      job.title, show(found.period, Quantity::time),
      units::show(found.balance.capacity, Quantity::energy, job.world) + "/K",
      show(found.balance.conductance, Quantity::conductance),
      show(found.balance.surroundings, Quantity::temperature));
  if (found.steady) {
    fmt::print("\nSteady at {}", show(*found.steady, Quantity::temperature));
    const double begin = found.curve.front().temperature;
    const auto almost = found.time_to(begin + 0.95 * (*found.steady - begin));
    if (almost) fmt::print(", 95 % of the way after {}", minutes(*almost));
    fmt::print("\n");
  } else if (found.balance.conductance > 0.0) {
    fmt::print(
        "\nNO BALANCE below {}: the oil overheats; give the reservoir more surface, fit a cooler, or unload "
        "the pump\n",
        show(found.proven.back().temperature, Quantity::temperature));
  }
  if (const auto hot = found.time_to(too_warm); hot && *hot > 0.0) {
    fmt::print("It passes {}, above which seals and oil age quickly, after {}\n",
               show(too_warm, Quantity::temperature), minutes(*hot));
  }
  fmt::print("\n{}{}{}   {}\n", right("oil at", 12), right("viscosity", 14), right("heat", 12),
             "the job's requirements");
  for (const search::AtTemperature& at : found.proven) {
    fmt::print("{}{}{}   {}\n", right(show(at.temperature, Quantity::temperature), 12),
               right(show(at.viscosity, Quantity::viscosity), 14), right(show(at.heat, Quantity::power), 12),
               in_words(at.verdict));
  }
  print_hottest_parts(found.proven.back(), job);
  fmt::print(
      "\n{}\n",
      wrapped("One temperature for all oil and the steel around it; heat of pump and rubbing counts as "
              "the oil's. Where people touch hot parts or oil, the local rules on temperature hold.",
              100, 0));
}

int warm(const WarmWish& wish) {
  const auto read = read_or_complain(wish.job);
  if (!read) return cannot;
  const Job& job = *read;
  const auto start = read_option(wish.from, Quantity::temperature, "--from");
  const auto every =
      wish.every.empty() ? std::optional(0.0) : read_option(wish.every, Quantity::time, "--every");
  if (!start || !every) return cannot;
  Progress progress("warming " + job.title);
  const search::WarmUp found = search::warm_up(
      job, {.start = *start, .every = every, .progress = [&](double share) { return progress.at(share); }});
  if (found.stopped) {
    fmt::print(stderr, "stopped by hand\n");
    return cannot;
  }
  print_result(found, job);
  const bool hold = std::ranges::all_of(found.proven, [](const auto& at) { return at.verdict.holds(); });
  return hold && found.steady ? all_held : something_broken;
}

}  // namespace

void add_warm(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<WarmWish>();
  wish->from = "20 degC";
  CLI::App* command = program.add_subcommand(
      "warm",
      "Repeat the cycle from a cold start: steady oil temperature, warm-up time, and the verdict on the way");
  command->add_option("job", wish->job, "the job file")->required()->type_name(a_job);
  command->add_option("--from", wish->from,
                      "temperature of the oil at the start, such as \"5 degC\" (20 degC)");
  command->add_option("--every", wish->every,
                      "time from one cycle's beginning to the next's; else without a pause");
  command->footer(
      "Ends with 0 when all holds from cold to steady, 1 when something is broken, 2 when it cannot be run.");
  command->callback([wish, &exit_code] { exit_code = warm(*wish); });
}

}  // namespace poise::cli
