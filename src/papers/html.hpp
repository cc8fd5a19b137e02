// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <string_view>

#include "draw/sheet.hpp"
#include "papers/table.hpp"

namespace poise::papers::html {

/// Words as content of an element; what is markup in them shows as it is.
std::string text(std::string_view words);
/// An element around content that is HTML already; `attributes` begin with a blank.
std::string element(std::string_view name, std::string_view content, std::string_view attributes = {});
/// A heading of a level, a paragraph, an entry of a list: of plain words.
std::string heading(int level, std::string_view words);
std::string paragraph(std::string_view words);
std::string entry(std::string_view words);

/// Heads that are repeated on every page, rows that are not torn. An empty table is a sentence: `instead`.
std::string table(const Table& table, std::string_view instead, std::string_view style = {});
/// The same of one with rows, under its name, which is repeated with the heads.
std::string titled_table(const Table& table, std::string_view style);

/// A drawing inline, as large as fits into a width and a height, mm, and never above its own size times
/// `most`.
std::string figure(const draw::Sheet& sheet, double width, double height, double most = 1.0);

/// An empty box to be ticked by hand.
inline constexpr std::string_view box = "<span class=\"box\"></span>";

}  // namespace poise::papers::html
