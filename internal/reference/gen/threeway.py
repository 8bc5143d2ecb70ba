"""Circuits with a control valve: every loop equation written out, the flows found by nested bracketing.

The unknowns are flows, and each element keeps its own drop: no pressure at a junction, no sum of conductances and no
Newton step is used. Temperatures come from the balances of the junctions as a linear system.
"""

import decimal
from decimal import Decimal

import common

decimal.getcontext().prec = 28
FIRST = Decimal("1e-3")  # m³/s, the first bracket's half; it grows as far as it must
CLOSE = Decimal("1e-24")  # m³/s
RHO0 = Decimal("999.10")
BAR = Decimal(10) ** 5
HOUR = Decimal(3600)
LEAST_DROP = 2  # Pa; below 1 Pa networks want another law than the square root

LAWS = {
    "linear 50": lambda h: 1 / Decimal(50) + (1 - 1 / Decimal(50)) * h,
    "linear 30": lambda h: 1 / Decimal(30) + (1 - 1 / Decimal(30)) * h,
    "equal-percentage 50": lambda h: Decimal(50) ** (h - 1),
    "equal-percentage 25": lambda h: Decimal(25) ** (h - 1),
    "parabolic": lambda h: h * h,
    "quick-opening 2": Decimal.sqrt,
}
NAMES = list(LAWS)


def bracket(rising):
    """The flow at which a rising function is zero, held between two flows that close in on it.

    T. R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the zero of a nonlinear function without
    using derivatives", Advances in Engineering Software 28 (1997), 145–149 (from memory): halving, or the parabola
    through three points where that is safe.
    """
    a, b = FIRST, -FIRST
    while (fa := rising(a)) <= 0:
        a *= 8
    while (fb := rising(b)) >= 0:
        b *= 8
    share = Decimal("0.5")
    while True:
        t = a + share * (b - a)
        ft = rising(t)
        if (ft > 0) == (fa > 0):
            c, fc = a, fa
        else:
            c, b, fc, fb = b, a, fb, fa
        a, fa = t, ft
        width = abs(b - a)
        if fa == 0 or width <= 2 * CLOSE:
            return a
        edge = CLOSE / width
        xi, phi = (a - b) / (c - b), (fa - fb) / (fc - fb)
        share = Decimal("0.5")
        if phi * phi < xi and (1 - phi) * (1 - phi) < 1 - xi:
            share = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        share = min(max(share, edge), 1 - edge)


class Element:
    """A resistance R in Pa/(m³/s)²: Δp = R·q·|q|."""

    def __init__(self, resistance):
        self.r = Decimal(resistance)

    def drop(self, q):
        return self.r * q * abs(q)


def port(kvs, law, opening, rho):
    """A port of the valve by the definition of Kv: Δp = 1 bar·(q/Kv)²·ρ/ρ0, q in m³/h."""
    kv = Decimal(kvs) * LAWS[law](Decimal(opening))
    return Element(BAR * Decimal(rho) / RHO0 * (HOUR / kv) ** 2)


def mixing(c):
    def bypass(a):
        # Pump loop: consumer and bypass.
        return bracket(lambda b: c["consumer"].drop(a + b) + c["bypass"].drop(b) + c["port B"].drop(b) - c["pump"])

    def loop(a):
        # From header to header through port A and the consumer, with both pressures behind it.
        return (c["primary"].drop(a) + c["port A"].drop(a) + c["consumer"].drop(a + bypass(a))
                - c["header"] - c["pump"])

    a = bracket(loop)
    b = bypass(a)
    return {"consumer": a + b, "primary": a, "control": a, "bypass": b, "recirculated": b}


def diverting(c):
    def bypass(a):
        # Both ways lie between the same junctions.
        return bracket(lambda b: c["bypass"].drop(b) + c["port B"].drop(b) - c["consumer"].drop(a) - c["port A"].drop(a))

    a = bracket(lambda a: c["primary"].drop(a + bypass(a)) + c["consumer"].drop(a) + c["port A"].drop(a) - c["header"])
    b = bypass(a)
    return {"consumer": a, "primary": a + b, "control": a, "bypass": b, "recirculated": 0 * a}


def secondary(c, a):
    """Flow of the consumer's pump, through consumer and common pipe, with a injected."""
    return bracket(lambda q: c["consumer"].drop(q) + c["common"].drop(q - a) - c["pump"])


