// Copyright 2026 The Poise founders. Licence: Apache-2.0.
#include "solve/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "solve/halts.hpp"
#include "solve/integrator.hpp"
#include "solve/patience.hpp"
#include "solve/tightening.hpp"
#include "solve/watchers.hpp"
#include "solve/wiring.hpp"

namespace poise::solve {
namespace {

/// A happening is over when it is this far past, m.
constexpr double well_past = 1 * si::micrometre;

enum Account { shaft, put_in, flow_heat, friction, delivered, drawn, accounts };

/// One run from its first moment to its last: equations, integrator, and the trace that grows.
class Runner {
 public:
  Runner(const Circuit& circuit, const Schedule& steps, const RunOptions& options)
      : equations_(circuit), steps_(steps), options_(options), wiring_(options.controls) {
    for (const Step& step : steps) planned_ += step.lasts;
    if (options.heat_of_parts) heat_accounts_ = circuit.planned;
    for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
      const auto count = static_cast<int>(circuit.parts[p].kind->happenings.size());
      for (int i = 0; i < count; ++i) happenings_.push_back({static_cast<int>(p), i});
      if (!circuit.parts[p].kind->modes.empty()) with_modes_.push_back(static_cast<int>(p));
      modes_ += circuit.parts[p].kind->modes.size();
    }
  }

  Trace run(const std::vector<Signal>& signals);

 private:
  struct PartHappening {
    int part, index;
    bool armed = false;
  };

  System system();
  bool crossings(double time, const double* y, double* values);
  void settle(Integrator& integrator);
  void do_step(Integrator& integrator, Watchers& watchers, const Step& step);
  bool conditions_hold(const Step& step, double now, const double* y);
  bool obey_controls(const Integrator& integrator, double now, bool at_crossing);
  void note_happenings(const Integrator& integrator);
  void arm_happenings(const Integrator& integrator);
  bool turn_modes(const Integrator& integrator, double now, bool at_crossing);
  int crossing_count() const { return static_cast<int>(2 + happenings_.size() + modes_ + wiring_.size()); }
  void open_books(const Integrator& integrator);
  void close_books(const Integrator& integrator);
  double oil_in(const double* y, bool reservoirs) const;
  void look(double time, const double* y);
  void look_inside(const Integrator& integrator);

