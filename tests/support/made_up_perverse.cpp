// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Jobs that the reader lets through and nobody would draw. What parts there are, what they can be joined by
// and what steps can do to them is asked of the registry.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "circuit/signal.hpp"
#include "support/made_up_values.hpp"

namespace poise::made_up {
namespace {

using Lines = MadeUpJob::Lines;

/// A port by its name, and what is asked of it.
struct OpenPort {
  std::string name;
  bool may_stay_free;
};

class Madhouse {
 public:
  explicit Madhouse(int number)
      : chance_(0xBAD0'0000'0000U + static_cast<std::uint64_t>(number)),
        job_(fmt::format("Perverse job {} (invented)", number), chance_.one_in(4), false) {
    job_.tank.clear();
  }

  MadeUpJob made() {
    any_oil(chance_, job_);
    parts();
    motions(false);
    motions(true);
    oil_lines();
    for (int p = 0; p < count(); ++p) {
      for (Signal& signal : signals_of(job_.plan, p)) signals_.push_back(std::move(signal));
    }
    steps();
    controls();
    for (int i = chance_.below(7); i > 0; --i) require();
    return std::move(job_);
  }

 private:
  int count() const { return static_cast<int>(job_.plan.parts.size()); }
  void put(const Kind& kind) { job_.put("X", kind.about.kind, any_sheet(chance_, kind)); }
  void parts();
  std::vector<OpenPort> ports(Domain domain, bool turns) const;
  void motions(bool turns);
  void oil_lines();
  void group(std::vector<OpenPort> ports, bool oil, bool straight);
  bool weighs_nothing(const std::vector<std::string>& members) const;
  bool move_along(bool turns);
  Lines commands(int most);
  std::string condition();
  std::string conditions();
  std::string any_time(double from, double to) {
    return job_.value(chance_.one_in(9) ? from : chance_.decades(from, to), Quantity::time);
  }
  void steps();
  void controls();
  void require();

