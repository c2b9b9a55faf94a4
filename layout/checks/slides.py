"""Sockets and tails of slides: is there wood round them, and can each board slide home."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layout.checks.bodies import left_of, part_body, placed_cuts
from layout.checks.dovetails import FLATTEST, SLOPE, STEEPEST
from layout.checks.placed import Box, part_box
from layout.checks.words import said
from layout.defaults import default_ratio
from layout.joints.slide import SIDES, Slide, bearer_face
from layout.joints.worked import axis_along
from layout.mark import Finding, Level
from layout.part import FACE_NORMAL, Part, piece_axis, sense
from layout.piece import Piece
from layout.solid.convex import block, common

DEPTH = "depth of sockets and housings"
TAIL = "tail that holds"
ENDS = "wood beside sockets"
HOME = "boards that slide home"
ZERO = Fraction(0)


def findings(piece: Piece) -> list[Finding]:
    """Findings on every slide, then on how each slid board goes in."""
    found = [one for slide in piece.slides for one in _of(piece, slide)]
    sliders = dict.fromkeys(slide.slider.id for slide in piece.slides)
    for part_id in sliders:
        found += _home(piece, [one for one in piece.slides if one.slider.id == part_id])
    return found


def _of(piece: Piece, slide: Slide) -> Iterator[Finding]:
    yield from _depth(piece, slide)
    yield from _tail(piece, slide)
    yield from _slope(slide)
    if slide.choice.cutter is not None and slide.choice.slope is not None:
        yield Finding(TAIL, "note", _who(slide),
                      f"the slide of the {slide.slider.name} is sized for your cutter of "
                      f"{said(piece, slide.choice.cutter)}, "
                      f"{slide.choice.slope.degrees_text} degrees a side: one pass makes the "
                      "socket where it is entered", (("cutter", slide.choice.cutter),))
    yield from _beside(piece, slide)


def _who(slide: Slide) -> tuple[str, str]:
    return (slide.slider.id, slide.bearer.id)


def _depth(piece: Piece, slide: Slide) -> Iterator[Finding]:
    thick = slide.bearer.size(FACE_NORMAL[bearer_face(slide)][0])
    left, least = thick - slide.depth, piece.choice.wall_least
    figures = (("depth", slide.depth), ("board", thick), ("left", left))
    words = f"the socket for the {slide.slider.name} in the {slide.bearer.name}"
    if left <= 0:
        yield Finding(DEPTH, "stop", _who(slide),
                      f"{words} is {said(piece, slide.depth)} deep in {said(piece, thick)} of wood",
                      figures, "make it less deep")
    elif slide.depth > thick * default_ratio("slide_most"):
        yield Finding(DEPTH, "caution", _who(slide),
                      f"{words} takes {said(piece, slide.depth)} of {said(piece, thick)}, more "
                      f"than half: {said(piece, left)} is left behind it", figures,
                      "make it at most half as deep as the board is thick")
    elif left < least:
        yield Finding(DEPTH, "caution", _who(slide),
                      f"{words} leaves only {said(piece, left)} behind it; least "
                      f"{said(piece, least)}", figures, "make it less deep")


def _tail(piece: Piece, slide: Slide) -> Iterator[Finding]:
    """The tail's tip may not be thicker than its board, its neck not too thin."""
    slider = slide.slider
    for side in SIDES:
        lean, shoulder = slide.lean(side, slide.tail), slide.shoulder(side)
        if shoulder < lean:
            yield Finding(TAIL, "stop", _who(slide),
                          f"the tail of the {slider.name} would stand out "
                          f"{said(piece, lean - shoulder)} beyond its {side} at the tip",
                          (("shoulder", shoulder), ("slope over the tail", lean)),
                          f"make that shoulder at least {said(piece, lean)}, or leave it out")
    closed = slide.neck - slide.choice.taper
    where = " at the closed end" if slide.choice.taper else ""
    if closed <= 0:
        yield Finding(TAIL, "stop", _who(slide),
                      f"nothing is left of the tail's neck of the {slider.name}{where}",
                      (("neck", closed),), "make the shoulders, the slope or the taper less")
    elif closed * 3 < slider.thickness:
        yield Finding(TAIL, "caution", _who(slide),
                      f"the neck of the {slider.name}'s tail is only {said(piece, closed)}{where}, "
                      f"less than a third of {said(piece, slider.thickness)}",
                      (("neck", closed), ("thickness", slider.thickness)),
                      "make the shoulders, the slope or the taper less")


