// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>

#include "papers/subject.hpp"
#include "papers/table.hpp"

namespace poise::papers {

/// A table as comma-separated values (RFC 4180, lines ended by \n, UTF-8). A measured column becomes two, the
/// second
/// "<head>, unit". Every line ends with the job's answer ("held", "broken", "not proven") and its
/// fingerprint, so that a list that has lost its papers still says what it is worth.
std::string csv(const Table& table, const Subject& subject);

/// Tables as a workbook, a sheet each, by libxlsxwriter: numbers are numbers and show their unit; above the
/// columns stand title, revision, answer and fingerprint; the sheet prints on the papers' format with heads
/// repeated and pages numbered. The same tables give the same bytes. Throws std::runtime_error where the
/// library fails.
std::string xlsx(std::span<const Table> tables, const Subject& subject);

}  // namespace poise::papers
