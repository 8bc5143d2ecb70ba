"""The speed of this library beside that of python3-fluids on the same cases: one line for each, the best of several runs."""

import pathlib
import re
import subprocess
import timeit

import fluids
from fluids.control_valve import size_control_valve_l

MODULE = pathlib.Path(__file__).resolve().parents[2]
REYNOLDS = (1e4, 2.5e4, 4e4, 6e4, 1e5, 2e5, 5e5, 1e6)


def sizing():
    """Worked example 1 of IEC 60534-2-1 with all factors."""
    size_control_valve_l(
        rho=965.4, Psat=70.1e3, Pc=22120e3, mu=3.26e-7 * 965.4, P1=680e3, P2=220e3, Q=0.1,
        D1=0.15, D2=0.15, d=0.15, FL=0.9, Fd=0.46, full_output=True)


def friction():
    for Re in REYNOLDS:
        fluids.friction.Colebrook(Re, 1e-4)


def python_time(work, calls):
    """Seconds for one of the calls that work makes."""
    timer = timeit.Timer(work)
    number, _ = timer.autorange()
    return min(timer.repeat(5, number)) / number / calls


def go_time(package, benchmark):
    out = subprocess.run(
        ["go", "test", "-run", "^$", "-bench", benchmark, "-benchtime", "100ms", "-count", "5", package],
        cwd=MODULE, check=True, capture_output=True, text=True).stdout
    return min(float(ns) for ns in re.findall(r"([\d.]+) ns/op", out)) * 1e-9


for name, package, benchmark, work, calls in [
        ("sizing", "./valve/sizing", "^BenchmarkSize$/^turbulent$", sizing, 1),
        ("friction", "./hydronics/pipe", "^BenchmarkColebrook$", friction, len(REYNOLDS))]:
    go, python = go_time(package, benchmark), python_time(work, calls)
    print(f"{name}: Go {go * 1e9:.0f} ns, Python {python * 1e9:.0f} ns, {python / go:.0f} times")
