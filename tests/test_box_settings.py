"""Settings of boxes: baselines first, while the boards are square; then grooves and rabbets.

The drawer of test_drawer, in mm: tails 14 long in front and back, sides 12 thick, grooves 6 to 12.
"""

from __future__ import annotations

from fractions import Fraction

from layout.kit import usual_kit
from layout.settings import Setting, settings
from tests.builds.test_chest import base, chest, lid
from tests.builds.test_drawer import bottom, boxes, drawer, made
from tests.joints.test_spacing import dovetails

F = Fraction


def short(one: Setting) -> tuple[str, str, Fraction, Fraction | None, set[str]]:
    return (one.tool, one.source, one.distance, one.second, {s.role for s in one.strikes})


def test_the_settings_of_a_drawer_in_their_order() -> None:
    p, _ = made()
    made_ = settings(p.marks)
    assert [short(one) for one in made_] == [
        # the lap's stand, 14 from the inside, is that of the tails' baselines
        ("marking gauge", "face side and end", 14, None, {"tail baseline", "lap"}),
        ("marking gauge", "end", 12, None, {"pin baseline"}),
        ("mortise gauge", "face edge", 6, 12, {"near groove wall", "far groove wall"}),
    ]
    assert [one.number for one in made_] == [1, 2, 3]
    # both ends of both sides, on face and back; the front's lower half pins come out at the edge,
    # the back's stand 12 above it, and both go on to the upper edge
    tails = {(s.part, s.face, s.source): s.lines for s in made_[0].strikes
             if s.part == "drawer-left-side"}
    assert tails == {
        ("drawer-left-side", face, end): 1
        for face, end in (("face", "end A"), ("back", "end A"), ("edge", "end A"),
                          ("far edge", "end A"), ("face", "end B"), ("back", "end B"),
                          ("far edge", "end B"))
    }


def test_every_gauge_line_is_struck_once() -> None:
    p, _ = made(style="lipped", bottom=bottom(thickness=F(8), tongue=F(5)))
    made_ = settings(p.marks)
    gauged = [m for m in p.marks if m.tool.endswith("gauge")]
    assert sum(s.lines for one in made_ for s in one.strikes) == len(gauged)
    stands = [(one.tool, one.distance, one.second) for one in made_]
    assert len(stands) == len(set(stands))


def test_a_marking_gauge_strikes_the_walls_of_the_groove_one_by_one() -> None:
    p = boxes(drawers=(drawer(),), kit=usual_kit("mm", "marking gauge"))
    assert [short(one) for one in settings(p.marks)] == [
        ("marking gauge", "face side and end", 14, None, {"tail baseline", "lap"}),
        # the pins' baseline and the groove's far wall are both at 12
        ("marking gauge", "face edge and end", 12, None, {"pin baseline", "far groove wall"}),
        ("marking gauge", "face edge", 6, None, {"near groove wall"}),
    ]


def test_baselines_come_before_rabbets() -> None:
    p = boxes(chests=(chest(bottom=base("rabbet"), lid=lid("rabbeted"),
                            joint=dovetails(lap=F(4))),))
    assert [(one.distance, {s.role for s in one.strikes}) for one in settings(p.marks)] == [
        # tails 14 - 4 long, the lap's stand, and the rabbets of the walls as wide as the bottom
        (10, {"tail baseline", "lap", "rabbet width"}),
        (4, {"baseline at the rabbet"}),  # 10 - 6
        (12, {"pin baseline"}),
        (6, {"rabbet depth"}),  # the walls', and 15 - 6 = 9 the lid's
        (9, {"rabbet depth"}),
        # the lid's: 12 + 8 + 1; 311 - (12 + 3 + 1); 14 + 5 + 1 from both ends
        (21, {"rabbet width"}),
        (295, {"rabbet width"}),
        (20, {"rabbet width"}),
    ]
