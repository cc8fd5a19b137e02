// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/section.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "job/tolerance.hpp"
#include "units/nearest.hpp"
#include "units/text.hpp"

namespace poise::job {

Section::Section(const Node& table, std::string owner, Remarks& remarks, std::span<const Key> keys)
    : table_(&table), owner_(std::move(owner)), remarks_(&remarks), keys_(keys) {}

bool Section::may_ask_for(std::string_view key) const {
  if (keys_.empty() || std::ranges::find(keys_, key, &Key::name) != keys_.end()) return true;
  return std::ranges::any_of(values_, [&](std::span<const Parameter> table) {
    return find_parameter(table, key) || toleranced_by(key, table);
  });
}

const Node* Section::find(std::string_view key) {
  if (!may_ask_for(key)) throw std::logic_error(fmt::format("no table of keys has {} of {}", key, owner_));
  return look(key);
}

const Node* Section::look(std::string_view key) {
  if (std::ranges::find(known_, key) == known_.end()) known_.emplace_back(key);
  const auto field = std::ranges::find(table_->fields, key, &Field::key);
  return field == table_->fields.end() ? nullptr : &field->value;
}

bool Section::has(std::string_view key) const {
  return std::ranges::find(table_->fields, key, &Field::key) != table_->fields.end();
}

std::optional<Text> Section::text(std::string_view key) {
  const Node* node = find(key);
  if (!node) return std::nullopt;
  if (node->form == Node::Form::text) return Text{node->text, node->place};
  complain(key, fmt::format("expected text in quotation marks, found {}", form_of(*node)));
  return std::nullopt;
}

std::vector<Text> Section::texts(std::string_view key) {
  const Node* node = find(key);
  if (!node) return {};
  if (node->form == Node::Form::text) return {Text{node->text, node->place}};
  if (node->form != Node::Form::list) {
    complain(key,
             fmt::format("expected text in quotation marks, or a list of such, found {}", form_of(*node)));
    return {};
  }
  std::vector<Text> all;
  for (const Node& item : node->items) {
    if (item.form == Node::Form::text) {
      all.push_back({item.text, item.place});
    } else {
      remarks_->push_back({item.place, fmt::format("{} of {}: expected text in quotation marks, found {}",
                                                   key, owner_, form_of(item))});
    }
  }
  if (node->items.empty()) complain(key, "the list is empty");
  return all;
}

const Node* Section::table(std::string_view key) {
  const Node* node = find(key);
  if (!node || node->form == Node::Form::table) return node;
  complain(key, fmt::format("expected a table, found {}", form_of(*node)));
  return nullptr;
}

std::vector<const Node*> Section::tables(std::string_view key) {
  const Node* node = find(key);
  std::vector<const Node*> all;
  if (!node) return all;
  if (node->form != Node::Form::list) {
    complain(key, fmt::format("expected entries that each begin with [[{}]], found {}", key, form_of(*node)));
    return all;
  }
  for (const Node& item : node->items) {
    if (item.form == Node::Form::table) {
      all.push_back(&item);
    } else {
      remarks_->push_back(
          {item.place, fmt::format("{} of {}: expected an entry that begins with [[{}]], found {}", key,
                                   owner_, key, form_of(item))});
    }
  }
  return all;
}

void Section::complain(std::string_view key, std::string_view sentence) {
  const Node* node = look(key);
  remarks_->push_back({node ? node->place : place(), fmt::format("{} of {}: {}", key, owner_, sentence)});
}

void Section::complain(std::string_view sentence) {
  remarks_->push_back({place(), fmt::format("{} {}", owner_, sentence)});
}

void Section::refuse_unknown_keys() {
  for (const Field& field : table_->fields) {
    if (std::ranges::find(known_, field.key) != known_.end()) continue;
    remarks_->push_back({field.place, fmt::format("{} has no key {}{}", owner_, quote(field.key),
                                                  hint(field.key, known_, suggested_))});
  }
}

std::string_view form_of(const Node& node) {
  switch (node.form) {
    case Node::Form::text:
      return "a text";
    case Node::Form::number:
      return "a number";
    case Node::Form::truth:
      return "true or false";
    case Node::Form::moment:
      return "a date or time";
    case Node::Form::list:
      return "a list";
    case Node::Form::table:
      return "a table";
  }
  return "something else";
}

std::string listed(const std::vector<std::string>& words, std::string_view last) {
  std::string all;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) all += i + 1 == words.size() ? fmt::format(" {} ", last) : std::string(", ");
    all += quote(words[i]);
  }
  return all;
}

std::string hint(std::string_view word, const std::vector<std::string>& known,
                 const std::vector<std::string>& more) {
  std::vector<std::string> all = known;
  all.insert(all.end(), more.begin(), more.end());
  if (const auto nearest = units::nearest_word(word, all))
    return fmt::format("; did you mean {}?", quote(*nearest));
  constexpr std::size_t few = 24;
  if (known.empty() || known.size() > few) return {};
  return fmt::format("; known {} {}", known.size() == 1 ? "is" : "are", listed(known, "and"));
}

std::string quote(std::string_view text) { return units::quoted(text); }

}  // namespace poise::job
