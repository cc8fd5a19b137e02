// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The motion-and-state chart: what moves when, against the steps.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "draw/band.hpp"
#include "draw/chart.hpp"
#include "draw/commanded.hpp"
#include "draw/in_unit.hpp"
#include "draw/roles.hpp"
#include "draw/time_frame.hpp"

namespace poise::draw {
namespace {

constexpr double highest_band = 15.0, between_bands = 2.4, right_room = 3.0, note_room = 3.4,
                 note_letters = 1.9;
/// Share of the greatest flow of the chart, as a mean over the run, that counts as flow, and the least that
/// ever does, m3/s.
constexpr double counts = 5e-3, least_counts = 1.0 * si::cm3_per_minute;
/// A gap shorter than this share of the run is not seen on paper.
constexpr double unseen = 1e-3;

bool asked_for(const std::string& tag, const ChartWish& wish) {
  return wish.names.empty() || std::ranges::any_of(wish.names, [&](const std::string& name) {
           return name == tag || name.starts_with(tag + ".");
         });
}

std::optional<Signal> signal_of(const Plan& plan, int part, Signal::What what) {
  const auto all = signals_of(plan, part);
  const auto at = std::ranges::find(all, what, &Signal::what);
  return at == all.end() ? std::nullopt : std::optional(*at);
}

/// What an actuator's band shows: how far it is out, or how fast it turns.
std::optional<Signal> motion_of(const Plan& plan, int part) {
  const auto position = signal_of(plan, part, Signal::What::position);
  if (position && position->quantity == Quantity::angle) return signal_of(plan, part, Signal::What::speed);
  return position;
}

class Bands {
 public:
  Bands(const Job& job, const Trace& trace, const ChartWish& wish)
      : job_(job), trace_(trace), wish_(wish), oil_(job.plan.oil) {
    double greatest = 0.0;
    for (const Signal& signal : trace.signals) {
      if (signal.what == Signal::What::flow) greatest = std::max(greatest, mean_size(signal));
    }
    flows_from_ = std::max(counts * greatest, least_counts);
  }

  std::vector<Band> all() {
    each([&](int p) { motion(p); });
    each([&](int p) { inputs(p); });
    each([&](int p) { modes(p); });
    each([&](int p) { passage(p); });
    return std::move(bands_);
  }
  const std::vector<std::string>& at_rest() const { return at_rest_; }
  double flows_from() const { return flows_from_; }

 private:
  template <class What>
  void each(const What& what) {
    for (int p = 0; p < static_cast<int>(job_.plan.parts.size()); ++p) {
      if (asked_for(job_.plan.parts[p].tag, wish_)) what(p);
    }
  }
  const PlannedPart& part(int p) const { return job_.plan.parts[p]; }
  Band named(int p, std::string what) const {
    const std::string title = part(p).tag + ", " + what;
    return {
        .tag = part(p).tag, .what = std::move(what), .levels = {}, .course = {}, .open = {}, .title = title};
  }
  std::string shown(double value, Quantity quantity) const {
    return units::show(value, quantity, job_.world);
  }
  const std::vector<double>* column(const Signal& signal) const {
    const int at = trace_.column(signal.name);
    return at < 0 ? nullptr : &trace_.values[static_cast<std::size_t>(at)];
  }
  double end() const { return trace_.time.back(); }
  /// Mean over the run of how much flows either way; not the peak, which a valve that shifts makes.
  double mean_size(const Signal& signal) const {
    const auto& values = *column(signal);
    double sum = 0.0;
    for (std::size_t i = 1; i < values.size(); ++i)
      sum += 0.5 * (std::abs(values[i - 1]) + std::abs(values[i])) * (trace_.time[i] - trace_.time[i - 1]);
    return end() > 0.0 ? sum / end() : 0.0;
  }

  void motion(int p) {
    if (!is_actuator(part(p), oil_)) return;
    const auto signal = motion_of(job_.plan, p);
    const auto* values = signal ? column(*signal) : nullptr;
    if (!values) return;
    const auto [least, greatest] = std::ranges::minmax(*values);
    double low = std::min(0.0, least), high = std::max(0.0, greatest);
    const auto stroke = find_parameter(part(p).kind->parameters, "stroke");
    if (stroke && std::isfinite(part(p).values["stroke"])) high = std::max(high, part(p).values["stroke"]);
    // Oil that swells walls and seats lets a rod pass its stops by microns: that is still the stop.
    if (-low < 0.01 * (high - low)) low = 0.0;
    if (!(high > low)) {
      at_rest_.push_back(part(p).tag);
      return;
    }
    Band band = named(p, kind_in_words(*part(p).kind));
    band.moves = true;
    band.levels = {{0.0, shown(low, signal->quantity)}, {1.0, shown(high, signal->quantity)}};
    for (std::size_t i = 0; i < values->size(); ++i)
      band.course.push_back({trace_.time[i], std::clamp(((*values)[i] - low) / (high - low), 0.0, 1.0)});
    bands_.push_back(std::move(band));
  }

