// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <string>
#include <vector>

#include "parts/kind.hpp"

namespace poise::reference {

/// A kind's symbol with the names of its ports, as SVG.
std::string picture(const Kind& kind);

/// All that the tables say of a kind, as Markdown: what it is, symbol, ports, datasheet in metric and US,
/// signals, law, what to keep to, how it is set, what is looked after, what goes wrong.
std::string page(const Kind& kind);

/// What a job's oil may say, as Markdown.
std::string oil_page();

/// The list of all kinds by family, as Markdown with links.
std::string index_page();

struct File {
  std::string name;
  std::string text;
};

/// The whole reference: README.md, oil.md, and a page and a picture for each kind.
std::vector<File> files();

}  // namespace poise::reference
