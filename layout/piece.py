"""A piece: its parts and joints, worked out once, for every sheet and check to read."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from layout.builds import corner
from layout.builds import frame as frames
from layout.builds.choices import AsMilled, FrameChoice
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

if TYPE_CHECKING:  # one tenon by itself starts faster without panels and boxes
    from layout.builds.bank import Bank
    from layout.builds.box_choices import ChestChoice, DividerChoice, DrawerChoice
    from layout.builds.carcase import Carcase, CarcaseChoice
    from layout.builds.chest import Chest
    from layout.builds.corner_pair import CornerChoice, CornerPair
    from layout.builds.divider import Divider
    from layout.builds.dog_board import DogBoardChoice
    from layout.builds.door import Door
    from layout.builds.door_choice import DoorChoice
    from layout.builds.drawer import Drawer
    from layout.builds.panel import FittedPanel, PanelChoice
    from layout.builds.slide_pair import SlidePair, SlidePairChoice
    from layout.builds.top_choice import TopChoice
    from layout.builds.tops import LaidTop
    from layout.joints.dogs import Dogs
    from layout.joints.dovetail import Corner
    from layout.joints.slide import Slide
    from layout.wood.timber import Timbers


class PieceChoice(NamedTuple):
    """Everything the maker wrote."""

    name: str
    unit: Unit
    rule: Rule
    kit: Kit
    wall_least: Fraction
    near_settings: Fraction
    frame: FrameChoice | None = None
    panels: tuple[PanelChoice, ...] = ()
    carcases: tuple[CarcaseChoice, ...] = ()
    chests: tuple[ChestChoice, ...] = ()
    dividers: tuple[DividerChoice, ...] = ()
    drawers: tuple[DrawerChoice, ...] = ()
    doors: tuple[DoorChoice, ...] = ()
    tops: tuple[TopChoice, ...] = ()
    drawer_load: Fraction = Fraction(0)
    dual: bool = False
    timbers: Timbers | None = None
    where: Where = Where()

    @property
    def wood(self) -> Timbers:
        """The climate and the timbers, as the maker has them or as is usual."""
        from layout.wood.timber import Timbers  # a piece of which no wood is asked does without

        return Timbers() if self.timbers is None else self.timbers

    @property
    def milled(self) -> AsMilled:
        """The parts that were measured; only a frame has such."""
        return AsMilled() if self.frame is None else self.frame.milled


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
    carcases: tuple[Carcase, ...] = ()
    chests: tuple[Chest, ...] = ()
    dividers: tuple[Divider, ...] = ()
    drawers: tuple[Drawer, ...] = ()
    doors: tuple[Door, ...] = ()
    corner_pair: CornerPair | None = None
    slide_pair: SlidePair | None = None
    dogs: tuple[Dogs, ...] = ()
    tops: tuple[LaidTop, ...] = ()

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

    @property
    def corners(self) -> tuple[Corner, ...]:
        """Every dovetailed corner."""
        of_cases = (one for case in self.carcases for one in case.corners)
        of_chests = (one for chest in self.chests for one in chest.corners)
        of_drawers = (one for drawer in self.drawers for one in drawer.corners)
        alone = () if self.corner_pair is None else (self.corner_pair.corner,)
        return (*of_cases, *of_chests, *of_drawers, *alone)

    @property
    def slides(self) -> tuple[Slide, ...]:
        """Every board's end slid into another."""
        of_cases = (one for case in self.carcases for one in case.slides)
        of_dividers = (one for divider in self.dividers for one in divider.slides)
        alone = () if self.slide_pair is None else (self.slide_pair.slide,)
        return (*of_cases, *of_dividers, *alone)

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
    banks: tuple[Bank, ...] = ()
    if any(one.divide is not None and one.divide.rail is not None for one in choice.drawers):
        choice, banks = _divided(choice)
    piece = _framed(choice) if choice.frame is not None else _unframed(choice)
    if choice.carcases or choice.chests or choice.dividers or choice.drawers or choice.doors:
        piece = _with_boxes(piece, banks)
    if choice.tops:
        piece = _with_tops(piece)
    _names_differ(piece)
    return piece


def _divided(choice: PieceChoice) -> tuple[PieceChoice, tuple[Bank, ...]]:
    """The choice with the rails that divide an opening into drawers among the frame's own."""
    from layout.builds import bank

    if choice.frame is None:
        divide = next(one for one in choice.drawers if one.divide is not None)
        raise BadPiece(
            "there is no opening to divide", "describe a frame under [frame]", divide.where
        )
    rough = frames.stand(choice.frame)
    frame, drawers, banks = bank.expanded(choice.frame, rough.openings, choice.drawers)
    return choice._replace(frame=frame, drawers=drawers), banks


def _with_boxes(piece: Piece, banks: tuple[Bank, ...] = ()) -> Piece:
    """A piece with its boxes and doors added; their modules are loaded only then."""
    from layout.builds import boxes
    from layout.builds.bank import sums as bank_sums

    choice = piece.choice
    wanted = boxes.BoxChoices(
        choice.carcases, choice.chests, choice.dividers, choice.drawers, choice.doors
    )
    found = boxes.stand(wanted, piece.openings, piece.parts, choice.kit, choice.wood)
    everything = together(found.done)
    parts = (*piece.parts, *found.parts, *everything.parts)
    marks = on_wood(everything.marks, {part.id: part for part in parts})
    return piece._replace(
        parts=parts,
        cuts=(*piece.cuts, *everything.cuts),
        marks=(*piece.marks, *marks),
        sums=(
            *piece.sums,
            *(one for bank in banks for one in bank_sums(bank, piece.openings)),
            *everything.sums,
        ),
        carcases=found.carcases,
        chests=found.chests,
        dividers=found.dividers,
        drawers=found.drawers,
        doors=found.doors,
        rails=(
            *piece.rails,
            *(one for door in found.doors for one in (*door.rails, *door.muntins)),
        ),
        loose=(*piece.loose, *everything.loose),
    )


