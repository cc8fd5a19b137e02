// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "judge/show.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "judge/outcome.hpp"
#include "judge/page.hpp"

namespace poise {
namespace {

constexpr std::size_t page_width = 100, text_from = 9, margin_width = 14, percent_width = 10;
constexpr std::size_t widest_name = page_width - text_from - margin_width - percent_width;

class Page {
 public:
  Page(const Verdict& verdict, const Job& job, bool colour) : verdict_(verdict), job_(job), ink_(colour) {}
  std::string text() const {
    return headline() + findings() + rules() + steps() + cautions() + people() + books() + '\n' +
           ink_.quiet(wrapped(notice, page_width, 0)) + '\n';
  }

 private:
  std::string in_unit(double value, Quantity quantity) const {
    return units::show(value, quantity, job_.world);
  }
  std::string seconds(double time) const { return in_unit(time, Quantity::time); }
  std::string headline() const;
  std::string answer_in_words() const;
  std::string rules_in_words() const;
  std::string findings() const;
  std::string finding(const Finding& finding, std::size_t name_width) const;
  std::string marked(Mark mark) const;
  std::string margin(const Finding& finding) const;
  std::string account(const Finding& finding) const;
  std::string rules() const;
  std::string rule(const RuleNotKept& broken) const;
  std::string steps() const;
  std::string cautions() const;
  std::string people() const;
  std::string books() const;

