// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "job/draft.hpp"
#include "job/value.hpp"
#include "units/nearest.hpp"

namespace poise::job {
namespace {

using What = decltype(Requirement::what);

/// A requirement while it is read: what it asks, and how that reads where the job gives it no name.
struct Asked {
  std::optional<What> what{};
  std::string sentence{};
};

struct Reader {
  Draft& draft;
  Section& section;

  std::string of(std::string_view key) const { return fmt::format("{} of {}", key, section.owner()); }

  std::string said(std::string_view key) const {
    const Node* node = section.find(key);
    if (!node) return {};
    if (node->form != Node::Form::list) return node->text;
    std::vector<std::string> texts;
    for (const Node& item : node->items) texts.push_back(item.text);
    return fmt::format("{}", fmt::join(texts, " and "));
  }

  std::optional<Signal> signal(std::string_view key) {
    const auto name = section.text(key);
    return name ? read_signal(draft, *name, of(key)) : std::nullopt;
  }

  std::optional<double> value(std::string_view key, Quantity quantity) {
    const Node* node = section.find(key);
    const Parameter parameter{.name = key, .quantity = quantity, .low = -no_limit, .high = no_limit};
    if (!node) {
      section.complain(fmt::format("needs {}, {}", key, wanted(parameter)));
      return std::nullopt;
    }
    return read_value(*node, parameter, section.owner(), draft.job.world, draft.remarks);
  }

  std::optional<double> positive(std::string_view key, Quantity quantity) {
    const auto number = value(key, quantity);
    if (!number || *number > 0.0) return number;
    section.complain(key, fmt::format("{} must be more than zero", quote(said(key))));
    return std::nullopt;
  }

  /// A time that may be left out and is not negative.
  std::optional<double> pause(std::string_view key) {
    if (!section.find(key)) return 0.0;
    const auto number = value(key, Quantity::time);
    if (!number || *number >= 0.0) return number;
    section.complain(key, fmt::format("{} must not be negative", quote(said(key))));
    return std::nullopt;
  }

  Asked never(std::string_view key) {
    const auto what = signal(key);
    Asked asked{.sentence = fmt::format("{} {} {}", said(key),
                                        key == "never_above" ? "never above" : "never below", said("limit"))};
    if (!what) return section.find("limit"), asked;
    if (const auto limit = value("limit", what->quantity))
      asked.what = Never{*what, key == "never_above", *limit};
    return asked;
  }

  Asked reached() {
    const auto text = section.text("reached");
    const auto condition = text ? read_condition(draft, *text, of("reached")) : std::nullopt;
    const auto within = positive("within", Quantity::time);
    Asked asked{.sentence = fmt::format("{} within {}", said("reached"), said("within"))};
    if (condition && within) asked.what = Reached{*condition, *within};
    return asked;
  }

  Asked order() {
    for (const std::string_view key : {"first", "then"}) {
      if (!section.has(key))
        section.complain(fmt::format("needs {}, a condition such as \"C1.A.pressure > 100 bar\"", key));
    }
    const std::size_t complaints = draft.remarks.size();
    Order order{read_conditions(draft, section, "first"), read_conditions(draft, section, "then")};
    const auto gap = pause("gap");
    Asked asked{.sentence = fmt::format("{} before {}", said("first"), said("then"))};
    if (!gap || draft.remarks.size() > complaints || order.first.empty() || order.then.empty()) return asked;
    order.gap = *gap;
    asked.what = order;
    return asked;
  }

  Asked band() {
    const auto what = signal("band");
    Asked asked{.sentence = fmt::format("{} between {} and {}", said("band"), said("low"), said("high"))};
    if (!what) return section.find("low"), section.find("high"), asked;
    const auto low = value("low", what->quantity), high = value("high", what->quantity);
    if (!low || !high) return asked;
    if (*low >= *high) {
      section.complain("low",
                       fmt::format("{} is not below high, {}", quote(said("low")), quote(said("high"))));
    }
    asked.what = Band{*what, *low, *high};
    return asked;
  }

  Asked drift() {
    const auto what = signal("drift");
    const auto settle = pause("settle");
    Asked asked{.sentence = fmt::format("{} stays within {}", said("drift"), said("limit"))};
    if (!what) return section.find("limit"), asked;
    const auto limit = positive("limit", what->quantity);
    if (limit && settle) asked.what = Drift{*what, *limit, *settle};
    return asked;
  }

