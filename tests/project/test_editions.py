"""An edition is worked out anew in its own system; it is not a conversion."""

from dataclasses import replace

from snipfold.dressing import MatWish, StrapWish
from snipfold.measure import Length, System
from snipfold.project import Project, for_edition, resolve
from snipfold.workshop import default_workshop

INCH = Length.inch
METRIC = default_workshop(System.METRIC)
IN_INCHES = default_workshop(System.INCH)
SHEET = IN_INCHES.papers[0]


def bag(**measures: Length) -> Project:
    return Project(
        name="sampler",
        style="wrap bag",
        system=System.INCH,
        measures=measures,
        papers={"bag": SHEET.name},
        keep_grain=False,
        mats=MatWish(True, INCH("1/16"), {}, frozenset(), frozenset()),
        strap=StrapWish(True, INCH("3/4"), INCH("5/2"), INCH(1), None),
        contents=(),
        notes="",
    )


def test_every_measure_that_is_set_lies_on_a_millimetre() -> None:
    project, workshop, _ = for_edition(
        bag(width=INCH("15/4"), depth=INCH("11/8")), IN_INCHES, System.METRIC, METRIC
    )
    design = resolve(project, workshop)
    assert design.system is System.METRIC
    assert all(METRIC.ruler.has(length) for length in design.measures.values())
    # 3 3/4 in is 95.25 mm, 1 3/8 in is 34.925 mm: rounded once, to the nearest mark.
    assert design.measures["width"] == Length.mm(95)
    assert design.measures["depth"] == Length.mm(35)
    # The sums are the edition's own: tab 12, sides 35, front and back 95.
    (piece,) = design.construction.pieces
    assert piece.width == Length.mm(12 + 35 * 2 + 95 * 2)
    assert design.papers["bag"].name == SHEET.cousin


def test_the_free_measure_gives_when_the_sum_no_longer_fits_the_metric_sheet() -> None:
    """Two bags stacked use the 12 in sheet to its edge: 2 x (4 1/2 + 1 1/2) = 12 in.

    4 1/2 in is 114.3 mm, 1 1/2 in 38.1 mm. From 300 mm only 2 x 150 come: with flaps of 38 mm,
    112 mm are left for the height, so it gives 2 mm of its 114.
    """
    thirty = next(
        p for p in METRIC.papers if p.width == p.height == Length.mm(300)
    )  # fmt: skip
    here = replace(IN_INCHES, papers=(replace(SHEET, cousin=thirty.name), *IN_INCHES.papers[1:]))
    project = replace(
        bag(width=INCH("15/4"), depth=INCH("3/2"), height=INCH("9/2")),
        strap=replace(bag().strap, on=False), mats=replace(bag().mats, on=False),
    )  # fmt: skip
    assert resolve(project, here).cutting[SHEET.name].sets_per_sheet == 2
    made, workshop, findings = for_edition(project, here, System.METRIC, METRIC)
    (finding,) = findings
    assert finding.code == "edition.gave"
    assert finding.where == ("height",)
    assert finding.amount == Length.mm(2)
    design = resolve(made, workshop)
    assert design.measures["height"] == Length.mm(112)
    assert design.cutting[thirty.name].sets_per_sheet == 2


def test_an_edition_in_the_projects_own_system_changes_nothing() -> None:
    project = bag()
    assert for_edition(project, IN_INCHES, System.INCH, METRIC) == (project, IN_INCHES, ())