  Chance chance_;
  MadeUpJob job_;
  std::vector<Signal> signals_;
  std::set<std::string> in_ways_;  ///< ports that a hose or tube of a line takes: not to be plugged
};

void Madhouse::parts() {
  constexpr std::array usual{"reservoir", "pump", "pump", "double_acting_cylinder", "relief"};
  if (!chance_.one_in(12)) put(*find_kind("reservoir"));
  if (!chance_.one_in(6)) put(*find_kind("pump"));
  const int most = chance_.one_in(10) ? 24 : 9;
  for (int i = chance_.below(most); i >= 0; --i)
    put(chance_.one_in(5) ? *find_kind(chance_.any(usual)) : chance_.any(all_kinds()));
}

std::vector<OpenPort> Madhouse::ports(Domain domain, bool turns) const {
  std::vector<OpenPort> all;
  for (int p = 0; p < count(); ++p) {
    const PlannedPart& part = job_.plan.parts[static_cast<std::size_t>(p)];
    for (const Port& port : part.kind->ports) {
      if (port.domain == domain && port.turns == turns && port_exists(port, part.values))
        all.push_back({part.tag + "." + std::string(port.name), port.may_stay_free});
    }
  }
  return all;
}

/// Adds a part that moves freely, for one that must not stay alone.
bool Madhouse::move_along(bool turns) {
  std::vector<const Kind*> fitting;
  for (const Kind& kind : all_kinds()) {
    for (const Port& port : kind.ports) {
      const bool free = port.domain == Domain::motion && port.may_stay_free && port.turns == turns;
      if (free && port.needed_if_parameter.empty()) fitting.push_back(&kind);
    }
  }
  if (!fitting.empty()) put(*chance_.any(fitting));
  return !fitting.empty();
}

bool Madhouse::weighs_nothing(const std::vector<std::string>& members) const {
  const Oil oil{OilData{}};
  return std::ranges::all_of(members, [&](const std::string& name) {
    const std::string_view tag = std::string_view(name).substr(0, name.rfind('.'));
    const PlannedPart& part = *std::ranges::find(job_.plan.parts, tag, &PlannedPart::tag);
    const Laws laws = part.kind->make(part.values, oil);
    const auto port = std::ranges::find(part.kind->ports, name.substr(name.rfind('.') + 1), &Port::name);
    const int motion = static_cast<int>(port - part.kind->ports.begin()) - part.kind->oil_ports;
    return laws.body(laws.numbers.get(), motion).mass <= 0.0;
  });
}

/// Joins ports in groups of any size; what is left over stays alone where it may, or is plugged.
void Madhouse::group(std::vector<OpenPort> ports, bool oil, bool straight) {
  chance_.shuffle(ports);
  std::vector<std::vector<std::string>> groups;
  while (!ports.empty()) {
    auto size = static_cast<std::size_t>(chance_.of({1, 2, 2, 2, 2, 2, 3, 3, 4, 6}));
    if (chance_.one_in(200)) size = ports.size();
    std::vector<std::string> members;
    const bool alone_is_well = oil || ports.back().may_stay_free;
    if (size == 1 && !alone_is_well) size = 2;
    for (; size > 0 && !ports.empty(); --size) {
      members.push_back(ports.back().name);
      ports.pop_back();
    }
    if (members.size() == 1 && !alone_is_well && !groups.empty()) {
      groups.back().push_back(members.front());
      continue;
    }
    groups.push_back(std::move(members));
  }
  for (auto& members : groups) {
    // What rests on nothing that has a mass gets one; now and then it is left to the reader.
    if (straight && weighs_nothing(members) && !chance_.one_in(20))
      members.push_back(job_.put("X", "mass", any_sheet(chance_, *find_kind("mass"))) + ".rod");
    if (members.size() > 1) {
      job_.join(std::move(members));
    } else if (oil && !chance_.one_in(100) && (!in_ways_.contains(members.front()) || chance_.one_in(20))) {
      job_.plug(members.front());
    }
  }
}

void Madhouse::motions(bool turns) {
  auto all = ports(Domain::motion, turns);
  if (all.size() == 1 && !all.front().may_stay_free && move_along(turns)) all = ports(Domain::motion, turns);
  group(std::move(all), false, !turns);
}

void Madhouse::oil_lines() {
  auto all = ports(Domain::oil, false);
  std::vector<std::pair<std::string, std::string>> ways;
  for (int i = all.empty() ? 0 : chance_.below(3); i > 0; --i)
    ways.emplace_back(chance_.any(all).name, chance_.any(all).name);
  for (const auto& [from, to] : ways) in_ways_.insert({from, to});
  group(std::move(all), true, false);
  for (const auto& [from, to] : ways) {
    const std::string_view kind = chance_.of({"hose", "tube"});
    job_.line("L", kind, from, to, any_sheet(chance_, *find_kind(kind)));
  }
}

Lines Madhouse::commands(int most) {
  Lines set;
  for (int i = 0; i < most; ++i) {
    const PlannedPart& part = chance_.any(job_.plan.parts);
    if (part.kind->inputs.empty()) continue;
    const int input = chance_.any(part.kind->inputs);
    const Parameter& p = part.kind->parameters[static_cast<std::size_t>(input)];
    const std::string key = part.kind->inputs.size() == 1 ? part.tag : part.tag + "." + std::string(p.name);
    if (std::ranges::find(set, key, &Lines::value_type::first) != set.end()) continue;
    const Said said = any_value(chance_, p);
    const auto* word = std::get_if<std::string_view>(&said);
    set.emplace_back(key, word ? quoted(*word) : job_.value(std::get<double>(said), p.quantity));
  }
  return set;
}

std::string Madhouse::condition() {
  const Signal& signal = chance_.any(signals_);
  return fmt::format("{} {} {}", signal.name, chance_.of({">", "<"}),
                     job_.bare(any_threshold(chance_, signal.quantity), signal.quantity));
}

std::string Madhouse::conditions() {
  std::vector<std::string> all;
  for (int i = chance_.of({1, 1, 1, 2, 3}); i > 0; --i) all.push_back(condition());
  return listed(all);
}

void Madhouse::steps() {
  const int many = chance_.one_in(8) ? chance_.from_to(10, 40) : chance_.from_to(1, 6);
  const int pace = chance_.below(4);
  for (int i = 0; i < many; ++i) {
    Lines lines{{"name", quoted(fmt::format("step {}", i + 1))}};
    Lines set = commands(chance_.below(5));
    for (const PlannedPart& part : job_.plan.parts) {
      const bool runs = i == 0 && part.kind->about.role == Role::source && part.kind->inputs.size() == 1;
      if (!runs || std::ranges::find(set, part.tag, &Lines::value_type::first) != set.end()) continue;
      const Parameter& p = part.kind->parameters[static_cast<std::size_t>(part.kind->inputs.front())];
      if (!p.words.empty()) set.emplace_back(part.tag, quoted(p.words.back()));
    }
    if (!set.empty()) lines.emplace_back("set", table_of(set));
    if (!set.empty() && chance_.one_in(4)) lines.emplace_back("over", any_time(1e-3, 100.0));
    const std::string lasts = pace == 0   ? any_time(1e-3, 0.05)
                              : pace == 1 ? any_time(600.0, 86400.0)
                              : pace == 2 ? any_time(1e-3, 3600.0)
                                          : any_time(0.1, 20.0);
    if (chance_.one_in(4)) {
      lines.emplace_back("until", conditions());
      lines.emplace_back("at_most", lasts);
    } else {
      lines.emplace_back("lasts", lasts);
    }
    job_.step(std::move(lines));
  }
}

void Madhouse::controls() {
  if (!chance_.one_in(3)) return;
  for (int i = chance_.from_to(1, 3); i > 0; --i) {
    const Lines one = commands(3);
    if (one.empty()) continue;
    const std::string when = condition();
    job_.control(
        {{"name", quoted(fmt::format("control {}", 2 * i))}, {"when", quoted(when)}, {"set", table_of(one)}});
    // Its opponent: undoes it as soon as it is done.
    std::string back = when;
    std::ranges::replace_if(
        back, [](char c) { return c == '>' || c == '<'; }, when.find('>') == std::string::npos ? '>' : '<');
    const Lines other = chance_.one_in(2) ? commands(3) : Lines{};
    if (!other.empty())
      job_.control({{"name", quoted(fmt::format("control {}", 2 * i + 1))},
                    {"when", quoted(back)},
                    {"set", table_of(other)}});
  }
}

void Madhouse::require() {
  const Signal& signal = chance_.any(signals_);
  const double x = any_threshold(chance_, signal.quantity);
  const auto value = [&](double si) { return job_.value(si, signal.quantity); };
  const double width = std::abs(x) + 1e-9;
  Lines lines;
  switch (chance_.below(6)) {
    case 0:
      lines = {{chance_.one_in(2) ? "never_above" : "never_below", quoted(signal.name)}, {"limit", value(x)}};
      break;
    case 1:
      lines = {{"reached", quoted(condition())}, {"within", any_time(1e-3, 1e5)}};
      break;
    case 2:
      lines = {{"first", conditions()}, {"then", conditions()}};
      if (chance_.one_in(2)) lines.emplace_back("gap", any_time(1e-3, 10.0));
      break;
    case 3:
      lines = {{"band", quoted(signal.name)}, {"low", value(x)}, {"high", value(x + width)}};
      break;
    case 4:
      lines = {{"drift", quoted(signal.name)}, {"limit", value(width)}};
      if (chance_.one_in(2)) lines.emplace_back("settle", any_time(1e-3, 1e3));
      break;
    default: {
      const auto other = std::ranges::find(signals_, signal.quantity, &Signal::quantity);
      lines = {{"level", listed({signal.name, other->name})}, {"limit", value(width)}};
    }
  }
  if (chance_.one_in(3))
    lines.emplace_back("during",
                       quoted(fmt::format("step {}", 1 + chance_.below(static_cast<int>(job_.steps())))));
  job_.require(std::move(lines));
}

}  // namespace

MadeUpJob perverse(int number) { return Madhouse(number).made(); }

}  // namespace poise::made_up
