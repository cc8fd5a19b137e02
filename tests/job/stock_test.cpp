// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/stock.hpp"

#include <gmock/gmock.h>

#include "job/folder.hpp"
#include "job/stocks.hpp"
#include "quantity/quantity.hpp"

namespace poise {
namespace {

using reading::Folder;
using stocks::expect_same;
using testing::ElementsAre;
using testing::HasSubstr;

constexpr std::string_view header = "model,kind,cost,note,rated_flow [L/min],setting_from,setting_to\n";

Stock stock_of(std::string_view text, std::string_view name) {
  auto read = read_stock_text(text, name);
  if (const auto* complaints = std::get_if<StockComplaints>(&read)) {
    for (const StockRemark& remark : complaints->list) ADD_FAILURE() << remark.text();
    return {};
  }
  return std::get<Stock>(std::move(read));
}

std::vector<std::string> complaints_of(const std::variant<Stock, StockComplaints>& read) {
  std::vector<std::string> all;
  if (const auto* complaints = std::get_if<StockComplaints>(&read)) {
    for (const StockRemark& remark : complaints->list) all.push_back(remark.text());
  }
  return all;
}

std::vector<std::string> complaints_about(std::string_view text, std::string_view name = "list.csv") {
  return complaints_of(read_stock_text(text, name));
}

std::vector<std::string> complaints_about_row(const std::string& row) {
  return complaints_about(std::string(header) + row + "\n");
}

constexpr std::string_view as_toml = R"(note = "two of each"
[[items]]
model = "relief, small"
kind = "relief"
cost = 62.5
note = "brass \"cap\""
rated_flow = "12 L/min"
setting_from = "30 bar"
setting_to = "350 bar"
[[items]]
model = "check 40"
kind = "check"
cost = 30
drop_curve = [["5 L/min", "1 bar"], ["40 L/min", "5.6 bar"]]
)";

TEST(Stock, both_forms_and_every_way_to_write_a_unit_give_the_same_items) {
  const Stock toml = stock_of(as_toml, "list.toml");
  ASSERT_EQ(toml.items.size(), 2u);
  EXPECT_DOUBLE_EQ(toml.items[0].given["rated_flow"], 12 * si::litre_per_minute);
  EXPECT_FALSE(toml.items[0].given.given("setting"));
  EXPECT_FALSE(toml.items[0].given.given("override"));  // the kind's default is not the item's
  expect_same(toml, stock_of("model,kind,cost,note,rated_flow,setting_from,setting_to,drop_curve\n"
                             "\"relief, small\",relief,62.5,\"brass \"\"cap\"\"\",12 L/min,30 bar,350 bar,\n"
                             "check 40,check,30,,,,,5 L/min: 1 bar; 40 L/min: 5.6 bar\n",
                             "list.csv"));
  expect_same(toml, stock_of("\xEF\xBB\xBF# a notice\r\n"
                             "kind,model,rated_flow [L/min],setting_from [bar],setting_to [bar],(weight),"
                             "drop_curve [L/min: bar],note,cost\r\n"
                             "relief,\"relief, small\",12,30,350 bar,1 kg,,\"brass \"\"cap\"\"\",62.5\r\n"
                             ",,,,,,,,\r\n"
                             "check,check 40,,,,?,5: 1; 40: 5.6,,30",
                             "LIST.CSV"));
}

TEST(Stock, an_item_is_found_by_its_name_and_knows_its_place) {
  const Stock stock =
      stock_of(std::string(header) + "C1,check,1,\"two\nlines\",5,,\nR1,relief,9,,5,10 bar,\n", "a.csv");
  EXPECT_EQ(stock.find("R2"), nullptr);
  const StockItem* item = stock.find("R1");
  ASSERT_NE(item, nullptr);
  EXPECT_EQ(item->file, "a.csv");
  EXPECT_EQ(item->place.line, 4);  // behind a cell of two lines
  const AdjustableRange* range = item->range_of(*find_parameter(item->kind->parameters, "setting"));
  ASSERT_NE(range, nullptr);
  EXPECT_DOUBLE_EQ(range->from, 10 * si::bar);
  EXPECT_DOUBLE_EQ(range->to, 1200 * si::bar);  // not stated: the end of the kind's own range
}

TEST(Stock, what_is_wrong_with_an_item_is_told_at_its_cell) {
  EXPECT_THAT(
      complaints_about_row("V1,relief,60,,12 bar,30 bar,300 bar"),
      ElementsAre(R"(list.csv:2:15: rated_flow of "V1" (relief): "12 bar" is a pressure; expected a flow, )"
                  R"(such as "2.5 L/min")"));
  EXPECT_THAT(
      complaints_about_row("V1,relief,60,,12,30,300 bar"),
      ElementsAre(R"(list.csv:2:18: setting_from of "V1" (relief): "30" has no unit; expected a pressure, )"
                  R"(such as "210 bar")"));
  EXPECT_THAT(complaints_about_row("V1,relif,60,,12,30 bar,300 bar"),
              ElementsAre(R"(list.csv:2:4: there is no kind of part "relif"; did you mean "relief"?)"));
  EXPECT_THAT(complaints_about_row("V1,relief,60,,12,300 bar,30 bar"),
              ElementsAre(R"(list.csv:2:18: setting_from of "V1" (relief): it is above setting_to)"));
  EXPECT_THAT(
      complaints_about_row("V1,relief,,,12,30 bar,300 bar"),
      ElementsAre(R"(list.csv:2:1: "V1" (relief) needs cost, a plain number in the list's own currency)"));
  EXPECT_THAT(complaints_about_row("V1,relief,60 points,,12,,"),
              ElementsAre(HasSubstr(R"(list.csv:2:11: cost of "V1" (relief): )")));
  EXPECT_THAT(complaints_about_row("V1,relief,-1,,12,,"),
              ElementsAre(HasSubstr("cost of \"V1\" (relief) is -1")));
  EXPECT_THAT(complaints_about_row(",relief,60,,12,,"),
              ElementsAre("list.csv:2:1: this item needs model, the name it is ordered by"));
  EXPECT_THAT(complaints_about_row("find,relief,60,,12,,"),
              ElementsAre(HasSubstr("model of this item: \"find\"")));
  EXPECT_THAT(complaints_about_row("V1,relief,60,,2000,,"),
              ElementsAre(HasSubstr("rated_flow of \"V1\" (relief) is 2000 L/min; it must be ")));
}

TEST(Stock, a_value_that_another_kind_has_is_refused_in_its_row) {
  const auto complaints =
      complaints_about("model,kind,cost,bore [mm],flow [L/min]\nN1,needle,1,2,\nP1,pump,1,3,4\n");
  EXPECT_THAT(complaints, ElementsAre(HasSubstr(R"(list.csv:3:11: "P1" (pump) has no key "bore")")));
}

TEST(Stock, values_that_do_not_go_together_are_told_where_all_that_is_needed_is_there) {
  const std::string text =
      "model,kind,cost,flow [L/min],displacement [cm3/rev],rated_pressure [bar]\n"
      "P1,pump,1,4,2,250\n";
  EXPECT_THAT(
      complaints_about(text),
      ElementsAre(R"(list.csv:2:13: "P1" (pump): flow and displacement are both given; state one of them)"));
  // Without its flow a pump cannot run, but a job may state it: its other values are not held against each
  // other.
  EXPECT_THAT(complaints_about("model,kind,cost,minimum_flow [L/min],ratio [%]\nD1,flow_divider,1,4,50\n"),
              testing::IsEmpty());
}

TEST(Stock, the_header_is_held_against_the_kinds_of_the_list) {
  EXPECT_THAT(complaints_about("model,kind,cost,rated_flw\nV1,relief,1,12 L/min\n"),
              ElementsAre(HasSubstr(
                  R"(list.csv:1:17: no item of this list has "rated_flw"; did you mean "rated_flow"?)")));
  EXPECT_THAT(
      complaints_about("model,kind,cost,rated_flow [Lmin]\nV1,relief,1,12\nV2,relief,1,13\n"),
      ElementsAre(R"(list.csv:1:17: "Lmin" is no unit of rated_flow; it is a flow, such as "2.5 L/min")"));
  EXPECT_THAT(complaints_about("model,kind,cost,cost\nV1,relief,1,1\n"),
              ElementsAre(R"(list.csv:1:17: there is a column "cost" already)"));
  EXPECT_THAT(complaints_about("model,cost\nV1,1\n"), ElementsAre(HasSubstr("has no \"kind\"")));
  EXPECT_THAT(complaints_about("model;kind;cost\nV1;relief;1\n"), ElementsAre(HasSubstr("parted by \";\"")));
  EXPECT_THAT(complaints_about("model,kind,cost\nV1,relief,1,2\n"),
              ElementsAre("list.csv:2:1: this row has 4 cells, but the header has 3"));
  EXPECT_THAT(complaints_about("model,kind,cost,\nV1,relief,1,2\n"),
              ElementsAre(R"(list.csv:2:13: "2" stands under no column)"));
}

TEST(Stock, a_text_that_is_no_list_is_told_where_it_ceases_to_be_one) {
  EXPECT_THAT(complaints_about("model,kind,cost\n\"V1,relief,1\n"),
              ElementsAre("list.csv:2:1: the quotation mark that opens here is not closed"));
  EXPECT_THAT(complaints_about("model,kind,cost\nV\"1,relief,1\n"),
              ElementsAre(HasSubstr("list.csv:2:2: a quotation")));
  EXPECT_THAT(complaints_about("model,kind,cost\n\"V\"1,relief,1\n"),
              ElementsAre(HasSubstr("list.csv:2:4: a comma")));
  EXPECT_THAT(complaints_about(""), ElementsAre("list.csv: has no items"));
  EXPECT_THAT(complaints_about("model = \"V1\"\n", "list.toml"), testing::SizeIs(2));
  EXPECT_THAT(complaints_about("[[items]\n", "list.toml"), ElementsAre(HasSubstr("list.toml:1:")));
  EXPECT_THAT(complaints_about("model,kind,cost\nV\xE4,relief,1\n"),
              ElementsAre(HasSubstr("not a text file")));
  EXPECT_THAT(complaints_about(std::string(4'000'001, ' ')), ElementsAre(HasSubstr("larger than 4 MB")));
}

TEST(Stock, a_folder_is_all_its_lists_in_the_order_of_their_names) {
  const Folder folder;
  folder.write("stock/b.csv", "model,kind,cost\nsecond,check,2\n");
  folder.write("stock/a.TOML", "[[items]]\nmodel = \"first\"\nkind = \"check\"\ncost = 1\n");
  folder.write("stock/README.md", "no list");
  folder.write("stock/.hidden.csv", "no list");
  const std::array places{StockPlace{folder.path / "stock", "stock"}};
  const auto read = read_stock(places);
  ASSERT_THAT(complaints_of(read), testing::IsEmpty());
  const Stock& stock = std::get<Stock>(read);
  ASSERT_EQ(stock.items.size(), 2u);
  EXPECT_EQ(stock.items[0].model, "first");
  EXPECT_EQ(stock.items[1].file, "stock/b.csv");
}

TEST(Stock, a_name_stands_once_in_all_lists) {
  const Folder folder;
  folder.write("a.csv", "model,kind,cost\nV1,check,2\n");
  folder.write("b.csv", "model,kind,cost\nV2,check,2\nV1,relief,1\n");
  const std::array places{StockPlace{folder.path / "a.csv", "a.csv"},
                          StockPlace{folder.path / "b.csv", "b.csv"}};
  EXPECT_THAT(complaints_of(read_stock(places)),
              ElementsAre("b.csv:3:1: there is a model \"V1\" already, a.csv:2"));
}

TEST(Stock, places_without_lists_are_told) {
  const Folder folder;
  folder.write("empty/note.txt", "");
  const std::array places{StockPlace{folder.path / "none", "none"},
                          StockPlace{folder.path / "empty", "empty"}, StockPlace{"/dev/zero", "/dev/zero"}};
  EXPECT_THAT(complaints_of(read_stock(places)),
              ElementsAre("none: there is no such file; look at its name and its folder",
                          "empty: is a folder without a parts list; one ends in .csv or .toml",
                          "/dev/zero: is no plain file"));
}

TEST(Stock, more_files_than_a_person_keeps_are_refused) {
  const Folder folder;
  for (int i = 0; i < 1002; ++i) folder.write(std::to_string(i) + ".csv", "model,kind,cost\n");
  const std::array places{StockPlace{folder.path, "lists"}};
  EXPECT_THAT(complaints_of(read_stock(places)), testing::Contains("stock: has more than 1000 parts lists"));
}

}  // namespace
}  // namespace poise
