// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include "parts/common.hpp"
#include "parts/directional_symbol.hpp"
#include "parts/valve_care.hpp"

namespace poise {

namespace directional {

/// Opening of one path while the spool runs from one position to another, s = 0…1, with overlap o: paths of
/// the old position alone close by 1 − s/s1, those of the new alone open by (s − s2)/(1 − s2), s1 = (1−o)/2,
/// s2 = (1+o)/2; a path in both stays open.
double opening(bool in_old, bool in_new, double s, double overlap);

/// How wide each path of the valve stands for a command on its way.
bool has_path(const Position& position, Path path);
/// What any layout's ways take of the flows that they had.
std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty);

inline constexpr std::array<std::string_view, 2> no_yes{"no", "yes"};

}  // namespace directional

/// Directional valve with any layout of ports and positions: each open path is a restriction.
/// A Layout gives `kind`, `sentence`, `ports`, `words` (names of the positions), `paths` (all that ever
/// open), `positions(values)`, and for its symbol `boxes` from left to right and `box_of`, the box of each
/// position.
template <class Layout>
struct Directional : RoomDefaults {
  static constexpr About about{
      .kind = Layout::kind,
      .sentence = Layout::sentence,
      .law =
          "each open path: drop = (a·Q² + b·Q)/x²; on a command the spool runs s = "
          "0…1 in shift_time, old paths "
          "close by 1 − s/s1, new ones open by (s − s2)/(1 − s2), s1 = (1 − "
          "overlap)/2, s2 = (1 + overlap)/2; "
          "x is path_opening at most; every path also leaks leakage·drop/rated_pressure",
      .source =
          "a restriction per path; leakage of a spool grows with the pressure "
          "difference (e.g. Fox and McDonald, "
          "Introduction to Fluid Mechanics, spool clearance example)",
      .ramp = "shift_time"};
  static constexpr auto parameters = Layout::parameters;
  static constexpr auto ports = Layout::ports;
  static constexpr std::array faults{
      Fault{.name = "not fully shifted",
            .sentence = "The spool sticks part way: slow one way, hot; a hand on the override cures it.",
            .parameter = "path_opening",
            .change = Fault::Change::becomes,
            .slight = 0.5,
            .grave = 0.05},
      Fault{.name = "does not shift",
            .sentence = "Coil, cable or lever: no action at all, while the override works.",
            .parameter = "responds",
            .change = Fault::Change::becomes,
            .slight = 0.0,
            .grave = 0.0,
            .comes = Comes::suddenly},
      Fault{.name = "spool worn",
            .sentence = "It leaks across: loads creep, the top pressure falls, lines drain back.",
            .parameter = "leakage",
            .change = Fault::Change::becomes,
            .slight = 50 * si::cm3_per_minute,
            .grave = 900 * si::cm3_per_minute,
            .source = "web article on leakage of spool and poppet valves; sizes from memory"},
      Fault{.name = "sluggish",
            .sentence = "Varnish or cold oil: it shifts late, and steps run into each other.",
            .parameter = "shift_time",
            .change = Fault::Change::times,
            .slight = 3.0,
            .grave = 20.0},
  };
  static constexpr std::array rules{

      Rule{.name = "off is safe",
           .sentence = "Without power it goes to the position in which nothing moves or falls; an emergency "
                       "stop needs "
                       "nothing energised.",
           .source = "university page on ISO 4413"},

      Rule{.name = "tank port has a limit",
           .sentence =
               "T stands 60 to 210 bar by kind: check the back pressure and what a meter-out or a shut "
               "coupling can put there."},

  };
  static constexpr std::array care{upkeep::spool_moves, upkeep::spool_leaks};
  static constexpr auto symbol =
      directional::sketch<Layout>(Layout::boxes, directional::place_at<Layout>(0.0));
  static constexpr auto anchors = directional::anchors<Layout>();
  /// The row of boxes stands so that the one in use meets the leads.
  static std::vector<Stroke> drawn(const Values& v, const Pose& pose) {
    const double place = directional::place_at<Layout>(pose.input_or(0, v["position"]));
    return pieces::strokes(directional::sketch<Layout>(directional::boxes_of<Layout>(v), place));
  }
  static constexpr int oil_ports = static_cast<int>(Layout::ports.size()), inputs = 1;

