// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Pressure along the oil's way at a moment, from the reservoir to the actuators and back.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "draw/chart.hpp"
#include "draw/in_unit.hpp"
#include "draw/letters.hpp"
#include "draw/marks.hpp"
#include "draw/roles.hpp"
#include "draw/time_frame.hpp"
#include "draw/ways.hpp"

namespace poise::draw {
namespace {

constexpr double left_room = 17.0, least_panel = 27.0, most_panel = 75.0, heading = 4.2, widest_pitch = 32.0;
constexpr double most_letters = 2.1, least_letters = 1.3, letters_per_pitch = 6.8, rows = 3.0;
constexpr double heading_letters = 2.5, axis_letters = 2.2, tick_pitch = 5.5;
/// What is shown as nothing, as the operating point does.
constexpr double no_pressure = 10.0, no_flow = 0.1 * si::cm3_per_minute;
constexpr Pen feed{.layer = Layer::chart, .width = 0.18, .filled = true, .colour = pens::blue};
constexpr Pen back{.layer = Layer::chart, .width = 0.18, .filled = true, .colour = pens::pale};

struct Drawing {
  const Job& job;
  const ChartWish& wish;
  const std::vector<OilsWay>& ways;
  std::size_t shown;
  double pitch, letters;

  std::string show(double value, Quantity quantity, double nothing) const {
    return units::show(std::abs(value) <= nothing ? 0.0 : value, quantity, job.world);
  }
  std::string tags(const OilsWay& way) const {
    std::vector<std::string> all;
    for (const int p : way.actuators) all.push_back(job.plan.parts[p].tag);
    return fmt::format("{}", fmt::join(all, ", "));
  }
  std::string loss(const Passage& passage) const {
    if (passage.works) return passage.flow > no_flow ? "moves" : "stands";
    const bool flows = passage.flow > no_flow;
    if (std::abs(passage.drop) <= no_pressure) return flows ? "no loss" : "";
    const std::string size = show(std::abs(passage.drop), Quantity::pressure, no_pressure);
    if (!flows) return "holds " + size;
    return (passage.drop > 0.0 ? "-" : "+") + size;
  }

  /// The pressure of a volume, with the name of what stands there where a way begins or ends.
  std::string station(const OilsWay& way, std::size_t i) const {
    const std::string pressure = show(way.pressure[i], Quantity::pressure, no_pressure);
    const int there = i == 0 ? way.begins : i + 1 == way.pressure.size() ? way.ends : -1;
    if (there < 0) return pressure;
    const bool actuator = std::ranges::find(way.actuators, there) != way.actuators.end();
    const std::string named = (actuator ? tags(way) : job.plan.parts[there].tag) + ": " + pressure;
    return text_width(named, letters) < 1.4 * pitch ? named : pressure;
  }

  ValueAxis axis(double low, double high) const {
    double least = 0.0, greatest = 0.0;
    const InUnit number(Quantity::pressure, job.world);
    for (const OilsWay& way : ways) {
      for (const double p : way.pressure) {
        least = std::min(least, number(p));
        greatest = std::max(greatest, number(p));
      }
    }
    if (greatest > 0.0 && -least < 0.02 * greatest) least = 0.0;
    return value_axis(least, greatest, low, high,
                      std::max(2, static_cast<int>((high - low) / tick_pitch) + 1));
  }

