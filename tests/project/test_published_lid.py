"""A published lid whose sheet lies between two marks: its size matches, and the finding comes."""

from snipfold.dressing import MatWish, StrapWish
from snipfold.measure import Length, System
from snipfold.project import Project, resolve
from snipfold.workshop import default_workshop

CM = Length.cm


def test_the_lid_of_17_25_cm_is_cut_between_two_marks_and_said_so() -> None:
    """stampinmoments.com 2008/11: base 12 x 12 x 4.5 cm; lid from 17.25 cm scored at 2.5 cm."""
    nothing = Length.mm(0)
    project = Project(
        name="published tray",
        style="tray with lift-off lid",
        system=System.METRIC,
        measures={
            "width": CM(12), "depth": CM(12), "height": CM("4.5"),
            "lid_height": CM("2.5"), "clearance": CM("0.25"),
        },
        papers={},
        keep_grain=False,
        mats=MatWish(False, Length.mm(2), {}, frozenset(), frozenset()),
        strap=StrapWish(False, nothing, nothing, nothing, None),
        contents=(),
        notes="",
    )  # fmt: skip
    design = resolve(project, default_workshop(System.METRIC))
    lid = design.construction.piece("lid")
    assert (lid.width, lid.height) == (CM("17.25"), CM("17.25"))
    off = [one for one in design.findings if one.code == "cut.off-graduation"]
    assert {one.where for one in off} == {("lid", "width"), ("lid", "height")}
    # 17.25 cm lies half a millimetre from the marks at 17.2 and 17.3.
    assert {one.amount for one in off} == {Length.mm("0.5")}
    assert all("17.3 cm" in one.says for one in off)
