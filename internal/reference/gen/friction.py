"""Friction factors and pressure drops of pipes: Colebrook–White to forty digits, python3-fluids beside it."""

from decimal import Decimal, getcontext

import fluids

import common

getcontext().prec = 50
LN10 = Decimal(10).ln()
LIBRARY = common.debian("fluids")


def colebrook(Re, eD):
    """Darcy friction factor: Newton's method on x = 1/√f, x = −2·log10(eD/3.7 + 2.51·x/Re)."""
    rough, smooth = Decimal(eD) / Decimal("3.7"), Decimal("2.51") / Decimal(Re)
    x = Decimal(8)
    for _ in range(100):
        argument = rough + smooth * x
        step = (x + 2 * argument.ln() / LN10) / (1 + 2 * smooth / (argument * LN10))
        x -= step
        if abs(step) < Decimal("1e-40") * x:
            return 1 / (x * x)
    raise ValueError((Re, eD))


# Printed check values: to be met to their last digit.
PRINTED = [(1e5, 1e-4, "0.01851387"), (1e5, 0.0, "0.01798977"), (1e6, 1e-3, "0.01994347")]


def turbulent(rng, count):
    for Re, eD, printed in PRINTED:
        f = colebrook(Re, eD)
        if f"{f:.8f}" != printed:
            raise ValueError((Re, eD, printed, f))
        yield Re, eD, f, fluids.friction.Colebrook(Re, eD)
    for i in range(count):
        Re = common.log_uniform(rng, 4000, 1e8)
        eD = 0.0 if i % 20 == 0 else common.log_uniform(rng, 1e-7, 0.05)
        yield Re, eD, colebrook(Re, eD), fluids.friction.Colebrook(Re, eD)


def laminar(rng, count):
    for _ in range(count):
        Re = common.log_uniform(rng, 1e-3, 2000)
        yield Re, fluids.friction_laminar(Re)


def drop(rng, count):
    """Straight pipe in turbulent flow (Re above 5000)."""
    done = 0
    while done < count:
        D, length = common.log_uniform(rng, 0.008, 0.5), common.log_uniform(rng, 1, 500)
        rho, mu = common.uniform(rng, 900, 1100), common.log_uniform(rng, 2e-4, 2e-2)
        v, roughness = common.log_uniform(rng, 0.1, 5), common.log_uniform(rng, 1.5e-6, 3e-4)
        if v * D * rho / mu < 5000 or roughness / D > 0.05:
            continue
        done += 1
        area = 3.141592653589793 / 4 * D * D
        yield (v, rho, mu, D, length, roughness, fluids.one_phase_dP(
            m=v * area * rho, rho=rho, mu=mu, D=D, roughness=roughness, L=length, Method="Colebrook"))


COLEBROOK = "Colebrook 1939, 1/√f = −2·log10(ε/D/3.7 + 2.51/(Re·√f))"
common.main(
    common.Table(
        "friction", "Darcy friction factor of Colebrook–White at (Re, ε/D)",
        COLEBROOK + ": solved to 40 digits in decimal arithmetic; last column by fluids",
        common.standard_library() + "; " + LIBRARY,
        {"Re": "1", "eD": "1", "f": "1", "f_fluids": "1"}, turbulent, 700,
        ("the first three rows are printed check values, which the generator insists on",
         "f is rounded once, to the nearest double; f_fluids is the library's closed form in double arithmetic")),
    common.Table(
        "friction_laminar", "Darcy friction factor of laminar flow", "Hagen–Poiseuille 64/Re, by fluids.friction_laminar",
        LIBRARY, {"Re": "1", "f": "1"}, laminar, 50),
    common.Table(
        "friction_drop", "pressure drop of a straight pipe in turbulent flow",
        "Darcy–Weisbach with Colebrook–White, by fluids.one_phase_dP", LIBRARY,
        {"v_m_s": "m/s", "rho_kg_m3": "kg/m³", "mu_Pa_s": "Pa·s", "D_m": "m", "L_m": "m", "roughness_m": "m", "dp_Pa": "Pa"},
        drop, 200, ("v is the mean velocity over the full bore",)),
)