  Asked level() {
    const auto names = section.texts("level");
    const std::size_t complaints = draft.remarks.size();
    Level level;
    for (const Text& name : names) {
      if (const auto found = read_signal(draft, name, of("level"))) level.signals.push_back(*found);
    }
    Asked asked{.sentence = fmt::format("{} level within {}", said("level"), said("limit"))};
    if (level.signals.size() < names.size() || draft.remarks.size() > complaints || names.empty()) {
      return section.find("limit"), asked;
    }
    if (names.size() < 2) {
      section.complain("level", "expected two signals or more, such as [\"C1.position\", \"C2.position\"]");
    }
    for (std::size_t i = 1; i < names.size(); ++i) {
      if (level.signals[i].quantity == level.signals[0].quantity) continue;
      draft.remarks.push_back(
          {names[i].place, fmt::format("{}: {} is not {} as {} is", of("level"), names[i].value,
                                       units::name(level.signals[0].quantity), names[0].value)});
    }
    const auto limit = positive("limit", level.signals[0].quantity);
    if (limit) asked.what = Level{level.signals, *limit};
    return asked;
  }

  Asked read(std::string_view what) {
    if (what == "never_above" || what == "never_below") return never(what);
    if (what == "reached") return reached();
    if (what == "band") return band();
    if (what == "drift") return drift();
    if (what == "level") return level();
    return order();
  }
};

constexpr std::array<std::string_view, 8> questions{"never_above", "never_below", "reached", "first",
                                                    "then",        "band",        "drift",   "level"};

/// The key that says what is asked; complains unless there is exactly one ("first" and "then" are one).
std::optional<std::string_view> question_of(Section& section) {
  std::vector<std::string_view> found;
  for (const std::string_view key : questions) {
    if (section.has(key) && !(key == "then" && section.has("first"))) found.push_back(key);
  }
  if (found.size() == 1) return found[0];
  if (found.empty()) {
    section.complain(
        "asks for nothing; write one of never_above, never_below, reached, first with then, band, drift, "
        "level");
  } else {
    section.complain(found[1], fmt::format("{} is asked as well; make two requirements of it", found[0]));
  }
  return std::nullopt;
}

std::vector<std::string> read_during(Draft& draft, Section& section) {
  std::vector<std::string> known, during;
  for (const Step& step : draft.job.steps) known.push_back(step.name);
  for (const Text& name : section.texts("during")) {
    if (std::ranges::find(known, name.value) == known.end()) {
      draft.remarks.push_back({name.place, fmt::format("during of {}: there is no step {}{}", section.owner(),
                                                       quote(name.value), hint(name.value, known))});
    }
    during.push_back(name.value);
  }
  return during;
}

/// How bad it is where the requirement is broken; none, perhaps after a complaint, where it does not say.
std::optional<rules::Harm> read_harm(Draft& draft, Section& section) {
  constexpr std::array harms{rules::Harm::hurts, rules::Harm::damages, rules::Harm::works_badly};
  const auto word = section.text("harm");
  if (!word) return std::nullopt;
  std::vector<std::string> known;
  for (const rules::Harm harm : harms) {
    known.emplace_back(rules::words_of(harm));
    if (word->value == known.back()) return harm;
  }
  const auto near = units::nearest_word(word->value, known);
  draft.remarks.push_back(
      {word->place, fmt::format("harm of {}: found {}; {}", section.owner(), quote(word->value),
                                near ? fmt::format("did you mean {}?", quote(*near))
                                     : fmt::format("expected {}", listed(known)))});
  return std::nullopt;
}

void read_requirement(Draft& draft, const Node& node, int number) {
  Section section(node, fmt::format("requirement {}", number), draft.remarks, keys::of_requirement());
  const auto name = section.text("name");
  section.text("note");
  if (name && !name->value.empty()) section.call(fmt::format("requirement {}", quote(name->value)));
  const auto during = read_during(draft, section);
  const auto harm = read_harm(draft, section);
  const auto question = question_of(section);
  if (!question) return;
  const Asked asked = Reader{draft, section}.read(*question);
  section.refuse_unknown_keys();
  if (!asked.what) return;
  const std::string called = name && !name->value.empty() ? name->value : asked.sentence;
  draft.job.requirements.push_back({called, *asked.what, during, node.place, harm});
}

}  // namespace

void read_requirements(Draft& draft, Section& top) {
  int number = 0;
  for (const Node* node : top.tables("require")) read_requirement(draft, *node, ++number);
}

}  // namespace poise::job
