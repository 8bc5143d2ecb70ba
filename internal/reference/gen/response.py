"""Whole chains from the demand of a signal to the heat of a terminal, each step solved by bisection.

Nothing here uses the closed forms of the project. The flow is searched until the drops of valve and rest add up to the
pressure; the heat of a coil from the logarithmic mean difference of its counterflow, searched until surface and
water agree, instead of effectiveness and NTU; that of a radiator or floor likewise against a room that stays as it is.
Gains are five-point differences of that.
"""

import math

import common

CLOSING = 0.01  # relative travel where the valve's straight line to its leakage ends
LEAKAGE = 1e-9
STEP = 2e-5  # of the differences, in demand
STEPS = 500  # of the search for extremes and of the integral
FLOOR = 0.07  # least coefficient on the water side, as a share of that at design


def bisect(rises, low, high):
    """The x at which a function changes its sign from minus to plus, to the last bit."""
    while True:
        mid = (low + high) / 2
        if mid in (low, high):
            return mid
        if rises(mid) < 0:
            low = mid
        else:
            high = mid


def log_mean(a, b):
    return a if a == b else (a - b) / math.log(a / b)


class Coil:
    """Counterflow; capacity rates in W/K for a design heat of 1 W. The air is the stream that stays constant."""

    def __init__(self, supply, back, air, leaving, share):
        self.excess, self.share = abs(supply - air), share
        self.water, self.air = 1 / abs(supply - back), 1 / abs(leaving - air)
        self.ua = 1 / log_mean(abs(supply - leaving), abs(back - air))

    def heat(self, flow):
        """Heat as a share of the design's at a share of the design flow."""
        coefficient = max(flow ** 0.8, FLOOR)
        ua = self.ua / (1 - self.share + self.share / coefficient)
        water = self.water * flow

        def surplus(heat):
            warm, cold = self.excess - heat / self.air, self.excess - heat / water
            return heat - ua * log_mean(warm, cold) if min(warm, cold) > 0 else 1
        return bisect(surplus, 0, min(water, self.air) * self.excess)


class Emitter:
    """EN 442 and its like with the logarithmic mean; an exponent of 1 is a floor by EN 1264."""

    def __init__(self, supply, back, air, exponent):
        self.excess, self.exponent = abs(supply - air), exponent
        self.water = 1 / abs(supply - back)
        self.mean = log_mean(self.excess, abs(back - air))

    def heat(self, flow):
        water = self.water * flow

        def surplus(heat):
            cold = self.excess - heat / water
            return heat - (log_mean(self.excess, cold) / self.mean) ** self.exponent if cold > 0 else 1
        return bisect(surplus, 0, water * self.excess)


class Chain:
    def __init__(self, shaping, curve, ratio, authority, terminal):
        self.shaping, self.curve, self.ratio, self.authority, self.terminal = shaping, curve, ratio, authority, terminal
        self.open = self.flow_open(1)

    def travel(self, demand):
        return demand if self.shaping == 0 else (self.shaping ** demand - 1) / (self.shaping - 1)

    def law(self, travel):
        if self.curve == "linear":
            return 1 / self.ratio + (1 - 1 / self.ratio) * travel
        return self.ratio ** (travel - 1)

    def coefficient(self, travel):
        if travel >= CLOSING:
            return self.law(travel)
        return LEAKAGE + (self.law(CLOSING) - LEAKAGE) * travel / CLOSING

    def flow_open(self, coefficient):
        """Flow at a total pressure of 1: searched until the drops of valve and rest add up to it."""
        valve, rest = self.authority / coefficient ** 2, 1 - self.authority  # drops at a flow of 1
        return bisect(lambda flow: (valve + rest) * flow ** 2 - 1, 0, 2)

    def flow(self, travel):
        return self.flow_open(self.coefficient(travel)) / self.open

    def heat(self, travel):
        return self.terminal.heat(self.flow(travel))

    def gain(self, demand):
        at = lambda i: self.heat(self.travel(demand + i * STEP))
        return (8 * (at(1) - at(-1)) - (at(2) - at(-2))) / (12 * STEP)

    def smooth(self, demand, reach=1e-3):
        """Whether no kink is near: the closing travel, or where the water side becomes laminar."""
        low, high = self.travel(demand - reach), self.travel(demand + reach)
        laminar = FLOOR ** 1.25
        return not low <= CLOSING <= high and not self.flow(low) <= laminar <= self.flow(high)

    def demand(self, share):
        """The demand that gives a share of the design heat."""
        return bisect(lambda demand: self.heat(self.travel(demand)) - share if demand > 0 else -1, 0, 1)

    def linearity(self):
        """The least heat that is above the closing region, the ratio of the gains from there or 10 % to 90 % of the heat, and
        the root mean square of heat − demand by the midpoint rule."""
        least = self.heat(CLOSING)
        reach = 2.001 * STEP
        low, high = self.demand(max(least, 0.1)) + reach, self.demand(0.9) - reach
        gains = [self.gain(x) for i in range(STEPS + 1) if self.smooth(x := low + (high - low) * i / STEPS, reach)]
        squares = [(self.heat(self.travel(x)) - x) ** 2 for x in ((i + 0.5) / STEPS for i in range(STEPS))]
        return least, max(gains) / min(gains), math.sqrt(sum(squares) / STEPS)

    def least_travel(self, signal_step, stem_step):
        """The least controllable position, by counting steps."""
        steps = 1
        while steps * stem_step < CLOSING:
            steps += 1
        least = steps * stem_step
        steps = 1
        while self.travel(steps * signal_step) < least:
            steps += 1
        reached, steps = self.travel(steps * signal_step), 1
        while (steps + 1) * stem_step <= reached:
            steps += 1
        return max(steps * stem_step, least)


