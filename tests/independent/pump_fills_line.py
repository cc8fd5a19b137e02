# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Pump and relief valve fill a plugged hose with air in its oil; the stopped pump lets it leak back."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "G1.pressure", "V1.opening", "P1.delivery", "H1.A.flow"]
EVENTS = ["P1.P.pressure > 20 bar", "P1.P.pressure > 190 bar", "G1.pressure < 100 bar"]


def build(job):
    m = Model(job.oil)
    pressure_line, far_end = m.node(), m.node()
    parts.pump(m, "P1", job.part("P1"), m.tank, pressure_line)
    parts.relief(m, "V1", job.part("V1"), pressure_line, m.tank)
    parts.line(m, "H1", job.line("H1"), pressure_line, far_end)
    parts.gauge(m, "G1", job.part("G1"), far_end)
    return m
