"""Liquid sizing of control valves, IEC 60534-2-1: by python3-fluids where it solves the standard's
equations, by an independent solver to the fixed point where it stops early (reducers) or scales by
1.3 instead of solving (non-turbulent flow)."""

import math

from fluids import control_valve as library

import common

# IEC 60534-2-1, table 1: m³/h, kPa, mm, m²/s.
N1, N2, N4, N18, N32 = 0.1, 1.6e-3, 7.07e-2, 0.865, 140.0
GREATEST_TRIM = 1.0  # C/d², 25 times what the standard allows: an iteration beyond it has no fixed point that is used
WATER_PC = 22.064e6
LIBRARY = common.debian("fluids")
OWN = "independent solver in gen/sizing.py, " + common.standard_library()
STANDARD = "IEC 60534-2-1"


# ── the standard's equations, written again for the cases that the library does not solve ──

def critical_ratio(pv, pc):
    return 0.96 - 0.28 * math.sqrt(pv / pc)


def reducer_losses(d, D1, D2):
    """Σζ of both reducers with the Bernoulli terms, and that of the inlet alone (clause on FP, FLP)."""
    b1, b2 = (d / D1) ** 2, (d / D2) ** 2
    inlet = 0.5 * (1 - b1) ** 2 + 1 - b1 ** 2
    return inlet + (1 - b2) ** 2 - (1 - b2 ** 2), inlet


def valve_reynolds(nu, Q, D, FL, Fd, C):
    """Q in m³/h, D in mm."""
    return N4 * Fd * Q / (nu * math.sqrt(C * FL)) * (FL ** 2 * C ** 2 / (N2 * D ** 4) + 1) ** 0.25


def reynolds_factor(FL, C, d, Rev, full_trim):
    """d in mm."""
    n = N2 / (C / d ** 2) ** 2 if full_trim else 1 + N32 * (C / d ** 2) ** (2 / 3)
    laminar = min(0.026 / FL * math.sqrt(n * Rev), 1)
    if Rev < 10:
        return laminar
    return min(laminar, 1 + 0.33 * math.sqrt(FL) / n ** 0.25 * math.log10(Rev / 1e4))


def is_full_trim(C, d):
    """d in mm."""
    return C / d ** 2 >= 0.016 * N18


def fitted_coefficient(G, pv, pc, p1, p2, Q, D1, D2, d, FL):
    """Iterates C → (FP, FLP, choked) → C until it stands still; None if it does not, or leaves every valve behind."""
    q, millimetres = Q * 3600, d * 1e3
    losses, inlet = reducer_losses(d, D1, D2)
    reach = (p1 - critical_ratio(pv, pc) * pv) / 1e3
    dp = (p1 - p2) / 1e3
    C = q / N1 * math.sqrt(G / dp)
    for _ in range(5000):
        load = (C / millimetres ** 2) ** 2 / N2
        if 1 + losses * load <= 0 or C > GREATEST_TRIM * millimetres ** 2:
            return None
        FP = 1 / math.sqrt(1 + losses * load)
        FLP = FL / math.sqrt(1 + FL ** 2 * inlet * load)
        choked = dp >= (FLP / FP) ** 2 * reach
        after = q / (N1 * FLP) * math.sqrt(G / reach) if choked else q / (N1 * FP) * math.sqrt(G / dp)
        if abs(after - C) <= 1e-15 * C:
            return after, FP, FLP, choked
        C = after
    return None


def bisect(f, low, high):
    """The root of an f that changes sign once, to neighbouring doubles."""
    rising = f(high) > 0
    while True:
        middle = 0.5 * (low + high)
        if not low < middle < high:
            return middle
        if (f(middle) > 0) == rising:
            high = middle
        else:
            low = middle


def sign_changes(f, low, high, jump=None, steps=300):
    """How often f changes sign on a logarithmic grid, with a point on each side of a known jump."""
    grid = [low * (high / low) ** (i / steps) for i in range(steps + 1)]
    if jump:
        grid = sorted(grid + [jump * (1 - 1e-12), jump * (1 + 1e-12)])
    values = [f(x) > 0 for x in grid]
    return sum(a != b for a, b in zip(values, values[1:]))


