// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/spread_words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "judge/page.hpp"
#include "judge/wording.hpp"

namespace poise::study {
namespace {

constexpr double worth_naming = 0.02;  // of a margin's variance
constexpr std::size_t wide = 100;

std::string signed_percent(double share) {
  const double percent = 100.0 * std::abs(share);
  return fmt::format("{}{} %", share < 0.0 ? "−" : "+",
                     percent < 99.5 ? fmt::format("{:.2g}", percent) : fmt::format("{:.0f}", percent));
}

std::string difference(const search::Loose& loose, double off, const Job& job) {
  const double by = value_off(loose, job, off) - loose.stated;
  if (loose.tolerance.of == Tolerance::Of::value && loose.stated != 0.0)
    return signed_percent(by / loose.stated);
  const Quantity quantity = quantity_of(loose, job);
  const std::string text = quantity == Quantity::share
                               ? fmt::format("{:.3g} points", 100.0 * std::abs(by))
                               : units::show_difference(std::abs(by), quantity, job.world);
  return (by < 0.0 ? "−" : "+") + text;
}

std::string not_all_keep(const SpreadAnswer& answer) {
  std::string text;
  if (answer.broken > 0) text += fmt::format("{} break a promise", count(answer.broken));
  if (answer.not_proven > 0)
    text += fmt::format("{}{} could not be followed to their end and count as not kept",
                        text.empty() ? "" : "; ", count(answer.not_proven));
  return text;
}

std::string broken_in_words(const PromiseSpread& of) {
  if (of.broken.all == 0) return "not seen";
  return of.broken.of == 0 ? fmt::format("none, below {:.2g} %", 100.0 * of.broken.high)
                           : words_of(of.broken);
}

std::string margins_in_words(const PromiseSpread& of, const Job& job) {
  if (of.margins.empty()) return "";
  return fmt::format("room: least {}, in one of twenty below {}, usual {}, as stated {}",
                     room_in_words(of, 0.0, job), room_in_words(of, 0.05, job), room_in_words(of, 0.5, job),
                     of.nominal.margin
                         ? units::show_difference(*of.nominal.margin, of.promise.quantity, job.world)
                         : "no number");
}

void line(std::string& text, std::string_view lead, const std::string& body) {
  if (body.empty()) return;
  text += fmt::format("    {}{}\n", lead, wrapped(body, wide, 4 + columns(lead)));
}

}  // namespace

std::string room_in_words(const PromiseSpread& of, double share, const Job& job) {
  if (of.margins.empty()) return "–";
  const auto room = of.room_below(share);
  return room ? units::show_difference(*room, of.promise.quantity, job.world) : "none, it never comes";
}

std::string shape_in_words(const Spread& spread) {
  const auto& oil = spread.loose();
  const auto range = std::ranges::find(oil, search::Loose::Of::oil_temperature, &search::Loose::of);
  std::string text = fmt::format(
      "{} values, each anywhere within its tolerance, equally likely and independent of the others",
      oil.size());
  if (range != oil.end())
    text +=
        fmt::format("; oil {} … {}", units::show(range->at(-1.0), Quantity::temperature, spread.job().world),
                    units::show(range->at(1.0), Quantity::temperature, spread.job().world));
  return text;
}

std::string answer_in_words(const SpreadAnswer& answer) {
  if (answer.kept.all == 0) return "no machine was run";
  if (answer.kept.of == answer.kept.all)
    return fmt::format("All of {} machines keep every promise: above {:.4g} % of all, 95 % sure",
                       count(answer.kept.all), 100.0 * answer.kept.low);
  if (answer.kept.of == 0)
    return fmt::format("None of {} machines keeps every promise: below {:.2g} % of all, 95 % sure",
                       count(answer.kept.all), 100.0 * answer.kept.high);
  std::string share = words_of(answer.kept);
  share.insert(share.size() - 1, ", 95 % sure");
  return fmt::format("{} of {} machines keep every promise", share, count(answer.kept.all));
}

std::string off_in_words(const search::Loose& loose, double off, const Job& job) {
  if (loose.stated == 0.0)
    return fmt::format("{} {}", name_of(loose, job),
                       units::show(value_off(loose, job, off), quantity_of(loose, job), job.world));
  return fmt::format("{} {} ({})", name_of(loose, job),
                     units::show(value_off(loose, job, off), quantity_of(loose, job), job.world),
                     difference(loose, off, job));
}

std::string kept_in_words(const Kept& kept, const Promise& promise, const Job& job) {
  if (kept.mark == Mark::unseen) return "not seen";
  const bool held = kept.mark == Mark::held;
  if (!kept.margin) return held ? "held" : "broken: what it waits for never comes";
  const std::string by = units::show_difference(std::abs(*kept.margin), promise.quantity, job.world);
  return held ? by + " left" : "broken by " + by;
}

std::string drivers_in_words(const PromiseSpread& of, const Spread& spread, std::size_t most) {
  if (of.margins.empty()) return "";
  if (!of.drivers.enough) return of.margins.front() == of.margins.back() ? "" : "too few machines to tell";
  std::vector<std::string> names;
  for (const Driver& driver : of.drivers.ranked) {
    if (driver.share < worth_naming || names.size() == most) break;
    names.push_back(fmt::format("{} {:.0f} %", name_of(spread.loose()[driver.loose], spread.job()),
                                100.0 * driver.share));
  }
  if (names.empty()) return "no value alone: what several do together, or where it jumps";
  if (of.drivers.together >= worth_naming)
    names.push_back(fmt::format("several together or in bends {:.0f} %", 100.0 * of.drivers.together));
  return fmt::format("{}", fmt::join(names, ", "));
}

std::string typical_in_words(const PromiseSpread& of, const Spread& spread, std::size_t most) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min(of.typical.size(), most); ++i)
    names.push_back(off_in_words(spread.loose()[of.typical[i].first], of.typical[i].second, spread.job()));
  return fmt::format("{}", fmt::join(names, ", "));
}

