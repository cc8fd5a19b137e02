// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>

#include "cli/command.hpp"
#include "cli/progress.hpp"
#include "cli/read.hpp"
#include "cli/study_file.hpp"
#include "desk/whole_file.hpp"
#include "diagnose/kept.hpp"
#include "diagnose/readings_file.hpp"
#include "judge/outcome.hpp"
#include "papers/breadth.hpp"
#include "papers/readings.hpp"

namespace poise::cli {
namespace {

namespace fs = std::filesystem;
using diagnose::Band;
using diagnose::Beside;
using diagnose::Instrument;
using diagnose::Reading;
using diagnose::Watch;

struct CommissionWish {
  std::string job, readings, file;
  bool csv = false, json = false, keep = false, anew = false;
};

/// A reading beside its band.
struct Compared {
  const Watch& watch;
  Band band;
  std::optional<double> value;  ///< none: its moment did not come
  Beside beside() const { return diagnose::beside(band, value); }
  bool is_out() const { return beside() != Beside::within; }
};

/// Lines of words in columns, each as broad as its broadest but for the last.
class Columns {
 public:
  void add(std::vector<std::string> row) { rows_.push_back(std::move(row)); }
  std::string text() const {
    std::vector<double> broad;
    for (const auto& row : rows_) {
      broad.resize(std::max(broad.size(), row.size()));
      for (std::size_t i = 0; row.size() > 1 && i < row.size(); ++i)
        broad[i] = std::max(broad[i], papers::breadth_of(row[i]));
    }
    std::string text;
    for (const auto& row : rows_) {
      std::string line;
      for (std::size_t i = 0; i < row.size(); ++i) {
        line += row[i];
        if (i + 1 < row.size())
          line.append(static_cast<std::size_t>(broad[i] - papers::breadth_of(row[i])) + 2, ' ');
      }
      line.erase(line.find_last_not_of(' ') + 1);
      text += line + "\n";
    }
    return text;
  }

