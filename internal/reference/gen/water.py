"""Liquid water by iapws: IF97 region 1, viscosity R12-08, conductivity R15-11, saturation."""

import math

from iapws import IAPWS97
from iapws._iapws import _ThCond, _Viscosity
from iapws.iapws97 import _PSat_T, _Region1, _TSat_P

import common

LIVE = common.debian("iapws")
PRINTED = "printed values, checked when written by " + LIVE


def state(T, p):
    """Properties at T in K and p in Pa: region 1 is called even at the saturation line."""
    region1 = _Region1(T, p / 1e6)
    density = 1 / region1["v"]
    return region1, density, _Viscosity(density, T), _ThCond(density, T)


def liquid(T, p):
    region1, density, viscosity, plain = state(T, p)
    full = IAPWS97(T=T, P=p / 1e6)
    if full.region != 1:
        raise ValueError(f"({T} K, {p} Pa) is not in region 1")
    return (T, p, density, region1["cp"] * 1e3, region1["w"], region1["h"] * 1e3,
            viscosity, plain, full.Liquid.k)


def water_points(rng, count):
    """Random points at any pressure from just above saturation (or 0.1 MPa) to 10 MPa."""
    for _ in range(count):
        T = common.uniform(rng, 273.16, 473)
        least = max(1e5, 1.001e6 * _PSat_T(T))
        yield liquid(T, common.log_uniform(rng, least, 1e7))


def water_grid(rng, count):
    for T in [273.16, 277.15, 283.15, 288.15, 293.15, 298.15, 303.15, 313.15, 323.15, 333.15,
              343.15, 353.15, 363.15, 373.15, 393.15, 413.15, 433.15, 453.15, 473.0]:
        for p in [1e5, 3e5, 6e5, 1e6, 2.5e6, 1e7]:
            if p > 1e6 * _PSat_T(T):
                yield liquid(T, p)


def saturation(rng, count):
    for _ in range(count):
        T = common.uniform(rng, 273.15, 473.15)
        yield T, _PSat_T(T) * 1e6


def checked(printed, computed, digits):
    """The printed value, once the live library has shown that it rounds to the same digits."""
    if f"{printed:.{digits - 1}e}" != f"{computed:.{digits - 1}e}":
        raise ValueError(f"printed {printed}, computed {computed}")
    return printed


def scaled(printed, factor):
    """A printed value in another unit, without the dust of the multiplication."""
    return float(f"{printed * factor:.12g}")


def table5(rng, count):
    """IF97-Rev Table 5."""
    printed = [
        (300, 3e6, 0.100215168e-2, 0.115331273e3, 0.112324818e3, 0.392294792, 0.417301218e1, 0.150773921e4),
        (300, 80e6, 0.971180894e-3, 0.184142828e3, 0.106448356e3, 0.368563852, 0.401008987e1, 0.163469054e4),
        (500, 3e6, 0.120241800e-2, 0.975542239e3, 0.971934985e3, 0.258041912e1, 0.465580682e1, 0.124071337e4),
    ]
    for T, p, v, h, u, s, cp, w in printed:
        live = _Region1(T, p / 1e6)
        energy = live["h"] - p / 1e3 * live["v"]
        row = [checked(a, b, 9) for a, b in [
            (v, live["v"]), (h, live["h"]), (u, energy), (s, live["s"]), (cp, live["cp"]), (w, live["w"])]]
        yield T, p, row[0], *(scaled(value, 1e3) for value in row[1:5]), row[5]


def table35(rng, count):
    """IF97-Rev Table 35; 600 K is on the same equation."""
    for T, p_MPa in [(300, 0.353658941e-2), (500, 0.263889776e1), (600, 0.123443146e2)]:
        yield T, scaled(checked(p_MPa, _PSat_T(T), 9), 1e6)


def table36(rng, count):
    """IF97-Rev Table 36."""
    for p_MPa, T in [(0.1, 0.372755919e3), (1, 0.453035632e3), (10, 0.584149488e3)]:
        yield p_MPa * 1e6, checked(T, _TSat_P(p_MPa), 9)


def viscosity_table(rng, count):
    """R12-08 Table 4, without critical enhancement; printed in µPa·s to six decimals."""
    for T, rho, micro in [
            (298.15, 998, 889.735100), (298.15, 1200, 1437.649467), (373.15, 1000, 307.883622),
            (433.15, 1, 14.538324), (433.15, 1000, 217.685358), (873.15, 1, 32.619287),
            (873.15, 100, 35.802262), (873.15, 600, 77.430195), (1173.15, 1, 44.217245),
            (1173.15, 100, 47.640433), (1173.15, 400, 64.154608)]:
        if abs(micro - _Viscosity(rho, T) * 1e6) > 6e-7:
            raise ValueError((T, rho))
        yield T, rho, micro


