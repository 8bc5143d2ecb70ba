"""The demonstration of examples/plan worked out again from the physics, for the valve and actuator named for each unit.

Catalogue and schedule are read from the example. Which pair serves a unit is a table here; everything that follows from
the pair is computed: no flow, pressure or position is taken from a plan. Branches are solved by bisection.
"""

import csv
import json
import math
import pathlib
import re
from decimal import Decimal

from iapws._iapws import _Viscosity
from iapws.iapws97 import _Region1

import common

DEMO = pathlib.Path(__file__).resolve().parents[3] / "examples" / "plan" / "data"
PAIRS = {  # tag: valve, actuator; None where the catalogue has none
    "FC-101": ("PI-15", "AS-5"), "FC-102": ("PI-15", "AS-5S"), "FC-103": ("PI-10L", "AS-5"), "FC-104": ("PI-15", "AS-5"),
    "FC-105": ("PI-20", "AS-5"), "FC-106": ("PI-15", "AS-5"), "FC-107": ("PI-15", "AS-5"), "FC-108": ("PI-10L", "AS-5"),
    "FC-109": ("PI-15", "AS-5"), "FC-110": ("PI-15", "AS-5"), "HC-415": ("TW-20-40", "AL-15"),
    "FC-111": ("PI-15", "AS-5"), "HC-416": ("RB-50-25", None),
    "CB-201": ("PI-15", "AS-5"), "CB-202": ("PI-15", "AS-1"), "CB-203": ("PI-25", "AS-5"),
    "AH-301": ("PI-40", "AL-15"), "AH-302": ("TW-25-63", "AL-15"), "AH-303": ("TW-20-40", "AL-15"), "AH-304": ("PI-40", "AL-15"),
    "AH-305": (None, None), "SM-305": ("TW-20-40", "AL-15"),
    "RP-401": ("TW-15-063", "AS-5"), "RP-402": ("TW-10-04", "AS-5S"), "RP-403": ("TW-10-04", "AS-5"),
    "RP-404": ("TW-15-10", "AS-5"), "RP-405": ("TW-15-25", "AS-1"),
    "HC-406": ("TW-20-40", "AL-15"), "HC-407": ("TW-40-16", "AL-15"), "HC-408": ("TW-50-25", "AL-15"),
    "HC-409": ("RB-32-10", "AR-90"), "HC-410": ("TW-25-63", "AL-15"), "HC-411": ("RB-20-25", "AR-90D"),
    "HC-412": ("TW-65-40", "AL-15"), "HC-413": ("TW-80-100", None), "HC-414": ("TW-20-40", "AL-15"),
    "FC-501": ("PI-20", "AS-5"), "FC-502": ("PI-25", "AS-5"), "PH-601": ("PI-40", "AL-15"), "HC-602": ("RB-32-10", "AR-90"),
}
SI = {
    "kW": "1000", "kPa": "1000", "l/h": 1 / Decimal(3_600_000), "mm": "1", "°": "1", "K": "1", "°C": "1", "Kv": "1",
    "%": "0.01", "V": "1", "mA": "1"}  # lengths stay in mm, angles in degrees, temperatures as given, signals in V or mA
CELSIUS = 273.15
USUAL_PRESSURE = 0.3  # MPa
RHO0 = 999.10
SHUNT = 0.5  # V/mA
DEFAULT_CLOSING_TRAVEL = 0.01
LEAST_DROP = 1.0  # Pa, below which a valve has another law
N2, N4, N32 = 1.6e-3, 7.07e-2, 140.0  # IEC 60534-2-1 for Kv, m³/h and mm
FULL_TRIM = 0.016  # Kv/d²
GLOBE = 0.9, 0.46  # FL and Fd of a contoured plug that the flow opens, IEC 60534-2-1 Table D.2


def number(text):
    """A quantity such as "2.4 kW" in the unit that SI says; nothing for an empty cell."""
    if not text:
        return None
    value, unit = re.fullmatch(r"(-?[\d.]+) ?(\S+)", text).groups()
    return float(Decimal(value) * Decimal(SI[unit]))


def ends(text):
    """The ends and the unit of a range such as "4-20 mA"."""
    low, high, unit = re.fullmatch(r"([\d.]+)-([\d.]+) (V|mA)", text).groups()
    return float(low), float(high), unit


# Liquids

with open(common.DATA / "glycol_melinder2010.json", encoding="utf-8") as source:
    GLYCOLS = {fluid["name"]: fluid for name, fluid in json.load(source).items() if name != "source"}