  void inputs(int p) {
    for (int i = 0; i < static_cast<int>(part(p).kind->inputs.size()); ++i) input(p, i);
  }

  void input(int p, int i) {
    const Parameter& parameter = part(p).kind->parameters[part(p).kind->inputs[i]];
    const auto ways = ways_of(job_, trace_, p, i);
    if (ways.size() == 1 && wish_.names.empty()) return;
    std::string what = kind_in_words(*part(p).kind);
    if (parameter.words.empty() && parameter.name != what) what += ", " + std::string(parameter.name);
    std::ranges::replace(what, '_', ' ');
    Band band = named(p, what);
    double low = 0.0, high = 0.0;
    for (const CommandedWay& way : ways) {
      low = std::min({low, way.from, way.to});
      high = std::max({high, way.from, way.to});
    }
    const auto level = [&](double value) {
      if (parameter.words.empty()) return high > low ? (value - low) / (high - low) : 0.0;
      return level_of_word(value, parameter.words.size());
    };
    for (std::size_t k = 0; k < parameter.words.size(); ++k)
      band.levels.push_back({level(static_cast<double>(k)), std::string(parameter.words[k])});
    if (parameter.words.empty())
      band.levels = {{0.0, shown(low, parameter.quantity)}, {1.0, shown(high, parameter.quantity)}};
    for (std::size_t k = 0; k < ways.size(); ++k) {
      const double until = k + 1 < ways.size() ? ways[k + 1].begin : end();
      const double from = level(ways[k].from), to = level(ways[k].to);
      band.course.push_back({ways[k].begin, from});
      const Input there = ways[k].at(until);
      if (ways[k].end < until) band.course.push_back({ways[k].end, to});
      band.course.push_back({until, from + (to - from) * there.s});
    }
    bands_.push_back(std::move(band));
  }

  /// Of three words the first, which is the rest position, stands in the middle.
  static double level_of_word(double word, std::size_t count) {
    if (count < 2) return 0.0;
    if (count != 3) return word / static_cast<double>(count - 1);
    constexpr std::array level{0.5, 1.0, 0.0};
    const auto below = static_cast<std::size_t>(std::clamp(std::floor(word), 0.0, 2.0));
    const std::size_t above = std::min<std::size_t>(below + 1, 2);
    return level[below] + (word - static_cast<double>(below)) * (level[above] - level[below]);
  }

  void modes(int p) {
    for (const Signal& signal : signals_of(job_.plan, p)) {
      const auto* values = signal.what == Signal::What::mode ? column(signal) : nullptr;
      if (!values) continue;
      const std::string name(part(p).kind->modes[signal.index].name);
      Band band = named(p, kind_in_words(*part(p).kind));
      band.levels = {{0.0, "not " + name}, {1.0, name}};
      for (std::size_t i = 0; i < values->size(); ++i) {
        if (!band.course.empty() && band.course.back().y != (*values)[i])
          band.course.push_back({trace_.time[i], band.course.back().y});
        band.course.push_back({trace_.time[i], (*values)[i]});
      }
      bands_.push_back(std::move(band));
    }
  }

  void passage(int p) {
    if (!opens_by_itself(*part(p).kind)) return;
    const auto signal = signal_of(job_.plan, p, Signal::What::flow);
    const auto* flows = signal ? column(*signal) : nullptr;
    if (!flows) return;
    Band band = named(p, kind_in_words(*part(p).kind));
    const auto& ports = part(p).kind->ports;
    const double gap = unseen * (end() - trace_.time.front());
    for (std::size_t i = 0; i < flows->size(); ++i) {
      const double flow = (*flows)[i], time = trace_.time[i];
      if (std::abs(flow) < flows_from_) continue;
      const bool back = flow < 0.0;
      Band::Open* last = band.open.empty() ? nullptr : &band.open.back();
      if (last && last->backwards == back &&
          (i == 0 || time - last->end <= gap || last->end == trace_.time[i - 1])) {
        last->end = time;
      } else {
        band.open.push_back(
            {time, time, back, fmt::format("{} to {}", ports[back ? 1 : 0].name, ports[back ? 0 : 1].name)});
      }
    }
    if (band.open.empty() && wish_.names.empty()) {
      at_rest_.push_back(part(p).tag);
      return;
    }
    band.levels = {{0.0, "shut"}, {1.0, "open"}};
    bands_.push_back(std::move(band));
  }

