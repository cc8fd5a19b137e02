// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "compose/port_use.hpp"

#include <algorithm>

namespace poise::compose {
namespace {

/// Kinds whose oil does not go from the first working port to the second.
struct Otherwise {
  std::string_view kind, enter, leave;
};
constexpr std::array otherwise{
    Otherwise{"counterbalance", "B", "A"},  // free from the valve's side to the load
    Otherwise{"shuttle", "A", "C"},
};

}  // namespace

bool is_drain(const Port& port) {
  return port.domain == Domain::oil &&
         (port.name == "T" || port.name == "Y" || port.name == "L" || port.name == "R");
}

PortUse use_of(const Kind& kind, const std::vector<std::string_view>& ports) {
  PortUse use;
  std::vector<std::string> working;
  for (const Port& port : kind.ports) {
    if (std::ranges::find(ports, port.name) == ports.end()) continue;
    std::string name(port.name);
    if (port.domain == Domain::motion) {
      use.motion.push_back(name);
    } else if (is_drain(port) && kind.about.role != Role::reservoir) {
      use.drains.push_back(name);
    } else if (port.name != "X") {  // a pilot is for the reader to join
      working.push_back(name);
    }
  }
  const auto special = std::ranges::find(otherwise, kind.about.kind, &Otherwise::kind);
  if (special != otherwise.end()) {
    use.enter = special->enter;
    use.leave = special->leave;
    return use;
  }
  if (!working.empty()) use.enter = working[0];
  if (working.size() > 1) use.leave = working[1];
  // A relief valve can stand on a line too, as a valve for back pressure: then its outlet goes on.
  if (working.size() == 1 && working[0] == "P" && !use.drains.empty()) use.leave = use.drains.front();
  return use;
}

}  // namespace poise::compose
