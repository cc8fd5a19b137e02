# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A work support touches, is locked and loaded; a swing clamp behind a sequence valve presses and is let go."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "W1.pressure", "K1.A.pressure", "W1.plunger.position", "W1.lift.position", "W1.touch_force",
          "W1.capacity", "K1.position", "K1.clamp_force", "V3.opening"]
EVENTS = ["W1.plunger.position > 6 mm", "W1.lift.position > 12 mm", "K1.position > 10 mm", "K1.clamp_force > 1 kN",
          "K1.position < 10 mm", "W1.plunger.position < 1 mm"]


def build(job):
    m = Model(job.oil)
    pump_line, at_valve, support, after_sequence, clamp = (m.node() for _ in range(5))
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.directional(m, "V2", job.part("V2"), "directional_3_2", "rest", P=pump_line, T=m.tank, A=at_valve)
    parts.line(m, "H1", job.line("H1"), at_valve, support)
    parts.sequence(m, "V3", job.part("V3"), support, after_sequence, m.tank)
    parts.line(m, "L1", job.line("L1"), after_sequence, clamp)
    plunger = parts.work_support(m, "W1", job.part("W1"), support)
    parts.swing_clamp(m, "K1", job.part("K1"), clamp)
    parts.force(m, "F1", job.part("F1"), plunger)
    return m
