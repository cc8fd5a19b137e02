// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include "cli/command.hpp"
#include "cli/curves.hpp"
#include "cli/read.hpp"
#include "cli/to_file.hpp"
#include "job/job.hpp"
#include "job/oil_table.hpp"
#include "judge/page.hpp"
#include "parts/kind.hpp"
#include "reference/page.hpp"
#include "reference/wording.hpp"
#include "rules/all.hpp"
#include "units/nearest.hpp"
#include "units/units.hpp"

namespace poise::cli {
namespace {

constexpr std::size_t page_width = 100;

/// A paragraph of its own, indented.
std::string paragraph(std::string_view text, std::size_t indent) {
  return std::string(indent, ' ') + wrapped(text, page_width, indent) + "\n";
}

void print_list() {
  fmt::print(
      "Parts that a job can be made of; \"poise parts KIND\" explains one, \"poise parts oil\" the oil.\n\n");
  std::size_t widest = 0;
  for (const Kind& kind : all_kinds()) widest = std::max(widest, kind.about.kind.size());
  const std::size_t begin = widest + 4;
  for (const Kind& kind : all_kinds()) {
    fmt::print("  {:<{}}{}\n", kind.about.kind, begin - 2, wrapped(kind.about.sentence, page_width, begin));
  }
}

void print_parameters(std::span<const Parameter> parameters, const units::World& world) {
  fmt::print("\nParameters\n");
  for (const Parameter& p : parameters) {
    constexpr std::size_t values_from = 26;
    const std::string values =
        fmt::format("{}{}; {}{}", p.fallback ? "default " : "", reference::default_of(p, world),
                    reference::range_of(p, world), p.set_by_steps ? "; steps may set it" : "");
    fmt::print("  {:<23} {}\n", p.name, wrapped(values, page_width, values_from));
    fmt::print("{}", paragraph(fmt::format("{} [{}]", p.meaning, p.source), 6));
  }
}

void print_oil(const units::World& world) {
  fmt::print("oil\n  What the [oil] table of a job may say.\n");
  print_parameters(oil_parameters(), world);
}

template <class Entry>
void print_words(std::string_view heading, std::span<const Entry> entries) {
  if (entries.empty()) return;
  fmt::print("\n{}\n", heading);
  for (const Entry& entry : entries) {
    fmt::print("  {}\n{}", entry.name, paragraph(fmt::format("{} [{}]", entry.sentence, entry.source), 6));
  }
}

void print_adjusting(const Kind& kind) {
  if (kind.adjusting.empty()) return;
  fmt::print("\nHow it is set\n");
  for (const Adjusting& a : kind.adjusting) {
    const std::string side =
        a.safe == Adjusting::Safe::neither ? "" : fmt::format("; rounded {}", reference::safe_side(a));
    fmt::print("  {:<23} {}, by {}{}\n", a.parameter, reference::turn_of(a), reference::read_by(a), side);
    fmt::print("{}", paragraph(fmt::format("before: {}", a.begin), 6));
    fmt::print("{}", paragraph(fmt::format("while: {} [{}]", a.while_setting, a.source), 6));
  }
}

void print_care(const Kind& kind) {
  if (kind.care.empty()) return;
  fmt::print("\nWhat is looked after\n");
  for (const Care& c : kind.care) {
    fmt::print("{}", paragraph(fmt::format("{}: {}", c.interval, c.what), 2));
    fmt::print("{}", paragraph(fmt::format("{} [{}]", c.limit, c.source), 6));
  }
}

void print_computed(const Kind& kind) {
  const auto computed = rules::concerning(kind.about.kind);
  if (computed.empty()) return;
  fmt::print("\nRules that are computed; \"poise rules NAME\" explains one\n");
  for (const rules::TradeRule* rule : computed)
    fmt::print("  {}\n{}", rule->name,
               paragraph(fmt::format("{} [{}]", rule->holds, rules::words_of(rule->harm)), 6));
}

void print_kind(const Kind& kind, const units::World& world) {
  fmt::print("{}\n{}\n", kind.about.kind, paragraph(kind.about.sentence, 2));
  fmt::print("Ports\n");
  for (const Port& port : kind.ports) {
    std::string note = port.domain == Domain::motion ? " (motion)" : "";
    if (!port.needed_if_parameter.empty()) {
      note += fmt::format(" (only with {})", condition_of(port, kind.parameters));
    }
    fmt::print("  {:<10}{}{}\n", port.name, port.meaning, note);
  }
  print_parameters(kind.parameters, world);
  if (!kind.states.empty() || !kind.outputs.empty() || !kind.modes.empty())
    fmt::print("\nSignals beside ports and motion\n");
  for (const State& s : kind.states) fmt::print("  {:<23} {}\n", s.name, s.meaning);
  for (const Output& o : kind.outputs)
    fmt::print("  {:<23} {}, {}\n", o.name, units::name(o.quantity), o.meaning);
  for (const Mode& m : kind.modes) fmt::print("  {:<23} 1 or 0, {}\n", m.name, m.meaning);
  print_computed(kind);
  print_words("What a person confirms", kind.rules);
  print_adjusting(kind);
  print_care(kind);
  print_words("What goes wrong", kind.faults);
  fmt::print("\nLaw\n{}Source\n{}", paragraph(kind.about.law, 2), paragraph(kind.about.source, 2));
}

struct PartsWish {
  std::string name;
  std::string job;     ///< whose curves are wanted
  std::string folder;  ///< where the whole reference is written to
  bool us = false;
};

int write_reference(const std::string& folder) {
  if (!made_folder_or_complain(folder)) return cannot;
  const auto files = reference::files();
  for (const reference::File& file : files) {
    const auto path = std::filesystem::path(folder) / file.name;
    if (!written_or_complain(path, file.text)) return cannot;
  }
  fmt::print("{} files written to {}\n", files.size(), folder);
  return all_held;
}

int show_curves(const Kind& kind, const std::string& path) {
  const auto read = read_or_complain(path);
  if (!read) return cannot;
  return print_curves(kind, *read) ? all_held : cannot;
}

int show_parts(const PartsWish& wish) {
  if (!wish.folder.empty()) return write_reference(wish.folder);
  const units::World& world = wish.us ? units::us() : units::metric();
  if (wish.name.empty() && wish.job.empty()) {
    print_list();
    return all_held;
  }
  if (wish.name == "oil" && wish.job.empty()) {
    print_oil(world);
    return all_held;
  }
  if (const Kind* kind = find_kind(wish.name)) {
    if (!wish.job.empty()) return show_curves(*kind, wish.job);
    print_kind(*kind, world);
    return all_held;
  }
  std::vector<std::string> known;
  for (const Kind& kind : all_kinds()) known.emplace_back(kind.about.kind);
  const auto nearest = units::nearest_word(wish.name, known);
  fmt::print(stderr, "there is no part kind \"{}\"{}; \"poise parts\" lists them\n", wish.name,
             nearest ? fmt::format("; did you mean {}?", *nearest) : "");
  return cannot;
}

}  // namespace

void add_parts(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<PartsWish>();
  CLI::App* command = program.add_subcommand("parts", "The part reference: what a job can be made of");
  command->add_option("kind", wish->name, "one kind, explained in full");
  command->add_flag("--us", wish->us, "values in psi, in3/min, lbf, in");
  command
      ->add_option("--curve", wish->job,
                   "a job: the curves it gives to parts of this kind, point by point beside the law")
      ->type_name(a_job);
  command->add_option("--write", wish->folder, "a folder: the whole reference as pages with pictures")
      ->type_name(a_folder);
  command->callback([wish, &exit_code] { exit_code = show_parts(*wish); });
}

}  // namespace poise::cli