 private:
  std::vector<std::vector<std::string>> rows_;
};

/// "G1 as K1 starts", "K1 takes"
std::string asked_in_words(const Watch& watch, const Job& job) {
  const std::string where = papers::where_read(watch);
  switch (watch.instrument) {
    case Instrument::thermometer:
      return "oil's temperature";
    case Instrument::stop_watch:
      return where + " takes";
    case Instrument::rule:
      return where + " stands " + papers::when_in_step(watch, job);
    default:
      return where + " " + papers::when_in_step(watch, job);
  }
}

std::string sheet_in_words(const std::vector<papers::ReadingBand>& sheet, const Job& job) {
  Columns columns;
  columns.add({"", "should read", "19 of 20 sound machines read"});
  std::optional<std::size_t> step;
  for (const auto& [watch, band] : sheet) {
    if (watch.instrument != Instrument::thermometer && watch.step != step) {
      step = watch.step;
      columns.add({fmt::format("\"{}\"", job.steps[*step].name)});
    }
    columns.add({"  " + asked_in_words(watch, job), papers::shows(watch, band.middle, job.world).text,
                 papers::band_in_words(watch, band, job.world)});
  }
  return columns.text();
}

/// A difference of two readings.
std::string difference(const Watch& watch, double value, const units::World& world) {
  const Quantity quantity = diagnose::quantity_of(watch);
  return fmt::format("{:.2g} {}", std::abs(units::difference_in_unit(value, quantity, world)),
                     world[quantity]);
}

std::string judged(const Compared& each, const units::World& world) {
  const auto off = [&](double edge, std::string_view side) -> std::string {
    if (each.watch.instrument == Instrument::contact) return "OUT";
    return fmt::format("OUT: {} {}", difference(each.watch, *each.value - edge, world), side);
  };
  switch (each.beside()) {
    case Beside::within:
      break;
    case Beside::above:
      return off(each.band.high, "above");
    case Beside::below:
      return off(each.band.low, "below");
    case Beside::missing:
      return "OUT: this never came";
    case Beside::unexpected:
      return "OUT: on a sound machine this never comes";
  }
  return "in its band";
}

std::string compared_in_words(const std::vector<Compared>& all, const Job& job) {
  Columns columns;
  columns.add({"", "reads", "19 of 20 sound machines read", ""});
  for (const Compared& each : all) {
    columns.add({diagnose::name_of(each.watch, job),
                 each.value ? papers::shows(each.watch, *each.value, job.world).text : "never came",
                 std::isnan(each.band.middle) ? "never comes"
                                              : papers::band_in_words(each.watch, each.band, job.world),
                 judged(each, job.world)});
  }
  return columns.text();
}

nlohmann::json number(double value, const Watch& watch, const units::World& world) {
  if (!std::isfinite(value)) return nullptr;
  if (watch.instrument == Instrument::contact) return value;
  return units::in_unit(value, diagnose::quantity_of(watch), world);
}

nlohmann::json to_json(const Watch& watch, const Band& band, const Job& job) {
  const bool whole_cycle = watch.instrument == Instrument::thermometer;
  return {{"at", watch.at},
          {"name", diagnose::name_of(watch, job)},
          {"step", whole_cycle ? nlohmann::json() : nlohmann::json(job.steps[watch.step].name)},
          {"when", papers::when_in_step(watch, job)},
          {"unit", job.world[diagnose::quantity_of(watch)]},
          {"should_read", number(band.middle, watch, job.world)},
          {"low", number(band.low, watch, job.world)},
          {"high", number(band.high, watch, job.world)}};
}

nlohmann::json sheet_to_json(const std::vector<papers::ReadingBand>& sheet, const Job& job) {
  nlohmann::json list = nlohmann::json::array();
  for (const auto& [watch, band] : sheet) list.push_back(to_json(watch, band, job));
  return {{"title", job.title}, {"sheet", list}};
}

nlohmann::json compared_to_json(const std::vector<Compared>& all, const Job& job) {
  nlohmann::json list = nlohmann::json::array();
  for (const Compared& each : all) {
    nlohmann::json one = to_json(each.watch, each.band, job);
    one["reads"] = each.value ? number(*each.value, each.watch, job.world) : nlohmann::json();
    one["in_band"] = !each.is_out();
    list.push_back(std::move(one));
  }
  return {{"title", job.title},
          {"readings", list},
          {"out_of_band", std::ranges::count_if(all, &Compared::is_out)}};
}

/// Puts the readings beside the job; false after a complaint.
bool keep(const CommissionWish& wish, const std::string& toml) {
  const fs::path path = diagnose::baseline_of(wish.job);
  const fs::path parent = path.has_parent_path() ? path.parent_path() : ".";
  std::error_code unknown;
  const desk::Descriptor folder = desk::open_folder(fs::canonical(parent, unknown));
  if (!folder) {
    fmt::print(stderr, "{}\n", desk::why_no_folder(parent, errno));
    return false;
  }
  const std::string name = path.filename().string();
  const desk::Entry old = desk::entry_of(folder.get(), name);
  if (old.kind != desk::Entry::Kind::nothing && !wish.anew) {
    fmt::print(stderr, "{} is there already and stays as it is; with --anew these readings take its place\n",
               path.string());
    return false;
  }
  const desk::Place place = wish.anew ? desk::Place::may_be_taken : desk::Place::must_be_free;
  const std::string why = desk::put(folder.get(), parent, name, toml, old, place);
  if (!why.empty()) fmt::print(stderr, "{}\n", why);
  return why.empty();
}

void print_summary(const std::vector<Compared>& all, const CommissionWish& wish) {
  const auto out = std::ranges::count_if(all, &Compared::is_out);
  fmt::print(
      "\n{} readings, {} out of {} band. Of {} readings of sound machines about {:.2g} are, by chance "
      "and narrowly.\n",
      all.size(), out, out == 1 ? "its" : "their", all.size(), static_cast<double>(all.size()) / 20.0);
  if (out > 0)
    fmt::print(
        "What is out of its band is understood before anything is turned: never raise a relief valve to "
        "cure a weakness. poise diagnose {} {} says what may be behind it.\n",
        wish.job, wish.readings);
  if (wish.keep)
    fmt::print("Kept in {} as what this machine read when it was commissioned.\n",
               diagnose::baseline_of(wish.job).string());
  fmt::print("Readings of the day of commissioning are the strongest evidence at a later fault{}.\n\n{}\n",
             wish.keep ? "" : ": --keep puts them beside the job", notice);
}

/// Everything that is asked of one call.
class Commissioning {
 public:
  Commissioning(const CommissionWish& wish, const Job& job, const std::string& text,
                const std::string& version)
      : wish_(wish), job_(job), text_(text), version_(version) {}

  int run() {
    const auto prepared = prepare();
    if (!prepared) return cannot;
    diagnose::AtlasWork work = *prepared;
    if (wish_.csv) {
      fmt::print("{}",
                 diagnose::empty_table(papers::sheet_in_order(work.watches, work.sound), job_, work.watches));
      return all_held;
    }
    return wish_.readings.empty() ? show_sheet(work) : compare(work);
  }

