// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/stock_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "units/text.hpp"

namespace poise::job {
namespace {

constexpr std::size_t most_cells = 500;  // no datasheet has more lines
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// A text on its way from the first letter to the last; columns count characters, not bytes.
class Letters {
 public:
  explicit Letters(std::string_view text) : text_(text) {}

  bool at_end() const { return at_ == text_.size(); }
  char now() const { return text_[at_]; }
  Place place() const { return place_; }

  void step() {
    const char c = text_[at_++];
    if (c == '\n') {
      place_ = {place_.line + 1, 1};
    } else if (at_ == text_.size() || (static_cast<unsigned char>(text_[at_]) & 0xC0) != 0x80) {
      ++place_.column;
    }
  }
  bool take(char wanted) {
    if (at_end() || now() != wanted) return false;
    step();
    return true;
  }
  void skip_blanks() {
    while (!at_end() && (now() == ' ' || now() == '\t' || now() == '\r')) step();
  }
  void skip_line() {
    while (!at_end() && now() != '\n') step();
    take('\n');
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
  Place place_{1, 1};
};

struct Reader {
  Letters letters;
  std::optional<Remark> fault{};

  bool ends_a_cell() const { return letters.at_end() || letters.now() == ',' || letters.now() == '\n'; }

  Cell quoted_cell() {
    Cell cell{{}, letters.place()};
    letters.step();
    while (true) {
      if (letters.at_end()) {
        fault = Remark{cell.place, "the quotation mark that opens here is not closed"};
        return cell;
      }
      if (letters.take('"')) {
        if (!letters.take('"')) break;
        cell.text += '"';
        continue;
      }
      cell.text += letters.now();
      letters.step();
    }
    letters.skip_blanks();
    if (!ends_a_cell()) {
      fault = Remark{letters.place(),
                     "a comma is expected behind the closing quotation mark; one that belongs to the text is "
                     "written twice"};
    }
    cell.text = units::trimmed(cell.text);
    return cell;
  }

  Cell plain_cell() {
    Cell cell{{}, letters.place()};
    while (!ends_a_cell()) {
      if (letters.now() == '"') {
        fault = Remark{letters.place(),
                       "a quotation mark stands in a cell that has none around it; put the cell in quotation "
                       "marks and write this one twice"};
        return cell;
      }
      cell.text += letters.now();
      letters.step();
    }
    cell.text = units::trimmed(cell.text);
    return cell;
  }

  Row row() {
    Row cells;
    do {
      letters.skip_blanks();
      const bool quoted = !letters.at_end() && letters.now() == '"';
      cells.push_back(quoted ? quoted_cell() : plain_cell());
      if (!fault && cells.size() > most_cells)
        fault = Remark{cells.back().place, fmt::format("a row has more than {} cells", most_cells)};
    } while (!fault && letters.take(','));
    if (!fault) letters.take('\n');
    return cells;
  }
};

bool is_empty(const Row& row) {
  return std::ranges::all_of(row, [](const Cell& cell) { return cell.text.empty(); });
}

}  // namespace

std::variant<std::vector<Row>, Remark> parse_csv(std::string_view text) {
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  Reader reader{Letters(text)};
  std::vector<Row> rows;
  while (!reader.letters.at_end()) {
    if (rows.empty() && reader.letters.now() == '#') {
      reader.letters.skip_line();
      continue;
    }
    Row row = reader.row();
    if (reader.fault) return *reader.fault;
    if (!is_empty(row)) rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace poise::job