def liquid(fluid, celsius):
    """Density, heat capacity and kinematic viscosity."""
    T = celsius + CELSIUS
    if fluid in ("", "water"):
        region1 = _Region1(T, USUAL_PRESSURE)
        return 1 / region1["v"], region1["cp"] * 1e3, _Viscosity(1 / region1["v"], T) * region1["v"]
    name, percent = re.fullmatch(r"(.+) ([\d.]+) % mass", fluid).groups()
    glycol = GLYCOLS[name]
    dT, dx = T - glycol["T_base_K"], float(percent) / 100 - glycol["x_base"]
    rho, cp, ln_mu = (
        math.fsum(c * dT ** i * dx ** j for i, row in enumerate(glycol[key]) for j, c in enumerate(row))
        for key in ("density_kg_m3", "specific_heat_J_kgK", "ln_viscosity_Pa_s"))
    return rho, cp, math.exp(ln_mu) / rho


def design(fluid, heat, supply, back):
    """Mass flow, flow, and density and viscosity at the return."""
    rho, cp, nu = liquid(fluid, back)
    _, cp_supply, _ = liquid(fluid, supply)
    mass = heat / ((cp + cp_supply) / 2 * abs(supply - back))
    return mass, mass / rho, rho, nu


def design_of(row):
    """The larger of the two flows of a change-over unit."""
    duties = []
    for prefix in ("", "second "):
        heat, supply, back = (number(row[prefix + key]) for key in ("duty", "supply", "return"))
        if heat is None:
            continue
        if back is None:
            difference = number(row["difference"])
            back = supply + difference if supply < 20 else supply - difference
        duties.append(design(row["fluid"], heat, supply, back))
    return max(duties, key=lambda duty: duty[1])


# Valves

def table_curve(points):
    """Fritsch and Butland 1984 through points: a cubic whose slopes are Brodlie's weighted harmonic means."""
    xs, ys = zip(*points)
    steps = [b - a for a, b in zip(xs, xs[1:])]
    secants = [(b - a) / h for a, b, h in zip(ys, ys[1:], steps)]
    slopes = [None]  # those of the ends are not defined by the documentation and not needed here
    for (h0, h1), (s0, s1) in zip(zip(steps, steps[1:]), zip(secants, secants[1:])):
        alpha = (1 + h1 / (h0 + h1)) / 3
        slopes.append(s0 * s1 / (alpha * s1 + (1 - alpha) * s0))
    slopes.append(None)

    def at(x):
        if x in xs:
            return ys[xs.index(x)]
        i = max(i for i, left in enumerate(xs) if left < x)
        if slopes[i] is None or slopes[i + 1] is None:
            raise ValueError(f"travel {x} lies in an outer piece of the table, whose end slope is not defined")
        h, t = steps[i], (x - xs[i]) / steps[i]
        return (ys[i] * (1 + 2 * t) * (1 - t) ** 2 + ys[i + 1] * t * t * (3 - 2 * t)
                + h * slopes[i] * t * (1 - t) ** 2 - h * slopes[i + 1] * t * t * (1 - t))

    return at


def law(text):
    """The bare inherent characteristic."""
    word, *rest = text.split()
    if word == "table":
        return table_curve([tuple(map(float, point.split(":"))) for point in rest])
    ratio = float(rest[0])
    if word == "linear":
        return lambda h: 1 / ratio + (1 - 1 / ratio) * h
    if word == "equal-percentage":
        return lambda h: ratio ** (h - 1)
    raise ValueError(text)


class Valve:
    """A valve's coefficient by its travel, closing region and leakage included."""

    def __init__(self, model):
        self.model, self.bare = model, law(model["characteristic"])
        self.leakage = number(model["leakage"])
        self.closing = model.get("closing-travel") or DEFAULT_CLOSING_TRAVEL
        if "closing-travel" not in model and self.leakage * 2 > self.bare(self.closing):
            raise ValueError(f"{model['id']}: the closing region would reach further")
        self.size = number(model.get("stroke") or model["angle"])
        self.greatest_travel = 1.0

    def coefficient(self, h):
        """Share of the coefficient of the fully open valve."""
        if h >= 1:
            return 1.0
        if h >= self.closing:
            return self.bare(h)
        if h <= 0:
            return self.leakage
        return self.leakage + (self.bare(self.closing) - self.leakage) * h / self.closing

    def share(self, x):
        """The same as a share of what the usable travel gives, at a share of that travel."""
        return self.coefficient(x * self.greatest_travel) / self.coefficient(self.greatest_travel)

    def travel(self, coefficient):
        return bisect(lambda h: self.coefficient(h) - coefficient, 0.0, 1.0)


