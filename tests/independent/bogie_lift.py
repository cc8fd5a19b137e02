# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A load is lifted, held by a pilot-operated check, let down through a metering needle, and held again."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "C1.pressure", "V3.A.pressure", "V3.B.pressure", "V3.X.pressure", "C1.position", "C1.speed"]
EVENTS = ["C1.position > 1 mm", "V3.A.pressure < 10 bar", "V3.X.pressure > 30 bar", "C1.position < 50 mm",
          "V3.X.pressure < 10 bar"]


def build(job):
    m = Model(job.oil)
    pump_line, a_valve, before_check, held, cylinder, b_valve, pilot = (m.node() for _ in range(7))
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.directional(m, "V2", job.part("V2"), "directional_4_3", "centre", P=pump_line, T=m.tank, A=a_valve, B=b_valve)
    parts.line(m, "H1", job.line("H1"), a_valve, before_check)
    parts.line(m, "H2", job.line("H2"), b_valve, pilot)
    parts.pilot_operated_check(m, "V3", job.part("V3"), before_check, held, pilot)
    parts.one_way_flow_control(m, "V4", job.part("V4"), held, cylinder)
    ram = parts.single_acting_cylinder(m, "C1", job.part("C1"), cylinder)
    parts.mass(m, job.part("M1"), ram)
    return m
