"""Designs drawn at random within the limits of a style, on a maker's marks."""

from __future__ import annotations

from hypothesis import strategies as st

from snipfold.measure import Length, System
from snipfold.styles import STYLES, Construction, Given, Style

MARK = {System.INCH: Length.inch("1/16"), System.METRIC: Length.mm(1)}
TAPE = {System.INCH: Length.inch("1/4"), System.METRIC: Length.mm(6)}


@st.composite
def measured(
    draw: st.DrawFn, style: Style | None = None
) -> tuple[Style, dict[str, Length], Given, Construction]:
    """A style, measures on marks and within its limits, what it is given, and what it builds."""
    style = style or draw(st.sampled_from(STYLES))
    system = draw(st.sampled_from(System))
    given = Given(system, TAPE[system])
    mark = MARK[system]
    measures: dict[str, Length] = {}
    for measure in style.measures:
        least = measure.least(measures, given).over(mark).__ceil__()
        # Up to a foot is what a craft sheet gives; the limits themselves are tried elsewhere.
        most = min(measure.most(measures, given).over(mark).__floor__(), 192)
        usual = measure.default(measures, given)
        if most < least or draw(st.booleans()):
            measures[measure.name] = usual
        else:
            measures[measure.name] = mark * draw(st.integers(least, most))
    return style, measures, given, style.build(measures, given)
