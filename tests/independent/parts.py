# Copyright 2026 The Poise founders. Licence: Apache-2.0.
"""Parts between nodes and bodies, with the defaults that `poise parts KIND` states. `d` are a part's numbers."""
import math

import laws
from oil import ATMOSPHERE

PORT = 2e-6  # usual port volume, m3


def area_of(bore):
    return math.pi / 4.0 * bore * bore


def watch(m, tag, **ports):
    for port, node in ports.items():
        m.signals[f"{tag}.{port}.pressure"] = lambda node=node: m.p[node]
        if len(ports) == 1:  # the trace file names the only port by its part alone
            m.signals[f"{tag}.pressure"] = m.signals[f"{tag}.{port}.pressure"]


def fill_ports(m, d, usual, *nodes):
    for node in nodes:
        m.add_volume(node, d.get("port_volume", usual))


def pump(m, tag, d, suction, outlet):
    full = d["flow"] if "flow" in d else d["displacement"] * d.get("speed", 1450.0 / 60.0)
    slip = full * (1.0 - d.get("volumetric_efficiency", 0.93)) / d["rated_pressure"]
    runs = m.command(tag, 1.0 if d.get("running") == "on" else 0.0, d.get("start_time", 0.3))
    fill_ports(m, d, 5e-6, suction, outlet)
    watch(m, tag, S=suction, P=outlet)
    m.signals[f"{tag}.delivery"] = lambda: full * runs.value(m.t) - slip * (m.p[outlet] - m.p[suction])

    def part(t):
        m.flow(suction, outlet, full * runs.value(t) - slip * (m.p[outlet] - m.p[suction]))
    m.parts.append(part)


def hand_pump(m, tag, d, suction, outlet):
    rate = m.command(tag, d.get("rate", 0.0), d.get("hand_time", 0.5))
    lost = (1.0 - d.get("volumetric_efficiency", 0.95)) / d["rated_pressure"]
    fill_ports(m, d, 5e-6, suction, outlet)
    watch(m, tag, S=suction, P=outlet)

    def delivery(t):
        return rate.value(t) * d["stroke_volume"] * (1.0 - lost * (m.p[outlet] - m.p[suction]))
    m.signals[f"{tag}.delivery"] = lambda: delivery(m.t)
    m.parts.append(lambda t: m.flow(suction, outlet, delivery(t)))


def restriction_of(m, d, drop):
    if "drop_curve" in d:
        return laws.from_curve(d["drop_curve"], m.oil.nu, d.get("measured_viscosity"))
    return laws.from_point(d["rated_flow"], d.get("pressure_drop", drop))


def leak_of(d):
    """Flow per pressure past what is shut."""
    return d.get("leakage", 0.0) / d.get("rated_pressure", 350e5)


def shut_off(m, tag, d, a, b):
    ab, leak = restriction_of(m, d, 1e5), leak_of(d)
    stands = m.command(tag, 0.0 if d.get("position") == "shut" else 1.0, d.get("turning_time", 0.5))
    fill_ports(m, d, PORT, a, b)
    watch(m, tag, A=a, B=b)

    def part(t):
        drop = m.p[a] - m.p[b]
        m.flow(a, b, laws.restriction(drop, ab, stands.value(t)) + leak * drop)
    m.parts.append(part)


def cracking_of_relief(d):
    """The setting, or the cracking pressure at which setting_flow passes with the setting on the gauge."""
    share = d.get("override", 0.1)
    if "setting_flow" not in d:
        return d["setting"]
    low, high = 0.1 * d["setting"], d["setting"]
    for _ in range(200):  # more passes the lower it cracks
        crack = 0.5 * (low + high)
        opening = laws.clamp((d["setting"] - crack) / (share * crack))
        ab = laws.from_point(d["rated_flow"], crack * (1.0 + share))
        if laws.restriction(d["setting"], ab, opening) > d["setting_flow"]:
            low = crack
        else:
            high = crack
    return 0.5 * (low + high)


def relief(m, tag, d, inlet, tank):
    crack = cracking_of_relief(d)
    band = d.get("override", 0.1) * crack
    ab = laws.from_point(d["rated_flow"], crack + band)
    tau, x = d.get("response_time", 0.01), m.lag()
    fill_ports(m, d, PORT, inlet, tank)
    watch(m, tag, P=inlet, T=tank)
    m.signals[f"{tag}.opening"] = lambda: m.s[x]
    m.signals[f"{tag}.cracking_pressure"] = lambda: crack

    def part(t):
        drop = m.p[inlet] - m.p[tank]
        m.rate[x] = (laws.clamp((drop - crack) / band) - m.s[x]) / tau
        m.flow(inlet, tank, laws.restriction(drop, ab, m.s[x]))
    m.parts.append(part)