def _slope(slide: Slide) -> Iterator[Finding]:
    slope = slide.choice.slope
    if slope is None or STEEPEST <= slope.run <= FLATTEST:
        return
    how = "steeper than 1 in 4: its corners are short grain" if slope.run < STEEPEST else (
        "less than 1 in 8 and holds little")
    yield Finding(SLOPE, "caution", _who(slide),
                  f"the slide of the {slide.slider.name} slopes {slope.ratio_text} "
                  f"({slope.degrees_text} degrees), {how}", (("run", slope.run),),
                  "take 1 in 6 to 1 in 8")


def _beside(piece: Piece, slide: Slide) -> Iterator[Finding]:
    """Wood between the socket and the bearer's ends; none at all makes a rabbet, which may be
    meant.
    """
    across = axis_along(slide.bearer, slide.slider, "T")
    cuts = [cut for cut in piece.cuts_of(slide.bearer.id) if cut.joint == slide.name]
    low = min(cut.shape.reach(across)[0] for cut in cuts)
    high = max(cut.shape.reach(across)[1] for cut in cuts)
    least = piece.choice.wall_least
    for left, end in ((low, "before"), (slide.bearer.size(across) - high, "beyond")):
        if left >= least or (left == 0 and slide.choice.square):
            continue
        level: Level = "stop" if left <= 0 else "caution"
        many = f"only {said(piece, left)} of" if left > 0 else "no"
        yield Finding(ENDS, level, _who(slide),
                      f"{many} wood is left {end} the socket for the {slide.slider.name} in the "
                      f"{slide.bearer.name}; least {said(piece, least)}",
                      (("left", left), ("least", least)), "move it away from the end")


# -- sliding home


def _home(piece: Piece, slides: list[Slide]) -> Iterator[Finding]:
    """Which way a board goes in, how far, and what stands in its way."""
    slider = slides[0].slider
    enters = {slide.choice.enter for slide in slides}
    run = max(slider.width - slide.choice.stop for slide in slides)
    if len(enters) > 1:
        yield Finding(HOME, "stop", (slider.id,),
                      f"the {slider.name} is to be entered from the back at one end and from the "
                      "front at the other", (), "enter both ends from the same edge")
        return
    enter = enters.pop()
    path = _path(slider, run, enter)
    bearers = {slide.bearer.id for slide in slides}
    fixed: list[Part] = []
    loose: list[Part] = []
    for part in piece.parts:
        if part.id == slider.id or part.id in bearers or not _in_the_way(piece, part, path):
            continue
        (fixed if _fixed(piece, part, bearers) else loose).append(part)
    yield Finding(HOME, "note", (slider.id,),
                  f"the {slider.name} slides in from the {enter}, {said(piece, run)} to travel"
                  + (f", before the {_names(loose)}" if loose else ""), (("travel", run),))
    if fixed:
        yield Finding(HOME, "stop", (slider.id, *(part.id for part in fixed)),
                      f"the {slider.name} can't slide in from the {enter}: the {_names(fixed)} "
                      "stands in its way and is joined to what bears it", (("travel", run),),
                      f'write enter = "{"front" if enter == "back" else "back"}", or shorten what '
                      "stands there")


def _in_the_way(piece: Piece, part: Part, path: Box) -> bool:
    """True where a part's finished wood stands in a path."""
    low, middle, high = path
    shared = common(block((low, middle, high)), part_body(part))
    if shared is None:
        return False
    return bool(left_of(shared, placed_cuts(part, piece.cuts_of(part.id))))


def _names(parts: list[Part]) -> str:
    """A few by their names, more by what they are."""
    names = [part.name for part in parts]
    if len(parts) > 2:
        names = list(dict.fromkeys(part.kind for part in parts))
    return " and the ".join(names)


def _path(slider: Part, run: Fraction, enter: str) -> Box:
    """Where the board passes on its way in, beyond where it stands at last: its box, moved."""
    box = list(part_box(slider))
    along = piece_axis(slider.placement.W)
    forward = sense(slider.placement.W) > 0
    low, high = box[along]
    # out through the edge that it is entered from
    box[along] = (high, high + run) if (enter == "back") == forward else (low - run, low)
    return tuple(box)


def _fixed(piece: Piece, part: Part, bearers: set[str]) -> bool:
    """True where a part is joined to a bearer by tenons or dovetails: it stands before anything
    slides. What lies in a rabbet, slides itself or runs loose can wait.
    """
    for joint in piece.joints:
        if part.id == joint.rail.id and joint.bearer.id in bearers:
            return True
        if part.id == joint.bearer.id and joint.rail.id in bearers:
            return True
    return any(
        {corner.tails.id, corner.pins.id} & bearers and part.id in (
            corner.tails.id, corner.pins.id)
        for corner in piece.corners
    )