  Group panel(const OilsWay& way, const Box& box) const;
  void scale(Group& group, const ValueAxis& axis, double left, double right) const;
};

void Drawing::scale(Group& group, const ValueAxis& axis, double left, double right) const {
  for (const double number : axis.ticks.at) {
    const double y = axis.at(number);
    group.marks.push_back(line({left, y}, {right, y}, number == 0.0 ? pens::ink : pens::grid));
    group.marks.push_back(words({left - 1.2, y - 0.35 * axis_letters}, tick_label(number, axis.ticks),
                                axis_letters, Text::Stands::right));
  }
  Mark title =
      words({left - 13.5, 0.5 * (axis.from + axis.to)},
            cut("pressure, " + job.world[Quantity::pressure], axis.to - axis.from + heading, axis_letters),
            axis_letters, Text::Stands::middle);
  std::get<Text>(title.shape).upright = true;
  group.marks.push_back(title);
}

Group Drawing::panel(const OilsWay& way, const Box& box) const {
  const std::string name = tags(way);
  Group group{.kind = "way", .name = name, .title = "Pressure on the way to " + name, .marks = {}};
  const double row = 1.25 * letters, left = box.left + left_room;
  const double right = left + pitch * static_cast<double>(way.pressure.size());
  const ValueAxis axis = this->axis(box.low + rows * row + 1.5, box.high - heading - 1.2 * letters);
  const InUnit number(Quantity::pressure, job.world);
  const auto x = [&](std::size_t station) { return left + pitch * (static_cast<double>(station) + 0.5); };
  const auto y = [&](std::size_t station) {
    return axis.at(std::max(number(way.pressure[station]), axis.low));
  };
  scale(group, axis, left, right);
  Mark headline =
      words({left, box.high - 0.8 * heading_letters}, "Way of " + name, heading_letters, Text::Stands::left);
  std::get<Text>(headline.shape).bold = true;
  group.marks.push_back(headline);
  const double half = std::min(0.2 * pitch, 4.0), zero = axis.at(0.0);
  bool before = !way.only_back;
  std::vector<Point> stairs;
  for (std::size_t i = 0; i < way.pressure.size(); ++i) {
    if (i > 0 && way.passages[i - 1].works) before = false;
    if (std::abs(y(i) - zero) > 0.05)
      group.marks.push_back(rectangle({x(i) - half, std::min(zero, y(i)), x(i) + half, std::max(zero, y(i))},
                                      before ? feed : back));
    group.marks.push_back(
        words({x(i), std::max(y(i), zero) + 0.4 * letters}, station(way, i), letters, Text::Stands::middle));
    if (i > 0) {
      const double middle = 0.5 * (x(i - 1) + x(i));
      stairs.push_back({middle, y(i - 1)});
      stairs.push_back({middle, y(i)});
    }
  }
  const std::size_t last = way.pressure.size() - 1;
  stairs.insert(stairs.begin(), {x(0) - half, y(0)});
  stairs.push_back({x(last) + half, y(last)});
  group.marks.push_back(polyline(stairs, pens::ink));
  for (std::size_t i = 0; i < way.passages.size(); ++i) {
    const Passage& passage = way.passages[i];
    const PlannedPart& part = job.plan.parts[passage.part];
    const std::string tag = passage.works ? name : part.tag;
    const double middle = 0.5 * (x(i) + x(i + 1)), wide = pitch - 0.6;
    const std::string ports =
        fmt::format("{} {}-{}", tag, part.kind->ports[passage.in].name, part.kind->ports[passage.out].name);
    const std::string flow =
        std::abs(passage.flow) > no_flow ? show(passage.flow, Quantity::flow, no_flow) : "no flow";
    double at = box.low + rows * row - row + 0.3 * letters;
    for (const std::string& each : {ports, loss(passage), flow}) {
      if (each.empty()) continue;
      group.marks.push_back(words({middle, at}, cut(each, wide, letters), letters, Text::Stands::middle));
      at -= row;
    }
  }
  return group;
}

std::vector<int> actuators_of(const Job& job, const ChartWish& wish) {
  std::vector<int> all;
  const Oil oil(job.plan.oil);
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const PlannedPart& part = job.plan.parts[p];
    if (is_actuator(part, oil) && (wish.part.empty() || part.tag == wish.part)) all.push_back(p);
  }
  return all;
}

}  // namespace

Sheet way_chart(const Job& job, const Circuit& circuit, const Trace& trace, const Moment& moment,
                const ChartWish& wish) {
  const std::vector<OilsWay> ways = oils_ways(job, circuit, trace, moment, actuators_of(job, wish));
  const std::string when =
      fmt::format("pressure along the oil's way at {}{}", units::show(moment.time, Quantity::time, job.world),
                  moment.step.empty() ? "" : ", in step \"" + moment.step + "\"");
  Sheet sheet{.width = wish.width,
              .height = wish.height,
              .title = job.title + ": " + when,
              .description = {},
              .groups = {}};
  sheet.groups = {title_line(wish, job, when), notice_line(wish)};
  const Box room{wish.content.left, wish.content.low + 2.0 * notice_height, wish.content.right,
                 wish.content.high - title_height};
  const std::size_t shown = std::min(ways.size(), static_cast<std::size_t>(room.height() / least_panel));
  std::size_t longest = 1;
  for (const OilsWay& way : ways) longest = std::max(longest, way.pressure.size());
  const double pitch = std::min(widest_pitch, (room.width() - left_room) / static_cast<double>(longest));
  const Drawing drawing{job,   wish,  ways,
                        shown, pitch, std::clamp(pitch / letters_per_pitch, least_letters, most_letters)};
  const double each =
      std::min(most_panel, room.height() / static_cast<double>(std::max<std::size_t>(shown, 1)));
  std::vector<std::string> left_out;
  for (std::size_t i = 0; i < ways.size(); ++i) {
    const double high = room.high - each * static_cast<double>(i);
    if (i < shown) {
      sheet.groups.push_back(drawing.panel(ways[i], {room.left, high - each + 1.5, room.right, high}));
    } else {
      left_out.push_back(drawing.tags(ways[i]));
    }
  }
  std::string note =
      "Dark: towards the actuator; pale: on the way back. Under each part: its ports along the way, what it "
      "takes from the pressure or holds, and its flow.";
  if (ways.empty()) note = "No oil gets to an actuator: there is no way to draw.";
  if (!left_out.empty()) note += fmt::format(" No room for {} (ask by --part).", fmt::join(left_out, ", "));
  sheet.groups.push_back(
      {.kind = "note",
       .name = "note",
       .title = {},
       .marks = {words({room.left, wish.content.low + notice_height + 0.5}, cut(note, room.width(), 1.9), 1.9,
                       Text::Stands::left, pens::quiet)}});
  sheet.description =
      fmt::format("{} ways at {}", shown, units::show(moment.time, Quantity::time, job.world));
  return sheet;
}

}  // namespace poise::draw
