# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A swelling hose and a rough tube at Reynolds numbers from creeping to turbulent, by Churchill's friction factor."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "G1.pressure", "L1.A.pressure", "H1.A.flow", "L1.A.flow", "V1.opening"]
EVENTS = ["P1.P.pressure > 30 bar", "G1.pressure > 100 bar", "G1.pressure < 10 bar", "P1.P.pressure < 5 bar"]


def build(job):
    m = Model(job.oil)
    pump_line, far_end, after_needle = m.node(), m.node(), m.node()
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.line(m, "H1", job.line("H1"), pump_line, far_end)
    parts.gauge(m, "G1", job.part("G1"), far_end)
    parts.needle(m, "N1", job.part("N1"), far_end, after_needle)
    parts.line(m, "L1", job.line("L1"), after_needle, m.tank)
    return m
