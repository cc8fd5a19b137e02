// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace poise::compose {

/// A job's text after a change of its circuit. Where it cannot be made, `complaint` says why and the text is
/// empty.
struct Changed {
  std::string text;
  std::string complaint;
  std::string says;  ///< what was done, in a few words: "check V7 onto the line of P1.P"
  std::string tag;   ///< of the part that it is now about; may be empty
};

/// Ports are named as in a job, "P1.P". All of these take the text of a job, which may be half written.

/// A part of the kind, not joined to anything yet.
Changed put_first(std::string_view text, std::string_view kind);
/// Reservoir, pump and relief valve, joined to each other.
Changed put_power_unit(std::string_view text);
/// Cuts a line between the ports `here` and those `there` and puts a part of the kind into the gap: its
/// working port that oil enters by on the side that is nearer to a pump.
Changed put_onto(std::string_view text, const std::vector<std::string>& here,
                 const std::vector<std::string>& there, std::string_view kind);
/// A new part of the kind on the line that `port` belongs to; a port of it that gives oil off (a relief
/// valve's T, a drain) is joined to the reservoir that the line's pump sucks from.
Changed branch_off(std::string_view text, std::string_view port, std::string_view kind);

Changed join(std::string_view text, const std::vector<std::string>& ports);
/// Takes a port off its line; the others of the line stay joined.
Changed part_from(std::string_view text, std::string_view port);
Changed plug(std::string_view text, std::string_view port);
Changed unplug(std::string_view text, std::string_view port);
/// Lays a line's entry as a "hose", a "tube", or "" for directly. `line` counts the entries of [[lines]].
Changed lay(std::string_view text, std::size_t line, std::string_view kind);

/// Another kind with the same tag; values of the same names are kept. Where oil came in and went out it does
/// so again; of the other ports those of the same names are kept, and those of the same use where there is
/// only one.
Changed replace(std::string_view text, std::string_view tag, std::string_view kind);
/// Takes a part out. What stood on a line leaves the line whole; steps no longer set it; requirements about
/// it stay, with a complaint, for a promise is not dropped in passing.
Changed remove(std::string_view text, std::string_view tag);
/// Another tag wherever the part is named, signals and steps included.
Changed rename(std::string_view text, std::string_view tag, std::string_view to);
/// The part and all that hangs on the circuit only by it, once more, on the same line, and set by the same
/// steps.
Changed duplicate(std::string_view text, std::string_view tag);
/// A part on a line the other way round.
Changed turn_round(std::string_view text, std::string_view tag);

/// A job to begin with.
struct Start {
  std::string_view name;  ///< "single-lift"
  std::string_view title;
  std::string_view sentence;
  std::string_view metric, us;  ///< the text, in both worlds of units
};
/// "empty" and those for the usual jobs.
const std::vector<Start>& starts();

}  // namespace poise::compose