# ── points ──

def body(rng, least_ratio=0.002, greatest_ratio=0.04):
    """A valve: Kv, and a size that the standard allows for it (C/d² in m³/h per mm²)."""
    C = common.log_uniform(rng, 0.1, 1000)
    d = math.sqrt(C / common.log_uniform(rng, least_ratio, greatest_ratio)) / 1e3
    return C, float(f"{d:.6g}"), common.uniform(rng, 0.5, 0.95), common.uniform(rng, 0.1, 1.0)


def service(rng, FL):
    """A liquid and its pressures: relative density, vapour and critical pressure, p1, and the choked Δp."""
    G = common.uniform(rng, 0.6, 1.2)
    pc = common.log_uniform(rng, 3e6, WATER_PC)
    pv = common.log_uniform(rng, 600, 3e5)
    p1 = common.log_uniform(rng, max(1.5e5, 1.5 * pv), 2.5e6)
    return G, pv, pc, p1, FL ** 2 * (p1 - critical_ratio(pv, pc) * pv)


def unfitted(rng, choked):
    """One sizing without reducers, in turbulent flow, by the library."""
    while True:
        C, d, FL, Fd = body(rng)
        G, pv, pc, p1, limit = service(rng, FL)
        greatest = p1 - 1.01 * pv
        least = 1.001 * limit if choked else 0.01 * limit
        if choked and least >= greatest:
            continue
        p2 = float(f"{p1 - (rng.uniform(least, greatest) if choked else rng.uniform(least, 0.999 * limit)):.6g}")
        nu = common.log_uniform(rng, 2e-7, 5e-6)
        Q = float(f"{N1 * C * math.sqrt(min(p1 - p2, limit) / 1e3 / G) / 3600:.6g}")
        rho = G * library.rho0
        out = library.size_control_valve_l(
            rho=rho, Psat=pv, Pc=pc, mu=nu * rho, P1=p1, P2=p2, Q=Q, D1=d, D2=d, d=d, FL=FL, Fd=Fd, full_output=True)
        if out["Rev"] > 10000 and p2 < p1 and bool(out["choked"]) == choked:
            return G, nu, pv, pc, p1, p2, Q, d, FL, Fd, out["Kv"], out["FF"], out["Rev"]


def turbulent(rng, count):
    for _ in range(count):
        yield unfitted(rng, choked=False)


def choked(rng, count):
    for _ in range(count):
        yield unfitted(rng, choked=True)


def fitted(rng, count):
    """Between reducers; each point is also checked against the closed form of its own equation."""
    done = 0
    while done < count:
        C, d, FL, Fd = body(rng, 0.005, 0.04)
        G, pv, pc, p1, limit = service(rng, FL)
        D1 = float(f"{d * rng.uniform(1, 2):.6g}")
        D2 = float(f"{d * rng.uniform(1, 2):.6g}")
        p2 = float(f"{p1 - rng.uniform(0.05 * limit, min(1.3 * limit, p1 - 1.01 * pv)):.6g}")
        nu = common.log_uniform(rng, 2e-7, 2e-6)
        Q = float(f"{N1 * C * math.sqrt(min(p1 - p2, limit) / 1e3 / G) / 3600:.6g}")
        solved = fitted_coefficient(G, pv, pc, p1, p2, Q, D1, D2, d, FL)
        if solved is None or solved[0] / (d * 1e3) ** 2 > 0.04:
            continue
        Kv, FP, FLP, chokes = solved
        Rev = valve_reynolds(nu, Q * 3600, D1 * 1e3, FL, Fd, Kv)
        if Rev < 10000:
            continue
        check_closed_form(Kv, chokes, G, pv, pc, p1, p2, Q, D1, D2, d, FL)
        done += 1
        yield G, nu, pv, pc, p1, p2, Q, D1, D2, d, FL, Fd, Kv, FP, FLP, chokes, Rev


