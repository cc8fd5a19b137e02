// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/members.hpp"

#include <algorithm>

namespace poise::job {
namespace {

constexpr std::string_view blanks = " \t\r";

/// Brackets or braces, and the lines in them.
struct Brackets {
  const Script& script;
  const Value& value;

  std::string_view text() const { return script.text; }
  std::size_t count() const { return value.members.size(); }
  const Member& member(std::size_t i) const { return value.members[i]; }
  std::size_t inside() const { return value.at.begin + 1; }
  bool breaks_between(std::size_t a, std::size_t b) const {
    return text().substr(a, b - a).find('\n') != std::string_view::npos;
  }

  /// Behind the member and its comma.
  std::size_t end_of(std::size_t i) const {
    return member(i).comma == nowhere ? member(i).at.end : member(i).comma + 1;
  }

  /// Whether lines belong to a member alone.
  bool has_own_lines(std::size_t i) const {
    const std::size_t behind = text().find_first_not_of(blanks, end_of(i));
    return breaks_between(value.at.begin, member(i).at.begin) &&
           is_first_in_line(text(), member(i).at.begin) && !breaks_between(member(i).at.end, end_of(i)) &&
           behind != std::string_view::npos && (text()[behind] == '\n' || text()[behind] == '#');
  }

  /// The lines of a member that has its own, with the comment lines directly above it.
  Stretch lines_of(std::size_t i) const {
    const std::size_t floor = next_line(text(), i == 0 ? value.at.begin : end_of(i - 1));
    const std::size_t line = line_begin(text(), member(i).at.begin);
    return {comments_above(text(), line, std::min(floor, line)), next_line(text(), end_of(i))};
  }

  std::string indent_of(std::size_t i) const {
    const std::size_t begin = line_begin(text(), member(i).at.begin);
    return std::string(text().substr(begin, member(i).at.begin - begin));
  }

  bool has_comments() const {
    return std::ranges::any_of(script.outline.comments, [&](std::size_t comment) {
      return comment > value.at.begin && comment < value.at.end;
    });
  }
};

std::vector<Splice> put_first(const Brackets& in, std::string_view member) {
  const std::string text(member);
  if (in.has_comments()) return {{{in.inside(), in.inside()}, text}};
  const bool braces = in.value.form == Value::Form::table;
  return {{{in.inside(), in.value.at.end - 1}, braces ? " " + text + " " : text}};
}

std::vector<Splice> put_last(const Brackets& in, std::string_view member) {
  const std::size_t last = in.count() - 1, end = in.member(last).at.end;
  const std::string text(member);
  if (!in.has_own_lines(last)) return {{{end, end}, ", " + text}};
  const std::size_t below = in.lines_of(last).end;
  const std::string line = in.indent_of(last) + text;
  if (in.member(last).comma != nowhere) return {{{below, below}, line + "," + in.script.newline}};
  return {{{end, end}, ","}, {{below, below}, line + in.script.newline}};
}

/// What goes where a member does not have its lines alone and is not the last.
Stretch stretch_before_next(const Brackets& in, std::size_t i) {
  const std::size_t begin = in.member(i).at.begin, next = in.member(i + 1).at.begin;
  if (!in.breaks_between(in.end_of(i), next)) return {begin, next};
  const std::size_t before = in.text().find_last_not_of(blanks, begin - 1) + 1;
  // A comment behind several members stays with the others.
  const bool alone = i == 0 || in.breaks_between(in.member(i - 1).at.end, begin);
  if (!alone) return {before, in.end_of(i)};
  return {before, line_end(in.text(), in.end_of(i))};
}

Stretch stretch_of_last(const Brackets& in, std::size_t i) {
  const Member& member = in.member(i);
  if (i == 0)
    return in.has_comments() ? Stretch{member.at.begin, in.end_of(i)}
                             : Stretch{in.inside(), in.value.at.end - 1};
  const std::size_t before = in.member(i - 1).at.end;
  if (in.breaks_between(before, member.at.begin)) return {member.at.begin, in.end_of(i)};
  return {before, member.at.end};
}

/// The lines of a member with a comma behind it.
std::string lines_with_comma(const Brackets& in, std::size_t i) {
  const Stretch lines = in.lines_of(i);
  std::string text(in.text().substr(lines.begin, lines.end - lines.begin));
  if (in.member(i).comma == nowhere) text.insert(in.member(i).at.end - lines.begin, ",");
  return text;
}

}  // namespace

std::vector<Splice> put_in(const Script& script, const Value& holder, std::size_t place,
                           std::string_view member) {
  const Brackets in{script, holder};
  if (in.count() == 0) return put_first(in, member);
  if (place >= in.count()) return put_last(in, member);
  const std::size_t at = in.member(place).at.begin;
  const std::string text(member);
  if (!in.has_own_lines(place)) return {{{at, at}, text + ", "}};
  const std::size_t above = in.lines_of(place).begin;
  return {{{above, above}, in.indent_of(place) + text + "," + script.newline}};
}

std::vector<Splice> take_out(const Script& script, const Value& holder, std::size_t place) {
  const Brackets in{script, holder};
  if (in.has_own_lines(place)) return {{in.lines_of(place), ""}};
  if (place + 1 < in.count()) return {{stretch_before_next(in, place), ""}};
  return {{stretch_of_last(in, place), ""}};
}

std::vector<Splice> move_within(const Script& script, const Value& list, std::size_t from, std::size_t to) {
  const Brackets in{script, list};
  std::vector<std::size_t> order;
  bool own_lines = true;
  for (std::size_t i = 0; i < in.count(); ++i) {
    if (i != from) order.push_back(i);
    own_lines = own_lines && in.has_own_lines(i);
  }
  order.insert(order.begin() + static_cast<std::ptrdiff_t>(std::min(to, order.size())), from);
  std::vector<Splice> splices;
  for (std::size_t i = 0; i < in.count(); ++i) {
    if (order[i] == i) continue;
    const Stretch moved = in.member(order[i]).at;
    if (own_lines) {
      splices.push_back({in.lines_of(i), lines_with_comma(in, order[i])});
    } else {
      splices.push_back({in.member(i).at, script.text.substr(moved.begin, moved.end - moved.begin)});
    }
  }
  return splices;
}

}  // namespace poise::job
