// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>

#include "compose/ways_of_oil.hpp"
#include "compose/work.hpp"

namespace poise::compose {
namespace {

using Ports = std::vector<std::string>;

/// The port by which a part sits on a rod or shaft as `known` is: one that it needs, if any.
std::optional<std::string> rod_port(const Kind& kind, const Port& known) {
  std::optional<std::string> found;
  for (const Port& port : kind.ports) {
    if (port.domain != Domain::motion || port.turns != known.turns) continue;
    if (!port.may_stay_free) return std::string(port.name);
    if (!found) found = std::string(port.name);
  }
  return found;
}

Changed branch_off_rod(Work& work, const std::string& port, const Port& known, const Kind& kind) {
  const auto own = rod_port(kind, known);
  if (!own)
    return cannot(fmt::format("{} {}; {} does not belong there", port,
                              known.turns ? "is a shaft" : "moves and carries no oil", one(kind)));
  const NewPart part = add_part(work, kind, {port});
  work.nets.join(Ports{port, part.port(*own)});
  return finished(work, fmt::format("{} {} on {}", spoken(kind), part.tag, port), part.tag);
}

std::string why_not_one_line(const Work& work, const Ports& here, const Ports& there) {
  if (here.empty() || there.empty()) return "name a port on either side of the place";
  for (const Ports* side : {&here, &there}) {
    for (const std::string& port : *side) {
      if (!work.nets.of(port)) return fmt::format("{} is joined to nothing", port);
      if (!work.nets.together(port, here.front()))
        return fmt::format("{} and {} are not on one line", here.front(), port);
      const Port* known = work.sheet.port(port);
      if (known && known->domain == Domain::motion)
        return "a rod and its load are joined directly; put a part onto an oil line";
    }
  }
  return {};
}

}  // namespace

Changed put_first(std::string_view text, std::string_view kind_name) {
  return with_sheet(text, [&](Work& work) {
    const Kind* kind = find_kind(kind_name);
    if (!kind) return cannot(no_such_kind(kind_name));
    const NewPart part = add_part(work, *kind, {});
    return finished(work, fmt::format("{} {}", spoken(*kind), part.tag), part.tag);
  });
}

Changed put_power_unit(std::string_view text) {
  return with_sheet(text, [](Work& work) {
    const NewPart tank = add_part(work, *find_kind("reservoir"), {});
    const NewPart pump = add_part(work, *find_kind("pump"), {});
    const NewPart relief = add_part(work, *find_kind("relief"), {});
    work.nets.join(Ports{tank.port("T"), pump.port("S"), relief.port("T")});
    work.nets.join(Ports{pump.port("P"), relief.port("P")});
    return finished(work, fmt::format("power unit {}, {}, {}", tank.tag, pump.tag, relief.tag), pump.tag);
  });
}

Changed put_onto(std::string_view text, const Ports& here, const Ports& there, std::string_view kind_name) {
  return with_sheet(text, [&](Work& work) {
    const Kind* kind = find_kind(kind_name);
    if (!kind) return cannot(no_such_kind(kind_name));
    if (std::string why = why_not_one_line(work, here, there); !why.empty()) return cannot(std::move(why));
    const NewPart part = add_part(work, *kind, here);
    if (!part.use.enter || !part.use.leave) {
      return cannot(kind->oil_ports == 0
                        ? fmt::format("{} sits on a rod, not on an oil line", one(*kind))
                        : fmt::format("oil does not pass through a {}; let it branch off", spoken(*kind)));
    }
    work.nets.part(there);
    const bool forwards = comes_from(work.sheet, work.nets, here.front(), there.front());
    work.nets.join(Ports{(forwards ? here : there).front(), part.port(*part.use.enter)});
    work.nets.join(Ports{part.port(*part.use.leave), (forwards ? there : here).front()});
    join_drains(work, part, here.front());
    return finished(work, fmt::format("{} {} onto the line of {}", spoken(*kind), part.tag, here.front()),
                    part.tag);
  });
}

Changed branch_off(std::string_view text, std::string_view port_name, std::string_view kind_name) {
  return with_sheet(text, [&](Work& work) {
    const std::string port(port_name);
    const Kind* kind = find_kind(kind_name);
    const Port* known = work.sheet.port(port);
    if (!kind) return cannot(no_such_kind(kind_name));
    if (!known && !work.nets.of(port)) return cannot(no_such_port(work.sheet, port));
    work.wish.near = {as_written(work.sheet, port)};
    if (known && known->domain == Domain::motion) return branch_off_rod(work, port, *known, *kind);
    if (kind->oil_ports == 0) return cannot(fmt::format("{} sits on a rod, not on an oil line", one(*kind)));
    NewPart part = add_part(work, *kind, {port});
    if (kind->about.role == Role::source) {  // it presses into the line, and sucks from the reservoir
      part.use.drains.push_back(*part.use.enter);
      std::swap(part.use.enter, part.use.leave);
    }
    work.nets.join(Ports{port, part.port(*part.use.enter)});
    join_drains(work, part, port);
    return finished(work, fmt::format("{} {} on the line of {}", spoken(*kind), part.tag, port), part.tag);
  });
}

}  // namespace poise::compose
