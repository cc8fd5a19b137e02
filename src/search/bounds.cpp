// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "search/bounds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

#include "rules/rods.hpp"
#include "rules/sight.hpp"
#include "search/shelf.hpp"

namespace poise::search {
namespace {

constexpr double deepest = 100.0;  // a pressure below a hundredth of the highest does nothing here
constexpr double above_rating =
    1.2;  // counterbalance and safety valves are set above what the pump is rated for
constexpr double flow_room = 3.0;
constexpr double slowest = 0.3, fastest = 30.0;  // m/s in a line
constexpr double longest_stroke = 3.0;           // times what is asked for

// What a practitioner begins with where the job says nothing; common practice.
constexpr double shallowest = 30.0;  // a bore is not sized for a thirtieth of the highest pressure
constexpr double usual_pressure = 200 * si::bar, usual_bore = 50 * si::mm, usual_largest_bore = 250 * si::mm;
constexpr double usual_speed = 4.0;  // m/s in a pressure line
constexpr double usual_turns = 0.2;  // of all turns

/// A setting as a share of the highest pressure that may be.
struct UsualSetting {
  std::string_view kind;
  double share;
};
constexpr std::array usual_settings{UsualSetting{"sequence", 0.55},
                                    UsualSetting{"reducing", 0.4},
                                    UsualSetting{"reducing_non_relieving", 0.4},
                                    UsualSetting{"unloading_valve", 0.6},
                                    UsualSetting{"pressure_switch", 0.7},
                                    UsualSetting{"accumulator", 0.4},
                                    UsualSetting{"two_stage_pump", 0.3}};

void at_least(Range& range, double value) { range.low = std::clamp(value, range.low, range.high); }
void at_most(Range& range, double value) { range.high = std::clamp(value, range.low, range.high); }

/// A model that stands in the job can be brought to its own range only.
void keep_to(Range& range, const StockItem& item, int parameter) {
  const AdjustableRange* own = item.range_of(parameter);
  if (!own) return;
  range.low = std::max(range.low, own->from);
  range.high = std::max(range.low, std::min(range.high, own->to));
}

class Bounds {
 public:
  explicit Bounds(const Job& job)
      : job_(job), sight_(job.plan, job.steps, job.controls, job.world, nullptr) {}

  Range range(int part, int parameter) const {
    return range_of(part, job_.plan.parts[part].kind->parameters[parameter]);
  }

  OpenValue of(const Sought& sought) const {
    const PlannedPart& part = job_.plan.parts[sought.part];
    if (sought.of == Sought::Of::model) return model_of(sought, part);
    const Parameter& line = part.kind->parameters[sought.parameter];
    OpenValue value{
        .at = sought, .name = fmt::format("{}.{}", part.tag, line.name), .quantity = line.quantity};
    if (!line.words.empty()) {
      value.is = OpenValue::Is::word;
      value.choices.resize(line.words.size());
      std::iota(value.choices.begin(), value.choices.end(), 0.0);
      value.high = static_cast<double>(line.words.size() - 1);
      value.guess = line.fallback.value_or(0.0);
      return value;
    }
    Range range = range_of(sought.part, line);
    if (const StockItem* item = item_of(job_, sought.part)) keep_to(range, *item, sought.parameter);
    value.low = range.low;
    value.high = range.high;
    value.guess = std::clamp(range.guess.value_or(value.at_share(0.5)), value.low, value.high);
    if (line.adjusted || sought.of == Sought::Of::command) return value;
    value.is = OpenValue::Is::size;
    value.choices = sizes_in(range, line);
    value.low = value.choices.front();
    value.high = value.choices.back();
    value.guess = std::clamp(value.guess, value.low, value.high);
    return value;
  }

 private:
  OpenValue model_of(const Sought& sought, const PlannedPart& part) const {
    OpenValue value{.is = OpenValue::Is::model, .at = sought, .name = part.tag + ".model"};
    value.items = shelf_of(job_, sought).fits;
    value.choices.resize(value.items.size());
    std::iota(value.choices.begin(), value.choices.end(), 0.0);
    value.high = static_cast<double>(value.items.size()) - 1.0;
    value.guess = static_cast<double>(likeliest(job_, sought, value.items));
    return value;
  }

  bool is_open(int part, std::string_view name) const {
    const auto line = find_parameter(job_.plan.parts[part].kind->parameters, name);
    return line && std::ranges::any_of(job_.sought, [&](const Sought& other) {
             if (other.part != part) return false;
             if (other.of == Sought::Of::model)
               return std::ranges::find(other.stated, *line) == other.stated.end();
             return other.of == Sought::Of::part && other.parameter == *line;
           });
  }

