// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/lists.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <thread>

#include "papers/bill.hpp"
#include "papers/number_format.hpp"
#include "papers/settings.hpp"
#include "papers/small_job.hpp"
#include "support/proven.hpp"

namespace poise::papers {
namespace {

using workshop::Proven;

const Proven& held() {
  static const Proven proven(small::job(), "small.toml");
  return proven;
}

Table one_row(std::vector<Column> columns, std::vector<Cell> cells) {
  return {.name = "Sample", .columns = std::move(columns), .rows = {std::move(cells)}};
}

TEST(Csv, a_value_has_its_number_and_its_unit_in_two_columns_and_a_count_one) {
  const Table table = one_row(
      {{.head = "Tag"},
       {.head = "Set to", .measured = true},
       {.head = "Quantity", .measured = true, .counted = true}},
      {{.text = "V1"}, {.text = "210 bar", .number = 210.25, .unit = "bar"}, {.text = "3", .number = 3.0}});
  const std::string end = ",held," + held().subject().fingerprint + "\n";
  EXPECT_EQ(csv(table, held().subject()),
            "Tag,Set to,\"Set to, unit\",Quantity,Answer,Fingerprint\nV1,210.25,bar,3" + end);
}

TEST(Csv, what_could_end_a_cell_or_begin_a_formula_stands_in_quotation_marks) {
  const auto line = [](const std::string& text) {
    const std::string all = csv(one_row({{.head = "A"}}, {{.text = text}}), held().subject());
    const auto begin = all.find('\n') + 1;
    return all.substr(begin, all.rfind(",held,") - begin);
  };
  EXPECT_EQ(line("a, b"), "\"a, b\"");
  EXPECT_EQ(line("a \"b\""), "\"a \"\"b\"\"\"");
  EXPECT_EQ(line("a\nb"), "\"a\nb\"");
  EXPECT_EQ(line("=1+1"), "\"=1+1\"");
  EXPECT_EQ(line("@sum"), "\"@sum\"");
  EXPECT_EQ(line("12 ² ß 日本 <b> &"), "12 ² ß 日本 <b> &");
  EXPECT_EQ(line(""), "");
}

TEST(Csv, numbers_carry_twelve_figures_and_none_that_is_noise) {
  const auto number = [](double value) {
    const std::string all =
        csv(one_row({{.head = "A", .measured = true, .counted = true}}, {{.text = "?", .number = value}}),
            held().subject());
    const auto begin = all.find('\n') + 1;
    return all.substr(begin, all.rfind(",held,") - begin);
  };
  EXPECT_EQ(number(0.1 + 0.2), "0.3");
  EXPECT_EQ(number(-1234.56789012), "-1234.56789012");
  EXPECT_EQ(number(1e-7), "1e-07");
}

TEST(Csv, a_measured_place_without_a_value_keeps_its_words) {
  const Table table = one_row({{.head = "p", .measured = true}}, {{.text = "no value"}});
  EXPECT_THAT(csv(table, held().subject()), testing::HasSubstr("\nno value,,held,"));
}

TEST(Csv, a_table_without_rows_has_its_heads) {
  const Table table{.name = "Sample", .columns = {{.head = "A"}}, .rows = {}};
  EXPECT_EQ(csv(table, held().subject()), "A,Answer,Fingerprint\n");
}

TEST(Csv, every_line_says_what_a_broken_job_is_worth) {
  const Proven broken(small::with(small::job(), "limit = \"180 bar\"", "limit = \"100 bar\""), "small.toml");
  const std::string all = csv(settings(broken.subject()), broken.subject());
  EXPECT_EQ(std::ranges::count(all, '\n'), 4);
  for (std::size_t at = all.find('\n') + 1; at < all.size(); at = all.find('\n', at) + 1)
    EXPECT_THAT(all.substr(at, all.find('\n', at) - at),
                testing::HasSubstr(",broken," + broken.subject().fingerprint));
}

Cell shown(std::string text, double number, std::string unit) {
  return {.text = std::move(text), .number = number, .unit = std::move(unit)};
}

TEST(NumberFormat, shows_a_number_as_paper_does) {
  EXPECT_EQ(number_format(shown("210 bar", 210.4, "bar")), "0 \"bar\"");
  EXPECT_EQ(number_format(shown("12.0 cm³", 12.0, "cm3")), "0.0 \"cm³\"");
  EXPECT_EQ(number_format(shown("-0.0214 L/min", -0.02138, "L/min")), "0.0000 \"L/min\"");
  EXPECT_EQ(number_format(shown("± 3.00 %", 3.0, "%")), "\"± \"0.00 \"%\"");
  EXPECT_EQ(number_format(shown("2 turns from shut", 2.0, "turns")), "0 \"turns from shut\"");
  EXPECT_EQ(number_format(shown("shut (0 turns)", 0.0, "turns")), "\"shut (\"0 \"turns)\"");
  EXPECT_EQ(number_format(shown("1.23e-05 bar", 1.2345e-5, "bar")), "0.00E+00 \"bar\"");
  EXPECT_EQ(number_format(shown("3", 3.0, "")), "0");
}

TEST(NumberFormat, a_text_that_does_not_tell_the_number_does_not_decide_how_it_is_shown) {
  EXPECT_EQ(number_format(shown("about H2", 210.0, "bar")), "General \"bar\"");
  EXPECT_EQ(number_format(shown("", 210.0, "bar")), "General \"bar\"");
  EXPECT_EQ(number_format(shown("1 " + std::string(200, 'x'), 1.0, "bar")), "General");
}

TEST(Xlsx, the_same_tables_give_the_same_bytes_whenever_they_are_written) {
  const std::vector<Table> tables{bill_of_materials(held().subject()), settings(held().subject())};
  const std::string first = xlsx(tables, held().subject());
  // A ZIP file tells times in steps of two seconds.
  std::this_thread::sleep_for(std::chrono::milliseconds(2100));
  EXPECT_EQ(xlsx(tables, held().subject()), first);
  EXPECT_THAT(first, testing::StartsWith("PK"));
}

TEST(Xlsx, tables_of_one_name_names_with_signs_and_none_get_sheets) {
  Table odd = one_row({{.head = "A"}}, {{.text = "x"}});
  std::vector<Table> tables;
  for (const char* name :
       {"a", "A", "", "[]:*?/\\'", "a name that is far longer than a sheet's name may be"}) {
    odd.name = name;
    tables.push_back(odd);
  }
  EXPECT_NO_THROW(xlsx(tables, held().subject()));
}

}  // namespace
}  // namespace poise::papers
