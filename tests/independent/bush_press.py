# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A double-acting cylinder with mass and friction presses a spring, then returns onto its end stop."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "C1.A.pressure", "C1.B.pressure", "C1.position", "C1.speed", "S1.force", "V1.opening"]
EVENTS = ["C1.position > 80 mm", "C1.A.pressure > 100 bar", "C1.position < 0 mm", "P1.P.pressure > 160 bar"]


def build(job):
    m = Model(job.oil)
    pump_line, a_valve, a, b_valve, b = (m.node() for _ in range(5))
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.directional(m, "V2", job.part("V2"), "directional_4_3", "centre", P=pump_line, T=m.tank, A=a_valve, B=b_valve)
    parts.line(m, "H1", job.line("H1"), a_valve, a)
    parts.line(m, "H2", job.line("H2"), b_valve, b)
    ram = parts.double_acting_cylinder(m, "C1", job.part("C1"), a, b)
    parts.mass(m, job.part("M1"), ram)
    parts.spring(m, "S1", job.part("S1"), ram)
    return m