std::string nearest_in_words(const std::optional<Nearest>& nearest, const Spread& spread) {
  if (!nearest) return "";
  if (!nearest->found)
    return fmt::format("not found: the way that looked worst holds out to {:g} times the tolerances",
                       farthest_reach);
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < nearest->off.size(); ++i) {
    if (nearest->off[i] != 0.0) order.push_back(i);
  }
  if (order.empty()) return "as stated already";
  std::ranges::stable_sort(order, std::ranges::greater{},
                           [&](std::size_t i) { return std::abs(nearest->off[i]); });
  constexpr std::size_t most = 6;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < std::min(order.size(), most); ++i)
    names.push_back(off_in_words(spread.loose()[order[i]], nearest->off[order[i]], spread.job()));
  if (order.size() > most) names.push_back(fmt::format("and {} more", order.size() - most));
  return fmt::format("{} {:.2f} of the tolerances: {}", nearest->reach <= 1.0 ? "at" : "outside, at",
                     nearest->reach, fmt::join(names, ", "));
}

std::string_view words_of(search::Loose::From from) {
  switch (from) {
    case search::Loose::From::kind:
      return "its kind";
    case search::Loose::From::list:
      return "its list";
    case search::Loose::From::job:
      return "the job";
    case search::Loose::From::usual:
      break;
  }
  return "usual";
}

std::string show(const SpreadAnswer& answer, const std::vector<std::optional<Nearest>>& nearest,
                 const Spread& spread, bool colour) {
  const Ink ink(colour);
  const Job& job = spread.job();
  std::string text = job.title + "\n\n";
  const std::string head = wrapped(answer_in_words(answer), wide, 0);
  text += (answer.kept.of == answer.kept.all ? ink.good(head) : ink.bad(head)) + "\n";
  if (const std::string others = not_all_keep(answer); !others.empty())
    text += wrapped(others, wide, 0) + "\n";
  text += wrapped(shape_in_words(spread), wide, 0) + "\n";
  for (std::size_t p = 0; p < answer.promises.size(); ++p) {
    const PromiseSpread& of = answer.promises[p];
    const bool all_hold = of.broken.of == 0 && of.broken.all > 0;
    text += fmt::format("\n  {}  {}\n", all_hold ? ink.good("held  ") : ink.bad("BROKEN"),
                        wrapped(of.promise.name + ": broken on " + broken_in_words(of), wide, 10));
    line(text, "", margins_in_words(of, job));
    if (of.without_number > 0)
      line(text, "", fmt::format("on {} what it waits for never comes", count(of.without_number)));
    if (of.unseen > 0)
      line(text, "", fmt::format("on {} the run ended before it could be told", count(of.unseen)));
    line(text, "driven by: ", drivers_in_words(of, spread, 5));
    line(text, "those that break have, on the mean: ", typical_in_words(of, spread, 3));
    if (p < nearest.size()) line(text, "breaks first: ", nearest_in_words(nearest[p], spread));
    if (of.worst)
      line(text, "worst: ",
           fmt::format("machine {}, {}", *of.worst, kept_in_words(of.worst_kept, of.promise, job)));
  }
  if (answer.worst)
    text += fmt::format(
        "\n{}\n",
        wrapped(fmt::format("Worst of all: machine {}, \"{}\"; --sample {} shows its whole verdict.",
                            *answer.worst, answer.promises[answer.worst_promise].promise.name, *answer.worst),
                wide, 0));
  return text;
}

}  // namespace poise::study
