"""How large a panel is cut, so that it fits its seats the whole year.

A sheet of plywood, and any panel along its grain, keeps its size: opening + two lips - room.
Across the grain solid wood swells and shrinks. It is cut so that at its widest `play` is still
free between the bottoms of its grooves, and the grooves are so deep that at its narrowest, in
the middle of its opening, it still stands in each by `cover`. (That a panel must float:
William Noyes, Handwork in Wood, 1910, ch. VII no. 42 and ch. VIII.)
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.errors import BadPiece, BadWood, Where
from layout.joints.panel_edge import Profile
from layout.joints.section import Terms
from layout.wood.species import Sawn, is_sheet
from layout.wood.timber import Seasons, Timbers

ZERO = Fraction(0)
Held = Literal["pins", "spacers", "free"]
Grain = Literal["up", "across"]


class SolidChoice(NamedTuple):
    """A solid panel's year, in mm: how far it must stand in each groove at its narrowest, what
    must be free across it at its widest, and what keeps it in the middle: a pin in the middle of
    each end, springy spacers in the grooves, or nothing. `usual_lip` is a groove's usual depth,
    `step` what a groove's depth is rounded up to.
    """

    cover: Fraction
    play: Fraction
    held: Held
    usual_lip: Fraction
    step: Fraction
    sawn: Sawn | None = None


class FitChoice(NamedTuple):
    """What a panel is: its timber and thickness, its edge, the room along it (and across it, for a
    sheet), its grain; `solid` is None for a sheet. In mm.
    """

    timber: str
    thickness: Fraction
    profile: Profile
    room: Fraction
    grain: Grain = "up"
    solid: SolidChoice | None = None
    where: Where = Where()


class Across(NamedTuple):
    """A panel one way: its cut size, what it is cut smaller by than its seats hold (terms to be
    taken off), and its size at the driest and the wettest of the year, in mm.
    """

    size: Fraction
    off: Terms
    narrowest: Fraction
    widest: Fraction

    @property
    def room(self) -> Fraction:
        """How much smaller it is cut than its seats hold, in mm."""
        return -sum((sign * value for sign, _, value in self.off), ZERO)


class Fit(NamedTuple):
    """A panel in its opening: across the opening and up it; the lip; the year across its grain,
    None for a sheet.
    """

    wide: Across
    high: Across
    lip: Fraction
    year: Seasons | None = None


def lip_for(
    choice: FitChoice, clears: tuple[Fraction, ...], timbers: Timbers
) -> Fraction:
    """How deep the grooves must be for openings that are so wide across the grain, in mm: the usual
    depth, or what the driest season asks, rounded up to a whole step.
    """
    solid = choice.solid
    if solid is None:
        raise BadPiece("how deep the panel goes into its seats is missing",
                       "say how deep the grooves are", choice.where)
    year = seasons(choice, timbers)
    wanted = solid.usual_lip
    for clear in clears:
        # its narrowest is (clear + 2 lips - play) x shrunk: clear + 2 covers where it is held in
        # the middle, or, where it can slide, clear + a lip on one side + a cover on the other
        shrunk = (1 + year.least) / (1 + year.most)
        if solid.held == "free":
            least = (solid.cover + clear * (1 - shrunk) + solid.play * shrunk) / (2 * shrunk - 1)
        else:
            least = ((clear + 2 * solid.cover) / shrunk - clear + solid.play) / 2
        wanted = max(wanted, -(-least // solid.step) * solid.step)
    return wanted


def seasons(choice: FitChoice, timbers: Timbers) -> Seasons:
    """What the year does to a solid panel's width. BadPiece where its wood isn't known."""
    sawn = choice.solid.sawn if choice.solid is not None else None
    if is_sheet(choice.timber):
        raise BadPiece(f"a solid panel can't be of {choice.timber}, which keeps its size",
                       "leave solid out, or name its wood", choice.where)
    try:
        return timbers.seasons(choice.timber, "width", sawn)
    except BadWood as error:
        what = error.what if choice.timber else "a solid panel's timber is not named"
        cure = error.cure if choice.timber else 'name it, e.g. timber = "white oak"'
        raise BadPiece(what, cure, error.at(choice.where).where) from None


def fit(
    choice: FitChoice, width: Fraction, height: Fraction, lip: Fraction, timbers: Timbers,
    name: str,
) -> Fit:
    """A panel for an opening of this clear size, its seats `lip` deep; all in mm. BadPiece where
    nothing is left of it.
    """
    if choice.solid is None:
        wide, high = (_still(clear, lip, choice.room) for clear in (width, height))
        year = None
    else:
        year = seasons(choice, timbers)
        up = choice.grain == "up"
        wide = _moving(width, lip, choice.solid, year) if up else _still(width, lip, choice.room)
        high = _still(height, lip, choice.room) if up else _moving(height, lip, choice.solid, year)
    if wide.size <= 0 or high.size <= 0:
        raise BadPiece(f"the room to fit leaves nothing of the {name}",
                       "room is what the panel is cut smaller by; make it less", choice.where)
    return Fit(wide, high, lip, year)


def _still(clear: Fraction, lip: Fraction, room: Fraction) -> Across:
    size = clear + 2 * lip - room
    return Across(size, ((-1, "room to fit", room),), size, size)


def _moving(clear: Fraction, lip: Fraction, solid: SolidChoice, year: Seasons) -> Across:
    """Cut so that its widest is `play` less than from groove to groove."""
    widest = clear + 2 * lip - solid.play
    size = widest / (1 + year.most)
    off: Terms = ((-1, "play at its widest", solid.play),)
    if year.most:
        off = (*off, (-1, "swelling, from now to its widest", widest - size))
    return Across(size, off, size * (1 + year.least), widest)


def stands_in(fit_: Across, clear: Fraction, lip: Fraction, held: Held) -> Fraction:
    """How far a panel at its narrowest stands in the groove it stands in least, in mm: half of what
    it has where it is kept in the middle, else what the other groove leaves it.
    """
    over = fit_.narrowest - clear
    return over / 2 if held != "free" else over - lip
