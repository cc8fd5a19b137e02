# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""The laws of physics.md sections 3, 4 and 6, each written down once. SI; a drop is p_from − p_to."""
import math

CD = 0.62          # discharge coefficient of a sharp edge
RE_TURN = 100.0    # Reynolds number at which a sharp orifice turns from laminar to turbulent
TURN_SHARE = 0.1   # a datasheet's restriction turns at this share of its rated flow
GRAVITY = 9.80665


def clamp(value):
    return 0.0 if value <= 0.0 else 1.0 if value >= 1.0 else value


def from_point(flow, drop):
    """(a, b) of Δp = b·Q + a·Q² through one point of a datasheet."""
    a = drop / (flow * flow * (1.0 + TURN_SHARE))
    return a, a * TURN_SHARE * flow


def from_curve(points, nu, nu_measured=None):
    """(a, b) by least squares of Δp through points of a datasheet; b grows with the viscosity."""
    q2, q3, q4 = (sum(q ** n for q, _ in points) for n in (2, 3, 4))
    pq, pq2 = (sum(p * q ** n for q, p in points) for n in (1, 2))
    b = (pq * q4 - pq2 * q3) / (q2 * q4 - q3 * q3)
    a = (pq2 - b * q3) / q4
    if min(a, b) <= 0.0:
        raise ArithmeticError("these points are no restriction's")
    return a, b * (nu / nu_measured if nu_measured else 1.0)


def restriction(drop, ab, opening=1.0):
    """Q of Δp = (b·Q + a·Q²)/x², signed; nothing passes x = 0."""
    if opening <= 0.0 or drop == 0.0:
        return 0.0
    a, b = ab
    pushing = abs(drop) * opening * opening
    flow = 2.0 * pushing / (b + math.sqrt(b * b + 4.0 * a * pushing))
    return flow if drop > 0.0 else -flow


def orifice(drop, area, opening, rho, nu):
    """Q through a sharp-edged hole, a = ρ/(2·Cd²·A²), Q_t = Re_t·ν·A/d; an opening scales a and b by 1/x², so Q_t stays."""
    a = rho / (2.0 * CD * CD * area * area)
    turn = RE_TURN * nu * area / math.sqrt(4.0 * area / math.pi)
    return restriction(drop, (a, a * turn), opening)


def churchill(re, roughness):
    """Darcy's friction factor at any Reynolds number; roughness over bore. S. W. Churchill 1977."""
    a = (2.457 * math.log(1.0 / ((7.0 / re) ** 0.9 + 0.27 * roughness))) ** 16
    b = (37530.0 / re) ** 16
    return 8.0 * ((8.0 / re) ** 12 + (a + b) ** -1.5) ** (1.0 / 12.0)


def pipe(drop, bore, length, roughness, fittings, rho, nu):
    """Q of |Δp| = (f·L/d + K)·ρ·v²/2, by Newton's method on the Reynolds number."""
    if drop == 0.0:
        return 0.0
    # In Re alone: (f + K·d/L)·Re² = goal.
    goal = 2.0 * abs(drop) * bore ** 3 / (length * rho * nu * nu)
    k = fittings * bore / length
    re = 2.0 * goal / (64.0 + math.sqrt(64.0 * 64.0 + 4.0 * k * goal))  # exact while f = 64/Re
    if re > 900.0:  # below, Churchill's factor is 64/Re to twelve digits
        re = min(re, math.sqrt(goal / (k + 0.02)))
        for _ in range(60):
            def excess(r):
                return math.log((churchill(r, roughness / bore) + k) * r * r / goal)
            step = excess(re) / ((excess(re * 1.00001) - excess(re * 0.99999)) / 0.00002)
            re *= math.exp(-step)
            if abs(step) < 1e-11:
                break
        else:
            raise ArithmeticError("no flow of the pipe found")
    flow = re * nu * math.pi * bore / 4.0
    return flow if drop > 0.0 else -flow


def pipe_drop(flow, bore, length, roughness, fittings, rho, nu):
    """Δp of a flow, signed: (f·L/d + K)·ρ·v²/2."""
    if flow == 0.0:
        return 0.0
    speed = flow / (math.pi / 4.0 * bore * bore)
    re = abs(speed) * bore / nu
    # Below, the factor is 64/Re to twelve digits and its powers grow out of all bounds.
    factor = 64.0 / re if re < 100.0 else churchill(re, roughness / bore)
    return (factor * length / bore + fittings) * rho * speed * abs(speed) / 2.0


def contact(depth, approach, stiffness, damping):
    """Push of a one-sided spring and damper, never a pull; the damper comes in over the first micrometre."""
    if depth <= 0.0:
        return 0.0
    return max(0.0, stiffness * depth + damping * min(1.0, depth / 1e-6) * approach)


def friction(dry, speed, creep_speed, damping):
    return dry * math.tanh(speed / creep_speed) + damping * speed
