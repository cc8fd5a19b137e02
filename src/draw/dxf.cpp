// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/dxf.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numeric>
#include <span>
#include <string_view>
#include <variant>
#include <vector>

#include "draw/dxf_text.hpp"
#include "draw/layers.hpp"
#include "draw/number.hpp"
#include "draw/triangles.hpp"

namespace poise::draw {
namespace {

constexpr double capital = 0.716;  // height of a capital letter, which DXF counts, to the size of the font
constexpr int ink = 7;             // black on white, white on black
constexpr std::string_view plain_style = "SHEET", bold_style = "SHEET_BOLD";
constexpr std::string_view solid_line = "CONTINUOUS", dashed_line = "DASHED", chain_line = "DASHDOT";

std::string number(double value) {
  const std::string text = plain_number(value, 4);
  return text.find('.') == std::string::npos ? text + ".0" : text;
}

/// Pairs of a group's code and its value, one on a line, of which a DXF file is made.
struct Pairs {
  std::string text{};

  void add(int code, std::string_view value) { text += fmt::format("{:>3}\n{}\n", code, value); }
  void add(int code, int value) { add(code, fmt::format("{}", value)); }
  void real(int code, double value) { add(code, number(value)); }
  /// x, y and z; z lies on the paper.
  void point(int code, Point p) {
    real(code, p.x);
    real(code + 10, p.y);
    real(code + 20, 0.0);
  }
  void point_on_paper(int code, Point p) {
    real(code, p.x);
    real(code + 10, p.y);
  }
};

void header(Pairs& out, const Sheet& sheet) {
  const Point corner{sheet.width, sheet.height};
  out.add(0, "SECTION");
  out.add(2, "HEADER");
  out.add(9, "$ACADVER");
  out.add(1, "AC1009");
  out.add(9, "$INSBASE");
  out.point(10, {});
  out.add(9, "$EXTMIN");
  out.point(10, {});
  out.add(9, "$EXTMAX");
  out.point(10, corner);
  out.add(9, "$LIMMIN");
  out.point_on_paper(10, {});
  out.add(9, "$LIMMAX");
  out.point_on_paper(10, corner);
  out.add(9, "$LTSCALE");
  out.real(40, 1.0);
  out.add(9, "$LUNITS");
  out.add(70, 2);  // decimal
  out.add(9, "$TEXTSTYLE");
  out.add(7, plain_style);
  out.add(9, "$FILLMODE");
  out.add(70, 1);
  out.add(0, "ENDSEC");
}

void table(Pairs& out, std::string_view name, std::size_t rows) {
  out.add(0, "TABLE");
  out.add(2, name);
  out.add(70, static_cast<int>(rows));
}

/// What a program shows when the file is opened: the whole sheet.
void view(Pairs& out, const Sheet& sheet) {
  table(out, "VPORT", 1);
  out.add(0, "VPORT");
  out.add(2, "*ACTIVE");
  out.add(70, 0);
  out.point_on_paper(10, {0, 0});
  out.point_on_paper(11, {1, 1});
  out.point_on_paper(12, {sheet.width / 2, sheet.height / 2});
  out.point_on_paper(13, {0, 0});
  out.point_on_paper(14, {1, 1});
  out.point_on_paper(15, {10, 10});
  out.real(16, 0.0);
  out.real(26, 0.0);
  out.real(36, 1.0);  // looked at from above
  out.point(17, {});
  out.real(40, sheet.height * 1.05);
  out.real(41, sheet.width / sheet.height);
  out.real(42, 50.0);
  for (const int code : {43, 44, 50, 51}) out.real(code, 0.0);
  constexpr std::array<std::array<int, 2>, 8> modes{
      {{71, 0}, {72, 100}, {73, 1}, {74, 1}, {75, 0}, {76, 0}, {77, 0}, {78, 0}}};
  for (const auto& [code, value] : modes) out.add(code, value);
  out.add(0, "ENDTAB");
}

void kind_of_line(Pairs& out, std::string_view name, std::string_view picture,
                  std::span<const double> in_widths) {
  out.add(0, "LTYPE");
  out.add(2, name);
  out.add(70, 0);
  out.add(3, picture);
  out.add(72, 65);
  out.add(73, static_cast<int>(in_widths.size()));
  const double width = Pen{}.width;
  out.real(40, width * std::accumulate(in_widths.begin(), in_widths.end(), 0.0));
  double sign = 1.0;  // of a dash; gaps are negative
  for (const double length : in_widths) {
    out.real(49, sign * width * length);
    sign = -sign;
  }
}

void kinds_of_lines(Pairs& out) {
  table(out, "LTYPE", 3);
  kind_of_line(out, solid_line, "Solid line", {});
  kind_of_line(out, dashed_line, "__ __ __ __ __", short_dashes);
  kind_of_line(out, chain_line, "_____ . _____ . _____", long_dash_dot);
  out.add(0, "ENDTAB");
}

std::vector<Layer> layers_in_use(const Sheet& sheet) {
  std::array<bool, every_layer.size()> used{};
  for (const Group& group : sheet.groups) {
    for (const Mark& m : group.marks) used[static_cast<std::size_t>(m.pen.layer)] = true;
  }
  std::vector<Layer> layers;
  for (const Layer layer : every_layer) {
    if (used[static_cast<std::size_t>(layer)]) layers.push_back(layer);
  }
  return layers;
}

void layers(Pairs& out, const Sheet& sheet) {
  const std::vector<Layer> used = layers_in_use(sheet);
  const auto add = [&](std::string_view name) {
    out.add(0, "LAYER");
    out.add(2, name);
    out.add(70, 0);
    out.add(62, ink);
    out.add(6, solid_line);
  };
  table(out, "LAYER", used.size() + 1);
  add("0");  // every file has it
  for (const Layer layer : used) add(name_of(layer));
  out.add(0, "ENDTAB");
}

void styles(Pairs& out) {
  table(out, "STYLE", 2);
  const auto add = [&](std::string_view name, std::string_view font) {
    out.add(0, "STYLE");
    out.add(2, name);
    out.add(70, 0);
    out.real(40, 0.0);
    out.real(41, 1.0);
    out.real(50, 0.0);
    out.add(71, 0);
    out.real(42, Text{}.height * capital);
    out.add(3, font);
    out.add(4, "");
  };
  add(plain_style, "arial.ttf");
  add(bold_style, "arialbd.ttf");
  out.add(0, "ENDTAB");
}

/// Writes marks as entities.
struct Entities {
  Pairs& out;
  Pen pen{};

