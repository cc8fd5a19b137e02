// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/bill.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "papers/small_job.hpp"
#include "support/proven.hpp"

namespace poise::papers {
namespace {

using small::cell;
using small::row;
using small::with;
using workshop::Proven;

TEST(BillOfMaterials, parts_of_one_datasheet_share_a_row_and_what_the_machine_moves_is_no_part_of_it) {
  const Proven proven{std::filesystem::path("jobs/drilling-stand.toml")};
  const Table bill = bill_of_materials(proven.subject());
  const std::size_t clamps = row(bill, "Tag", "K1, K2, K3, K4");
  EXPECT_EQ(cell(bill, clamps, "Quantity").number, 4.0);
  EXPECT_EQ(cell(bill, clamps, "Name").text, "Swing clamp");
  EXPECT_EQ(cell(bill, clamps, "Code").text, "H2.8, H2.9, H2.10, H2.11");
  EXPECT_EQ(cell(bill, clamps, "Key data").text, "10.0 + 12.0 mm, 4.50 cm²");
  EXPECT_EQ(cell(bill, clamps, "Rated pressure").text, "250 bar");
  for (const char* load : {"M1", "S1", "F1"}) EXPECT_THROW(row(bill, "Tag", load), std::runtime_error);
  // Every part but the five loads.
  double count = 0.0;
  for (std::size_t i = 0; i < bill.rows.size(); ++i) count += *cell(bill, i, "Quantity").number;
  EXPECT_EQ(count, static_cast<double>(proven.job.plan.parts.size() - 5));
}

TEST(BillOfMaterials, key_data_stand_in_full_and_a_setting_is_called_one) {
  const Proven proven{std::filesystem::path("jobs/drilling-stand.toml")};
  const Table bill = bill_of_materials(proven.subject());
  EXPECT_EQ(cell(bill, row(bill, "Tag", "V3"), "Key data").text,
            "set to 210 bar at 3.90 L/min, rated flow 12.0 L/min");
  EXPECT_EQ(cell(bill, row(bill, "Tag", "V1"), "Key data").text, "rated flow 20.0 L/min");
}

TEST(BillOfMaterials, another_datasheet_is_another_row) {
  const std::string second =
      "[parts.G2]\nkind = \"gauge\"\nrange = \"400 bar\"\n[[lines]]\nfrom = \"P1.P\"\nto = \"G2.M\"\n";
  const Proven other(small::job() + second, "small.toml");
  EXPECT_EQ(cell(bill_of_materials(other.subject()), row(bill_of_materials(other.subject()), "Tag", "G1"),
                 "Quantity")
                .number,
            1.0);
  const Proven same(with(small::job() + second, "range = \"400 bar\"", "range = \"250 bar\""), "small.toml");
  const Table bill = bill_of_materials(same.subject());
  EXPECT_EQ(cell(bill, row(bill, "Tag", "G1, G2"), "Quantity").number, 2.0);
}

TEST(BillOfMaterials, rows_follow_the_codes_of_the_drawing_as_numbers) {
  const Proven proven{std::filesystem::path("jobs/drilling-stand.toml")};
  const Table bill = bill_of_materials(proven.subject());
  EXPECT_LT(row(bill, "Code", "H1.4"), row(bill, "Code", "H2.1"));
  EXPECT_LT(row(bill, "Code", "H2.7"), row(bill, "Code", "H2.12"));
}

TEST(BillOfMaterials, a_drawing_without_codes_leaves_the_column_to_be_filled_in) {
  const Proven proven(small::job() + "[drawing]\ncodes = \"off\"\n", "small.toml");
  const Table bill = bill_of_materials(proven.subject());
  EXPECT_EQ(bill.columns.front().head, "Code");
  for (std::size_t i = 0; i < bill.rows.size(); ++i) EXPECT_EQ(cell(bill, i, "Code").text, "");
}

TEST(BillOfMaterials, without_costs_it_says_so_and_the_columns_stay) {
  const Proven proven(small::job(), "small.toml");
  const Table bill = bill_of_materials(proven.subject());
  EXPECT_EQ(bill.name, "Bill of materials (no cost known)");
  EXPECT_EQ(cell(bill, 0, "Model").text, "");
  EXPECT_EQ(cell(bill, 0, "Cost").text, "");
  EXPECT_THROW(row(bill, "Tag", "Total"), std::runtime_error);
}

TEST(Lines, say_where_they_run_and_what_the_oil_does_in_them) {
  const Proven proven(small::job(), "small.toml");
  const Table lines = list_of_lines(proven.subject());
  ASSERT_EQ(lines.rows.size(), 1);
  EXPECT_EQ(cell(lines, 0, "Name").text, "Hose");
  EXPECT_EQ(cell(lines, 0, "From").text, "N1.B");
  EXPECT_EQ(cell(lines, 0, "To").text, "T1.T");
  EXPECT_EQ(cell(lines, 0, "Bore").text, "10 mm");
  EXPECT_EQ(cell(lines, 0, "Length").text, "2000 mm");
  EXPECT_EQ(cell(lines, 0, "Rated pressure").text, "100 bar");
  EXPECT_EQ(cell(lines, 0, "Peak speed of the oil").unit, "m/s");
  // The flow that the pump gives, all of it through the hose: v = Q/A; laminar, so the loss is 32·ν·ρ·L·v/d²
  // (Hagen and Poiseuille). The pump's start pushes a little more for a moment, so one percent.
  const double bore = 0.01, area = std::numbers::pi / 4.0 * bore * bore, v = 4e-3 / 60.0 / area;
  const double loss = 32.0 * 46e-6 * proven.circuit.oil.density_at_zero() * 2.0 * v / (bore * bore);
  EXPECT_NEAR(*cell(lines, 0, "Peak speed of the oil").number, v, 0.01 * v);
  EXPECT_NEAR(*cell(lines, 0, "Greatest loss").number, loss / 1e5, 0.01 * loss / 1e5);
  // At the tank's end there is no pressure: the other end has all of the loss.
  EXPECT_NEAR(*cell(lines, 0, "Highest pressure").number, *cell(lines, 0, "Greatest loss").number, 1e-9);
}

TEST(Lines, a_rise_is_no_loss) {
  const auto loss = [](const std::string& text) {
    const Proven proven(text, "small.toml");
    return *cell(list_of_lines(proven.subject()), 0, "Greatest loss").number;
  };
  const double level = loss(small::job());
  const double risen = loss(with(small::job(), "length = \"2 m\"", "length = \"2 m\", rise = \"2 m\""));
  // Two metres of oil are 0.17 bar, about as much as the loss itself.
  EXPECT_NEAR(risen, level, 0.01 * level);
}

TEST(Lines, oil_is_as_fast_in_pieces_and_with_its_mass_as_without) {
  const auto table = [](std::string_view more) {
    const Proven proven(with(small::job(), "fittings = 0", "fittings = 0, " + std::string(more)),
                        "small.toml");
    const Table lines = list_of_lines(proven.subject());
    return std::pair(*cell(lines, 0, "Peak speed of the oil").number,
                     *cell(lines, 0, "Greatest loss").number);
  };
  const auto [speed, loss] = table("segments = 1");
  const auto [speed_in_pieces, loss_in_pieces] = table("segments = 5");
  const auto [speed_with_mass, loss_with_mass] = table("inertia = \"yes\"");
  EXPECT_NEAR(speed_in_pieces, speed, 0.01 * speed);
  EXPECT_NEAR(loss_in_pieces, loss, 0.01 * loss);
  // With its mass the oil swings past its speed as the pump starts: never slower, and the loss belongs to it.
  EXPECT_GE(speed_with_mass, 0.99 * speed);
  EXPECT_NEAR(loss_with_mass / speed_with_mass, loss / speed, 0.02 * loss / speed);
}

TEST(Lines, speeds_are_in_feet_per_second_where_lengths_are_in_inches) {
  const Proven proven("units = \"us\"\n" + small::job(), "small.toml");
  const Table lines = list_of_lines(proven.subject());
  EXPECT_EQ(cell(lines, 0, "Peak speed of the oil").unit, "ft/s");
  EXPECT_EQ(cell(lines, 0, "Greatest loss").unit, "psi");
}

TEST(Lines, a_job_without_any_has_a_table_without_rows) {
  const Proven proven(with(small::job(), "hose = {", "# hose = {"), "small.toml");
  EXPECT_TRUE(list_of_lines(proven.subject()).rows.empty());
  EXPECT_FALSE(list_of_lines(proven.subject()).columns.empty());
}

}  // namespace
}  // namespace poise::papers