 private:
  std::optional<diagnose::AtlasWork> prepare() {
    auto prepared = diagnose::prepare_atlas(job_, [&] { return progress_.at(0.0); });
    if (auto* work = std::get_if<diagnose::AtlasWork>(&prepared)) return std::move(*work);
    const auto* why = std::get_if<std::string>(&prepared);
    fmt::print(stderr, "{}\n", why ? *why : "stopped by hand");
    return std::nullopt;
  }

  std::optional<diagnose::Atlas> atlas_of(const diagnose::AtlasWork& work) {
    const fs::path file = study_file({.job = wish_.job, .file = wish_.file});
    auto atlas = diagnose::atlas_of(work, text_, version_, file, diagnose::Much::sound,
                                    [&](double share) { return progress_.at(share); });
    if (!atlas) fmt::print(stderr, "stopped by hand; the same command goes on with what was run\n");
    return atlas;
  }

  int show_sheet(const diagnose::AtlasWork& work) {
    const auto atlas = atlas_of(work);
    if (!atlas) return cannot;
    const std::vector<papers::ReadingBand> sheet = papers::bands_of(*atlas);
    if (wish_.json) {
      fmt::print("{}\n", sheet_to_json(sheet, job_).dump(2));
    } else {
      fmt::print("{}: what a sound machine reads\n\n{}\n{}\n", job_.title, sheet_in_words(sheet, job_),
                 notice);
    }
    return all_held;
  }

  int compare(diagnose::AtlasWork& work) {
    const std::vector<Watch> listed = work.watches;
    std::string text;
    const auto read = diagnose::read_readings_file(wish_.readings, job_, listed, &text);
    if (const auto* complaints = std::get_if<Complaints>(&read)) {
      fmt::print(stderr, "{}", complaints->text(text));
      return cannot;
    }
    const auto& readings = std::get<diagnose::Readings>(read);
    diagnose::add_watches(work, readings.more);
    const auto atlas = atlas_of(work);
    if (!atlas || (wish_.keep && !keep(wish_, diagnose::to_toml(readings, job_, listed)))) return cannot;
    std::vector<Compared> all;
    for (const Reading& reading : readings.list)
      all.push_back({atlas->watches[reading.watch], diagnose::band_of(*atlas, reading.watch), reading.value});
    if (wish_.json) {
      fmt::print("{}\n", compared_to_json(all, job_).dump(2));
    } else {
      fmt::print("{}: readings beside those of sound machines\n\n{}", job_.title,
                 compared_in_words(all, job_));
      print_summary(all, wish_);
    }
    return std::ranges::any_of(all, &Compared::is_out) ? something_broken : all_held;
  }

  const CommissionWish& wish_;
  const Job& job_;
  const std::string& text_;
  const std::string& version_;
  Progress progress_{"working out readings of " + job_.title};
};

int commission(const CommissionWish& wish, const std::string& version) {
  if (wish.keep && wish.readings.empty()) {
    fmt::print(stderr, "--keep: name the file of readings that is to be kept\n");
    return cannot;
  }
  std::string text;
  const auto job = read_or_complain(wish.job, &text);
  return job ? Commissioning(wish, *job, text, version).run() : cannot;
}

}  // namespace

void add_commission(CLI::App& program, int& exit_code) {
  auto wish = std::make_shared<CommissionWish>();
  CLI::App* command = program.add_subcommand(
      "commission", "What to read when the machine is started, and within which bands; readings beside them");
  command->add_option("job", wish->job, "the job file")->required()->type_name(a_job);
  auto* readings = command
                       ->add_option("readings", wish->readings,
                                    "what was read, TOML or CSV; without it the sheet is printed")
                       ->type_name(a_file);
  command
      ->add_option("--file", wish->file,
                   "keep the runs in this file (SQLite); without it beside the job, with the ending .studies")
      ->type_name(a_file);
  command->add_flag("--csv", wish->csv, "the sheet as CSV, to be filled in")->excludes(readings);
  command->add_flag("--json", wish->json, "sheet or comparison as JSON");
  auto* kept = command->add_flag(
      "--keep", wish->keep,
      "keep the readings beside the job, JOB.baseline.toml: what later ones are measured by");
  command->add_flag("--anew", wish->anew, "in place of those that are kept already")->needs(kept);
  command->footer(
      "Ends with 0 when every reading is in its band, 1 when one is not, 2 when the job or the readings "
      "cannot be read or run, or not kept.");
  command->callback([wish, &program, &exit_code] { exit_code = commission(*wish, program.version()); });
}

}  // namespace poise::cli