# Supply, return, air, and the air leaving a coil or the exponent of an emitter.
UNITS = [
    ("coil", 80, 60, 16, 35), ("coil", 70, 30, 5, 25), ("coil", 6, 12, 26, 15), ("coil", 55, 45, 20, 40),
    ("emitter", 75, 65, 20, 1.3), ("emitter", 70, 30, 20, 1.33), ("emitter", 16, 18, 26, 1.1), ("floor", 40, 35, 20, 1.0),
]


def rows(rng, count):
    for i in range(count):
        kind, supply, back, air, parameter = UNITS[i % len(UNITS)]
        share = common.uniform(rng, 0.05, 0.4) if kind == "coil" else 0
        terminal = Coil(supply, back, air, parameter, share) if kind == "coil" else Emitter(supply, back, air, parameter)
        curve = rng.choice(["linear", "equal-percentage"])
        ratio = common.uniform(rng, 20, 100)
        shaping = 0 if rng.random() < 0.4 else common.uniform(rng, 3, 100)
        authority = common.uniform(rng, 0.05, 1)
        chain = Chain(shaping, curve, ratio, authority, terminal)
        demand = common.uniform(rng, 0.02, 0.98)
        while not chain.smooth(demand):
            demand = common.uniform(rng, 0.02, 0.98)
        travel = chain.travel(demand)
        flow, heat = chain.flow(travel), chain.heat(travel)
        direction = math.copysign(1, supply - back)
        after = supply - direction * heat / (terminal.water * flow)
        signal_step, stem_step = common.uniform(rng, 0.002, 0.05), common.uniform(rng, 0.002, 0.05)
        least = chain.least_travel(signal_step, stem_step)
        yield (kind, supply, back, air, parameter, share, curve, ratio, shaping, authority, demand, travel,
               chain.coefficient(travel), flow, heat, after, chain.gain(demand), signal_step, stem_step, least, chain.heat(least))


def linearities(rng, count):
    """Straight, equal percentage and shaped valves from full authority to little."""
    for kind, supply, back, air, parameter in UNITS:
        share = 0.2 if kind == "coil" else 0
        terminal = Coil(supply, back, air, parameter, share) if kind == "coil" else Emitter(supply, back, air, parameter)
        for authority in (1, 0.5, 0.1):
            for curve, shaping in (("linear", 0), ("equal-percentage", 0), ("linear", 20)):
                chain = Chain(shaping, curve, 50, authority, terminal)
                yield (kind, supply, back, air, parameter, share, curve, 50, shaping, authority, *chain.linearity())


SOURCE = ("definitions of Kv, of the characteristics (IEC 60534-1, -2-4) and of the logarithmic mean difference (EN 442-2; "
          "Incropera, chapter 11), each step found by bisection")
UNIT_COLUMNS = {
    "terminal": "text", "supply_C": "°C", "return_C": "°C", "air_C": "°C", "parameter_C_or_1": "°C or 1", "water_share": "1",
    "curve": "text", "ratio": "1", "shaping": "1", "authority": "1"}
UNIT_NOTES = (
    "flow and heat are shares of the design's, at which the valve is fully open",
    "parameter: temperature of the air leaving a coil; exponent of an emitter or floor",
    "shaping: ratio of zero-based equal percentage, 0 for linear")

common.main(
    common.Table(
        "response", "whole response of a terminal unit, from the demand of a signal to heat and return temperature",
        SOURCE, common.standard_library(),
        {**UNIT_COLUMNS, "demand": "1", "travel": "1", "phi": "1", "flow": "1", "heat": "1", "after_C": "°C", "gain": "1",
         "signal_step": "1", "stem_step": "1", "least_travel": "1", "least_heat": "1"},
        rows, 160, (*UNIT_NOTES, "gain: derivative of heat by demand, no kink within 0.001"),
        tolerance="gain: a model may take the chord over a small part of the signal"),
    common.Table(
        "response_linearity", "how straight the heat of a terminal unit is in its signal",
        SOURCE, common.standard_library(),
        {**UNIT_COLUMNS, "least_heat": "1", "gain_ratio": "1", "deviation": "1"},
        linearities, 0, (*UNIT_NOTES, f"extremes and means of {STEPS} points"),
        tolerance="gain ratio and deviation: a model may take other points"))
