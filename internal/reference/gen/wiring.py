"""Actuators on a 24 V cable, solved by node voltages with 50-digit decimals.

Every junction of every conductor is a node, sources are branches, and the equations are eliminated with pivoting. No
loop law and no closed form for a ladder is used. Load currents that depend on the voltage are found by substitution.
"""

from decimal import Decimal as D, getcontext

import common

getcontext().prec = 50
ALPHA = D("0.00393")
PI = D("3.14159265358979323846264338327950288419716939937511")
ROOT2 = D(2).sqrt()
CLOSE = D("1e-30")


class Network:
    """Conductors, sources and injected currents between named nodes; one node of each island is grounded."""

    def __init__(self, grounds):
        self.alias, self.resistors, self.sources, self.grounds = {}, [], [], grounds

    def root(self, node):
        while node in self.alias:
            node = self.alias[node]
        return node

    def resistor(self, a, b, ohms):
        if ohms == 0:
            a, b = self.root(a), self.root(b)
            if a != b:
                self.alias[a] = b
        else:
            self.resistors.append((a, b, ohms))

    def source(self, plus, minus, volts, ohms):
        self.sources.append((plus, minus, volts, ohms))

    def solve(self, injections):
        """Node voltages for each set of injections [(from, to, amperes)], sources on only in the first set."""
        names = {self.root(n) for a, b, _ in self.resistors for n in (a, b)}
        names |= {self.root(n) for s in self.sources for n in s[:2]}
        names |= {self.root(n) for set_ in injections for a, b, _ in set_ for n in (a, b)}
        grounds = {self.root(g) for g in self.grounds}
        index = {name: i for i, name in enumerate(sorted(names - grounds))}
        size, n = len(index) + len(self.sources), len(index)
        matrix = [[D(0)] * (size + len(injections)) for _ in range(size)]
        at = lambda node: index.get(self.root(node))
        for a, b, ohms in self.resistors:
            i, j = at(a), at(b)
            for p, q in ((i, j), (j, i)):
                if p is not None:
                    matrix[p][p] += 1 / ohms
                    if q is not None:
                        matrix[p][q] -= 1 / ohms
        for k, (plus, minus, volts, ohms) in enumerate(self.sources):
            row = matrix[n + k]
            row[n + k], row[size] = ohms, volts
            for node, sign in ((plus, 1), (minus, -1)):
                if at(node) is not None:
                    row[at(node)] += sign
                    matrix[at(node)][n + k] -= sign
        for k, set_ in enumerate(injections):
            for a, b, amperes in set_:
                for node, sign in ((a, -1), (b, 1)):
                    if at(node) is not None:
                        matrix[at(node)][size + k] += sign * amperes
        eliminate(matrix, size)
        return [lambda node, k=k: D(0) if at(node) is None else matrix[at(node)][size + k] for k in range(len(injections))]


def eliminate(matrix, size):
    """Gauss–Jordan with row pivoting; the right-hand sides become the solutions."""
    for i in range(size):
        pivot = max(range(i, size), key=lambda r: abs(matrix[r][i]))
        matrix[i], matrix[pivot] = matrix[pivot], matrix[i]
        inverse = 1 / matrix[i][i]
        used = [c for c in range(i, len(matrix[i])) if matrix[i][c] != 0]
        for c in used:
            matrix[i][c] *= inverse
        for r in range(size):
            factor = matrix[r][i]
            if r != i and factor != 0:
                for c in used:
                    matrix[r][c] -= factor * matrix[i][c]


def current(device, volts):
    power, nominal = device["power"], device["nominal"]
    return {"constant-power": power / volts, "constant-current": power / nominal,
            "constant-resistance": power * volts / nominal ** 2}[device["model"]]


def wave(kind, rectification):
    """Crest/√2 in the two half waves and mean, of a current of effective value 1 (half sine: Ip/2 and Ip/π)."""
    if kind == "direct":
        return D(1), D(1), D(1)
    return (ROOT2, D(0), 2 / PI) if rectification == "half-wave" else (D(1), D(1), D(0))


