// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace poise::units {

/// A typographic sign and the plain letters that it is read as.
struct Spelling {
  std::string_view sign, letters;
};
std::span<const Spelling> spellings();

/// Without blanks at both ends.
std::string_view trimmed(std::string_view text);

/// The text with typographic signs spelled in plain letters (narrow blanks, the minus sign, "°" as deg, "µ"
/// as u, raised figures, the raised dot as a blank) and without blanks at its ends. Other signs stay as they
/// are.
std::string plain(std::string_view text);

/// The text in quotation marks, fit for a message: unprintable and broken characters become "?", long texts
/// end in "...".
std::string quoted(std::string_view text);

/// Whether the text has the form of a unit: symbols with one-figure exponents, joined by blanks, ".", "*",
/// "/" and brackets, perhaps after "1/". Numbers are no part of it, although UDUNITS would calculate with
/// them.
bool is_well_formed(std::string_view unit);

/// Whether a number stands in the text where a unit cannot have one, as in "bar 2" or "000 psi".
bool has_loose_number(std::string_view unit);

}  // namespace poise::units