  std::vector<double> sizes_in(const Range& range, const Parameter& line) const {
    const bool inches = job_.world[Quantity::length] == "in";
    const double unit = line.quantity == Quantity::none
                            ? 1.0
                            : 1.0 / units::difference_in_unit(1.0, line.quantity, job_.world);
    std::vector<double> found = sizes(line.series, inches, range.low, range.high, unit);
    if (found.empty()) found = sizes(line.series, inches, line.low, line.high, unit);
    if (found.empty()) found = {range.low, range.high};
    return found;
  }

  Range range_of(int p, const Parameter& line) const {
    const PlannedPart& part = job_.plan.parts[p];
    Range range{line.low, line.high};
    const std::string_view kind = part.kind->about.kind;
    if (line.quantity == Quantity::pressure) limit_pressure(range, kind);
    if (line.name == "turns") limit_turns(range, part);
    if (line.series == Series::bores) limit_bore(range, p);
    if (line.series == Series::strokes) limit_stroke(range, p);
    if (line.series == Series::hose_bores || line.series == Series::tube_bores) limit_line(range);
    if (line.quantity == Quantity::flow &&
        (part.kind->about.role == Role::source || kind == "compensated_flow_control"))
      limit_flow(range, part.kind->about.role == Role::source);
    if (range.low <= 0.0 && std::isfinite(range.high)) range.low = std::max(line.low, range.high * 1e-6);
    return range;
  }

  /// The highest pressure that a source of the circuit is rated for; none where none says.
  std::optional<double> highest_pressure() const {
    std::optional<double> highest;
    for (int p = 0; p < static_cast<int>(job_.plan.parts.size()); ++p) {
      const PlannedPart& part = job_.plan.parts[p];
      if (part.kind->about.role != Role::source || !find_parameter(part.kind->parameters, "rated_pressure"))
        continue;
      if (!part.values.given("rated_pressure") || is_open(p, "rated_pressure")) continue;
      highest = std::max(highest.value_or(0.0), part.values["rated_pressure"]);
    }
    return highest;
  }

  /// The lowest limit that a requirement sets a pressure from above.
  std::optional<double> lowest_limit() const {
    std::optional<double> lowest;
    for (const Requirement& requirement : job_.requirements) {
      const auto* never = std::get_if<Never>(&requirement.what);
      if (never && never->above && never->signal.quantity == Quantity::pressure)
        lowest = std::min(lowest.value_or(never->limit), never->limit);
    }
    return lowest;
  }

  void limit_pressure(Range& range, std::string_view kind) const {
    const auto highest = highest_pressure();
    if (highest) at_most(range, above_rating * *highest);
    at_least(range, range.high / deepest);
    const double most = std::min(highest.value_or(range.high), lowest_limit().value_or(range.high));
    const auto usual = std::ranges::find(usual_settings, kind, &UsualSetting::kind);
    range.guess = most * (usual != usual_settings.end() ? usual->share : 0.9);
  }

  void limit_turns(Range& range, const PlannedPart& part) const {
    if (find_parameter(part.kind->parameters, "full_turns")) at_most(range, part.values["full_turns"]);
    at_least(range, range.high / 100.0);
    range.guess = usual_turns * range.high;
  }

  /// The parts whose rods move with a part's.
  std::vector<int> on_the_rod_of(int part) const {
    std::vector<int> moving{part};
    for (std::size_t i = 0; i < moving.size(); ++i) {
      for (const Joint& joint : job_.plan.joints) {
        if (job_.plan.port(joint.a).domain != Domain::motion) continue;
        for (const auto& [here, there] : {std::pair(joint.a, joint.b), std::pair(joint.b, joint.a)}) {
          if (here.part == moving[i] && std::ranges::find(moving, there.part) == moving.end())
            moving.push_back(there.part);
        }
      }
    }
    return moving;
  }

  /// The greatest force that a cylinder must give: the weight on its rod, what steps put on it, and what
  /// requirements ask of the parts on it.
  double force_asked(int cylinder) const {
    double force = std::max(rules::weight_against(sight_, cylinder), 0.0);
    const std::vector<int> moving = on_the_rod_of(cylinder);
    const auto look = [&](const Signal& signal, double threshold) {
      if (signal.quantity == Quantity::force && std::ranges::find(moving, signal.part) != moving.end())
        force = std::max(force, std::abs(threshold));
    };
    for (const Requirement& requirement : job_.requirements) {
      if (const auto* reached = std::get_if<Reached>(&requirement.what))
        look(reached->condition.signal, reached->condition.threshold);
      if (const auto* never = std::get_if<Never>(&requirement.what); never && !never->above)
        look(never->signal, never->limit);
      if (const auto* band = std::get_if<Band>(&requirement.what)) look(band->signal, band->high);
      if (const auto* order = std::get_if<Order>(&requirement.what)) {
        for (const Condition& condition : order->first) look(condition.signal, condition.threshold);
      }
    }
    return force;
  }

