// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "job/draft.hpp"

namespace poise::job {
namespace {

std::optional<std::array<double, 2>> read_place(Section& section) {
  const Node* node = section.find("drawn_at");
  if (!node) return std::nullopt;
  const bool two_numbers =
      node->form == Node::Form::list && node->items.size() == 2 &&
      std::ranges::all_of(node->items, [](const Node& n) { return n.form == Node::Form::number; });
  if (!two_numbers) {
    section.complain("drawn_at",
                     fmt::format("expected modules to the right and up from the lower left corner "
                                 "of the drawing, such as drawn_at = [40, 25], found {}",
                                 node->form == Node::Form::list ? "another list" : form_of(*node)));
    return std::nullopt;
  }
  const std::array<double, 2> at{node->items[0].number, node->items[1].number};
  const bool inside = std::ranges::all_of(at, [](double d) { return d >= 0.0 && d <= farthest_drawn; });
  if (inside) return at;
  section.complain("drawn_at", fmt::format("expected modules from 0 to {:.0f}", farthest_drawn));
  return std::nullopt;
}

std::string_view digits_of(std::string_view text) {
  const auto end = std::ranges::find_if_not(text, [](char c) { return c >= '0' && c <= '9'; });
  return text.substr(0, static_cast<std::size_t>(end - text.begin()));
}

/// `[system-]medium circuit.component`: "1-H2.3", "H2.3".
bool is_code(std::string_view code) {
  if (const auto dash = code.find('-'); dash != std::string_view::npos) {
    if (dash == 0 || digits_of(code) != code.substr(0, dash)) return false;
    code.remove_prefix(dash + 1);
  }
  if (code.empty() || code_media.find(code.front()) == std::string_view::npos) return false;
  code.remove_prefix(1);
  const std::string_view circuit = digits_of(code);
  if (circuit.empty() || !code.substr(circuit.size()).starts_with('.')) return false;
  const std::string_view component = code.substr(circuit.size() + 1);
  return !component.empty() && digits_of(component) == component;
}

std::string read_code(Draft& draft, Section& section) {
  const auto code = section.text("code");
  if (!code) return {};
  if (!is_code(code->value)) {
    section.complain("code",
                     fmt::format("{} is no code after ISO 1219-2; expected the number of the system if there "
                                 "are several, the letter of the medium (H for oil), the circuit and the "
                                 "component, such as \"H2.3\" or \"1-H2.3\"",
                                 quote(code->value)));
    return {};
  }
  const auto& drawn = draft.job.drawn;
  const auto other = std::ranges::find(drawn, code->value, &DrawnPart::code);
  if (other != drawn.end()) {
    section.complain(
        "code", fmt::format("{} has the code {} already", draft.job.plan.parts[other - drawn.begin()].tag,
                            quote(code->value)));
  }
  return code->value;
}

/// The word of a key that has few; none after a complaint.
std::optional<std::string> read_word(Section& section, std::string_view key,
                                     const std::vector<std::string>& words) {
  const auto word = section.text(key);
  if (!word) return std::nullopt;
  if (std::ranges::find(words, word->value) != words.end()) return word->value;
  section.complain(key, fmt::format("found {}; expected {}", quote(word->value), listed(words)));
  return std::nullopt;
}

std::string text_or_nothing(Section& section, std::string_view key) {
  const auto text = section.text(key);
  return text ? text->value : std::string();
}

}  // namespace

DrawnPart read_drawn(Draft& draft, Section& section) {
  DrawnPart drawn;
  drawn.at = read_place(section);
  drawn.assembly = text_or_nothing(section, "assembly");
  drawn.code = read_code(draft, section);
  drawn.note = text_or_nothing(section, "note");
  return drawn;
}

void read_drawing(Draft& draft, Section& top) {
  const Node* node = top.table("drawing");
  if (!node) return;
  Section section(*node, "[drawing]", draft.remarks, keys::of_drawing());
  Drawing& drawing = draft.job.drawing;
  drawing.paper = read_word(section, "paper", {paper_words.begin(), paper_words.end()}).value_or("");
  drawing.codes =
      read_word(section, "codes", {on_off_words.begin(), on_off_words.end()}).value_or("on") == "on";
  drawing.author = text_or_nothing(section, "author");
  drawing.date = text_or_nothing(section, "date");
  drawing.revision = text_or_nothing(section, "revision");
  section.refuse_unknown_keys();
}

}  // namespace poise::job
