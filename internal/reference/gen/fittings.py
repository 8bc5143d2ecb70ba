"""Loss coefficients (K values) of pipe fittings, by python3-fluids."""

import math

import fluids
from fluids import fittings as library

import common

LIBRARY = common.debian("fluids")
RENNELS = "Rennels & Hudson, Pipe Flow, 2012"


def ends(rng, count):
    for fitting, method, K in [
            ("entrance-sharp", "Rennels", library.entrance_sharp(method="Rennels")),
            ("exit", "any", library.exit_normal())]:
        yield fitting, method, K


def bends(rng, count):
    for i in range(count):
        Di = common.log_uniform(rng, 0.01, 0.3)
        ratio = common.uniform(rng, 1, 5)
        angle = 90.0 if i % 3 == 0 else common.uniform(rng, 15, 180)
        fd = common.uniform(rng, 0.01, 0.04)
        yield Di, math.radians(angle), ratio, fd, library.bend_rounded(
            Di=Di, angle=angle, fd=fd, bend_diameters=ratio, method="Rennels")


def changes(rng, count):
    for i in range(count):
        small = common.log_uniform(rng, 0.01, 0.3)
        large = float(f"{small * rng.uniform(1.05, 4):.6g}")
        if i % 2 == 0:
            yield "contraction", large, small, library.contraction_sharp(Di1=large, Di2=small)
        else:
            yield "expansion", small, large, library.diffuser_sharp(Di1=small, Di2=large)


def cones(rng, count):
    for i in range(count):
        small = common.log_uniform(rng, 0.01, 0.3)
        large = float(f"{small * rng.uniform(1.05, 3):.6g}")
        angle = common.uniform(rng, 10, 170)
        if i % 2 == 0:
            yield "contraction", large, small, math.radians(angle), library.contraction_conical(
                Di1=large, Di2=small, fd=0.02, angle=angle, method="Rennels")
        else:
            yield "expansion", small, large, math.radians(angle), library.diffuser_conical(
                Di1=small, Di2=large, fd=0.02, angle=angle, method="Rennels")


def coefficients(rng, count):
    """By the library, and from the definitions: q = A·√(2·Δp/(K·ρ)) is Kv m³/h of ρ0 = 999.10 kg/m³ at 1 bar."""
    for _ in range(count):
        K, D = common.log_uniform(rng, 0.01, 1000), common.log_uniform(rng, 0.01, 0.3)
        yield K, D, 3600 * math.pi / 4 * D ** 2 * math.sqrt(2 * 1e5 / (K * 999.10)), library.K_to_Kv(K, D)


def bases(rng, count):
    for _ in range(count):
        K, D1, D2 = common.uniform(rng, 0.01, 50), common.uniform(rng, 0.01, 0.3), common.uniform(rng, 0.01, 0.3)
        yield K, D1, D2, library.change_K_basis(K, D1, D2)


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


def three_k(rng, count):
    for word, name in FITTINGS.items():
        for nominal in (0.5, 1, 3, 8):
            for Re in (500.0, 1e4, 1e6):
                yield word, nominal, Re, library.Darby3K(NPS=nominal, Re=Re, name=name)
    for _ in range(count):
        word = rng.choice(list(FITTINGS))
        nominal, Re = common.log_uniform(rng, 0.25, 24), common.log_uniform(rng, 50, 1e7)
        yield word, nominal, Re, library.Darby3K(NPS=nominal, Re=Re, name=FITTINGS[word])


ROUND = {"fitting": "text", "D1_m": "m", "D2_m": "m"}
BASIS_SMALL = "K is on the velocity in the smaller bore, flow from D1 to D2"

common.main(
    common.Table(
        "fittings_bends", "loss coefficient of a smooth round bend", RENNELS + ", by fluids.fittings.bend_rounded", LIBRARY,
        {"D_m": "m", "angle_rad": "rad", "radius_ratio": "1", "f": "1", "K": "1"}, bends, 120,
        ("radius_ratio is the bend's centre-line radius over the bore, f the Darcy friction factor of the pipe",
         "K includes the friction along the bend")),
    common.Table(
        "fittings_changes", "loss coefficient of a sudden contraction or expansion",
        RENNELS + " (the expansion is Borda–Carnot), by fluids.fittings", LIBRARY, {**ROUND, "K": "1"}, changes, 120, (BASIS_SMALL,)),
    common.Table(
        "fittings_cones", "loss coefficient of a gradual contraction or expansion", RENNELS + ", by fluids.fittings", LIBRARY,
        {**ROUND, "angle_rad": "rad", "K": "1"}, cones, 120,
        ("angle is the whole included angle; K includes the friction of the cone at f = 0.02", BASIS_SMALL)),
    common.Table(
        "fittings_kv", "loss coefficient → Kv", "definitions of K and Kv (IEC 60534-1), ρ0 = 999.10 kg/m³; last column Kv = 4e4·D²/√K, by fluids.fittings.K_to_Kv", LIBRARY,
        {"K": "1", "D_m": "m", "Kv": "m³/h at 1 bar", "Kv_fluids": "m³/h at 1 bar"}, coefficients, 50,
        tolerance="the library's constant 1.6e9 m⁻⁴ is rounded: with 999.10 kg/m³ it is 1.60033e9"),
    common.Table(
        "fittings_ends", "loss coefficient of pipe ends", RENNELS + ", by fluids.fittings", LIBRARY,
        {"fitting": "text", "method": "text", "K": "1"}, ends, 0,
        tolerance="the sharp entrance is recorded to two digits, 0.57"),
    common.Table(
        "fittings_basis", "loss coefficient by the velocity in another bore",
        RENNELS + ", by fluids.fittings.change_K_basis", LIBRARY, {"K1": "1", "D1_m": "m", "D2_m": "m", "K2": "1"}, bases, 30),
    common.Table(
        "fittings_3k", "loss coefficient of a fitting by the three-constant method",
        "Silverberg and Darby 1999, 2001, by fluids.fittings.Darby3K", LIBRARY,
        {"fitting": "text", "nominal_in": "1", "Re": "1", "K": "1"}, three_k, 64,
        ("every fitting in four sizes at three Reynolds numbers, then random points",)),
)
