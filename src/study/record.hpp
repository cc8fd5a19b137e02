// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "study/row.hpp"

namespace poise::study {

/// What one study is of: it is the same study where all of this but `wanted` is the same.
struct Heading {
  std::string kind;         ///< "spread", "faults", "pairs of faults"
  std::string title;        ///< of the job
  std::string fingerprint;  ///< SHA-256 in hex of the job's text and of its lists
  std::string options;      ///< JSON: what else decides on the runs, such as the seed
  std::string version;      ///< of Poise
  std::string job;          ///< its text
  long first = 0;           ///< number of the first run
  /// How many runs there are to be, numbered without a gap; may be raised later. 0: not known beforehand.
  long wanted = 0;
  std::vector<Promise> promises;
};

/// Whether two headings are of the same study.
bool same_study(const Heading& a, const Heading& b);

/// A study of a record and the number under which the record knows it.
struct Study {
  long id = 0;
  Heading heading;
};

/// `write`: the file is made where it is missing, and nobody else writes it meanwhile. `read`: it must be
/// there; others may be writing it.
enum class Access { read, write };

/// Studies of a job in one SQLite file. Every run is in the file when `keep` returns: whoever kills the
/// program loses the run under way and nothing else. Others read while it is written. What goes wrong with
/// disks, folders and files is said in a sentence, never thrown; what was recorded before stays readable. For
/// one thread at a time.
///
/// While it is written, `FILE-lock`, `FILE-wal` and `FILE-shm` stand beside it; where a file system cannot do
/// that, `FILE-journal`. Closing leaves the one file, with the same bytes for the same studies.
class Record {
 public:
  /// The record, or why there is none.
  static std::variant<Record, std::string> open(const std::filesystem::path& path, Access access);
  Record(Record&&) noexcept;
  Record& operator=(Record&&) noexcept;
  ~Record();  ///< as close(), without a word

  /// The study of this heading; added where the file has none such. `wanted` of one that has runs is raised,
  /// never lowered. 0 with a complaint where that did not work.
  long study(const Heading& heading, std::string& complaint);
  /// Records a run. Empty when it is in the file; also when it stood there already, all the same. A number
  /// that stands there with another outcome is refused.
  std::string keep(long study, const Row& row);
  /// The same for several runs, all of them or none.
  std::string keep(long study, std::span<const Row> rows);
  /// Drops all runs of a study, to begin anew; its heading stays. Call study() after it.
  std::string forget(long study);

  // These read from one moment of the file. `complaint` stays as it is when all went well.
  std::optional<long> find(const Heading& heading, std::string& complaint) const;
  std::vector<Study> studies(std::string& complaint) const;          ///< in the order they were begun
  std::vector<long> done(long study, std::string& complaint) const;  ///< numbers of the runs, rising
  std::vector<Row> rows(long study, std::string& complaint) const;   ///< by number
  std::optional<Row> row(long study, long number, std::string& complaint) const;
  bool has_details(long study, std::string& complaint) const;  ///< whether any run of it has one
  /// Hands over the runs of a study by number, one at a time; empty or the complaint.
  std::string each_row(long study, const std::function<void(const Row&)>& take) const;

  const std::filesystem::path& path() const;
  /// Closes the file. Empty, or what could not be tidied up; no run is lost by that. Nothing else may be
  /// called after it.
  std::string close();

 private:
  struct File;
  explicit Record(std::unique_ptr<File> file);
  std::unique_ptr<File> file_;
};

/// Everything in a record as text, the same for the same studies whatever their order in the file, whatever
/// was interrupted or merged on the way. For tests and comparisons.
std::string content(const Record& record, std::string& complaint);

}  // namespace poise::study
