"""What a finding offers as its mend can be written into the file, read back, and mends it."""

from __future__ import annotations

import pytest

from snipfold.findings import Finding
from snipfold.measure import System
from snipfold.project import edit_field, new_project_text, read_project, resolve
from snipfold.styles import style_named
from snipfold.workshop import default_workshop

#: A style, the units, what is changed in a new file, and what is then found.
WRONG = [
    ("wrap bag", System.INCH, {"measures.flap": "1 3/4 in"}, "flap.too-deep"),
    ("wrap bag", System.METRIC, {"measures.flap": "45 mm"}, "flap.too-deep"),
    ("wrap bag", System.INCH, {"measures.tab": "1/8 in"}, "tape.wider-than-tab"),
    ("wrap bag", System.METRIC, {"measures.tab": "4 mm"}, "tape.wider-than-tab"),
    ("wrap bag", System.INCH, {"strap.length": "5 in"}, "strap.too-short"),
    ("wrap bag", System.INCH, {"strap.width": "2 in"}, "strap.wider-than-panel"),
    ("wrap bag", System.METRIC, {"strap.width": "4.5 cm"}, "strap.wider-than-panel"),
    ("wrap bag", System.INCH, {"strap.foot": "9 in"}, "strap.foot-too-long"),
    ("wrap bag", System.INCH, {"mats.border": "3/4 in"}, "mat.no-room"),
    ("wrap bag", System.METRIC, {"mats.border": "19 mm"}, "mat.no-room"),
    ("wrap bag", System.INCH, {"mats.borders.left side": "3/4 in"}, "mat.no-room"),
    ("tray with lift-off lid", System.INCH, {"measures.clearance": "0 in"}, "lid.no-air"),
    ("tray with lift-off lid", System.METRIC, {"measures.clearance": "1 mm"}, "lid.no-air"),
    ("tray with lift-off lid", System.METRIC, {"measures.lid_tab": "5 mm"}, "tape.wider-than-tab"),
    ("tray with lift-off lid", System.INCH, {"measures.tab": "1/8 in"}, "tape.wider-than-tab"),
    ("tray with lift-off lid", System.INCH, {"strap.on": "true"}, "strap.no-place"),
    ("tray with lift-off lid", System.METRIC, {"mats.border": "20 mm"}, "mat.no-room"),
]
TREAT = '\n[[contents]]\nname = "loaf"\nwidth = "9 cm"\ndepth = "5 cm"\nheight = "13 cm"\n'


def text_of(style: str, system: System, changes: dict[str, str], more: str = "") -> str:
    text = new_project_text(style_named(style), system) + more
    for field, value in changes.items():
        text = edit_field(text, field, value)
    return text


def findings(text: str) -> tuple[Finding, ...]:
    project = read_project(text, "file")
    return resolve(project, default_workshop(project.system)).findings


CASES = [
    *((style, system, changes, "", code) for style, system, changes, code in WRONG),
    *(
        (style, system, {}, TREAT, "treat.too-tall")
        for style in ("wrap bag", "tray with lift-off lid")
        for system in System
    ),
]


@pytest.mark.parametrize(("style", "system", "changes", "more", "code"), CASES)
def test_every_mend_can_be_made_and_then_its_finding_is_gone(
    style: str, system: System, changes: dict[str, str], more: str, code: str
) -> None:
    text = text_of(style, system, changes, more)
    mends = [(finding, finding.mend) for finding in findings(text) if finding.mend is not None]
    assert code in {finding.code for finding, _ in mends}
    for finding, mend in mends:
        after = findings(edit_field(text, mend.field, mend.to))
        assert (finding.code, finding.where) not in {(one.code, one.where) for one in after}
