# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A sequence valve lets the second cylinder move when the first is at its end; springs bring both back."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "C1.pressure", "C2.pressure", "C1.position", "C2.position", "V3.opening", "V1.opening"]
EVENTS = ["C1.position > 12 mm", "C2.position > 1 mm", "C2.position > 16 mm", "C2.position < 1 mm", "C1.position < 1 mm"]


def build(job):
    m = Model(job.oil)
    pump_line, first, after_sequence, second = (m.node() for _ in range(4))
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.directional(m, "V2", job.part("V2"), "directional_3_2", "rest", P=pump_line, T=m.tank, A=first)
    parts.sequence(m, "V3", job.part("V3"), first, after_sequence, m.tank)
    parts.line(m, "L1", job.line("L1"), after_sequence, second)
    parts.single_acting_cylinder(m, "C1", job.part("C1"), first)
    parts.single_acting_cylinder(m, "C2", job.part("C2"), second)
    return m
