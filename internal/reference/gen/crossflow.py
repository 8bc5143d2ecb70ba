"""Effectiveness of heat exchangers by integrating their equations: no closed form and no series of ε-NTU is used."""

import math

import common


def legendre(count):
    """Nodes and weights of Gauss–Legendre quadrature on 0 … 1."""
    nodes = []
    for i in range(count):
        x = math.cos(math.pi * (i + 0.75) / (count + 0.5))
        for _ in range(100):
            p, before = x, 1.0
            for k in range(2, count + 1):
                p, before = ((2 * k - 1) * x * p - (k - 1) * before) / k, p
            slope = count * (x * p - before) / (x * x - 1)
            x -= p / slope
            if abs(p / slope) < 1e-16:
                break
        nodes.append(((1 + x) / 2, 1 / ((1 - x * x) * slope * slope)))
    return nodes


NODES = legendre(48)
STEPS = 1000


def bessel(z):
    """I0(2·√z) by its power series."""
    term = total = 1.0
    k = 1
    while term > 1e-18 * total:
        term *= z / (k * k)
        total += term
        k += 1
    return total


def unmixed(ntu, cr):
    """Nusselt 1930: the local difference is e^−(x+y)·I0(2·√(xy)), x up to NTU and y up to Cr·NTU; its mean is ε/NTU."""
    return ntu * math.fsum(
        wx * wy * math.exp(-(x + y * cr) * ntu) * bessel(x * y * cr * ntu * ntu)
        for x, wx in NODES for y, wy in NODES)


def march(slope, state, steps=STEPS):
    """Classical Runge–Kutta from 0 to 1."""
    h = 1 / steps
    for i in range(steps):
        k1 = slope(state)
        k2 = slope([s + h / 2 * k for s, k in zip(state, k1)])
        k3 = slope([s + h / 2 * k for s, k in zip(state, k2)])
        k4 = slope([s + h * k for s, k in zip(state, k3)])
        state = [s + h / 6 * (a + 2 * b + 2 * c + d) for s, a, b, c, d in zip(state, k1, k2, k3, k4)]
    return state


def counter(ntu, cr):
    """Hot 1 in, cold 0 in: linear, so marches from the hot end with cold outlets of 0 and 1 combine to the cold inlet."""
    def slope(s):
        return [-ntu * (s[0] - s[1]), -cr * ntu * (s[0] - s[1])]

    zero, one = march(slope, [1.0, 0.0]), march(slope, [1.0, 1.0])
    outlet = zero[1] / (zero[1] - one[1])
    return 1 - (zero[0] + outlet * (one[0] - zero[0]))


def parallel(ntu, cr):
    return 1 - march(lambda s: [-ntu * (s[0] - s[1]), cr * ntu * (s[0] - s[1])], [1.0, 0.0])[0]


def crossing(ntu):
    """What is left of a difference of 1 once an unmixed stream has crossed a mixed one of NTU ntu."""
    return march(lambda s: [-ntu * s[0]], [1.0])[0]


def max_mixed(ntu, cr):
    """The mixed stream (Cmax, cold) is met everywhere by the unmixed one, hot 1, which gives it what it loses in crossing."""
    lost = 1 - crossing(ntu)
    return march(lambda s: [cr * lost * (1 - s[0])], [0.0])[0] / cr


def min_mixed(ntu, cr):
    """As above with the streams changed over: the mixed one (Cmin, hot 1) loses to the unmixed one, cold 0."""
    gained = (1 - crossing(cr * ntu)) / cr
    return 1 - march(lambda s: [-gained * s[0]], [1.0])[0]


def both_mixed(ntu, cr):
    """Each stream is uniform across its way and meets the mean of the other; the two means are solved for."""
    # A stream that enters at 1 beside a uniform 0 ends at out and has the mean (integral) mean.
    hot_out, hot_mean = march(lambda s: [-ntu * s[0], s[0]], [1.0, 0.0])
    cold_out, cold_mean = march(lambda s: [-cr * ntu * s[0], s[0]], [1.0, 0.0])
    # hot mean: M = m + (1 − m)·hot_mean; cold mean: m = M − M·cold_mean.
    hot = hot_mean / (1 - (1 - cold_mean) * (1 - hot_mean))
    cold = hot * (1 - cold_mean)
    return (1 - cold) * (1 - hot_out)


def rows(rng, count):
    points = [(1.0, 1.0), (1.0, 0.5), (2.0, 1.0), (2.0, 0.5), (5.0, 0.25)]
    points += [(common.log_uniform(rng, 0.05, 8), common.uniform(rng, 0.02, 1)) for _ in range(count)]
    for ntu, cr in points:
        yield (ntu, cr, *(law(ntu, cr) for law in (counter, parallel, unmixed, max_mixed, min_mixed, both_mixed)))


common.main(common.Table(
    "crossflow", "effectiveness of heat exchangers at (NTU, Cr), as a share of Cmin times the difference of the inlets",
    "Kays & London, Compact Heat Exchangers, chapter 2: the differential equations of each arrangement; Nusselt 1930 for cross flow",
    common.standard_library(),
    {"NTU": "1", "Cr": "1", "counter": "1", "parallel": "1", "cross": "1", "cross_max_mixed": "1", "cross_min_mixed": "1",
     "cross_mixed": "1"},
    rows, 60,
    ("an independent integration: Gauss–Legendre quadrature, 48 × 48 points, for both streams unmixed, "
     "Runge–Kutta with 1000 steps for the others",
     "max and min say which capacity rate is mixed; agreement to 1e-9 is what the steps allow")))
