// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/fault_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "judge/page.hpp"
#include "judge/wording.hpp"

namespace poise::study {
namespace {

constexpr std::size_t wide = 100;

FaultLine line_of(const FaultAnswer& answer, std::string name, std::string part) {
  FaultLine line{.name = std::move(name), .part = std::move(part), .size = answer.change};
  for (const Break& each : answer.breaks) line.happens.push_back(each.name + ": " + each.text);
  if (!answer.ended.empty()) line.happens.push_back("the run ended early: " + answer.ended);
  line.by = answer.shown.by;
  line.shown_by = when_shown(answer.shown, !answer.breaks.empty());
  line.shown_text = answer.shown.text;
  line.protects = answer.protects;
  line.left_pressed = answer.left_pressed;
  line.severity = answer.severity;
  return line;
}

/// What a fault does at the size that does most harm, where a smaller one already breaks something.
void add_worst(const FaultResult& fault, FaultLine& line) {
  for (const FaultAnswer& answer : fault.answers) {
    if (answer.severity != line.severity || answer.breaks.empty()) continue;
    line.happens.insert(
        line.happens.begin(),
        fmt::format("at {}, {}: {}", answer.change, answer.breaks.front().name, answer.breaks.front().text));
    return;
  }
}

std::string heading(Severity severity, long count) {
  return fmt::format("{}: {}", words_of(severity), count == 1 ? "1 fault" : fmt::format("{} faults", count));
}

/// No longer than two lines; the rest stands in the CSV.
std::string cut(const std::string& text) {
  constexpr std::size_t longest = 160;
  if (text.size() <= longest) return text;
  return text.substr(0, text.rfind(' ', longest)) + " …";
}

std::string in_full(const FaultLine& line, const Ink& ink) {
  std::string text = "  " + ink.strong(line.name);
  if (!line.breaks_from.empty()) text += fmt::format("  (from {})", line.breaks_from);
  text += "\n";
  const auto say = [&](const std::string& what) { text += "    " + wrapped(what, wide, 6) + "\n"; };
  if (!line.happens.empty()) {
    const std::size_t more = line.happens.size() - 1;
    say(cut(line.happens.front()) + (more > 0 ? fmt::format("; and {} more", more) : ""));
  }
  say(line.shown_text.empty() ? "shown " + line.shown_by
                              : fmt::format("shown {}: {}", line.shown_by, line.shown_text));
  for (const std::string& each : line.protects) say("acts: " + each);
  if (!line.left_pressed.empty()) say("left pressed: " + wording::joined(line.left_pressed, ", "));
  return text;
}

std::string in_short(const FaultLine& line) {
  const std::string shown = line.shown_text.empty() ? "nothing shows it" : line.shown_text;
  return "  " + wrapped(fmt::format("{} ({}): {}", line.name, line.size, shown), wide, 4) + "\n";
}

std::string quoted(const std::string& text) {
  if (text.find_first_of(",\"\n") == std::string::npos) return text;
  std::string out = "\"";
  for (char c : text) out += c == '"' ? "\"\"" : std::string(1, c);
  return out + "\"";
}

}  // namespace

std::vector<FaultLine> fault_lines(const Job& job, std::span<const FaultResult> faults,
                                   std::span<const PairResult> pairs) {
  std::vector<FaultLine> lines;
  for (const FaultResult& fault : faults) {
    const FaultAnswer* answer = fault.telling();
    if (!answer) continue;
    FaultLine line = line_of(*answer, fault.place.name, fault.place.part);
    line.size = change_of(job, fault.place);
    line.severity = fault.severity();
    line.breaks_from = fault.breaks_from_in_words();
    if (line.severity != answer->severity) add_worst(fault, line);
    lines.push_back(std::move(line));
  }
  for (const PairResult& pair : pairs) {
    if (!pair.answer) continue;
    lines.push_back(line_of(*pair.answer, pair.name, ""));
    lines.back().pair = true;
  }
  std::ranges::stable_sort(lines, [](const FaultLine& a, const FaultLine& b) {
    const auto rank = [](const FaultLine& line) {
      return std::tuple(line.severity, -static_cast<int>(line.by), std::string_view(line.name));
    };
    return rank(a) < rank(b);
  });
  return lines;
}

std::string show_faults(std::span<const FaultLine> lines, bool colour) {
  const Ink ink(colour);
  std::string text;
  std::optional<Severity> now;
  for (const FaultLine& line : lines) {
    if (line.severity != now) {
      now = line.severity;
      const std::string head = heading(*now, std::ranges::count(lines, *now, &FaultLine::severity));
      text += (text.empty() ? "" : "\n") +
              (*now <= Severity::works_badly ? ink.bad(head) : ink.strong(head)) + "\n";
    }
    text += *now == Severity::nothing_breaks ? in_short(line) : in_full(line, ink);
  }
  return text;
}

void write_fault_csv(std::ostream& out, std::span<const FaultLine> lines) {
  out << "fault,part,size,what happens,severity,shown by,protected by,breaks from,left pressed\n";
  for (const FaultLine& line : lines) {
    const std::string shown =
        line.shown_text.empty() ? line.shown_by : line.shown_text + " (" + line.shown_by + ")";
    const std::string happens = line.happens.empty() ? "nothing breaks" : wording::joined(line.happens, "; ");
    const std::array fields{line.name,
                            line.part,
                            line.size,
                            happens,
                            std::string(words_of(line.severity)),
                            shown,
                            wording::joined(line.protects, "; "),
                            line.breaks_from,
                            wording::joined(line.left_pressed, "; ")};
    for (std::size_t i = 0; i < fields.size(); ++i) out << (i > 0 ? "," : "") << quoted(fields[i]);
    out << '\n';
  }
}

}  // namespace poise::study