def _with_tops(piece: Piece) -> Piece:
    """A piece with its tops laid on it, once everything that they must miss stands."""
    from layout.builds import tops

    choice = piece.choice
    on = tops.bearings(piece.parts, [one.rail for one in piece.rails], piece.carcases)
    laid = tops.stand(choice.tops, on, piece.parts, piece.cuts, choice.wood)
    everything = together([one for each in laid for one in tops.work(each)])
    parts = (*piece.parts, *(part for each in laid for part in each.parts))
    return piece._replace(
        parts=parts,
        cuts=(*piece.cuts, *everything.cuts),
        marks=(*piece.marks, *on_wood(everything.marks, {part.id: part for part in parts})),
        sums=(*piece.sums, *everything.sums),
        loose=(*piece.loose, *everything.loose),
        tops=laid,
        dogs=tuple(row for each in laid for row in each.dogs),
    )


def _unframed(choice: PieceChoice) -> Piece:
    """A piece without a frame, before its chests and drawers."""
    if choice.panels:
        raise BadPiece(
            "a panel needs a frame to stand in",
            "add a [frame], or leave the panel out",
            choice.panels[0].where,
        )
    return Piece(choice, (), (), (), (), (), (), ())


def _framed(choice: PieceChoice) -> Piece:
    """Frame and panels."""
    assert choice.frame is not None
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
    return _finished(choice, parts, done, frame.openings, tenoned, fitted)


def _fitted(choice: PieceChoice, frame: Frame) -> tuple[FittedPanel, ...]:
    """The panels in the openings of a frame; their module is loaded only where there are any."""
    if not choice.panels:
        return ()
    from layout.builds import panel as panels

    return tuple(one for panel in choice.panels for one in panels.fit(panel, frame, choice.wood))


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

    assert choice.frame is not None  # one joint by itself is a frame of two legs
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


def work_out_corner(choice: PieceChoice, corner_choice: CornerChoice) -> Piece:
    """One dovetailed corner by itself. BadPiece where its tails don't fit."""
    from layout.builds import corner_pair

    pair = corner_pair.stand(corner_choice)
    done = [corner_pair.work(pair, choice.kit)]
    piece = _finished(choice, (pair.tails, pair.pins), done, (), (), ())
    return piece._replace(corner_pair=pair)


def work_out_slide(choice: PieceChoice, slide_choice: SlidePairChoice) -> Piece:
    """One board's end slid into another, by itself. BadPiece where it can't be."""
    from layout.builds import slide_pair

    pair = slide_pair.stand(slide_choice, choice.kit)
    done = [slide_pair.work(pair)]
    piece = _finished(choice, (pair.slider, pair.bearer), done, (), (), ())
    return piece._replace(slide_pair=pair)


def work_out_dogs(choice: PieceChoice, board: DogBoardChoice) -> Piece:
    """A row of dog holes by itself. BadPiece where there is no such row."""
    from layout.builds import dog_board
    from layout.joints import dogs

    made = dog_board.stand(board)
    piece = _finished(choice, (made.part,), [dogs.work(made)], (), (), ())
    return piece._replace(dogs=(made,))


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


def _names_differ(piece: Piece) -> None:
    """BadPiece, at the rail, panel, box or door that comes second, where two parts have one name.
    """
    choice = piece.choice
    wheres: dict[str, Where] = {}
    if choice.frame is not None:
        named = {rail.name: rail.where for rail in choice.frame.rails}
        named |= {cross.rail.name: cross.rail.where for cross in choice.frame.crosses}
        wheres |= {one.rail.part.id: named[one.rail.choice.name] for one in piece.rails
                   if not one.rail.of}
    wheres |= {panel.part.id: panel.choice.where for panel in piece.panels}
    wheres |= {part.id: case.choice.where for case in piece.carcases for part in case.parts}
    wheres |= {part.id: laid.top.choice.where for laid in piece.tops for part in laid.parts}
    wheres |= {part.id: box.choice.where for box in piece.chests for part in box.parts}
    wheres |= {one.part.id: one.choice.where for one in piece.dividers}
    wheres |= {part.id: box.choice.where for box in piece.drawers for part in box.parts}
    wheres |= {part.id: door.choice.where for door in piece.doors for part in door.parts}
    seen: set[str] = set()
    for part in piece.parts:
        if part.id in seen:
            raise BadPiece(
                f"two parts would both be called '{part.name}'",
                "give each rail and panel on a side, each carcase, divider, chest, drawer, door "
                "and top, a name of its own",
                wheres.get(part.id, choice.where),
            )
        seen.add(part.id)
    # joints are named after what they belong to
    boxes = [(case.choice.name, case.choice.where) for case in piece.carcases]
    boxes += [(box.choice.name, box.choice.where) for box in piece.chests]
    boxes += [(one.part.name, one.choice.where) for one in piece.dividers]
    boxes += [(drawer.name, drawer.choice.where) for drawer in piece.drawers]
    boxes += [(door.name, door.choice.where) for door in piece.doors]
    known: set[str] = set()
    for name, where in boxes:
        if name in known:
            raise BadPiece(
                f"two things are called '{name}'",
                "give each carcase, divider, chest, drawer and door a name of its own",
                where,
            )
        known.add(name)