def check_closed_form(Kv, chokes, G, pv, pc, p1, p2, Q, D1, D2, d, FL):
    """C = a·√(1 + b·C²) has C² = a²/(1 − a²·b)."""
    losses, inlet = reducer_losses(d, D1, D2)
    if chokes:
        a = Q * 3600 / (N1 * FL) * math.sqrt(G / ((p1 - critical_ratio(pv, pc) * pv) / 1e3))
        b = FL ** 2 * inlet / N2 / (d * 1e3) ** 4
    else:
        a = Q * 3600 / N1 * math.sqrt(G / ((p1 - p2) / 1e3))
        b = losses / N2 / (d * 1e3) ** 4
    if abs(Kv / (a / math.sqrt(1 - a * a * b)) - 1) > 1e-12:
        raise ValueError("the fixed point is not the closed form's")


def nonturbulent(rng, count):
    """Kv given, the flow solved from Q = N1·Kv·FR(Rev(Q))·√(Δp/G); full and reduced trim by turns."""
    done = 0
    while done < count:
        full = done % 2 == 0
        C, d, FL, Fd = body(rng, 0.016 * N18, 0.04) if full else body(rng, 0.0005, 0.016 * N18)
        C = float(f"{C * 0.01:.6g}") if rng.random() < 0.5 else C
        d = float(f"{math.sqrt(C / common.log_uniform(rng, *((0.01385, 0.04) if full else (0.0005, 0.0138)))) / 1e3:.6g}")
        mm = d * 1e3
        G, pv, pc, p1, limit = service(rng, FL)
        p2 = float(f"{p1 - rng.uniform(0.02, 0.9) * limit:.6g}")
        nu = common.log_uniform(rng, 1e-6, 1e-3)
        root = N1 * math.sqrt((p1 - p2) / 1e3 / G)

        def surplus(q):
            return q - root * C * reynolds_factor(FL, C, mm, valve_reynolds(nu, q, mm, FL, Fd, C), full)

        if sign_changes(surplus, 1e-9 * root * C, 2 * root * C) != 1:
            continue
        q = bisect(surplus, 1e-9 * root * C, 2 * root * C)
        Rev = valve_reynolds(nu, q, mm, FL, Fd, C)
        FR = reynolds_factor(FL, C, mm, Rev, full)
        if not (0.1 < Rev < 9900 and FR > 0.02) or is_full_trim(C, mm) != full or abs(surplus(q)) > 1e-13 * q:
            continue  # the last: FR jumps at Rev = 10 where Kv/d² is large, and no flow satisfies the equations

        def excess(kv):
            return q - root * kv * reynolds_factor(
                FL, kv, mm, valve_reynolds(nu, q, mm, FL, Fd, kv), is_full_trim(kv, mm))

        done += 1
        yield (G, nu, pv, pc, p1, p2, C, d, FL, Fd, q / 3600, Rev, FR, full,
               sign_changes(excess, 1e-5 * mm ** 2, 0.04 * mm ** 2, jump=0.016 * N18 * mm ** 2) == 1)


def fitted_flow(G, pv, pc, p1, p2, D1, D2, d, FL, C):
    """Turbulent flow of a Kv between reducers (D1, D2, d in mm), FP, FLP and whether it chokes; None where FP has no value."""
    losses, inlet = reducer_losses(d, D1, D2)
    load = (C / d ** 2) ** 2 / N2
    if 1 + losses * load <= 0:
        return None
    FP, FLP = 1 / math.sqrt(1 + losses * load), FL / math.sqrt(1 + FL ** 2 * inlet * load)
    reach, dp = (p1 - critical_ratio(pv, pc) * pv) / 1e3, (p1 - p2) / 1e3
    chokes = dp >= (FLP / FP) ** 2 * reach
    return N1 * C * (FLP * math.sqrt(reach / G) if chokes else FP * math.sqrt(dp / G)), FP, FLP, chokes


def is_rising(values):
    return all(a < b for a, b in zip(values, values[1:]))


