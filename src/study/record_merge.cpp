// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "study/record_merge.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <map>
#include <tuple>

#include "study/record.hpp"
#include "study/record_file.hpp"
#include "study/record_rows.hpp"

namespace poise::study {
namespace {

/// A study of the merged file and the files that have a part of it.
struct Part {
  std::size_t file = 0;
  long id = 0;  ///< there
};
struct Whole {
  Heading heading;
  long lowest = 0;  ///< of the numbers that the files know it by
  std::vector<Part> parts;
};

struct Inputs {
  std::vector<std::filesystem::path> paths;
  std::vector<Record> records;
  std::vector<Whole> studies;  ///< in the order they get in the merged file
};

std::string named_study(const Heading& heading) {
  return heading.title.empty() ? heading.kind : fmt::format("{} of \"{}\"", heading.kind, heading.title);
}

auto order(const Heading& h) {
  return std::tie(h.kind, h.title, h.fingerprint, h.options, h.version, h.job, h.first);
}

std::string add(Inputs& inputs, std::size_t file, Study study) {
  const auto same = [&](const Whole& whole) { return same_study(whole.heading, study.heading); };
  const auto found = std::ranges::find_if(inputs.studies, same);
  if (found == inputs.studies.end()) {
    inputs.studies.push_back({std::move(study.heading), study.id, {{file, study.id}}});
    return {};
  }
  if (found->heading.wanted != study.heading.wanted) {
    return fmt::format("{} and {} do not belong together: of the study {} one wants {} runs, the other {}",
                       named(inputs.paths[found->parts.front().file]), named(inputs.paths[file]),
                       named_study(study.heading), found->heading.wanted, study.heading.wanted);
  }
  found->lowest = std::min(found->lowest, study.id);
  found->parts.push_back({file, study.id});
  return {};
}

/// Opens the files and sorts out which studies they have.
std::string open_all(Inputs& inputs) {
  for (std::size_t i = 0; i < inputs.paths.size(); ++i) {
    auto opened = Record::open(inputs.paths[i], Access::read);
    if (const auto* complaint = std::get_if<std::string>(&opened)) return *complaint;
    inputs.records.push_back(std::get<Record>(std::move(opened)));
    std::string complaint;
    for (Study& study : inputs.records.back().studies(complaint)) {
      if (std::string said = add(inputs, i, std::move(study)); !said.empty()) return said;
    }
    if (!complaint.empty()) return complaint;
  }
  // Files of shards know a study by the number that the whole one would have.
  std::ranges::sort(inputs.studies, [](const Whole& a, const Whole& b) {
    return a.lowest != b.lowest ? a.lowest < b.lowest : order(a.heading) < order(b.heading);
  });
  return {};
}

/// The runs of one study on their way into the merged file.
class Gathering {
 public:
  Gathering(const Inputs& inputs, const Whole& whole, Record& out, long id)
      : inputs_(inputs), whole_(whole), out_(out), id_(id) {}

  std::string take_all() {
    for (const Part& part : whole_.parts) {
      const std::string said =
          inputs_.records[part.file].each_row(part.id, [&](const Row& row) { take(part.file, row); });
      if (!said.empty()) return said;
      put_down();
      if (!complaint_.empty()) return complaint_;
    }
    return {};
  }

  long runs() const { return static_cast<long>(from_.size()); }
  /// Which runs are in none of the files; empty when all are there.
  std::string missing() const;

 private:
  void take(std::size_t file, const Row& row) {
    if (!complaint_.empty()) return;
    const auto [earlier, is_new] = from_.emplace(row.number, file);
    if (!is_new) {
      compare(earlier->second, file, row);
      return;
    }
    waiting_.push_back(row);
    if (waiting_.size() >= together) put_down();
  }

  void compare(std::size_t first, std::size_t second, const Row& row) {
    std::string said;
    const auto part = std::ranges::find(whole_.parts, first, &Part::file);
    const auto there = inputs_.records[first].row(part->id, row.number, said);
    if (!said.empty()) complaint_ = said;
    if (said.empty() && !(there && same_row(*there, row))) {
      complaint_ = fmt::format(
          "{} and {} contradict each other: run {} of the study {} came out differently; find out which is "
          "right and "
          "make the other anew",
          named(inputs_.paths[first]), named(inputs_.paths[second]), row.number, named_study(whole_.heading));
    }
  }

  void put_down() {
    if (complaint_.empty() && !waiting_.empty()) complaint_ = out_.keep(id_, waiting_);
    waiting_.clear();
  }

