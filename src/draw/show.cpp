// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/show.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "draw/fit.hpp"
#include "draw/label.hpp"
#include "draw/legend.hpp"
#include "draw/lines.hpp"
#include "draw/strokes.hpp"
#include "draw/words.hpp"

namespace poise::draw {
namespace {

constexpr double unframed_margin = 4.0;        // mm
constexpr double no_way = 5 * si::micrometre;  // a rod on its stop gives way by less

class Show {
 public:
  Show(const Schematic& schematic, const Plan& plan, std::span<const Words> words, const Look& look,
       const Mapping& mapping)
      : schematic_(schematic), plan_(plan), words_(words), look_(look), mapping_(mapping) {
    if (look.moment) arrows_.greatest = look.moment->greatest_flow;
  }

  /// Edges first, symbols last: what a person looks for lies on top.
  void add_to(std::vector<Group>& groups) const {
    for (const Enclosure& each : schematic_.enclosures) groups.push_back(enclosure(each));
    for (std::size_t w = 0; w < schematic_.wires.size(); ++w) groups.push_back(line(w));
    for (std::size_t t = 0; t < schematic_.tanks.size(); ++t) groups.push_back(tank(t));
    for (const PlacedSymbol& symbol : schematic_.symbols) groups.push_back(part(symbol));
  }
  const ArrowScale& arrows() const { return arrows_; }

 private:
  Group enclosure(const Enclosure& each) const;
  Group line(std::size_t w) const;
  Group tank(std::size_t t) const;
  Group part(const PlacedSymbol& symbol) const;
  void add_symbol(Group& group, const PlacedSymbol& symbol) const;
  void add_label(Group& group, const Label& label) const;
  Words words_at_the_moment(int part) const;

  std::optional<Colour> colour_of(const WireMoment* now) const {
    return now ? std::optional(look_.scale.at(now->pressure)) : std::nullopt;
  }
  std::string says(const WireMoment* now) const {
    return now ? ", " + shown(now->pressure, Quantity::pressure, look_.world) : std::string();
  }
  std::string names_of(const Wire& wire) const {
    std::string names;
    for (const PortOf& port : wire.ports) names += (names.empty() ? "" : " ") + plan_.name(port);
    return names;
  }

