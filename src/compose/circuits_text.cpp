// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/circuits_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "compose/sheet.hpp"
#include "job/blocks.hpp"
#include "job/written.hpp"

namespace poise::compose {
namespace {

using job::Edit;
using job::Written;

constexpr std::size_t widest = 116;

/// A sentence as lines of comment.
std::string comment(std::string_view sentence) {
  std::string all, line = "#";
  while (!sentence.empty()) {
    const std::size_t blank = std::min(sentence.find(' '), sentence.size());
    if (line.size() + 1 + blank > widest) {
      all += line + "\n";
      line = "#";
    }
    line += " " + std::string(sentence.substr(0, blank));
    sentence.remove_prefix(std::min(blank + 1, sentence.size()));
  }
  return all + line + "\n";
}

std::string parts_text(const Making& making) {
  std::string all = "# The circuit, composed. What reads \"find\" is still to be worked out.\n";
  // From the reservoir to what moves, as oil goes: the last block put them in first.
  for (auto part = making.parts.rbegin(); part != making.parts.rend(); ++part) {
    all += "\n";
    for (const BlockReason& reason : making.reasons) {
      if (reason.tag == part->tag) all += comment(reason.sentence);
    }
    all += job::sections_in_toml({"parts", part->tag}, {part->values});
  }
  return all;
}

Written ports_in(const std::vector<std::string>& ports) {
  if (ports.size() == 1) return text(ports.front());
  Written::List list;
  for (const std::string& port : ports) list.push_back(text(port));
  return {std::move(list)};
}

std::string lines_text(const Making& making) {
  Written::List list;
  for (const Making::Line& line : making.lines) {
    if (line.ports.size() < 2) continue;
    Written::Table entry{{"from", text(line.ports.front())},
                         {"to", ports_in({line.ports.begin() + 1, line.ports.end()})}};
    if (!line.tag.empty()) {
      entry.emplace_back("tag", text(line.tag));
      entry.emplace_back("hose", Written{line.hose});
    }
    list.push_back({std::move(entry)});
  }
  return "# The circuit's lines.\n" + job::sections_in_toml({"lines"}, {std::move(list)});
}

std::string with_section(std::string_view text, const std::string& key, std::string_view section) {
  const job::Script script = job::script_of(std::string(text));
  const std::size_t at = job::place_of_section(script, key);
  return job::spliced(script, {job::put_apart(script, at, job::with_newlines(script, section))});
}

Written table_of(const std::vector<std::pair<std::string, std::string>>& set) {
  Written::Table table;
  for (const auto& [tag, value] : set) table.emplace_back(tag, text(value));
  return {std::move(table)};
}

/// The longest wait of a step that is put in: never longer than what the step it comes before allows.
std::string wait_of(const Making& making, const RunStep& step) {
  constexpr double usual = 20.0;  // s
  return fmt::format("{:g} s", std::min(usual, making.wanted.step(step.step).lasts));
}

Written step_in(const Making& making, const RunStep& step) {
  Written::Table table{{"name", text(step.name)}};
  if (!step.set.empty()) table.emplace_back("set", table_of(step.set));
  if (!step.lasts.empty()) table.emplace_back("lasts", text(step.lasts));
  if (!step.until.empty()) {
    table.emplace_back("until", ports_in(step.until));
    table.emplace_back("at_most", text(wait_of(making, step)));
  }
  return {std::move(table)};
}

/// What a step of the job sets beside what it is told to move: changes of loads, which stay.
bool has_key(const job::Node& step, std::string_view key) { return find_key(step, key) != nullptr; }

void edit_step(const job::Node& step, std::size_t place, const RunStep& run, std::vector<Edit>& edits) {
  const bool moves = has_key(step, "move"), sets = has_key(step, "set");
  if (moves && !sets && !run.set.empty()) {
    edits.push_back({Edit::Does::rename, {"steps", place, "move"}, text("set")});
    edits.push_back({Edit::Does::set, {"steps", place, "set"}, table_of(run.set)});
    return;
  }
  if (moves) edits.push_back({Edit::Does::remove, {"steps", place, "move"}});
  for (const auto& [tag, value] : run.set)
    edits.push_back({Edit::Does::set, {"steps", place, "set", tag}, text(value)});
}

std::vector<Edit> edits_of(const job::Node& tree, const Making& making) {
  std::vector<Edit> edits;
  const job::Node* steps = find_key(tree, "steps");
  // From behind, so that places stay as they are.
  std::vector<std::vector<const RunStep*>> before(steps->items.size());
  for (const RunStep& run : making.steps) {
    if (run.is_own()) {
      edit_step(steps->items[run.step], static_cast<std::size_t>(run.step), run, edits);
    } else {
      before[run.step].push_back(&run);
    }
  }
  for (std::size_t i = before.size(); i-- > 0;) {
    for (std::size_t k = before[i].size(); k-- > 0;)
      edits.push_back({Edit::Does::add, {"steps"}, step_in(making, *before[i][k]), i});
  }
  for (const Making::Control& control : making.controls) {
    edits.push_back(
        {Edit::Does::add,
         {"controls"},
         {Written::Table{{"when", text(control.when)}, {"set", table_of({{control.tag, control.value}})}}}});
  }
  for (const std::string& port : making.plugged) edits.push_back({Edit::Does::add, {"plugged"}, text(port)});
  return edits;
}

}  // namespace

std::string text_with(std::string_view text, const Making& making) {
  auto read = read_sheet(text);
  const auto* sheet = std::get_if<Sheet>(&read);
  if (!sheet) throw std::logic_error("a job that was read is TOML");
  const job::Edited edited = job::edited(text, edits_of(sheet->tree, making));
  if (!edited.complaint.empty()) throw std::logic_error("the steps cannot be written: " + edited.complaint);
  const std::string parted = with_section(edited.text, "parts", parts_text(making));
  return with_section(parted, "lines", lines_text(making));
}

}  // namespace poise::compose
