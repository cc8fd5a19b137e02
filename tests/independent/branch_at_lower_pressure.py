# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A relieving reducing valve fills a clamp cylinder, shuts, relieves as the clamp is pushed back, and fills it again."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "C1.pressure", "V2.A.pressure", "V2.spool", "C1.position", "S1.force", "V1.opening"]
EVENTS = ["C1.position > 20 mm", "C1.pressure > 40 bar", "V2.spool < 50 %", "V2.spool < -5 %", "S1.force < 1 kN",
          "S1.force > 4 kN"]


def build(job):
    m = Model(job.oil)
    main, reduced, clamp = m.node(), m.node(), m.node()
    parts.pump(m, "P1", job.part("P1"), m.tank, main)
    parts.relief(m, "V1", job.part("V1"), main, m.tank)
    parts.reducing(m, "V2", job.part("V2"), main, reduced, m.tank)
    parts.line(m, "H1", job.line("H1"), reduced, clamp)
    ram = parts.single_acting_cylinder(m, "C1", job.part("C1"), clamp)
    parts.spring(m, "S1", job.part("S1"), ram)
    parts.force(m, "F1", job.part("F1"), ram)
    return m
