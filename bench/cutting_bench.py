"""How long one make takes to plan, and how often its plan is proven.

    python bench/cutting_bench.py [--cases 100] [--seed 1]

Each row plans seeded cases in a running process, nothing remembered from one to the next, and
prints median and 95th percentile of the milliseconds, the share of plans that are proven, and the
mean of trimmer settings and cuts. Every plan is replayed by the independent checker.
"""

from __future__ import annotations

import argparse
import random
import statistics
import time
from collections.abc import Callable, Iterator

from snipfold.cutting import CutPlan, Part, SheetSize, plan_make, replay
from snipfold.measure import Length, Ruler
from snipfold.workshop import Trimmer

MARK = Length.inch("1/16")
TRIMMER = Trimmer(Ruler(MARK), Length.inch(12))
TWELVE = SheetSize("12 x 12 in", Length.inch(12), Length.inch(12))

#: name, width and height in sixteenths, copies
Sizes = list[tuple[str, int, int, int]]


def bag_and_strap(chance: random.Random) -> Sizes:
    """A wrap bag's blank and its strap."""
    width, depth, height = chance.randint(32, 64), chance.randint(12, 24), chance.randint(32, 80)
    return [
        ("bag", min(192, 2 * (width + depth) + 8), height + depth, 1),
        ("strap", chance.randint(10, 20), chance.randint(120, 192), 1),
    ]


def two_trays(chance: random.Random) -> Sizes:
    """A base and a lid."""
    width, depth, height = chance.randint(24, 80), chance.randint(24, 80), chance.randint(8, 28)
    lid = chance.randint(8, 16)
    return [
        ("base", width + 2 * height, depth + 2 * height, 1),
        ("lid", width + 2 + 2 * lid, depth + 2 + 2 * lid, 1),
    ]


def bag_mats(chance: random.Random) -> Sizes:
    """Two mats of one size and two of another, of equal height."""
    height = chance.randint(24, 90)
    return [
        ("wide mat", chance.randint(24, 80), height, 2),
        ("side mat", chance.randint(10, 28), height, 2),
    ]


def tray_mats(chance: random.Random) -> Sizes:
    """Mats for all that shows of a tray with its lid: five sizes, nine pieces."""
    width, depth, height = chance.randint(40, 80), chance.randint(30, 64), chance.randint(12, 28)
    lid = chance.randint(8, 16)
    return [
        ("lid top mat", width, depth, 1),
        ("lid long mat", width, lid, 2),
        ("lid short mat", depth, lid, 2),
        ("base long mat", width - 2, height, 2),
        ("base short mat", depth - 2, height, 2),
    ]


def four_sizes(chance: random.Random) -> Sizes:
    """Four sizes, one piece of each."""
    return [(f"part {i}", chance.randint(16, 90), chance.randint(16, 120), 1) for i in range(4)]


def ten_sizes(chance: random.Random) -> Sizes:
    """Ten different rectangles that take a few sheets."""
    return [(f"part {i}", chance.randint(40, 120), chance.randint(40, 120), 1) for i in range(10)]


def small_tray_mats(chance: random.Random) -> Sizes:
    """Mats of a favour-sized tray: many sets a sheet, the hardest to prove."""
    width, depth, height = chance.randint(16, 36), chance.randint(16, 36), chance.randint(8, 20)
    return [
        ("lid top mat", width, depth, 1),
        ("lid long mat", width, 8, 2),
        ("lid short mat", depth, 8, 2),
        ("base long mat", width - 2, height, 2),
        ("base short mat", depth - 2, height, 2),
    ]


ROWS: tuple[tuple[str, Callable[[random.Random], Sizes]], ...] = (
    ("bag and strap", bag_and_strap),
    ("base and lid", two_trays),
    ("bag mats", bag_mats),
    ("tray mats", tray_mats),
    ("small tray mats", small_tray_mats),
    ("four sizes", four_sizes),
    ("ten sizes, few sheets", ten_sizes),
)


def cases(
    sizes: Callable[[random.Random], Sizes], number: int, seed: int
) -> Iterator[tuple[bool, list[Part]]]:
    """Parts of so many cases, every other one on paper with a direction."""
    for case in range(number):
        turn = case % 2 == 0
        chance = random.Random(f"{seed} {sizes.__name__} {case}")
        yield (
            turn,
            [
                Part(name, MARK * width, MARK * height, copies, turn)
                for name, width, height, copies in sizes(chance)
            ],
        )


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--cases", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    print(f"one make on a 12 x 12 in sheet, marks of 1/16 in; {given.cases} cases a row")
    print(f"{'':24}{'median':>10}{'p95':>10}{'proven':>9}{'sets':>7}{'settings':>10}{'cuts':>7}")
    for name, sizes in ROWS:
        taken: list[float] = []
        plans: list[CutPlan] = []
        settings: list[int] = []
        cuts: list[int] = []
        for _, parts in cases(sizes, given.cases, given.seed):
            start = time.perf_counter()
            plan = plan_make(parts, TWELVE, TRIMMER)
            taken.append(1000 * (time.perf_counter() - start))
            check = replay(plan, TRIMMER)
            if check.faults:
                raise SystemExit(f"{name}: {check.faults[0]}")
            plans.append(plan)
            settings.append(len(check.settings))
            cuts.append(check.cuts)
        taken.sort()
        proven = sum(plan.proven for plan in plans) / len(plans)
        sets = statistics.mean(plan.sets_per_sheet for plan in plans)
        print(
            f"{name:24}{statistics.median(taken):7.1f} ms{taken[int(0.95 * len(taken))]:7.1f} ms"
            f"{proven:9.0%}{sets:7.1f}{statistics.mean(settings):10.1f}{statistics.mean(cuts):7.1f}"
        )


if __name__ == "__main__":
    main()
