# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A job's steps run on a model by scipy.integrate.solve_ivp: Radau IIA with tight tolerances, events located by SciPy."""
from copy import copy
from dataclasses import dataclass, field

import numpy as np
from scipy.integrate import solve_ivp

from job import condition, si

RELATIVE = 1e-8
SETTLING = 20.0  # s that the machine is left at rest in its first positions before time 0
PARTS_OF_A_STEP = 4  # points in each step of the integrator at which traces are compared


@dataclass
class Step:
    name: str
    begin: float
    end: float = 0.0
    times: list = field(default_factory=list)
    pieces: list = field(default_factory=list)  # (from, to, dense solution)
    events: dict = field(default_factory=dict)  # condition → times at which it comes true
    commands: dict = field(default_factory=dict)  # as they are during the step

    def at(self, time):
        """The state at a time within the step."""
        for begin, end, solution in self.pieces:
            if time <= end:
                return solution(max(time, begin))
        return self.pieces[-1][2](self.pieces[-1][1])


def crossing(model, words):
    """A function of (t, y) that turns positive as all the conditions come true."""
    conditions = [condition(word) for word in words]

    def value(t, y):
        model.look(t, y)
        return min(sign * (model.signals[signal]() - level) for signal, sign, level in conditions)
    value.direction = 1.0
    return value


def solve(model, begin, end, y, events):
    solution = solve_ivp(model.rates, (begin, end), y, method="Radau", jac=model.jacobian, rtol=RELATIVE,
                         atol=model.tolerances(RELATIVE), dense_output=True, events=events or None)
    if not solution.success:
        raise ArithmeticError(f"at {solution.t[-1]:.6f} s: {solution.message}")
    return solution


def send(model, step, time):
    over = si(step["over"]) if "over" in step else None
    for name, value in step.get("set", {}).items():
        command = model.commands[name.removesuffix(".turns")]
        value = si(value)
        if isinstance(command.new, float):  # a share of the way, not a position of a spool
            value = {"on": 1.0, "off": 0.0, "open": 1.0, "shut": 0.0}.get(value, value)
        command.send(time, value, over)


def run_step(model, plan, begin, y, watched):
    send(model, plan, begin)
    step = Step(plan["name"], begin)
    step.commands = {name: copy(command) for name, command in model.commands.items()}
    until = plan.get("until", [])
    until = [until] if isinstance(until, str) else until
    latest = begin + si(plan["at_most"] if until else plan["lasts"])
    events = [crossing(model, [word]) for word in watched]
    step.events = {word: [] for word in watched}
    if until:
        events.append(crossing(model, until))
        events[-1].terminal = True
    step.end = begin
    while step.end < latest:
        stop = min([latest] + [c.end() for c in model.commands.values() if step.end < c.end()])
        solution = solve(model, step.end, stop, y, events)
        for word, times in zip(watched, solution.t_events):
            step.events[word].extend(times)
        step.pieces.append((step.end, solution.t[-1], solution.sol))
        for a, b in zip(solution.t[:-1], solution.t[1:]):
            step.times.extend(np.linspace(a, b, PARTS_OF_A_STEP, endpoint=False))
        y, step.end = solution.y[:, -1], solution.t[-1]
        if solution.status == 1:
            break
    step.times.append(step.end)
    return step, y


def run(model, plans, watched):
    y = solve(model, -SETTLING, 0.0, np.array(model.start()), None).y[:, -1]
    steps, time = [], 0.0
    for plan in plans:
        step, y = run_step(model, plan, time, y, watched)
        steps.append(step)
        time = step.end
    return steps


def traces(model, step, names, times):
    """Values of signals at times of a step: an array per signal."""
    for name, command in step.commands.items():
        vars(model.commands[name]).update(vars(command))
    rows = []
    for time in times:
        model.look(time, step.at(time))
        rows.append([model.signals[name]() for name in names])
    return dict(zip(names, np.array(rows).T))
