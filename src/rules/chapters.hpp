// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>

#include "rules/rule.hpp"

namespace poise::rules {

/// The chapters of the catalogue, one file each, in the order in which they are listed.
std::span<const TradeRule> circuit_rules();   ///< the graph: sources without a limit, rings, reservoirs apart
std::span<const TradeRule> relief_rules();    ///< relief and unloading valves, pressure switches
std::span<const TradeRule> setting_rules();   ///< reliefs, unloading valves, switches against each other
std::span<const TradeRule> trapped_rules();   ///< oil that the main relief does not see
std::span<const TradeRule> sequence_rules();  ///< sequence valves
std::span<const TradeRule> sequence_flow_rules();  ///< their flow, leak and cold, and drains
std::span<const TradeRule> reducing_rules();       ///< reducing valves
std::span<const TradeRule> holding_rules();        ///< holding and lowering loads
std::span<const TradeRule> flow_rules();           ///< speed, flow, ratio of areas
std::span<const TradeRule> cylinder_rules();       ///< capacity, stroke, rods, seals of cylinders
std::span<const TradeRule> lifting_rules();        ///< lifts on several points
std::span<const TradeRule> cylinder_oil_rules();   ///< oil that cylinders take and give back
std::span<const TradeRule> clamping_rules();       ///< holding workpieces
std::span<const TradeRule> press_rules();          ///< presses and big cylinders
std::span<const TradeRule> pump_rules();           ///< pumps, motors, reservoirs
std::span<const TradeRule> pump_work_rules();      ///< what hand, air and two stages make of a pump's work
std::span<const TradeRule> reservoir_rules();      ///< reservoirs and suction
std::span<const TradeRule> line_rules();           ///< lines, hoses, couplings
std::span<const TradeRule> line_hose_rules();      ///< hoses, couplings
std::span<const TradeRule> oil_rules();            ///< oil, filters, heat
std::span<const TradeRule> gauge_rules();          ///< gauges and test points
std::span<const TradeRule> energy_rules();         ///< accumulators
std::span<const TradeRule> energy_left_rules();    ///< stored energy

// Chapters in several files.
std::span<const TradeRule> flow_load_rules();         ///< loads that run ahead of their oil
std::span<const TradeRule> flow_ratio_rules();        ///< pressure, flow and force by the ratio of areas
std::span<const TradeRule> flow_speed_rules();        ///< speeds, stops, valves that shut on running oil
std::span<const TradeRule> flow_divider_rules();      ///< dividers, and needles in their place
std::span<const TradeRule> clamping_support_rules();  ///< work supports
std::span<const TradeRule> clamping_fixture_rules();  ///< clamps together, zones, pallets

}  // namespace poise::rules