def injection(c):
    def bypass(a):
        return bracket(lambda b: c["primary"].drop(a + b) + c["bypass"].drop(b) + c["port B"].drop(b) - c["header"])

    def loop(a):
        # Through the injection pipes, port A and, against its direction, the common pipe.
        return (c["primary"].drop(a + bypass(a)) + c["injection"].drop(a) + c["port A"].drop(a)
                - c["common"].drop(secondary(c, a) - a) - c["header"])

    a = bracket(loop)
    b, q = bypass(a), secondary(c, a)
    return {"consumer": q, "primary": a + b, "control": a, "bypass": b, "recirculated": q - a}


def throttled(c):
    a = bracket(lambda a: c["primary"].drop(a) + c["port A"].drop(a) - c["common"].drop(secondary(c, a) - a) - c["header"])
    q = secondary(c, a)
    return {"consumer": q, "primary": a, "control": a, "bypass": 0 * a, "recirculated": q - a}


def drops(name, c, q):
    """Pressure differences of the ways between junctions, which all must be in the square-root law."""
    a, b = c["port A"].drop(q["control"]), c["port B"].drop(q["bypass"]) + c["bypass"].drop(q["bypass"])
    ways = {
        "mixing": [a + c["primary"].drop(q["control"]), b, c["consumer"].drop(q["consumer"])],
        "diverting": [a + c["consumer"].drop(q["control"]), b, c["primary"].drop(q["primary"])],
        "injection": [a + c["injection"].drop(q["control"]), b, c["primary"].drop(q["primary"]),
                      c["consumer"].drop(q["consumer"]), c["common"].drop(q["recirculated"])],
        "throttled": [a + c["primary"].drop(q["control"]), c["consumer"].drop(q["consumer"]),
                      c["common"].drop(q["recirculated"])],
    }[name]
    return [abs(d) for d in ways]


def linear(matrix, right):
    """Gauss–Jordan elimination with pivots."""
    rows = [[Decimal(x) for x in row] + [Decimal(r)] for row, r in zip(matrix, right)]
    for k in range(len(rows)):
        pivot = max(range(k, len(rows)), key=lambda i: abs(rows[i][k]))
        rows[k], rows[pivot] = rows[pivot], rows[k]
        rows[k] = [x / rows[k][k] for x in rows[k]]
        for i in range(len(rows)):
            if i != k:
                rows[i] = [x - rows[i][k] * y for x, y in zip(rows[i], rows[k])]
    return [row[-1] for row in rows]


def temperatures(name, q, source, per_flow):
    """Supply and return of the consumer and return to the source; per_flow is Φ/(ρ·cp).

    One balance for each junction, of what flows into it, whichever way that is: the supply junction of the source, that
    of the consumer, the consumer itself, its return junction, and that of the source. The unknowns are what leaves them,
    as differences from the source.
    """
    past = q["bypass"] if name in ("diverting", "injection") else 0  # from the source's supply junction to its return junction
    back = q["recirculated"]  # from the consumer's return junction to its supply junction
    forth, turned = max(past, 0), max(-past, 0)
    again, short = max(back, 0), max(-back, 0)
    a, c = q["control"], q["consumer"]
    excess = linear([
        [a + forth, 0, 0, 0, -turned],
        [-a, a + again, 0, -again, 0],
        [0, -c, c, 0, 0],
        [0, -short, -c, c + short, 0],
        [-forth, 0, 0, -a, a + forth],
    ], [0, 0, -per_flow, 0, 0])
    return source + excess[1], source + excess[2], source + excess[4]


SOLVERS = {"mixing": mixing, "diverting": diverting, "injection": injection, "throttled": throttled}
USED = {
    "mixing": ("primary", "bypass", "consumer"),
    "diverting": ("primary", "bypass", "consumer"),
    "injection": ("primary", "injection", "bypass", "consumer", "common"),
    "throttled": ("primary", "consumer", "common"),
}
MAY_BE_ZERO = {"mixing": ("primary", "bypass"), "diverting": ("primary",), "injection": ("primary", "common"), "throttled": ("common",)}
PIPES = ("primary", "injection", "bypass", "consumer", "common")


def pressure(rng):
    """Usual ones, and small ones, so that flows the wrong way occur."""
    return common.uniform(rng, 1e4, 8e4) if rng.random() < 0.5 else common.uniform(rng, 500, 5e3)