def least_root(f, low, known, jump, peaks):
    """The least root of f, which is below zero at low, up to a known root; None if known is not close to it or above.

    peaks: above the jump f may rise to a peak and fall again, and is looked at every 0.2 %. None if a peak ends so
    close to zero that this does not tell on which side.
    """
    grid = [low * (known / low) ** (i / 120) for i in range(120)]
    grid += [known * (1 - 1e-9), known * (1 + 1e-9)]
    if low < jump < known:
        grid += [jump * (1 - 1e-12), jump * (1 + 1e-12)]
    if peaks and jump < known:
        steps = math.ceil(math.log(known / jump) / 0.002)
        grid += [jump * (known / jump) ** (i / steps) for i in range(1, steps)]
    grid.sort()
    values = [f(grid[0])]
    for below, above in zip(grid, grid[1:]):
        values.append(f(above))
        if values[-1] > 0:
            rises = not peaks or is_rising([f(below + (above - below) * i / 16) for i in range(17)])
            return bisect(f, below, above) if rises and not below < jump < above else None
        if peaks and len(values) > 2 and values[-3] < values[-2] > values[-1] and values[-2] > -1e-4 * abs(values[0]):
            return None
    return None


def viscous_valve(rng, aim, full):
    """A valve with its service: between reducers, choked, or at a Rev below 10, these also with reducers or choked."""
    FL, Fd = common.uniform(rng, 0.5, 0.95), common.uniform(rng, 0.1, 1.0)
    C = common.log_uniform(rng, 0.01, 1000)
    d = float(f"{math.sqrt(C / common.log_uniform(rng, *((0.01385, 0.04) if full else (0.0005, 0.0138)))) / 1e3:.6g}")
    fitted = aim == "reducers" or rng.random() < 0.5
    D1, D2 = (float(f"{d * rng.uniform(1, 2):.6g}") if fitted else d for _ in "12")
    G, pv, pc, p1, limit = service(rng, FL)
    chokes = aim == "choked" or aim == "laminar" and rng.random() < 0.3
    least, greatest = (limit, p1 - 0.5 * pv) if chokes else (0.02 * limit, min(1.1 * limit, p1 - 0.5 * pv))
    if least >= greatest:
        return None
    p2 = float(f"{p1 - rng.uniform(least, greatest):.6g}")
    nu = common.log_uniform(rng, *((1e-4, 1) if aim == "laminar" else (3e-6, 3e-2)))
    return C, d, D1, D2, FL, Fd, G, nu, pv, pc, p1, p2


def viscous(rng, count):
    """Flow of a Kv, by bisection, and the least Kv with that flow, by a search from below; what is hard comes by turns."""
    done = 0
    while done < count:
        full, aim = done % 2 == 0, ("reducers", "choked", "laminar")[done % 3]
        valve = viscous_valve(rng, aim, full)
        row = viscous_row(*valve, full) if valve else None
        if row is None or (row["Rev"] < 10) != (aim == "laminar") or aim == "choked" and not row["choked"]:
            continue
        done += 1
        yield tuple(row.values())


def viscous_row(C, d, D1, D2, FL, Fd, G, nu, pv, pc, p1, p2, full):
    mm, mm1 = d * 1e3, D1 * 1e3

    def turbulent(kv):
        return fitted_flow(G, pv, pc, p1, p2, mm1, D2 * 1e3, mm, FL, kv)

    def factor(q, kv):
        return reynolds_factor(FL, kv, mm, valve_reynolds(nu, q, mm1, FL, Fd, kv), is_full_trim(kv, mm))

    most = turbulent(C)
    if most is None or is_full_trim(C, mm) != full:
        return None
    most, FP, FLP, chokes = most

    def surplus(q):
        return q - most * factor(q, C)

    if sign_changes(surplus, 1e-9 * most, 2 * most, steps=60) != 1:
        return None
    q = bisect(surplus, 1e-9 * most, 2 * most)
    Rev, FR = valve_reynolds(nu, q, mm1, FL, Fd, C), factor(q, C)
    if not (0.01 < Rev < 9900 and FR > 0.002) or abs(surplus(q)) > 1e-13 * q:
        return None
    least = least_root(lambda kv: turbulent(kv)[0] * factor(q, kv) - q, 1e-5 * mm ** 2, C, 0.016 * N18 * mm ** 2,
                       full and reducer_losses(mm, mm1, D2 * 1e3)[0] < 0)
    if least is None or near_rev_10(FL, C, mm, Rev) or near_rev_10(FL, least, mm, valve_reynolds(nu, q, mm1, FL, Fd, least)):
        return None
    return dict(G=G, nu=nu, pv=pv, pc=pc, p1=p1, p2=p2, Kv=C, D1=D1, D2=D2, d=d, FL=FL, Fd=Fd, q=q / 3600, Rev=Rev, FR=FR,
                FP=FP, FLP=FLP, choked=chokes, full=full, least=least)


