#!/usr/bin/env python3
"""Writes exp_decimal.csv beside itself: e^x from the correctly rounded decimal module."""
import decimal
import math
import pathlib
import platform
import random

decimal.getcontext().prec = 40
decimal.getcontext().Emin = -999999
decimal.getcontext().Emax = 999999

FIXED = [0.0, 1.0, -1.0, 0.5, -0.5, 2.0, 10.0, -10.0, math.log(50), math.log(25), 40.0, -40.0,
         1e-300, -1e-300, 2.0**-53, -(2.0**-54), 708.0, -708.0, 709.0, 709.782712893384, -708.5,
         -720.0, -740.0, -744.4400719213812, -745.0]


def main():
    rng = random.Random(1989)
    xs = FIXED + [rng.uniform(-40, 40) for _ in range(40)] + [rng.uniform(-5, 0) for _ in range(40)]
    lines = [
        "# source: exp of Python's decimal module (libmpdec, correctly rounded), 40 digits",
        f"# version: Python {platform.python_version()}, libmpdec {decimal.__libmpdec_version__}",
        "# generator: exp_decimal.py",
        "x,exp",
    ]
    lines += [f"{x.hex()},{decimal.Decimal(x).exp()}" for x in xs]
    path = pathlib.Path(__file__).with_name("exp_decimal.csv")
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