  const Verdict& verdict_;
  const Job& job_;
  Ink ink_;
};

/// A block of the page under its name in the left column.
std::string block(std::string_view name, const std::string& text) {
  return '\n' + left(name, text_from) + text + '\n';
}

std::string indented(std::string_view text) {
  return std::string(text_from, ' ') + wrapped(text, page_width, text_from) + '\n';
}

/// A name's first line within a width, and its other lines, each on a line of its own under it.
std::pair<std::string, std::string> first_line(std::string_view name, std::size_t wide) {
  const std::string lines = wrapped(name, text_from + wide, text_from);
  const auto end = lines.find('\n');
  if (end == std::string::npos) return {lines, ""};
  return {lines.substr(0, end), lines.substr(end)};
}

std::string Page::answer_in_words() const {
  const auto count = verdict_.findings.size();
  const auto broken = count_broken(verdict_);
  switch (outcome(verdict_)) {
    case Outcome::held:
      return ink_.good("HELD") + (count == 1 ? ", it holds" : fmt::format(", all {} hold", count));
    case Outcome::broken:
      return ink_.bad("BROKEN") +
             fmt::format(", {} of {} {} not hold", broken, count, broken == 1 ? "does" : "do");
    case Outcome::not_proven:
      break;
  }
  return ink_.bad("NOT PROVEN") +
         (verdict_.books_close ? ", the run ended early" : ", the books of oil and energy do not close");
}

/// "1 rule of the trade is not kept that can hurt someone": what the answer must not be read without.
std::string Page::rules_in_words() const {
  const long hurts = verdict_.not_kept(rules::Harm::hurts), damages = verdict_.not_kept(rules::Harm::damages);
  const auto said = [](long count, std::string_view harm) {
    return fmt::format("{} rule{} of the trade {} not kept that {}", count, count == 1 ? "" : "s",
                       count == 1 ? "is" : "are", harm);
  };
  if (hurts > 0) return ink_.bad(said(hurts, rules::words_of(rules::Harm::hurts)));
  if (damages > 0) return ink_.strong(said(damages, rules::words_of(rules::Harm::damages)));
  return "";
}

std::string Page::headline() const {
  const std::string title = job_.title.empty() ? "This job" : job_.title;
  std::string text = ink_.strong(wrapped(title + ":", page_width - 56, 0)) + ' ' + answer_in_words() + '\n';
  if (verdict_.halt) {
    text +=
        wrapped(fmt::format("The run ended at {}: {}", seconds(verdict_.halt->time), verdict_.halt->sentence),
                page_width, 0) +
        '\n';
  }
  if (const std::string rules = rules_in_words(); !rules.empty()) text += rules + '\n';
  return text;
}

std::string Page::marked(Mark mark) const {
  switch (mark) {
    case Mark::held:
      return ink_.good(left("held", text_from));
    case Mark::broken:
      return ink_.bad(left("BROKEN", text_from));
    case Mark::unseen:
      break;
  }
  return ink_.bad(left("NOT SEEN", text_from));
}

std::string Page::margin(const Finding& finding) const {
  if (!finding.margin) return right("–", margin_width) + std::string(percent_width, ' ');
  const std::string share =
      finding.share ? units::show(*finding.share, Quantity::share, units::metric()) : std::string();
  return right(units::show_difference(*finding.margin, finding.quantity, job_.world), margin_width) +
         right(share, percent_width);
}

std::string Page::account(const Finding& finding) const {
  // What holds needs no second telling of what was asked.
  std::string text = finding.held || finding.name == finding.promised ? "" : finding.promised + " · ";
  text += finding.found;
  if (!finding.part.empty()) text += " · " + finding.part;
  if (finding.time) text += fmt::format(" · {}", seconds(*finding.time));
  if (!finding.step.empty()) text += fmt::format(" in \"{}\"", finding.step);
  return text;
}

std::string Page::finding(const Finding& finding, std::size_t name_width) const {
  const auto [first, rest] = first_line(finding.name, name_width);
  const std::string line = left(first, name_width) + margin(finding);
  const std::string told = account(finding);
  const bool fits =
      finding.held && rest.empty() && text_from + columns(line) + 3 + columns(told) <= page_width;
  if (fits) return marked(mark(finding, verdict_)) + line + ink_.quiet("   " + told) + '\n';
  return marked(mark(finding, verdict_)) + (finding.held ? line : ink_.strong(line)) + rest + '\n' +
         (finding.held ? ink_.quiet(indented(told)) : indented(told));
}

std::string Page::findings() const {
  std::size_t name_width = 0;
  for (const Finding& each : verdict_.findings) name_width = std::max(name_width, columns(each.name));
  name_width = std::min(name_width, widest_name);
  std::string text =
      '\n' + ink_.quiet(std::string(text_from + name_width, ' ') + right("margin", margin_width)) + '\n';
  for (const Finding& each : verdict_.findings) text += finding(each, name_width);
  return text;
}

std::string Page::steps() const {
  if (verdict_.steps.empty()) return "";
  std::size_t wide = 0;
  for (const StepSpan& span : verdict_.steps) wide = std::max(wide, columns(span.name));
  constexpr std::size_t column = 11, remark = 15;
  wide = std::min(wide, page_width - text_from - 3 * column - remark);
  std::string text = ink_.quiet(std::string(wide, ' ') + right("from", column) + right("to", column) +
                                right("lasted", column));
  for (const StepSpan& span : verdict_.steps) {
    const auto [first, rest] = first_line(span.name, wide);
    text += '\n' + std::string(text_from, ' ') + left(first, wide) + right(seconds(span.begin), column) +
            right(seconds(span.end), column) + right(seconds(span.end - span.begin), column) +
            (span.finished ? "" : "   not finished") + rest;
  }
  return block("steps", text);
}

std::string Page::rule(const RuleNotKept& broken) const {
  std::string_view harm = rules::words_of(broken.rule->harm);
  std::string head = broken.waived.empty() ? std::string(harm) : fmt::format("waived ({})", harm);
  if (broken.waived.empty() && broken.rule->harm == rules::Harm::hurts) head = ink_.bad(head);
  const std::string when = (broken.time ? fmt::format(" · {}", seconds(*broken.time)) : "") +
                           (broken.step.empty() ? "" : fmt::format(" in \"{}\"", broken.step));
  std::string text = std::string(text_from, ' ') + head + " · " + ink_.strong(broken.rule->name);
  text += columns(broken.rule->name) + columns(when) + 30 <= page_width - text_from ? ink_.quiet(when) + '\n'
                                                                                    : '\n' + indented(when);
  text += indented(broken.sentence);
  if (!broken.waived.empty()) return text + ink_.quiet(indented("Waived: " + broken.waived));
  return text + ink_.quiet(indented("→ " + broken.remedy));
}

std::string Page::rules() const {
  if (verdict_.rules.empty()) return "";
  std::string text = '\n' + left("rules", text_from) +
                     ink_.quiet("of the trade that are not kept; \"poise rules NAME\" explains one") + '\n';
  for (const RuleNotKept& broken : verdict_.rules) text += rule(broken);
  return text;
}

std::string Page::people() const {
  std::string text;
  for (const std::string& said : verdict_.people) {
    if (!text.empty()) text += '\n' + std::string(text_from, ' ');
    text += wrapped(said, page_width, text_from);
  }
  return text.empty() ? "" : block("people", text);
}

std::string Page::cautions() const {
  std::string text;
  for (const std::string& caution : verdict_.cautions) {
    if (!text.empty()) text += '\n' + std::string(text_from, ' ');
    text += wrapped(caution, page_width, text_from);
  }
  return text.empty() ? "" : block("mind", text);
}

std::string Page::books() const {
  const std::string text =
      fmt::format("oil {:.1e} of what was drawn and held, energy {:.1e} of what was put in: {}",
                  verdict_.books.mass_share(), verdict_.books.energy_share(),
                  verdict_.books_close ? "they close" : "they do not close");
  return block("books", wrapped(text, page_width, text_from));
}

}  // namespace

std::string show(const Verdict& verdict, const Job& job, bool colour) {
  return Page(verdict, job, colour).text();
}

}  // namespace poise
