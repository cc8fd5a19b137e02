// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "job/keys.hpp"
#include "job/node.hpp"
#include "parts/table.hpp"

namespace poise::job {

/// A word or sentence of the job and where it stands.
struct Text {
  std::string value;
  Place place;
};

/// One table of the job while it is read: answers keys, remembers which were asked for, and complains about
/// the others.
class Section {
 public:
  /// `owner` is what messages call it: "the oil", "V2", "step \"clamp\"". Where `keys` is not empty no other
  /// key may be asked for.
  Section(const Node& table, std::string owner, Remarks& remarks, std::span<const Key> keys = {});

  const std::string& owner() const { return owner_; }
  Place place() const { return table_->place; }
  void call(std::string owner) { owner_ = std::move(owner); }
  /// Beside `keys` the names in this table may be asked for, and their tolerances.
  void take(std::span<const Parameter> values) { values_.push_back(values); }

  /// What stands behind a key, or null; the key counts as known from now on. Throws std::logic_error for a
  /// key that is not among those of the table: they are what the schema of jobs is written from.
  const Node* find(std::string_view key);
  /// Whether a key is there; does not make it known.
  bool has(std::string_view key) const;

  /// A text; none, with a complaint, where something else stands there, and none where nothing does.
  std::optional<Text> text(std::string_view key);
  /// One text or a list of texts; empty where nothing stands there or after a complaint.
  std::vector<Text> texts(std::string_view key);
  /// A table, or a list of tables as [[key]] makes it; complains about anything else.
  const Node* table(std::string_view key);
  std::vector<const Node*> tables(std::string_view key);

  /// "key of owner: sentence", at the value of the key.
  void complain(std::string_view key, std::string_view sentence);
  /// "owner sentence", at the table.
  void complain(std::string_view sentence);
  /// A key that could have been meant where an unknown one stands; too many to be listed.
  void suggest(std::string key) { suggested_.push_back(std::move(key)); }
  /// Complains about each key that was never asked for, with the nearest known one.
  void refuse_unknown_keys();

 private:
  const Node* look(std::string_view key);
  bool may_ask_for(std::string_view key) const;

  const Node* table_;
  std::string owner_;
  Remarks* remarks_;
  std::span<const Key> keys_;
  std::vector<std::span<const Parameter>> values_;
  std::vector<std::string> known_, suggested_;
};

/// "a number", "a list": what a value is, for messages.
std::string_view form_of(const Node& node);

/// `"a", "b" or "c"`: words in quotation marks.
std::string listed(const std::vector<std::string>& words, std::string_view last = "or");

/// `; did you mean "x"?` or, where no known word is near and they are few, `; known are ...`. Those of `more`
/// may be meant but are not listed.
std::string hint(std::string_view word, const std::vector<std::string>& known,
                 const std::vector<std::string>& more = {});

/// Text in quotation marks as messages show it.
std::string quote(std::string_view text);

}  // namespace poise::job
