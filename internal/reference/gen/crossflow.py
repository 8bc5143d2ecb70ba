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


NODES = legendre(24)
ORDER = 14
HALVINGS = 7


def bessel(z):
    """I0(2·√z) by its power series."""
    term = total = 1.0
    k = 1
    while term > 1e-17 * total:
        term *= z / (k * k)
        total += term
        k += 1
    return total


def unmixed(ntu, cr):
    """Nusselt 1930: the local difference is e^−(x+y)·I0(2·√(xy)), x up to NTU and y up to Cr·NTU; its mean is ε/NTU."""
    hot = [(x * ntu, w * math.exp(-x * ntu)) for x, w in NODES]
    cold = [(y * cr * ntu, w * math.exp(-y * cr * ntu)) for y, w in NODES]
    return ntu * math.fsum(wx * wy * bessel(x * y) for x, wx in hot for y, wy in cold)


def product(a, b):
    return [[sum(x * y for x, y in zip(row, column)) for column in zip(*b)] for row in a]


def march(slopes, state):
    """From 0 to 1 along y' = slopes·y, a constant matrix, in 2^HALVINGS equal steps.

    A step sums Taylor's series; since all steps are alike, their product is found by squaring.
    """
    h = 2.0 ** -HALVINGS
    scaled = [[h * x for x in row] for row in slopes]
    identity = [[float(i == j) for j in range(len(state))] for i in range(len(state))]
    step = identity
    for order in range(ORDER, 0, -1):
        step = [[i + x / order for i, x in zip(*rows)] for rows in zip(identity, product(scaled, step))]
    for _ in range(HALVINGS):
        step = product(step, step)
    return [sum(x * y for x, y in zip(row, state)) for row in step]


def counter(ntu, cr):
    """Hot 1 in, cold 0 in: linear, so marches from the hot end with cold outlets of 0 and 1 combine to the cold inlet."""
    slopes = [[-ntu, ntu], [-cr * ntu, cr * ntu]]
    zero, one = march(slopes, [1.0, 0.0]), march(slopes, [1.0, 1.0])
    return zero[1] / (zero[1] - one[1]) / cr


def parallel(ntu, cr):
    return march([[-ntu, ntu], [cr * ntu, -cr * ntu]], [1.0, 0.0])[1] / cr


def gained(ntu):
    """What a stream that enters at 0 beside a uniform 1 has taken up after NTU ntu: y' = ntu·(1 − y)."""
    return march([[-ntu, ntu], [0.0, 0.0]], [0.0, 1.0])[0]


def max_mixed(ntu, cr):
    """The mixed stream (Cmax, cold) is met everywhere by the unmixed one, hot 1, which gives it what it loses in crossing."""
    return gained(cr * gained(ntu)) / cr


def min_mixed(ntu, cr):
    """As above with the streams changed over: the mixed one (Cmin, hot) loses to the unmixed one, cold."""
    return gained(gained(cr * ntu) / cr)


def both_mixed(ntu, cr):
    """Each stream is uniform across its way and meets the mean of the other; the two means are solved for."""
    # A stream that enters at 1 beside a uniform 0 has the mean (integral) mean.
    hot_mean = march([[-ntu, 0.0], [1.0, 0.0]], [1.0, 0.0])[1]
    cold_mean = march([[-cr * ntu, 0.0], [1.0, 0.0]], [1.0, 0.0])[1]
    # hot mean: M = m + (1 − m)·hot_mean; cold mean: m = M − M·cold_mean.
    hot = hot_mean / (1 - (1 - cold_mean) * (1 - hot_mean))
    cold = hot * (1 - cold_mean)
    return (1 - cold) * gained(ntu)


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
    ("an independent integration: Gauss–Legendre quadrature, 24 × 24 points, for both streams unmixed; for the others 128 "
     "steps by Taylor's series of order 14, raised to that power by squaring",
     "max and min say which capacity rate is mixed; agreement to 1e-13 is what the digits allow")))
