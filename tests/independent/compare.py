# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Runs one job by the built program and by the model of the same name, and compares traces and events.

    compare.py PROGRAM CIRCUIT

The measure is physics.md section 7: events within 1 ms + 0.2 % of the time since the last command, traces within 0.5 % of
their range after a time shift no larger than that. Each step is compared in time since its own beginning, and its
beginning is an event of the step before.
"""
import csv
import importlib
import json
import subprocess
import sys
import tempfile
from pathlib import Path

try:
    import numpy as np
    import scipy  # noqa: F401: asked for here so that its absence is told in plain words
except ImportError as missing:
    sys.exit(f"{missing.name} is missing, so Poise cannot be checked against it: apt-get install python3-scipy")

import cycle
from job import UNITS, Job, condition

FOLDER = Path(__file__).resolve().parent
EVENT_SLACK, EVENT_SHARE = 1e-3, 2e-3
TRACE_SHARE = 5e-3


def allowance(since_command):
    return EVENT_SLACK + EVENT_SHARE * since_command


def proved(program, job_file):
    """Steps (name, begin, end) and signals of the program's own run, SI."""
    with tempfile.TemporaryDirectory() as folder:
        trace = Path(folder) / "trace.csv"
        run = subprocess.run([program, "prove", job_file, "--json", "--trace", trace], capture_output=True, text=True)
        if run.returncode not in (0, 1):
            sys.exit(f"poise prove ended with {run.returncode}:\n{run.stdout}{run.stderr}")
        with open(trace, newline="") as file:
            rows = list(csv.reader(file))
    verdict = json.loads(run.stdout)
    if verdict["halt"] is not None or not verdict["books"]["close"]:
        sys.exit(f"poise halted or its books stay open: {verdict['halt']} {verdict['books']}")
    values = np.array(rows[1:], dtype=float).T
    signals = {}
    for head, column in zip(rows[0], values):
        name, _, unit = head.partition(" [")
        signals[name] = column * (UNITS[unit.rstrip("]")] if unit else 1.0)
    steps = [(s["name"], s["begin"]["si"], s["end"]["si"]) for s in verdict["steps"]]
    return steps, signals


def rows_of(signals, begin, end):
    """Rows within a step. At the edges the file holds a row before and one after the command; times have nine digits."""
    time = signals["time"]
    near = 1e-8 * max(1.0, end)
    first = np.searchsorted(time, begin - near)
    last = np.searchsorted(time, end + near, side="right")
    return slice(first, last)


def outside(times, values, other_times, other_values):
    """How far each value lies outside what the other trace takes within the allowed shift of that time."""
    shift = allowance(times)
    low, high = np.maximum(times - shift, other_times[0]), np.minimum(times + shift, other_times[-1])
    edge_low, edge_high = (np.interp(t, other_times, other_values) for t in (low, high))
    first, last = np.searchsorted(other_times, low), np.searchsorted(other_times, high, side="right")
    far = np.empty_like(values)
    for k, value in enumerate(values):
        near = other_values[first[k]:last[k]]
        lowest = min(edge_low[k], edge_high[k], near.min(initial=np.inf))
        highest = max(edge_low[k], edge_high[k], near.max(initial=-np.inf))
        far[k] = max(lowest - value, value - highest, 0.0)
    return far


def crossings(times, values, sign, level):
    """Times at which a trace rises (sign 1) or falls (−1) through a level, by straight lines between rows."""
    above = sign * (values - level)
    k = np.flatnonzero((above[:-1] <= 0.0) & (above[1:] > 0.0))
    return times[k] + (times[k + 1] - times[k]) * above[k] / (above[k] - above[k + 1])


class Comparison:
    def __init__(self):
        self.failures, self.worst_trace, self.worst_event, self.worst_share = [], (0.0, "", 0.0), (0.0, ""), 0.0
        self.events = 0

    def event(self, name, since, ours, theirs):
        apart, share = abs(ours - theirs), abs(ours - theirs) / allowance(since)
        self.events += 1
        if share >= self.worst_share:
            self.worst_share, self.worst_event = share, (apart, name)
        if share > 1.0:
            self.failures.append(f"{name}: model {ours:.6f} s, poise {theirs:.6f} s, {apart * 1e3:.3f} ms apart, "
                                 f"{allowance(since) * 1e3:.3f} ms allowed")

    def trace(self, name, span, times, far):
        k = int(np.argmax(far))
        share = far[k] / span
        if share >= self.worst_trace[0]:
            self.worst_trace = (share, name, times[k])
        if share > TRACE_SHARE:
            self.failures.append(f"{name}: {share * 100:.3f} % of range outside at {times[k]:.6f} s of the step")


def compare(steps, program_steps, model, signals, names, watched):
    result = Comparison()
    if [s.name for s in steps] != [name for name, _, _ in program_steps]:
        sys.exit(f"steps differ: {[s.name for s in steps]} and {program_steps}")
    ours = {}
    for step, (name, begin, end) in zip(steps, program_steps):
        rows = rows_of(signals, begin, end)
        since = np.clip(signals["time"][rows] - begin, 0.0, step.end - step.begin)
        grid = np.unique(np.concatenate([np.array(step.times), step.begin + since]))
        ours[name] = grid - step.begin, cycle.traces(model, step, names, grid), rows
    for name in names:
        every = np.concatenate([values[name] for _, values, _ in ours.values()])
        span = every.max() - every.min()
        if not span > 0.0:
            sys.exit(f"{name} never changes; watch something else")
        for step_name, begin, end in program_steps:
            grid, values, rows = ours[step_name]
            times = signals["time"][rows] - begin
            label = f"{name} in {step_name}"
            result.trace(label, span, times, outside(times, signals[name][rows], grid, values[name]))
            result.trace(label, span, grid, outside(grid, values[name], times, signals[name][rows]))
    for step, (name, begin, end) in zip(steps, program_steps):
        since = step.end - step.begin
        result.event(f"end of {name}", since, since, end - begin)
        rows = ours[name][2]
        for words in watched:
            signal, sign, level = condition(words)
            times = signals["time"][rows] - begin
            theirs = crossings(times, signals[signal][rows], sign, level)
            mine = [t - step.begin for t in step.events[words]]
            # Ringing may cross a level more than once; the first crossing in a step is the event.
            if (len(theirs) > 0) != (len(mine) > 0):
                result.failures.append(f"{words} in {name}: model {mine}, poise {list(theirs)}")
            elif mine:
                result.event(f"{words} in {name}", mine[0], mine[0], theirs[0])
    return result


def main():
    program, circuit = sys.argv[1:3]
    job_file = FOLDER / f"{circuit}.toml"
    module = importlib.import_module(circuit)
    job = Job(job_file)
    model = module.build(job)
    program_steps, signals = proved(program, job_file)
    steps = cycle.run(model, job.steps, module.EVENTS)
    result = compare(steps, program_steps, model, signals, module.TRACES, module.EVENTS)
    share, name, time = result.worst_trace
    print(f"{circuit}: {len(module.TRACES)} traces, worst {share * 100:.4f} % of range after the shift "
          f"({name}, {time:.4f} s into it)")
    print(f"{circuit}: {result.events} events, worst {result.worst_event[0] * 1e3:.4f} ms, "
          f"{result.worst_share * 100:.1f} % of what is allowed ({result.worst_event[1]})")
    if result.events <= len(steps) and module.EVENTS:
        result.failures.append("none of the watched events came")
    for failure in result.failures:
        print(failure)
    return 1 if result.failures else 0


if __name__ == "__main__":
    sys.exit(main())