def draw(rng, name):
    """Inputs about a design flow: drops of pipes and ports from 1 to 40 kPa there, of the common pipe a tenth of it or, a fault, the threefold."""
    q = common.log_uniform(rng, 1e-4, 1e-2)
    r = {pipe: 0.0 for pipe in PIPES}
    for pipe in USED[name]:
        scale = rng.choice((0.1, 0.1, 3)) if pipe == "common" else 1
        r[pipe] = float(f"{scale * rng.uniform(1e3, 3e4) / q ** 2:.6g}")
        if pipe in MAY_BE_ZERO[name] and rng.random() < 0.25:
            r[pipe] = 0.0
    header = 0.0 if name == "mixing" and rng.random() < 0.5 else pressure(rng)
    pump = 0.0 if name == "diverting" else pressure(rng)
    rho = common.uniform(rng, 950, 1060)
    kvs = [float(f"{q * 3600 / (rng.uniform(2e3, 4e4) / 1e5) ** 0.5:.6g}") for _ in range(2)]
    laws = [rng.choice(NAMES), rng.choice(NAMES)]
    return name, laws, common.uniform(rng, 0.03, 0.97), kvs, rho, header, pump, r


def solve(name, laws, travel, kvs, rho, header, pump, r):
    c = {pipe: Element(r[pipe]) for pipe in PIPES}
    c["port A"] = port(kvs[0], laws[0], travel, rho)
    c["port B"] = port(kvs[1], laws[1], 1 - Decimal(travel), rho)
    c["header"], c["pump"] = Decimal(header), Decimal(pump)
    q = SOLVERS[name](c)
    if any(d != 0 and d < LEAST_DROP for d in drops(name, c, q)):
        return None
    return q, c["port A"].drop(q["control"])


def rows(rng, count):
    names = list(SOLVERS)
    done = 0
    while done < count:
        inputs = draw(rng, names[done % len(names)])
        cp, source, change = common.uniform(rng, 3500, 4220), common.uniform(rng, 279, 353), common.uniform(rng, 3, 30)
        solved = solve(*inputs)
        if solved is None:
            continue
        done += 1
        name, laws, travel, kvs, rho, header, pump, r = inputs
        q, drop = solved
        injected = min(q["control"], q["consumer"], q["primary"])
        heat = float(f"{rho * cp * float(injected) * change * (1 if source > 300 else -1):.6g}")
        t = temperatures(name, q, Decimal(source), Decimal(heat) / (Decimal(rho) * Decimal(cp)))
        yield (name, *laws, travel, *kvs, rho, header, pump, *(r[pipe] for pipe in PIPES),
               *(q[key] for key in ("consumer", "primary", "control", "bypass", "recirculated")), drop, cp, source, heat, *t)


common.main(common.Table(
    "threeway", "circuits with a three-way valve, or a two-way valve in injection: flows and temperatures",
    "definition of Kv (IEC 60534-1) and Kirchhoff's laws in their loop form, by nested bracketing of the flows (Chandrupatla 1997) in "
    "28-digit decimals; balances of the junctions as a linear system",
    common.standard_library(),
    {"circuit": "text", "control": "text", "bypass": "text", "travel": "1", "Kvs_control": "m³/h at 1 bar",
     "Kvs_bypass": "m³/h at 1 bar", "rho_kg_m3": "kg/m³", "header_Pa": "Pa", "pump_Pa": "Pa",
     **{f"R_{pipe}": "Pa/(m³/s)²" for pipe in PIPES},
     **{f"q_{key}_m3_s": "m³/s" for key in ("consumer", "primary", "control", "bypass", "recirculated")},
     "dp_valve_Pa": "Pa", "cp_J_kgK": "J/(kg·K)", "T_source_K": "K", "heat_W": "W",
     "T_consumer_supply_K": "K", "T_consumer_return_K": "K", "T_primary_return_K": "K"},
    rows, 200,
    ("the bypass port is open by 1 − travel; its laws are those of IEC 60534-2-4 by the decimals' own powers",
     "positive flows go from source to consumer and back; recirculated goes from the consumer's return to its supply",
     "heat is what the consumer takes from the water, below zero in cooling",
     "throttled injection has a two-way valve: the columns of the bypass mean nothing there",
     f"no way between junctions drops less than {LEAST_DROP} Pa unless it has no resistance; a resistance of 0 stands for none or, "
     "where the circuit has no such pipe, for nothing")))
