// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "circuit/plan.hpp"
#include "circuit/schedule.hpp"
#include "job/edit.hpp"
#include "job/stock.hpp"
#include "rules/rule.hpp"
#include "units/units.hpp"

namespace poise {

/// Never above, or never below, a limit.
struct Never {
  Signal signal;
  bool above = true;
  double limit = 0.0;
};

/// A signal gets to a condition within a time from the start of the steps it is asked for.
struct Reached {
  Condition condition;
  double within = 0.0;
};

/// `first` holds before `then` does for the first time, by at least `gap`, and still holds at that moment. If
/// `then` never happens, it is broken too: an order that is never seen is not proven.
struct Order {
  std::vector<Condition> first;
  std::vector<Condition> then;  ///< the earliest counts
  double gap = 0.0;
};

/// A signal stays between two values.
struct Band {
  Signal signal;
  double low = 0.0, high = 0.0;
};

/// A signal changes by no more than a limit from the beginning of the steps (or `settle` later) to any later
/// moment.
struct Drift {
  Signal signal;
  double limit = 0.0;
  double settle = 0.0;
};

/// The greatest difference between several signals is no more than a limit, at every moment.
struct Level {
  std::vector<Signal> signals;
  double limit = 0.0;
};

/// What the machine must do.
struct Requirement {
  std::string name;  ///< in the job's own words, or made from the rest
  std::variant<Never, Reached, Order, Band, Drift, Level> what;
  std::vector<std::string> during;  ///< names of steps; empty: the whole cycle
  Place place;
  std::optional<rules::Harm> harm{};  ///< of breaking it, where the job says so
};

/// A tolerance that a parts list or the job states for one value.
struct StatedTolerance {
  int part = 0;       ///< of the plan; −1: the oil
  int parameter = 0;  ///< place in the table of its kind, or in `oil_parameters`
  Tolerance tolerance;
  bool from_list = false;  ///< the parts list says so, not the job
  Place place;
};

/// The oil's temperatures between which the machine is to work, K.
struct TemperatureRange {
  double coldest = 0.0, hottest = 0.0;
};

/// A rule of the trade that is not kept on purpose, and why.
struct Waiver {
  std::string rule;                ///< name of a rule of the catalogue
  std::vector<std::string> parts;  ///< tags of the parts that it is waived for; empty: wherever it is broken
  std::string reason;              ///< in the job's words; verdict and papers repeat it
  Place place;
};

/// A value that the job leaves open with the word "find".
struct Sought {
  enum class Of { part, command, model };
  Of of = Of::part;
  int part = 0;               ///< of the plan
  int parameter = 0;          ///< place in the table of its kind; of a model: 0
  int step = 0, command = 0;  ///< of a command: which one
  Place place;                ///< of the word
  job::Way way{};             ///< to it
  std::vector<int>
      stated{};  ///< of a model: the parameters that the part states itself, open ones among them
};

/// What a step asks of an actuator in a job that has no circuit yet.
struct Move {
  enum class Goes { out, in, hold };
  int step = 0, part = 0;
  Goes goes = Goes::hold;
  Place place;  ///< of its word
};

/// How a part is wished to stand on the drawing, and what is written of it.
struct DrawnPart {
  std::optional<std::array<double, 2>> at{};  ///< modules from the drawing's lower left corner, right and up
  std::string assembly{};                     ///< drawn inside the edge of this name
  std::string code{};                         ///< its own code after ISO 1219-2
  std::string note{};                         ///< what it does, in the job's words
  std::string model{};                        ///< the item of the job's stock that it is; empty: none
  /// Parameters that were missing or not understood: their values stand in and are not to be shown.
  std::vector<std::string_view> stand_ins{};
};

/// What the job says of its drawing as a whole.
struct Drawing {
  std::string paper;  ///< a word of `paper_words`; empty: as large as the drawing needs
  bool codes = true;  ///< whether codes stand beside the symbols
  std::string author, date, revision;
};

inline constexpr std::array<std::string_view, 3> paper_words{"A4", "A3", "Letter"};

/// A job as read: what is given, what is done, what must hold.
struct Job {
  std::string title;
  std::string note;
  units::World world;  ///< the units that people of this job see
  Plan plan;
  Schedule steps;
  Controls controls;
  std::vector<Requirement> requirements;
  std::vector<Waiver> waivers;
  Drawing drawing;
  std::vector<DrawnPart> drawn;          ///< one for each part of the plan
  std::shared_ptr<const Stock> stock{};  ///< the parts lists that it names; null: none
  std::vector<Sought> sought;  ///< in the order of the text; the values stand in and mean nothing. Empty in a
                               ///< job that can be run
  std::vector<StatedTolerance>
      tolerances{};  ///< one at most for each value; the job's word before the list's
  std::optional<TemperatureRange> oil_temperatures{};  ///< where the job states them
  std::vector<Move> moves;  ///< in the order of the text. Empty in a job that can be run
};

/// The item of the stock that a part is, or null.
const StockItem* item_of(const Job& job, int part);

/// All that is wrong with a job's text, in the order of its lines. Each sentence says what was found, what
/// was expected, and the nearest known word.
struct Complaints {
  std::string file;
  std::vector<Remark> list;
  /// "fixture.toml:41:13: setting "210" has no unit; expected a pressure, such as "210 bar"" and the line
  /// with a caret.
  std::string text(std::string_view source) const;
};

/// Reads a job. Never throws for what is in the text; every complaint is reported, not only the first. Paths
/// in it start from the folder of `file_name`.
std::variant<Job, Complaints> read_job(std::string_view text, std::string_view file_name);

/// The same for a job that leaves values open with "find", which `read_job` complains about: they are in
/// `sought`.
std::variant<Job, Complaints> read_job_to_find(std::string_view text, std::string_view file_name);

/// The same for a job without a circuit, whose steps say with `move` what its actuators are to do. `read_job`
/// complains about that; it may leave values open as well.
std::variant<Job, Complaints> read_job_to_compose(std::string_view text, std::string_view file_name);

/// Reads a file; one that cannot be opened, is empty or not text is a complaint too.
std::variant<Job, Complaints> read_job_file(const std::filesystem::path& path, std::string* text = nullptr);
std::variant<Job, Complaints> read_job_file_to_find(const std::filesystem::path& path,
                                                    std::string* text = nullptr);
std::variant<Job, Complaints> read_job_file_to_compose(const std::filesystem::path& path,
                                                       std::string* text = nullptr);

}  // namespace poise
