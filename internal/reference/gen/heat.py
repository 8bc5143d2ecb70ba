"""Design flows of water: heat over mean heat capacity and difference, by iapws."""

from iapws import IAPWS97

import common


def flows(rng, count):
    for _ in range(count):
        supply = common.uniform(rng, 275, 400)
        back = common.uniform(rng, 275, 400)
        if abs(supply - back) < 2:
            back = supply + 7
        heat = common.log_uniform(rng, 100, 1e6)
        pressure = common.uniform(rng, 3e5, 1.6e6)
        hot, cold = (IAPWS97(T=T, P=pressure / 1e6) for T in (supply, back))
        cp = (hot.cp + cold.cp) / 2 * 1000
        mass = heat / (cp * abs(supply - back))
        yield supply, back, heat, pressure, cp, mass, mass / cold.rho


common.main(common.Table(
    "heat", "design flow of water for a heat between two temperatures",
    "energy balance with the heat capacities and the density of IAPWS R7-97, by iapws.IAPWS97", common.debian("iapws"),
    {"T_supply_K": "K", "T_return_K": "K", "heat_W": "W", "p_Pa": "Pa", "cp_J_kgK": "J/(kg·K)", "m_kg_s": "kg/s", "q_m3_s": "m³/s"},
    flows, 200,
    ("cp is the mean of those at supply and return; the density is that at the return",)))
