// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <cctype>
#include <numeric>
#include <set>

#include "judge/outcome.hpp"
#include "papers/answer.hpp"
#include "papers/breadth.hpp"
#include "papers/lists.hpp"
#include "papers/number_format.hpp"
#include "papers/workbook.hpp"

namespace poise::papers {
namespace {

std::string_view first_bytes(std::string_view text, std::size_t most) {
  if (text.size() <= most) return text;
  while (most > 0 && (static_cast<unsigned char>(text[most]) & 0xC0U) == 0x80U) --most;
  return text.substr(0, most);
}

/// Words for the head of printed pages, where & begins a command and all together has 255 letters.
std::string for_print(std::string_view words, std::size_t most) {
  const std::string_view cut = first_bytes(words, most);
  std::string text;
  for (const char c : cut) text += c == '&' ? std::string("&&") : std::string(1, c == '\n' ? ' ' : c);
  return cut.size() < words.size() ? text + "…" : text;
}

/// What stands in brackets behind a table's own name is no part of it.
std::string_view own_name(std::string_view table) { return table.substr(0, table.find(" (")); }

/// A name that a sheet may have and no other has.
std::string sheet_name(std::string_view table, std::set<std::string>& taken) {
  constexpr std::size_t most = 28;  // letters; 31 are allowed, and a number may come behind
  std::string name(own_name(table));
  std::erase_if(name, [](char c) { return std::string_view("[]:*?/\\'").find(c) != std::string_view::npos; });
  name = std::string(first_bytes(name, most));
  if (name.empty()) name = "Table";
  const auto lower = [](std::string text) {
    std::ranges::transform(text, text.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
  };
  std::string unique = name;
  for (int i = 2; !taken.insert(lower(unique)).second; ++i) unique = fmt::format("{} {}", name, i);
  return unique;
}

std::string title_of(const Job& job) { return job.title.empty() ? "This job" : job.title; }

/// "B, 2026-11-26, by …": what of it the job gives.
std::string revision_of(const Job& job) {
  const Drawing& drawing = job.drawing;
  std::string text = drawing.revision.empty() ? "–" : drawing.revision;
  if (!drawing.date.empty()) text += ", " + drawing.date;
  if (!drawing.author.empty()) text += ", " + drawing.author;
  return text;
}

/// One table on its sheet.
class Page {
 public:
  Page(Workbook& book, const Table& table, const Subject& subject, const std::string& name)
      : book_(book), table_(table), subject_(subject), sheet_(book.add(name)) {}

  void write() {
    size_columns();
    write_top();
    write_table();
    prepare_print();
  }

 private:
  /// The longer words may stay unbroken, the wider the page and the smaller its letters in print.
  void size_columns() {
    constexpr double readable =
        170.0;  // page in letters of a figure's breadth; on A4 they have about 8 points
    for (const double longest : {36.0, 30.0, 26.0}) {
      widths_ = widths_up_to(longest);
      page_width_ = std::accumulate(widths_.begin(), widths_.end(), 0.0);
      if (page_width_ <= readable) break;
    }
    for (std::size_t i = 0; i < widths_.size(); ++i)
      done(worksheet_set_column(sheet_, column(i), column(i), widths_[i], nullptr));
  }

  /// A column is as wide as its words, up to a bound; one without any is there to be filled in by hand.
  std::vector<double> widths_up_to(double longest) const {
    constexpr double least = 8.0, by_hand = 13.0, longest_head = 14.0;
    std::vector<double> widths;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      double widest = 0.0;
      for (const auto& row : table_.rows) widest = std::max(widest, breadth_of(row.at(i).text));
      const double head = std::min(breadth_of(table_.columns[i].head), longest_head);
      const double width = std::clamp(std::max(head, widest) * letter + margins, least, longest);
      widths.push_back(widest == 0.0 ? std::max(width, by_hand) : width);
    }
    return widths;
  }

  /// Not every reader makes a row as high as its broken lines.
  void size_row(lxw_row_t row, int lines, double size = 1.0) {
    constexpr double line_height = 15.0, highest = 400.0;  // points; a spreadsheet allows 409
    done(worksheet_set_row(sheet_, row, std::min(line_height * size * lines, highest), nullptr));
  }
  int lines_in_column(std::size_t i, std::string_view words) const {
    return lines_of(words, (widths_[i] - margins) / letter);
  }

  /// What the table is worth, above its columns.
  void write_top() {
    const Job& job = subject_.job;
    if (const std::string warning = warning_of(subject_.verdict); !warning.empty())
      add_line(warning, book_.style({.bold = true, .size = 16}), 1.5);
    add_line(title_of(job) + ": " + table_.name, book_.style({.bold = true, .size = 13}), 1.25);
    add_line("Revision: " + revision_of(job), book_.style({}));
    add_line("Answer: " + answer_of(subject_.verdict), book_.style({.bold = true}));
    add_line(
        fmt::format("Fingerprint: {} of {}, Poise {}", subject_.fingerprint, subject_.file, subject_.version),
        book_.style({}));
    add_line(notice, book_.style({}));
  }

  /// A line over the whole width, broken where it is longer.
  void add_line(std::string_view words, lxw_format* style, double size = 1.0) {
    const std::string text = shortened(words);
    size_row(row_, lines_of(text, page_width_ / (letter * size)), size);
    if (table_.columns.size() > 1) {
      done(worksheet_merge_range(sheet_, row_, 0, row_, column(table_.columns.size() - 1), text.c_str(),
                                 style));
    } else {
      done(worksheet_write_string(sheet_, row_, 0, text.c_str(), style));
    }
    ++row_;
  }

  void write_table() {
    head_ = row_;
    lxw_format* style = book_.style({.bold = true, .boxed = true, .grey = true});
    int lines = 1;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      const std::string& head = table_.columns[i].head;
      done(worksheet_write_string(sheet_, head_, column(i), shortened(head).c_str(), style));
      lines = std::max(lines, lines_in_column(i, head));
    }
    size_row(head_, lines);
    for (const auto& row : table_.rows) write_row(row);
    worksheet_freeze_panes(sheet_, head_ + 1, 0);
  }

