// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/diagnosis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <nlohmann/json.hpp>

#include "diagnose/sheet.hpp"
#include "diagnose/shown.hpp"
#include "judge/page.hpp"
#include "judge/wording.hpp"

namespace poise::diagnose {
namespace {

constexpr double speaks_against = 2.5;  // standard deviations
constexpr std::size_t most_groups = 8, most_named = 12, most_reasons = 3;

class Words {
 public:
  Words(const Belief& belief, const units::World& world)
      : belief_(belief), atlas_(belief.atlas()), job_(atlas_.job) {
    job_.world = world;
    sound_ = belief.expected({.course = Suspect::sound});
  }

  Told group(const Group& group) const {
    const Suspect& first = group.suspects.front();
    Told told{.share = group.share, .is_sound = first.course == Suspect::sound};
    for (const Suspect& suspect : group.suspects) told.suspects.push_back(name(suspect));
    told.sentence = sentence(group);
    told.why = why(first);
    told.against = against(first);
    return told;
  }

  std::vector<Seen> seen() const {
    std::vector<Seen> all;
    for (std::size_t r = 0; r < belief_.readings().size(); ++r) {
      const Reading& reading = belief_.readings()[r];
      const Band band = band_of(atlas_, reading.watch);
      const bool comes = !std::isnan(band.middle);
      all.push_back({name_of(watch(r), job_), shown(watch(r), reading.value),
                     comes ? fmt::format("{} … {}", shown(watch(r), band.low), shown(watch(r), band.high))
                           : shown(watch(r), std::nullopt),
                     beside(band, reading.value) != Beside::within});
    }
    return all;
  }

  Advice advice(const Next& next) const {
    const Watch& watch = atlas_.watches[next.watch];
    Advice advice{.watch = next.watch, .name = tool(watch) + name_of(watch, job_), .before = before(next)};
    std::vector<std::pair<std::string, std::vector<std::string>>> by_value;
    for (const Next::Shows& each : next.shows) {
      const bool comes = !std::isnan(each.expected.value);
      const std::string value =
          comes ? "about " + shown(watch, each.expected.value) : shown(watch, std::nullopt);
      auto same =
          std::ranges::find(by_value, value, &std::pair<std::string, std::vector<std::string>>::first);
      if (same == by_value.end()) {
        if (by_value.size() == 5) continue;
        by_value.push_back({value, {}});
        same = by_value.end() - 1;
      }
      if (same->second.size() < 3) same->second.push_back(plain_name(each.suspect));
    }
    for (const auto& [value, names] : by_value)
      advice.shows.push_back(fmt::format("{}: {}", value, wording::joined(names, " or ")));
    return advice;
  }

 private:
  const Watch& watch(std::size_t reading) const { return atlas_.watches[belief_.readings()[reading].watch]; }

  std::string shown(const Watch& watch, std::optional<double> value) const {
    return diagnose::shown(watch, value, job_.world);
  }

  static std::string tool(const Watch& watch) {
    if (watch.instrument == Instrument::portable_gauge) return "portable gauge at ";
    if (watch.instrument == Instrument::bucket) return "oil that comes out, by bucket and stop-watch: ";
    if (watch.instrument == Instrument::stop_watch) return "stop-watch: ";
    if (watch.instrument == Instrument::thermometer) return "thermometer: ";
    return "";
  }

  /// What comes first where a fitting is opened, and for what pressure the gauge has to be: what the sound
  /// machine and each suspect show there in any step.
  std::string before(const Next& next) const {
    const Watch& asked = atlas_.watches[next.watch];
    if (asked.instrument != Instrument::portable_gauge && asked.instrument != Instrument::bucket) return "";
    const std::string_view off =
        "loads down, pump locked off, pressure let off and read at zero before a fitting is opened";
    if (asked.instrument == Instrument::bucket) return fmt::format("{}; never a hand in the jet", off);
    double highest = 0.0;
    for (std::size_t w = 0; w < atlas_.watches.size(); ++w) {
      if (atlas_.watches[w].signal.name != asked.signal.name) continue;
      highest = std::max(highest, std::isnan(atlas_.sound[w]) ? 0.0 : atlas_.sound[w]);
      for (const Next::Shows& each : next.shows) {
        if (each.suspect.course == Suspect::sound) continue;
        for (const Course::At& size : atlas_.courses[each.suspect.course].sizes)
          highest = std::max(highest, std::isnan(size.shows[w]) ? 0.0 : size.shows[w]);
      }
    }
    return fmt::format("fit a gauge of at least {}; {}",
                       units::show(range_above(highest), Quantity::pressure, job_.world), off);
  }

  std::string plain_name(const Suspect& suspect) const {
    return suspect.course == Suspect::sound ? "nothing wrong" : atlas_.courses[suspect.course].place.name;
  }

