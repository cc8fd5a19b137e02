// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/sampling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <cmath>

namespace poise::study {
namespace {

constexpr double doubt = 0.05;

/// Percent with digits down to a tenth of the interval's width.
std::string percent(double share, int decimals) { return fmt::format("{:.{}f}", 100.0 * share, decimals); }

}  // namespace

Share share_of(long count, long all) {
  Share share{.of = count, .all = all};
  if (all == 0) return share;
  const auto k = static_cast<double>(count), n = static_cast<double>(all);
  using Beta = boost::math::beta_distribution<>;
  share.value = k / n;
  share.low = count == 0 ? 0.0 : boost::math::quantile(Beta(k, n - k + 1.0), doubt / 2.0);
  share.high = count == all ? 1.0 : boost::math::quantile(Beta(k + 1.0, n - k), 1.0 - doubt / 2.0);
  return share;
}

std::string words_of(const Share& share) {
  if (share.all == 0) return "no machine was run";
  if (share.of == 0) return fmt::format("none of {} (below {:.2g} %)", count(share.all), 100.0 * share.high);
  const double width = 100.0 * (share.high - share.low);
  int decimals = std::clamp(static_cast<int>(std::ceil(-std::log10(width / 2.0))), 0, 4);
  if (100.0 * share.low < 0.5 && share.of > 0) ++decimals;  // more than none must not read as none
  if (share.of == share.all)
    return fmt::format("all of {} (above {} %)", count(share.all), percent(share.low, decimals + 1));
  return fmt::format("{} % ({} … {} %)", percent(share.value, decimals), percent(share.low, decimals),
                     percent(share.high, decimals));
}

std::string count(long number) {
  std::string text = std::to_string(number);
  for (auto at = static_cast<std::ptrdiff_t>(text.size()) - 3; at > (number < 0 ? 1 : 0); at -= 3)
    text.insert(static_cast<std::size_t>(at), ",");
  return text;
}

double quantile(const std::vector<double>& sorted, double share) {
  const double at = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(std::floor(at));
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (at - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

Histogram histogram(const std::vector<double>& sorted, std::size_t bins) {
  if (sorted.empty()) return {};
  Histogram histogram{sorted.front(), sorted.back(), std::vector<long>(bins, 0)};
  const double width = (histogram.to - histogram.from) / static_cast<double>(bins);
  for (const double value : sorted) {
    const double at = width > 0.0 ? (value - histogram.from) / width : 0.0;
    ++histogram.counts[std::min(static_cast<std::size_t>(at), bins - 1)];
  }
  return histogram;
}

}  // namespace poise::study
