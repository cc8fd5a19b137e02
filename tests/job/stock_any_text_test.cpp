// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <gtest/gtest.h>

// The glue for GoogleTest needs GoogleTest before it.
#include <rapidcheck/gtest.h>

#include "job/stock.hpp"

namespace poise {
namespace {

constexpr std::string_view good = R"(# a list
model,kind,cost,note,rated_flow [L/min],"setting_from [bar]",setting_to [bar],drop_curve [L/min: bar]
"relief, 1",relief,40,"a ""cap""",10,50,200 bar,
check 1,check,12,,,,,5: 1; 10: 3
)";

// Whatever the text, there are items or a reason why not, and the reason can be printed.
void expect_an_answer(const std::string& text, const std::string& name) {
  const auto read = read_stock_text(text, name);
  if (const auto* complaints = std::get_if<StockComplaints>(&read)) {
    RC_ASSERT(!complaints->list.empty());
    for (const StockRemark& remark : complaints->list) {
      RC_ASSERT(remark.text().starts_with(name + ":"));
      RC_ASSERT(!remark.remark.sentence.empty());
    }
  } else {
    const Stock& stock = std::get<Stock>(read);
    RC_ASSERT(!stock.items.empty());
    for (const StockItem& item : stock.items) RC_ASSERT(stock.find(item.model) == &item);
  }
}

RC_GTEST_PROP(AnyStockText, random_bytes_end_in_an_answer, (const std::string& text)) {
  expect_an_answer(text, "any.csv");
  expect_an_answer(text, "any.toml");
}

RC_GTEST_PROP(AnyStockText, random_bytes_below_a_header_end_in_an_answer, (const std::string& text)) {
  expect_an_answer("model,kind,cost\n" + text, "any.csv");
}

RC_GTEST_PROP(AnyStockText, a_list_with_changed_letters_ends_in_an_answer, ()) {
  std::string text(good);
  const int changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) {
    text[*rc::gen::inRange<std::size_t>(0, text.size())] =
        *rc::gen::elementOf(std::string("a1.\"[](),;:-> \n\r#\xC3\0", 19));
  }
  expect_an_answer(text, "any.csv");
}

RC_GTEST_PROP(AnyStockText, a_list_with_pieces_put_in_ends_in_an_answer, ()) {
  const std::vector<std::string> pieces{"ä",    "µm",   "😀",     "\"",    "\"\"",   ",",     ",,,", "\n",
                                        "\r\n", "\r",   "[bar]", "[",     "]",      "(",     ")",   ";",
                                        ":",    ": ;",  "nan",   "-inf",  "#",      "1e999", "\t",  "bar",
                                        "%",    "kind", "find",  "model", "relief", "hose"};
  std::string text(good);
  const int changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i)
    text.insert(*rc::gen::inRange<std::size_t>(0, text.size()), *rc::gen::elementOf(pieces));
  expect_an_answer(text, "any.csv");
}

TEST(AnyStockText, the_list_that_is_changed_has_no_complaint_itself) {
  EXPECT_TRUE(std::holds_alternative<Stock>(read_stock_text(good, "good.csv")));
}

}  // namespace
}  // namespace poise
