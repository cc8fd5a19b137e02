// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "diagnose/sheet.hpp"
#include "papers/subject.hpp"
#include "papers/table.hpp"

namespace poise::papers {

/// One thing to be read at commissioning, and what a sound machine shows there.
struct ReadingBand {
  diagnose::Watch watch;
  diagnose::Band band;
};

/// Places in the list of what a commissioning sheet asks for, in order of work: the oil's temperature; step
/// by step the gauges as each group of actuators starts and at the end, contacts, times, places.
std::vector<std::size_t> sheet_in_order(const std::vector<diagnose::Watch>& watches,
                                        const std::vector<double>& sound);
/// The same with the bands of sound machines.
std::vector<ReadingBand> bands_of(const diagnose::Atlas& atlas);

/// "as K1 starts", "at the end"; of a time or of the oil's temperature nothing.
std::string when_in_step(const diagnose::Watch& watch, const Job& job);
/// "G1"; of a place or a time the actuator alone: "K1".
std::string where_read(const diagnose::Watch& watch);
/// What an instrument shows; of a contact "on" or "off".
Cell shows(const diagnose::Watch& watch, double value, const units::World& world);
/// "206 … 214 bar", as exact as a tenth of the band or so; of a contact that is the same in all, what it
/// shows.
std::string band_in_words(const diagnose::Watch& watch, const diagnose::Band& band,
                          const units::World& world);
/// Two pressures and what is between them.
std::string range_in_words(double low, double high, Quantity quantity, const units::World& world);

/// Gauges, contacts and the oil's temperature, each with what it should show, the band of sound machines or,
/// where nobody has worked it out, the gauge's class, and an empty place for what it shows.
Table readings(const Subject& subject);
/// How long each motion takes by stop-watch, and where it ends.
Table times(const Subject& subject);

}  // namespace poise::papers
