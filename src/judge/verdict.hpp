// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "rules/all.hpp"
#include "trace/trace.hpp"

namespace poise {

/// What became of one requirement.
struct Finding {
  std::string name;
  bool held = false;
  std::string promised;  ///< "C1.A.pressure never above 250 bar", in the job's units
  std::string found;     ///< "highest 231 bar"; why it could not be judged where it could not
  std::optional<double>
      margin;  ///< room left in `quantity`, SI; negative when broken; none where there is no number
  Quantity quantity = Quantity::none;
  std::optional<double> share;             ///< margin as a share of what was promised
  std::optional<double> time;              ///< the deciding moment, s
  std::string step;                        ///< the step of that moment
  std::string part;                        ///< tag of the deciding part
  std::optional<std::size_t> requirement;  ///< place in the job's list; none: of those that every job has
};

/// A rule of the trade that the job does not keep at one place.
struct RuleNotKept {
  const rules::TradeRule* rule = nullptr;
  std::string sentence, remedy;   ///< with this job's numbers
  std::string part;               ///< tag; empty: the circuit as a whole
  std::vector<std::string> also;  ///< tags of further parts with which it is likewise
  std::optional<double> time;     ///< the deciding moment, s, where there is one
  std::string step;               ///< the step of that moment
  std::string waived;             ///< the job's reason why this may be; empty: it is not waived
};

/// The answer to a run.
struct Verdict {
  std::vector<Finding> findings;      ///< worst first: broken before held, then by smallest share
  std::vector<RuleNotKept> rules;     ///< what can hurt someone first; the waived ones last
  std::vector<std::string> cautions;  ///< what is worth a word, in sentences
  std::vector<std::string> people;    ///< how this machine can hurt someone, and what keeps it from that
  std::optional<Halt> halt;           ///< the run ended early
  Books books;
  bool books_close = false;  ///< mass ≤ 1e-6 and energy ≤ 1e-3; if not, nothing here is proven
  std::vector<StepSpan> steps;

  /// Everything held, the run came to its end, and the books close. Rules of the trade are no part of it.
  bool holds() const;
  /// How many rules that are not waived are not kept, of one harm.
  long not_kept(rules::Harm harm) const;
};

/// The signals that judging this job needs, each once. These must be in the trace.
std::vector<Signal> signals_needed(const Job& job);

/// The signals that the rules of the trade look at (`solve::RunOptions::glanced_at`); without them only the
/// rules that need no run are judged.
std::vector<Signal> signals_of_rules(const Job& job);

/// Judges a trace by the rules of the trade, as far as the trace shows what they look at, by the job's
/// requirements, and by two that every job has: every step comes to its end, and
/// no part sees more than its rating (700 bar and 10,000 psi are one class: the 1.5 % between them raise no
/// alarm and count as no margin; likewise 70, 210 and 350 bar with 1,000, 3,000 and 5,000 psi).
Verdict judge(const Job& job, const Trace& trace);

}  // namespace poise
