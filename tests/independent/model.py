# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A circuit as y' = f(t, y): volumes (physics.md 2), bodies (6), lags (4).

The state of a volume is z = ln((p + p_atm)/p_atm), so that a starved volume loses no oil to rounding.
"""
import math

import numpy as np

from oil import ATMOSPHERE, Oil


class Command:
    """What a step sets: on its way from old to new, linearly in time."""

    def __init__(self, value, duration):
        self.old = self.new = value
        self.begin, self.duration, self.usual = -math.inf, 0.0, duration

    def send(self, time, value, duration=None):
        self.old, self.new, self.begin = self.new, value, time
        self.duration = self.usual if duration is None else duration

    def end(self):
        return self.begin + self.duration

    def share(self, time):
        if time >= self.end():
            return 1.0
        return max(0.0, (time - self.begin) / self.duration)

    def value(self, time):
        return self.old + (self.new - self.old) * self.share(time)


class Model:
    """Nodes, bodies and lags are numbers; node 0 is the reservoir, at p = 0.

    A part is a function of time: it reads p, rho, x, v, s and adds to w (mass flow into a node), force, rate.
    """

    tank = 0

    def __init__(self, oil):
        self.oil = Oil(**oil)
        self.volume, self.wall, self.sweeps = [0.0], [0.0], []
        self.mass, self.start_x, self.start_s = [], [], []
        self.parts, self.commands, self.signals = [], {}, {}
        self.p, self.rho, self.soft = [0.0], [self.oil.rho_0], [0.0]

    def node(self):
        self.volume.append(0.0)
        self.wall.append(0.0)
        return len(self.volume) - 1

    def add_volume(self, node, volume, wall=0.0):
        self.volume[node] += volume
        self.wall[node] += wall

    def body(self, mass, position=0.0):
        self.mass.append(mass)
        self.start_x.append(position)
        return len(self.mass) - 1

    def sweep(self, node, body, area):
        """The body's motion widens the node by area·x."""
        self.sweeps.append((node, body, area))

    def lag(self, start=0.0):
        self.start_s.append(start)
        return len(self.start_s) - 1

    def command(self, name, value, duration):
        self.commands[name] = Command(value, duration)
        return self.commands[name]

    def move(self, source, to, w):
        self.w[source] -= w
        self.w[to] += w

    def flow(self, source, to, volume_flow):
        """A volume flow, positive from source to `to`, at the density of the side it comes from. Returns kg/s."""
        w = volume_flow * self.rho[source if volume_flow > 0.0 else to]
        self.w[source] -= w
        self.w[to] += w
        return w

    def start(self):
        """Every volume full at p = 0, every body where it starts, all at rest."""
        return [0.0] * (len(self.volume) - 1) + self.start_x + [0.0] * len(self.mass) + self.start_s

    def tolerances(self, factor):
        sizes = ((1e-2, len(self.volume) - 1), (1e-4, len(self.mass)), (1e-2, len(self.mass)), (1.0, len(self.start_s)))
        return [size * factor for size, count in sizes for _ in range(count)]

    def look(self, t, y):
        """Pressures, positions, flows and forces at one moment."""
        nodes, bodies = len(self.volume) - 1, len(self.mass)
        self.t = t
        for i in range(nodes):
            # Only a trial of the integrator goes past these ends; they keep its numbers finite.
            p = ATMOSPHERE * math.expm1(min(max(y[i], -30.0), 12.0))
            if i + 1 >= len(self.p):
                self.p.append(0.0), self.rho.append(0.0), self.soft.append(0.0)
            self.p[i + 1] = p
            self.rho[i + 1], self.soft[i + 1] = self.oil.at(p)
        self.x = y[nodes:nodes + bodies]
        self.v = y[nodes + bodies:nodes + 2 * bodies]
        self.s = y[nodes + 2 * bodies:]
        self.w = [0.0] * (nodes + 1)
        self.force = [0.0] * bodies
        self.rate = [0.0] * len(self.start_s)
        for part in self.parts:
            part(t)

    def rates(self, t, y):
        self.look(t, y)
        nodes = len(self.volume)
        space = [v + c * p for v, c, p in zip(self.volume, self.wall, self.p)]
        inflow = [w / rho for w, rho in zip(self.w, self.rho)]
        for node, body, area in self.sweeps:
            space[node] += area * self.x[body]
            inflow[node] -= area * self.v[body]
        dz = [inflow[i] / (space[i] * self.soft[i] + self.wall[i]) / (self.p[i] + ATMOSPHERE)
              for i in range(1, nodes)]
        return dz + list(self.v) + [f / m for f, m in zip(self.force, self.mass)] + self.rate

    def jacobian(self, t, y):
        """Slopes of the rates by differences of a size that suits each kind of state."""
        nodes, bodies = len(self.volume) - 1, len(self.mass)
        sizes = [1e-7] * nodes + [1e-9] * bodies + [1e-9] * bodies + [1e-7] * len(self.start_s)
        here, moved = np.array(self.rates(t, y)), np.array(y)
        columns = []
        for k, size in enumerate(sizes):
            moved[k] = y[k] + size
            columns.append((np.array(self.rates(t, moved)) - here) / (moved[k] - y[k]))
            moved[k] = y[k]
        return np.array(columns).T
