"""Measures speed: `make bench`, or `python bench/run.py [--designs 200] [--seed 1]`.

Every design is drawn anew from the seed and worked out in this process with caches cold; whole
processes are timed from outside, with the bare interpreter beside them. No figure is a test: they
are for people to read, and depend on the machine.
"""

from __future__ import annotations

import argparse
import gc
import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from snipfold.dressing import MatWish, StrapWish
from snipfold.measure import Length, System
from snipfold.project import Design, Project, resolve
from snipfold.styles import STYLES, Given, Style
from snipfold.workshop import default_workshop

MARK = {System.INCH: Length.inch("1/16"), System.METRIC: Length.mm(1)}
EXAMPLES = Path(__file__).parent.parent / "examples"


def drawn(style: Style, chance: random.Random) -> Project:
    """A project with measures on marks, of sizes that a craft sheet gives."""
    system = chance.choice(tuple(System))
    mark = MARK[system]
    given = Given(system, default_workshop(system).adhesive(default_workshop(system).tape).width)
    measures: dict[str, Length] = {}
    for measure in style.measures[:3]:
        least = measure.least(measures, given).over(mark).__ceil__()
        most = min(measure.most(measures, given).over(mark).__floor__(), 80)
        measures[measure.name] = mark * chance.randint(least, max(least, most))
    border = mark if system is System.INCH else mark * 2
    handled = style.build(style.complete({}, given), given).handle is not None
    return Project(
        name="drawn",
        style=style.name,
        system=system,
        measures=measures,
        papers={},
        keep_grain=False,
        mats=MatWish(True, border, {}, frozenset(), frozenset()),
        strap=StrapWish(
            handled, Length.inch("3/4"), Length.inch("5/2"), Length.inch(1), None
        ),
        contents=(),
        notes="",
    )  # fmt: skip


def timed(work: Callable[[], object]) -> float:
    """Seconds that one run of `work` takes."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def row(name: str, seconds: Sequence[float], target: str = "") -> None:
    """Print a line: median, p95 and worst, in ms."""
    ordered = sorted(seconds)
    p95 = ordered[min(len(ordered) - 1, round(0.95 * (len(ordered) - 1)))]
    print(
        f"{name:44} {statistics.median(ordered) * 1e3:9.1f} {p95 * 1e3:9.1f} "
        f"{ordered[-1] * 1e3:9.1f}   {target}"
    )


def designs(count: int, seed: int) -> None:
    """Project to plan and proof, for each style."""
    for style in STYLES:
        chance = random.Random(seed)
        made: list[Design] = []
        seconds = []
        for _ in range(count):
            project = drawn(style, chance)
            workshop = default_workshop(project.system)
            gc.collect()
            start = time.perf_counter()
            made.append(resolve(project, workshop))
            seconds.append(time.perf_counter() - start)
        row(f"{style.name}: project to plan and proof", seconds, "median < 30, p95 < 80")
        whole = sum(bool(plan.proven) for d in made for plan in d.cutting.values())
        plans = sum(len(design.cutting) for design in made)
        print(f"{'':44} plans proven: {whole} of {plans}")


def processes(runs: int) -> None:
    """Whole processes from outside."""
    python = sys.executable
    example = next(iter(sorted(EXAMPLES.glob("*.toml"))))

    def run(*words: str) -> Callable[[], object]:
        return lambda: subprocess.run(words, check=False, stdout=subprocess.DEVNULL)

    with tempfile.TemporaryDirectory() as folder:
        for name, work, target in (
            ("bare interpreter", run(python, "-c", "pass"), ""),
            ("interpreter and libraries of check",
             run(python, "-c", "import click, tomlkit, shapely"), ""),
            ("snipfold check", run(python, "-m", "snipfold", "check", str(example)), "< 500"),
            ("snipfold publish",
             run(python, "-m", "snipfold", "publish", str(example), "--to", f"{folder}/out"),
             "< 3000"),
        ):  # fmt: skip
            work()
            row(name, [timed(work) for _ in range(runs)], target)


def main() -> None:
    """Run the benchmark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--designs", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--runs", type=int, default=7)
    asked = parser.parse_args()
    print(f"{'ms':44} {'median':>9} {'p95':>9} {'worst':>9}   aim")
    designs(asked.designs, asked.seed)
    processes(asked.runs)


if __name__ == "__main__":
    main()
