"""Installed characteristics: a valve and a fixed resistance in series, each flow found by bisection.

Nothing here uses the closed form q/q100 = φ/√(φ²(1−N)+N): the pressure between the two resistances is searched
until both pass the same flow.
"""

from decimal import Decimal, getcontext

import common

getcontext().prec = 40
RHO0 = Decimal("999.10")
BAR = Decimal(10) ** 5
HOUR = Decimal(3600)

LAWS = {
    "linear": lambda h: h,
    "linear 50": lambda h: 1 / Decimal(50) + (1 - 1 / Decimal(50)) * h,
    "linear 30": lambda h: 1 / Decimal(30) + (1 - 1 / Decimal(30)) * h,
    "equal-percentage 25": lambda h: Decimal(25) ** (h - 1),
    "equal-percentage 50": lambda h: Decimal(50) ** (h - 1),
    "parabolic": lambda h: h * h,
    "quick-opening 2": Decimal.sqrt,
}


def flow(kv, drop, rho):
    """Flow in m³/s through a Kv (m³/h at 1 bar, water of ρ0) at a pressure difference in Pa."""
    return kv / HOUR * (drop / BAR * RHO0 / rho).sqrt()


def solve(kv_valve, kv_rest, total, rho):
    """Pressure difference of the valve and flow, with the rest in series under the total, by bisection to 2^-96 of it."""
    low, high = Decimal(0), total
    for _ in range(96):
        drop = (low + high) / 2
        if flow(kv_valve, drop, rho) < flow(kv_rest, total - drop, rho):
            low = drop
        else:
            high = drop
    return drop, flow(kv_valve, drop, rho)


def rows(rng, count):
    names = list(LAWS)
    for i in range(count):
        law = names[i % len(names)]
        h = common.uniform(rng, 0.05, 1)
        kvs, wanted = common.log_uniform(rng, 0.1, 100), common.log_uniform(rng, 0.01, 0.999)
        kv_rest = float(f"{kvs * (wanted / (1 - wanted)) ** 0.5:.6g}")
        total, rho = common.log_uniform(rng, 5e3, 5e5), common.uniform(rng, 900, 1150)
        valve, rest, pressure, density = map(Decimal, (kvs, kv_rest, total, rho))
        phi = LAWS[law](Decimal(h))
        open_drop, open_flow = solve(valve, rest, pressure, density)
        _, part = solve(valve * phi, rest, pressure, density)
        yield law, h, kvs, kv_rest, total, rho, phi, open_drop / pressure, open_flow, part, part / open_flow


common.main(common.Table(
    "installed", "valve and fixed resistance in series under constant total pressure",
    "definition of Kv (IEC 60534-1) for both resistances, the pressure between them found by bisection in 40-digit decimals",
    common.standard_library(),
    {"law": "text", "travel": "1", "Kvs": "m³/h at 1 bar", "Kv_rest": "m³/h at 1 bar", "dp_total_Pa": "Pa", "rho_kg_m3": "kg/m³",
     "phi": "1", "authority": "1", "q_open_m3_s": "m³/s", "q_m3_s": "m³/s", "ratio": "1"},
    rows, 140,
    ("authority is the valve's share of the total pressure when open",
     "the laws are those of IEC 60534-2-4 by the decimals' own powers")))
