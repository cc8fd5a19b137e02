// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include "job/draft.hpp"
#include "job/value.hpp"
#include "units/text.hpp"

namespace poise::job {

std::optional<Signal> read_signal(Draft& draft, const Text& name, const std::string& what) {
  const Plan& plan = draft.job.plan;
  if (auto signal = find_signal(plan, name.value)) return signal;
  const std::string_view tag = tag_of(draft, name.value);
  if (draft.left_out.contains(tag)) return std::nullopt;
  const auto part = draft.parts.find(tag);
  if (part == draft.parts.end()) {
    draft.remarks.push_back({name.place, fmt::format("{}: {}", what, no_such_part(draft, tag))});
    return std::nullopt;
  }
  std::vector<std::string> known;
  for (const Signal& signal : signals_of(plan, part->second)) known.push_back(signal.name);
  draft.remarks.push_back(
      {name.place, fmt::format("{}: {} is nothing that can be watched on {} ({}){}", what, quote(name.value),
                               tag, plan.parts[part->second].kind->about.kind, hint(name.value, known))});
  return std::nullopt;
}

namespace {

struct Contact {
  std::string_view tag;
  bool on;
};

/// "S1 on" or "S1 off"; none for anything else.
std::optional<Contact> contact_in(std::string_view whole) {
  whole = units::trimmed(whole);
  for (const bool on : {true, false}) {
    const std::string_view word = on ? " on" : " off";
    if (whole.ends_with(word))
      return Contact{units::trimmed(whole.substr(0, whole.size() - word.size())), on};
  }
  return std::nullopt;
}

std::optional<Condition> read_contact(Draft& draft, const Contact& contact, const Text& text,
                                      const std::string& what) {
  if (draft.left_out.contains(contact.tag)) return std::nullopt;
  const auto found = draft.parts.find(contact.tag);
  if (found == draft.parts.end()) {
    draft.remarks.push_back({text.place, fmt::format("{}: {}", what, no_such_part(draft, contact.tag))});
    return std::nullopt;
  }
  const Kind& kind = *draft.job.plan.parts[found->second].kind;
  std::vector<Signal> modes;
  for (Signal& signal : signals_of(draft.job.plan, found->second)) {
    if (signal.what == Signal::What::mode) modes.push_back(std::move(signal));
  }
  constexpr double half = 0.5;  // a mode is 1 or 0
  if (modes.size() == 1) return Condition{modes.front(), contact.on, half};
  const std::string who = fmt::format("{} ({})", contact.tag, kind.about.kind);
  draft.remarks.push_back(
      {text.place,
       modes.empty()
           ? fmt::format(
                 "{}: {} is nothing that turns on or off by itself, as a pressure_switch does; expected a "
                 "signal, > or <, and a value, such as \"C1.A.pressure > 180 bar\"",
                 what, who)
           : fmt::format("{}: {} has several things that are on or off; write \"{} > 0.5\" or \"{} > 0.5\"",
                         what, who, modes[0].name, modes[1].name)});
  return std::nullopt;
}

}  // namespace

std::optional<Condition> read_condition(Draft& draft, const Text& text, const std::string& what) {
  const std::string_view whole = text.value;
  const std::size_t sign = whole.find_first_of("<>");
  if (const auto contact = contact_in(whole); contact && sign == std::string_view::npos)
    return read_contact(draft, *contact, text, what);
  const std::string_view left = units::trimmed(whole.substr(0, sign));
  std::string_view right = sign == std::string_view::npos ? std::string_view{} : whole.substr(sign + 1);
  if (right.starts_with('=')) right.remove_prefix(1);
  right = units::trimmed(right);
  if (left.empty() || right.empty()) {
    draft.remarks.push_back(
        {text.place, fmt::format("{}: {} is not a condition; expected a signal, > or <, and a value, "
                                 "such as \"C1.A.pressure > 180 bar\"",
                                 what, quote(whole))});
    return std::nullopt;
  }
  const auto signal = read_signal(draft, {std::string(left), text.place}, what);
  if (!signal) return std::nullopt;
  const auto value = read_quantity({std::string(right), text.place}, signal->quantity, what, draft.remarks);
  if (!value) return std::nullopt;
  return Condition{*signal, whole[sign] == '>', *value};
}

std::vector<Condition> read_conditions(Draft& draft, Section& section, std::string_view key) {
  std::vector<Condition> all;
  for (const Text& text : section.texts(key)) {
    if (auto condition = read_condition(draft, text, fmt::format("{} of {}", key, section.owner()))) {
      all.push_back(std::move(*condition));
    }
  }
  return all;
}

}  // namespace poise::job