  Equations equations_;
  const Schedule& steps_;
  const RunOptions& options_;
  std::vector<PartHappening> happenings_;
  std::vector<int> with_modes_;  ///< parts that have modes
  std::size_t modes_ = 0;        ///< of all parts together
  int heat_accounts_ = 0;        ///< one for each part where they are asked for
  Wiring wiring_;
  const Step* waiting_ = nullptr;  ///< the step whose conditions are being watched
  Trace trace_;
  double planned_ = 0.0, all_oil_ = 0.0;
  Equations::Stores stores_;
  std::vector<double> account_;
  std::size_t looked_ = 0;  ///< moments of options_.look_at that are done
};

System Runner::system() {
  Equations* e = &equations_;
  return {.size = e->layout().size,
          .column_starts = e->pattern().column_starts(),
          .rows = e->pattern().rows(),
          .rates = [e](double t, const double* y, double* rate) { return e->rates(t, y, rate); },
          .jacobian = [e](double t, const double* y, double* values) { return e->jacobian(t, y, values); },
          .noise = [this](const double* y,
                          double* size) { return equations_.noise(y, options_.tolerances, size); },
          .integrals = accounts + heat_accounts_,
          .integral_error = {options_.tolerances.relative, options_.tolerances.energy},
          .integrands =
              [e, heats = static_cast<std::size_t>(heat_accounts_)](double t, const double* y, double* rate) {
                if (!e->observe(t, y)) return false;
                const std::span heat_of_part(rate + accounts, heats);
                std::ranges::fill(heat_of_part, 0.0);
                const auto p = e->powers(heat_of_part);
                rate[shaft] = p.shaft;
                rate[put_in] = p.put_in;
                rate[flow_heat] = p.flow_heat;
                rate[friction] = p.friction;
                rate[delivered] = p.delivered;
                rate[drawn] = p.drawn;
                return true;
              },
          .crossings = [this](double t, const double* y, double* values) { return crossings(t, y, values); }};
}

/// Crossing 0: what nothing withstands, a pressure or a speed. Crossing 1: the conditions of the step. Then
/// the happenings, then the modes, then the controls: of one that has acted, the end of its conditions. One
/// that has happened is not looked for again until it is well past: a rod at rest on its stop is at zero to
/// the last digit.
bool Runner::crossings(double time, const double* y, double* values) {
  if (!equations_.observe(time, y)) return false;
  values[0] = past_all_bounds(equations_, y, options_.burst_pressure);
  values[1] = waiting_ ? room_of(waiting_->until, equations_) : -1.0;
  std::size_t at = 0;
  while (at < happenings_.size()) {
    std::array<double, max_happenings> passing{};
    const int part = happenings_[at].part;
    equations_.passing(part, passing);
    for (; at < happenings_.size() && happenings_[at].part == part; ++at) {
      values[2 + at] = happenings_[at].armed ? passing[happenings_[at].index] : -1.0;
    }
  }
  double* turn = values + 2 + at;
  for (int part : with_modes_) {
    const std::size_t count = equations_.circuit().parts[part].kind->modes.size();
    equations_.turning(part, {turn, count});
    turn += count;
  }
  wiring_.crossings(equations_, turn);
  return true;
}

/// Turns every mode whose time has come, those that follow from others too; true if there were any.
bool Runner::turn_modes(const Integrator& integrator, double now, bool at_crossing) {
  constexpr int rounds = 8;  // more in one moment is a part that cannot make up its mind
  const std::size_t first = 2 + happenings_.size();
  const bool note = !trace_.steps.empty();
  bool any = false;
  for (int round = 0, turned = 1; turned > 0 && round < rounds; ++round) {
    turned = 0;
    equations_.observe(now, integrator.y().data());
    std::size_t at = first;
    for (int p : with_modes_) {
      const PlacedPart& part = equations_.circuit().parts[p];
      std::array<double, max_modes> turning{};
      equations_.turning(p, turning);
      for (int m = 0; m < static_cast<int>(part.kind->modes.size()); ++m, ++at) {
        // A located crossing may stand a rounding short of zero.
        const bool located = at_crossing && round == 0 && integrator.crossed()[at] > 0;
        if (!(turning[m] > 0.0) && !located) continue;
        equations_.turn_mode(p, m);
        ++turned;
        const Mode& mode = part.kind->modes[m];
        if (note) {
          trace_.events.push_back(
              {now, p, part.tag + " " + std::string(equations_.mode(p, m) ? mode.on : mode.off), {}});
        }
      }
    }
    any = any || turned > 0;
  }
  return any;
}

bool Runner::conditions_hold(const Step& step, double now, const double* y) {
  equations_.observe(now, y);
  return std::ranges::all_of(step.until,
                             [&](const Condition& c) { return c.room(equations_.signal(c.signal)) >= 0.0; });
}

/// Carries out the commands of every control whose conditions have come to hold, and those of others that
/// follow from it; true if there were any. Modes that turn by it turn here too.
bool Runner::obey_controls(const Integrator& integrator, double now, bool at_crossing) {
  constexpr int rounds = 8;  // more in one moment is wiring that runs in a circle
  if (wiring_.size() == 0) return false;
  const std::span<const int> located =
      at_crossing ? integrator.crossed().subspan(2 + happenings_.size() + modes_) : std::span<const int>{};
  bool any = false;
  for (int round = 0; round < rounds; ++round) {
    equations_.observe(now, integrator.y().data());
    const auto due = wiring_.due(equations_, now, round == 0 ? located : std::span<const int>{});
    if (due.empty()) break;
    any = true;
    for (const Control* control : due) {
      trace_.events.push_back(event_of(*control, now, equations_.circuit()));
      carry_out(control->commands, now, equations_);
    }
    turn_modes(integrator, now, false);
  }
  return any;
}

void Runner::arm_happenings(const Integrator& integrator) {
  equations_.observe(integrator.time(), integrator.y().data());
  for (PartHappening& h : happenings_) {
    if (h.armed) continue;
    std::array<double, max_happenings> passing{};
    equations_.passing(h.part, passing);
    h.armed = passing[h.index] < -well_past;
  }
}

void Runner::note_happenings(const Integrator& integrator) {
  for (std::size_t i = 0; i < happenings_.size(); ++i) {
    if (integrator.crossed()[2 + i] <= 0) continue;
    happenings_[i].armed = false;
    const auto& part = equations_.circuit().parts[happenings_[i].part];
    trace_.events.push_back(
        {integrator.time(),
         happenings_[i].part,
         part.tag + " " + std::string(part.kind->happenings[happenings_[i].index].sentence),
         {}});
  }
}

void Runner::settle(Integrator& integrator) {
  const double begin = -options_.settle_at_most;
  std::vector<double> rate(integrator.y().size()), noise(rate.size());
  const int watched = modes_ > 0 ? crossing_count() : 0;
  integrator.restart(begin, watched);
  turn_modes(integrator, begin, false);
  Patience patience(begin, options_.most_steps);
  while (integrator.time() < 0.0) {
    const auto end = integrator.step(0.0);
    trace_.halt = patience.ends(end, integrator, equations_);
    equations_.observe(integrator.time(), integrator.y().data());
    if (past_all_bounds(equations_, integrator.y().data(), HUGE_VAL) > 0.0)
      trace_.halt = bounds_passed_at(integrator, equations_, HUGE_VAL);
    if (trace_.halt) return;
    if (end == Integrator::End::crossing) {
      turn_modes(integrator, integrator.time(), true);
      integrator.restart(integrator.time(), watched);
    }
    if (integrator.time() < begin + 0.5) continue;
    // At rest: in a second nothing would move by more than its noise.
    equations_.rates(integrator.time(), integrator.y().data(), rate.data());
    equations_.noise(integrator.y().data(), options_.tolerances, noise.data());
    bool rests = true;
    for (std::size_t i = 0; i < rate.size() && rests; ++i) rests = std::abs(rate[i]) <= noise[i];
    if (rests) return;
  }
}

double Runner::oil_in(const double* y, bool reservoirs) const {
  double sum = 0.0;
  for (int n = 0; n < equations_.layout().nodes; ++n) {
    if (reservoirs || !equations_.circuit().nodes[n].free_surface) sum += y[equations_.layout().mass(n)];
  }
  return sum;
}

void Runner::look(double time, const double* y) {
  equations_.observe(time, y);
  trace_.moments.push_back({time, trace_.steps.empty() ? "" : trace_.steps.back().name, equations_.look()});
}

/// Looks at the moments asked for that the last step has passed.
void Runner::look_inside(const Integrator& integrator) {
  while (looked_ < options_.look_at.size() && options_.look_at[looked_] <= integrator.time()) {
    std::vector<double> y(static_cast<std::size_t>(equations_.layout().size));
    const double time = options_.look_at[looked_++];
    integrator.inside(time, y.data());
    look(time, y.data());
  }
}

void Runner::open_books(const Integrator& integrator) {
  const double* y = integrator.y().data();
  equations_.observe(0.0, y);
  trace_.books.mass_at_start = oil_in(y, false);
  all_oil_ = oil_in(y, true);
  stores_ = equations_.stores(y);
  account_.assign(integrator.integrals().begin(), integrator.integrals().end());
}

void Runner::close_books(const Integrator& integrator) {
  const double* y = integrator.y().data();
  equations_.observe(integrator.time(), y);
  const auto since = [&](Account a) { return integrator.integrals()[a] - account_[a]; };
  Books& b = trace_.books;
  b.mass_residual = oil_in(y, true) - all_oil_;
  b.mass_drawn = since(drawn);
  for (int p = 0; p < heat_accounts_; ++p) {
    trace_.heat_of_part.push_back(integrator.integrals()[accounts + p] - account_[accounts + p]);
  }
  b.shaft = since(shaft);
  b.flow_heat = since(flow_heat);
  b.friction_heat = since(friction);
  b.delivered = since(delivered);
  const Equations::Stores now = equations_.stores(y);
  b.put_in = since(put_in) + Equations::exchanged(stores_, now);
  b.stored_gain = now.all() - stores_.all();
  trace_.solver_steps = integrator.steps();
}

void Runner::do_step(Integrator& integrator, Watchers& watchers, const Step& step) {
  using End = Integrator::End;
  const double begin = trace_.time.back();
  const double deadline = begin + step.lasts;
  trace_.steps.push_back({step.name, begin, begin, false});
  carry_out(step.commands, begin, equations_);
  watchers.row(begin, integrator.y().data());
  if (turn_modes(integrator, begin, false)) watchers.row(begin, integrator.y().data());
  if (obey_controls(integrator, begin, false)) watchers.row(begin, integrator.y().data());
  waiting_ = step.until.empty() ? nullptr : &step;
  const auto close = [&](bool finished) {
    trace_.steps.back().end = trace_.time.back();
    trace_.steps.back().finished = finished;
    watchers.onlooker.look(trace_.time.back(), integrator.y().data());
    if (options_.look_at_step_ends) look(trace_.time.back(), integrator.y().data());
    waiting_ = nullptr;
  };
  if (waiting_ && conditions_hold(step, begin, integrator.y().data())) return close(true);
  Patience patience(begin, options_.most_steps);
  while (trace_.time.back() < deadline) {
    arm_happenings(integrator);
    const double stop = std::min(deadline, next_break(trace_.time.back(), equations_));
    integrator.restart(trace_.time.back(), crossing_count());
    while (true) {
      const End end = integrator.step(stop);
      trace_.halt = patience.ends(end, integrator, equations_);
      if (trace_.halt) return close(false);
      arm_happenings(integrator);  // before the recorder looks inside the step: this y is known already
      watchers.step(integrator);
      look_inside(integrator);
      if (options_.progress && !options_.progress(integrator.time(), integrator.time() / planned_)) {
        trace_.halt = {Halt::Why::stopped, integrator.time(),
                       fmt::format("stopped by hand at {:.3g} s", integrator.time())};
        return close(false);
      }
      if (end == End::crossing) {
        note_happenings(integrator);
        if (integrator.crossed()[0] > 0) {
          trace_.halt = bounds_passed_at(integrator, equations_, options_.burst_pressure);
          return close(false);
        }
        const bool turned = turn_modes(integrator, integrator.time(), true);
        const bool obeyed = obey_controls(integrator, integrator.time(), true);
        if (turned || obeyed) watchers.row(integrator.time(), integrator.y().data());
        if (integrator.crossed()[1] > 0) return close(true);
        if ((turned || obeyed) && waiting_ && conditions_hold(step, integrator.time(), integrator.y().data()))
          return close(true);
      }
      // A crossing is a corner of the equations: the method starts anew behind it.
      if (end != End::step || integrator.time() >= stop) break;
    }
  }
  close(step.until.empty());
}

Trace Runner::run(const std::vector<Signal>& signals) {
  trace_.signals = signals;
  trace_.values.resize(signals.size());
  if (const std::vector<double> start = equations_.start();
      !equations_.observe(-options_.settle_at_most, start.data())) {
    trace_.halt = no_room_at(0.0, equations_.circuit());
    return std::move(trace_);
  }
  Integrator integrator(system(), -options_.settle_at_most, equations_.start());
  settle(integrator);
  open_books(integrator);
  trace_.glances.signals = options_.glanced_at;
  Watchers watchers(equations_, trace_, options_.followed, planned_);
  // Where it did not come to rest, what it was tried with last may be no numbers.
  watchers.row(0.0, trace_.halt ? equations_.start().data() : integrator.y().data());
  for (const Step& step : steps_) {
    if (trace_.halt) break;
    do_step(integrator, watchers, step);
    if (!trace_.steps.back().finished && !trace_.halt) {
      trace_.halt = {Halt::Why::waited, trace_.time.back(),
                     fmt::format("step \"{}\" waited {:.3g} s and its condition did not come true", step.name,
                                 step.lasts)};
    }
  }
  close_books(integrator);
  return std::move(trace_);
}

}  // namespace

Trace run(const Circuit& circuit, const Schedule& steps, const std::vector<Signal>& signals,
          const RunOptions& options) {
  RunOptions now = options;
  Trace trace = Runner(circuit, steps, now).run(signals);
  // The method takes a little energy out of what rings undamped. Where that shows in the books, tighten and
  // run again.
  for (double tighter = 10.0; tighter < 1.01 * tightest(trace); tighter *= 10.0) {
    now.tolerances = options.tolerances.tighter(tighter);
    // So far past what was asked for, one that takes five times the steps of the one before, or comes to a
    // stand where that went on, chases the digits of the machine.
    if (tighter > 100.0) now.most_steps = std::min(options.most_steps, 5 * (trace.solver_steps + 100));
    Trace finer = Runner(circuit, steps, now).run(signals);
    if (tighter > 100.0 && finer.halt && finer.halt->why == Halt::Why::stuck) break;
    trace = std::move(finer);
  }
  return trace;
}

}  // namespace poise::solve
