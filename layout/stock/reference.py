"""Which surfaces of a part are its reference surfaces: where its face side and face edge look, in
the words of the piece, told from how the part stands.

The face side lies where T begins, the face edge where W begins; each looks the other way. What
closes something in (legs, rails, the boards of a box, stiles) is told by outside and inside; for
the rest it is in front, behind, at the left, at the right, on top and below.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import chain
from typing import NamedTuple

from layout.builds.site import WAYS, Site, site_of
from layout.part import Axis, Direction, Part, Point, piece_axis, sense
from layout.piece import Piece

ZERO = Fraction(0)
BOTH: tuple[Axis, Axis] = ("T", "W")  # what the face side and the face edge are square to
ORDER = ("outside", "inside", "in front", "behind", "at the left", "at the right", "on top",
         "below")
_TURNED: dict[str, Direction] = {
    "+X": "-X", "-X": "+X", "+Y": "-Y", "-Y": "+Y", "+Z": "-Z", "-Z": "+Z",
}


class View(NamedTuple):
    """How a part's surfaces are told: which way is right and inward, and the middle of what it
    closes in (None: it closes nothing in). `axes` are those told by outside and inside; `level`
    says that above and below may be so too, as at the top and bottom of a box.
    """

    right: Direction = "+X"
    inward: Direction = "+Y"
    middle: Point | None = None
    axes: tuple[Axis, ...] = ()
    level: bool = False


class Reference(NamedTuple):
    """Where the face side and the face edge look, in words."""

    face_side: str
    face_edge: str


FROM_THE_FRONT = View()
NONE = Reference("", "")


def references(piece: Piece, rows: Iterable[Sequence[str]]) -> tuple[Reference, ...]:
    """For every row's part ids where its face sides and face edges look; empty for no parts."""
    seen = views(piece)
    parts = {part.id: part for part in piece.parts}
    return tuple(
        _of([(parts[one], seen.get(one, FROM_THE_FRONT)) for one in row]) if row else NONE
        for row in rows
    )


def _of(row: list[tuple[Part, View]]) -> Reference:
    face, edge = (_told([told(part, axis, view) for part, view in row]) for axis in BOTH)
    if face == edge:  # a leg: which of the outsides is which
        plain = [_told([_plain(looks(part, axis), view) for part, view in row]) for axis in BOTH]
        if plain != [face, edge]:
            face, edge = (f"{face} ({words})" for words in plain)
    return Reference(face, edge)


def _told(words: list[str]) -> str:
    """What several parts' surfaces do; `in front or behind` where they differ."""
    found = sorted(set(words), key=lambda one: (ORDER.index(one.split(" seen")[0]), one))
    joined = " or ".join([", ".join(found[:-1]), found[-1]]) if len(found) > 1 else found[0]
    return joined.replace("at the left or at the right", "at the left or right")


def looks(part: Part, axis: Axis) -> Direction:
    """Which way the face side (axis T) or the face edge (axis W) looks."""
    return _TURNED[part.placement.direction(axis)]


def told(part: Part, axis: Axis, view: View) -> str:
    """Where a part's face side (axis T) or face edge (axis W) looks, in words."""
    way = looks(part, axis)
    along = piece_axis(way)
    upright = way[1] == "Z"
    if view.middle is not None and axis in view.axes and (view.level or not upright):
        low, high = part.reach(along)
        middle = view.middle[along]
        if low >= middle or high <= middle:
            outward = sense(way) == (1 if low >= middle else -1)
            return "outside" if outward else "inside"
    return _plain(way, view)


def _plain(way: Direction, view: View) -> str:
    words = {
        "+Z": "on top", "-Z": "below",
        view.right: "at the right", _TURNED[view.right]: "at the left",
        view.inward: "behind", _TURNED[view.inward]: "in front",
    }
    # seen from another side than the front, right and left are that side's own
    aside = view.right != "+X" and way[1] != "Z" and piece_axis(way) == piece_axis(view.right)
    return f"{words[way]} seen from outside" if aside else words[way]


def views(piece: Piece) -> dict[str, View]:
    """How the surfaces of each part are told, by part id; a part that is not in it is told from the
    front.
    """
    found: dict[str, View] = {}
    for one in chain(_frame(piece), _boxes(piece), _doors(piece), _others(piece)):
        found |= one
    return found


def _same(parts: Iterable[Part], view: View) -> dict[str, View]:
    return {part.id: view for part in parts}


def _middle(parts: Sequence[Part]) -> Point:
    """The middle of what the parts reach over."""
    spans = [[part.reach(axis) for part in parts] for axis in range(3)]
    x, y, z = ((min(low for low, _ in one) + max(high for _, high in one)) / 2 for one in spans)
    return (x, y, z)


def _frame(piece: Piece) -> Iterator[dict[str, View]]:
    """Legs by both, rails of a side and panels by their face sides."""
    legs = [part for part in piece.parts if part.kind == "leg"]
    if not legs:
        return
    middle = _middle(legs)
    yield _same(legs, View(middle=middle, axes=("T", "W")))
    for one in piece.rails:
        if one.rail.side is not None and not one.rail.of:
            yield {one.rail.part.id: View(*WAYS[one.rail.side], middle, ("T",))}
    for panel in piece.panels:
        yield {panel.part.id: View(*WAYS[panel.opening.side], middle, ("T",))}


def _boxes(piece: Piece) -> Iterator[dict[str, View]]:
    for case in piece.carcases:
        walls = (case.left, case.right, case.top, case.bottom)
        yield _same(case.parts, View(middle=_middle(walls), axes=("T",), level=True))
    for chest in piece.chests:
        yield _same(chest.parts, View(middle=_middle(chest.walls), axes=("T",), level=True))
    for drawer in piece.drawers:
        site = drawer.hole.site
        middle = _middle((drawer.front, drawer.left, drawer.right, drawer.back))
        view = View(site.right, site.inward, middle, ("T",), level=True)
        yield _same(drawer.parts, view)
        yield _same(drawer.runs, view._replace(axes=("T", "W"), level=False))


def _doors(piece: Piece) -> Iterator[dict[str, View]]:
    """A door closes in what is behind it; the outer edges of its stiles are its outside."""
    for door in piece.doors:
        site, middle = door.site, list(_middle(door.stiles))
        behind = piece_axis(site.inward)
        ends = door.stiles[0].reach(behind)
        middle[behind] = ends[1] if sense(site.inward) > 0 else ends[0]
        view = View(site.right, site.inward, (middle[0], middle[1], middle[2]), ("T",))
        yield _same(door.parts, view)
        yield _same(door.stiles, view._replace(axes=("T", "W")))


def _others(piece: Piece) -> Iterator[dict[str, View]]:
    """Dividers as their openings are seen; end caps by the edge at their joint."""
    for divider in piece.dividers:
        site: Site = site_of(divider.opening)
        yield {divider.part.id: View(site.right, site.inward)}
    for laid in piece.tops:
        top = laid.top
        if top.caps:
            view = View(middle=_middle(top.parts), axes=("W",))
            yield _same((cap.part for cap in top.caps), view)