  std::string name(const Suspect& suspect) const {
    if (suspect.course == Suspect::sound) return "nothing wrong";
    const study::FaultPlace& place = atlas_.courses[suspect.course].place;
    const std::string sizes = sizes_of(place, suspect);
    return sizes.empty() ? place.name : fmt::format("{}: {}", place.name, sizes);
  }

  /// "setting 84.1 bar … 92.0 bar": the sizes that fit nearly as well; empty where there is one size, or all
  /// fit.
  std::string sizes_of(const study::FaultPlace& place, const Suspect& suspect) const {
    const bool any = suspect.t_low <= 0.0 && suspect.t_high >= 1.0;
    if (place.one_size || any) return "";
    const std::string low = study::change_at(job_, place, suspect.t_low),
                      high = study::change_at(job_, place, suspect.t_high);
    if (low == high) return low;
    std::size_t same = 0;
    for (std::size_t i = 0; i < std::min(low.size(), high.size()) && low[i] == high[i]; ++i) {
      if (low[i] == ' ' && !std::isdigit(static_cast<unsigned char>(low[std::max<std::size_t>(i, 1) - 1])))
        same = i + 1;
    }
    return fmt::format("{} … {}", low, high.substr(same));
  }

  std::string sentence(const Group& group) const {
    const Suspect& first = group.suspects.front();
    if (first.course != Suspect::sound) return atlas_.courses[first.course].place.sentence;
    const bool out = std::ranges::any_of(seen(), &Seen::out_of_band);
    if (out || !against(first).empty())
      return "No single fault explains the readings better than a sound machine does; what is out of its "
             "band or speaks "
             "against it stays unexplained.";
    if (group.suspects.size() == 1) return "Every reading is where a sound machine may have it.";
    return "Every reading is where a sound machine may have it. What these readings do not exclude is named "
           "below.";
  }

  /// The readings that are off for a sound machine and that this explains.
  std::string why(const Suspect& suspect) const {
    if (suspect.course == Suspect::sound) return "";
    const std::vector<Expected> here = belief_.expected(suspect);
    std::vector<std::pair<double, std::size_t>> gains;
    for (std::size_t r = 0; r < here.size(); ++r) gains.push_back({gain(here[r], sound_[r], r), r});
    std::ranges::stable_sort(gains, std::greater{}, &std::pair<double, std::size_t>::first);
    std::vector<std::string> reasons;
    for (const auto& [gained, r] : gains) {
      if (gained < 1.0 || reasons.size() == most_reasons) break;
      if (belief_.readings()[r].value.has_value() == std::isnan(here[r].value)) continue;
      reasons.push_back(fmt::format("{} {}, with this {}, sound {}", name_of(watch(r), job_),
                                    shown(watch(r), belief_.readings()[r].value),
                                    shown(watch(r), here[r].value), shown(watch(r), sound_[r].value)));
    }
    return fmt::format("{}", fmt::join(reasons, "; "));
  }

  /// By how much better a reading is explained, in squares of standard deviations.
  double gain(const Expected& here, const Expected& sound, std::size_t r) const {
    const auto far = [&](const Expected& expected) {
      const auto& value = belief_.readings()[r].value;
      if (value.has_value() == std::isnan(expected.value)) return 100.0;
      if (!value) return 0.0;
      const double z = (*value - expected.value) / expected.sigma;
      return z * z;
    };
    return far(sound) - far(here);
  }

  std::vector<std::string> against(const Suspect& suspect) const {
    const std::vector<Expected> here = belief_.expected(suspect);
    std::vector<std::pair<double, std::string>> all;
    for (std::size_t r = 0; r < here.size(); ++r) {
      if (std::abs(here[r].off) < speaks_against) continue;
      all.push_back(
          {std::abs(here[r].off),
           fmt::format("{}: {}, with this and the other readings {}", name_of(watch(r), job_),
                       shown(watch(r), belief_.readings()[r].value), shown(watch(r), here[r].by_others))});
    }
    std::ranges::stable_sort(all, std::greater{}, &std::pair<double, std::string>::first);
    std::vector<std::string> sentences;
    for (auto& [off, sentence] : all) {
      if (sentences.size() < most_reasons) sentences.push_back(std::move(sentence));
    }
    return sentences;
  }