def bisect(rising, low, high):
    """The zero of a rising function, to the last bit."""
    while True:
        middle = (low + high) / 2
        if middle in (low, high):
            return min(low, high, key=lambda x: abs(rising(x)))
        if rising(middle) < 0:
            low = middle
        else:
            high = middle


def reynolds_factor(model, flow, nu):
    """FR of the open valve at a flow in m³/s; only that of a plug is defined well enough to be below 1."""
    FL, Fd = model.get("fl") or GLOBE[0], model.get("fd") or GLOBE[1]
    kv, d = number(model["kvs"]), number(model["connection"])
    reynolds = N4 * Fd * flow * 3600 / (nu * math.sqrt(kv * FL)) * (FL ** 2 * kv ** 2 / (N2 * d ** 4) + 1) ** 0.25
    if reynolds >= 1e4:
        return 1.0
    if kv / d ** 2 >= FULL_TRIM or reynolds < 10 or model["stem"] == "rotary":
        raise ValueError(f"{model['id']}: Rev {reynolds} in a valve of another kind than this script knows")
    n = 1 + N32 * (kv / d ** 2) ** (2 / 3)
    return min(1.0, 1 + 0.33 * math.sqrt(FL) / n ** 0.25 * math.log10(reynolds / 1e4), 0.026 / FL * math.sqrt(n * reynolds))


class TwoWay(Valve):
    """q = FR·Kv·√(Δp/1 bar · ρ0/ρ), FR of the open valve at the design flow."""

    def __init__(self, model, flow, rho, nu):
        super().__init__(model)
        factor = reynolds_factor(model, flow, nu)
        self.conductance = factor * number(model["kvs"]) / 3600 * math.sqrt(RHO0 / rho / 1e5)  # m³/s at 1 Pa
        self.needs, self.mark = (flow / self.conductance) ** 2, 0.0

    def flow(self, h, drop):
        return self.coefficient(h) * self.conductance * math.sqrt(drop)


class PressureIndependent(Valve):
    """The regulated flow above the least pressure, orifice and wide-open regulator in series below it."""

    def __init__(self, model, flow, rho, _nu):
        super().__init__(model)
        rows = [(s["mark"], number(s["flow"]), number(s["min-pressure"])) for s in model["settings"]]
        scale = math.sqrt(RHO0 / rho)
        dial = min(max(flow / scale, rows[0][1]), rows[-1][1])
        below, above = next(pair for pair in zip(rows, rows[1:]) if pair[0][1] <= dial <= pair[1][1])
        self.mark = between(dial, below[1], above[1], below[0], above[0])
        self.needs = between(dial ** 2, below[1] ** 2, above[1] ** 2, below[2], above[2])
        self.control = control_pressure([(q, p) for _, q, p in rows])
        self.set_flow = dial * scale
        self.gain = number(model["proportional-band"]) / (number(model["max-pressure"]) - self.needs)
        if model["setting-kind"] == "lift-limiting":
            self.greatest_travel = self.travel(dial / rows[-1][1])

    def flow(self, h, drop):
        share = min(1.0, self.coefficient(h) / self.coefficient(self.greatest_travel))
        least = self.control + (self.needs - self.control) * share ** 2
        if drop < least:
            return share * self.set_flow * math.sqrt(drop / least)
        return share * self.set_flow * (1 + self.gain * (drop - least))


def between(x, x0, x1, y0, y1):
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def control_pressure(table):
    """Intercept of the least pressure on the flow squared, by least squares."""
    xs, ys = [q ** 2 for q, _ in table], [p for _, p in table]
    x_mean, y_mean = math.fsum(xs) / len(xs), math.fsum(ys) / len(ys)
    slope = (math.fsum((x - x_mean) * (y - y_mean) for x, y in zip(xs, ys)) / math.fsum((x - x_mean) ** 2 for x in xs))
    intercept = y_mean - slope * x_mean
    if slope <= 0 or intercept <= 0:
        raise ValueError(f"the table {table} does not tell the control pressure")
    return intercept


# Branches

