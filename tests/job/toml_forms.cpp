// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/toml_forms.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace poise::forms {
namespace {

using job::Field;
using job::Node;
using job::Way;
using Form = Node::Form;

std::string plain_key(const std::string& key) {
  const bool bare = !key.empty() && std::ranges::all_of(key, [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) || c == '-' || c == '_';
  });
  return bare ? key : "\"" + key + "\"";
}

/// Writes a tree line by line.
struct Printer {
  Random& random;
  std::string all{};

  bool perhaps(std::size_t one_in) { return pick(random, one_in) == 0; }

  void comment() {
    constexpr std::string_view odd[] = {"# ]",   "# [parts.X]", "# a = 1", "# \"",
                                        "# '''", "# {",         "#",       "# ä \\"};
    if (perhaps(4)) all += "\n";
    if (perhaps(4)) all += std::string(odd[pick(random, std::size(odd))]) + "\n";
  }

  void end_line() { all += perhaps(5) ? "  # ] \" }\n" : "\n"; }

  std::string key(const std::string& key) {
    return perhaps(6) && key.find('"') == std::string::npos ? "'" + key + "'" : plain_key(key);
  }

  std::string text(const std::string& text) {
    const bool odd = text.find_first_of("\\\"\n\r'") != std::string::npos;
    if (!odd && perhaps(5)) return "'" + text + "'";
    if (!odd && perhaps(8)) return "\"\"\"\n" + text + "\"\"\"";
    if (!odd && perhaps(8)) return "'''" + text + "'''";
    std::string escaped;
    for (const char c : text)
      escaped += c == '"' || c == '\\' ? std::string("\\") + c : c == '\n' ? "\\n" : std::string(1, c);
    return "\"" + escaped + "\"";
  }

  /// In braces nothing may go over several lines.
  std::string value(const Node& node, bool in_braces) {
    if (node.form == Form::text)
      return in_braces ? fmt::format("\"{}\"", fmt::join(escaped_pieces(node.text), "")) : text(node.text);
    if (node.form == Form::number) return fmt::format("{}", node.number);
    if (node.form == Form::truth) return node.text;
    if (node.form == Form::list) return list(node, in_braces);
    std::string body;
    for (const Field& field : node.fields) {
      body +=
          fmt::format("{} {} = {}", body.empty() ? "" : ",", plain_key(field.key), value(field.value, true));
    }
    return "{" + body + " }";
  }

  static std::vector<std::string> escaped_pieces(const std::string& text) {
    std::vector<std::string> pieces;
    for (const char c : text)
      pieces.push_back(c == '"' || c == '\\' ? std::string("\\") + c : std::string(1, c));
    return pieces;
  }

  std::string list(const Node& node, bool in_braces) {
    const bool lines = !in_braces && perhaps(3), last_comma = lines && perhaps(2);
    std::string body;
    for (std::size_t i = 0; i < node.items.size(); ++i) {
      if (lines && perhaps(4)) body += "\n  # about ] " + std::to_string(i);
      body += (lines ? "\n  " : "") + value(node.items[i], in_braces);
      if (i + 1 < node.items.size() || last_comma) body += ", ";
      if (lines && perhaps(4)) body += " # \" behind";
    }
    return "[" + body + (lines ? "\n]" : "]");
  }

  void dotted(const std::string& prefix, const Node& table) {
    for (const Field& field : table.fields) {
      const std::string name = prefix + (perhaps(4) ? " . " : ".") + key(field.key);
      if (field.value.form == Form::table && !field.value.fields.empty() && perhaps(2)) {
        dotted(name, field.value);
      } else {
        all += name + " = " + value(field.value, false);
        end_line();
        comment();
      }
    }
  }

  static bool holds_tables(const Node& list) {
    return !list.items.empty() &&
           std::ranges::all_of(list.items, [](const Node& item) { return item.form == Form::table; });
  }

