"""A file for a scored blank to start from."""

from __future__ import annotations

from ..measure import System
from ..styles.scored_blank import ScoredBlank
from ..workshop import Workshop, default_workshop
from .read import BORDER
from .write import exact_words, quoted

#: The starter's width, height, its two lines each way, and the sliver off its tabs.
_SIZES = {
    System.INCH: ("5 1/2 in", "4 in", ("1 in", "4 1/2 in"), ("1 in", "3 in"), "1/16 in"),
    System.METRIC: ("14 cm", "10 cm", ("2.5 cm", "11.5 cm"), ("2.5 cm", "7.5 cm"), "2 mm"),
}
_TREAT = {System.INCH: ("3 in", "1 1/2 in", "3/4 in"), System.METRIC: ("8 cm", "4 cm", "2 cm")}
_UNIT = {System.INCH: "inches", System.METRIC: "millimetres"}


def new_blank_text(system: System, name: str = "", workshop: Workshop | None = None) -> str:
    """A project file of a scored blank, with remarks: a small tray, to be made into something else.

    It names papers of `workshop` (the assumed one where none is given), and checks clean.
    """
    workshop = workshop or default_workshop(system)
    first = workshop.papers[0].name
    pattern = next((paper.name for paper in workshop.papers if not paper.two_sided), first)
    width, height, across, up, sliver = _SIZES[system]
    border = exact_words(BORDER[system], system)
    wide, deep, tall = _TREAT[system]
    lines = ", ".join(quoted(line) for line in across), ", ".join(quoted(line) for line in up)
    return f"""\
# Scored blank: {ScoredBlank.says}.
# This one is a small tray. Change it line by line into your own, and check it after each change.
# What stands behind a # is a remark. Take the # away to use a line that is one.
# Measures are written like "3 7/8 in", "9.8 cm" or "98 mm"; a number without quotes
# counts in {_UNIT[system]}. docs/scored-blank.md tells the rest.

name = {quoted(name or "Scored blank")}
style = "scored blank"
units = {quoted(system.value)}
# notes = "Whatever the makers should know."

# The blank lies with its outside up. Its lines make cells, named column.row: columns are counted
# from the left and rows from the bottom.
#
#     +-----+---------+-----+
#     | 1.3 |   2.3   | 3.3 |
#     +-----+---------+-----+
#     | 1.2 |   2.2   | 3.2 |
#     +-----+---------+-----+
#     | 1.1 |   2.1   | 3.1 |
#     +-----+---------+-----+
[blank]
called = "tray"                 # what it is; its paper goes by that name too
# several = "trays"
# says = "a line about it, for the guide"
width = {quoted(width)}
height = {quoted(height)}
across = [{lines[0]}]    # lines, measured from the left edge
up = [{lines[1]}]        # lines, measured from the bottom edge

# Every line between two cells is scored, a mountain fold of 90 degrees, unless said otherwise here.
# away = ["1.1"]                # cells that are cut away
# joined = [["2.1", "3.1"]]     # cells that are one panel, with no score between them
slit = [["1.1", "1.2"], ["1.2", "1.3"], ["3.1", "3.2"], ["3.2", "3.3"]]
# valley = [["2.1", "2.2"]]     # folds towards you, the outside being up
tucked = ["1.1", "1.3", "3.1", "3.3"]    # panels with one score that lose a sliver beside it
sliver = {quoted(sliver)}
# mitred = ["1.1"]              # panels that lose more: twice the sliver, or the mitre
# mitre = {quoted(sliver)}

stands = "floor"                # the panel that stays still, and how it stands:
stands_as = "floor"             # front (upright), floor (seen from below) or top

# What lies inside what, [inner, outer], and which sides meet. Left out, both follow from the glue.
# inside = [["front left tab", "left wall"]]
# slid = [["2.1", "2.2"]]       # pushed in behind the other, like a tuck flap
# meets = [["left wall top", "front wall left"]]
# strap_on = ["left wall", "right wall"]

[blank.names]
"2.2" = "floor"
"1.2" = "left wall"
"3.2" = "right wall"
"2.1" = "back wall"             # a floor is drawn from below, so what is at the back lies lower
"2.3" = "front wall"
"1.1" = "back left tab"         # a name that ends in tab, flap, floor or top says what it is
"3.1" = "back right tab"
"1.3" = "front left tab"
"3.3" = "front right tab"

# Folds that do not end at 90 degrees: one block like this for each.
# [[blank.fold]]
# between = ["2.1", "2.2"]
# degrees = 180
# fold = "mountain"

# Glue: a strip of your tape on a panel, along its free side unless said otherwise, and what it
# holds on to.
[[blank.glue]]
panel = "front left tab"
on = "left wall"
# face = "outside"
# along = "left"
# ends = {quoted(sliver)}               # how far the strip keeps from both ends of that side

[[blank.glue]]
panel = "back left tab"
on = "left wall"

[[blank.glue]]
panel = "front right tab"
on = "right wall"

[[blank.glue]]
panel = "back right tab"
on = "right wall"

# The order of work follows from the glue. To say it yourself, one block a step:
# [[blank.step]]
# title = "Raise the front and the back"
# does = "raise"                # seam, turn in, press, raise, tuck or close
# fold = [["floor", "front wall"], ["floor", "back wall"]]

# The room inside: what bounds it. Leave it out for something that holds nothing.
[blank.cavity]
width = ["left wall", "right wall"]
depth = ["front wall", "back wall"]
floor = "floor"
rim = "front wall"              # up to here
# covered = true                # something closes it above
# flat = true                   # it lies flat between two panels

[papers]
tray = {quoted(first)}
mats = {quoted(pattern)}

[mats]
on = true                       # false leaves all mats out
border = {quoted(border)}              # on each side
# off = ["front wall"]          # panels that get none

# What goes in: one block like this for each thing, measured as it stands in the box.
# [[contents]]
# name = "bar of fudge"
# width = {quoted(wide)}
# depth = {quoted(deep)}
# height = {quoted(tall)}
"""
