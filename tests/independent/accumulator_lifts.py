# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""An accumulator is charged through a check valve and gives its oil to a cylinder with a load."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "V2.B.pressure", "A1.gas_pressure", "A1.oil_volume", "C1.pressure", "C1.position", "C1.speed"]
EVENTS = ["A1.oil_volume > 1 cm3", "A1.gas_pressure > 120 bar", "C1.position > 100 mm", "A1.gas_pressure < 110 bar",
          "C1.position < 50 mm", "C1.position < 0 mm"]


def build(job):
    m = Model(job.oil)
    pump_line, charged, after_valve, cylinder = (m.node() for _ in range(4))
    parts.pump(m, "P1", job.part("P1"), m.tank, pump_line)
    parts.relief(m, "V1", job.part("V1"), pump_line, m.tank)
    parts.check(m, "V2", job.part("V2"), pump_line, charged)
    parts.accumulator(m, "A1", job.part("A1"), charged)
    parts.directional(m, "V3", job.part("V3"), "directional_3_2", "rest", P=charged, T=m.tank, A=after_valve)
    parts.needle(m, "N1", job.part("N1"), after_valve, cylinder)
    ram = parts.single_acting_cylinder(m, "C1", job.part("C1"), cylinder)
    parts.mass(m, job.part("M1"), ram)
    return m
