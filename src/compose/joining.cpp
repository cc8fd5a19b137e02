// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "compose/work.hpp"

namespace poise::compose {
namespace {

using job::Edit;
using Ports = std::vector<std::string>;

std::string why_not_joined(const Work& work, const Ports& ports) {
  if (ports.size() < 2) return "name two ports or more";
  bool apart = false;
  for (const std::string& port : ports) {
    const Port *known = work.sheet.port(port), *first = work.sheet.port(ports.front());
    if (!known && !work.nets.of(port)) return no_such_port(work.sheet, port);
    if (known && first && known->domain != first->domain)
      return fmt::format("{} and {} cannot be joined: one is for oil, one moves", ports.front(), port);
    if (known && first && known->turns != first->turns)
      return fmt::format("{} and {} cannot be joined: one turns, one goes straight", ports.front(), port);
    if (port != ports.front() && !work.nets.together(ports.front(), port)) apart = true;
  }
  return apart ? std::string() : fmt::format("{} are joined already", fmt::join(ports, " and "));
}

/// Exchanges two names of ports wherever they are joined or plugged.
Changed exchange(Work& work, const std::string& a, const std::string& b, const std::string& tag) {
  const Renaming other = [&](const std::string& port) { return port == a ? b : port == b ? a : port; };
  work.edits = changed_ports(work.sheet, other);
  std::ranges::move(changed_signals(work.sheet, changed_hose_tags(work.sheet, other)),
                    std::back_inserter(work.edits));
  if (work.edits.empty()) return cannot(fmt::format("{} is not joined to anything", tag));
  job::Edited edited = job::edited(work.text, work.edits);
  if (!edited.complaint.empty()) return cannot(std::move(edited.complaint));
  return {std::move(edited.text), {}, fmt::format("{} the other way round", tag), tag};
}

/// Exchanges the ends of a line with a hose or tube.
Changed turn_hose(Work& work, const Placed& hose) {
  std::vector<std::string> ends;
  for (const Entry& entry : work.sheet.entries) {
    const bool direct = entry.is == Entry::Is::line || entry.is == Entry::Is::group;
    if (!direct && entry.index == *hose.line) ends.push_back(entry.ports.front());
  }
  std::vector<Edit> edits;
  if (!hose.tagged) edits = changed_signals(work.sheet, {{hose.tag, ends[1] + "-" + ends[0]}});
  edits.push_back({Edit::Does::set, {"lines", *hose.line, "from"}, {ends[1]}});
  edits.push_back({Edit::Does::set, {"lines", *hose.line, "to"}, {ends[0]}});
  job::Edited edited = job::edited(work.text, edits);
  if (!edited.complaint.empty()) return cannot(std::move(edited.complaint));
  return {std::move(edited.text),
          {},
          fmt::format("{} the other way round", hose.tag),
          hose.tagged ? hose.tag : ends[1] + "-" + ends[0]};
}

}  // namespace

Changed join(std::string_view text, const Ports& ports) {
  return with_sheet(text, [&](Work& work) {
    if (std::string why = why_not_joined(work, ports); !why.empty()) return cannot(std::move(why));
    for (const std::string& port : ports) work.wish.near.push_back(as_written(work.sheet, port));
    work.nets.join(ports);
    const Placed* part = work.sheet.owner(ports.front());
    return finished(work, fmt::format("{} joined", fmt::join(ports, " and ")), part ? part->tag : "");
  });
}

Changed part_from(std::string_view text, std::string_view port_name) {
  return with_sheet(text, [&](Work& work) {
    const std::string port(port_name);
    const Placed* part = work.sheet.owner(port);
    const auto net = work.nets.of(port);
    if (!net) return cannot(fmt::format("{} is joined to nothing", port));
    if (part && part->line)
      return cannot(
          fmt::format("{} lies between two ports and has no open end; take it out, or join another "
                      "port to that line",
                      part->tag));
    work.nets.take(port);
    return finished(work, fmt::format("{} off its line", port), part ? part->tag : "");
  });
}

Changed plug(std::string_view text, std::string_view port_name) {
  return with_sheet(text, [&](Work& work) {
    const std::string port(port_name);
    const Port* known = work.sheet.port(port);
    if (!known) return cannot(no_such_port(work.sheet, port));
    if (known->domain == Domain::motion)
      return cannot(fmt::format("{} is not for oil; it needs no plug", port));
    const auto net = work.nets.of(port);
    if (net && work.nets.ports(*net).size() > 1)
      return cannot(fmt::format("{} is joined; take it off its line first", port));
    Ports plugged = work.sheet.plugged;
    if (std::ranges::find(plugged, port) != plugged.end())
      return cannot(fmt::format("{} is plugged already", port));
    plugged.push_back(port);
    work.wish.plugged = plugged;
    return finished(work, fmt::format("{} plugged", port), work.sheet.owner(port)->tag);
  });
}

Changed unplug(std::string_view text, std::string_view port_name) {
  return with_sheet(text, [&](Work& work) {
    Ports plugged = work.sheet.plugged;
    if (std::erase(plugged, std::string(port_name)) == 0)
      return cannot(fmt::format("{} is not plugged", port_name));
    work.wish.plugged = plugged;
    const Placed* part = work.sheet.owner(port_name);
    return finished(work, fmt::format("plug of {} out", port_name), part ? part->tag : "");
  });
}

Changed turn_round(std::string_view text, std::string_view tag) {
  return with_sheet(text, [&](Work& work) {
    const Placed* part = work.sheet.find(tag);
    if (!part || !part->kind) return cannot(no_such_part(tag));
    if (part->line) return turn_hose(work, *part);
    std::vector<std::string_view> working;
    for (const Port& port : part->kind->ports) {
      const bool there =
          std::ranges::find(part->ports, part->tag + "." + std::string(port.name)) != part->ports.end();
      if (there && port.domain == Domain::oil && !port.pilot && !is_drain(port)) working.push_back(port.name);
    }
    if (working.size() != 2) return cannot(fmt::format("{} has no two ports to exchange", one(*part->kind)));
    return exchange(work, fmt::format("{}.{}", tag, working[0]), fmt::format("{}.{}", tag, working[1]),
                    part->tag);
  });
}

}  // namespace poise::compose
