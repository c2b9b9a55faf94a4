"""A piece: its parts and joints, worked out once, for every sheet and check to read."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from layout.builds import frame as frames
from layout.builds.frame import FrameChoice, TenonedRail
from layout.builds.opening import Opening
from layout.defaults import Unit
from layout.errors import BadPiece, Where
from layout.joints import seat, tenon
from layout.joints.worked import Worked, on_wood, together
from layout.kit import Kit
from layout.mark import Cut, Mark, Sum
from layout.measure import Rule
from layout.part import Part

if TYPE_CHECKING:  # one tenon by itself starts faster without panels
    from layout.builds.panel import FittedPanel, PanelChoice


class PieceChoice(NamedTuple):
    """Everything the maker wrote."""

    name: str
    unit: Unit
    rule: Rule
    kit: Kit
    wall_least: Fraction
    near_settings: Fraction
    frame: FrameChoice
    panels: tuple[PanelChoice, ...] = ()
    dual: bool = False
    where: Where = Where()


class Piece(NamedTuple):
    """A piece worked out: parts where they stand, their cuts, marks and sums."""

    choice: PieceChoice
    parts: tuple[Part, ...]
    cuts: tuple[Cut, ...]
    marks: tuple[Mark, ...]
    sums: tuple[Sum, ...]
    openings: tuple[Opening, ...]
    rails: tuple[TenonedRail, ...]
    panels: tuple[FittedPanel, ...]

    @property
    def name(self) -> str:
        """The piece's name, as the maker wrote it."""
        return self.choice.name

    @property
    def rule(self) -> Rule:
        """The rule that sizes are shown at."""
        return self.choice.rule

    def part(self, part_id: str) -> Part:
        """The part of this id."""
        return next(part for part in self.parts if part.id == part_id)

    def cuts_of(self, part_id: str) -> tuple[Cut, ...]:
        """The cuts in one part."""
        return tuple(cut for cut in self.cuts if cut.part == part_id)

    def marks_of(self, part_id: str) -> tuple[Mark, ...]:
        """The marks on one part."""
        return tuple(mark for mark in self.marks if mark.part == part_id)


def work_out(choice: PieceChoice) -> Piece:
    """The whole piece from the maker's choices. BadPiece where no such piece can stand."""
    from layout.builds import panel as panels

    frame = frames.stand(choice.frame)
    fitted = tuple(one for panel in choice.panels for one in panels.fit(panel, frame))
    _one_panel_each(fitted)
    tenoned = []
    done: list[Worked] = []
    for rail in frame.rails:
        seats = tuple(seat for panel in fitted for seat in panel.seats_in(rail))
        one = frames.tenoned(rail, seats, panels.through_on(rail.side, fitted), choice.kit)
        tenoned.append(one)
        over = frames.over_legs(choice.frame, rail.side)
        done.append(frames.work_rail(one, over, choice.frame.height, choice.kit))
    done += [panels.work(panel, choice.frame.height, choice.kit) for panel in fitted]
    parts = (*frame.legs, *(r.part for r in frame.rails), *(p.part for p in fitted))
    _names_differ(parts, choice)
    return _finished(choice, parts, done, frame.openings, tuple(tenoned), fitted)


def work_out_pair(choice: PieceChoice, seat_choice: seat.SeatChoice | None) -> Piece:
    """One rail between two legs, from the same choices; with a panel's seat if one is given."""
    from layout.builds import pair

    frame = pair.stand(choice.frame)
    (rail,) = frame.rails
    set_in = rail.choice.set_in
    seats: tuple[tenon.SeatInRail, ...] = ()
    shoulder = None
    done: list[Worked] = []
    if seat_choice is not None:
        size = seat.sizes(seat_choice, rail.part, set_in)
        seats = (pair.seat_in_rail(seat_choice, size, set_in),)
        shoulder = pair.long_shoulder(seat_choice, size)
        done.append(pair.work_seat(rail, seat_choice, size, choice.frame.height, choice.kit))
    one = frames.tenoned(rail, seats, shoulder, choice.kit)
    over = frames.over_legs(choice.frame, rail.side)
    done.insert(0, frames.work_rail(one, over, choice.frame.height, choice.kit))
    return _finished(choice, (*frame.legs, rail.part), done, (), (one,), ())


def _finished(
    choice: PieceChoice,
    parts: tuple[Part, ...],
    done: list[Worked],
    openings: tuple[Opening, ...],
    rails: tuple[TenonedRail, ...],
    panels: tuple[FittedPanel, ...],
) -> Piece:
    """Everything that the joints gave, with the parts, as one piece."""
    everything = together(done)
    marks = on_wood(everything.marks, {part.id: part for part in parts})
    return Piece(
        choice, parts, everything.cuts, marks, everything.sums, openings, rails, panels
    )


def _one_panel_each(fitted: tuple[FittedPanel, ...]) -> None:
    seen: set[str] = set()
    for panel in fitted:
        if panel.opening.name in seen:
            raise BadPiece(
                f"the opening '{panel.opening.name}' is given two panels",
                "name each opening once",
                panel.choice.where,
            )
        seen.add(panel.opening.name)


def _names_differ(parts: tuple[Part, ...], choice: PieceChoice) -> None:
    """BadPiece, at the rail or panel that comes second, where two parts have one name."""
    wheres = [choice.where] * 4  # the legs come first
    wheres += [rail.where for rail in choice.frame.rails for _ in rail.sides]
    wheres += [panel.where for panel in choice.panels for _ in panel.openings]
    seen: set[str] = set()
    for part, where in zip(parts, wheres, strict=True):
        if part.id in seen:
            raise BadPiece(
                f"two parts would both be called '{part.name}'",
                "give each rail and panel on a side a name of its own",
                where,
            )
        seen.add(part.id)
