// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "circuit/plan.hpp"

namespace poise::job {

using Remarks = std::vector<Remark>;

struct Field;

/// A value of the job's text with the place where it stands. Tables keep the order of the text.
struct Node {
  enum class Form { text, number, truth, moment, list, table };
  Form form = Form::table;
  Place place;
  std::string text;
  double number = 0.0;
  std::vector<Node> items;    ///< of a list
  std::vector<Field> fields;  ///< of a table
};

/// A key of a table and what is written behind it.
struct Field {
  std::string key;
  Place place;  ///< of the key
  Node value;
};

/// The job's text (TOML 1.0) as a tree, or the first place where it is not TOML.
std::variant<Node, Remark> parse(std::string_view text);

}  // namespace poise::job