  const Belief& belief_;
  const Atlas& atlas_;
  Job job_;
  std::vector<Expected> sound_;
};

/// All behind the first, or how many more there are.
std::string others_of(const Told& told) {
  const std::size_t named = std::min(told.suspects.size(), most_named);
  std::string others =
      fmt::format("{}", fmt::join(told.suspects.begin() + 1, told.suspects.begin() + named, "; "));
  return named == told.suspects.size() ? others
                                       : fmt::format("{}; and {} more", others, told.suspects.size() - named);
}

std::string shown_share(double share) {
  if (share > 0.995) return "over 99";
  if (share < 0.01) return "under 1";
  return fmt::format("{:.2g}", 100.0 * share);
}

/// What is asked and looked at before anything is measured: common practice.
std::vector<std::string> first_questions(const Readings& readings, const Atlas& atlas) {
  std::vector<std::string> all;
  if (!readings.came && readings.since.empty() && readings.after.empty())
    all.push_back(
        "Since when, and after what? After work things are set wrong, exchanged, full of air; slowly things "
        "wear and clog; suddenly they stick and burst; in the cold oil is thick.");
  if (readings.level == Looked::no) all.push_back("Oil level: between the marks with all actuators home?");
  if (readings.filter == Looked::no && std::ranges::any_of(atlas.job.plan.parts, [](const PlannedPart& part) {
        return part.kind->about.kind == "filter";
      }))
    all.push_back("Filter: is its indicator down with warm oil?");
  const bool temperature = std::ranges::any_of(readings.list, [&](const Reading& reading) {
    return atlas.watches[reading.watch].instrument == Instrument::thermometer;
  });
  if (!temperature) all.push_back("Oil temperature: read it; the same part behaves otherwise cold and warm.");
  return all;
}

}  // namespace

Diagnosis diagnose(const Atlas& atlas, const Machine& machine, const Readings& readings,
                   const units::World& world) {
  const Belief belief(atlas, machine, readings);
  const Words words(belief, world);
  Diagnosis diagnosis{.ask_first = first_questions(readings, atlas), .seen = words.seen()};
  if (!belief.fits(belief.suspects().front()))
    diagnosis.doubt =
        "None of the single faults looked for explains these readings. Read again what speaks against the "
        "first ones, check "
        "steps and units; or two things are wrong at once. The shares below are only among what was looked "
        "for.";
  for (const Group& group : belief.groups()) {
    constexpr double not_worth_a_word = 1e-4;
    if (diagnosis.groups.size() == most_groups) break;
    if (diagnosis.groups.size() >= 3 && group.share < not_worth_a_word) break;
    diagnosis.groups.push_back(words.group(group));
  }
  for (const Next& next : next_measurements(belief)) diagnosis.next.push_back(words.advice(next));
  return diagnosis;
}

std::string show(const Diagnosis& diagnosis) {
  constexpr std::size_t wide = 100;
  std::string text;
  const auto add = [&](std::string_view line, std::size_t indent) {
    text += std::string(indent, ' ') + wrapped(line, wide - indent, indent + 2) + "\n";
  };
  if (!diagnosis.ask_first.empty()) text += "first, before anything is measured\n";
  for (const std::string& question : diagnosis.ask_first) add(question, 2);
  text += diagnosis.ask_first.empty() ? "" : "\n";
  if (!diagnosis.doubt.empty()) {
    add(diagnosis.doubt, 0);
    text += "\n";
  }
  for (std::size_t g = 0; g < diagnosis.groups.size(); ++g) {
    const Told& told = diagnosis.groups[g];
    add(fmt::format("{}  {} %{}  {}", g + 1, shown_share(told.share),
                    told.suspects.size() > 1 ? " together" : "", told.suspects.front()),
        0);
    add(told.sentence, 5);
    if (!told.why.empty()) add("because: " + told.why, 5);
    for (const std::string& each : told.against) add("against: " + each, 5);
    if (told.suspects.size() > 1)
      add((told.is_sound ? "not excluded by these readings: " : "not told apart by these readings: ") +
              others_of(told),
          5);
  }
  if (!diagnosis.next.empty()) text += "\nnext measurement\n";
  for (const Advice& advice : diagnosis.next) {
    add(advice.name, 2);
    if (!advice.before.empty()) add(advice.before, 4);
    for (const std::string& each : advice.shows) add(each, 6);
  }
  return text;
}

nlohmann::json to_json(const Diagnosis& diagnosis) {
  nlohmann::json seen = nlohmann::json::array(), groups = nlohmann::json::array(),
                 next = nlohmann::json::array();
  for (const Seen& each : diagnosis.seen)
    seen.push_back({{"name", each.name},
                    {"reads", each.reads},
                    {"sound", each.sound},
                    {"out_of_band", each.out_of_band}});
  for (const Told& told : diagnosis.groups)
    groups.push_back({{"suspects", told.suspects},
                      {"sentence", told.sentence},
                      {"why", told.why},
                      {"against", told.against},
                      {"share", told.share},
                      {"is_sound", told.is_sound}});
  for (const Advice& advice : diagnosis.next)
    next.push_back({{"name", advice.name}, {"before", advice.before}, {"shows", advice.shows}});
  return {{"doubt", diagnosis.doubt},
          {"ask_first", diagnosis.ask_first},
          {"seen", seen},
          {"groups", groups},
          {"next", next}};
}

}  // namespace poise::diagnose
