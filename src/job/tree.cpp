// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/tree.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "job/section.hpp"

namespace poise::job {
namespace {

using Form = Node::Form;

bool is_empty(const Node& node) {
  return (node.form == Form::table && node.fields.empty()) || (node.form == Form::list && node.items.empty());
}

bool same_number(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

/// Whether every field of one table is in the other as well.
bool holds_all_of(const Node& table, const Node& other) {
  return std::ranges::all_of(other.fields, [&](const Field& field) {
    const auto found = std::ranges::find(table.fields, field.key, &Field::key);
    return found == table.fields.end() ? is_empty(field.value) : same(found->value, field.value);
  });
}

template <typename Tree>
Tree* child_of(Tree& node, const Stop& stop) {
  if (const auto* key = std::get_if<std::string>(&stop)) {
    if (node.form != Form::table) return nullptr;
    const auto field = std::ranges::find(node.fields, *key, &Field::key);
    return field == node.fields.end() ? nullptr : &field->value;
  }
  const std::size_t place = std::get<std::size_t>(stop);
  return node.form == Form::list && place < node.items.size() ? &node.items[place] : nullptr;
}

template <typename Tree>
Tree* follow(Tree& tree, std::span<const Stop> way) {
  Tree* node = &tree;
  for (const Stop& stop : way) {
    if (!node) return nullptr;
    node = child_of(*node, stop);
  }
  return node;
}

/// Carries out one edit on a tree.
struct Changing {
  Node tree;
  std::string complaint{};

  Node* at(std::span<const Stop> way) { return follow(tree, way); }
  void refuse(std::string sentence) { complaint = std::move(sentence); }

  /// The table that a key is to be in; made where there is none.
  Node* table_at(std::span<const Stop> way) {
    if (Node* node = at(way)) {
      if (node->form == Form::table) return node;
      refuse(fmt::format("{} is {}, not a table", shown(way), form_of(*node)));
      return nullptr;
    }
    const auto* key = std::get_if<std::string>(&way.back());
    if (!key) {
      refuse(fmt::format("there is no {} in the job", shown(way)));
      return nullptr;
    }
    Node* outer = table_at(way.first(way.size() - 1));
    if (!outer) return nullptr;
    outer->fields.push_back({*key, {}, {}});
    return &outer->fields.back().value;
  }

  void set(std::span<const Stop> way, Node value) {
    if (way.empty()) return refuse("the job itself is changed as a text");
    if (Node* node = at(way)) {
      *node = std::move(value);
      return;
    }
    const auto* key = std::get_if<std::string>(&way.back());
    if (!key) return refuse(fmt::format("there is no {} in the job", shown(way)));
    if (Node* table = table_at(way.first(way.size() - 1)))
      table->fields.push_back({*key, {}, std::move(value)});
  }

  void remove(std::span<const Stop> way) {
    if (way.empty() || !at(way)) return refuse(fmt::format("there is no {} in the job", shown(way)));
    Node* holder = at(way.first(way.size() - 1));
    if (const auto* key = std::get_if<std::string>(&way.back())) {
      std::erase_if(holder->fields, [&](const Field& field) { return field.key == *key; });
    } else {
      holder->items.erase(holder->items.begin() +
                          static_cast<std::ptrdiff_t>(std::get<std::size_t>(way.back())));
    }
  }

  void add(std::span<const Stop> way, Node value, std::optional<std::size_t> place) {
    Node* list = at(way);
    if (!list) {
      Node made;
      made.form = Form::list;
      made.items.push_back(std::move(value));
      return set(way, std::move(made));
    }
    if (list->form != Form::list)
      return refuse(fmt::format("{} is {}, not a list", shown(way), form_of(*list)));
    const std::size_t to = std::min(place.value_or(list->items.size()), list->items.size());
    list->items.insert(list->items.begin() + static_cast<std::ptrdiff_t>(to), std::move(value));
  }

  void move(std::span<const Stop> way, std::optional<std::size_t> to) {
    if (way.empty() || !at(way)) return refuse(fmt::format("there is no {} in the job", shown(way)));
    const auto* from = std::get_if<std::size_t>(&way.back());
    if (!from) return refuse(fmt::format("{} has no place in a list", shown(way)));
    Node* list = at(way.first(way.size() - 1));
    const std::size_t place = to.value_or(list->items.size() - 1);
    if (place >= list->items.size())
      return refuse(fmt::format("{} has no place {}", shown(way.first(way.size() - 1)), place + 1));
    const auto begin = list->items.begin();
    const auto here = begin + static_cast<std::ptrdiff_t>(*from),
               there = begin + static_cast<std::ptrdiff_t>(place);
    if (here < there) {
      std::rotate(here, here + 1, there + 1);
    } else {
      std::rotate(there, here, here + 1);
    }
  }

  void rename(std::span<const Stop> way, const Written& to) {
    if (way.empty() || !at(way)) return refuse(fmt::format("there is no {} in the job", shown(way)));
    const auto *key = std::get_if<std::string>(&way.back()), *name = std::get_if<std::string>(&to.is);
    if (!key || !name) return refuse(fmt::format("{} has no name that could be changed", shown(way)));
    Node* table = at(way.first(way.size() - 1));
    const auto field = std::ranges::find(table->fields, *key, &Field::key);
    if (*name != *key && std::ranges::find(table->fields, *name, &Field::key) != table->fields.end())
      return refuse(fmt::format("there is a {} already", *name));
    field->key = *name;
  }
};

}  // namespace

const Node* node_at(const Node& tree, std::span<const Stop> way) { return follow(tree, way); }

Node node_of(const Written& value) {
  Node node;
  if (const auto* text = std::get_if<std::string>(&value.is)) {
    node.form = Form::text;
    node.text = *text;
  } else if (const auto* number = std::get_if<double>(&value.is)) {
    node.form = Form::number;
    node.number = *number;
  } else if (const auto* truth = std::get_if<bool>(&value.is)) {
    node.form = Form::truth;
    node.text = *truth ? "true" : "false";
  } else if (const auto* list = std::get_if<Written::List>(&value.is)) {
    node.form = Form::list;
    for (const Written& item : *list) node.items.push_back(node_of(item));
  } else {
    for (const auto& [key, inner] : std::get<Written::Table>(value.is))
      node.fields.push_back({key, {}, node_of(inner)});
  }
  return node;
}

Written written_of(const Node& node) {
  if (node.form == Form::number) return {node.number};
  if (node.form == Form::truth) return {node.text == "true"};
  if (node.form == Form::list) {
    Written::List list;
    for (const Node& item : node.items) list.push_back(written_of(item));
    return {list};
  }
  if (node.form != Form::table) return {node.text};
  Written::Table table;
  for (const Field& field : node.fields) table.emplace_back(field.key, written_of(field.value));
  return {table};
}

bool same(const Node& a, const Node& b) {
  if (a.form != b.form) return false;
  if (a.form == Form::number) return same_number(a.number, b.number);
  if (a.form == Form::list) return std::ranges::equal(a.items, b.items, same);
  if (a.form == Form::table) return holds_all_of(a, b) && holds_all_of(b, a);
  return a.text == b.text;
}

std::string shown(std::span<const Stop> way) {
  std::string text;
  for (const Stop& stop : way) {
    const auto* key = std::get_if<std::string>(&stop);
    if (!text.empty()) text += '.';
    text += key ? *key : std::to_string(std::get<std::size_t>(stop) + 1);
  }
  return text.empty() ? "the job" : text;
}

std::variant<Node, std::string> changed(Node tree, const Edit& edit) {
  Changing changing{std::move(tree)};
  if (edit.does == Edit::Does::set) changing.set(edit.at, node_of(edit.value));
  if (edit.does == Edit::Does::remove) changing.remove(edit.at);
  if (edit.does == Edit::Does::add) changing.add(edit.at, node_of(edit.value), edit.place);
  if (edit.does == Edit::Does::move) changing.move(edit.at, edit.place);
  if (edit.does == Edit::Does::rename) changing.rename(edit.at, edit.value);
  if (!changing.complaint.empty()) return changing.complaint;
  return std::move(changing.tree);
}

}  // namespace poise::job
