# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A rod pulled out faster than oil can follow: a volume at some hundredths of a bar absolute, then filled again."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "C1.A.pressure", "C1.B.pressure", "C1.position", "C1.speed", "N1.B.flow"]
EVENTS = ["C1.A.pressure < -0.9 bar", "C1.B.pressure > 30 bar", "C1.A.pressure > -0.5 bar", "C1.position > 100 mm"]


def build(job):
    m = Model(job.oil)
    pump_line, a, b = m.node(), m.node(), m.node()
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.needle(m, "N1", job.part("N1"), pump_line, a)
    parts.needle(m, "N2", job.part("N2"), b, m.tank)
    puller = parts.double_acting_cylinder(m, "C1", job.part("C1"), a, b)
    parts.mass(m, job.part("M1"), puller)
    parts.force(m, "F1", job.part("F1"), puller)
    return m
