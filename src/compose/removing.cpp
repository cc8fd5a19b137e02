// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>

#include "compose/laying.hpp"
#include "compose/settings.hpp"

namespace poise::compose {
namespace {

using job::Edit;
using Ports = std::vector<std::string>;

bool is(const Placed* part, Role role) { return part && part->kind && part->kind->about.role == role; }

/// Whether a port is of what a line under pressure is there for: pump, actuator, relief valve, held side of a
/// check.
bool holds_pressure(const Sheet& sheet, const std::string& port) {
  const Placed* part = sheet.owner(port);
  const Port* known = sheet.port(port);
  if (!known) return false;
  const std::size_t number = static_cast<std::size_t>(known - part->kind->ports.data());
  if (is(part, Role::actuator)) return !is_drain(*known);
  if (is(part, Role::source) || is(part, Role::one_way)) return number == 1;
  return is(part, Role::pressure_limit) && number == 0;
}

/// Whether a part leads off from a line under pressure to the reservoir, so that without it the two stay
/// apart.
bool lets_off(const Work& work, const std::string& one, const std::string& other) {
  const auto is_tank = [&](const std::string& port) { return is(work.sheet.owner(port), Role::reservoir); };
  const auto held = [&](const std::string& port) { return holds_pressure(work.sheet, port); };
  const auto any = [&](const std::string& port, const auto& what) {
    for (const std::string& each : work.nets.ports(*work.nets.of(port))) {
      if (each != port && what(each)) return true;
    }
    return false;
  };
  return (any(one, is_tank) && any(other, held)) || (any(other, is_tank) && any(one, held));
}

/// Ports that oil passes a part by, those left out that may stay free and do.
Ports working_ports(const Work& work, const Placed& part) {
  Ports working;
  for (const std::string& name : part.ports) {
    const Port& port = *work.sheet.port(name);
    const bool matters = work.nets.of(name) || !port.may_stay_free;
    if (port.domain == Domain::oil && !port.pilot && !is_drain(port) && matters) working.push_back(name);
  }
  return working;
}

/// Whether another part joins the same two lines: a check beside a reducing valve.
bool has_one_beside(const Work& work, const Placed& part, std::size_t one, std::size_t other) {
  return std::ranges::any_of(work.sheet.parts, [&](const Placed& each) {
    if (each.tag == part.tag) return false;
    bool on_one = false, on_other = false;
    for (const std::string& port : working_ports(work, each)) {
      on_one = on_one || work.nets.of(port) == one;
      on_other = on_other || work.nets.of(port) == other;
    }
    return on_one && on_other;
  });
}

/// The two ports by which a part stands on a line that stays whole without it.
std::optional<std::pair<std::string, std::string>> line_through(const Work& work, const Placed& part) {
  if (!part.kind || is(&part, Role::actuator) || is(&part, Role::source) || is(&part, Role::pressure_limit))
    return std::nullopt;
  const Ports working = working_ports(work, part);
  if (working.size() != 2) return std::nullopt;
  const auto one = work.nets.of(working[0]), other = work.nets.of(working[1]);
  if (!one || !other || one == other || has_one_beside(work, part, *one, *other) ||
      lets_off(work, working[0], working[1]))
    return std::nullopt;
  return std::pair{working[0], working[1]};
}

}  // namespace

Changed remove(std::string_view text, std::string_view tag) {
  return with_sheet(text, [&](Work& work) {
    const Placed* found = work.sheet.find(tag);
    if (!found) return cannot(no_such_part(tag));
    const Placed part = *found;
    if (part.line) {
      direct(work, part);
      return finished(work, fmt::format("{} out", tag), {});
    }
    const auto through = line_through(work, part);
    if (through) work.nets.join(Ports{through->first, through->second});
    // Ports that the kind does not have may be joined as well; they go with it.
    for (std::size_t net = 0; net < work.nets.size(); ++net) {
      for (const std::string& port : Ports(work.nets.ports(net))) {
        const Placed* owner = work.sheet.owner(port);
        if (owner && owner->tag == tag) work.nets.take(port);
      }
    }
    work.wish.plugged = work.sheet.plugged;
    std::erase_if(*work.wish.plugged, [&](const std::string& port) {
      const Placed* owner = work.sheet.owner(port);
      return owner && owner->tag == tag;
    });
    remove_settings(work, part.tag);
    work.edits.push_back({Edit::Does::remove, part.at});
    return finished(work, fmt::format("{} out", tag), {});
  });
}

}  // namespace poise::compose
