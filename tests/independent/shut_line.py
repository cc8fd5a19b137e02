# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A line with the oil's inertia, in pieces; a valve that shuts quickly sends a pressure wave through it."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "V2.P.pressure", "V2.A.pressure", "L1.A.flow"]
EVENTS = ["V2.P.pressure > 100 bar", "V2.P.pressure < 60 bar", "V2.A.pressure < 10 bar"]


def build(job):
    m = Model(job.oil)
    pump_line, at_valve, after_valve = m.node(), m.node(), m.node()
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.line_with_inertia(m, "L1", job.line("L1"), pump_line, at_valve)
    parts.directional(m, "V2", job.part("V2"), "directional_2_2", "shut", P=at_valve, A=after_valve)
    parts.needle(m, "N1", job.part("N1"), after_valve, m.tank)
    return m
