"""Conversion factors and random conversions of the units of the trade, by pint."""

from fractions import Fraction

import pint

import common

# Exact rationals from pint's definitions, rounded to a double once, at the end.
EXACT = pint.UnitRegistry(non_int_type=Fraction)

# quantity → SI unit, then the project's unit → pint's expression.
UNITS = {
    "flow": ("m^3/s", {
        "m³/s": "m^3/s", "m³/h": "m^3/hour", "l/s": "liter/s", "l/min": "liter/minute",
        "l/h": "liter/hour", "US gpm": "US_liquid_gallon/minute"}),
    "mass flow": ("kg/s", {"kg/s": "kg/s", "kg/h": "kg/hour", "lb/h": "pound/hour"}),
    "pressure": ("Pa", {
        "Pa": "Pa", "hPa": "hPa", "kPa": "kPa", "MPa": "MPa", "mbar": "mbar", "bar": "bar",
        "mH2O": "meter*conventional_water*g_0", "mmH2O": "millimeter*conventional_water*g_0",
        "psi": "psi", "ftH2O": "foot_H2O", "inH2O": "inch*conventional_water*g_0"}),
    "absolute pressure": ("Pa", {
        "Pa abs": "Pa", "kPa abs": "kPa", "MPa abs": "MPa", "bar abs": "bar", "psi abs": "psi"}),
    "temperature": ("K", {"°C": "degC", "°F": "degF", "K": "K"}),
    "temperature difference": ("K", {"K": "K", "°F": "delta_degF"}),
    "power": ("W", {
        "W": "W", "kW": "kW", "MW": "MW", "Btu/h": "Btu_it/hour", "kBtu/h": "1000*Btu_it/hour",
        "TR": "12000*Btu_it/hour"}),
    "length": ("m", {
        "m": "m", "km": "km", "mm": "mm", "µm": "um", "cm": "cm", "in": "inch", "ft": "foot"}),
    "area": ("m^2", {
        "m²": "m^2", "cm²": "cm^2", "mm²": "mm^2", "in²": "inch^2", "ft²": "foot^2"}),
    "velocity": ("m/s", {"m/s": "m/s", "ft/s": "foot/s"}),
    "density": ("kg/m^3", {"kg/m³": "kg/m^3", "g/cm³": "g/cm^3", "lb/ft³": "pound/foot^3"}),
    "dynamic viscosity": ("Pa*s", {"Pa·s": "Pa*s", "mPa·s": "mPa*s"}),
    "kinematic viscosity": ("m^2/s", {"m²/s": "m^2/s", "mm²/s": "mm^2/s"}),
    "specific heat": ("J/kg/K", {
        "J/(kg·K)": "J/kg/K", "kJ/(kg·K)": "kJ/kg/K", "Btu/(lb·°F)": "Btu_it/pound/delta_degF"}),
    "thermal conductivity": ("W/m/K", {
        "W/(m·K)": "W/m/K", "Btu/(h·ft·°F)": "Btu_it/hour/foot/delta_degF"}),
    "thermal conductance": ("W/K", {"W/K": "W/K", "kW/K": "kW/K"}),
    "pressure gradient": ("Pa/m", {
        "Pa/m": "Pa/m", "kPa/m": "kPa/m", "ftH2O/100 ft": "foot_H2O/(100*foot)"}),
    "voltage": ("V", {"V": "V", "mV": "mV"}),
    "current": ("A", {"A": "A", "mA": "mA"}),
    "resistance": ("ohm", {"Ω": "ohm", "kΩ": "kohm", "mΩ": "mohm"}),
    "force": ("N", {"N": "N", "kN": "kN", "lbf": "force_pound"}),
    "torque": ("N*m", {"N·m": "N*m", "lbf·in": "force_pound*inch"}),
    "angle": ("radian", {"rad": "radian", "°": "degree"}),
    "frequency": ("Hz", {"Hz": "Hz", "kHz": "kHz"}),
    "ratio": ("dimensionless", {"1": "dimensionless", "%": "0.01*dimensionless"}),
}

NOTES = (
    "SI value = value × factor + offset",
    "mH2O, mmH2O, ftH2O, inH2O are conventional: 1000 kg/m³ and 9.80665 m/s²;"
    " pint's own foot_H2O is the same, but its inch_H2O_39F and inch_H2O_60F take the density of water"
    " at 39 °F (999.972 kg/m³) and 60 °F (999.001 kg/m³) and are not used",
    "Btu is the International Table one (pint's Btu_it, 1055.05585262 J);"
    " pint's plain Btu and its ton_of_refrigeration take 1055.056 J and are not used;"
    " TR is the ton of refrigeration of 12 000 Btu/h",
    "gallon is the US liquid gallon of 231 cubic inches",
    "factors are exact rationals rounded once to a double; ° holds pint's π",
)


def conversion(expression, si):
    """Factor and offset to SI, from pint's images of 0 and 1."""
    if expression in ("degC", "degF"):
        zero, one = (EXACT.Quantity(Fraction(n), expression).to(si).magnitude for n in (0, 1))
        return one - zero, zero
    return EXACT.parse_expression(expression).to(si).magnitude, Fraction(0)


def each_unit():
    for quantity, (si, units) in UNITS.items():
        for unit, expression in units.items():
            yield quantity, unit, *conversion(expression, si)


def factors(rng, count):
    yield from each_unit()


def points(rng, count):
    """Random values in random units, converted exactly and rounded once."""
    units = list(each_unit())
    for i in range(count):
        quantity, unit, factor, offset = units[i % len(units)]
        value = common.log_uniform(rng, 1e-3, 1e4)
        yield quantity, unit, value, Fraction(value) * factor + offset


SOURCE = "pint's definitions (NIST SP 811 values)"
common.main(
    common.Table(
        "units_points", "value in a trade unit → value in SI", SOURCE, common.debian("pint"),
        {"quantity": "text", "unit": "text", "value": "unit of the row", "si": "SI unit of the quantity"},
        points, 370, NOTES),
    common.Table(
        "units", "conversion factor and offset of each unit to SI", SOURCE, common.debian("pint"),
        {"quantity": "text", "unit": "text", "factor": "SI per unit", "offset": "SI"},
        factors, 0, NOTES),
)
