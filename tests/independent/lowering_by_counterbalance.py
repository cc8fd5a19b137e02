# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A load is lifted past a counterbalance valve, held by it, and driven down against it."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "C1.A.pressure", "C1.B.pressure", "V3.B.pressure", "V3.opening", "C1.position", "C1.speed"]
EVENTS = ["C1.position > 5 mm", "V3.B.pressure < 10 bar", "V3.opening > 5 %", "C1.position < 50 mm", "V3.opening < 2 %"]


def build(job):
    m = Model(job.oil)
    pump_line, a_valve, below_check, held, b_valve, b = (m.node() for _ in range(6))
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.directional(m, "V2", job.part("V2"), "directional_4_3", "centre", P=pump_line, T=m.tank, A=a_valve, B=b_valve)
    parts.line(m, "H1", job.line("H1"), a_valve, below_check)
    parts.line(m, "H2", job.line("H2"), b_valve, b)
    parts.counterbalance(m, "V3", job.part("V3"), held, below_check, b)
    ram = parts.double_acting_cylinder(m, "C1", job.part("C1"), held, b)
    parts.mass(m, job.part("M1"), ram)
    return m
