// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "diagnose/kept.hpp"

#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <map>
#include <nlohmann/json.hpp>

#include "study/fingerprint.hpp"
#include "study/record.hpp"

namespace poise::diagnose {
namespace {

/// To be raised where the same numbers come to stand for other runs, or what is seen of them for something
/// else.
constexpr int way_of_running = 1;

/// What the numbers of runs stand for: other watches, other tolerances or other suspects make other runs of
/// them.
std::string options_of(const AtlasWork& work) {
  // The numbers of runs follow from how many of each there are.
  std::string all = fmt::format("{} {} {}\n", way_of_running, first_suspect(work), runs_of_a_kind);
  for (const Watch& watch : work.watches)
    all += fmt::format("{} {:a}\n", name_of(watch, work.job), watch.after);
  for (const search::Loose& loose : work.machines.loose())
    all += fmt::format("{} {:a} {:a} {:a}\n", search::name_of(loose, work.job), loose.stated,
                       loose.tolerance.below, loose.tolerance.above);
  for (const study::FaultPlace& place : work.suspects)
    all +=
        fmt::format("{} {:a} {:a} {:a} {}\n", place.name, place.slight, place.grave, place.time, place.step);
  return nlohmann::json{{"readings", study::fingerprint_of(all)}}.dump();
}

study::Heading heading_of(const AtlasWork& work, const std::string& text, const std::string& version) {
  return {.kind = "readings",
          .title = work.job.title,
          .fingerprint = study::fingerprint_of(work.job, text),
          .options = options_of(work),
          .version = version,
          .job = text};
}

/// Six digits are more than any instrument has.
std::string to_text(const std::vector<double>& shows) {
  std::string text = "[";
  for (const double value : shows)
    text += std::isnan(value) ? std::string("null,") : fmt::format("{:.6g},", value);
  text.back() = ']';
  return text;
}

std::optional<AtlasRun> run_from(const study::Row& row, std::size_t watches) {
  const auto json = nlohmann::json::parse(row.detail, nullptr, false);
  if (!json.is_array() || json.size() != watches) return std::nullopt;
  AtlasRun run{row.number, {}};
  for (const auto& value : json) {
    if (!value.is_number() && !value.is_null()) return std::nullopt;
    run.shows.push_back(value.is_null() ? std::numeric_limits<double>::quiet_NaN() : value.get<double>());
  }
  return run;
}

using RunsByItem = std::map<long, std::vector<AtlasRun>>;

RunsByItem runs_of(const AtlasWork& work, const study::Record& record, long id) {
  RunsByItem runs;
  std::string complaint;
  for (const study::Row& row : record.rows(id, complaint)) {
    const long item = item_of(work, row.number);
    if (item < 0 || item >= work.items()) continue;  // of another way to number them
    if (auto run = run_from(row, work.watches.size())) runs[item].push_back(*std::move(run));
  }
  return runs;
}

std::vector<long> left_of(const AtlasWork& work, const RunsByItem& runs, Much much) {
  const long wanted = much == Much::all ? work.items() : first_suspect(work);
  std::vector<long> left;
  for (long item = 0; item < wanted; ++item) {
    const auto have = runs.find(item);
    if (have == runs.end() || !is_done(work, item, have->second)) left.push_back(item);
  }
  return left;
}

Atlas together(const AtlasWork& work, RunsByItem&& runs, Much much) {
  std::vector<AtlasRun> all;
  for (auto& [item, of_item] : runs) {
    if (much == Much::sound && item >= first_suspect(work)) continue;
    std::ranges::move(of_item, std::back_inserter(all));
  }
  Atlas atlas = atlas_from(work, all);
  if (much == Much::sound) atlas.courses.clear();
  return atlas;
}

}  // namespace

std::optional<Atlas> atlas_of(const AtlasWork& work, const std::string& text, const std::string& version,
                              const std::filesystem::path& file, Much much,
                              const std::function<bool(double share)>& told, std::size_t cores) {
  if (auto kept = kept_atlas(work, text, version, file, much)) return kept;
  auto opened = study::Record::open(file, study::Access::write);
  study::Record* record = std::get_if<study::Record>(&opened);
  RunsByItem runs;
  std::string complaint;
  long id = 0;
  if (record) id = record->study(heading_of(work, text, version), complaint);
  if (id == 0) record = nullptr;
  if (record) runs = runs_of(work, *record, id);
  const std::vector<long> left = left_of(work, runs, much);
  for (const long item : left) runs.try_emplace(item);
  const auto one = [&](long item, const study::PutAway& put_away, const study::GoOn& go_on) {
    std::vector<AtlasRun>& own = runs.at(item);
    const std::vector<AtlasRun> have = own;
    run_item(
        work, item, have,
        [&](AtlasRun run) {
          const bool go =
              put_away({.number = run.number, .outcome = Outcome::held, .detail = to_text(run.shows)});
          own.push_back(std::move(run));
          return go;
        },
        go_on);
  };
  // A disk that is full or a folder that is another's keeps nothing; the answer is wanted all the same.
  const auto keep = [&](const study::Row& row) {
    if (record && !record->keep(id, row).empty()) record = nullptr;
    return std::string();
  };
  const study::Came came = study::do_all(
      left, one, keep,
      [&](long done) {
        return told(static_cast<double>(done) / static_cast<double>(std::max<std::size_t>(left.size(), 1)));
      },
      cores);
  if (auto* whole = std::get_if<study::Record>(&opened)) whole->close();
  if (came.stopped) return std::nullopt;
  return together(work, std::move(runs), much);
}

std::optional<Atlas> kept_atlas(const AtlasWork& work, const std::string& text, const std::string& version,
                                const std::filesystem::path& file, Much much) {
  std::error_code missing;
  if (!std::filesystem::is_regular_file(file, missing)) return std::nullopt;
  auto opened = study::Record::open(file, study::Access::read);
  const study::Record* record = std::get_if<study::Record>(&opened);
  if (!record) return std::nullopt;
  std::string complaint;
  const auto id = record->find(heading_of(work, text, version), complaint);
  if (!id) return std::nullopt;
  RunsByItem runs = runs_of(work, *record, *id);
  if (!left_of(work, runs, much).empty()) return std::nullopt;
  return together(work, std::move(runs), much);
}

}  // namespace poise::diagnose