  std::vector<Position> positions;
  Restriction open;
  Leak leak;
  double overlap, volume;
  double path_opening;
  std::optional<Input> stuck;  ///< what it stays at where it does not respond

  Directional(const Values& v, const Oil& oil)
      : positions(Layout::positions(v)),
        open(common::drop_of(v, oil)),
        leak(common::leak_of(v)),
        overlap(v["overlap"]),
        volume(v["port_volume"]),
        path_opening(v["path_opening"]) {
    if (v.word("responds") == 0) stuck = Input{v["position"], v["position"], 1.0};
  }

  static std::vector<Mismatch> check(const Values& v) { return common::leakage_stated_once(v); }
  static std::vector<CurveFit> curves(const Values& v, const Oil& oil) { return common::drop_fit(v, oil); }
  template <class T>
  Answer<Directional, T> law(const Here<Directional, T>& here) const {
    const Input& spool = stuck ? *stuck : here.input[0];
    const Position& old_one = positions[static_cast<int>(spool.from)];
    const Position& new_one = positions[static_cast<int>(spool.to)];
    Answer<Directional, T> a;
    for (const Path& path : Layout::paths) {
      const double x =
          path_opening * directional::opening(directional::has_path(old_one, path),
                                              directional::has_path(new_one, path), spool.s, overlap);
      const auto &from = here.oil[path.from], &to = here.oil[path.to];
      const T drop = from.pressure - to.pressure;
      const T flow = x > 0.0 ? T(open.flow(drop, x) + leak.flow(drop)) : leak.flow(drop);
      const T w = mass_flow(flow, from, to);
      a.inflow[path.from] += w;
      a.inflow[path.to] -= w;
    }
    return a;
  }
  static std::vector<Working> workings(const Values& v, const Oil& oil, const Duty& duty) {
    return directional::workings(v, oil, duty);
  }
  Space space(int) const { return {.volume = volume}; }
};

