"""Records what python3-fluids says about pipe sizes, roughness, fittings and bases.

Run as /usr/bin/python3 testdata/record.py in the package's folder: it writes the CSV files beside it.
The format is that of internal/reference.
"""

import pathlib
import random
import sys

import fluids
from fluids import fittings, friction, piping

HERE = pathlib.Path(__file__).resolve().parent
VERSION = f"fluids {fluids.__version__}, Python {'.'.join(map(str, sys.version_info[:3]))}"


def write(name, law, source, columns, rows, *notes):
    header = {"law": law, "source": source, "version": VERSION, "generator": "testdata/record.py",
              "units": ", ".join(columns.values())}
    lines = [f"# {key}: {value}" for key, value in header.items()] + [f"# note: {note}" for note in notes]
    lines.append(",".join(columns))
    for row in rows:
        lines.append(",".join(cell if isinstance(cell, str) else repr(float(cell)) for cell in row))
    (HERE / f"{name}.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")


def sizes():
    for schedule in ("40", "80"):
        for nominal in (0.125, 0.25, 0.375, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12):
            _, inside, outside, wall = piping.nearest_pipe(NPS=nominal, schedule=schedule)
            yield schedule, nominal, inside, outside, wall


FITTINGS = {
    "threaded-elbow-90": "Elbow, 90°, threaded, standard, (r/D = 1)",
    "threaded-long-elbow-90": "Elbow, 90°, threaded, long radius, (r/D = 1.5)",
    "welded-elbow-90": "Elbow, 90°, flanged, welded, bends, (r/D = 1)",
    "bend-90-radius-2": "Elbow, 90°, (r/D = 2)",
    "bend-90-radius-4": "Elbow, 90°, (r/D = 4)",
    "bend-90-radius-6": "Elbow, 90°, (r/D = 6)",
    "mitred-elbow-90": "Elbow, 90°, mitered, 1 weld, (90°)",
    "threaded-elbow-45": "Elbow, 45°, threaded standard, (r/D = 1)",
    "long-elbow-45": "Elbow, 45°, long radius, (r/D = 1.5)",
    "mitred-elbow-45": "Elbow, 45°, mitered, 1 weld, (45°)",
    "threaded-return-180": "Elbow, 180°, threaded, close-return bend, (r/D = 1)",
    "flanged-return-180": "Elbow, 180°, flanged, (r/D = 1)",
    "long-return-180": "Elbow, 180°, all, (r/D = 1.5)",
    "threaded-tee-branch": "Tee, Through-branch, (as elbow), threaded, (r/D = 1)",
    "flanged-tee-branch": "Tee, Through-branch, (as elbow), flanged, (r/D = 1)",
    "stub-in-tee-branch": "Tee, Through-branch, (as elbow), stub-in branch",
    "threaded-tee-run": "Tee, Run-through, threaded, (r/D = 1)",
    "flanged-tee-run": "Tee, Run-through, flanged, (r/D = 1)",
    "stub-in-tee-run": "Tee, Run-through, stub-in branch",
    "globe-valve": "Valve, Globe valve, standard, β = 1",
    "angle-valve": "Valve, Angle valve, 90°, full line size, β = 1",
    "oblique-valve": "Valve, Angle valve, 45°, full line size, β = 1",
    "gate-valve": "Valve, Gate valve, standard, β = 1",
    "ball-valve": "Valve, Ball valve, standard, β = 1",
    "plug-valve": "Valve, Plug valve, straight through",
    "diaphragm-valve": "Valve, Diaphragm, dam type",
    "swing-check-valve": "Valve, Swing check",
    "lift-check-valve": "Valve, Lift check",
}


def three_k():
    for word, name in FITTINGS.items():
        for nominal in (0.5, 1, 3, 8):
            for Re in (500.0, 1e4, 1e6):
                yield word, nominal, Re, fittings.Darby3K(NPS=nominal, Re=Re, name=name)


def roughness():
    moody = {"drawn-tube": "Glass", "galvanised-iron": "Galvanized iron", "asphalted-cast-iron": "Asphalted cast iron",
             "cast-iron": "Cast iron"}
    for word, name in moody.items():
        yield word, friction._roughness[name]
    steel = friction.seamless_steel
    yield "treated-steel", steel["Heating systems piping; either superheated steam pipes, or just water pipes of systems with "
                                 "deaerators and chemical treatment"][2]
    yield "untreated-steel", steel["Water heating system pipelines, any source"][2]
    yield "corroded-steel", steel["Corroded, moderately "][2]


def bases():
    rng = random.Random(1)
    for _ in range(30):
        K, D1, D2 = (float(f"{rng.uniform(low, high):.6g}") for low, high in ((0.01, 50), (0.01, 0.3), (0.01, 0.3)))
        yield K, D1, D2, fittings.change_K_basis(K, D1, D2)


write("asme_b3610", "dimensions of steel pipe", "ASME B36.10M, by fluids.piping.nearest_pipe",
      {"schedule": "text", "nominal_in": "1", "inside_m": "m", "outside_m": "m", "wall_m": "m"}, sizes())
write("fittings_3k", "loss coefficient of a fitting by the three-constant method",
      "Silverberg and Darby 1999, 2001, by fluids.fittings.Darby3K",
      {"fitting": "text", "nominal_in": "1", "Re": "1", "K": "1"}, three_k())
write("roughness", "equivalent sand roughness of a pipe wall", "Moody 1944 and Idelchik 2007, as tabulated in fluids.friction",
      {"material": "text", "roughness_m": "m"}, roughness(),
      "the library's value for steel from Moody's chart is that of drawn tube, which the chart contradicts: left out")
write("basis", "loss coefficient by the velocity in another bore", "Rennels and Hudson 2012, by fluids.fittings.change_K_basis",
      {"K1": "1", "D1_m": "m", "D2_m": "m", "K2": "1"}, bases())