def branch_flow(valve, h, total, rest):
    """Flow of the valve in series with Δp = rest·q², and the valve's own pressure difference."""
    drop = bisect(lambda dp: dp + rest * valve.flow(h, dp) ** 2 - total, 0.0, total) if rest else total
    if drop < LEAST_DROP:
        raise ValueError("the valve's own law is laminar there")
    return valve.flow(h, drop), drop


class Branch:
    """The circuit of a unit: what the valve has, what it needs, and what a balancing valve takes."""

    def __init__(self, row, valve, flow):
        available = number(row["available pressure"])
        drop = 0.0 if available is None else number(row["branch drop"]) or 0.0
        self.total = number(row["valve pressure"]) if available is None else available
        self.has = self.total - drop
        self.margin = self.has - valve.needs
        two_way = isinstance(valve, TwoWay)
        self.throttle = max(0.0, self.margin) if two_way else 0.0
        self.rest = (drop + self.throttle) / flow ** 2
        self.authority_known = two_way and available is not None
        self.authority_open = self.authority_design = 0.0
        if self.authority_known:
            self.authority_design = valve.needs / self.total
            self.authority_open = branch_flow(valve, 1.0, self.total, drop / flow ** 2)[1] / self.total


# Actuators

def shaping_law(text):
    word, *rest = text.split()
    if word == "linear":
        return lambda x: x
    if word == "zero-based-equal-percentage":
        ratio = float(rest[0])
        return lambda x: (ratio ** x - 1) / (ratio - 1)
    raise ValueError(text)


def nearest_shaping(names, valve, response):
    """The shaping that brings the valve nearest to the response; refused where that depends on how one measures."""
    if len(names) == 1:
        return names[0]
    wanted = [lambda x, ratio=ratio: ratio ** (x - 1) for ratio in (25, 50, 100)] if response != "linear" else [lambda x: x]
    grid = [i / 100 for i in range(5, 101)]
    inside = [x for x in grid if 0.2 <= x <= 0.8]
    choices = set()
    for target in wanted:
        for points in (grid, inside):
            for measure in (max, math.fsum):
                choices.add(min(names, key=lambda name: measure(
                    [abs(valve.share(shaping_law(name)(x)) - target(x)) for x in points])))
    if len(choices) != 1:
        raise ValueError(f"{valve.model['id']}: no shaping is nearest by every measure: {choices}")
    return choices.pop()


def input_of(ranges, output):
    """The range to set, and volts for each unit of the controller's signal: the controller's, that of a shunt, or where its ends read nearest to 0 and 1."""
    low, high, unit = ends(output)
    shunted = f"{low * SHUNT:g}-{high * SHUNT:g} V"
    if output in ranges:
        return output, 1.0
    if unit == "mA" and shunted in ranges:
        return shunted, SHUNT

    def miss(name):
        at0, at1, kind = ends(name)
        read = [min(max((end - at0) / (at1 - at0), 0), 1) for end in (low, high)]
        return read[0] + 1 - read[1] if kind == unit else math.inf

    return min(ranges, key=miss), 1.0


class Drive:
    """An actuator set for a unit and mounted on its valve."""

    def __init__(self, model, row, valve):
        self.valve = valve
        closing = "retracted" if valve.model["stem"] == "push-to-open" else "extended"
        self.works = closing in model["closing-ends"]
        wanted = "reverse" if (row["output action"] != "rising-closes") == (closing == "extended") else "direct"
        self.action = wanted if wanted in model["actions"] else model["actions"][0]
        self.opens = (self.action == "reverse") == (closing == "extended")  # on a rising signal
        self.shape = shaping_law(nearest_shaping(model["shapings"], valve, row["response"]))
        self.span = self.span_on(model)
        input_range, self.per_signal = input_of(model["ranges"], row["output range"])
        self.low, self.high, _ = ends(input_range)
        offered = model.get("feedback") or [None]
        self.feedback_range = input_range if input_range in offered else offered[0]
        senses = {"rises-extending": closing == "retracted", "rises-retracting": closing == "extended"}
        self.reports_opening = senses.get(model.get("feedback-sense"), self.opens)

    def span_on(self, model):
        """The drive's span in relative travel of the valve: what it finds, or what is set over the valve's size."""
        if "adapts-to" in model:
            if not number(model["adapts-from"]) <= self.valve.size * self.valve.greatest_travel <= number(model["adapts-to"]):
                raise ValueError(f"{model['id']} does not adapt to {self.valve.model['id']}")
            return self.valve.greatest_travel
        if "angle" in model:
            return number(model["angle"]) / self.valve.size
        return min(stroke for stroke in map(number, model["strokes"]) if stroke >= self.valve.size) / self.valve.size

    def travel(self, signal):
        demand = min(1.0, max(0.0, (signal * self.per_signal - self.low) / (self.high - self.low)))
        share = self.shape(demand if self.opens else 1 - demand)
        return min(share * self.span, self.valve.greatest_travel)

    def feedback(self, travel):
        """Unit and number, linear in the drive's span; unless the drive has a sense of its own it rises with the demand."""
        if self.feedback_range is None:
            return "none", 0.0
        low, high, unit = ends(self.feedback_range)
        share = travel / self.span
        return unit, low + (high - low) * (share if self.reports_opening else 1 - share)

    def place(self, travel):
        """Stem in mm out of its retracted end, and turn in degrees clockwise."""
        stem = self.valve.model["stem"]
        out = self.valve.size * (travel if stem == "push-to-open" else 1 - travel)
        return (0.0, out) if stem == "rotary" else (out, 0.0)


