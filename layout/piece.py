"""A piece: its parts and joints, worked out once, for every sheet and check to read."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from layout.builds import corner
from layout.builds import frame as frames
from layout.builds.choices import FrameChoice
from layout.builds.frame import Frame, StandingRail
from layout.builds.opening import Opening
from layout.builds.tenoned import LongShoulder, TenonedRail, sectioned, work_rail
from layout.defaults import Unit
from layout.errors import BadPiece, Where
from layout.joints import seat
from layout.joints.rail_end import Joint
from layout.joints.section import SeatInRail
from layout.joints.worked import Loose, Worked, on_wood, together
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
    loose: tuple[Loose, ...] = ()

    @property
    def name(self) -> str:
        """The piece's name, as the maker wrote it."""
        return self.choice.name

    @property
    def rule(self) -> Rule:
        """The rule that sizes are shown at."""
        return self.choice.rule

    @property
    def joints(self) -> tuple[Joint, ...]:
        """Every rail end with what bears it."""
        return tuple(joint for one in self.rails for joint in one.joints(self.choice.kit))

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
    # Shoulder to shoulder first: what the rails carry and meet says how long their tenons are.
    rough = frames.stand(choice.frame)
    fitted = _fitted(choice, rough)
    _one_panel_each(fitted)
    cut_across = [_sectioned(rail, fitted, choice.kit) for rail in rough.rails]
    ends = corner.tenon_ends(cut_across)
    frame = frames.stand(
        choice.frame, {name: (a.length, b.length) for name, (a, b) in ends.items()}
    )
    fitted = _fitted(choice, frame)
    tenoned = tuple(
        TenonedRail(rail, ends[rail.part.id], _filled_by(rail, fitted)) for rail in frame.rails
    )
    done = [work_rail(one, choice.kit) for one in tenoned]
    if fitted:
        from layout.builds import panel as panels

        done += [panels.work(panel, choice.frame.height, choice.kit) for panel in fitted]
    parts = (*frame.legs, *(r.part for r in frame.rails), *(p.part for p in fitted))
    _names_differ(parts, choice)
    return _finished(choice, parts, done, frame.openings, tenoned, fitted)


def _fitted(choice: PieceChoice, frame: Frame) -> tuple[FittedPanel, ...]:
    """The panels in the openings of a frame; their module is loaded only where there are any."""
    if not choice.panels:
        return ()
    from layout.builds import panel as panels

    return tuple(one for panel in choice.panels for one in panels.fit(panel, frame))


def _sectioned(
    rail: StandingRail, fitted: tuple[FittedPanel, ...], kit: Kit
) -> corner.Sectioned:
    """A rail's tenons cut across, with the seats it carries and what its legs have run through."""
    seats = tuple(seat for panel in fitted for seat in panel.seats_in(rail))
    shoulder = _through_on(rail, fitted)
    section = sectioned(rail, seats, shoulder, kit)
    return corner.Sectioned(rail, section, _groove(seats))


def _groove(seats: tuple[SeatInRail, ...]) -> Fraction:
    """How deep a groove runs out at the rail's end, for a haunch to fill."""
    return next((one.lip for one in seats if one.kind == "groove" and one.runs_out), Fraction(0))


def _through_on(
    rail: StandingRail, fitted: tuple[FittedPanel, ...]
) -> LongShoulder | None:
    if rail.side is None or not fitted:
        return None
    from layout.builds import panel as panels

    return panels.through_on(rail.side, fitted)


def _filled_by(rail: StandingRail, fitted: tuple[FittedPanel, ...]) -> str:
    shoulder = _through_on(rail, fitted)
    return shoulder.joint if shoulder is not None else ""


def work_out_pair(choice: PieceChoice, seat_choice: seat.SeatChoice | None) -> Piece:
    """One rail between two legs, from the same choices; with a panel's seat if one is given."""
    from layout.builds import pair

    seats: tuple[SeatInRail, ...] = ()
    shoulder = None
    size = None
    (rough,) = pair.stand(choice.frame).rails
    set_in = rough.choice.set_in
    if seat_choice is not None:
        size = seat.sizes(seat_choice, rough.part, set_in)
        seats = (pair.seat_in_rail(seat_choice, size, set_in),)
        shoulder = pair.long_shoulder(seat_choice, size)
    section = sectioned(rough, seats, shoulder, choice.kit)
    ends = corner.tenon_ends([corner.Sectioned(rough, section, _groove(seats))])
    a, b = ends[rough.part.id]
    frame = pair.stand(choice.frame, {rough.part.id: (a.length, b.length)})
    (rail,) = frame.rails
    one = TenonedRail(rail, (a, b), shoulder.joint if shoulder is not None else "")
    done = [work_rail(one, choice.kit)]
    if seat_choice is not None and size is not None:
        done.append(pair.work_seat(rail, seat_choice, size, choice.frame.height, choice.kit))
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
    parts = (*parts, *everything.parts)
    marks = on_wood(everything.marks, {part.id: part for part in parts})
    return Piece(
        choice,
        parts,
        everything.cuts,
        marks,
        everything.sums,
        openings,
        rails,
        panels,
        everything.loose,
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
    wheres += [cross.rail.where for cross in choice.frame.crosses]
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