def build(c, power_on, signals):
    """The network with or without the voltage of the supply and the conductors of the signals."""
    last = len(c["devices"]) + 1
    shared = c["common"] == "shared"
    ends = {"near-end": 0, "far-end": last}
    s, k = ends[c["supply_end"]], ends[c["controller_end"]]
    back = "C" if shared else "M"
    net = Network([("C", k if shared else s)] + ([] if shared else [("M", k)]))
    lengths = [d["length"] for d in c["devices"]] + [c["tail"]]
    for i, length in enumerate(lengths):
        for rail, ohms in (("G", c["r_supply"]), ("C", c["r_common"])):
            net.resistor((rail, i), (rail, i + 1), ohms * length)
        if signals:
            net.resistor(("Y", i), ("Y", i + 1), c["r_signal"] * length)
            if not shared:
                net.resistor(("M", i), ("M", i + 1), c["r_signal_common"] * length)
    net.source(("G", s), ("C", s), c["u0"] if power_on else D(0), c["r_source"])
    if not signals:
        return net, back, k
    net.source(("Y", k), (back, k), c["signal"], c["output"])
    for j, d in enumerate(c["devices"], 1):
        terminal = ("Y", j)
        if d["feed"] == "own-signal":
            terminal = ("T", j)
            net.source(("O", j), (back, k), d["signal"], c["output"])
            away = sum(lengths[:j]) if k == 0 else sum(lengths[j:])
            net.resistor(("O", j), terminal, c["r_signal"] * away)
        d["terminal"] = terminal
        if d["feed"] != "no-signal" and d["input"]:
            net.resistor(terminal, (back, j), d["input"])
    return net, back, k


def draw(c, net, weights):
    """Currents of the loads by substitution from the open voltage, or None if that does not settle."""
    ports = [(("G", j), ("C", j)) for j in range(1, len(c["devices"]) + 1)]
    base, *unit = net.solve([[]] + [[(*port, D(1))] for port in ports])
    open_ = [base(g) - base(b) for g, b in ports]
    z = [[u(b) - u(g) for u in unit] for g, b in ports]
    volts = open_
    for _ in range(400):
        amperes = [current(d, u) for d, u in zip(c["devices"], volts)]
        after = [o - sum(r * w * i for r, w, i in zip(row, weights, amperes)) for o, row in zip(open_, z)]
        if min(after) < c["u0"] * D("0.6"):
            return None
        if max(abs(a - b) for a, b in zip(after, volts)) < CLOSE:
            return after, amperes
        volts = after
    return None


def solve(c):
    """Voltage, current, signal seen and ripple of each device, or None."""
    waves = [wave(c["kind"], d["rectification"]) for d in c["devices"]]
    direct = c["kind"] == "direct"
    net, back, k = build(c, True, direct)
    found = draw(c, net, [w[0] for w in waves])
    if found is None:
        return None
    volts, amperes = found
    inject = lambda part: [(("G", j), ("C", j), w[part] * i) for j, (w, i) in enumerate(zip(waves, amperes), 1)]
    whole, _, _ = build(c, direct, True)
    mean = whole.solve([inject(2)])[0]
    rising, falling = (net.solve([inject(part)])[0] for part in (0, 1))
    rows = []
    for j, d in enumerate(c["devices"], 1):
        seen = ripple = D(0)
        if d["feed"] != "no-signal":
            seen = mean(d["terminal"]) - mean((back, j))
        if d["feed"] != "no-signal" and not direct and back == "C":
            ripple = ROOT2 * abs(sum(v(("C", j)) - v(("C", k)) for v in (rising, falling)))
        rows.append((volts[j - 1], amperes[j - 1], seen, ripple))
    return rows