def near_rev_10(FL, C, d, Rev):
    """Whether FR drops as Rev rises through 10, to the letter of the standard, and this point is in reach of the drop."""
    n = N2 / (C / d ** 2) ** 2 if is_full_trim(C, d) else 1 + N32 * (C / d ** 2) ** (2 / 3)
    return n < 1.5 and 10 <= Rev < 25


def reducers(rng, count):
    for _ in range(count):
        d = common.log_uniform(rng, 0.01, 0.3)
        D1, D2 = (float(f"{d * rng.uniform(1, 3):.6g}") for _ in "12")
        yield d, D1, D2, library.loss_coefficient_piping(d, D1, D2), library.loss_coefficient_piping(d, D1)


def reynolds(rng, count):
    for _ in range(count):
        C, d, FL, Fd = body(rng)
        nu, Q = common.log_uniform(rng, 1e-7, 1e-2), common.log_uniform(rng, 1e-5, 1)
        yield nu, Q, d, FL, Fd, C, library.Reynolds_valve(nu=nu, Q=Q * 3600, D1=d * 1e3, FL=FL, Fd=Fd, C=C)


def factor(rng, count):
    for i in range(count):
        full = i % 2 == 0
        C, d, FL, _ = body(rng, *((0.01385, 0.04) if full else (0.0005, 0.0138)))
        Rev = common.log_uniform(rng, 0.1, 9999)
        FR = min(1.0, library.Reynolds_factor(FL=FL, C=C, d=d * 1e3, Rev=Rev, full_trim=full))
        yield FL, C, d, Rev, full, FR


def cavitation(rng, count):
    for _ in range(count):
        FL = common.uniform(rng, 0.4, 0.95)
        _, pv, pc, p1, _ = service(rng, FL)
        p2 = common.uniform(rng, 1.01 * pv, 0.99 * p1)
        yield (pv, pc, FL, p1, p2, library.FF_critical_pressure_ratio_l(pv, pc),
               library.control_valve_choke_P_l(pv, pc, FL, P1=p1), library.cavitation_index(p1, p2, pv))


def examples(rng, count):
    for name, d, FL, Fd, printed in [("1", 0.15, 0.9, 0.46, 165), ("2", 0.1, 0.6, 0.98, 238)]:
        out = library.size_control_valve_l(
            rho=965.4, Psat=70.1e3, Pc=22120e3, mu=3.26e-7 * 965.4, P1=680e3, P2=220e3, Q=0.1,
            D1=d, D2=d, d=d, FL=FL, Fd=Fd, full_output=True)
        yield name, 965.4, 3.26e-7, 70.1e3, 22120e3, 680e3, 220e3, 0.1, d, FL, Fd, printed, out["Kv"], bool(out["choked"])


