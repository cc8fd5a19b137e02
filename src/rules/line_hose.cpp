// Copyright 2026 The Poise founders. Licence: Apache-2.0.
// Hoses and couplings.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "circuit/rating.hpp"
#include "parts/line.hpp"
#include "rules/alike.hpp"
#include "rules/chapters.hpp"
#include "rules/pressed.hpp"
#include "rules/rods.hpp"

namespace poise::rules {
namespace {

constexpr std::array<std::string_view, 1> couplings{"quick_coupling"};
constexpr std::array<std::string_view, 1> hoses{"hose"};
constexpr std::array<std::string_view, 2> hoses_and_couplings{"hose", "quick_coupling"};
constexpr std::array<std::string_view, 2> rod_sides{"quick_coupling", "double_acting_cylinder"};

bool through_couplings(const PlannedPart& part) {
  return through_lines(part) || part.kind->about.kind == "quick_coupling";
}

// ── Couplings where nothing may be shut ──

/// The coupling without which a port has no open way to a reservoir; −1 where there is none.
int coupling_on_way(const Sight& sight, PortOf from) {
  if (sight.is_tank_line(from)) return -1;
  const std::set<int> before = sight.reach(from, through_lines);
  if (!sight.is_tank_line(from, through_couplings)) return -1;
  for (const PortOf& at : sight.ports_in(before)) {
    if (sight.is(at.part, "quick_coupling") && !sight.plan.port(at).pilot) return at.part;
  }
  return -1;
}

void look_behind_reliefs(const Sight& sight, Report& report) {
  for (int valve : sight.all(Role::pressure_limit)) {
    const int coupling = coupling_on_way(sight, {valve, 1});
    if (coupling < 0) continue;
    const Sight::Weakest weakest = sight.weakest(sight.reach(PortOf{valve, 0}, through_lines));
    report.add(
        coupling,
        fmt::format("{} lets off at {}, but only while {} behind it is joined: half made it is a shut "
                    "check, and nothing limits the line{}",
                    sight.tag(valve), sight.say(sight.limit(valve).cracking, Quantity::pressure),
                    sight.tag(coupling),
                    weakest.part < 0 ? ""
                                     : fmt::format(" with {} for {}", sight.tag(weakest.part),
                                                   sight.say(weakest.rating, Quantity::pressure))),
        fmt::format("Lead the outlet of {} to the reservoir without {}, or put a second relief valve of "
                    "{} on the side of the reservoir",
                    sight.tag(valve), sight.tag(coupling),
                    sight.say(sight.limit(valve).cracking, Quantity::pressure)));
  }
}

/// Spring chambers outside: what they are set to holds only while they are without pressure.
bool is_drain(const Sight& sight, PortOf at) {
  const std::string_view name = sight.plan.port(at).name;
  return (name == "Y" || name == "T") && sight.plan.port(at).pilot &&
         sight.given(at.part, "setting").has_value();
}

void look_at_drains(const Sight& sight, Report& report) {
  for (int p = 0; p < sight.parts(); ++p) {
    for (const PortOf& at : sight.oil_ports(p, true)) {
      if (!is_drain(sight, at)) continue;
      const int coupling = coupling_on_way(sight, at);
      if (coupling < 0) continue;
      const std::string setting = sight.say(sight.values(p)["setting"], Quantity::pressure);
      report.add(
          coupling,
          fmt::format("{} is set to {} with its spring chamber drained at {}: with {} on that way apart or "
                      "half made, what is trapped there adds to the setting",
                      sight.tag(p), setting, sight.name(at), sight.tag(coupling)),
          fmt::format("Lead {} to the reservoir without {}, so that {} stays set to {}", sight.name(at),
                      sight.tag(coupling), sight.tag(p), setting));
    }
  }
}

void look_at_couplings(const Sight& sight, Report& report) {
  if (sight.all({"quick_coupling"}).empty()) return;
  look_behind_reliefs(sight, report);
  look_at_drains(sight, report);
}

/// Ways by which a supply's pressure gets to a cylinder as it is.
bool through_unchanged(const PlannedPart& part) {
  constexpr std::array<std::string_view, 4> kinds{"intensifier", "cycling_intensifier", "reducing",
                                                  "reducing_non_relieving"};
  return part.kind->about.role != Role::actuator &&
         std::ranges::find(kinds, part.kind->about.kind) == kinds.end();
}

/// The highest pressure that a supply gives a port: that of its relief valves, else what the run showed.
double supplied_at(const Sight& sight, PortOf at) {
  const std::set<int> fed = sight.reach(at, through_unchanged);
  double supply = 0.0;
  for (int valve : sight.all(Role::pressure_limit)) {
    if (sight.touches(fed, {valve, 0})) supply = std::max(supply, sight.limit(valve).cracking);
  }
  return supply > 0.0 ? supply : sight.pressure(at).highest().value;
}

void look_at_rod_side(const Sight& sight, Report& report) {
  if (sight.all({"quick_coupling"}).empty()) return;
  for (int p : sight.all({"double_acting_cylinder"})) {
    const PortOf rod_side{p, 1};
    int coupling = -1;
    for (const PortOf& at : sight.ports_in(sight.reach(rod_side, through_lines))) {
      if (sight.is(at.part, "quick_coupling") && !sight.plan.port(at).pilot) coupling = at.part;
    }
    if (coupling < 0 || !sight.limits_of(rod_side).empty()) continue;
    const double ratio = area_behind(sight, p) / area_around_rod(sight, p);
    const double supply = supplied_at(sight, {p, 0});
    const Sight::Weakest weakest = sight.weakest(sight.reach(rod_side, through_lines));
    if (supply <= 0.0 || weakest.part < 0 || ratio * supply <= weakest.rating) continue;
    report.add(
        coupling,
        fmt::format("{} shuts the rod side of {} in when half made: {} on the piston make {} there, "
                    "{:.2f} times as much, and {} is rated {}",
                    sight.tag(coupling), sight.tag(p), sight.say(supply, Quantity::pressure),
                    sight.say(ratio * supply, Quantity::pressure), ratio, sight.tag(weakest.part),
                    sight.say(weakest.rating, Quantity::pressure)),
        fmt::format("Put a relief valve of at most {} on the rod side of {}, between it and {}, or work "
                    "with no more than {}",
                    sight.say(weakest.rating, Quantity::pressure), sight.tag(p), sight.tag(coupling),
                    sight.say(weakest.rating / ratio, Quantity::pressure)));
  }
}

// ── Bursting ──

/// The highest pressure that a part with two ports sees where it stands: in the run, or with the pumps' flow
/// over a relief beside it.
double highest_seen(const Sight& sight, int p, double flow) {
  const auto highest = sight.highest(std::set<int>{sight.group({p, 0}), sight.group({p, 1})});
  return std::max(highest ? highest->peak.value : 0.0, sight.limited_at({p, 0}, flow).value_or(0.0));
}

/// Burst over working pressure; hoses of the 700 bar class go by standards of their own, which allow less.
constexpr double burst_factor = 4.0, lifting_factor = 2.0, lifting_class = 689.0 * si::bar;

double factor_of(const Sight& sight, int hose) {
  const bool lifting = sight.given(hose, "rated_pressure").value_or(0.0) >= lifting_class;
  return lifting ? lifting_factor : burst_factor;
}

void look_at_burst(const Sight& sight, Report& report) {
  Alike<double> worst;
  for (int hose : sight.all({"hose"})) {
    const auto burst = sight.given(hose, "burst_pressure");
    if (!burst) continue;
    const double too_weak = factor_of(sight, hose) * highest_to_come(sight, hose) / *burst;
    if (too_weak > 1.01) worst.add(too_weak, hose, too_weak);
  }
  if (!worst) return;
  const double burst = sight.values(worst.part())["burst_pressure"], factor = factor_of(sight, worst.part());
  const double highest = worst.worst() * burst / factor;
  report.add(
      worst.part(),
      fmt::format("{} bursts at {}, {:.2f} times the {} that it sees, where {:.0f} times is asked for{}",
                  sight.tag(worst.part()), sight.say(burst, Quantity::pressure), burst / highest,
                  sight.say(highest, Quantity::pressure), factor, worst.others(sight)),
      fmt::format("Take a hose that bursts at {} or more, or let it see no more than {}; local codes "
                  "decide",
                  sight.say(factor * highest, Quantity::pressure),
                  sight.say(burst / factor, Quantity::pressure)));
  report.also(worst.rest());
}

// ── Parts that could be swapped ──

/// Two parts of the same make of thread: hoses of one bore, couplings of one flow.
bool can_be_swapped(const Sight& sight, int a, int b) {
  const std::string_view size = sight.is(a, "hose") ? "bore" : "rated_flow";
  const auto one = sight.given(a, size), other = sight.given(b, size);
  return one && other && std::abs(*one - *other) <= 0.01 * *one;
}

void look_for_swaps(const Sight& sight, std::string_view kind, double flow, Report& report) {
  struct Piece {
    int part;
    double rating, sees;
  };
  std::vector<Piece> pieces;
  for (int p : sight.all({kind})) {
    if (const auto rating = sight.given(p, "rated_pressure"))
      pieces.push_back({p, rating_from(*rating).alarm, 0.0});
  }
  const auto [low, high] = std::ranges::minmax_element(pieces, {}, &Piece::rating);
  if (pieces.empty() || low->rating == high->rating) return;
  for (Piece& piece : pieces) piece.sees = highest_seen(sight, piece.part, flow);
  const auto& most = *std::ranges::max_element(pieces, {}, &Piece::sees);
  const Piece* least = nullptr;
  for (const Piece& piece : pieces) {
    const bool bursts_there =
        piece.part != most.part && piece.rating < 0.99 * most.sees && piece.sees <= piece.rating;
    if (bursts_there && can_be_swapped(sight, most.part, piece.part) &&
        (!least || piece.rating < least->rating))
      least = &piece;
  }
  if (!least || most.sees > most.rating) return;
  report.add(least->part,
             fmt::format("{} for {} fits where {} stands, and there it would see {}", sight.tag(least->part),
                         sight.say(least->rating, Quantity::pressure), sight.tag(most.part),
                         sight.say(most.sees, Quantity::pressure)),
             fmt::format("Take {} for {} too, or another thread or size so that it cannot be put there",
                         sight.tag(least->part), sight.say(most.rating, Quantity::pressure)));
}

void look_at_classes(const Sight& sight, Report& report) {
  const double flow = flow_of_all_pumps(sight);
  look_for_swaps(sight, "hose", flow, report);
  look_for_swaps(sight, "quick_coupling", flow, report);
}

// ── Softness ──

/// What oil passes between a directional valve or pump and the actuators that it feeds.
bool through_branch(const PlannedPart& part) {
  constexpr std::array<std::string_view, 4> kinds{"sequence", "reducing", "reducing_non_relieving",
                                                  "counterbalance"};
  return through_restrictions(part) || part.kind->about.role == Role::one_way ||
         std::ranges::find(kinds, part.kind->about.kind) != kinds.end();
}

/// Oil that an actuator takes at a port for its whole way, m3.
double taken_at(const Sight& sight, PortOf at) {
  const Values& v = sight.values(at.part);
  if (is_cylinder(sight, at.part)) return area_of_side(sight, at) * v["stroke"];
  if (sight.is(at.part, "swing_clamp")) {
    const double area = at.port == 0 || !v.given("unclamp_area") ? v["clamp_area"] : v["unclamp_area"];
    return area * (v["swing_stroke"] + v["clamp_stroke"]);
  }
  if (sight.is(at.part, "work_support")) return v["lift_area"] * v["stroke"];
  return 0.0;
}

/// Share of the actuators' oil that their hoses may take besides.
constexpr double soft = 0.5;

/// Oil that a hose takes more at a pressure than at none, m3: swelling and compression.
double taken_by_hose(const Sight& sight, int hose, double pressure) {
  const double denser = sight.oil.density(pressure).value / sight.oil.density_at_zero() - 1.0;
  return give_of_hose(sight, hose) * pressure + oil_of_line(sight, hose) * denser;
}

void look_at_softness(const Sight& sight, Report& report) {
  if (!sight.ran()) return;
  std::set<int> done;
  for (int first : sight.all({"hose"})) {
    if (done.contains(first)) continue;
    const std::set<int> branch = sight.reach(PortOf{first, 0}, through_branch);
    double by_hoses = 0.0, by_actuators = 0.0, pressure = 0.0;
    std::string tags;
    bool elsewhere = false;  // an accumulator or a motor takes what it wants
    for (const PortOf& at : sight.ports_in(branch)) {
      if (sight.is(at.part, "hose") && done.insert(at.part).second) {
        const double highest = sight.pressure(at).highest().value;
        by_hoses += taken_by_hose(sight, at.part, std::max(highest, 0.0));
        pressure = std::max(pressure, highest);
        tags += (tags.empty() ? "" : ", ") + sight.tag(at.part);
      } else if (sight.role(at.part) == Role::actuator && !sight.plan.port(at).pilot) {
        by_actuators += taken_at(sight, at);
      }
      elsewhere = elsewhere || sight.is_one_of(at.part, {"accumulator", "hydraulic_motor", "intensifier",
                                                         "cycling_intensifier"});
    }
    if (by_actuators <= 0.0 || elsewhere || by_hoses <= 1.02 * soft * by_actuators) continue;
    report.add(
        first,
        fmt::format("At {} {} takes {} by swelling and compression, where all that it feeds takes {}",
                    sight.say(pressure, Quantity::pressure), tags, sight.say(by_hoses, Quantity::volume),
                    sight.say(by_actuators, Quantity::volume)),
        fmt::format("Take tube, or shorter and stiffer hose with less than {}; else reckon its strokes "
                    "and time with {}",
                    sight.say(soft * by_actuators, Quantity::volume),
                    sight.say(by_hoses + by_actuators, Quantity::volume)));
  }
}

constexpr std::array rules{
    TradeRule{.name = "no coupling behind a relief or in a drain",
              .harm = Harm::hurts,
              .holds = "Between the outlet of a relief valve or the drain of a spring chamber and the "
                       "reservoir there is no quick-action coupling, at whatever pressure.",
              .otherwise = "A coupling that is half made is a shut check: the limit is gone.",
              .remedy = "Outlets and drains in lines without couplings, or a limit on each side.",
              .source = "lesson on couplings; page on intensification",
              .kinds = couplings,
              .look = look_at_couplings},
    TradeRule{.name = "no coupling in the rod-side line",
              .harm = Harm::hurts,
              .holds = "A coupling at the rod side of a double-acting cylinder has a relief valve between "
                       "them, or supply pressure times the ratio of areas stays below every rating there.",
              .otherwise = "Half made, it shuts the rod side in and the piston intensifies its oil until "
                           "something bursts.",
              .remedy = "A relief valve at the rod side, or parts that stand the intensified pressure.",
              .source = "lesson on couplings; page on intensification",
              .kinds = rod_sides,
              .look = look_at_rod_side},
    TradeRule{.name = "hose bursts at four times what it sees",
              .harm = Harm::hurts,
              .holds =
                  "Where its burst pressure is stated, it is at least four times the highest pressure the "
                  "hose sees in the run or with the pumps' flow over the relief; twice for hoses rated "
                  "700 bar, which go by standards of their own.",
              .otherwise = "It bursts, or is worn out early.",
              .remedy = "A stronger hose or less pressure. Local codes decide.",
              .source = "Code of Virginia 45.2-802; hose selection notes; twice for 700 bar from memory",
              .kinds = hoses,
              .look = look_at_burst},
    TradeRule{
        .name = "no weaker part fits where a stronger one stands",
        .harm = Harm::hurts,
        .holds = "Hoses of one bore and couplings of one rated flow are all rated for the highest "
                 "pressure that any of them sees.",
        .otherwise = "Parts of 210, 350 and 700 bar share threads: some day the weak one is screwed in.",
        .remedy = "One class for all, or threads and sizes that do not fit.",
        .source = "workholding design page: lowest rating",
        .kinds = hoses_and_couplings,
        .look = look_at_classes},
    TradeRule{.name = "hoses stiff enough for small actuators",
              .harm = Harm::works_badly,
              .holds =
                  "At the highest pressure the hoses of a branch take, by swelling and by the oil pressed "
                  "together in them, no more than half of what the actuators that they feed take.",
              .otherwise = "Strokes of a hand pump, delay, a clamp that springs back.",
              .remedy = "Tube, or short and stiff hoses.",
              .source = "closed form; half common practice",
              .kinds = hoses,
              .look = look_at_softness},
};

}  // namespace

std::span<const TradeRule> line_hose_rules() { return rules; }

}  // namespace poise::rules
