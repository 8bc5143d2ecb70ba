"""Installed characteristics: a valve and a fixed resistance in series, each flow found by bisection.

Nothing here uses the closed form q/q100 = φ/√(φ²(1−N)+N): the pressure between the two resistances is searched
until both pass the same flow.
"""

import platform

import mpmath

import common

mpmath.mp.dps = 40
RHO0 = mpmath.mpf("999.10")
BAR = mpmath.mpf(10) ** 5
HOUR = mpmath.mpf(3600)

LAWS = {
    "linear": lambda h: h,
    "linear 50": lambda h: 1 / mpmath.mpf(50) + (1 - 1 / mpmath.mpf(50)) * h,
    "linear 30": lambda h: 1 / mpmath.mpf(30) + (1 - 1 / mpmath.mpf(30)) * h,
    "equal-percentage 25": lambda h: mpmath.mpf(25) ** (h - 1),
    "equal-percentage 50": lambda h: mpmath.mpf(50) ** (h - 1),
    "parabolic": lambda h: h * h,
    "quick-opening 2": mpmath.sqrt,
}


def flow(kv, drop, rho):
    """Flow in m³/s through a Kv (m³/h at 1 bar, water of ρ0) at a pressure difference in Pa."""
    return kv / HOUR * mpmath.sqrt(drop / BAR * RHO0 / rho)


def solve(kv_valve, kv_rest, total, rho):
    """Pressure difference of the valve and flow, with the rest in series under the total, by bisection."""
    low, high = mpmath.mpf(0), mpmath.mpf(total)
    for _ in range(2 * mpmath.mp.prec):
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
        open_drop, open_flow = solve(mpmath.mpf(kvs), mpmath.mpf(kv_rest), mpmath.mpf(total), mpmath.mpf(rho))
        phi = LAWS[law](mpmath.mpf(h))
        _, part = solve(kvs * phi, mpmath.mpf(kv_rest), mpmath.mpf(total), mpmath.mpf(rho))
        yield law, h, kvs, kv_rest, total, rho, phi, open_drop / total, open_flow, part, part / open_flow


common.main(common.Table(
    "installed", "valve and fixed resistance in series under constant total pressure",
    "definition of Kv (IEC 60534-1) for both resistances, the pressure between them found by bisection at 40 digits (mpmath)",
    f"mpmath {mpmath.__version__}, Python {platform.python_version()}",
    {"law": "text", "travel": "1", "Kvs": "m³/h at 1 bar", "Kv_rest": "m³/h at 1 bar", "dp_total_Pa": "Pa", "rho_kg_m3": "kg/m³",
     "phi": "1", "authority": "1", "q_open_m3_s": "m³/s", "q_m3_s": "m³/s", "ratio": "1"},
    rows, 140,
    ("authority is the valve's share of the total pressure when open",
     "the laws are those of IEC 60534-2-4 by mpmath's own powers")))
