# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A charged tube is held by a check valve and bled through a needle: turbulent at first, laminar at the end."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "G1.pressure", "V2.B.pressure", "N1.B.flow"]
EVENTS = ["G1.pressure > 100 bar", "P1.P.pressure < 20 bar", "G1.pressure < 100 bar", "G1.pressure < 20 bar"]


def build(job):
    m = Model(job.oil)
    pump_line, charged, at_needle = m.node(), m.node(), m.node()
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.check(m, "V2", job.part("V2"), pump_line, charged)
    parts.line(m, "L1", job.line("L1"), charged, at_needle)
    parts.gauge(m, "G1", job.part("G1"), at_needle)
    parts.needle(m, "N1", job.part("N1"), at_needle, m.tank)
    return m
