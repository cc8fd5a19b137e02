// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/package.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <sstream>

#include "draw/dxf.hpp"
#include "draw/svg.hpp"
#include "draw/words.hpp"
#include "judge/csv.hpp"
#include "papers/bill.hpp"
#include "papers/document.hpp"
#include "papers/lists.hpp"
#include "papers/settings.hpp"

namespace poise::papers {
namespace {

constexpr std::string_view traces = "traces";

bool wanted(std::span<const std::string> only, std::string_view name) {
  return only.empty() || std::ranges::find(only, name) != only.end();
}

void add_drawing(std::vector<File>& files, const Subject& subject, const std::string& stem,
                 const draw::Look& look) {
  const Job& job = subject.job;
  const std::vector<draw::Words> words = draw::words_of(job);
  const draw::Sheet sheet =
      draw::sheet_of(draw::arrange(job.plan, words, draw::wishes_of(job)), job.plan, words, look);
  files.push_back({stem + "-schematic.svg", draw::svg(sheet)});
  files.push_back({stem + "-schematic.dxf", draw::dxf(sheet)});
}

}  // namespace

std::vector<std::string> names() {
  std::vector<std::string> all;
  for (const Paper& paper : all_papers()) all.emplace_back(paper.name);
  all.emplace_back(traces);
  return all;
}

std::vector<std::string> page_names(std::span<const std::string> only, const std::string& stem) {
  if (only.empty()) return {stem + "-papers.html"};
  std::vector<std::string> all;
  for (const Paper& paper : all_papers()) {
    if (wanted(only, paper.name)) all.push_back(fmt::format("{}-{}.html", stem, paper.name));
  }
  return all;
}

std::vector<File> pages(const Subject& subject, std::span<const std::string> only, const std::string& stem) {
  std::vector<const Paper*> papers;
  for (const Paper& paper : all_papers()) {
    if (wanted(only, paper.name)) papers.push_back(&paper);
  }
  const std::vector<std::string> named = page_names(only, stem);
  if (only.empty()) return {{named.front(), document(subject, papers)}};
  std::vector<File> files;
  for (std::size_t i = 0; i < papers.size(); ++i)
    files.push_back({named[i], document(subject, std::array{papers[i]})});
  return files;
}

std::vector<File> lists(const Subject& subject, std::span<const std::string> only, const std::string& stem,
                        const draw::Look& look) {
  std::vector<File> files;
  if (wanted(only, "schematic")) add_drawing(files, subject, stem, look);
  if (wanted(only, "parts")) {
    const std::array tables{bill_of_materials(subject), list_of_lines(subject)};
    files.push_back({stem + "-parts.csv", csv(tables[0], subject)});
    files.push_back({stem + "-lines.csv", csv(tables[1], subject)});
    files.push_back({stem + "-parts.xlsx", xlsx(tables, subject)});
  }
  if (wanted(only, "settings")) {
    const std::array tables{settings(subject)};
    files.push_back({stem + "-settings.csv", csv(tables[0], subject)});
    files.push_back({stem + "-settings.xlsx", xlsx(tables, subject)});
  }
  if (wanted(only, traces)) {
    std::ostringstream text;
    write_csv(text, subject.trace, subject.job.world);
    files.push_back({stem + "-traces.csv", std::move(text).str()});
  }
  return files;
}

}  // namespace poise::papers