  void begin(std::string_view kind) {
    out.add(0, kind);
    out.add(8, name_of(pen.layer));
    if (!pen.filled && pen.dash == Dash::dashed) out.add(6, dashed_line);
    if (!pen.filled && pen.dash == Dash::chain) out.add(6, chain_line);
    if (pen.colour) out.add(62, dxf_colour(*pen.colour));
  }

  void line(Point from, Point to) {
    begin("LINE");
    out.point(10, from);
    out.point(11, to);
  }

  /// Corners, each with its bulge: the tangent of a quarter of the angle that the arc to the next one spans.
  void polyline(std::span<const Point> points, bool closed, double width = 0.0, double bulge = 0.0) {
    begin("POLYLINE");
    out.add(66, 1);
    out.point(10, {});
    out.add(70, closed ? 1 : 0);
    if (width > 0.0) out.real(40, width), out.real(41, width);
    for (const Point& p : points) {
      out.add(0, "VERTEX");
      out.add(8, name_of(pen.layer));
      out.point(10, p);
      if (width > 0.0) out.real(40, width), out.real(41, width);
      if (bulge != 0.0) out.real(42, bulge);
    }
    out.add(0, "SEQEND");
    out.add(8, name_of(pen.layer));
  }

  void solid(const Triangle& t) {
    begin("SOLID");
    for (int corner = 0; corner < 3; ++corner) out.point(10 + corner, t[static_cast<std::size_t>(corner)]);
    out.point(13, t[2]);  // a triangle repeats its last corner
  }

  void operator()(const Polyline& way) {
    if (way.points.size() < 2) return;
    if (pen.filled) {
      for (const Triangle& t : triangles_of(way.points)) solid(t);
    } else if (way.points.size() == 2) {
      line(way.points[0], way.points[1]);
    } else {
      polyline(way.points, way.closed);
    }
  }

  void operator()(const Circle& c) {
    if (pen.filled) {
      // Release 12 fills no circle. A ring of two half circles as wide as the radius does it everywhere.
      const double middle = c.radius / 2;
      const std::array ends{Point{c.centre.x - middle, c.centre.y}, Point{c.centre.x + middle, c.centre.y}};
      return polyline(ends, true, c.radius, 1.0);
    }
    begin("CIRCLE");
    out.point(10, c.centre);
    out.real(40, c.radius);
  }

  void operator()(const Arc& a) {
    const auto wrapped = [](double degrees) { return degrees - 360.0 * std::floor(degrees / 360.0); };
    const double from = wrapped(a.from), to = wrapped(a.to);
    if (from == to) return (*this)(Circle{a.centre, a.radius});
    begin("ARC");
    out.point(10, a.centre);
    out.real(40, a.radius);
    out.real(50, from);
    out.real(51, to);
  }

  void operator()(const Text& text) {
    if (text.words.empty()) return;
    begin("TEXT");
    out.point(10, text.at);
    out.real(40, text.height * capital);
    out.add(1, dxf_text(text.words));
    if (text.upright) out.real(50, 90.0);
    out.add(7, text.bold ? bold_style : plain_style);
    if (text.stands == Text::Stands::left) return;
    out.add(72, text.stands == Text::Stands::middle ? 1 : 2);
    out.point(11, text.at);
  }
};

void entities(Pairs& out, const Sheet& sheet) {
  out.add(0, "SECTION");
  out.add(2, "ENTITIES");
  Entities writer{out};
  for (const Group& group : sheet.groups) {
    for (const Mark& m : group.marks) {
      writer.pen = m.pen;
      std::visit(writer, m.shape);
    }
  }
  out.add(0, "ENDSEC");
}

}  // namespace

std::string dxf(const Sheet& sheet) {
  Pairs out;
  header(out, sheet);
  out.add(0, "SECTION");
  out.add(2, "TABLES");
  view(out, sheet);
  kinds_of_lines(out);
  layers(out, sheet);
  styles(out);
  out.add(0, "ENDSEC");
  out.add(0, "SECTION");
  out.add(2, "BLOCKS");
  out.add(0, "ENDSEC");
  entities(out, sheet);
  out.add(0, "EOF");
  return out.text;
}

}  // namespace poise::draw
