// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#define TOML_EXCEPTIONS 0
// Version 3.3 asserts on headers such as "[[[" (mended upstream: marzer/tomlplusplus pull request 301) and,
// without the assertion, reports them as it should.
#define TOML_ASSERT(expression) static_assert(true)
#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <optional>

#include "job/node.hpp"

namespace poise::job {
namespace {

// No job nests deeper, and deep trees cost stack wherever they are walked or taken down.
constexpr int deepest = 12;
constexpr int most_dots_in_a_line = 2000;

Place place_of(const toml::source_region& region) {
  return {static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
}

bool stands_before(const Place& a, const Place& b) {
  return a.line != b.line ? a.line < b.line : a.column < b.column;
}

// What the library says of TOML in general, completed for what people write in a job.
std::string sentence_of(std::string_view description) {
  constexpr std::string_view opening = "Error while parsing ";
  if (description.starts_with(opening)) description.remove_prefix(opening.size());
  std::string_view remedy;
  const auto says = [&](std::string_view words) { return description.find(words) != std::string_view::npos; };
  if (says("could not determine value type") || says("expected a comment or whitespace")) {
    remedy = "; a word, or a value with its unit, stands in quotation marks, such as \"210 bar\"";
  } else if (says("unescaped control characters") || says("encountered end-of-file")) {
    remedy = "; what is opened by a quotation mark or bracket is closed by one";
  } else if (says("cannot redefine")) {
    remedy = "; a key stands once in its table, and a tag once in the job";
  } else if (says("exceeded maximum nested value depth")) {
    return "the text is not TOML: lists are nested too deep";
  }
  return fmt::format("the text is not TOML: {}{}", description, remedy);
}

std::optional<Remark> line_with_too_many_dots(std::string_view text) {
  int line = 1, dots = 0;
  for (const char c : text) {
    if (c == '.' && ++dots > most_dots_in_a_line) {
      return Remark{{line, 1}, "this line is too long; spread what it lists over several lines"};
    }
    if (c != '\n') continue;
    ++line;
    dots = 0;
  }
  return std::nullopt;
}

struct Copy {
  std::optional<Remark> fault{};

  Node node(const toml::node& from, int depth) {
    Node to;
    to.place = place_of(from.source());
    if (depth > deepest) {
      fault = Remark{to.place, "tables and lists are nested too deep for a job"};
      return to;
    }
    if (const auto* table = from.as_table()) {
      copy_fields(*table, to, depth);
    } else if (const auto* list = from.as_array()) {
      to.form = Node::Form::list;
      for (const toml::node& item : *list) to.items.push_back(node(item, depth + 1));
    } else {
      copy_value(from, to);
    }
    return to;
  }

  void copy_fields(const toml::table& from, Node& to, int depth) {
    to.form = Node::Form::table;
    for (const auto& [key, value] : from) {
      const Place at = place_of(key.source());
      to.fields.push_back(
          {std::string(key.str()), at.line > 0 ? at : place_of(value.source()), node(value, depth + 1)});
    }
    std::ranges::stable_sort(to.fields, stands_before, &Field::place);
  }

  static void copy_value(const toml::node& from, Node& to) {
    if (const auto* text = from.as_string()) {
      to.form = Node::Form::text;
      to.text = text->get();
    } else if (const auto number = from.value<double>(); from.is_number() && number) {
      to.form = Node::Form::number;
      to.number = *number;
    } else {
      to.form = from.is_boolean() ? Node::Form::truth : Node::Form::moment;
      if (from.is_boolean()) to.text = from.value_or(false) ? "true" : "false";
    }
  }
};

}  // namespace

std::variant<Node, Remark> parse(std::string_view text) {
  if (const auto fault = line_with_too_many_dots(text)) return *fault;
  const toml::parse_result result = toml::parse(text);
  if (!result) {
    const toml::parse_error& error = result.error();
    return Remark{place_of(error.source()), sentence_of(error.description())};
  }
  Copy copy;
  Node root = copy.node(result.table(), 0);
  if (copy.fault) return *copy.fault;
  return root;
}

}  // namespace poise::job
