// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "papers/paper.hpp"

#include <algorithm>
#include <array>

namespace poise::papers {
namespace {

constexpr double inner = 20.0, outer = 15.0, top = 22.0, bottom = 18.0;  // the margins in the style sheet, mm
constexpr double heading = 14.0;

bool always(const Subject&) { return true; }
bool never(const Subject&) { return false; }

constexpr std::array papers{
    Paper{"job", "The job in plain words", "what the machine is made of, what it does, what is promised",
          &never, &job_in_words},
    Paper{"schematic", "Schematic", "the circuit at rest", &schematic_lies_wide, &schematic},
    Paper{"parts", "Bill of materials", "what to order, and the lines", &always, &parts_and_lines},
    Paper{"settings", "Settings", "one page for the wall of the machine", &always, &settings_sheet},
    Paper{"motions", "Motions and states", "what moves when, pressures over the cycle", &always, &motions},
    Paper{"requirements", "Requirements", "each promise with its margin; ratings; rules not kept", &never,
          &requirements},
    Paper{"calculations", "Calculations", "formula, numbers and source for what is sized", &never,
          &calculations},
    Paper{"points", "Operating points", "pressures, flows and forces at the end of each step", &always,
          &operating_points},
    Paper{"commissioning", "Commissioning", "what to do in which order, and what each gauge reads then",
          &never, &commissioning},
    Paper{"maintenance", "Maintenance", "what to look at, how often, up to which limit", &never,
          &maintenance},
    Paper{"safety", "Safety", "cautions, what is left of risk, what was waived and why", &never, &safety},
    Paper{"books", "Books of oil and energy", "what went in and where it went; how this was worked out",
          &never, &books},
};

}  // namespace

std::span<const Paper> all_papers() { return papers; }

const Paper* find_paper(std::string_view name) {
  const auto found = std::ranges::find(papers, name, &Paper::name);
  return found == papers.end() ? nullptr : &*found;
}

Area area_of(Format format, bool wide) {
  const Area page = format == Format::a4 ? Area{210.0, 297.0} : Area{215.9, 279.4};
  const Area text{page.width - inner - outer, page.height - top - bottom};
  if (!wide) return {text.width, text.height - heading};
  return {page.height - inner - outer, page.width - top - bottom - heading};
}

}  // namespace poise::papers
