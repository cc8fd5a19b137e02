// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// The paper of maintenance: what the parts' rooms want looked after.
#include <algorithm>
#include <array>

#include "papers/html.hpp"
#include "papers/paper.hpp"
#include "papers/sources.hpp"

namespace poise::papers {
namespace {

/// Of the machine as a whole; common practice.
constexpr std::array of_the_machine{
    Care{"Whole machine: wet places, loose fittings, rubbed hoses, strange noise", "before each shift",
         "nothing wet, nothing loose"},
    Care{"The cycle against the readings signed at commissioning", "every month",
         "within the class of the gauges; else find the cause before anything is turned"},
    Care{"Locks and seals of the adjusters against Settings", "every month", "none turned"},
};

struct Line {
  const Care* care;
  std::string parts;
};

std::vector<Line> lines_of(const Plan& plan) {
  std::vector<Line> lines;
  lines.reserve(of_the_machine.size());
  for (const Care& care : of_the_machine) lines.push_back({&care, "all"});
  for (const PlannedPart& part : plan.parts) {
    for (const Care& care : part.kind->care) {
      const auto known = std::ranges::find_if(lines, [&](const Line& l) {
        return l.care->what == care.what && l.care->interval == care.interval && l.care->limit == care.limit;
      });
      if (known == lines.end()) {
        lines.push_back({&care, part.tag});
      } else {
        known->parts += ", " + part.tag;
      }
    }
  }
  return lines;
}

}  // namespace

std::string maintenance(const Subject& subject) {
  Table table{"maintenance",
              {{"part", 1.6},
               {"what to look at", 3.4},
               {"how often", 1.5},
               {"what is still good, what to do", 3.0},
               {"source", 0.8}},
              {}};
  Sources sources;
  for (const Line& line : lines_of(subject.job.plan))
    table.rows.push_back({{line.parts},
                          {std::string(line.care->what)},
                          {std::string(line.care->interval)},
                          {std::string(line.care->limit)},
                          {sources.number_of(line.care->source)}});
  return html::element("p",
                       html::text("Before any work: loads down, pump off and locked, every valve worked, "
                                  "every trapped place bled, "
                                  "zero read at each gauge. Data of the parts' makers go before this list."),
                       " class=\"mind\"") +
         html::table(table, "") + sources.list();
}

}  // namespace poise::papers
