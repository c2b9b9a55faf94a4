"""What is cut at the ends of a part, in the trade's words, told from the piece's own records.

`tenon 1 1/4 long, haunched, into the leg`; `4 tails 3/4 long, through`; `square` where nothing is
cut. Sizes are said at the piece's rule.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from layout.checks.words import figure as said
from layout.checks.words import listed
from layout.joints.dovetail import Corner
from layout.joints.rail_end import Joint
from layout.joints.slide import Slide
from layout.mark import Cut
from layout.piece import Piece
from layout.stock.assemblies import base_name

if TYPE_CHECKING:
    from layout.builds.carcase import Carcase
    from layout.builds.chest import Chest

SQUARE = "square"
HAUNCHES = {"square": "haunched", "sloped": "sloped haunch", "groove": "haunch in the groove"}
Ends = dict[tuple[str, str], list[str]]  # by part id and end, what is told of it


class Known(NamedTuple):
    """A piece with what is asked of every part: its cuts and its base name by part id; which joints
    (by name) go right through, which joints are at a part's own ends, by part id, and which parts
    hold glass.
    """

    piece: Piece
    cuts: dict[str, list[Cut]]
    names: dict[str, str]
    joints: tuple[Joint, ...]
    through: frozenset[str]
    own: dict[str, set[str]]
    glazed: frozenset[str]


def known(piece: Piece) -> Known:
    """A piece made ready for asking many parts."""
    cuts: dict[str, list[Cut]] = {part.id: [] for part in piece.parts}
    for cut in piece.cuts:
        cuts[cut.part].append(cut)
    own: dict[str, set[str]] = {part.id: set() for part in piece.parts}
    joints = piece.joints
    for joint in joints:
        own[joint.rail.id].add(joint.name)
    for corner in piece.corners:
        own[corner.tails.id].add(corner.name)
        own[corner.pins.id].add(corner.name)
    for slide in piece.slides:
        own[slide.slider.id].add(slide.name)
    names = {part.id: base_name(piece, part) for part in piece.parts}
    through = frozenset(joint.name for joint in joints if joint.size.through)
    glazed = frozenset(part.id for door in piece.doors for part in door.parts
                       if any(bay.part.timber == "glass" for bay in door.bays))
    return Known(piece, cuts, names, joints, through, own, glazed)


def end_words(have: Known) -> dict[tuple[str, str], str]:
    """What is at end A and at end B of every part, by its id and "A" or "B"."""
    piece = have.piece
    found: Ends = {(part.id, end): [] for part in piece.parts for end in "AB"}
    for joint in have.joints:
        found[joint.rail.id, joint.meeting.end].append(_tenon(have, joint))
    for corner in piece.corners:
        found[corner.tails.id, corner.tail_end].append(_tails(have, corner))
        found[corner.pins.id, corner.pin_end].append(_pins(have, corner))
    for slide in piece.slides:
        found[slide.slider.id, slide.end].append(_slid(have, slide))
    for laid in piece.tops:
        for cap in laid.top.caps:
            for slab in cap.slabs:
                found[slab.id, cap.end].append(
                    f"tongue {said(piece, cap.choice.length)} long, into the end cap")
    for part in piece.parts:
        for end in ("A", "B"):
            found[part.id, end] += _worked(have.cuts[part.id], end)
    seats = seated_ends(piece)
    told = {key: ", ".join([*(words or [SQUARE]), *seats.get(key[0], [])])
            for key, words in found.items()}
    return told | _horns(piece)


# -- tenons


def _tenon(have: Known, joint: Joint) -> str:
    length = said(have.piece, joint.size.length)
    words = [f"{_kind(joint)} {length} long", *_haunches(joint), *_held(have, joint)]
    words.append(f"into the {have.names[joint.bearer.id]}")
    return ", ".join(words)


def _kind(joint: Joint) -> str:
    """`tenon`, `pair of through tenons`, `twin tenons`."""
    choice = joint.choice
    kind = "through tenon" if joint.size.through else "stub tenon" if choice.stub else "tenon"
    if choice.barefaced is not None:
        kind = f"barefaced {kind}"
    if choice.pair is not None:
        return f"pair of twin {kind}s" if choice.twin is not None else f"pair of {kind}s"
    return f"twin {kind}s" if choice.twin is not None else kind


def _haunches(joint: Joint) -> Iterator[str]:
    """Haunches, and what its tip and its shoulders have that others have not."""
    choice, size = joint.choice, joint.size
    if choice.haunch is not None and size.haunch_length:
        yield HAUNCHES[choice.haunch.kind]
    if size.web_haunch:
        yield "haunched between"
    if size.mitre is not None:
        yield "mitred"
    for notch in size.notches:
        yield f"notched for the {notch.passes}"
    if size.long_by:
        yield "back shoulder longer"
    if choice.mould is not None:
        yield "moulding mitred"


def _held(have: Known, joint: Joint) -> Iterator[str]:
    """Wedges, keys and pegs: what holds it."""
    choice = joint.choice
    if choice.wedges is not None:
        yield "wedged"
    if choice.side_wedge is not None:
        yield "dovetailed and wedged" if choice.side_wedge.splay else "wedged at one edge"
    if choice.key is not None:
        yield "keyed"
    holes = sum(cut.joint == joint.name and "hole in the tenon" in cut.role
                for cut in have.cuts[joint.rail.id])
    if holes:
        yield "drawbored" if choice.pegs is not None and choice.pegs.draw else "pegged"


# -- dovetails and slides


def _lapped(corner: Corner) -> str:
    return "through" if corner.through else "lapped"


def _tails(have: Known, corner: Corner) -> str:
    many = len(corner.spacing.tails)
    length = said(have.piece, corner.depth)
    return f"{many} tail{'s' if many > 1 else ''} {length} long, {_lapped(corner)}"


def _pins(have: Known, corner: Corner) -> str:
    """`3 pins and 2 half pins 1/2 long, lapped`: as long as the tail board is thick."""
    kinds = [one.kind for one in corner.spacing.pins]
    words = [f"{kinds.count(kind)} {kind}{'s' if kinds.count(kind) > 1 else ''}"
             for kind in ("pin", "half pin") if kind in kinds]
    length = said(have.piece, corner.tails.thickness)
    return f"{listed(words)} {length} long, {_lapped(corner)}"


def _slid(have: Known, slide: Slide) -> str:
    choice = slide.choice
    size = said(have.piece, slide.tail)
    words = [f"housed {size} deep" if choice.square else f"sliding dovetail {size} long"]
    if not choice.square and choice.slopes != "both":
        words.append("one side sloped")
    if choice.taper:
        words.append("tapered")
    if choice.stop:
        words.append("stopped")
    return ", ".join([*words, f"into the {have.names[slide.bearer.id]}"])


# -- rabbets, tongues and panels


def _worked(cuts: list[Cut], end: str) -> Iterator[str]:
    """What is worked along an end: told by the cuts there."""
    roles = {cut.role for cut in cuts}
    if f"edge rabbet end {end}" in roles:
        yield "rabbeted"
    if f"raise end {end}" in roles:
        yield "raised"
    elif {f"tongue waste end {end}", f"back waste end {end}"} & roles:
        yield "tongued"
    for cut in cuts:
        if cut.role == "button waste" and (cut.shape.reach("L")[0] == 0) == (end == "A"):
            yield "tongue into its mortise"


def seated_ends(piece: Piece) -> dict[str, list[str]]:
    """What the ends of panels, bottoms and backs lie in, by part id."""
    found: dict[str, list[str]] = {}
    for panel in piece.panels:
        seat = panel.choice.seat
        kind = seat.kind if panel.choice.grain == "up" else seat.in_legs
        found[panel.part.id] = [f"in the {kind}"]
    for door in piece.doors:
        for bay in door.bays:
            found[bay.part.id] = [f"in the {door.choice.seat.kind}"]
    for drawer in piece.drawers:
        found[drawer.bottom.id] = ["in the groove"]
    for chest in piece.chests:
        found |= _chest_bottom(chest)
    for case in piece.carcases:
        found |= _case_back(case)
    return found


def _chest_bottom(chest: Chest) -> dict[str, list[str]]:
    kinds = {"groove": ["in the groove"], "rabbet": ["in the rabbet"]}
    choice = chest.choice.bottom
    if chest.bottom is None or choice is None or choice.kind not in kinds:
        return {}
    return {chest.bottom.id: kinds[choice.kind]}


def _case_back(case: Carcase) -> dict[str, list[str]]:
    """The ends of a back lie in the rabbet where top and bottom have one; a slid top ends before
    the back.
    """
    if case.choice.slid is not None:
        return {}
    return {board.id: ["in the rabbet"] for board in case.back}


def _horns(piece: Piece) -> dict[tuple[str, str], str]:
    """Stiles that are left longer until the door is glued up."""
    found: dict[tuple[str, str], str] = {}
    for door in piece.doors:
        if door.choice.horn:
            words = f"{SQUARE}, with a horn of {said(piece, door.choice.horn)} until glued up"
            found |= {(stile.id, end): words for stile in door.stiles for end in "AB"}
    return found

