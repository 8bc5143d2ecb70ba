"""Least-squares fits of pump curves to invented points, in exact rational arithmetic."""

from fractions import Fraction
from itertools import combinations

import common


def solve(matrix, right):
    """Gauss–Jordan elimination of a square system of fractions."""
    rows = [list(row) + [value] for row, value in zip(matrix, right)]
    n = len(rows)
    for i in range(n):
        pivot = next(r for r in range(i, n) if rows[r][i] != 0)
        rows[i], rows[pivot] = rows[pivot], rows[i]
        rows[i] = [x / rows[i][i] for x in rows[i]]
        for r in range(n):
            if r != i:
                rows[r] = [x - rows[r][i] * y for x, y in zip(rows[r], rows[i])]
    return [row[-1] for row in rows]


def fit(points, powers):
    """Normal equations of h = sum x[k]·q^k over the given powers; the coefficients and the sum of squares."""
    terms = [[q**k for k in powers] for q, _ in points]
    matrix = [[sum(t[i] * t[j] for t in terms) for j in range(len(powers))] for i in range(len(powers))]
    x = solve(matrix, [sum(t[i] * h for t, (_, h) in zip(terms, points)) for i in range(len(powers))])
    rest = sum((sum(a * b for a, b in zip(x, t)) - h) ** 2 for t, (_, h) in zip(terms, points))
    return dict(zip(powers, x)), rest


def constrained(points):
    """The least squares with no rising term: over every set of terms, the best one that falls."""
    best = None
    for size in (1, 2):
        for terms in combinations((1, 2), size):
            x, rest = fit(points, (0, *terms))
            if all(x[k] <= 0 for k in terms) and (best is None or rest < best[1]):
                best = x, rest
    return [best[0].get(k, Fraction(0)) for k in (0, 1, 2)]


def fits(rng, count):
    for _ in range(count):
        a, b, c = rng.uniform(20, 400), rng.choice([0, 5, 12, 30]), rng.choice([0, 0.4, 2, 6])
        if b + c == 0:
            c = 1
        size, end = rng.randint(3, 12), 0.9 * (-b + (b * b + 4 * a * c) ** 0.5) / (2 * c) if c else 0.9 * a / b
        points = []
        for i in range(size):
            q = round(end * i / (size - 1), 3)
            h = round((a - b * q - c * q * q) * (1 + rng.uniform(-0.02, 0.02)), 2)
            points.append((q, min(h, points[-1][1]) if points else h))
        x = constrained([(Fraction(repr(q)), Fraction(repr(h))) for q, h in points])
        text = " ".join(f"{q}:{h}" for q, h in points)
        yield len(points), text, x[0], -x[1], -x[2]



common.main(common.Table(
    "pump_fits", "least-squares fit of H = a − b·q − c·q², b, c ≥ 0, to pump points",
    "normal equations of the points in the row, in exact rational arithmetic", common.standard_library(),
    {"count": "1", "points": "text", "a": "kPa", "b": "kPa/(l/s)", "c": "kPa/(l/s)²"}, fits, 40,
    ("points are flow in l/s and head in kPa, and are invented",)))
