// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "draw/words.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "draw/codes.hpp"
#include "oil/viscosity_grade.hpp"

namespace poise::draw {
namespace {

/// A piece of a line: plain text, or a value that may lose its unit to the next one.
struct Piece {
  std::string text;
  std::string unit{};
  bool is_value = false;
};
using Pieces = std::vector<Piece>;

/// A place between number and unit where no line is broken.
constexpr std::string_view bound = "\u00a0";

Piece value_piece(double value, Quantity quantity, const units::World& world) {
  const std::string text = units::show(value, quantity, world_to_show(value, quantity, world));
  const auto blank = text.find(' ');
  if (blank == std::string::npos || !std::isfinite(value)) return {text, {}, true};
  return {text.substr(0, blank), with_raised_figures(std::string_view(text).substr(blank + 1)), true};
}

/// Fills in what a kind's room says of the data beside its symbol, for one part.
class Filling {
 public:
  Filling(const Job& job, int part, std::string note)
      : job_(job), part_(job.plan.parts[part]), note_(std::move(note)) {
    if (!job.drawn.empty()) stand_ins_ = job.drawn[part].stand_ins;
  }

  std::vector<std::string> lines() const {
    std::vector<std::string> all;
    std::string_view rest = part_.kind->about.beside;
    while (!rest.empty()) {
      const std::string_view line = rest.substr(0, rest.find('\n'));
      rest.remove_prefix(std::min(rest.size(), line.size() + 1));
      if (const auto pieces = fill(line)) {
        if (std::string text = joined(*pieces); !text.empty()) all.push_back(std::move(text));
      }
    }
    return all;
  }

 private:
  /// None where a value outside brackets is not given.
  std::optional<Pieces> fill(std::string_view line) const {
    Pieces all;
    while (!line.empty()) {
      const char opening = line.front();
      if (opening != '{' && opening != '[') {
        const std::string_view plain = line.substr(0, line.find_first_of("{["));
        all.push_back({std::string(plain)});
        line.remove_prefix(plain.size());
        continue;
      }
      const std::string_view inside = line.substr(1, line.find(opening == '{' ? '}' : ']') - 1);
      line.remove_prefix(inside.size() + 2);
      if (opening == '[') {
        add(all, either(inside));
      } else if (auto value = value_of(inside)) {
        all.push_back(std::move(*value));
      } else {
        return std::nullopt;
      }
    }
    return all;
  }

  std::optional<Pieces> either(std::string_view inside) const {
    const auto bar = inside.find('|');
    if (auto first = fill(inside.substr(0, bar))) return first;
    return bar == std::string_view::npos ? std::nullopt : fill(inside.substr(bar + 1));
  }

  static void add(Pieces& all, std::optional<Pieces> more) {
    if (more) all.insert(all.end(), more->begin(), more->end());
  }

  std::optional<Piece> value_of(std::string_view name) const {
    if (name == "note") return note_.empty() ? std::nullopt : std::optional(Piece{note_});
    if (name == "oil") return Piece{oil_of(job_.plan.oil, job_.world)};
    constexpr std::string_view first = ".first";
    if (name.ends_with(first)) {
      name.remove_suffix(first.size());
      const auto points = part_.values.points(name);
      if (points.empty()) return std::nullopt;
      return value_piece(points.front().y, *parameter(name).against, job_.world);
    }
    if (!part_.values.given(name) || std::ranges::find(stand_ins_, name) != stand_ins_.end())
      return std::nullopt;
    const Parameter& known = parameter(name);
    if (!known.words.empty()) return Piece{std::string(known.words[part_.values.word(name)])};
    return value_piece(part_.values[name], known.quantity, job_.world);
  }

  const Parameter& parameter(std::string_view name) const {
    return part_.kind->parameters[*find_parameter(part_.kind->parameters, name)];
  }

  static std::string joined(const Pieces& pieces) {
    std::string text;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      const Piece& piece = pieces[i];
      text += piece.text;
      if (piece.unit.empty()) continue;
      const auto next = std::find_if(pieces.begin() + static_cast<std::ptrdiff_t>(i) + 1, pieces.end(),
                                     [](const Piece& p) { return p.is_value; });
      if (next == pieces.end() || next->unit != piece.unit) text += std::string(bound) + piece.unit;
    }
    return text;
  }

