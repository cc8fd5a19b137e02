// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "job/keys.hpp"

#include <algorithm>

#include "units/units.hpp"

namespace poise::job {
namespace {

constexpr std::string_view note_meaning = "Free text.";
constexpr Key drawn_at{"drawn_at", KeyForm::place,
                       "Where the symbol stands on the drawing: modules to the right and up from its lower "
                       "left corner, [40, 25]. Left out: set down by itself."};
constexpr Key assembly{"assembly", KeyForm::text,
                       "Parts with the same word are drawn together, inside an edge of that name."};
constexpr Key code{"code", KeyForm::code,
                   "Its own code after ISO 1219-2: medium (H for oil), circuit, component, such as \"H2.3\"; "
                   "with several systems \"1-H2.3\". Left out: a code that is free."};

constexpr std::array job_keys{
    Key{"title", KeyForm::text, "What the job is called. Left out: the file's name."},
    Key{"note", KeyForm::text, note_meaning},
    Key{"stock", KeyForm::files,
        "Parts lists (.csv, .toml), or folders of them, from the job file's folder: \"../stock\"."},
    Key{"units", KeyForm::units, "The units in which results are shown. Left out: \"metric\"."},
    Key{"plugged", KeyForm::ports, "Ports that are closed on purpose: [\"V2.B\"]."},
    Key{"joined", KeyForm::joints,
        "Plain connections in short: lists of ports that are joined, [[\"P1.P\", \"V1.P\"]]."},
    Key{"oil", KeyForm::oil, "The oil. Left out: a mineral oil ISO VG 46."},
    Key{"parts", KeyForm::parts, "The parts, each by its tag: [parts.P1].", true},
    Key{"lines", KeyForm::lines, "How the parts are joined."},
    Key{"steps", KeyForm::step_list, "The cycle, step by step.", true},
    Key{"controls", KeyForm::controls, "What acts through the whole cycle, whatever step it is in."},
    Key{"require", KeyForm::requirements, "What must hold."},
    Key{"waive", KeyForm::waivers, "Rules of the trade that are not kept on purpose, each with its reason."},
    Key{"drawing", KeyForm::drawing, "The drawing as a whole."},
};

constexpr std::array part_keys{
    Key{"kind", KeyForm::kind, "What it is; its values depend on it.", true},
    Key{"model", KeyForm::model,
        "The item of the job's parts lists that it is, by name; its values are the part's. \"find\": left to "
        "poise find."},
    Key{"note", KeyForm::text, "What the part does, in your own words; drawings show it."},
    drawn_at,
    assembly,
    code,
};

constexpr std::array conduit_keys{part_keys[1], Key{"note", KeyForm::text, note_meaning}};

constexpr std::array line_keys{
    Key{"from", KeyForm::port, "A port, such as \"P1.P\".", true},
    Key{"to", KeyForm::ports,
        "A port, or a list of ports; all are joined as if directly. A hose or tube has one.", true},
    Key{"hose", KeyForm::hose, "The line is a hose, its port A at from, its port B at to."},
    Key{"tube", KeyForm::tube, "The line is a tube, its port A at from, its port B at to."},
    Key{"tag", KeyForm::tag, "Of the hose or tube. Left out: made of its ends, \"V2.A-C1.A\"."},
    Key{"note", KeyForm::text, note_meaning},
    drawn_at,
    assembly,
    code,
};

constexpr std::array oil_keys{
    Key{"temperature_range", KeyForm::temperatures,
        "The coldest and the hottest oil that the machine is to work with: [\"10 degC\", \"55 degC\"]. "
        "temperature lies in it."},
    Key{"note", KeyForm::text, note_meaning},
};

constexpr std::array units_keys{
    Key{"base", KeyForm::base, "The system of all quantities that have no key here. Left out: \"metric\"."},
};

constexpr Key over{"over", KeyForm::duration,
                   "How long these changes take: \"0.5 s\". Left out: each part's own time (shift_time, "
                   "start_time, ...), or none."};

constexpr std::array step_keys{
    Key{"name", KeyForm::name, "Each step its own.", true},
    Key{"note", KeyForm::text, note_meaning},
    Key{"set", KeyForm::commands,
        "What changes as the step begins: { V2 = \"a\", P1 = \"on\", F1 = \"3 kN\" }; \"N1.turns\" = "
        "\"2.5 turns\" where a part has several things to set."},
    Key{"move", KeyForm::moves,
        "In a job without a circuit: what actuators are to do, { C1 = \"out\" }. poise propose composes the "
        "circuit."},
    over,
    Key{"lasts", KeyForm::duration, "How long the step lasts: \"4 s\"; 1 ms … 1 day. Or else until."},
    Key{"until", KeyForm::conditions,
        "The step ends when this holds, or all of a list: \"C1.A.pressure > 180 bar\", \"S1 on\"."},
    Key{"at_most", KeyForm::duration, "With until: the longest wait. Left out: 60 s; 1 ms … 1 day."},
};

constexpr std::array control_keys{
    Key{"name", KeyForm::name, "In your own words. Left out: made of its conditions."},
    Key{"note", KeyForm::text, note_meaning},
    Key{"when", KeyForm::conditions,
        "It acts at the moment this comes to hold, or all of a list: \"S1 on\", \"C1.A.pressure > 180 bar\".",
        true},
    Key{"set", KeyForm::switching, "What changes then: { P1 = \"off\" }.", true},
    over,
};

constexpr std::array requirement_keys{
    Key{"name", KeyForm::text, "In your own words. Left out: made of the rest."},
    Key{"note", KeyForm::text, note_meaning},
    Key{"during", KeyForm::steps, "A step's name, or a list of them. Left out: the whole cycle."},
    Key{"harm", KeyForm::harm, "What breaking it does. May be left out."},
    Key{"never_above", KeyForm::signal, "This signal never passes limit upwards: \"P1.P.pressure\"."},
    Key{"never_below", KeyForm::signal, "This signal never passes limit downwards: \"C1.position\"."},
    Key{"reached", KeyForm::condition,
        "This is met within a time from the start of the first of these steps: \"S1.force > 15 kN\"."},
    Key{"first", KeyForm::conditions,
        "All of this holds before the earliest of then, and still holds at that moment."},
    Key{"then", KeyForm::conditions, "What first has to come before; the earliest of a list counts."},
    Key{"band", KeyForm::signal, "This signal stays between low and high."},
    Key{"drift", KeyForm::signal,
        "This signal changes by no more than limit from the start of the steps, or from settle later, on."},
    Key{"level", KeyForm::signals,
        "The greatest difference of these signals stays within limit: [\"C1.position\", \"C2.position\"]."},
    Key{"limit", KeyForm::limit, "With its unit: \"200 bar\". Of drift and level more than zero."},
    Key{"within", KeyForm::duration, "A time, more than zero: \"5 s\"."},
    Key{"gap", KeyForm::duration, "How long first holds before then at least. Left out: 0 s."},
    Key{"low", KeyForm::limit, "The lower end of the band, with its unit."},
    Key{"high", KeyForm::limit, "The upper end of the band, with its unit."},
    Key{"settle", KeyForm::duration, "How long after the start drift begins to count. Left out: 0 s."},
};

constexpr std::array question_table{
    Question{.key = "never_above", .needs = {"limit"}, .meaning = "a signal never passes a limit upwards"},
    Question{.key = "never_below", .needs = {"limit"}, .meaning = "a signal never passes a limit downwards"},
    Question{.key = "reached", .needs = {"within"}, .meaning = "a condition is met in time"},
    Question{.key = "first", .needs = {"then"}, .may = "gap", .meaning = "one thing comes before another"},
    Question{.key = "band", .needs = {"low", "high"}, .meaning = "a signal stays between two values"},
    Question{.key = "drift", .needs = {"limit"}, .may = "settle", .meaning = "a signal stays as it is"},
    Question{.key = "level", .needs = {"limit"}, .meaning = "several signals stay alike"},
};

constexpr std::array waiver_keys{
    Key{"rule", KeyForm::rule, "The rule that is not kept; poise rules explains each.", true},
    Key{"part", KeyForm::tags,
        "A tag, or a list of tags, that it is waived for. Left out: wherever it is not kept."},
    Key{"reason", KeyForm::reason, "A sentence that says why this may be; verdict and papers repeat it.",
        true},
};

constexpr std::array drawing_keys{
    Key{"paper", KeyForm::paper, "Left out: as large as the drawing needs."},
    Key{"codes", KeyForm::on_off, "Whether codes stand beside the symbols. Left out: \"on\"."},
    Key{"author", KeyForm::text, "For the title block."},
    Key{"date", KeyForm::text, "For the title block, in quotation marks: \"25 November 2026\"."},
    Key{"revision", KeyForm::text, "For the title block."},
};

}  // namespace

namespace keys {

std::span<const Key> of_job() { return job_keys; }
std::span<const Key> of_part() { return part_keys; }
std::span<const Key> of_conduit() { return conduit_keys; }
std::span<const Key> of_line() { return line_keys; }
std::span<const Key> of_oil() { return oil_keys; }
std::span<const Key> of_units() { return units_keys; }
std::span<const Key> of_step() { return step_keys; }
std::span<const Key> of_control() { return control_keys; }
std::span<const Key> of_requirement() { return requirement_keys; }
std::span<const Key> of_waiver() { return waiver_keys; }
std::span<const Key> of_drawing() { return drawing_keys; }

}  // namespace keys

std::string unit_key(Quantity quantity) {
  std::string key(units::name(quantity));
  std::ranges::replace(key, ' ', '_');
  return key;
}

std::span<const Question> questions() { return question_table; }

}  // namespace poise::job