  void body(const std::string& path, const Node& table) {
    std::vector<const Field*> below;
    for (const Field& field : table.fields) {
      const bool is_table = field.value.form == Form::table;
      if ((is_table && perhaps(2)) ||
          (field.value.form == Form::list && holds_tables(field.value) && !perhaps(4))) {
        below.push_back(&field);
      } else if (is_table && !field.value.fields.empty() && perhaps(2)) {
        dotted(key(field.key), field.value);
      } else {
        all += fmt::format("{}{}{}", key(field.key), perhaps(4) ? "=" : " = ", value(field.value, false));
        end_line();
        comment();
      }
    }
    for (const Field* field : below)
      sections(path.empty() ? key(field->key) : path + "." + key(field->key), field->value);
  }

  void sections(const std::string& path, const Node& node) {
    comment();
    if (node.form == Form::table) {
      all += "[" + path + "]";
      end_line();
      return body(path, node);
    }
    for (const Node& item : node.items) {
      comment();
      all += "[[" + path + "]]";
      end_line();
      body(path, item);
    }
  }
};

void add_leaves(const Node& node, Way& way, std::map<Way, std::string>& leaves) {
  if (node.form == Form::number) leaves[way] = fmt::format("{}", node.number);
  if (node.form == Form::text || node.form == Form::truth) leaves[way] = "\"" + node.text;
  for (const Field& field : node.fields) {
    way.emplace_back(field.key);
    add_leaves(field.value, way, leaves);
    way.pop_back();
  }
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    way.emplace_back(i);
    add_leaves(node.items[i], way, leaves);
    way.pop_back();
  }
}

void add_ways(const Node& node, const Way& way, std::vector<Way>& ways) {
  if (!way.empty()) ways.push_back(way);
  for (std::size_t i = 0; i < node.fields.size() + node.items.size(); ++i) {
    Way inner = way;
    if (node.form == Form::table) {
      inner.emplace_back(node.fields[i].key);
    } else {
      inner.emplace_back(i);
    }
    add_ways(node.form == Form::table ? node.fields[i].value : node.items[i], inner, ways);
  }
}

void replace_all(std::string& text, std::string_view piece, std::string_view instead) {
  for (std::size_t at = text.find(piece); at != std::string::npos; at = text.find(piece, at + instead.size()))
    text.replace(at, piece.size(), instead);
}

}  // namespace

std::size_t pick(Random& random, std::size_t end) { return random() % end; }

const std::vector<std::string>& all_jobs() {
  static const std::vector<std::string> jobs = [] {
    std::vector<std::filesystem::path> paths;
    for (const std::string_view folder : {"/jobs", "/tests/drawings", "/tests/independent"}) {
      for (const auto& entry : std::filesystem::directory_iterator(POISE_SOURCE_DIR + std::string(folder))) {
        if (entry.path().extension() == ".toml") paths.push_back(entry.path());
      }
    }
    std::ranges::sort(paths);
    std::vector<std::string> texts;
    for (const auto& path : paths) {
      std::ifstream file(path, std::ios::binary);
      texts.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
    }
    return texts;
  }();
  return jobs;
}

std::string in_another_dress(std::string text, Random& random) {
  const std::size_t dress = pick(random, 6);
  if (dress == 0) replace_all(text, "\n", "\r\n");
  if (dress == 1) text = "\xEF\xBB\xBF" + text;
  if (dress == 2 && text.ends_with('\n')) text.pop_back();
  if (dress == 3) replace_all(text, "\n\n", "\n");
  if (dress == 4) replace_all(text, " = ", "\t=\t");
  return text;
}

std::string in_random_form(const Node& tree, Random& random) {
  Printer printer{random};
  printer.comment();
  printer.body("", tree);
  return printer.all;
}

std::map<Way, std::string> leaves_of(const Node& tree) {
  std::map<Way, std::string> leaves;
  Way way;
  add_leaves(tree, way, leaves);
  return leaves;
}

std::vector<Way> ways_of(const Node& tree) {
  std::vector<Way> ways;
  add_ways(tree, {}, ways);
  return ways;
}

Node tree_of(std::string_view text) {
  auto parsed = job::parse(text);
  if (auto* remark = std::get_if<Remark>(&parsed))
    throw std::logic_error(
        fmt::format("{}:{}: {}\n{}", remark->place.line, remark->place.column, remark->sentence, text));
  return std::get<Node>(std::move(parsed));
}

}  // namespace poise::forms
