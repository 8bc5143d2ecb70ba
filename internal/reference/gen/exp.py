"""The exponential function to forty digits, by Python's decimal module."""

import decimal
import math

import common

decimal.getcontext().prec = 40

FIXED = [
    0.0, 1.0, -1.0, 0.5, -0.5, 2.0, 10.0, -10.0, math.log(50), math.log(25), 40.0, -40.0, 1e-300, -1e-300, 2.0**-53, -(2.0**-54),
    708.0, -708.0, 709.0, 709.782712893384, -708.5, -720.0, -740.0, -744.4400719213812, -745.0]


def rows(rng, count):
    """The fixed ones, then half of the count over the whole hot range and half where shaping laws live."""
    xs = [rng.uniform(-40, 40) for _ in range(count - count // 2)] + [rng.uniform(-5, 0) for _ in range(count // 2)]
    for x in FIXED + xs:
        yield x, str(decimal.Decimal(x).exp())


common.main(common.Table(
    "exp", "exponential function", "exp of Python's decimal module (libmpdec, correctly rounded)",
    common.standard_library() + f", libmpdec {decimal.__libmpdec_version__}", {"x": "1", "exp": "text"}, rows, 80,
    ("exp has forty digits and is therefore text",)))
