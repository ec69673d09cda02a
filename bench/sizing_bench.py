"""How long sizes take to find: `python bench/sizing_bench.py [--runs 5]`.

Milliseconds of one fit over all styles on the stated grid (`MOST_BUNCHES` arrangements in every
style, each on the maker's marks, proven), of the yields of one measure, of the most room from a
sheet, and of how forgiving each style is; nothing remembered from one run to the next.
"""

from __future__ import annotations

import argparse
import statistics
import time
from collections.abc import Callable

from snipfold.folding.forgiveness import forgiveness
from snipfold.measure import Length, System
from snipfold.sizing import (
    Ball,
    Block,
    Contents,
    Loose,
    Round,
    Treats,
    Wish,
    fit,
    roomiest,
    yield_steps,
)
from snipfold.styles import STYLES, Given, style_named
from snipfold.workshop import default_workshop

INCH = default_workshop(System.INCH)
PAPER = INCH.papers[0]
CONTENTS: dict[str, Contents] = {
    "one bar": (Treats(Block(Length.inch("5/2"), Length.inch("11/8"), Length.inch("5/2"))),),
    "four bars": (Treats(Block(Length.inch("5/2"), Length.inch("11/8"), Length.inch("1/2")), 4),),
    "six biscuits": (Treats(Round(Length.inch(2), Length.inch("1/2")), 6),),
    "a dozen truffles": (Treats(Ball(Length.inch(1)), 12),),
    "250 ml of nuts": Loose(Length.cm(1).as_mm ** 3 * 250),
}


def row(name: str, runs: int, work: Callable[[], object], aim: str = "") -> None:
    """Time some work and print the median and the worst."""
    taken = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        taken.append(1000 * (time.perf_counter() - start))
    print(f"{name:52} {statistics.median(taken):9.1f} {max(taken):9.1f}   {aim}")


def main() -> None:
    """Run the benchmark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=5)
    runs = parser.parse_args().runs
    print(f"{'ms':52} {'median':>9} {'worst':>9}   aim")
    for name, contents in CONTENTS.items():
        wish = Wish(contents, Length.inch("1/8"))
        row(
            f"fit, {len(STYLES)} styles, {name}", runs,
            lambda wish=wish: fit(wish, PAPER, INCH, System.INCH), "< 2000",  # type: ignore[misc]
        )  # fmt: skip
    bag = style_named("wrap bag")
    row("yields of a wrap bag's height", runs,
        lambda: yield_steps(bag, "height", PAPER, INCH, System.INCH))  # fmt: skip
    for name in ("wrap bag", "tray with lift-off lid"):
        style = style_named(name)
        row(f"most room, {name}", 1, lambda style=style: roomiest(style, PAPER, INCH, System.INCH))  # type: ignore[misc]
    given = Given(System.INCH, INCH.adhesive(INCH.tape).width)
    for style in STYLES:
        made = style.build(style.complete({}, given), given)
        thickness = {piece.name: PAPER.thickness for piece in made.pieces}
        row(f"how forgiving, {style.name}", runs,
            lambda made=made, thickness=thickness: forgiveness(made, INCH.slips, thickness))  # type: ignore[misc]  # fmt: skip


if __name__ == "__main__":
    main()