def check_opening(error, crack):
    return laws.clamp((error - crack) / max(crack, 0.2e5))


def check(m, tag, d, a, b):
    ab, crack, leak = restriction_of(m, d, 5e5), d.get("cracking_pressure", 0.5e5), leak_of(d)
    fill_ports(m, d, PORT, a, b)
    watch(m, tag, A=a, B=b)

    def part(t):
        drop = m.p[a] - m.p[b]
        m.flow(a, b, laws.restriction(drop, ab, check_opening(drop, crack)) + leak * drop)
    m.parts.append(part)


def sequence(m, tag, d, a, b, y):
    setting = d["setting"]
    band, tau, x = d.get("override", 0.05) * setting, d.get("response_time", 0.01), m.lag()
    ab, crack = restriction_of(m, d, 5e5), d.get("cracking_pressure", 0.5e5)
    fill_ports(m, d, PORT, a, b, y)
    watch(m, tag, A=a, B=b)
    m.signals[f"{tag}.opening"] = lambda: m.s[x]

    def part(t):
        m.rate[x] = (laws.clamp((m.p[a] - m.p[y] - setting) / band) - m.s[x]) / tau
        m.flow(a, b, laws.restriction(m.p[a] - m.p[b], ab, m.s[x]))
        back = m.p[b] - m.p[a]
        m.flow(b, a, laws.restriction(back, ab, check_opening(back, crack)))
    m.parts.append(part)


def reducing(m, tag, d, p, a, t_):
    setting = d["setting"]
    band, dead = d.get("override", 0.05) * setting, d.get("dead_band", 0.03) * setting
    ab, tau, y = restriction_of(m, d, 8e5), d.get("response_time", 0.01), m.lag(1.0)
    fill_ports(m, d, PORT, p, a, t_)
    watch(m, tag, P=p, A=a)
    m.signals[f"{tag}.spool"] = lambda: m.s[y]

    def part(t):
        e = m.p[a] - m.p[t_]
        goal = laws.clamp((setting - e) / band) - laws.clamp((e - setting - dead) / band)
        m.rate[y] = (goal - m.s[y]) / tau
        m.flow(p, a, laws.restriction(m.p[p] - m.p[a], ab, m.s[y]))
        m.flow(a, t_, laws.restriction(e, ab, -m.s[y]))
    m.parts.append(part)


def pilot_operated_check(m, tag, d, a, b, pilot, drain=None):
    ab, crack, ratio = restriction_of(m, d, 5e5), d.get("cracking_pressure", 1e5), d["ratio"]
    leak, behind = leak_of(d), a if drain is None else drain
    fill_ports(m, d, PORT, a, b, pilot)
    watch(m, tag, A=a, B=b, X=pilot)

    def part(t):
        drop = m.p[a] - m.p[b]
        error = drop + ratio * max(0.0, m.p[pilot] - m.p[behind])
        m.flow(a, b, laws.restriction(drop, ab, check_opening(error, crack)) + leak * drop)
    m.parts.append(part)


def needle_flow(m, d, turns, a, b, t):
    opening = turns.value(t) / d.get("full_turns", 8.0)
    drop = m.p[a] - m.p[b]
    return laws.orifice(drop, area_of(d["bore"]), opening, m.rho[a if drop > 0.0 else b], m.oil.nu)


def needle(m, tag, d, a, b):
    turns = m.command(tag, d["turns"], d.get("turning_time", 0.5))
    fill_ports(m, d, 1e-6, a, b)
    watch(m, tag, A=a, B=b)
    m.signals[f"{tag}.B.flow"] = lambda: -needle_flow(m, d, turns, a, b, m.t) * (
        m.rho[a if m.p[a] > m.p[b] else b] / m.rho[b])
    m.parts.append(lambda t: m.flow(a, b, needle_flow(m, d, turns, a, b, t)))


def one_way_flow_control(m, tag, d, a, b):
    ab, crack = restriction_of(m, d, 5e5), d.get("cracking_pressure", 0.5e5)
    turns = m.command(tag, d["turns"], d.get("turning_time", 0.5))
    fill_ports(m, d, PORT, a, b)
    watch(m, tag, A=a, B=b)

    def part(t):
        drop = m.p[a] - m.p[b]
        m.flow(a, b, needle_flow(m, d, turns, a, b, t) + laws.restriction(drop, ab, check_opening(drop, crack)))
    m.parts.append(part)


