"""Aqueous glycols: Melinder's polynomials evaluated in fifty-digit decimal arithmetic."""

import csv
import json
import pathlib
from decimal import Decimal, getcontext

import common

getcontext().prec = 50
PUBLISHED = "Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems, IIR, 2010"
CARRIED = " (coefficients as carried by the open CoolProp data files: glycol_melinder2010.json)"

with open(common.DATA / "glycol_melinder2010.json", encoding="utf-8") as source:
    FLUIDS = {name: fluid for name, fluid in json.load(source, parse_float=Decimal).items() if name != "source"}


def series(rows, dT, dx):
    """Σ c[i][j]·dT^i·dx^j."""
    return sum(c * dT ** i * dx ** j for i, row in enumerate(rows) for j, c in enumerate(row))


def properties(fluid, T, x):
    """Freezing point, density, cp, conductivity, viscosity at the doubles T (K) and x (mass fraction)."""
    dT, dx = Decimal(T) - fluid["T_base_K"], Decimal(x) - fluid["x_base"]
    return (
        series(fluid["T_freeze_K"][:1], dT, dx),
        series(fluid["density_kg_m3"], dT, dx),
        series(fluid["specific_heat_J_kgK"], dT, dx),
        series(fluid["conductivity_W_mK"], dT, dx),
        series(fluid["ln_viscosity_Pa_s"], dT, dx).exp())


def points(rng, count):
    """Random mixtures from their freezing point to 100 °C."""
    names = list(FLUIDS)
    for i in range(count):
        name = names[i % len(names)]
        fluid = FLUIDS[name]
        x = common.uniform(rng, 0, float(fluid["x_max"]))
        freeze = series(fluid["T_freeze_K"][:1], Decimal(1), Decimal(x) - fluid["x_base"])
        T = common.uniform(rng, float(freeze) + 0.01, float(fluid["T_max_K"]))
        yield name, x, T, *properties(fluid, T, x)


def checks(rng, count):
    """The grid beside this script, brought to K; refused where the two evaluations differ in its last digits."""
    with open(pathlib.Path(__file__).with_name("glycol_checks.csv"), encoding="utf-8") as grid:
        for row in csv.DictReader(grid):
            x, celsius = float(row["mass_fraction"]), float(row["t_C"])
            printed = [float(row[key]) for key in list(row)[4:]]
            T = float(Decimal(row["t_C"]) + Decimal("273.15"))
            freeze = float(Decimal(row["freeze_C"]) + Decimal("273.15"))
            own = [float(value) for value in properties(FLUIDS[row["fluid"]], T, x)]
            if abs(own[0] - freeze) > 6e-5 or any(abs(a / b - 1) > 1e-7 for a, b in zip(own[1:], printed)):
                raise ValueError((row, own))
            yield row["fluid"], x, T, freeze, *printed


# Densities of the pure liquids at 20 °C in kg/m³ (from memory: handbook values, and IF97's 998.206 rounded).
PURE, WATER = {"MEG": Decimal("1113.5"), "MPG": Decimal("1036.1")}, Decimal("998.2")


def volumes(rng, count):
    """Mass fractions of volume fractions, the volumes those of the pure liquids before they are mixed."""
    for i in range(count):
        name = ("MEG", "MPG")[i % 2]
        volume = common.uniform(rng, 0.001, 0.57)
        glycol, water = Decimal(volume) * PURE[name], (1 - Decimal(volume)) * WATER
        yield name, volume, glycol / (glycol + water)


LAW = "aqueous glycol at (mass fraction, T): freezing point, density, cp, conductivity, viscosity"
COLUMNS = {
    "fluid": "text", "mass_fraction": "1", "T_K": "K", "T_freeze_K": "K", "rho_kg_m3": "kg/m³",
    "cp_J_kgK": "J/(kg·K)", "k_W_mK": "W/(m·K)", "mu_Pa_s": "Pa·s"}
NAMES = "MEG ethylene glycol, MPG propylene glycol; mass fraction of glycol"

common.main(
    common.Table(
        "glycol", LAW, PUBLISHED + CARRIED, common.standard_library(), COLUMNS, points, 600,
        (NAMES, "an independent evaluation of the published polynomials in fifty-digit decimals, not a measurement",
         "every point lies between the freezing point and 100 °C")),
    common.Table(
        "glycol_checks", LAW + ", on a grid", PUBLISHED + ", evaluated on a grid by another script: gen/glycol_checks.csv, eight digits (freezing point to 1e-4 K)",
        "recorded grid, checked when written by " + common.standard_library(), COLUMNS, checks, 0, (NAMES,)),
    common.Table(
        "glycol_volume", "mass fraction of a glycol given by volume", "densities of the pure liquids at 20 °C (from memory)",
        common.standard_library(), {"fluid": "text", "volume_fraction": "1", "mass_fraction": "1"}, volumes, 60,
        ("MEG ethylene glycol, MPG propylene glycol",)),
)
