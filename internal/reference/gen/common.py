"""What the generators share: the table's header, its numbers and the command line."""

import argparse
import csv
import importlib.metadata
import io
import math
import pathlib
import random
import signal
import sys
from dataclasses import dataclass
from typing import Callable, Dict, Sequence

DATA = pathlib.Path(__file__).resolve().parent.parent / "data"
RECORDED_SEED = 1


@dataclass
class Table:
    """One CSV file. rows(rng, count) yields tuples in the order of columns.

    columns maps each name to its unit, "1" for a pure number and "text" for a word.
    count is how many random points the recorded file has; 0 marks a fixed list.
    tolerance says why a model may differ by more than 1e-6.
    """

    name: str
    law: str
    source: str
    version: str
    columns: Dict[str, str]
    rows: Callable
    count: int = 0
    notes: Sequence[str] = ()
    tolerance: str = ""

    def write(self, out, seed, count, seconds=math.inf):
        generator = "gen/" + pathlib.Path(sys.argv[0]).name
        notes = list(self.notes)
        if self.count:
            notes.append(f"seed {seed}, {count} random points")
        for key, value in [
            ("law", self.law),
            ("source", self.source),
            ("version", self.version),
            ("generator", generator),
            ("units", ", ".join(self.columns.values())),
            *([("tolerance", self.tolerance)] if self.tolerance else []),
            *[("note", note) for note in notes],
        ]:
            out.write(f"# {key}: {value}\n")
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(self.columns)
        done = 0

        def too_long(*_):
            sys.exit(f"{self.name}: only {done} rows, since {count} points take more than {seconds:.0f} s of processor time")

        if seconds < math.inf:  # the clock of the process: it also ends a search that yields no row
            signal.signal(signal.SIGVTALRM, too_long)
            signal.setitimer(signal.ITIMER_VIRTUAL, seconds)
        for row in self.rows(random.Random(seed), count):
            if len(row) != len(self.columns):
                raise ValueError(f"{self.name}: row {row} does not fit {list(self.columns)}")
            writer.writerow([cell(value) for value in row])
            done += 1
        if done < count:
            sys.exit(f"{self.name}: only {done} rows of {count}")


def cell(value):
    """A number in the shortest form that reads back as the same double (at most 17 digits)."""
    if isinstance(value, str):
        return value
    if isinstance(value, (bool, int)):
        return str(int(value))
    number = float(value)
    if not math.isfinite(number):
        raise ValueError(f"not a finite number: {value}")
    return repr(number)


def uniform(rng, low, high):
    """A random input of six significant digits, so that the files stay small and readable."""
    return float(f"{rng.uniform(low, high):.6g}")


def log_uniform(rng, low, high):
    """As uniform, spread evenly over the decades; low > 0."""
    return float(f"{math.exp(rng.uniform(math.log(low), math.log(high))):.6g}")


def debian(package):
    """Name and version of an installed Python package, for the version line."""
    python = ".".join(map(str, sys.version_info[:3]))
    return f"{package} {importlib.metadata.version(package)}, Python {python}"


def standard_library():
    return "Python " + ".".join(map(str, sys.version_info[:3])) + ", standard library only"


def main(*tables):
    """--record writes every table of the script to data/; without it one table goes to stdout."""
    named = {table.name: table for table in tables}
    parser = argparse.ArgumentParser()
    parser.add_argument("--seed", type=int, default=RECORDED_SEED, help="seed of the random points")
    parser.add_argument("--count", type=int, help="how many random points")
    parser.add_argument("--seconds", type=float, default=math.inf, help="fail if a table takes more processor time")
    parser.add_argument("--table", choices=named, default=tables[0].name, help="which table to print")
    parser.add_argument("--list", action="store_true", help="print the names of the tables that take --count, in one line")
    parser.add_argument("--record", action="store_true", help="write all tables to data/, with the recorded seed and counts")
    args = parser.parse_args()
    if args.count is not None and args.count < 1:
        parser.error("argument --count: want at least 1")
    if args.list:
        print(*(table.name for table in tables if table.count))
    elif args.record:
        for table in tables:
            whole = io.StringIO(newline="")  # written at once, so that no test meets half a file
            table.write(whole, RECORDED_SEED, table.count)
            (DATA / f"{table.name}.csv").write_text(whole.getvalue(), encoding="utf-8", newline="")
    else:
        table = named[args.table]
        table.write(sys.stdout, args.seed, table.count if args.count is None else args.count, args.seconds)
