// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The invented parts list that comes with the program (stock/).
#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "job/stocks.hpp"

namespace poise {
namespace {

// What a machine is built from is bought; what it works on is not, nor is a change of the oil's temperature.
const std::set<std::string_view> not_bought{"mass", "force", "spring", "rigid_load", "warmed_oil"};

const Stock& demonstration() {
  static const Stock stock = [] {
    const std::array places{StockPlace{POISE_SOURCE_DIR "/stock", "stock"}};
    auto read = read_stock(places);
    if (const auto* complaints = std::get_if<StockComplaints>(&read)) {
      for (const StockRemark& remark : complaints->list) ADD_FAILURE() << remark.text();
      return Stock{};
    }
    return std::get<Stock>(std::move(read));
  }();
  return stock;
}

TEST(DemonstrationList, is_read_without_a_complaint_and_has_every_kind_that_is_bought) {
  const Stock& stock = demonstration();
  EXPECT_GE(stock.items.size(), 150u);
  for (const Kind& kind : all_kinds()) {
    const auto items = std::ranges::count(stock.items, &kind, &StockItem::kind);
    if (not_bought.contains(kind.about.kind)) {
      EXPECT_EQ(items, 0) << kind.about.kind;
    } else {
      EXPECT_GE(items, 2) << kind.about.kind;
    }
  }
}

TEST(DemonstrationList, every_item_has_a_cost_and_what_can_be_rated_a_rating) {
  for (const StockItem& item : demonstration().items) {
    EXPECT_GT(item.cost, 0.0) << item.model;
    if (find_parameter(item.kind->parameters, "rated_pressure")) {
      EXPECT_TRUE(item.given.given("rated_pressure")) << item.model;
    }
  }
}

TEST(DemonstrationList, a_setting_has_a_range_that_its_rating_bears) {
  for (const StockItem& item : demonstration().items) {
    const double rating = item.given.given("rated_pressure") ? item.given["rated_pressure"] : no_limit;
    for (int i = 0; i < static_cast<int>(item.kind->parameters.size()); ++i) {
      const Parameter& parameter = item.kind->parameters[static_cast<std::size_t>(i)];
      const bool by_curve = item.given.given(parameter.instead) || item.given.given("delivery_curve");
      if (!parameter.adjusted || by_curve) continue;
      const AdjustableRange* range = item.range_of(i);
      ASSERT_NE(range, nullptr) << item.model << " " << parameter.name;
      if (parameter.quantity == Quantity::pressure) {
        EXPECT_LE(range->to, rating * (1 + 1e-9)) << item.model;
      }
    }
  }
}

TEST(DemonstrationList, no_name_has_a_sign_that_a_shell_or_a_job_would_need_marks_for) {
  for (const StockItem& item : demonstration().items)
    EXPECT_EQ(item.model.find_first_of("\"\\,;'"), std::string::npos) << item.model;
}

TEST(DemonstrationList, every_file_says_that_it_is_invented) {
  for (const auto& entry : std::filesystem::directory_iterator(POISE_SOURCE_DIR "/stock")) {
    std::ifstream file(entry.path());
    std::string first;
    std::getline(file, first);
    if (entry.path().filename() == "README.md") std::getline(file >> std::ws, first);
    EXPECT_THAT(first, testing::HasSubstr("nvented")) << entry.path();
  }
}

/// What stands between two marks of a page.
std::string between(const std::string& page, std::string_view open, std::string_view close,
                    std::size_t from) {
  const std::size_t begin = page.find(open, from) + open.size();
  return page.substr(begin, page.find(close, begin) - begin);
}

TEST(StockPage, its_two_examples_are_the_same_list) {
  std::ifstream file(POISE_SOURCE_DIR "/docs/stock.md");
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  const auto csv = read_stock_text(between(page, "```csv\n", "```", 0), "page.csv");
  const auto toml = read_stock_text(between(page, "```toml\n", "```", page.find("and as TOML")), "page.toml");
  ASSERT_TRUE(std::holds_alternative<Stock>(csv));
  ASSERT_TRUE(std::holds_alternative<Stock>(toml));
  stocks::expect_same(std::get<Stock>(csv), std::get<Stock>(toml));
}

}  // namespace
}  // namespace poise
