"""Flow coefficients: Kv, Cv and Av, by python3-fluids and from the definitions by pint."""

from fractions import Fraction
from math import isqrt

import fluids
import pint

import common

EXACT = pint.UnitRegistry(non_int_type=Fraction)
RHO0 = Fraction("999.10")


def root(ratio, digits=40):
    """Square root of a fraction, to that many digits, in whole numbers."""
    scale = 10 ** digits
    return Fraction(isqrt(ratio.numerator * scale * scale // ratio.denominator), scale)


def kv_per_cv():
    """Kv of a valve that passes 1 US gal/min at 1 psi: flow in m³/h, brought to 1 bar by the root of Δp."""
    flow = EXACT.parse_expression("US_liquid_gallon/minute").to("m^3/hour").magnitude
    bars = EXACT.parse_expression("psi").to("bar").magnitude
    return flow / root(bars)


def av_per_kv():
    """Av in m², q = Av·√(Δp/ρ) in SI: Kv·√(ρ0/1 bar)."""
    metre3_per_s = EXACT.parse_expression("m^3/hour").to("m^3/s").magnitude
    pascals = EXACT.parse_expression("bar").to("Pa").magnitude
    return metre3_per_s * root(RHO0 / pascals)


def rows(rng, count):
    to_kv, to_av = kv_per_cv(), av_per_kv()
    for cv in [1.0] + [common.log_uniform(rng, 1e-3, 1e4) for _ in range(count - 1)]:
        kv = Fraction(cv) * to_kv
        yield cv, kv, kv * to_av, fluids.fittings.Cv_to_Kv(cv)


common.main(common.Table(
    "kv", "Cv → Kv and Av",
    "definitions: Cv 1 US gal/min at 1 psi, Kv 1 m³/h at 1 bar, Av = Kv·√(ρ0/1 bar) with ρ0 = 999.10 kg/m³"
    " (IEC 60534-1), exact by pint; last column by fluids",
    common.debian("pint") + "; " + common.debian("fluids"),
    {"Cv": "US gal/min at 1 psi", "Kv": "m³/h at 1 bar", "Av_m2": "m²", "Kv_fluids": "m³/h at 1 bar"},
    rows, 100,
    ("IEC 60534-2-1 prints Kv = 0.865 Cv; the definitions give 0.864978",
     "fluids divides by its own constant 1.1560992283536566",
     "Cv and Kv are taken with the same water, so that no density enters")))