  const Job& job_;
  const Trace& trace_;
  const ChartWish& wish_;
  Oil oil_;
  double flows_from_ = 0.0;
  std::vector<Band> bands_;
  std::vector<std::string> at_rest_;
};

/// Bands of actuators that move alike become one; only where all cannot stand by themselves.
void merge_alike(std::vector<Band>& bands) {
  constexpr double alike = 0.02;
  std::vector<Band> kept;
  for (Band& band : bands) {
    const auto twin = std::ranges::find_if(kept, [&](const Band& other) {
      return band.moves && other.moves && band.what == other.what &&
             std::ranges::equal(band.course, other.course,
                                [](const Point& a, const Point& b) { return std::abs(a.y - b.y) < alike; });
    });
    if (twin == kept.end()) {
      kept.push_back(std::move(band));
    } else {
      twin->tag += ", " + band.tag;
    }
  }
  bands = std::move(kept);
}

Group note_of(const Bands& made, const std::vector<Band>& bands, std::size_t shown, const Job& job,
              const ChartWish& wish, double y) {
  std::string note = fmt::format("A valve counts as open while more than {} passes.",
                                 units::show(made.flows_from(), Quantity::flow, job.world));
  if (!made.at_rest().empty())
    note += fmt::format(" Never moved or opened: {}.", fmt::join(made.at_rest(), ", "));
  if (shown < bands.size()) {
    std::vector<std::string> left_out;
    for (std::size_t i = shown; i < bands.size(); ++i) left_out.push_back(bands[i].tag);
    note += fmt::format(" No room for {} (ask by --signals).", fmt::join(left_out, ", "));
  }
  return {.kind = "note",
          .name = "note",
          .title = {},
          .marks = {words({wish.content.left, y}, cut(note, wish.content.width(), note_letters), note_letters,
                          Text::Stands::left, pens::quiet)}};
}

}  // namespace

std::vector<Signal> motion_signals(const Job& job, const ChartWish& wish) {
  std::vector<Signal> wanted;
  const Oil oil(job.plan.oil);
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const PlannedPart& part = job.plan.parts[p];
    if (!asked_for(part.tag, wish)) continue;
    if (is_actuator(part, oil)) {
      if (auto signal = motion_of(job.plan, p)) wanted.push_back(*signal);
    }
    if (opens_by_itself(*part.kind)) {
      if (auto signal = signal_of(job.plan, p, Signal::What::flow)) wanted.push_back(*signal);
    }
    for (const Signal& signal : signals_of(job.plan, p)) {
      if (signal.what == Signal::What::mode) wanted.push_back(signal);
    }
  }
  return wanted;
}

Sheet motion_chart(const Job& job, const Trace& trace, const ChartWish& wish) {
  Sheet sheet{.width = wish.width,
              .height = wish.height,
              .title = job.title + ": motions and states",
              .description = {},
              .groups = {}};
  Bands made(job, trace, wish);
  std::vector<Band> bands = made.all();
  const auto framed = [&](double notes) {
    return time_frame(job, trace, wish, "what moves when", wish.content.left + band_room,
                      wish.content.right - right_room, notes);
  };
  TimeFrame frame = framed(note_room);
  const double room = frame.high - frame.low;
  const auto most = static_cast<std::size_t>(room / (least_band + 1.6));
  if (bands.size() > most) merge_alike(bands);
  const std::size_t shown = std::min(most, bands.size());
  const double pitch =
      std::min(highest_band + between_bands, room / static_cast<double>(std::max<std::size_t>(shown, 1)));
  // Few bands do not fill the paper: the time axis stands under the last of them.
  frame = framed(note_room + room - pitch * static_cast<double>(shown));
  sheet.groups = std::move(frame.groups);
  double high = frame.high;
  for (std::size_t i = 0; i < shown; ++i, high -= pitch)
    sheet.groups.push_back(
        draw_band(bands[i], frame.axis, wish.content.left, high - pitch + between_bands, high));
  sheet.groups.push_back(note_of(made, bands, shown, job, wish, wish.content.low + notice_height));
  sheet.description = fmt::format("{} bands over {} steps", shown, trace.steps.size());
  return sheet;
}

}  // namespace poise::draw