def variants(rng, count):
    """Example 1 between reducers, and with a liquid ten thousand times as thick."""
    G, pv, pc, p1, p2, Q, FL, Fd = 965.4 / 999.10, 70.1e3, 22120e3, 680e3, 220e3, 0.1, 0.9, 0.46
    Kv, FP, FLP, chokes = fitted_coefficient(G, pv, pc, p1, p2, Q, 0.1, 0.09, 0.08, FL)
    yield ("1-reducers", G, 3.26e-7, pv, pc, p1, p2, Q, 0.1, 0.09, 0.08, FL, Fd, Kv, FP, FLP, 1, chokes,
           valve_reynolds(3.26e-7, Q * 3600, 100, FL, Fd, Kv))

    d, nu, root = 150, 3.26e-3, N1 * math.sqrt((p1 - p2) / 1e3 / G)

    def factor_at(kv):
        return reynolds_factor(FL, kv, d, valve_reynolds(nu, Q * 3600, d, FL, Fd, kv), is_full_trim(kv, d))

    Kv = bisect(lambda kv: root * kv * factor_at(kv) - Q * 3600, 100, 300)
    yield ("1-thick", G, nu, pv, pc, p1, p2, Q, d / 1e3, d / 1e3, d / 1e3, FL, Fd, Kv, 1, FL, factor_at(Kv), 0,
           valve_reynolds(nu, Q * 3600, d, FL, Fd, Kv))


def holes(rng, count):
    """xFz of a multi-hole trim, as the documentation of fluids quotes IEC 60534-8-4 (it does not work it out)."""
    for _ in range(count):
        n, dH, FL = rng.randint(1, 500), common.log_uniform(rng, 5e-4, 2e-2), common.uniform(rng, 0.5, 0.95)
        yield n, dH, FL, (4.5 + 1650 * n * dH ** 2 / FL) ** -0.5


def needles(rng, count):
    """Fd of a tapered needle, with N19 = 2.5 for Kv and mm."""
    for _ in range(count):
        C, FL, Do = common.log_uniform(rng, 1e-4, 1), common.uniform(rng, 0.5, 0.98), common.log_uniform(rng, 1e-3, 2e-2)
        yield C, FL, Do, 2.5 * math.sqrt(C * FL) / (Do * 1e3)


# FL, Fd and number of holes at rated travel: the table of the standard, typed again (from memory).
STYLES = {
    "globe-three-v-port": (0.9, 0.48, 0), "globe-four-v-port": (0.9, 0.41, 0), "globe-six-v-port": (0.9, 0.3, 0),
    "globe-contoured-opening": (0.9, 0.46, 0), "globe-contoured-closing": (0.8, 1, 0),
    "globe-drilled-cage-60": (0.9, 0.13, 60), "globe-drilled-cage-120": (0.9, 0.09, 120),
    "globe-cage-outward": (0.9, 0.41, 0), "globe-cage-inward": (0.85, 0.41, 0),
    "globe-double-ported": (0.9, 0.28, 0), "globe-double-contoured": (0.85, 0.32, 0),
    "angle-contoured-opening": (0.9, 0.46, 0), "angle-contoured-closing": (0.8, 1, 0),
    "angle-cage-outward": (0.9, 0.41, 0), "angle-cage-inward": (0.85, 0.41, 0), "angle-venturi": (0.5, 1, 0),
    "small-flow-v-notch": (0.98, 0.7, 0), "small-flow-flat-seat": (0.85, 0.3, 0), "small-flow-tapered-needle": (0.95, 0, 0),
    "eccentric-spherical-opening": (0.85, 0.42, 0), "eccentric-spherical-closing": (0.68, 0.42, 0),
    "eccentric-conical-opening": (0.77, 0.44, 0), "eccentric-conical-closing": (0.79, 0.44, 0),
    "butterfly-70": (0.62, 0.57, 0), "butterfly-60": (0.7, 0.5, 0), "butterfly-fluted-70": (0.67, 0.3, 0),
    "butterfly-offset-70": (0.67, 0.57, 0), "ball-full-bore-70": (0.74, 0.99, 0), "ball-segmented": (0.6, 0.98, 0),
}


def styles(rng, count):
    for name, factors in STYLES.items():
        yield name, *factors


