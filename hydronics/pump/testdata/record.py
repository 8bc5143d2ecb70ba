"""Records least-squares fits of pump curves in exact rational arithmetic: no library shared with the package.

Run as python3 testdata/record.py > testdata/fits.csv in the package's folder. The points are invented.
"""

import random
import sys
from fractions import Fraction
from itertools import combinations


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


def main():
    rng = random.Random(1)
    header = {
        "law": "least-squares fit of H = a − b·q − c·q², b, c ≥ 0, to pump points",
        "source": "normal equations of the invented points in the row, in exact rational arithmetic",
        "version": "Python " + ".".join(map(str, sys.version_info[:3])) + ", standard library only",
        "generator": "testdata/record.py",
        "units": "1, text, kPa, kPa/(l/s), kPa/(l/s)²",
    }
    for key, value in header.items():
        print(f"# {key}: {value}")
    print("count,points,a,b,c")
    for case in range(40):
        a, b, c = rng.uniform(20, 400), rng.choice([0, 5, 12, 30]), rng.choice([0, 0.4, 2, 6])
        if b + c == 0:
            c = 1
        count, end = rng.randint(3, 12), 0.9 * (-b + (b * b + 4 * a * c) ** 0.5) / (2 * c) if c else 0.9 * a / b
        points = []
        for i in range(count):
            q = round(end * i / (count - 1), 3)
            h = round((a - b * q - c * q * q) * (1 + rng.uniform(-0.02, 0.02)), 2)
            points.append((q, min(h, points[-1][1]) if points else h))
        x = constrained([(Fraction(repr(q)), Fraction(repr(h))) for q, h in points])
        text = " ".join(f"{q}:{h}" for q, h in points)
        print(f"{count},{text},{float(x[0])!r},{float(-x[1])!r},{float(-x[2])!r}")


main()