namespace directional {

/// The datasheet lines that all directional valves share, around their `position`.
constexpr auto table(std::span<const std::string_view> words) {
  return std::array{
      Parameter{.name = "position",
                .fallback = 0.0,
                .low = 0.0,
                .high = static_cast<double>(words.size() - 1),
                .meaning =
                    "the position it stands in; the first is the rest position unless the job says otherwise",
                .words = words,
                .set_by_steps = true,
                .no_half_way = true},
      Parameter{.name = "shift_time",
                .quantity = Quantity::time,
                .fallback = 0.05,
                .low = 0.0,
                .high = 10.0,
                .meaning = "time that the spool takes from one position to another",
                .tolerance = {0.5, 0.6}},
      Parameter{
          .name = "overlap",
          .quantity = Quantity::share,
          .fallback = 0.0,
          .low = -0.9,
          .high = 0.9,
          .meaning = "share of the shift in which old and new paths are both shut; negative: both open"},
      Parameter{.name = "path_opening",
                .quantity = Quantity::share,
                .fallback = 1.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "how far its paths open: below 1 where the spool sticks before its end"},
      Parameter{.name = "responds",
                .fallback = 1.0,
                .low = 0.0,
                .high = 1.0,
                .meaning = "whether it follows its commands",
                .words = no_yes},
      common::rated_flow_or_curve(),
      common::pressure_drop(),
      common::drop_curve(),
      common::measured_viscosity(),
      common::leakage("flow that every shut path leaks at the rated pressure (350 bar if none is given)"),
      common::leakage_class(),
      common::rated_pressure(),
      common::port_volume(),
  };
}

struct TwoTwo {
  static constexpr std::string_view kind = "directional_2_2";
  static constexpr std::string_view sentence =
      "Directional valve, two ports and two positions: joins P and A, or not.";
  static constexpr std::array<std::string_view, 2> words{"shut", "open"};
  static constexpr auto parameters = table(words);
  static constexpr std::array ports{Port{.name = "P", .meaning = "inlet"},
                                    Port{.name = "A", .meaning = "outlet"}};
  static constexpr std::array paths{Path{0, 1}};
  static constexpr std::array boxes{joins({{0, 1}}), all_shut};
  static constexpr std::array box_of{1, 0};
  static std::vector<Position> positions(const Values&) { return {all_shut, joins({{0, 1}})}; }
};

struct ThreeTwo {
  static constexpr std::string_view kind = "directional_3_2";
  static constexpr std::string_view sentence =
      "Directional valve, three ports and two positions: A to tank at rest, P to A when shifted.";
  static constexpr std::array<std::string_view, 2> words{"rest", "shifted"};
  static constexpr auto parameters = table(words);
  static constexpr std::array ports{Port{.name = "P", .meaning = "pressure"},
                                    Port{.name = "T", .meaning = "tank"},
                                    Port{.name = "A", .meaning = "work"}};
  static constexpr std::array paths{Path{0, 2}, Path{2, 1}};
  static constexpr std::array boxes{joins({{0, 2}}), joins({{2, 1}})};
  static constexpr std::array box_of{1, 0};
  static std::vector<Position> positions(const Values&) { return {joins({{2, 1}}), joins({{0, 2}})}; }
};

inline constexpr std::array four_ports{
    Port{.name = "P", .meaning = "pressure"}, Port{.name = "T", .meaning = "tank"},
    Port{.name = "A", .meaning = "work"}, Port{.name = "B", .meaning = "work"}};
inline constexpr Position parallel = joins({{0, 2}, {3, 1}});  // P→A, B→T
inline constexpr Position crossed = joins({{0, 3}, {2, 1}});   // P→B, A→T

struct FourTwo {
  static constexpr std::string_view kind = "directional_4_2";
  static constexpr std::string_view sentence =
      "Directional valve, four ports and two positions: P to B and A to T at rest (a crossed), the other way "
      "shifted.";
  static constexpr std::array<std::string_view, 2> words{"b", "a"};
  static constexpr auto parameters = table(words);
  static constexpr auto ports = four_ports;
  static constexpr std::array paths{Path{0, 2}, Path{3, 1}, Path{0, 3}, Path{2, 1}};
  static constexpr std::array boxes{parallel, crossed};
  static constexpr std::array box_of{1, 0};
  static std::vector<Position> positions(const Values&) { return {crossed, parallel}; }
};

struct FourThree {
  static constexpr std::string_view kind = "directional_4_3";
  static constexpr std::string_view sentence =
      "Directional valve, four ports and three positions: a joins P to A and B to T, b joins P to B and A to "
      "T, the "
      "centre as stated.";
  static constexpr std::array<std::string_view, 3> words{"centre", "a", "b"};
  static constexpr std::array<std::string_view, 5> centres{"closed", "open", "tandem", "float",
                                                           "regenerative"};
  static constexpr auto parameters = [] {
    constexpr auto shared = table(words);
    std::array<Parameter, shared.size() + 1> all{};
    std::copy(shared.begin(), shared.end(), all.begin());
    all[shared.size()] = {
        .name = "centre",
        .fallback = std::nullopt,
        .low = 0.0,
        .high = 4.0,
        .meaning =
            "what the centre joins: closed nothing; open all four; tandem P to T; float A and "
            "B to T; regenerative P, A and B",
        .source = "the valve's datasheet",
        .words = centres};
    return all;
  }();
  static constexpr auto ports = four_ports;
  static constexpr std::array paths{Path{0, 2}, Path{3, 1}, Path{0, 3}, Path{2, 1}, Path{0, 1}};
  /// On the page of the kind the centre is closed; the others differ in that box alone.
  static constexpr std::array boxes{parallel, all_shut, crossed};
  static constexpr std::array box_of{1, 0, 2};
  static std::vector<Position> positions(const Values& v) {
    static constexpr std::array centre_paths{
        all_shut,
        joins({{0, 1}, {0, 2}, {0, 3}, {2, 1}, {3, 1}}),
        joins({{0, 1}}),
        joins({{2, 1}, {3, 1}}),
        joins({{0, 2}, {0, 3}}),
    };
    return {centre_paths[v.word("centre")], parallel, crossed};
  }
};

}  // namespace directional
}  // namespace poise