def conductivity_table(rng, count):
    """R15-11 Table 4, without critical enhancement; printed in mW/(m·K) to seven decimals."""
    for T, rho, milli in [
            (298.15, 0, 18.4341883), (298.15, 998, 607.712868), (298.15, 1200, 799.038144),
            (873.15, 0, 79.1034659)]:
        yield T, rho, checked(milli, _ThCond(rho, T) * 1e3, 9)


def enhanced_table(rng, count):
    """R15-11 Table 7: region 1 with the enhancement for industrial use."""
    for T, p, milli in [(620, 20e6, 481.485195), (620, 50e6, 545.038940)]:
        yield T, p, checked(milli, IAPWS97(T=T, P=p / 1e6).Liquid.k * 1e3, 9)


COLUMNS = {
    "T_K": "K", "p_Pa": "Pa", "rho_kg_m3": "kg/m³", "cp_J_kgK": "J/(kg·K)", "w_m_s": "m/s", "h_J_kg": "J/kg",
    "mu_Pa_s": "Pa·s", "k_plain_W_mK": "W/(m·K)", "k_W_mK": "W/(m·K)"}
LAW = "water at (T, p): density, cp, speed of sound, enthalpy, viscosity, conductivity"
SOURCE = "IAPWS R7-97(2012) region 1, R12-08, R15-11, evaluated by iapws"
NOTES = (
    "mu is R12-08 at that density with the critical enhancement off (µ2 = 1), as the release allows for industrial use",
    "k_plain is R15-11 with the critical enhancement off (λ2 = 0); k is R15-11 with the enhancement for industrial use"
    " (region 1 derivatives), which is zero in cold liquid and reaches 2e-3 of k at 473 K")
IF97 = "IAPWS R7-97(2012), "
SELECTED = ("values written from memory of the release; the generator refuses one that the live library does not round to",)

common.main(
    common.Table("water", LAW, SOURCE, LIVE, COLUMNS, water_points, 600, NOTES),
    common.Table("water_grid", LAW + ", on a grid", SOURCE, LIVE, COLUMNS, water_grid, 0, NOTES),
    common.Table(
        "water_saturation", "water at T: saturation pressure", "IAPWS R7-97(2012) equation 30, evaluated by iapws", LIVE,
        {"T_K": "K", "p_Pa": "Pa"}, saturation, 150),
    common.Table(
        "water_if97_table5", "water at (T, p): region 1 verification values", IF97 + "Table 5", PRINTED,
        {"T_K": "K", "p_Pa": "Pa", "v_m3_kg": "m³/kg", "h_J_kg": "J/kg", "u_J_kg": "J/kg", "s_J_kgK": "J/(kg·K)",
         "cp_J_kgK": "J/(kg·K)", "w_m_s": "m/s"}, table5, 0, SELECTED + ("nine significant digits",)),
    common.Table(
        "water_if97_table35", "water at T: saturation pressure, verification values", IF97 + "Table 35", PRINTED,
        {"T_K": "K", "p_Pa": "Pa"}, table35, 0, SELECTED + ("nine significant digits",)),
    common.Table(
        "water_if97_table36", "water at p: saturation temperature, verification values", IF97 + "Table 36", PRINTED,
        {"p_Pa": "Pa", "T_K": "K"}, table36, 0, SELECTED + ("nine significant digits",)),
    common.Table(
        "water_r12_08_table4", "water at (T, density): viscosity without enhancement, verification values",
        "IAPWS R12-08, Table 4", PRINTED, {"T_K": "K", "rho_kg_m3": "kg/m³", "mu_uPa_s": "µPa·s"},
        viscosity_table, 0, SELECTED + ("printed to six decimals",)),
    common.Table(
        "water_r15_11_table4", "water at (T, density): conductivity without enhancement, verification values",
        "IAPWS R15-11, Table 4", PRINTED, {"T_K": "K", "rho_kg_m3": "kg/m³", "k_mW_mK": "mW/(m·K)"},
        conductivity_table, 0, SELECTED + ("nine significant digits",)),
    common.Table(
        "water_r15_11_table7", "water at (T, p): conductivity with industrial enhancement in region 1, verification values",
        "IAPWS R15-11, Table 7", PRINTED, {"T_K": "K", "p_Pa": "Pa", "k_mW_mK": "mW/(m·K)"},
        enhanced_table, 0, SELECTED + ("nine significant digits",)),
)