  void write_row(const std::vector<Cell>& row) {
    ++row_;
    int lines = 1;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      write_cell(column(i), row.at(i));
      lines = std::max(lines, lines_in_column(i, row.at(i).text));
    }
    size_row(row_, lines);
  }

  void write_cell(lxw_col_t at, const Cell& cell) {
    if (cell.number) {
      lxw_format* style = book_.style({.boxed = true, .number = number_format(cell)});
      done(worksheet_write_number(sheet_, row_, at, *cell.number, style));
    } else if (cell.text.empty()) {
      done(worksheet_write_blank(sheet_, row_, at, book_.style({.boxed = true})));
    } else {
      done(worksheet_write_string(sheet_, row_, at, shortened(cell.text).c_str(),
                                  book_.style({.boxed = true})));
    }
  }

  void prepare_print() {
    constexpr uint8_t letter_paper = 1, a4 = 9;  // numbers of the file's format
    worksheet_set_landscape(sheet_);
    worksheet_set_paper(sheet_, subject_.format == Format::letter ? letter_paper : a4);
    worksheet_fit_to_pages(sheet_, 1, 0);
    worksheet_set_margins(sheet_, 0.5, 0.5, 0.9, 0.9);  // inches
    done(worksheet_repeat_rows(sheet_, head_, head_));
    // Its first words: the printed head has little room.
    const std::string all_of_it = warning_of(subject_.verdict);
    const std::string warning = all_of_it.substr(0, all_of_it.find(':'));
    const std::string left = warning.empty() ? "" : "&L&B" + warning;
    done(worksheet_set_header(sheet_, fmt::format("{}&C{}&R{}", left, for_print(title_of(subject_.job), 60),
                                                  for_print(own_name(table_.name), 40))
                                          .c_str()));
    done(worksheet_set_footer(sheet_,
                              fmt::format("&L{}, {}&CPage &P of &N&RPoise {}", for_print(subject_.file, 60),
                                          first_bytes(subject_.fingerprint, 12), subject_.version)
                                  .c_str()));
  }

  static std::string shortened(std::string_view words) {
    constexpr std::size_t most = 32000;  // a cell has room for 32,767 letters
    return words.size() <= most ? std::string(words) : std::string(first_bytes(words, most)) + "…";
  }

  static lxw_col_t column(std::size_t i) { return static_cast<lxw_col_t>(i); }

  /// Bold letters, and those of other fonts than the file's, are broader than a figure.
  static constexpr double letter = 1.15, margins = 2.0;

  Workbook& book_;
  const Table& table_;
  const Subject& subject_;
  lxw_worksheet* sheet_;
  lxw_row_t row_ = 0, head_ = 0;
  std::vector<double> widths_;  ///< of the columns
  double page_width_ = 0.0;     ///< of all together
};

}  // namespace

std::string xlsx(std::span<const Table> tables, const Subject& subject) {
  Workbook book(title_of(subject.job));
  std::set<std::string> taken;
  for (const Table& table : tables) Page(book, table, subject, sheet_name(table.name, taken)).write();
  return book.bytes();
}

}  // namespace poise::papers
