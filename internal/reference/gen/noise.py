"""Hydrodynamic noise of control valves, IEC 60534-8-4:2015, by python3-fluids."""

import math

from fluids import control_valve as library

import common

RHO0 = 999.10
PC = 22.064e6


def inputs(rng, spread):
    """A liquid-filled valve and pipe; spread widens or removes the room for cavitation."""
    Kv = common.log_uniform(rng, 1, 500)
    FL = common.uniform(rng, 0.5, 0.95)
    d = float(f"{math.sqrt(Kv / common.log_uniform(rng, 0.004, 0.04)) / 1e3:.6g}")
    pv = common.log_uniform(rng, 600, 2e5)
    p1 = common.log_uniform(rng, max(2e5, 2 * pv), 2.5e6)
    rho = common.uniform(rng, 850, 1100)
    limit = FL ** 2 * (p1 - (0.96 - 0.28 * math.sqrt(pv / PC)) * pv)
    p2 = float(f"{p1 - rng.uniform(0.02, spread) * limit:.6g}")
    m = Kv * rho / 3600 * math.sqrt(min(p1 - p2, limit) / 1e5 * RHO0 / rho)
    Di = float(f"{d * rng.uniform(1, 1.5):.6g}")
    return dict(
        m=m, P1=p1, P2=p2, Psat=pv, rho=rho, c=common.uniform(rng, 1200, 1700), Kv=Kv, d=d, Di=Di, FL=FL,
        Fd=common.uniform(rng, 0.1, 0.9), t_pipe=common.uniform(rng, 0.002, 0.01),
        rho_pipe=common.uniform(rng, 7700, 8900), c_pipe=common.uniform(rng, 3700, 5100),
        rho_air=common.uniform(rng, 1.1, 1.3), c_air=common.uniform(rng, 330, 350))


def least_pressure_ratio(xFz, p1):
    """xFz at the inlet pressure of the case; a noise model needs it below 1."""
    return xFz * (6e5 / p1) ** 0.125


def estimated_xFz(v):
    return 0.9 / math.sqrt(1 + 3 * v["Fd"] * math.sqrt(v["Kv"] / 0.865 / (1.17 * v["FL"])))


def given(rng, count):
    """xFz and the acoustic efficiency exponent as inputs."""
    done = 0
    while done < count:
        v = inputs(rng, (0.3, 0.98, 1.2)[done % 3])
        xFz, An = common.uniform(rng, 0.15, 0.7), common.uniform(rng, -4.8, -4.0)
        xF = (v["P1"] - v["P2"]) / (v["P1"] - v["Psat"])
        if xF > 0.97 or least_pressure_ratio(xFz, v["P1"]) > 0.95:
            continue
        done += 1
        yield (*v.values(), xFz, An, int(xF > least_pressure_ratio(xFz, v["P1"])),
               library.control_valve_noise_l_2015(**v, xFz=xFz, An=An))


def estimated(rng, count):
    """xFz by the standard's estimate for valves without multihole trim."""
    done = 0
    while done < count:
        v = inputs(rng, (0.3, 0.98, 1.2)[done % 3])
        xF = (v["P1"] - v["P2"]) / (v["P1"] - v["Psat"])
        xFz = least_pressure_ratio(estimated_xFz(v), v["P1"])
        if xF > 0.97 or xFz > 0.95:
            continue
        done += 1
        yield *v.values(), int(xF > xFz), library.control_valve_noise_l_2015(**v)


INPUTS = {
    "m_kg_s": "kg/s", "p1_Pa": "Pa", "p2_Pa": "Pa", "pv_Pa": "Pa", "rho_kg_m3": "kg/m³", "c_m_s": "m/s",
    "Kv": "m³/h at 1 bar", "d_m": "m", "Di_m": "m", "FL": "1", "Fd": "1", "t_pipe_m": "m",
    "rho_pipe_kg_m3": "kg/m³", "c_pipe_m_s": "m/s", "rho_air_kg_m3": "kg/m³", "c_air_m_s": "m/s"}
SOURCE = "IEC 60534-8-4:2015, by fluids.control_valve.control_valve_noise_l_2015"
NOTES = (
    "Lp is the A-weighted sound pressure level 1 m downstream of the valve and 1 m from the pipe wall, summed over the third-octave bands from 12.5 Hz to 20 kHz",
    "m is the flow that Kv passes by IEC 60534-2-1 (ρ0 999.10 kg/m³, pc 22.064 MPa, choked or not)",
    "levels may be near or below 0 dB: compare differences in dB, not ratios",
    "cavitating: xF = (p1 − p2)/(p1 − pv) above xFz·(6 bar/p1)^0.125",
    "the library brings Kv to Cv by its own 1.1560992283536566 and rounds N14 to 0.0046, N34 to 1.17 as the standard does for Cv")

common.main(
    common.Table(
        "noise", "hydrodynamic noise of a valve, xFz given: sound pressure level", SOURCE, common.debian("fluids"),
        {**INPUTS, "xFz": "1", "An": "1", "cavitating": "1", "Lp_dBA": "dB"}, given, 450, NOTES),
    common.Table(
        "noise_estimated_xfz", "hydrodynamic noise of a valve, xFz estimated: sound pressure level", SOURCE,
        common.debian("fluids"), {**INPUTS, "cavitating": "1", "Lp_dBA": "dB"}, estimated, 200,
        NOTES + ("An is −4.6", "xFz = 0.9/√(1 + 3·Fd·√(Cv/(1.17·FL)))")),
)
