"""Designs and workshops for the tests of orders."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from functools import cache
from pathlib import Path

from snipfold.measure import Length, System
from snipfold.project import Design, read_project, resolve
from snipfold.workshop import Pace, Paper, Terms, Trimmer, Workshop, default_workshop

EXAMPLES = Path(__file__).parent.parent.parent / "examples"

OAT, CHECK = "oat cardstock 12 x 12 in", "small check 12 x 12 in"


@cache
def shop() -> Workshop:
    """The assumed workshop in inches, with prices, times and terms."""
    base = default_workshop(System.INCH)
    prices = {OAT: (Decimal("5.50"), 25), CHECK: (Decimal("8.00"), 12)}
    papers = tuple(
        replace(paper, price=prices[paper.name][0], pack=prices[paper.name][1])
        if paper.name in prices
        else paper
        for paper in base.papers
    )
    adhesives = tuple(
        replace(one, roll=Length.inch(36 * 27), price=Decimal("6.00")) for one in base.adhesives
    )
    times = [Fraction(n, 60) for n in (30, 10, 12, 8, 15, 20, 25, 90, 60)]
    return replace(
        base,
        papers=papers,
        adhesives=adhesives,
        pace=Pace(*times),
        terms=Terms(Decimal("18.00"), Fraction(3, 10)),
    )


def with_paper(workshop: Workshop, name: str, **changes: object) -> Workshop:
    papers = tuple(
        replace(paper, **changes) if paper.name == name else paper  # type: ignore[arg-type]
        for paper in workshop.papers
    )
    return replace(workshop, papers=papers)


def with_trimmer(workshop: Workshop, **changes: object) -> Workshop:
    trimmer: Trimmer = replace(workshop.trimmer, **changes)  # type: ignore[arg-type]
    return replace(workshop, trimmer=trimmer)


def paper(workshop: Workshop, name: str) -> Paper:
    return workshop.paper(name)


@cache
def example(name: str, extra: str = "", top: str = "") -> Design:
    """An example project, with lines added at its top and its end, in the workshop above."""
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    return resolve(read_project(f"{top}\n{text}\n{extra}", f"{name}.toml"), shop())


def bag(extra: str = "", top: str = "") -> Design:
    """Four oat biscuits in a bag: a blank of 10 x 5 1/2 in, a strap, four mats."""
    return example("fair-bag", extra, top)


def tray() -> Design:
    """A tray with its lid, and their mats."""
    return example("fudge-tray")