  const Schematic& schematic_;
  const Plan& plan_;
  std::span<const Words> words_;
  const Look& look_;
  const Mapping& mapping_;
  ArrowScale arrows_;
};

Polyline around(const Box& b) {
  return {{{b.left, b.low}, {b.right, b.low}, {b.right, b.high}, {b.left, b.high}}, true};
}

Group Show::enclosure(const Enclosure& each) const {
  Group group{.kind = "enclosure", .name = each.name, .title = "assembly " + each.name, .marks = {}};
  group.marks.push_back({{.layer = Layer::enclosures, .width = line_width, .dash = Dash::chain},
                         around(mapping_.at(each.box))});
  const LabelText text = set_label({.code = {}, .tag = each.name, .lines = {}}, each.label);
  for (const LabelText::Line& line : text.lines) {
    group.marks.push_back({{.layer = Layer::labels},
                           Text{.at = mapping_.at(line.at),
                                .words = line.words,
                                .height = letter_size * mapping_.module,
                                .bold = line.bold}});
  }
  return group;
}

Group Show::line(std::size_t w) const {
  const Wire& wire = schematic_.wires[w];
  const WireMoment* now = look_.moment && !wire.mechanical ? &look_.moment->wires[w] : nullptr;
  const std::string names = names_of(wire);
  Group group{.kind = "line",
              .name = names,
              .title = (wire.mechanical ? "fixed to each other: " : "joined: ") + names + says(now),
              .marks = {}};
  const auto colour = colour_of(now);
  add_line(group.marks, wire, mapping_, colour);
  if (!wire.mechanical) add_junctions(group.marks, wire.junctions, mapping_, colour);
  if (now) add_arrows(group.marks, now->pieces, mapping_, arrows_, *colour);
  return group;
}

/// The lead and, about its end, the tray of the reservoir.
Group Show::tank(std::size_t t) const {
  const TankMark& tank = schematic_.tanks[t];
  const WireMoment* now = look_.moment ? &look_.moment->tanks[t] : nullptr;
  const std::string name = plan_.name(tank.port) + " " + plan_.parts[tank.reservoir].tag;
  Group group{.kind = "line", .name = name, .title = "joined: " + name + says(now), .marks = {}};
  const bool pilot = plan_.port(tank.port).pilot;
  Wire lead{.ports = {}, .segments = {}, .junctions = {}};
  for (std::size_t i = 0; i + 1 < tank.lead.size(); ++i)
    lead.segments.push_back({tank.lead[i], tank.lead[i + 1], pilot});
  const auto colour = colour_of(now);
  add_line(group.marks, lead, mapping_, colour);
  if (now) add_arrows(group.marks, now->pieces, mapping_, arrows_, *colour);
  const Box tray = mapping_.at(tank.box);
  group.marks.push_back(
      {{.layer = Layer::symbols, .width = line_width},
       Polyline{
           {{tray.left, tray.high}, {tray.left, tray.low}, {tray.right, tray.low}, {tray.right, tray.high}},
           false}});
  return group;
}

void Show::add_symbol(Group& group, const PlacedSymbol& symbol) const {
  const PlannedPart& part = plan_.parts[symbol.part];
  const Pose pose = look_.moment ? look_.moment->parts[symbol.part].pose() : Pose{};
  std::vector<Stroke> strokes = part.kind->drawn(part.values, pose);
  for (Stroke& s : strokes) s = turned(s, symbol.turn);
  add_strokes(group.marks, strokes, mapping_.at(symbol.at), mapping_.module,
              {.layer = Layer::symbols, .width = line_width});
}

/// An actuator says where it stands instead of how large it is.
Words Show::words_at_the_moment(int part) const {
  Words words = words_[part];
  const Kind& kind = *plan_.parts[part].kind;
  if (!look_.moment || kind.about.role != Role::actuator || words.lines.empty()) return words;
  if (kind.ports[kind.oil_ports].turns) return words;
  const double position = look_.moment->parts[part].position[0];
  words.lines[0] = "at " + shown(std::abs(position) < no_way ? 0.0 : position, Quantity::length, look_.world);
  return words;
}

void Show::add_label(Group& group, const Label& label) const {
  const LabelText text = set_label(words_at_the_moment(label.part), label.box);
  if (text.frame != Box{})
    group.marks.push_back({{.layer = Layer::labels, .width = line_width}, around(mapping_.at(text.frame))});
  for (const LabelText::Line& line : text.lines) {
    group.marks.push_back({{.layer = Layer::labels},
                           Text{.at = mapping_.at(line.at),
                                .words = line.words,
                                .height = letter_size * mapping_.module,
                                .bold = line.bold}});
  }
}

Group Show::part(const PlacedSymbol& symbol) const {
  const PlannedPart& part = plan_.parts[symbol.part];
  std::string kind(part.kind->about.kind);
  std::ranges::replace(kind, '_', ' ');
  Group group{.kind = "part", .name = part.tag, .title = part.tag + ", " + kind, .marks = {}};
  for (const std::string& line : words_at_the_moment(symbol.part).lines) group.title += ", " + line;
  add_symbol(group, symbol);
  for (const Label& label : schematic_.labels) {
    if (label.part == symbol.part) add_label(group, label);
  }
  return group;
}

Box extent_of(const Schematic& schematic) { return schematic.symbols.empty() ? Box{} : schematic.box; }

std::string subject_of(const Look& look) {
  if (!look.moment) return "circuit at rest";
  const std::string time = "at " + shown(look.moment->time, Quantity::time, look.world);
  return look.moment->step.empty() ? time : fmt::format("{} in step {}", time, look.moment->step);
}

std::string description_of(const Schematic& schematic, const Fit& fit) {
  constexpr std::array names{"A4", "A3", "Letter"};
  return fmt::format("{} parts on {}, module {:.3g} mm", schematic.symbols.size(),
                     names[static_cast<std::size_t>(fit.paper)], fit.mapping.module);
}

}  // namespace

Sheet sheet_of(const Schematic& schematic, const Plan& plan, std::span<const Words> words, const Look& look) {
  const Fit place = fit(schematic, look.paper, look.moment != nullptr);
  Sheet sheet = blank(place.paper);
  TitleBlock block = look.block;
  block.subject = subject_of(look);
  block.scale = fmt::format("module {:.3g} mm", place.mapping.module);
  sheet.title = block.job + ", " + block.subject;
  sheet.description = description_of(schematic, place);
  add_frame(sheet, place.paper, block);
  const Show show(schematic, plan, words, look, place.mapping);
  show.add_to(sheet.groups);
  if (place.legend)
    sheet.groups.push_back(
        legend(*place.legend, look.scale, show.arrows(), place.mapping.module, look.world));
  return sheet;
}

Mapping unframed(const Schematic& schematic) {
  const Box all = extent_of(schematic);
  return {full_module, {unframed_margin - full_module * all.left, unframed_margin - full_module * all.low}};
}

Sheet unframed_sheet_of(const Schematic& schematic, const Plan& plan, std::span<const Words> words,
                        const Look& look) {
  const Mapping mapping = unframed(schematic);
  const Box all = extent_of(schematic);
  Sheet sheet{.width = full_module * all.width() + 2 * unframed_margin,
              .height = full_module * all.height() + 2 * unframed_margin,
              .title = look.block.job + ", " + subject_of(look),
              .description = fmt::format("{} parts", schematic.symbols.size()),
              .groups = {}};
  Show(schematic, plan, words, look, mapping).add_to(sheet.groups);
  return sheet;
}

}  // namespace poise::draw
