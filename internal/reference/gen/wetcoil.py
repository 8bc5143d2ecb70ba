"""Cooling coils in counterflow that condense where their surface is below the dew point: step by step along the surface, and by
the effectiveness method with the enthalpy as potential."""

import math

from iapws import IAPWS95
from iapws.humidAir import HumidAir
from iapws.iapws97 import _PSat_T, _TSat_P
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


def counterflow(ua, c1, c2):
    """Effectiveness times the lower capacity rate."""
    low, high = min(c1, c2), max(c1, c2)
    decay = math.exp(-ua / low * (1 - low / high))
    return low * (1 - decay) / (1 - low / high * decay)


def enthalpy(T, W):
    return 1006 * (T - ZERO) + W * (2.501e6 + 1860 * (T - ZERO))


def saturated_enthalpy(T, p):
    return enthalpy(T, humidity(1e6 * _PSat_T(T), p))


class Method:
    """A coil by its effectiveness, its dry part told by its share of the surface."""

    def __init__(self, T, RH, p, m, supply, C, R_air, R_water):
        self.T, self.p, self.m, self.supply, self.C, self.R_air, self.R_water = T, p, m, supply, C, R_air, R_water
        self.W = humidity(RH * 1e6 * _PSat_T(T), p)
        self.cp = 1006 + 1860 * self.W
        self.dew = _TSat_P(RH * _PSat_T(T))
        self.R = R_air + R_water

    def cooled(self, part):
        """The share of the way from the air to the water entering a dry part by which that cools the air."""
        return counterflow(part / self.R, self.C, self.m * self.cp) / (self.m * self.cp)

    def border(self, part):
        """Air and water behind a dry part that ends where the surface has the dew point."""
        cooled = self.cooled(part)
        water = (self.dew * self.R - (1 - cooled) * self.T * self.R_water) / (cooled * self.R_water + self.R_air)
        return self.T - cooled * (self.T - water), water

    def wet(self, air, water, part):
        """The heat of a wet part that the air enters and the water leaves at these temperatures."""
        cold, end = saturated_enthalpy(self.supply, self.p), max(water, self.supply + 1e-3)
        cs = (saturated_enthalpy(end, self.p) - cold) / (end - self.supply)
        ua = part / (self.cp * self.R_air + cs * self.R_water)
        return counterflow(ua, self.m, self.C / cs) * (enthalpy(air, self.W) - cold)

    def surplus(self, air, water, part):
        return self.C * (water - self.supply) - self.wet(air, water, part)

    def divide(self):
        """The dry share, and air and water where the wet part begins."""
        leaving = self.T - self.cooled(1) * (self.T - self.supply)
        if self.supply + (leaving - self.supply) * self.R_water / self.R >= self.dew:
            return 1, leaving, self.supply
        water = brentq(lambda water: self.surplus(self.T, water, 1), self.supply, self.T, xtol=1e-12, rtol=1e-15)
        if (self.T * self.R_water + water * self.R_air) / self.R <= self.dew:
            return 0, self.T, water
        part = brentq(lambda part: self.surplus(*self.border(part), 1 - part), 0, 1, xtol=1e-15, rtol=1e-15)
        return part, *self.border(part)

    def results(self):
        """Heat, its sensible part and the wet share; that part by the effective temperature of the surface."""
        part, air, water = self.divide()
        dry, wet = self.m * self.cp * (self.T - air), self.C * (water - self.supply)
        if part == 1:
            return dry, dry, 0
        missed = math.exp(-(1 - part) / (self.R_air * self.m * self.cp))
        surface = enthalpy(air, self.W) - wet / self.m / (1 - missed)
        Ts = brentq(lambda T: saturated_enthalpy(T, self.p) - surface, self.supply - 1e-6, self.T, xtol=1e-11)
        leaving = Ts + (air - Ts) * missed
        return dry + wet, dry + min(wet, self.m * self.cp * (air - leaving)), 1 - part


def method_rows(rng, count):
    for _ in range(count):
        T, supply = (float(f"{ZERO + common.uniform(rng, *span):.6g}") for span in ((22, 36), (4, 13)))
        RH, p, m = common.uniform(rng, 0.3, 0.9), common.uniform(rng, 80000, 103000), common.log_uniform(rng, 0.05, 5)
        ntu, share, ratio = common.uniform(rng, 0.5, 2.5), rng.uniform(0.05, 0.6), rng.uniform(0.4, 5)
        R = 1 / (ntu * m * 1020)
        C, R_air, R_water = (float(f"{x:.6g}") for x in (ratio * m * 1020, R * (1 - share), R * share))
        yield (T, RH, p, m, supply, C, R_air, R_water, *Method(T, RH, p, m, supply, C, R_air, R_water).results())


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
    tolerance="the method itself: one line for the enthalpy of saturated air; its error is stated in the model's comment"), common.Table(
    "wetcoil_method", "heat of that coil by its effectiveness, with the enthalpy as potential",
    "Braun, Klein & Mitchell, Effectiveness models for cooling towers and cooling coils, ASHRAE Transactions 95 (2), 1989, from memory",
    common.debian("iapws") + ", saturation by its IAPWS-IF97, with scipy's brentq",
    {"T_air_K": "K", "RH": "1", "p_Pa": "Pa", "m_air_kg_s": "kg/s", "T_supply_K": "K", "C_water_W_K": "W/K", "R_air_K_W": "K/W",
     "R_water_K_W": "K/W", "Q_W": "W", "Q_sensible_W": "W", "wet_share": "1"},
    method_rows, 200,
    ("a solver of its own: for a share of the surface that is dry the border with the dew point follows, and the balance of the water "
     "gives the share", "m_air is of dry air; humid air is an ideal gas"),
    tolerance="a model may take a polynomial for the slope of the saturation enthalpy"))
