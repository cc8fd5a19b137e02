// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "papers/subject.hpp"
#include "papers/table.hpp"

namespace poise::papers {

/// What is to be bought: parts of one kind, one datasheet and one model in a row, with codes, tags, quantity,
/// name, key data, rated pressure, model and cost. Loads are what the machine moves and are left out.
Table bill_of_materials(const Subject& subject);

/// Hoses, tubes and fittings by where they run: from, to, bore, length, rated pressure, highest speed of the
/// oil and greatest loss in the run.
Table list_of_lines(const Subject& subject);

}  // namespace poise::papers
