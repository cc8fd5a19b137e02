// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>

#include "job/draft.hpp"
#include "job/stock_part.hpp"
#include "job/tolerance.hpp"
#include "job/value.hpp"

namespace poise::job {
namespace {

constexpr double left_open = std::numeric_limits<double>::quiet_NaN();

std::string indefinite(const std::string& tag, const Kind& kind) {
  return fmt::format("{} ({})", tag, kind.about.kind);
}

bool decides_on_a_port(const Kind& kind, const Parameter& parameter) {
  return std::ranges::any_of(kind.ports,
                             [&](const Port& port) { return port.needed_if_parameter == parameter.name; });
}

/// What is missing has been complained about; with this in its place the rest of the job can be checked and
/// drawn.
double stand_in(const Parameter& parameter) {
  if (parameter.against) return parameter.fallback.value_or(left_open);
  return parameter.fallback.value_or(parameter.low);
}

struct Sheet {
  std::vector<double> numbers;
  std::vector<std::pair<int, Points>> curves;
  std::vector<std::string_view> stand_ins;
  std::vector<Sought> sought;  ///< the part not yet in them
  std::vector<int> stated;     ///< parameters that the part itself states
  bool complete = true;        ///< every value was read
  bool ports_known = true;
};

/// Notes that a value is to be found; something stands in for it. None after a complaint.
std::optional<double> leave_open(Draft& draft, Sheet& sheet, const std::string& tag, const Kind& kind,
                                 const Parameter& parameter, const Node& node) {
  if (decides_on_a_port(kind, parameter)) {
    draft.remarks.push_back(
        {node.place, fmt::format("{} of {} decides which ports it has and cannot be found; expected {}",
                                 parameter.name, tag, wanted(parameter))});
    return std::nullopt;
  }
  sheet.sought.push_back({.parameter = static_cast<int>(sheet.numbers.size()), .place = node.place});
  sheet.stand_ins.push_back(parameter.name);
  return stand_in(parameter);
}

/// What the model of a part states where the part itself states nothing. While a model is to be found, what
/// decides on the ports stands in the job.
std::optional<double> value_of_model(Sheet& sheet, const FromStock& from, const Kind& kind,
                                     const Parameter& parameter) {
  if (!from.gives(parameter.name) || (from.sought && decides_on_a_port(kind, parameter)))
    return parameter.fallback;
  const auto points = from.item->given.points(parameter.name);
  if (parameter.against)
    sheet.curves.emplace_back(static_cast<int>(sheet.numbers.size()), Points(points.begin(), points.end()));
  if (from.sought) sheet.stand_ins.push_back(parameter.name);
  return from.item->given[parameter.name];
}

Sheet read_sheet(Draft& draft, Section& section, const std::string& tag, const Kind& kind, Place place,
                 const FromStock& from) {
  Sheet sheet;
  for (const Parameter& parameter : kind.parameters) {
    const Node* node = section.find(parameter.name);
    std::optional<double> value;
    if (node) sheet.stated.push_back(static_cast<int>(sheet.numbers.size()));
    if (!node) {
      value = value_of_model(sheet, from, kind, parameter);
    } else if (parameter.against) {
      auto points = read_points(*node, parameter, tag, draft.job.world, draft.remarks);
      value = points ? std::optional(static_cast<double>(points->size())) : std::nullopt;
      if (points) sheet.curves.emplace_back(static_cast<int>(sheet.numbers.size()), std::move(*points));
    } else if (is_open(*node, parameter)) {
      value = leave_open(draft, sheet, tag, kind, parameter, *node);
    } else {
      value = read_value(*node, parameter, tag, draft.job.world, draft.remarks);
    }
    const bool may_miss =
        parameter.optional ||
        (!parameter.instead.empty() && (section.has(parameter.instead) || from.gives(parameter.instead)));
    if (!node && !value && !may_miss && !from.unsure) {
      draft.remarks.push_back(
          {place, fmt::format("{} needs {}, {}", indefinite(tag, kind), parameter.name, wanted(parameter))});
    }
    const bool missing = !value && (node || !may_miss);
    if (missing && decides_on_a_port(kind, parameter)) sheet.ports_known = false;
    if (missing) {
      sheet.complete = false;
      sheet.stand_ins.push_back(parameter.name);
    }
    sheet.numbers.push_back(value.value_or(missing ? stand_in(parameter) : left_open));
  }
  return sheet;
}

/// What is known of a part's value before its tolerance is read.
KnownValue known_value(const Sheet& sheet, const FromStock& from, const Parameter& parameter, int index) {
  const double value = sheet.numbers[static_cast<std::size_t>(index)];
  if (std::ranges::find(sheet.stand_ins, parameter.name) != sheet.stand_ins.end()) return {};
  const auto curve = std::ranges::find(sheet.curves, index, &std::pair<int, Points>::first);
  if (curve != sheet.curves.end())
    return {KnownValue::Is::stated, std::ranges::max(curve->second, {}, &CurvePoint::y).y};
  if (!std::isnan(value) && !parameter.against) return {KnownValue::Is::stated, value};
  return {from.unsure ? KnownValue::Is::unknown : KnownValue::Is::missing};
}

std::vector<ReadTolerance> read_part_tolerances(Draft& draft, Section& section, const Kind& kind,
                                                const Sheet& sheet, const FromStock& from) {
  const auto known = [&](int index) {
    return known_value(sheet, from, kind.parameters[static_cast<std::size_t>(index)], index);
  };
  return read_tolerances(section, kind.parameters, known, draft.job.world, draft.remarks);
}

const Kind* read_kind(Draft& draft, Section& section, const std::string& tag, const Node& table,
                      Place place) {
  const auto word = section.text("kind");
  if (word) return known_kind(*word, draft.remarks);
  if (section.has("kind")) return nullptr;
  for (const Field& field : table.fields) {
    if (field.value.form != Node::Form::table) continue;
    draft.remarks.push_back(
        {field.place, fmt::format("{} has no kind; a tag with a dot in it stands in quotation marks: "
                                  "[parts.\"{}.{}\"]",
                                  tag, tag, field.key)});
    return nullptr;
  }
  draft.remarks.push_back({place, fmt::format("{} needs kind, such as kind = \"pump\"", tag)});
  return nullptr;
}

void read_part(Draft& draft, const Field& field) {
  if (field.value.form != Node::Form::table) {
    draft.remarks.push_back(
        {field.value.place, fmt::format("{}: expected the table of a part, [parts.{}], found {}", field.key,
                                        field.key, form_of(field.value))});
    draft.left_out.insert(field.key);
    return;
  }
  Section section(field.value, field.key, draft.remarks, keys::of_part());
  const Kind* kind = read_kind(draft, section, field.key, field.value, field.place);
  const bool usable = is_usable_tag(draft, field.key, field.place);
  if (!kind || !usable) {
    draft.left_out.insert(field.key);
    return;
  }
  section.call(indefinite(field.key, *kind));
  DrawnPart drawn = read_drawn(draft, section);
  add_part(draft, section, field.key, *kind, field.place, std::move(drawn));
}

bool is_tag_letter(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0x80 || std::isalnum(byte) || c == '-' || c == '_' || c == '/' || c == '.';
}

}  // namespace

void refuse_tag_inside_tag(Draft& draft, const std::string& tag, Place place) {
  for (std::size_t dot = tag.find('.'); dot != std::string::npos; dot = tag.find('.', dot + 1)) {
    const std::string start = tag.substr(0, dot);
    if (!draft.parts.contains(start)) continue;
    draft.remarks.push_back(
        {place,
         fmt::format("the tag {} reads like a port of {}; give one of them another tag", quote(tag), start)});
  }
}

bool is_usable_tag(Draft& draft, const std::string& tag, Place place) {
  const bool letters = !tag.empty() && std::ranges::all_of(tag, is_tag_letter);
  if (!letters || tag.starts_with('.') || tag.ends_with('.') || tag.find("..") != std::string::npos) {
    draft.remarks.push_back(
        {place, fmt::format("{} cannot be a tag; a tag has letters, digits, \"-\", \"_\", \"/\" and, "
                            "between them, \".\"",
                            quote(tag))});
    return false;
  }
  if (draft.parts.contains(tag) || draft.left_out.contains(tag)) {
    draft.remarks.push_back(
        {place, fmt::format("there is a part {} already; give this one another tag", quote(tag))});
    return false;
  }
  return true;
}

void add_part(Draft& draft, Section& section, const std::string& tag, const Kind& kind, Place place,
              DrawnPart drawn) {
  section.call(indefinite(tag, kind));
  section.take(kind.parameters);
  const FromStock from = read_model(draft, section, tag, kind);
  Sheet sheet = read_sheet(draft, section, tag, kind, place, from);
  if (from.sought && from.item) {
    sheet.sought.push_back({.of = Sought::Of::model, .place = from.place, .stated = sheet.stated});
  }
  const auto tolerances = read_part_tolerances(draft, section, kind, sheet, from);
  section.refuse_unknown_keys();
  if (!sheet.ports_known) {
    draft.left_out.insert(tag);
    return;
  }
  Values values(kind.parameters, sheet.numbers);
  for (const auto& [index, points] : sheet.curves) values.set_points(index, points);
  compare_with_model(draft, section, tag, from, values, sheet.stand_ins);
  if (sheet.complete && sheet.sought.empty() && !from.unsure) {
    for (const Mismatch& mismatch : kind.check(values)) {
      const Node* node = section.find(mismatch.parameter);
      draft.remarks.push_back(
          {node ? node->place : place, fmt::format("{}: {}", indefinite(tag, kind), mismatch.sentence)});
    }
  }
  drawn.stand_ins = sheet.stand_ins;
  if (from.item && !from.sought) drawn.model = from.model;
  const int place_in_plan = static_cast<int>(draft.job.plan.parts.size());
  for (Sought open : sheet.sought) {
    open.part = place_in_plan;
    draft.job.sought.push_back(open);
  }
  for (const ReadTolerance& each : tolerances)
    draft.job.tolerances.push_back({place_in_plan, each.parameter, each.tolerance, false, each.place});
  if (from.item && !from.sought) take_tolerances(draft.job, place_in_plan, *from.item);
  draft.parts.emplace(tag, place_in_plan);
  draft.job.plan.parts.push_back({tag, &kind, values, place});
  draft.job.drawn.push_back(std::move(drawn));
}

std::vector<std::string> known_tags(const Draft& draft) {
  std::vector<std::string> tags;
  for (const PlannedPart& part : draft.job.plan.parts) tags.push_back(part.tag);
  return tags;
}

void read_parts(Draft& draft, Section& top) {
  const Node* table = top.table("parts");
  if (table) {
    for (const Field& field : table->fields) read_part(draft, field);
    for (const PlannedPart& part : draft.job.plan.parts) refuse_tag_inside_tag(draft, part.tag, part.place);
  }
  if (!table && top.has("parts")) return;
  if (!table || table->fields.empty()) top.complain("has no parts; each part has a table such as [parts.P1]");
}

}  // namespace poise::job
