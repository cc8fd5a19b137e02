# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""A hand pump lifts a weight, a leaking check valve holds it, a shut-off valve with a datasheet's curve lets it down."""
import parts
from model import Model

TRACES = ["P1.P.pressure", "P1.delivery", "C1.pressure", "C1.position", "C1.speed"]
EVENTS = ["C1.position > 1 mm", "P1.P.pressure < 100 bar", "C1.position < 10 mm", "C1.position < 0 mm"]


def build(job):
    m = Model(job.oil)
    at_pump, jack = m.node(), m.node()
    parts.hand_pump(m, "P1", job.part("P1"), m.tank, at_pump)
    parts.check(m, "V1", job.part("V1"), at_pump, jack)
    parts.shut_off(m, "V2", job.part("V2"), jack, m.tank)
    ram = parts.single_acting_cylinder(m, "C1", job.part("C1"), jack)
    parts.mass(m, job.part("M1"), ram)
    return m
