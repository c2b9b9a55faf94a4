"""Is there wood for each tenon where it lies in its rail."""

from __future__ import annotations

from layout.builds.tenoned import TenonedRail
from layout.checks.words import said
from layout.defaults import default_ratio
from layout.mark import Finding
from layout.part import FACE_NORMAL
from layout.piece import Piece

ROOM = "wood for the tenon"
WEB = "web between tenon and seat"
CHISEL = "tenon thickness from the chisels"
STOUT = "tenon stout enough"
GROOVE = "groove clear of the tenon"
# Of the rail's thickness, or of what is left of it in front of a rabbet.
SHARES = {
    "tenon_share": "a third",
    "bare_share": "half",
    "twin_share": "a fifth",
    "line_share": "half",
}


def findings(piece: Piece) -> list[Finding]:
    """Stops for tenons that stick out of their rail or into a seat; cautions for thin webs."""
    found: list[Finding] = []
    for one in piece.rails:
        rail, size = one.rail.part, one.size
        far = size.far
        if size.top < 0 or size.bottom < 0:
            off = -min(size.top, size.bottom)
            found.append(
                Finding(
                    ROOM,
                    "stop",
                    (rail.id,),
                    f"the {rail.name} came out {said(piece, rail.width)} wide, "
                    f"{said(piece, off)} too narrow for its tenon",
                    (("rail width", rail.width), ("too narrow by", off)),
                    "make its tenon and mortises narrower, or the rail anew",
                )
            )
            continue
        if size.outer < 0 or size.inner < 0:
            found.append(
                Finding(
                    ROOM,
                    "stop",
                    (rail.id,),
                    f"the {rail.name}'s tenon, {said(piece, size.thickness)} thick, comes out of "
                    f"the rail: {said(piece, size.outer)} at the face, {said(piece, size.inner)} "
                    f"at the back; wood for it {said(piece, size.wood)}",
                    (
                        ("tenon thickness", size.thickness),
                        ("wood", size.wood),
                        ("outer shoulder", size.outer),
                        ("inner shoulder", size.inner),
                    ),
                    "make the tenon thinner, the rail thicker or the rabbet shallower",
                )
            )
            continue
        found += _stout(piece, one) + _chosen(piece, one)
        web = size.wood - far
        least = one.rail.choice.tenon.web_least
        # In line with the rabbet there is nothing thin between: George A. Ross, Elementary Course
        # in Woodwork, 1901, Exercise 6, Fig. 87 (three parts of 3/8).
        if size.wood < rail.thickness and web < least and web != 0:
            gone = web < 0
            found.append(
                Finding(
                    WEB,
                    "stop" if gone else "caution",
                    (rail.id,),
                    (
                        f"the rabbet cuts {said(piece, -web)} into the tenon of the {rail.name}"
                        if gone
                        else f"only {said(piece, web)} of wood between the tenon of the "
                        f"{rail.name} and its rabbet; least {said(piece, least)}"
                    ),
                    (("web", web), ("least", least)),
                    "make the outer shoulder or the tenon less, or the rail thicker",
                )
            )
    found += _grooves(piece)
    return found


def _chosen(piece: Piece, one: TenonedRail) -> list[Finding]:
    """A note where the tenon's thickness was left to the chisels."""
    rule = one.size.section.share
    if not rule:
        return []
    stock, of = one.rail.choice.thickness, "the rail"
    if rule == "line_share":
        stock, of = one.size.wood, "the wood in front of its rabbet"
    share = stock * default_ratio(rule)
    word = SHARES[rule]
    return [
        Finding(
            CHISEL,
            "note",
            (one.rail.part.id,),
            f"the {one.rail.part.name}'s tenon is as thick as the chisel nearest {word} of "
            f"{of}: {word} is {said(piece, share)}, the chisel {said(piece, one.size.thickness)}",
            ((f"{word} of {of}", share), ("chisel", one.size.thickness)),
        )
    ]


def _stout(piece: Piece, one: TenonedRail) -> list[Finding]:
    """Cautions for tenons too short or too narrow to hold.

    Short: in the drawings that were read, tenons in legs are a third to three quarters of the
    leg long (Mission Furniture, 1909 to 1912; Foster, 1911; Zerbe, 1914). Narrow: narrower than
    thick is common practice, no source.
    """
    found = []
    size, rail = one.size, one.rail.part
    meeting = one.rail.meetings[0]
    leg = meeting.bearer.size(FACE_NORMAL[meeting.face][0])
    if size.length * 4 < leg and not one.rail.choice.tenon.stub:
        found.append(
            Finding(
                STOUT,
                "caution",
                (rail.id,),
                f"the {rail.name}'s tenon is {said(piece, size.length)} long in a leg of "
                f"{said(piece, leg)}: less than a quarter",
                (("tenon length", size.length), ("leg", leg)),
                "a third to three quarters of the leg is usual",
            )
        )
    if size.width < size.thickness:
        # less than half as wide as thick it is no tenon: common practice, no source
        found.append(
            Finding(
                STOUT,
                "stop" if size.width * 2 < size.thickness else "caution",
                (rail.id,),
                f"the {rail.name}'s tenon is {said(piece, size.width)} wide and "
                f"{said(piece, size.thickness)} thick",
                (("tenon width", size.width), ("tenon thickness", size.thickness)),
                "make the shoulders or the lip less, or the rail wider",
            )
        )
    return found


def _grooves(piece: Piece) -> list[Finding]:
    """A groove that is not over the tenon's edge shoulder cuts the tenon itself."""
    found = []
    for panel in piece.panels:
        if panel.choice.seat.kind != "groove":
            continue
        start = panel.size.plane
        for rail, edge in ((panel.upper, "far edge"), (panel.lower, "edge")):
            size = next(r.size for r in piece.rails if r.rail is rail)
            shoulder = size.bottom if edge == "far edge" else size.top
            groove = (start - rail.choice.set_in, start - rail.choice.set_in + panel.part.thickness)
            across = max(
                min(groove[1], far) - max(groove[0], near)
                for near, far in size.section.spans("T")
            )
            cut = panel.size.lip - shoulder
            least = rail.choice.tenon.web_least
            if cut > 0 and -least < across <= 0:
                beside = "no" if across == 0 else f"only {said(piece, -across)} of"
                found.append(
                    Finding(
                        WEB,
                        "caution",
                        (rail.part.id, panel.part.id),
                        f"{beside} wood between the tenon of the {rail.part.name} and the groove "
                        f"for the {panel.part.name}; least {said(piece, least)}",
                        (("web", -across), ("least", least)),
                        "move the groove, or make the shoulder there as wide as the groove is deep",
                    )
                )
            if across > 0 and cut > 0:
                found.append(
                    Finding(
                        GROOVE,
                        "stop",
                        (rail.part.id, panel.part.id),
                        f"the groove for the {panel.part.name} takes {said(piece, cut)} off the "
                        f"tenon of the {rail.part.name}",
                        (("groove depth", panel.size.lip), ("shoulder", shoulder)),
                        "make the shoulder there at least as wide as the groove is deep",
                    )
                )
    return found