def sample(rng, n):
    number = lambda low, high: D(repr(common.uniform(rng, low, high)))
    warm = number(-20, 70)
    ohms = [D(rng.choice(["36.0", "24.5", "18.1", "12.1", "7.41", "19.5"])) for _ in range(4)]
    c = {"kind": rng.choice(["alternating", "direct"]), "u0": number(22, 27), "r_source": rng.choice([D(0), number(0.01, 0.5)]),
         "supply_end": rng.choice(["near-end", "far-end"]), "controller_end": rng.choice(["near-end", "far-end"]),
         "common": rng.choice(["shared", "shared", "separate"]), "temperature": warm, "ohms": ohms,
         "signal": number(0, 10), "output": rng.choice([D(0), number(1, 500)]),
         "tail": rng.choice([D(0), number(0.1, 40)]), "devices": []}
    for key, r in zip(("r_supply", "r_common", "r_signal", "r_signal_common"), ohms):
        c[key] = r / 1000 * (1 + ALPHA * (warm - 20))
    for _ in range(n):
        feed = rng.choice(["shared-signal", "shared-signal", "own-signal", "no-signal"])
        c["devices"].append({
            "length": rng.choice([number(0.1, 60), number(0.1, 60), number(0.1, 60), D(0)]),
            "power": rng.choice([D(0), number(1, 12), number(1, 12), number(1, 12)]), "nominal": number(20, 28),
            "model": rng.choice(["constant-power", "constant-current", "constant-resistance"]),
            "rectification": rng.choice(["half-wave", "full-wave"]), "feed": feed,
            "input": rng.choice([D(0), number(5e3, 2e5)]), "signal": number(0, 10) if feed == "own-signal" else D(0)})
    if all(d["feed"] != "shared-signal" for d in c["devices"]):
        c["signal"] = D(0)
    return c


def rows(rng, count):
    left, chain = count, 0
    while left > 0:
        c = sample(rng, min(left, rng.randint(1, 6)))
        if c["tail"] + sum(d["length"] for d in c["devices"]) == 0:
            continue
        results = solve(c)
        if results is None:
            continue
        chain += 1
        for d, (u, i, seen, ripple) in zip(c["devices"], results):
            yield (f"chain {chain}", c["kind"], c["supply_end"], c["controller_end"], c["common"], c["u0"], c["r_source"],
                   *c["ohms"], c["temperature"], c["signal"], c["output"], c["tail"],
                   d["length"], d["power"], d["nominal"], d["model"], d["rectification"], d["feed"], d["input"], d["signal"],
                   u, i, seen, ripple)
        left -= len(c["devices"])


common.main(common.Table(
    "wiring", "supply voltage and control signal of actuators on one cable, with the return of the supply shared or not",
    "Kirchhoff's current law for every node, independent solver written from the law; half sine: effective Ip/2, mean Ip/π",
    common.standard_library() + ", decimal with 50 digits",
    {"chain": "text", "kind": "text", "supply_end": "text", "controller_end": "text", "common": "text", "supply_V": "V",
     "source_ohm": "Ω", "supply_ohm_km": "Ω/km at 20 °C", "common_ohm_km": "Ω/km at 20 °C", "signal_ohm_km": "Ω/km at 20 °C",
     "signal_common_ohm_km": "Ω/km at 20 °C", "temperature_C": "°C", "shared_signal_V": "V", "output_ohm": "Ω", "tail_m": "m",
     "length_m": "m", "power_VA": "VA", "nominal_V": "V", "model": "text", "rectification": "text", "feed": "text",
     "input_ohm": "Ω", "own_signal_V": "V", "at_V": "V", "current_A": "A", "seen_V": "V", "ripple_V": "V"},
    rows, 240,
    ("one row for each device in the order of the cable; rows of one chain follow each other",
     "an input of 0 Ω stands for an ideal one; a signal of 0 V for a device without a signal",
     "alternating: at_V is crest/√2 of the half wave in which every load draws, without the signals; seen_V is the mean",
     "chains whose supply falls below 60 % are left out, since substitution then settles slowly",
     "temperature coefficient 0.00393/K at 20 °C (IEC 60028)")))