SERVICE = {"relative_density": "1", "nu_m2_s": "m²/s", "pv_Pa": "Pa", "pc_Pa": "Pa", "p1_Pa": "Pa", "p2_Pa": "Pa"}
FLOW, SIZE, STYLE = {"q_m3_s": "m³/s"}, {"d_m": "m"}, {"FL": "1", "Fd": "1"}
PIPES = {"D1_m": "m", "D2_m": "m"}
KV = {"Kv": "m³/h at 1 bar"}
DENSITY = ("relative_density is ρ/ρ0, so that the library's ρ0 (999.10329 kg/m³) and another's do not enter;"
           " pressures are absolute")

common.main(
    common.Table(
        "sizing_turbulent", "liquid sizing, turbulent, not choked, no reducers: Kv, FF, Rev",
        STANDARD + ", by fluids.control_valve.size_control_valve_l", LIBRARY,
        {**SERVICE, **FLOW, **SIZE, **STYLE, **KV, "FF": "1", "Rev": "1"}, turbulent, 400, (DENSITY, "D1 = D2 = d")),
    common.Table(
        "sizing_choked", "liquid sizing, turbulent, choked, no reducers: Kv, FF, Rev",
        STANDARD + ", by fluids.control_valve.size_control_valve_l", LIBRARY,
        {**SERVICE, **FLOW, **SIZE, **STYLE, **KV, "FF": "1", "Rev": "1"}, choked, 300, (DENSITY, "D1 = D2 = d")),
    common.Table(
        "sizing_fitted", "liquid sizing between reducers, turbulent: Kv, FP, FLP, choked, Rev", STANDARD, OWN,
        {**SERVICE, **FLOW, **PIPES, **SIZE, **STYLE, **KV, "FP": "1", "FLP": "1", "choked": "1", "Rev": "1"},
        fitted, 300,
        (DENSITY, "the standard's equations iterated until Kv stands still (1e-15) and checked with the closed form;"
         " python3-fluids stops within 1 % and is not used here",
         "Rev is with D1 and the final Kv, and is above 10 000")),
    common.Table(
        "sizing_nonturbulent", "liquid flow of a given Kv, laminar and transitional, no reducers: flow, Rev, FR",
        STANDARD, OWN,
        {**SERVICE, **KV, **SIZE, **STYLE, **FLOW, "Rev": "1", "FR": "1", "full_trim": "1", "unique_Kv": "1"},
        nonturbulent, 300,
        (DENSITY, "Q = N1·Kv·FR·√(Δp/G) solved for Q by bisection; python3-fluids returns a multiple of 1.3 and takes"
         " the two trims the wrong way round, and is not used here",
         "full_trim is Kv/d² ≥ 0.016·N18 (from memory), by the Kv of the row where the standard has the rated one",
         "unique_Kv = 1: no other Kv with Kv/d² between 1e-5 and 0.04 passes that flow, so that sizing must return it;"
         " 0: the standard's jump between the trims, or its fall of Kv·FR with Kv at full trim, gives several",
         "N1 0.1, N2 1.6e-3, N4 7.07e-2, N18 0.865, N32 140 as the standard rounds them")),
    common.Table(
        "sizing_viscous",
        "liquid sizing, laminar and transitional, with reducers or choked or both: flow and least Kv, Rev, FR, FP, FLP", STANDARD, OWN,
        {**SERVICE, **KV, **PIPES, **SIZE, **STYLE, **FLOW, "Rev": "1", "FR": "1", "FP": "1", "FLP": "1", "choked": "1", "full_trim": "1",
         "least_Kv": "m³/h at 1 bar"},
        viscous, 300,
        (DENSITY, "by turns between reducers, choked, and with Rev below 10; FP, FLP and choking stay in force beside FR, for which"
         " the standard has no data",
         "q is solved for the Kv of the row by bisection; least_Kv is the least Kv from Kv/d² = 1e-5 on that passes q, found by a"
         " search from below and bisection: less than Kv where the standard jumps between the trims or where flow falls as Kv rises",
         "left out: 10 ≤ Rev < 25 with n < 1.5, where the standard's FR, to the letter, drops through Rev = 10, and a q in the"
         " jump between the trims, which no Kv passes exactly")),
    common.Table(
        "sizing_reducers", "loss coefficients of reducers: both, and the inlet alone",
        STANDARD + ", by fluids.control_valve.loss_coefficient_piping", LIBRARY,
        {**SIZE, **PIPES, "sum_zeta": "1", "inlet_zeta": "1"}, reducers, 200),
    common.Table(
        "sizing_reynolds", "valve Reynolds number", STANDARD + ", by fluids.control_valve.Reynolds_valve", LIBRARY,
        {"nu_m2_s": "m²/s", **FLOW, "D1_m": "m", **STYLE, **KV, "Rev": "1"}, reynolds, 200),
    common.Table(
        "sizing_reynolds_factor", "Reynolds number factor FR of full and reduced trim",
        STANDARD + ", by fluids.control_valve.Reynolds_factor", LIBRARY,
        {"FL": "1", **KV, **SIZE, "Rev": "1", "full_trim": "1", "FR": "1"}, factor, 300,
        ("the limit FR ≤ 1 is the standard's; the library leaves it to the caller at full trim",)),
    common.Table(
        "sizing_cavitation", "choking and cavitation: FF, the p2 that chokes, σ = (p1 − pv)/(p1 − p2)",
        STANDARD + " (FF, choking) and ISA-RP75.23 (σ), by fluids.control_valve", LIBRARY,
        {"pv_Pa": "Pa", "pc_Pa": "Pa", "FL": "1", "p1_Pa": "Pa", "p2_Pa": "Pa", "FF": "1", "choked_p2_Pa": "Pa", "sigma": "1"},
        cavitation, 150, ("xF of IEC 60534-8-4 is 1/σ in this form",)),
    common.Table(
        "sizing_holes", "xFz of a multi-hole trim", "IEC 60534-8-4:2015, as quoted in the documentation of fluids",
        common.standard_library(), {"holes": "1", "dH_m": "m", "FL": "1", "xFz": "1"}, holes, 50),
    common.Table(
        "sizing_needles", "Fd of a tapered needle", STANDARD + ", tables of Fd and of N19 (from memory)",
        common.standard_library(), {**KV, "FL": "1", "Do_m": "m", "Fd": "1"}, needles, 50),
    common.Table(
        "sizing_styles", "FL, Fd and number of holes of a valve style", STANDARD + ":2011, Table D.2 (from memory)",
        "typed again in gen/sizing.py", {"style": "text", "FL": "1", "Fd": "1", "holes": "1"}, styles, 0,
        ("an Fd of 0 is left open",)),
    common.Table(
        "sizing_iec_examples", "liquid sizing, worked examples 1 and 2 of the standard: Kv",
        STANDARD + ", annex with worked examples, examples 1 and 2", "printed values; last columns by " + LIBRARY,
        {"example": "text", "rho_kg_m3": "kg/m³", "nu_m2_s": "m²/s", "pv_Pa": "Pa", "pc_Pa": "Pa", "p1_Pa": "Pa", "p2_Pa": "Pa",
         **FLOW, **SIZE, **STYLE, "Kv_printed": "m³/h at 1 bar", "Kv_fluids": "m³/h at 1 bar", "choked": "1"},
        examples, 0, ("D1 = D2 = d",),
        tolerance="the standard prints three digits; the library takes ρ0 = 999.10329 kg/m³, which makes 1.6e-6 of Kv"),
    common.Table(
        "sizing_variants", "liquid sizing, variants of worked example 1: Kv, FP, FLP, FR, choked, Rev",
        STANDARD + ", example 1 with other data", OWN,
        {"example": "text", **SERVICE, **FLOW, **PIPES, **SIZE, **STYLE, **KV, "FP": "1", "FLP": "1", "FR": "1",
         "choked": "1", "Rev": "1"}, variants, 0,
        (DENSITY, "1-reducers: 100 and 90 mm pipe on an 80 mm valve, just choked; 1-thick: ν 3.26e-3 m²/s in 150 mm, reduced trim",
         "relative_density is 965.4/999.10")),
)
