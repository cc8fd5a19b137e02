// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// How far off values may be, as a parts list states it.
#include <gmock/gmock.h>

#include <string>

#include "job/stock.hpp"
#include "job/stocks.hpp"

namespace poise {
namespace {

using testing::HasSubstr;

Stock stock_of(std::string_view text, std::string_view name) {
  auto read = read_stock_text(text, name);
  if (const auto* complaints = std::get_if<StockComplaints>(&read)) {
    for (const StockRemark& remark : complaints->list) ADD_FAILURE() << remark.text();
    return {};
  }
  return std::get<Stock>(std::move(read));
}

std::string complaints_about(std::string_view text, std::string_view name = "list.csv") {
  const auto read = read_stock_text(text, name);
  std::string all;
  if (const auto* complaints = std::get_if<StockComplaints>(&read)) {
    for (const StockRemark& remark : complaints->list) all += remark.text() + "\n";
  }
  return all;
}

const Tolerance* tolerance_of(const StockItem& item, std::string_view name) {
  const auto index = find_parameter(item.kind->parameters, name);
  for (const auto& [parameter, tolerance] : item.tolerances) {
    if (parameter == index) return &tolerance;
  }
  return nullptr;
}

constexpr std::string_view as_csv =
    "model,kind,cost,rated_flow [L/min],setting_tolerance [%],override_tolerance,volumetric_efficiency,"
    "volumetric_efficiency_tolerance [points],drop_curve [L/min: bar],drop_curve_tolerance [bar]\n"
    "relief 12,relief,62,12,-5; 3,40 %,,,,\n"
    "check 40,check,30,,,,,,5: 1; 40: 5.6,0.4\n"
    "pump 2.5,pump,900,,,,93 %,-6; 0,,\n";
constexpr std::string_view as_toml = R"([[items]]
model = "relief 12"
kind = "relief"
cost = 62
rated_flow = "12 L/min"
setting_tolerance = ["-5 %", "+3 %"]
override_tolerance = "40 %"
[[items]]
model = "check 40"
kind = "check"
cost = 30
drop_curve = [["5 L/min", "1 bar"], ["40 L/min", "5.6 bar"]]
drop_curve_tolerance = "0.4 bar"
[[items]]
model = "pump 2.5"
kind = "pump"
cost = 900
volumetric_efficiency = "93 %"
volumetric_efficiency_tolerance = ["-6 points", 0]
)";

TEST(StockTolerance, is_the_same_in_both_forms) {
  const Stock csv = stock_of(as_csv, "list.csv"), toml = stock_of(as_toml, "list.toml");
  stocks::expect_same(csv, toml);
  const StockItem& relief = csv.items.at(0);
  ASSERT_TRUE(tolerance_of(relief, "setting"));
  EXPECT_DOUBLE_EQ(tolerance_of(relief, "setting")->below, 0.05);
  EXPECT_DOUBLE_EQ(tolerance_of(relief, "setting")->above, 0.03);
  EXPECT_DOUBLE_EQ(tolerance_of(relief, "override")->above, 0.4);
  EXPECT_FALSE(tolerance_of(relief, "rated_flow"));
  EXPECT_EQ(tolerance_of(csv.items.at(1), "drop_curve")->of, Tolerance::Of::absolute);
  EXPECT_NEAR(tolerance_of(csv.items.at(1), "drop_curve")->above, 0.4e5, 1e-6);
  EXPECT_NEAR(tolerance_of(csv.items.at(2), "volumetric_efficiency")->below, 0.06, 1e-12);
  EXPECT_EQ(tolerance_of(csv.items.at(2), "volumetric_efficiency")->above, 0.0);
}

// 10 K are 10 degC and 18 degF.
TEST(StockTolerance, of_a_temperature_is_a_difference) {
  const Stock stock = stock_of(
      "model,kind,cost,coolant_temperature,coolant_temperature_tolerance\na,cooler,1,20 degC,10 K\n"
      "b,cooler,1,20 degC,10 degC\nc,cooler,1,68 degF,18 degF\nd,cooler,1,20 degC,-10 degC; 10 °C\n",
      "list.csv");
  ASSERT_EQ(stock.items.size(), 4u);
  for (const StockItem& item : stock.items) {
    ASSERT_TRUE(tolerance_of(item, "coolant_temperature")) << item.model;
    EXPECT_NEAR(tolerance_of(item, "coolant_temperature")->below, 10.0, 1e-9) << item.model;
    EXPECT_NEAR(tolerance_of(item, "coolant_temperature")->above, 10.0, 1e-9) << item.model;
  }
}

TEST(StockTolerance, an_unknown_column_is_told_with_the_nearest) {
  EXPECT_THAT(complaints_about("model,kind,cost,rated_flow,seting_tolerance\nr,relief,1,12 L/min,3 %\n"),
              HasSubstr("list.csv:1:28: no item of this list has \"seting_tolerance\"; did you mean "
                        "\"setting_tolerance\"?"));
  EXPECT_THAT(complaints_about("model,kind,cost,leakage_class_tolerance\nr,check,1,3 %\n"),
              HasSubstr("list.csv:1:17: no item of this list has \"leakage_class_tolerance\""));
}

TEST(StockTolerance, a_unit_of_the_header_that_does_not_fit_is_told) {
  EXPECT_THAT(complaints_about("model,kind,cost,setting_tolerance [L/min]\nr,relief,1,3\n"),
              HasSubstr("list.csv:1:17: \"L/min\" is no unit of setting_tolerance; expected %, or what "
                        "setting is measured in"));
}

TEST(StockTolerance, what_is_wrong_is_said_at_its_cell) {
  const auto about = [](const std::string& cell) {
    return complaints_about("model,kind,cost,setting,setting_tolerance\nr,relief,1,100 bar," + cell + "\n");
  };
  EXPECT_EQ(about("4 bar"), "");
  EXPECT_THAT(about("5; 3 %"),
              HasSubstr("list.csv:2:20: setting_tolerance of \"r\" (relief): \"5\" has no unit"));
  EXPECT_THAT(about("5 %; 8 %"), HasSubstr("the lower end is above zero"));
  EXPECT_THAT(about("-1 %; 2 %; 3 %"), HasSubstr("found a list of 3"));
  EXPECT_THAT(about("3 mm"), HasSubstr("\"3 mm\" is a length; expected a pressure"));
  EXPECT_THAT(about("120 bar"), HasSubstr("setting would be -20.0 bar at its lower end"));
}

}  // namespace
}  // namespace poise