WAYS = {  # which ports each position joins
    "directional_3_2": {"rest": ("AT",), "shifted": ("PA",)},
    "directional_2_2": {"shut": (), "open": ("PA",)},
    "directional_4_3": {"a": ("PA", "BT"), "b": ("PB", "AT")},
    "directional_4_2": {"a": ("PA", "BT"), "b": ("PB", "AT")},
}
CENTRES = {"closed": (), "open": ("PT", "PA", "PB", "AT", "BT"), "tandem": ("PT",), "float": ("AT", "BT"),
           "regenerative": ("PA", "PB")}


def directional(m, tag, d, kind, position, **ports):
    ways = dict(WAYS[kind])
    if "centre" in d:
        ways["centre"] = CENTRES[d["centre"]]
    ab, overlap, leak = restriction_of(m, d, 5e5), d.get("overlap", 0.0), leak_of(d)
    s1, s2 = (1.0 - overlap) / 2.0, (1.0 + overlap) / 2.0
    spool = m.command(tag, d.get("position", position), d.get("shift_time", 0.05))
    paths = sorted({path for joined in ways.values() for path in joined})
    ends = {path: (ports[path[0]], ports[path[1]]) for path in paths}
    fill_ports(m, d, PORT, *ports.values())
    watch(m, tag, **ports)

    def part(t):
        s, old, new = spool.share(t), ways[spool.old], ways[spool.new]
        for path in paths:
            if path in old:
                opening = 1.0 if path in new else laws.clamp(1.0 - s / s1)
            elif path in new:
                opening = laws.clamp((s - s2) / (1.0 - s2))
            else:
                opening = 0.0
            a, b = ends[path]
            drop = m.p[a] - m.p[b]
            m.flow(a, b, laws.restriction(drop, ab, opening) + leak * drop)
    m.parts.append(part)


def line(m, tag, d, a, b):
    """Hose or tube: half of its oil and of its walls' give at each end, no inertia."""
    bore, length = d["bore"], d["length"]
    volume = area_of(bore) * length
    if "wall" in d or "roughness" in d:  # a steel tube, thin-walled, E = 210 GPa
        give, rough = volume * bore / (d.get("wall", 2e-3) * 210e9), d.get("roughness", 1.5e-6)
    else:
        give, rough = d.get("expansion", 1e-13) * length, 0.0
    fittings = d.get("fittings", 0.0)
    m.add_volume(a, volume / 2.0, give / 2.0)
    m.add_volume(b, volume / 2.0, give / 2.0)
    watch(m, tag, A=a, B=b)

    def flow():
        drop = m.p[a] - m.p[b]
        return laws.pipe(drop, bore, length, rough, fittings, m.rho[a if drop > 0.0 else b], m.oil.nu)
    m.signals[f"{tag}.A.flow"] = lambda: flow() * m.rho[a if m.p[a] > m.p[b] else b] / m.rho[a]
    m.parts.append(lambda t: m.flow(a, b, flow()))


def line_with_inertia(m, tag, d, a, b):
    """A steel tube in equal pieces, each with half its oil at either end and L/A·dw/dt = p_A − p_B − drop."""
    pieces = int(d["segments"])
    bore, length = d["bore"], d["length"] / pieces
    volume = area_of(bore) * length
    give, rough = volume * bore / (d.get("wall", 2e-3) * 210e9), d.get("roughness", 1.5e-6)
    fittings = d.get("fittings", 0.0) / pieces
    nodes = [a] + [m.node() for _ in range(pieces - 1)] + [b]
    flows = [m.lag() for _ in range(pieces)]
    watch(m, tag, A=a, B=b)
    for w, here, there in zip(flows, nodes[:-1], nodes[1:]):
        m.add_volume(here, volume / 2.0, give / 2.0)
        m.add_volume(there, volume / 2.0, give / 2.0)

        def part(t, w=w, here=here, there=there):
            rho = m.rho[here if m.s[w] > 0.0 else there]
            drop = laws.pipe_drop(m.s[w] / rho, bore, length, rough, fittings, rho, m.oil.nu)
            m.rate[w] = area_of(bore) / length * (m.p[here] - m.p[there] - drop)
            m.move(here, there, m.s[w])
        m.parts.append(part)
    m.signals[f"{tag}.A.flow"] = lambda: m.s[flows[0]] / m.rho[a]


