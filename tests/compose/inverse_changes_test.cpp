// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Random changes of the starting points: the text stays readable, and each change is undone by its inverse.
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <rapidcheck/gtest.h>

#include "compose/changed_text.hpp"
#include "compose/nets.hpp"
#include "job/tree.hpp"

namespace poise::compose {
namespace {

using Ports = std::vector<std::string>;

std::string any_start() {
  const auto number = *rc::gen::inRange<std::size_t>(1, starts().size());
  return std::string(*rc::gen::arbitrary<bool>() ? starts()[number].us : starts()[number].metric);
}

Sheet sheet_of(const std::string& text) { return std::get<Sheet>(read_sheet(text)); }

/// An oil line of the text, by the names of its ports.
Ports any_line(const Sheet& sheet) {
  const Nets nets(sheet);
  std::vector<Ports> lines;
  for (std::size_t net = 0; net < nets.size(); ++net) {
    const Ports& ports = nets.ports(net);
    const Port* port = ports.empty() ? nullptr : sheet.port(ports.front());
    if (ports.size() > 1 && port && port->domain == Domain::oil) lines.push_back(ports);
  }
  return *rc::gen::elementOf(lines);
}

/// A line cut in two: each side has a port or more.
std::pair<Ports, Ports> any_cut(const Sheet& sheet) {
  Ports here = any_line(sheet), there;
  const auto cut = *rc::gen::inRange<unsigned>(1, (1U << std::min<std::size_t>(here.size(), 16)) - 1);
  Ports left;
  for (std::size_t i = 0; i < here.size(); ++i) ((cut >> i) & 1U ? left : there).push_back(here[i]);
  return {left, there};
}

std::string any_tag(const Sheet& sheet) {
  std::vector<std::string> tags;
  for (const Placed& part : sheet.parts) tags.push_back(part.tag);
  return *rc::gen::elementOf(tags);
}

std::string any_kind() {
  const auto number = *rc::gen::inRange<std::size_t>(0, all_kinds().size());
  return std::string(all_kinds()[number].about.kind);
}

RC_GTEST_PROP(inverse_changes, a_part_put_onto_a_line_and_taken_out, ()) {
  const std::string before = any_start();
  const auto [here, there] = any_cut(sheet_of(before));
  const std::string kind =
      *rc::gen::element<std::string>("check", "needle", "filter", "shut_off", "hose_burst_valve",
                                     "one_way_flow_control", "fitting", "sequence", "reducing");
  const Changed put = put_onto(before, here, there, kind);
  RC_ASSERT(put.complaint == "");
  const Changed out = remove(put.text, put.tag);
  RC_ASSERT(out.complaint == "");
  RC_ASSERT(circuit_of(out.text) == circuit_of(before));
}

RC_GTEST_PROP(inverse_changes, a_part_branched_off_and_taken_out, ()) {
  const std::string before = any_start();
  const Ports line = any_line(sheet_of(before));
  const std::string kind =
      *rc::gen::element<std::string>("gauge", "relief", "accumulator", "double_acting_cylinder",
                                     "directional_4_3", "pump", "needle", "check", "pressure_switch");
  const Changed branch = branch_off(before, *rc::gen::elementOf(line), kind);
  RC_ASSERT(branch.complaint == "");
  const Changed out = remove(branch.text, branch.tag);
  RC_ASSERT(circuit_of(out.text) == circuit_of(before));
}

RC_GTEST_PROP(inverse_changes, a_port_taken_off_its_line_and_joined_again, ()) {
  const std::string before = any_start();
  const Sheet sheet = sheet_of(before);
  const Ports line = any_line(sheet);
  const std::string port = *rc::gen::elementOf(line);
  const std::string other = *rc::gen::elementOf(line);
  RC_PRE(port != other && !sheet.owner(port)->line);
  // A hose whose other end is alone on the port goes with it; that is another change.
  RC_PRE(line.size() > 2 || !sheet.owner(other)->line);
  const Changed apart = part_from(before, port);
  RC_ASSERT(apart.complaint == "");
  const Changed again = join(apart.text, {other, port});
  RC_ASSERT(again.complaint == "");
  RC_ASSERT(circuit_of(again.text) == circuit_of(before));
}

RC_GTEST_PROP(inverse_changes, another_tag_and_the_old_one_again, ()) {
  const std::string before = any_start();
  const std::string tag = any_tag(sheet_of(before));
  const std::string other = *rc::gen::element<std::string>("Z9", "1-H2.3", "zug/ab", "A_7");
  const Changed named = rename(before, tag, other);
  RC_ASSERT(named.complaint == "");
  RC_ASSERT(reading_of(named.text).complaints.list.empty());
  const Changed back = rename(named.text, other, tag);
  RC_ASSERT(job::same(sheet_of(back.text).tree, sheet_of(before).tree));
}

RC_GTEST_PROP(inverse_changes, a_part_turned_round_twice, ()) {
  const std::string before = any_start();
  const Changed once = turn_round(before, any_tag(sheet_of(before)));
  RC_PRE(once.complaint == "");
  const Changed twice = turn_round(once.text, once.tag);
  RC_ASSERT(circuit_of(twice.text) == circuit_of(before));
}

RC_GTEST_PROP(inverse_changes, a_hose_laid_and_taken_out, ()) {
  const std::string before = any_start();
  const std::size_t lines = find_key(sheet_of(before).tree, "lines")->items.size();
  const auto line = *rc::gen::inRange<std::size_t>(0, lines);
  const Changed laid = lay(before, line, *rc::gen::element<std::string>("hose", "tube"));
  RC_PRE(laid.complaint == "");
  RC_ASSERT(circuit_of(laid.text) != circuit_of(before));
  const Changed whole = lay(laid.text, line, "");
  RC_ASSERT(whole.complaint == "");
  RC_ASSERT(complaints_beside_open_ports(whole.text).empty());
}

/// A change of any sort at any place; most can be made.
Changed any_change(const std::string& text) {
  const Sheet sheet = sheet_of(text);
  const auto port = [&] { return *rc::gen::elementOf(any_line(sheet)); };
  switch (*rc::gen::inRange(0, 12)) {
    case 0: {
      const auto [here, there] = any_cut(sheet);
      return put_onto(text, here, there, any_kind());
    }
    case 1:
      return branch_off(text, port(), any_kind());
    case 2:
      return join(text, {port(), port()});
    case 3:
      return part_from(text, port());
    case 4:
      return plug(text, port());
    case 5:
      return lay(text, *rc::gen::inRange<std::size_t>(0, 20),
                 *rc::gen::element<std::string>("hose", "tube", ""));
    case 6:
      return replace(text, any_tag(sheet), any_kind());
    case 7:
      return remove(text, any_tag(sheet));
    case 8:
      return duplicate(text, any_tag(sheet));
    case 9:
      return turn_round(text, any_tag(sheet));
    case 10:
      return rename(text, any_tag(sheet), *rc::gen::element<std::string>("Z9", "B.2", "q-1"));
    default:
      return *rc::gen::arbitrary<bool>() ? put_power_unit(text) : put_first(text, any_kind());
  }
}

RC_GTEST_PROP(random_changes, never_give_a_text_that_cannot_be_read, ()) {
  std::string text = any_start();
  const int count = *rc::gen::inRange(1, 12);
  for (int i = 0; i < count; ++i) {
    const Changed changed = any_change(text);
    RC_ASSERT(changed.text.empty() != changed.complaint.empty());
    if (!changed.complaint.empty()) continue;
    text = changed.text;
    const job::Reading reading = reading_of(text);
    RC_ASSERT(reading.is_toml);
    // Beside what is open, only what the changes leave for the reader: values that a new kind cannot take,
    // and promises about what is gone.
    if (reading.job.plan.parts.empty()) break;
  }
}

}  // namespace
}  // namespace poise::compose
