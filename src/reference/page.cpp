// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "reference/page.hpp"

#include <fmt/format.h>

#include "job/oil_table.hpp"
#include "judge/page.hpp"
#include "reference/families.hpp"
#include "reference/picture.hpp"
#include "reference/rules_page.hpp"
#include "reference/wording.hpp"
#include "rules/all.hpp"

namespace poise::reference {
namespace {

constexpr std::size_t page_width = 100;
constexpr std::string_view made_by_program =
    "<!-- Written by \"poise parts --write\" from the tables in src/parts; changes belong there. -->\n";

std::string note_of(const Port& port, const Kind& kind) {
  std::string note;
  if (port.domain == Domain::motion) note += port.turns ? "; turns" : "; moves";
  if (port.may_stay_free) note += "; may stay free";
  if (!port.needed_if_parameter.empty()) note += "; only with " + condition_of(port, kind.parameters);
  return note;
}

std::string ports_of(const Kind& kind) {
  std::string text = "\n## Ports\n\n| port | what it is |\n| --- | --- |\n";
  for (const Port& port : kind.ports) {
    text += fmt::format("| `{}` | {}{} |\n", port.name, cell(port.meaning), cell(note_of(port, kind)));
  }
  return text;
}

std::string parameters_of(std::span<const Parameter> parameters) {
  std::string text =
      "\n## Datasheet\n\n| parameter | default | range | meaning | source |\n| --- | --- | --- | --- | --- "
      "|\n";
  for (const Parameter& p : parameters) {
    text += fmt::format("| `{}` | {} | {} | {}{}{} | {} |\n", p.name, cell(default_of(p)), cell(range_of(p)),
                        cell(p.meaning), p.set_by_steps ? "; **steps may set it**" : "", cell(found_as(p)),
                        cell(p.source));
  }
  return text;
}

std::string signals_of(const Kind& kind) {
  std::string text = "\n## Signals\n\n| signal | what it shows |\n| --- | --- |\n";
  for (const Port& port : kind.ports) {
    const std::string_view all = port.domain == Domain::motion
                                     ? "position, speed"
                                     : "pressure (gauge) and flow (positive into the part)";
    text += fmt::format("| `{}` | {} |\n", signal_names(port, kind), all);
  }
  for (const State& s : kind.states) {
    text += fmt::format("| `{}` | {}, {} |\n", s.name, units::name(s.quantity), cell(s.meaning));
  }
  for (const Output& o : kind.outputs) {
    text += fmt::format("| `{}` | {}, {} |\n", o.name, units::name(o.quantity), cell(o.meaning));
  }
  for (const Mode& m : kind.modes) {
    text += fmt::format("| `{}` | 1 or 0, {} |\n", m.name, cell(m.meaning));
  }
  if (kind.happenings.empty() && kind.modes.empty()) return text;
  text += "\nNoted with their moment when they happen:";
  std::string_view between = " ";
  for (const Happening& h : kind.happenings) {
    text += fmt::format("{}it {}", between, h.sentence);
    between = "; ";
  }
  for (const Mode& m : kind.modes) {
    text += fmt::format("{}it {}, it {}", between, m.on, m.off);
    between = "; ";
  }
  return text + ".\n";
}

std::string rules_of(const Kind& kind) {
  if (kind.rules.empty()) return {};
  std::string text = "\n## What a person confirms\n\n";
  for (const Rule& r : kind.rules) {
    text += fmt::format("- **{}**: {} *({})*\n", r.name, running(r.sentence), running(r.source));
  }
  return text;
}

std::string computed_rules_of(const Kind& kind) {
  const auto computed = rules::concerning(kind.about.kind);
  if (computed.empty()) return {};
  std::string text = "\n## Rules that are computed\n\n";
  for (const rules::TradeRule* rule : computed)
    text += fmt::format("- [{}](../rules.md{}): {} *({})*\n", rule->name, anchor_of(rule->name),
                        running(rule->holds), rules::words_of(rule->harm));
  return text;
}

std::string adjusting_of(const Kind& kind) {
  if (kind.adjusting.empty()) return {};
  std::string text =
      "\n## How it is set\n\n| setting | its turn | it stands before | it is set while | told by | rounded "
      "to "
      "the side | source |\n| --- | --- | --- | --- | --- | --- | --- |\n";
  for (const Adjusting& a : kind.adjusting) {
    text += fmt::format("| `{}` | {} | {} | {} | {} | {} | {} |\n", a.parameter, turn_of(a), cell(a.begin),
                        cell(a.while_setting), read_by(a), safe_side(a), cell(a.source));
  }
  return text;
}

std::string care_of(const Kind& kind) {
  if (kind.care.empty()) return {};
  std::string text =
      "\n## What is looked after\n\n| what | how often | what is still good | source |\n| --- | --- | --- | "
      "--- "
      "|\n";
  for (const Care& c : kind.care) {
    text +=
        fmt::format("| {} | {} | {} | {} |\n", cell(c.what), cell(c.interval), cell(c.limit), cell(c.source));
  }
  return text;
}

std::string faults_of(const Kind& kind) {
  if (kind.faults.empty()) return {};
  std::string text =
      "\n## What goes wrong\n\n| fault | what is behind it and what the machine shows | changes | slight … "
      "grave "
      "| source |\n| --- | --- | --- | --- | --- |\n";
  for (const Fault& f : kind.faults) {
    const auto changed = find_parameter(kind.parameters, f.parameter);
    text += fmt::format("| {} | {} | `{}` | {} | {} |\n", cell(f.name), cell(f.sentence), f.parameter,
                        changed ? cell(size_of(f, kind.parameters[*changed])) : "", cell(f.source));
  }
  return text;
}

}  // namespace

std::string picture(const Kind& kind) {
  std::vector<std::string_view> names;
  for (const Port& port : kind.ports) names.push_back(port.name);
  return svg(kind.symbol, kind.anchors, names, title_of(kind.about.kind));
}

std::string page(const Kind& kind) {
  std::string text = fmt::format("{}# {}\n\n{}\n\n![Symbol: {}]({}.svg)\n\nIn a job: `kind = \"{}\"`\n",
                                 made_by_program, title_of(kind.about.kind), running(kind.about.sentence),
                                 title_of(kind.about.kind), kind.about.kind, kind.about.kind);
  text += ports_of(kind) + parameters_of(kind.parameters) + signals_of(kind);
  text += fmt::format("\n## Law\n\n```\n{}\n```\n\nSource: {}\n", wrapped(kind.about.law, page_width, 0),
                      kind.about.source);
  return text + computed_rules_of(kind) + rules_of(kind) + adjusting_of(kind) + care_of(kind) +
         faults_of(kind) + "\n[All parts](README.md)\n";
}

std::string oil_page() {
  return fmt::format("{}# Oil\n\nWhat the `[oil]` table of a job may say.\n{}\n[All parts](README.md)\n",
                     made_by_program, parameters_of(oil_parameters()));
}

std::string index_page() {
  std::string text = fmt::format(
      "{}# Parts\n\nWhat a job can be made of, with symbol, ports, datasheet, signals, law, rules, how it is "
      "set and "
      "looked after, and faults of each. Symbols are drawn by our own hand on the module grid of ISO 1219-1, "
      "from memory: compare "
      "with the standard before you claim conformity. The same text without pictures: `poise parts KIND`.\n\n"
      "- [Oil](oil.md): what a job's oil may say\n",
      made_by_program);
  auto next = families.begin();
  for (const Kind& kind : all_kinds()) {
    if (next != families.end() && next->first_kind == kind.about.kind) {
      text += fmt::format("\n## {}\n\n| symbol | part | what it is |\n| --- | --- | --- |\n", next->title);
      ++next;
    }
    text += fmt::format("| <img src=\"{}.svg\" alt=\"\" height=\"72\"> | [{}]({}.md) | {} |\n",
                        kind.about.kind, kind.about.kind, kind.about.kind, cell(kind.about.sentence));
  }
  return text;
}

std::vector<File> files() {
  std::vector<File> all{{"README.md", index_page()}, {"oil.md", oil_page()}};
  for (const Kind& kind : all_kinds()) {
    const std::string name(kind.about.kind);
    all.push_back({name + ".md", page(kind)});
    all.push_back({name + ".svg", picture(kind)});
  }
  return all;
}

}  // namespace poise::reference