  /// Cylinders that give a force together.
  long cylinders_on(int cylinder) const {
    return std::ranges::count_if(on_the_rod_of(cylinder), [&](int part) {
      return find_parameter(job_.plan.parts[part].kind->parameters, "bore").has_value();
    });
  }

  void limit_bore(Range& range, int cylinder) const {
    const double force = force_asked(cylinder);
    if (!(force > 0.0)) {
      at_most(range, usual_largest_bore);
      range.guess = usual_bore;
      return;
    }
    const double highest = highest_pressure().value_or(usual_pressure);
    const double shared = force / static_cast<double>(cylinders_on(cylinder));
    const auto bore = [&](double pressure) { return std::sqrt(4.0 / std::numbers::pi * shared / pressure); };
    // The next smaller size stays in, so that what is impossible shows by how much.
    at_least(range, 0.8 * bore(highest));
    at_most(range, bore(highest / shallowest));
    range.guess = bore(0.5 * std::min(highest, lowest_limit().value_or(highest)));
  }

  /// The furthest position of a rod that steps and requirements ask for.
  double furthest(int cylinder) const {
    double far = 0.0;
    const auto look = [&](const Condition& condition) {
      if (condition.above && condition.signal.part == cylinder &&
          condition.signal.quantity == Quantity::length)
        far = std::max(far, condition.threshold);
    };
    for (const Step& step : job_.steps) std::ranges::for_each(step.until, look);
    for (const Requirement& requirement : job_.requirements) {
      if (const auto* reached = std::get_if<Reached>(&requirement.what)) look(reached->condition);
      if (const auto* order = std::get_if<Order>(&requirement.what)) {
        std::ranges::for_each(order->first, look);
        std::ranges::for_each(order->then, look);
      }
    }
    return far;
  }

  void limit_stroke(Range& range, int cylinder) const {
    const double far = furthest(cylinder);
    if (!(far > 0.0)) return;
    at_least(range, far);
    at_most(range, longest_stroke * far);
  }

  /// Oil of one stroke, m3; 0 of what is no actuator with known sizes.
  double volume_of(int p) const {
    const PlannedPart& part = job_.plan.parts[p];
    const auto has = [&](std::string_view name) {
      return find_parameter(part.kind->parameters, name).has_value();
    };
    if (has("clamp_area"))
      return part.values["clamp_area"] * (part.values["swing_stroke"] + part.values["clamp_stroke"]);
    if (!has("bore") || !has("stroke")) return 0.0;
    double bore = part.values["bore"], stroke = part.values["stroke"];
    if (is_open(p, "bore")) {
      Range range{bore, 1.0};
      limit_bore(range, p);
      bore = range.guess.value_or(usual_bore);
    }
    if (is_open(p, "stroke")) stroke = std::max(furthest(p), 0.025);
    return 0.25 * std::numbers::pi * bore * bore * stroke;
  }

  void limit_flow(Range& range, bool source) const {
    double all = 0.0, shortest = 0.0, whole = 0.0;
    for (int p = 0; p < static_cast<int>(job_.plan.parts.size()); ++p) all += volume_of(p);
    const auto ask = [&](double time) { shortest = shortest > 0.0 ? std::min(shortest, time) : time; };
    for (const Step& step : job_.steps) whole += step.lasts;
    for (const Requirement& requirement : job_.requirements) {
      if (const auto* reached = std::get_if<Reached>(&requirement.what)) ask(reached->within);
    }
    if (!(shortest > 0.0)) shortest = whole;
    if (!(all > 0.0) || !(whole > 0.0)) return;
    at_most(range, flow_room * all / shortest);
    if (source) at_least(range, all / (10.0 * whole));
    range.guess = all / shortest;
  }

  void limit_line(Range& range) const {
    double flow = 0.0;
    for (int p = 0; p < static_cast<int>(job_.plan.parts.size()); ++p) {
      const PlannedPart& part = job_.plan.parts[p];
      if (part.kind->about.role != Role::source) continue;
      const auto line = find_parameter(part.kind->parameters, "flow");
      if (line && part.values.given("flow") && !is_open(p, "flow"))
        flow = std::max(flow, part.values["flow"]);
    }
    if (!(flow > 0.0)) return;
    const auto bore = [&](double speed) { return std::sqrt(4.0 / std::numbers::pi * flow / speed); };
    at_least(range, bore(fastest));
    at_most(range, bore(slowest));
    range.guess = bore(usual_speed);
  }

  const Job& job_;
  rules::Sight sight_;
};

}  // namespace

Range range_of(const Job& job, int part, int parameter) { return Bounds(job).range(part, parameter); }

std::vector<OpenValue> open_values_of(const Job& job) {
  const Bounds bounds(job);
  std::vector<OpenValue> values;
  for (const Sought& sought : job.sought) values.push_back(bounds.of(sought));
  return values;
}

}  // namespace poise::search
