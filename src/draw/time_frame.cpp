// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/time_frame.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "draw/letters.hpp"
#include "draw/marks.hpp"
#include "judge/outcome.hpp"

namespace poise::draw {
namespace {

constexpr double letters = 2.2, small = 1.9, line_pitch = 2.8, gap = 1.0;
constexpr double narrowest = 7.0, widest_least = 26.0, axis_height = 9.5, events_height = 4.5;
constexpr std::size_t name_lines = 3;

/// What the name of a step needs: its longest word, within reason.
std::vector<double> least_widths(const Trace& trace) {
  std::vector<double> least;
  for (const StepSpan& step : trace.steps) {
    double widest = narrowest;
    std::string_view rest = step.name;
    while (!rest.empty()) {
      const auto blank = std::min(rest.find(' '), rest.size());
      widest = std::max(widest, text_width(rest.substr(0, blank), letters) + 2.0 * gap);
      rest.remove_prefix(std::min(rest.size(), blank + 1));
    }
    least.push_back(std::min(widest, widest_least));
  }
  return least;
}

Group step_bar(const TimeAxis& axis, const Trace& trace, const Box& bar) {
  Group group{.kind = "steps", .name = "steps", .title = "Steps of the cycle", .marks = {}};
  for (std::size_t i = 0; i < axis.pieces().size(); ++i) {
    const TimeAxis::Piece& piece = axis.pieces()[i];
    const Box box{piece.left, bar.low, piece.right, bar.high};
    group.marks.push_back(rectangle(box, pens::ink));
    const std::string name = piece.name + (trace.steps[i].finished ? "" : " (not finished)");
    const auto lines = broken(name, box.width() - gap, letters, name_lines);
    double y =
        box.centre().y + 0.5 * line_pitch * static_cast<double>(std::ssize(lines) - 1) - 0.35 * letters;
    for (const std::string& each : lines) {
      group.marks.push_back(words({box.centre().x, y}, each, letters, Text::Stands::middle));
      y -= line_pitch;
    }
  }
  return group;
}

/// Events that stand less than a millimetre apart share a tick; their parts' tags stand under it where
/// there is room.
Group event_ticks(const TimeAxis& axis, const Job& job, const Trace& trace, double top) {
  Group group{.kind = "events", .name = "events", .title = "Events", .marks = {}};
  double free = axis.left();
  for (std::size_t i = 0; i < trace.events.size();) {
    const double x = axis.at(trace.events[i].time);
    std::vector<std::string> tags;
    for (; i < trace.events.size() && axis.at(trace.events[i].time) < x + 1.0; ++i) {
      const Event& event = trace.events[i];
      const std::string& tag = job.plan.parts[event.part].tag;
      if (std::ranges::find(tags, tag) == tags.end()) tags.push_back(tag);
      group.title +=
          fmt::format("; {} {}", units::show(event.time, Quantity::time, job.world), event.sentence);
    }
    group.marks.push_back({{.layer = Layer::chart, .width = 0.13, .filled = true},
                           Polyline{{{x - 0.5, top}, {x + 0.5, top}, {x, top - 1.4}}, true}});
    const std::string label = fmt::format("{}", fmt::join(tags, " "));
    const double half = 0.5 * text_width(label, small);
    if (x - half < free || x + half > axis.right() + 6.0) continue;
    group.marks.push_back(words({x, top - 3.5}, label, small, Text::Stands::middle, pens::quiet));
    free = x + half + gap;
  }
  return group;
}

struct TimeTick {
  double x;
  std::string label;
};

/// Where steps are drawn wider the numbers stand at their ends; elsewhere at round times of the one scale.
std::vector<TimeTick> time_ticks(const TimeAxis& axis, const units::World& world) {
  const auto number = [&](double t) { return units::in_unit(t, Quantity::time, world); };
  const auto label_at = [&](double t) {
    const std::string shown = units::show(t, Quantity::time, world);
    return shown.substr(0, shown.find(' '));
  };
  std::vector<TimeTick> ticks;
  for (const TimeAxis::Piece& piece : axis.pieces()) {
    if (piece.wider == 1.0) continue;
    ticks.push_back({piece.left, label_at(piece.begin)});
    ticks.push_back({piece.right, label_at(piece.end)});
  }
  if (axis.scale() > 0.0) {
    const double whole = (axis.right() - axis.left()) / axis.scale();
    const double unit = number(1.0) - number(0.0);
    const int most = std::max(2, static_cast<int>((axis.right() - axis.left()) / 14.0));
    const Ticks round = nice_ticks(0.0, whole * unit, most);
    for (const TimeAxis::Piece& piece : axis.pieces()) {
      if (piece.wider != 1.0) continue;
      for (double k = std::ceil(number(piece.begin) / round.step - 1e-9);
           k * round.step <= number(piece.end) * (1.0 + 1e-12); k += 1.0) {
        ticks.push_back({axis.at(k * round.step / unit), tick_label(k * round.step, round)});
      }
    }
  }
  return ticks;
}

Group time_axis(const TimeAxis& axis, const Job& job, double y) {
  Group group{.kind = "axis", .name = "time", .title = "Time", .marks = {}};
  group.marks.push_back(line({axis.left(), y}, {axis.right(), y}, pens::ink));
  std::vector<Box> taken;
  for (const TimeTick& tick : time_ticks(axis, job.world)) {
    group.marks.push_back(line({tick.x, y}, {tick.x, y - 1.0}, pens::ink));
    const Mark label = words({tick.x, y - 3.4}, tick.label, letters, Text::Stands::middle);
    const Box box = box_of(std::get<Text>(label.shape)).grown(0.4);
    if (std::ranges::any_of(taken, [&](const Box& other) { return overlap(box, other); })) continue;
    taken.push_back(box);
    group.marks.push_back(label);
  }
  for (const TimeAxis::Piece& piece : axis.pieces()) {
    if (piece.wider == 1.0) continue;
    group.marks.push_back(
        rectangle({piece.left, y, piece.right, y + 0.9},
                  {.layer = Layer::chart, .width = 0.13, .filled = true, .colour = pens::grey}));
  }
  const std::string unit = job.world[Quantity::time];
  const std::string title = axis.to_scale()
                                ? "time, " + unit
                                : "time, " + unit + "; steps with a grey bar are drawn wider than to scale";
  group.marks.push_back(
      words({0.5 * (axis.left() + axis.right()), y - 7.2}, title, letters, Text::Stands::middle));
  return group;
}

Group borders(const TimeAxis& axis, double low, double high) {
  Group group{.kind = "grid", .name = "steps", .title = {}, .marks = {}};
  for (const TimeAxis::Piece& piece : axis.pieces()) {
    group.marks.push_back(line({piece.right, low}, {piece.right, high},
                               {.layer = Layer::chart, .width = 0.13, .colour = pens::grey}));
  }
  return group;
}

}  // namespace

Group notice_line(const ChartWish& wish, const std::string& before) {
  Group group{.kind = "notice", .name = "notice", .title = {}, .marks = {}};
  const std::string text = before + std::string(wish.cautious ? notice : std::string_view());
  if (!text.empty())
    group.marks.push_back(words({wish.content.left, wish.content.low + 0.8},
                                cut(text, wish.content.width(), small), small, Text::Stands::left,
                                pens::quiet));
  return group;
}

Group title_line(const ChartWish& wish, const Job& job, const std::string& title) {
  constexpr double size = 3.2;
  return {
      .kind = "title",
      .name = "title",
      .title = {},
      .marks = {words({wish.content.left, wish.content.high - size},
                      cut(job.title + ": " + title, wish.content.width(), size), size, Text::Stands::left)}};
}

TimeFrame time_frame(const Job& job, const Trace& trace, const ChartWish& wish, const std::string& title,
                     double left, double right, double notes) {
  TimeAxis axis(trace.steps, left, right, least_widths(trace));
  std::size_t lines = 1;
  for (const TimeAxis::Piece& piece : axis.pieces())
    lines = std::max(lines, broken(piece.name, piece.right - piece.left - gap, letters, name_lines).size());
  const double top = wish.content.high - title_height;
  const double bar = top - 2.0 - line_pitch * static_cast<double>(lines);
  const double floor = wish.content.low + notice_height + notes + axis_height;
  TimeFrame frame{std::move(axis), floor, bar - events_height, {}};
  frame.groups.push_back(title_line(wish, job, title));
  frame.groups.push_back(step_bar(frame.axis, trace, {left, bar, right, top}));
  frame.groups.push_back(event_ticks(frame.axis, job, trace, bar));
  frame.groups.push_back(borders(frame.axis, floor, bar));
  frame.groups.push_back(time_axis(frame.axis, job, floor));
  frame.groups.push_back(
      notice_line(wish, trace.halt ? "The run ended early: " + trace.halt->sentence + ". " : std::string()));
  return frame;
}

}  // namespace poise::draw