def gauge(m, tag, d, node):
    m.add_volume(node, d.get("port_volume", 1e-6), d.get("give", 0.2e-6) / d["range"])
    watch(m, tag, M=node)


def piston(m, tag, d, stroke, sides, mass):
    """A body with rubbing, return spring and stops; sides are (node, area), area negative where it pushes back."""
    body = m.body(mass, d.get("start_position", 0.0))
    dry, seal = d.get("friction", 50.0), d.get("seal_friction", 0.02)
    creep, damping = d.get("creep_speed", 1e-6), d.get("damping", 500.0)
    preload, rate = d.get("spring_preload", 0.0), d.get("spring_rate", 0.0)
    stiffness = d.get("stop_stiffness", 2e8)
    stop_damping = stiffness * 1e-3
    for node, area in sides:
        m.add_volume(node, d.get("dead_volume", 5e-6) + (0.0 if area > 0.0 else -area * stroke))
        m.sweep(node, body, area)
    m.signals[f"{tag}.position"] = lambda: m.x[body]
    m.signals[f"{tag}.speed"] = lambda: m.v[body]

    def part(t):
        x, v = m.x[body], m.v[body]
        push = sum(m.p[node] * area for node, area in sides)
        pressing = sum(max(0.0, m.p[node]) * abs(area) for node, area in sides)
        m.force[body] += (push - laws.friction(dry + seal * pressing, v, creep, damping) - preload - rate * x
                          + laws.contact(-x, -v, stiffness, stop_damping)
                          - laws.contact(x - stroke, v, stiffness, stop_damping))
    m.parts.append(part)
    return body


def single_acting_cylinder(m, tag, d, a):
    watch(m, tag, A=a)
    return piston(m, tag, d, d["stroke"], [(a, area_of(d["bore"]))], d.get("moving_mass", 5.0))


def double_acting_cylinder(m, tag, d, a, b):
    watch(m, tag, A=a, B=b)
    sides = [(a, area_of(d["bore"])), (b, -(area_of(d["bore"]) - area_of(d["rod"])))]
    leak = leak_of(d)
    if leak:
        m.parts.append(lambda t: m.flow(a, b, leak * (m.p[a] - m.p[b])))
    return piston(m, tag, d, d["stroke"], sides, d.get("moving_mass", 5.0))


def mass(m, d, body):
    m.mass[body] += d["mass"]
    weight = d["mass"] * laws.GRAVITY * math.sin(math.radians(d.get("slope", 90.0)))

    def part(t):
        m.force[body] -= weight
    m.parts.append(part)


def force(m, tag, d, body):
    push = m.command(tag, d["force"], d.get("change_time", 0.05))

    def part(t):
        m.force[body] -= push.value(t)
    m.parts.append(part)


def spring(m, tag, d, body):
    rate, free, preload = d["rate"], d.get("free_travel", 0.0), d.get("preload", 0.0)
    damping = d.get("damping", 1000.0)

    def push():
        depth = m.x[body] - free
        return laws.contact(depth, m.v[body], rate, damping) + preload * laws.clamp(depth / 1e-5)
    m.signals[f"{tag}.force"] = push

    def part(t):
        m.force[body] -= push()
    m.parts.append(part)


def swing_clamp(m, tag, d, a, b=None):
    """Clamp that a spring, or oil at b, returns; its position counts from the released end, the workpiece is met after swing and gap."""
    stroke = d["swing_stroke"] + d["clamp_stroke"]
    met = d["swing_stroke"] + d.get("gap", d["clamp_stroke"] / 2.0)
    stiffness = d.get("part_stiffness", 5e7)
    watch(m, tag, A=a)
    sides = [(a, d["clamp_area"])]
    if b is None:
        d = {"spring_preload": 60.0, "spring_rate": 1000.0, **d}
    else:
        sides.append((b, -d["unclamp_area"]))
        watch(m, tag, B=b)
    arm = piston(m, tag, d, stroke, sides, d.get("moving_mass", 1.0))

    def push():
        return laws.contact(m.x[arm] - met, m.v[arm], stiffness, stiffness * 1e-3)
    m.signals[f"{tag}.clamp_force"] = lambda: push() * d.get("arm_factor", 1.0)

    def part(t):
        m.force[arm] -= push()
    m.parts.append(part)
    return arm


