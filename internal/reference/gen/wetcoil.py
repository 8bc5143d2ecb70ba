"""Cooling coils in counterflow that condense where their surface is below the dew point, step by step along the surface."""

import math

from iapws import IAPWS95
from iapws.humidAir import HumidAir
from iapws.iapws97 import _PSat_T
from scipy.optimize import brentq

import common

STEPS = 120
ZERO = 273.15


def saturation_pressure(T):
    """Hyland & Wexler 1983 over liquid water, in Pa (ASHRAE Handbook Fundamentals; coefficients from memory)."""
    return math.exp(-5.8002206e3 / T + 1.3914993 - 4.8640239e-2 * T + 4.1764768e-5 * T**2 - 1.4452093e-8 * T**3
                    + 6.5459673 * math.log(T))


for celsius in range(0, 61, 5):  # a slip in those coefficients would show here
    if abs(saturation_pressure(ZERO + celsius) / (1e6 * _PSat_T(ZERO + celsius)) - 1) > 5e-4:
        raise ValueError(celsius)


def humidity(vapour, p):
    return 0.621945 * vapour / (p - vapour)


def surface_flux(T, W, Tw, p, R_air, R_water):
    """Sensible and latent heat into the surface between air and water; its temperature is where both sides agree.

    Le = 1: the mass transfer coefficient is the heat transfer coefficient over the heat capacity of humid air.
    """
    heat_capacity = 1006 + 1860 * W
    vapour_enthalpy = 2.501e6 + 1860 * (T - ZERO)

    def parts(Ts):
        condensing = max(W - humidity(saturation_pressure(Ts), p), 0.0)
        return (T - Ts) / R_air, condensing * vapour_enthalpy / (R_air * heat_capacity)

    def balance(Ts):
        return sum(parts(Ts)) - (Ts - Tw) / R_water

    return parts(brentq(balance, Tw, T + 20, xtol=1e-9, rtol=1e-13))


def march(Tw, case):
    """From the air's inlet, where the water leaves at Tw, to its outlet; returns the end and the wet share."""
    T, p, m, R_air, R_water, C, W = case
    h = 1 / STEPS
    wet = 0

    def slope(state):
        T, W, Tw = state
        dry, latent = surface_flux(T, W, Tw, p, R_air, R_water)
        dW = -latent / (m * (2.501e6 + 1860 * (T - ZERO)))
        return (-dry / (m * (1006 + 1860 * W)), dW, -(dry + latent) / C), latent > 0

    state = (T, W, Tw)
    for _ in range(STEPS):
        k1, damp = slope(state)
        k2, _damp = slope([s + h / 2 * k for s, k in zip(state, k1)])
        k3, _damp = slope([s + h / 2 * k for s, k in zip(state, k2)])
        k4, _damp = slope([s + h * k for s, k in zip(state, k3)])
        state = [s + h / 6 * (a + 2 * b + 2 * c + d) for s, a, b, c, d in zip(state, k1, k2, k3, k4)]
        wet += damp
        if state[2] < ZERO - 20:  # a trial that runs away
            break
    return state, wet / STEPS


def coil(T, RH, p, m, supply, C, R_air, R_water):
    W = humidity(RH * saturation_pressure(T), p)
    case = (T, p, m, R_air, R_water, C, W)
    Tr = brentq(lambda Tr: march(Tr, case)[0][2] - supply, supply, T - 1e-9, xtol=1e-9)
    (Tl, Wl, _end), wet = march(Tr, case)
    return C * (Tr - supply), Tr, Tl, Wl, W, wet


class Mixture(HumidAir):
    """HumidAir without its own search for saturation, which does not always converge."""

    def _eq(self, T, P):
        return 0.5


def saturated(T, p):
    """Humidity ratio and enthalpy in J/kg of dry air of saturated real humid air: chemical potentials of the water agree."""
    P = p / 1e6
    liquid, ideal = IAPWS95(T=T, P=P).g, _PSat_T(T) / P
    xw = brentq(lambda x: Mixture(T=T, P=P, xw=x).muw - liquid, 0.9 * ideal, 1.1 * ideal, xtol=1e-13)
    air = Mixture(T=T, P=P, xw=xw)
    return air.HR, air.h * (1 + air.HR) * 1e3


SHARES = (1.0, 0.6, 0.3, 0.15)


def rows(rng, count):
    for number in range(count):
        T, supply = (float(f"{ZERO + common.uniform(rng, *span):.6g}") for span in ((22, 36), (4, 13)))
        RH, p, m = common.uniform(rng, 0.3, 0.9), common.uniform(rng, 80000, 103000), common.log_uniform(rng, 0.05, 5)
        ntu, share, ratio = rng.uniform(0.5, 2.5), rng.uniform(0.05, 0.4), math.exp(rng.uniform(math.log(0.8), math.log(5)))
        R = 1 / (ntu * m * 1020)
        C, R_air, R_water = (float(f"{x:.6g}") for x in (ratio * m * 1020, R * (1 - share), R * share))
        ideal = saturated(T, p)
        for x in SHARES:
            inside = R_water * x**-0.8
            yield (number, x, T, RH, p, m, supply, C * x, R_air, inside, *coil(T, RH, p, m, supply, C * x, R_air, inside), *ideal)


common.main(common.Table(
    "wetcoil", "heat of a counterflow cooling coil on which water condenses where its surface is below the dew point",
    "heat and mass transfer with Le = 1 (Threlkeld, Thermal Environmental Engineering, chapter on wetted surfaces), integrated along "
    "the surface; saturated humid air by IAPWS G8-10 in python3-iapws",
    common.debian("iapws") + ", with scipy's brentq",
    {"coil": "1", "flow_share": "1", "T_air_K": "K", "RH": "1", "p_Pa": "Pa", "m_air_kg_s": "kg/s", "T_supply_K": "K",
     "C_water_W_K": "W/K", "R_air_K_W": "K/W", "R_water_K_W": "K/W", "Q_W": "W", "T_return_K": "K", "T_leaving_K": "K",
     "W_leaving": "1", "W_air": "1", "wet_share": "1", "W_saturated": "1", "h_saturated_J_kg": "J/kg"},
    rows, 25,
    ("an independent integration of the unsimplified equations: sensible and latent heat apart, saturation by Hyland & Wexler 1983, "
     "each step dry or wet by itself; Runge–Kutta with 120 steps, about 1e-5 of the heat",
     "each coil at four shares of its water flow x; R_water, which holds the wall, goes with x^-0.8",
     "m_air is of dry air; wet_share is the share of the steps that condense",
     "W_saturated and h_saturated are those of saturated real air at T_air and p, for each kg of dry air, from 0 °C"),
    tolerance="the method itself: one line for the enthalpy of saturated air; its error is stated in the model's comment"))
