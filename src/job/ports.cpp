// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>

#include "job/draft.hpp"

namespace poise::job {
namespace {

std::vector<std::string> ports_of(const PlannedPart& part) {
  std::vector<std::string> names;
  for (const Port& port : part.kind->ports) {
    if (port_exists(port, part.values)) names.push_back(part.tag + "." + std::string(port.name));
  }
  return names;
}

}  // namespace

std::string no_such_part(const Draft& draft, std::string_view tag) {
  // Nobody reads so many, and the nearest of thousands of tags takes its time.
  constexpr std::size_t enough = 200;
  const bool many = draft.remarks.size() > enough;
  return fmt::format("there is no part {}{}", quote(tag),
                     many ? std::string() : hint(tag, known_tags(draft)));
}

std::string_view tag_of(const Draft& draft, std::string_view name) {
  for (std::size_t dot = name.rfind('.'); dot != std::string_view::npos;
       dot = dot == 0 ? dot : name.rfind('.', dot - 1)) {
    const std::string_view tag = name.substr(0, dot);
    if (draft.parts.contains(tag) || draft.left_out.contains(tag)) return tag;
    if (dot == 0) break;
  }
  return name.substr(0, name.find('.'));
}

std::optional<PortOf> read_port(Draft& draft, const Text& name) {
  const auto complain = [&](std::string sentence) {
    draft.remarks.push_back({name.place, std::move(sentence)});
  };
  const std::size_t dot = name.value.rfind('.');
  if (const auto whole = draft.parts.find(name.value);
      whole != draft.parts.end() || dot == std::string::npos) {
    if (draft.left_out.contains(name.value)) return std::nullopt;
    if (whole == draft.parts.end()) {
      complain(fmt::format("{} is not a port; a port is written with its part's tag, such as \"P1.P\"",
                           quote(name.value)));
      return std::nullopt;
    }
    draft.unsure_parts.insert(whole->second);
    complain(fmt::format("{} names a part without its port; its ports are {}", quote(name.value),
                         listed(ports_of(draft.job.plan.parts[whole->second]), "and")));
    return std::nullopt;
  }
  const std::string_view tag = std::string_view(name.value).substr(0, dot);
  if (draft.left_out.contains(tag)) return std::nullopt;
  const auto found = draft.parts.find(tag);
  if (found == draft.parts.end()) {
    complain(no_such_part(draft, tag));
    return std::nullopt;
  }
  const PlannedPart& part = draft.job.plan.parts[found->second];
  const auto port =
      std::ranges::find(part.kind->ports, std::string_view(name.value).substr(dot + 1), &Port::name);
  if (port != part.kind->ports.end())
    return PortOf{found->second, static_cast<int>(port - part.kind->ports.begin())};
  draft.unsure_parts.insert(found->second);
  complain(fmt::format("{} ({}) has no port {}; its ports are {}", part.tag, part.kind->about.kind,
                       quote(std::string_view(name.value).substr(dot + 1)), listed(ports_of(part), "and")));
  return std::nullopt;
}

}  // namespace poise::job
