"""Pipe sizes and wall roughness, as tabulated in python3-fluids."""

from fluids import friction, piping

import common

LIBRARY = common.debian("fluids")


def sizes(rng, count):
    for schedule in ("40", "80"):
        for nominal in (0.125, 0.25, 0.375, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 12):
            _, inside, outside, wall = piping.nearest_pipe(NPS=nominal, schedule=schedule)
            yield schedule, nominal, inside, outside, wall


def roughness(rng, count):
    moody = {"drawn-tube": "Glass", "galvanised-iron": "Galvanized iron", "asphalted-cast-iron": "Asphalted cast iron",
             "cast-iron": "Cast iron"}
    for word, name in moody.items():
        yield word, friction._roughness[name]
    steel = friction.seamless_steel
    yield "treated-steel", steel["Heating systems piping; either superheated steam pipes, or just water pipes of systems with "
                                 "deaerators and chemical treatment"][2]
    yield "untreated-steel", steel["Water heating system pipelines, any source"][2]
    yield "corroded-steel", steel["Corroded, moderately "][2]


common.main(
    common.Table(
        "pipe_sizes", "dimensions of steel pipe", "ASME B36.10M, by fluids.piping.nearest_pipe", LIBRARY,
        {"schedule": "text", "nominal_in": "1", "inside_m": "m", "outside_m": "m", "wall_m": "m"}, sizes),
    common.Table(
        "pipe_roughness", "equivalent sand roughness of a pipe wall",
        "Moody 1944 and Idelchik 2007, as tabulated in fluids.friction", LIBRARY,
        {"material": "text", "roughness_m": "m"}, roughness, 0,
        ("the library's value for steel from Moody's chart is that of drawn tube, which the chart contradicts: left out",),
        tolerance="the library brings Moody's feet to metres and rounds to three digits"),
)
