"""What a part bears along its length: mortises, grooves, rabbets, sockets, holes; told from those
of its cuts that are not the joints at its own ends.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import NamedTuple

from layout.joints.rail_end import is_mortise
from layout.mark import Cut
from layout.part import Part
from layout.stock.end_words import Known


class _Counted(NamedTuple):
    """Cuts that are told by how many there are: what one is called, which roles they have, and
    whether what is counted is joints (a tapered socket is cut in two stretches).
    """

    word: str
    roles: Callable[[str], bool]
    joints: bool = False


def _matches(pattern: str) -> Callable[[str], bool]:
    found = re.compile(pattern)
    return lambda role: found.fullmatch(role) is not None


# In the order that they are told. Wedges' flares and slopes belong to the mortise that is counted.
COUNTED = (
    _Counted("haunch socket", _matches(r"(outer |inner )?haunch socket")),
    _Counted("web socket", _matches(r"(outer |inner )?web socket")),
    _Counted("dovetail socket", _matches(r"slide socket(, taper)?"), joints=True),
    _Counted("housing", _matches(r"housing(, taper)?"), joints=True),
    _Counted("button mortise", _matches(r"button mortise \d+")),
    _Counted("peg hole", _matches(r"(upper |lower |first |second )?(cap )?peg (\d+ )?hole( \d+)?")),
    _Counted("dog hole", _matches(r"dog hole .*")),
    _Counted("holdfast hole", _matches(r"holdfast hole .*")),
)
SLOT = re.compile(r"(cap peg|screw) slot (\d+)(, .*)?")
EDGES = {"edge": "face edge", "far edge": "far edge"}


def bears(have: Known, part: Part) -> tuple[str, ...]:
    """What a part bears, a phrase each, in the trade's words."""
    cuts = [cut for cut in have.cuts[part.id] if cut.joint not in have.own[part.id]]
    return (
        *_mortises(have, cuts),
        *_counted(cuts),
        *_slots(cuts),
        *_seats(cuts, part.id in have.glazed),
        *_edges(part, cuts),
    )


def counted(many: int, word: str) -> str:
    """`1 mortise`, `2 mortises`."""
    return f"{many} {word}" if many == 1 else f"{many} {word}s"


def _mortises(have: Known, cuts: list[Cut]) -> Iterator[str]:
    found = [cut for cut in cuts if is_mortise(cut.role) and "button" not in cut.role]
    if not found:
        return
    words = counted(len(found), "mortise")
    through = sum(cut.joint in have.through for cut in found)
    if through:
        words += ", through" if through == len(found) else f", {through} of them through"
    yield words


def _counted(cuts: list[Cut]) -> Iterator[str]:
    for kind in COUNTED:
        found = [cut for cut in cuts if kind.roles(cut.role)]
        many = len({cut.joint for cut in found}) if kind.joints else len(found)
        if many:
            yield counted(many, kind.word)


def _slots(cuts: list[Cut]) -> Iterator[str]:
    """Slots by their numbers: each is cut in up to three bores and stretches."""
    slots: dict[str, set[tuple[str, str]]] = {}
    for cut in cuts:
        found = SLOT.fullmatch(cut.role)
        if found is not None:
            slots.setdefault(found[1], set()).add((cut.joint, found[2]))
    deep = any(cut.role.startswith("counterbore") for cut in cuts)
    if "screw" in slots:
        yield counted(len(slots["screw"]), "screw slot") + (", counterbored" if deep else "")
    if "cap peg" in slots:
        yield f"{counted(len(slots['cap peg']), 'peg hole')} in the tongues, slotted but one each"


def _seats(cuts: list[Cut], glazed: bool) -> Iterator[str]:
    """Grooves and rabbets for panels and bottoms, grooves for tongues."""
    roles = [cut.role for cut in cuts]
    for kind in ("groove", "rabbet"):
        many = roles.count(kind)
        held = "glass" if glazed else "a panel" if many == 1 else "panels"
        if many:
            yield f"{kind if many == 1 else counted(many, kind)} for {held}"
    if "bottom groove" in roles:
        yield "groove for the bottom"
    if "end groove" in roles:
        yield "groove for the tongue"
    if "moulding cut back" in roles:
        yield "moulding cut back at the joints"


def _edges(part: Part, cuts: list[Cut]) -> Iterator[str]:
    """What is worked along its long edges."""
    for word, role in (
        ("rabbet", _matches(r"edge rabbet( far edge)?")),
        ("groove", _matches(r"tongue groove")),
        ("tongue", _matches(r"tongue waste, (face|back)")),
        ("raised", _matches(r"raise (far )?edge")),
        ("tongued", _matches(r"(tongue|back) waste (far )?edge")),
    ):
        edges = list(dict.fromkeys(
            edge for cut in cuts if role(cut.role) for edge in _along(part, cut)
        ))
        if word == "tongued" and any(cut.role.startswith("raise ") for cut in cuts):
            continue
        if edges:
            where = "both edges" if len(edges) > 1 else f"the {edges[0]}"
            yield f"{word} along {where}"


def _along(part: Part, cut: Cut) -> Iterator[str]:
    """The edges that a cut lies at."""
    low, high = cut.shape.reach("W")
    if low == 0:
        yield EDGES["edge"]
    if high == part.width:
        yield EDGES["far edge"]