def work_support(m, tag, d, a):
    """Oil raises the lift piston, a contact spring the plunger on it; oil above the locking pressure holds the plunger.

    The plunger is seated on the piston by a tenth of the stops' stiffness. Returns the plunger.
    """
    d = {"spring_preload": 25.0, "spring_rate": 1000.0, "dead_volume": 4e-6, **d}
    weight = d.get("moving_mass", 0.3)
    creep = d.get("creep_speed", 1e-6)
    watch(m, tag, A=a)
    lift = piston(m, f"{tag}.lift", d, d.get("stroke", 12e-3), [(a, d.get("lift_area", 0.8e-4))], weight)
    plunger = m.body(weight)
    gap, part_stiffness = d.get("gap", 8e-3), d.get("part_stiffness", 5e7)
    preload, rate = d.get("contact_preload", 20.0), d.get("contact_rate", 8e3)
    seat = 0.1 * d.get("stop_stiffness", 2e8)
    lock = d.get("lock_pressure", 40e5)
    slope = d["capacity"] / (d["capacity_pressure"] - lock)

    def capacity():
        return max(0.0, m.p[a] - lock) * slope

    def touch():
        return laws.contact(m.x[plunger] - gap, m.v[plunger], part_stiffness, part_stiffness * 1e-3)
    m.signals[f"{tag}.capacity"], m.signals[f"{tag}.touch_force"] = capacity, touch
    m.signals[f"{tag}.plunger.position"] = lambda: m.x[plunger]

    def part(t):
        above = m.x[plunger] - m.x[lift]
        lifting = preload - rate * above - laws.contact(above, m.v[plunger] - m.v[lift], seat, seat * 1e-3)
        holding = laws.friction(d.get("plunger_friction", 3.0) + capacity(), m.v[plunger], creep, 0.0)
        m.force[plunger] += lifting - holding - touch()
        m.force[lift] -= lifting
    m.parts.append(part)
    return plunger


def counterbalance(m, tag, d, a, b, pilot):
    """The spring chamber drains to b, whose pressure adds 1 + ratio times; a check from b to a is beside it."""
    setting, ratio = d["setting"], d["ratio"]
    band, tau, x = d.get("override", 0.05) * setting, d.get("response_time", 0.01), m.lag()
    ab, crack, leak = restriction_of(m, d, 10e5), d.get("cracking_pressure", 1e5), leak_of(d)
    fill_ports(m, d, PORT, a, b, pilot)
    watch(m, tag, A=a, B=b, X=pilot)
    m.signals[f"{tag}.opening"] = lambda: m.s[x]

    def part(t):
        error = m.p[a] + ratio * m.p[pilot] - (1.0 + ratio) * m.p[b] - setting
        m.rate[x] = (laws.clamp(error / band) - m.s[x]) / tau
        drop = m.p[a] - m.p[b]
        m.flow(a, b, laws.restriction(drop, ab, m.s[x]) + leak * drop)
        m.flow(b, a, laws.restriction(-drop, ab, check_opening(-drop, crack)))
    m.parts.append(part)


def accumulator(m, tag, d, a):
    """Bladder: (p_gas + p_atm)·V^n = const, a separator of small mass with metal stops, a neck that resists.

    The stops are so stiff that the precharge presses the separator in by a ten-thousandth of its way.
    """
    whole, precharge, n = d["gas_volume"], d["precharge"], d.get("exponent", 1.2)
    area = whole ** (2.0 / 3.0)
    stroke = (1.0 - d.get("least_gas", 0.1)) * whole / area
    neck_a, neck_b = laws.from_point(d["rated_flow"], d.get("pressure_drop", 2e5))
    stiffness = max(precharge, 10e5) * area / (1e-4 * stroke)
    body = m.body(d.get("moving_mass", 0.5))
    m.add_volume(a, d["dead_volume"])
    m.sweep(a, body, area)
    watch(m, tag, A=a)

    def gas():
        return (precharge + ATMOSPHERE) * (whole / (whole - area * m.x[body])) ** n - ATMOSPHERE
    m.signals[f"{tag}.gas_pressure"], m.signals[f"{tag}.oil_volume"] = gas, lambda: area * m.x[body]

    def part(t):
        x, v = m.x[body], m.v[body]
        neck = (neck_b + neck_a * abs(area * v)) * area * v
        m.force[body] += ((m.p[a] - gas() - neck) * area + laws.contact(-x, -v, stiffness, stiffness * 1e-3)
                          - laws.contact(x - stroke, v, stiffness, stiffness * 1e-3))
    m.parts.append(part)