# The table

def by_id(models):
    return {model["id"]: model for model in models}


def plan(rng, count):
    with open(DEMO / "catalogue.json", encoding="utf-8") as file:
        catalogue = json.load(file)
    valves, actuators = by_id(catalogue["valves"]), by_id(catalogue["actuators"])
    with open(DEMO / "schedule.csv", encoding="utf-8") as file:
        schedule = {row["tag"]: row for row in csv.DictReader(file)}
    if schedule.keys() != PAIRS.keys():
        raise ValueError(f"tags of the schedule or of this script alone: {sorted(schedule.keys() ^ PAIRS.keys())}")
    for tag, row in schedule.items():
        valve, actuator = PAIRS[tag]
        if valve and actuator:
            yield from unit(row, valves[valve], actuators[actuator])


def unit(row, model, actuator):
    """The five rows of a unit, none if the actuator cannot close the valve."""
    mass, flow, rho, nu = design_of(row)
    valve = (PressureIndependent if "settings" in model else TwoWay)(model, flow, rho, nu)
    branch, drive = Branch(row, valve, flow), Drive(actuator, row, valve)
    if not drive.works:
        return
    low, high, signal_unit = ends(row["output range"])
    low, high = number(row["output low"]) or low, number(row["output high"]) or high
    for output in (0.0, 0.25, 0.5, 0.75, 1.0):
        signal = low + (high - low) * output
        travel = drive.travel(signal)
        yield (
            row["tag"], model["id"], actuator["id"], mass, flow, valve.mark, valve.needs, branch.has, branch.margin,
            branch.authority_known, branch.authority_open, branch.authority_design, branch.throttle, drive.action,
            output, signal_unit, signal, *drive.feedback(travel), travel, *drive.place(travel),
            branch_flow(valve, travel, branch.total, branch.rest)[0])


common.main(common.Table(
    "plan", "the demonstration plan: design, setting, authority, action, and what to expect at five controller outputs",
    "IAPWS R7-97 by iapws; Melinder (IIR 2010); IEC 60534-1, -2-1 and -2-4; invented demonstration data of examples/plan/data",
    common.debian("iapws") + "; independent solver by bisection, written from the laws as documented",
    {"tag": "text", "valve": "text", "actuator": "text", "m_kg_s": "kg/s", "q_design_m3_s": "m³/s", "mark": "1",
     "needs_Pa": "Pa", "has_Pa": "Pa", "margin_Pa": "Pa", "authority_known": "1", "authority_open": "1", "authority_design": "1",
     "throttle_Pa": "Pa", "action": "text", "output": "1", "signal_unit": "text", "signal_V_or_mA": "V or mA",
     "feedback_unit": "text", "feedback_V_or_mA": "V or mA", "travel": "1", "stem_mm": "mm", "turn_deg": "°", "q_m3_s": "m³/s"},
    plan, 0,
    ("one row for each unit with a working pair and each output; the pair is fixed in the generator, all else is computed",
     "a mark, throttle, authority, stem, turn or feedback of 0 stands for none where the unit has none",
     "settings: marks linear in the flow between rows of the table, least pressures linear in the flow squared",
     "q is that of the branch under its constant pressure, with the throttle set for the design flow",
     "authority_open is that of the open valve without the throttle, authority_design that at the design flow with it",
     "a glycol lowers the Kv of a two-way valve, at every travel, by the Reynolds factor of the open valve at the design flow")))