  static constexpr std::size_t together = 1000;  // runs in one transaction
  const Inputs& inputs_;
  const Whole& whole_;
  Record& out_;
  long id_;
  std::map<long, std::size_t> from_;  ///< number of a run → the file it came from
  std::vector<Row> waiting_;
  std::string complaint_;
};

std::string Gathering::missing() const {
  if (whole_.heading.wanted == 0) return "";
  constexpr int named_at_most = 10;
  std::string names;
  long count = 0;
  int spans = 0;
  long next = whole_.heading.first;
  const auto gap = [&](long begin, long end) {  // the runs from begin to before end
    if (begin >= end) return;
    count += end - begin;
    if (++spans > named_at_most) return;
    names += names.empty() ? "" : ", ";
    names += end - begin == 1 ? fmt::format("{}", begin) : fmt::format("{} to {}", begin, end - 1);
  };
  const long end = whole_.heading.first + whole_.heading.wanted;
  for (const auto& [number, file] : from_) {
    gap(next, std::min(number, end));
    next = std::max(next, number + 1);
  }
  gap(next, end);
  if (count == 0) return {};
  return fmt::format("{} of the {} runs of the study {} are in none of the files: {}{}", count,
                     whole_.heading.wanted, named_study(whole_.heading), names,
                     spans > named_at_most ? ", ..." : "");
}

/// Fills the new file.
std::string gather(const Inputs& inputs, const std::filesystem::path& draft, Merged& merged) {
  auto opened = Record::open(draft, Access::write);
  if (const auto* complaint = std::get_if<std::string>(&opened)) return *complaint;
  Record out = std::get<Record>(std::move(opened));
  for (const Whole& whole : inputs.studies) {
    std::string complaint;
    const long id = out.study(whole.heading, complaint);
    if (!complaint.empty()) return complaint;
    Gathering gathering(inputs, whole, out, id);
    if (std::string said = gathering.take_all(); !said.empty()) return said;
    if (std::string said = gathering.missing(); !said.empty()) merged.missing.push_back(std::move(said));
    merged.runs += gathering.runs();
    ++merged.studies;
  }
  return out.close();
}

/// Nobody knows the draft by its name.
std::string as_of(const std::filesystem::path& out, std::string sentence, const std::string& draft) {
  if (const auto at = sentence.find(draft); at != std::string::npos)
    sentence.replace(at, draft.size(), out.string());
  return sentence;
}

std::string taken(const std::filesystem::path& out) {
  return fmt::format("There is a file {} already; name another one", named(out));
}

/// Moves the finished file to its place, where nothing may stand.
std::string put_in_place(const std::filesystem::path& draft, const std::filesystem::path& out) {
  if (::renameat2(AT_FDCWD, draft.c_str(), AT_FDCWD, out.c_str(), RENAME_NOREPLACE) == 0) return {};
  // A file system that knows no such renaming: a second name does it.
  if ((errno == EINVAL || errno == ENOSYS) && ::link(draft.c_str(), out.c_str()) == 0) {
    ::unlink(draft.c_str());
    return {};
  }
  if (errno == EEXIST) return taken(out);
  return system_sentence(out, "cannot be written", errno);
}

void clear_away(const std::filesystem::path& draft) {
  std::error_code error;
  for (const char* ending : {"", "-wal", "-shm", "-journal"})
    std::filesystem::remove(draft.string() + ending, error);
}

constexpr std::string_view draft_mark = ".merging-";
constexpr std::size_t draft_signs = 6;  // that mkstemp chooses

/// Clears away the drafts of mergings into this file that were killed: whoever is at one keeps it locked.
void clear_stale_drafts(const std::filesystem::path& place) {
  const std::string begin = place.filename().string() + std::string(draft_mark);
  std::error_code error;
  std::vector<std::filesystem::path> drafts;
  for (auto each = std::filesystem::directory_iterator(place.parent_path(), error);
       !error && each != std::filesystem::directory_iterator(); each.increment(error)) {
    const std::string name = each->path().filename().string();
    if (name.starts_with(begin) && name.size() == begin.size() + draft_signs) drafts.push_back(each->path());
  }
  for (const std::filesystem::path& draft : drafts) {
    WriteLock lock;
    if (lock.take(draft).empty()) clear_away(draft);
  }
}

}  // namespace

Merged merge(const std::filesystem::path& out, std::vector<std::filesystem::path> inputs) {
  Merged merged;
  const std::filesystem::path place = real_place(out);
  std::error_code error;
  merged.complaint = std::filesystem::exists(place, error) ? taken(place) : place_complaint(place, false);
  if (!merged.complaint.empty()) return merged;
  Inputs all{.paths = std::move(inputs)};
  // The same complaint, too, whatever the order.
  for (std::filesystem::path& path : all.paths) path = real_place(path);
  std::ranges::sort(all.paths);
  all.paths.erase(std::unique(all.paths.begin(), all.paths.end()), all.paths.end());
  merged.complaint = open_all(all);
  if (!merged.complaint.empty()) return merged;

  clear_stale_drafts(place);
  std::string draft = place.string() + std::string(draft_mark) + std::string(draft_signs, 'X');
  const int file = ::mkstemp(draft.data());
  if (file < 0) {
    merged.complaint = system_sentence(place, "cannot be written", errno);
    return merged;
  }
  // As any new file of this user.
  const mode_t mask = ::umask(0);
  ::umask(mask);
  ::fchmod(file, 0666 & ~mask);
  ::close(file);
  merged.complaint = as_of(place, gather(all, draft, merged), draft);
  if (merged.complaint.empty()) merged.complaint = put_in_place(draft, place);
  if (!merged.complaint.empty()) clear_away(draft);
  return merged;
}

}  // namespace poise::study
