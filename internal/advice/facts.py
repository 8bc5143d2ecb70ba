# Makes the values of notes (2) and (4) in units.go: the heat at a part of the flow, in %,
# each law solved by bisection, without the library. Emitters: (LMTD/LMTD_design)^n with
# the balance of the water; coils: the counterflow effectiveness with constant UA.
#
#     python3 internal/advice/facts.py
import math


def root(f, lo, hi):
    for _ in range(200):
        mid = (lo + hi) / 2
        if f(mid) > 0:
            hi = mid
        else:
            lo = mid
    return (lo + hi) / 2


def log_mean(a, b):
    return a if abs(a - b) < 1e-12 else (a - b) / math.log(a / b)


def emitter(supply, back, air, n, flow):
    a, design = abs(supply - air), abs(back - air)
    rated = log_mean(a, design)
    b = root(lambda b: (log_mean(a, b) / rated) ** n * (a - design) - flow * (a - b), 1e-12, a - 1e-12)
    return flow * (a - b) / (a - design)


def counterflow(ntu, ratio):
    if abs(1 - ratio) < 1e-9:
        return ntu / (1 + ntu)
    e = math.exp(-ntu * (1 - ratio))
    return (1 - e) / (1 - ratio * e)


def coil(supply, back, air, leaving, flow):
    of_air = abs(supply - back) / abs(leaving - air)

    def heat(water, ua):
        low, high = min(water, of_air), max(water, of_air)
        return counterflow(ua / low, low / high) * low * abs(supply - air)

    design = abs(supply - back)
    ua = root(lambda ua: heat(1, ua) - design, 1e-9, 100)
    return heat(flow, ua) / design


for law, cases in (
    (emitter, [(75, 65, 20, 1.3), (16, 18, 26, 1.1), (14, 17, 24, 1), (15, 17, 24, 1.3), (40, 35, 20, 1), (90, 70, 20, 1.3), (70, 40, 20, 1.3), (70, 30, 20, 1.3)]),
    (coil, [(45, 40, 20, 35), (6, 12, 26, 15), (80, 60, 16, 35), (70, 50, 16, 35), (6, 16, 26, 15), (70, 30, 5, 25)]),
):
    for case in cases:
        print(law.__name__, case, ["%.2f at %g" % (100 * law(*case, flow), flow) for flow in (0.1, 0.2, 0.5)])
