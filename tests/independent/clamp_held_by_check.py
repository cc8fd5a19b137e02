# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""An oil-returned clamp behind an externally drained pilot-operated check; the spool has overlap and leaks."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "V3.A.pressure", "K1.A.pressure", "K1.B.pressure", "K1.position", "K1.clamp_force"]
EVENTS = ["K1.position > 12 mm", "K1.clamp_force > 4 kN", "V3.A.pressure < 50 bar", "V3.A.pressure > 100 bar",
          "K1.B.pressure > 30 bar", "K1.clamp_force < 1 kN", "K1.position < 1 mm"]


def build(job):
    m = Model(job.oil)
    pump_line, a_valve, held, a, b_valve, b = (m.node() for _ in range(6))
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.directional(m, "V2", job.part("V2"), "directional_4_2", "b", P=pump_line, T=m.tank, A=a_valve, B=b_valve)
    parts.pilot_operated_check(m, "V3", job.part("V3"), a_valve, held, b, m.tank)
    parts.line(m, "H1", job.line("H1"), held, a)
    parts.line(m, "H2", job.line("H2"), b_valve, b)
    parts.swing_clamp(m, "K1", job.part("K1"), a, b)
    return m