  const Job& job_;
  const PlannedPart& part_;
  std::string note_;
  std::vector<std::string_view> stand_ins_;
};

std::size_t letters_of(std::string_view text) {
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

/// The text of at most so many letters, without a broken one.
std::string_view first_letters(std::string_view text, std::size_t letters) {
  std::size_t end = 0, count = 0;
  for (; end < text.size(); ++end) {
    const bool begins = (static_cast<unsigned char>(text[end]) & 0xC0U) != 0x80U;
    if (begins && count++ == letters) break;
  }
  return text.substr(0, end);
}

std::string shortened(std::string_view text) {
  return std::string(first_letters(text, longest_line - 1)) + "…";
}

/// Breaks a line at its blanks.
void add_broken(std::vector<std::string>& lines, std::string_view text) {
  while (letters_of(text) > longest_line) {
    const std::string_view most = first_letters(text, longest_line + 1);
    const auto blank = most.rfind(' ');
    if (blank == std::string_view::npos || blank == 0) {
      lines.push_back(shortened(text.substr(0, text.find(' '))));
      const auto next = text.find(' ');
      if (next == std::string_view::npos) return;
      text.remove_prefix(next + 1);
      continue;
    }
    lines.emplace_back(text.substr(0, blank));
    text.remove_prefix(blank + 1);
  }
  if (!text.empty()) lines.emplace_back(text);
}

std::string with_plain_blanks(std::string text) {
  for (auto at = text.find(bound); at != std::string::npos; at = text.find(bound, at))
    text.replace(at, bound.size(), " ");
  return text;
}

std::vector<std::string> fitted(const std::vector<std::string>& lines) {
  std::vector<std::string> all;
  for (const std::string& line : lines) add_broken(all, line);
  if (all.size() > most_lines) {
    all.resize(most_lines);
    all.back() = letters_of(all.back()) < longest_line ? all.back() + "…" : shortened(all.back());
  }
  for (std::string& line : all) line = with_plain_blanks(std::move(line));
  return all;
}

std::string note_of(const Job& job, int part) {
  return job.drawn.empty() ? std::string() : job.drawn[part].note;
}

/// What a line without a tag is called after: the ports at its ends.
std::string made_of_ends(const Plan& plan, int part) {
  std::array<std::string, 2> ends;
  for (const Joint& joint : plan.joints) {
    for (const auto& [own, other] : {std::pair(joint.a, joint.b), std::pair(joint.b, joint.a)}) {
      if (own.part == part && own.port < 2 && ends[own.port].empty()) ends[own.port] = plan.name(other);
    }
  }
  return ends[0] + "-" + ends[1];
}

}  // namespace

std::string with_raised_figures(std::string_view unit) {
  std::string text;
  for (std::size_t i = 0; i < unit.size(); ++i) {
    const bool raised = i > 0 && std::isalpha(static_cast<unsigned char>(unit[i - 1]));
    if (raised && unit[i] == '2') {
      text += "²";
    } else if (raised && unit[i] == '3') {
      text += "³";
    } else if (unit.substr(i).starts_with("deg")) {
      text += "°";
      i += 2;
    } else {
      text += unit[i];
    }
  }
  return text;
}

units::World world_to_show(double value, Quantity quantity, const units::World& world) {
  constexpr double gallon = 231 * 16.387064 * si::cm3;
  units::World large = world;
  if (quantity == Quantity::volume && value >= 1 * si::litre && world[quantity] == "cm3")
    units::set_unit(large, quantity, "L");
  if (quantity == Quantity::volume && value >= gallon && world[quantity] == "in3")
    units::set_unit(large, quantity, "gal");
  return large;
}

std::vector<std::string> data_of(const Job& job, int part) {
  std::vector<std::string> lines = Filling(job, part, {}).lines();
  for (std::string& line : lines) line = with_plain_blanks(std::move(line));
  return lines;
}

std::string shown(double value, Quantity quantity, const units::World& world) {
  const Piece piece = value_piece(value, quantity, world);
  return piece.unit.empty() ? piece.text : piece.text + " " + piece.unit;
}

std::string oil_of(const OilData& oil, const units::World& world) {
  for (const ViscosityGrade& grade : viscosity_grades) {
    if (std::abs(oil.viscosity_40 - grade.midpoint) < 1e-6 * grade.midpoint) return std::string(grade.word);
  }
  return shown(oil.viscosity_40, Quantity::viscosity, world) + " at 40 °C";
}

std::vector<Words> words_of(const Job& job) {
  std::vector<Words> all;
  const std::vector<std::string> codes = job.drawing.codes ? codes_of(job) : std::vector<std::string>{};
  for (int p = 0; p < static_cast<int>(job.plan.parts.size()); ++p) {
    const PlannedPart& part = job.plan.parts[p];
    Words words;
    if (!codes.empty()) words.code = codes[p];
    const bool conduit = part.kind->about.role == Role::line;
    if (!conduit || part.tag != made_of_ends(job.plan, p)) words.tag = part.tag;
    words.lines = fitted(Filling(job, p, note_of(job, p)).lines());
    all.push_back(std::move(words));
  }
  return all;
}

std::vector<Wish> wishes_of(const Job& job) {
  std::vector<Wish> wishes;
  for (const DrawnPart& part : job.drawn) {
    Wish wish{.at = {}, .assembly = part.assembly};
    if (part.at) wish.at = Point{(*part.at)[0], (*part.at)[1]};
    wishes.push_back(std::move(wish));
  }
  return wishes;
}

}  // namespace poise::draw
