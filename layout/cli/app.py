"""The command line: what can be typed, with the help a maker reads. The work is elsewhere."""

# Annotations stay objects in this module: typer would evaluate each of them four times at every
# start if they were text (from __future__ import annotations).
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from layout.cli.later import leave_for_later
from layout.errors import ShoulderlineError

if TYPE_CHECKING:
    from layout.cli.opened import MilledWords

app = typer.Typer(
    name="shoulderline",
    help="From overall sizes and joint choices to exact sums and full-size paper.",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)
joint_app = typer.Typer(
    help="One joint by itself, without a piece file.", no_args_is_help=True, rich_markup_mode=None
)
app.add_typer(joint_app, name="joint")
build_app = typer.Typer(
    help="One thing by itself, without a piece file.", no_args_is_help=True, rich_markup_mode=None
)
app.add_typer(build_app, name="build")

PieceFile = Annotated[Path, typer.Argument(metavar="PIECE", help="The piece file (TOML).")]
Out = Annotated[Path, typer.Option("--out", metavar="DIR", help="Folder that the sheets go to.")]
PaperName = Annotated[
    str | None,
    typer.Option(
        "--paper",
        metavar="PAPER",
        help="letter, legal, tabloid, A4, A3, or a roll such as 'roll 24 in'. "
        "Left out: letter for inch pieces, A4 for metric ones.",
    ),
]
Formats = Annotated[str, typer.Option("--formats", metavar="FORMATS", help="pdf, svg, or pdf,svg.")]
CardName = Annotated[
    str | None,
    typer.Option(
        "--card",
        metavar="CARD",
        help="Card size: index (3 x 5 in) or A6. Left out: by the piece's unit.",
    ),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON: exact lengths, format 1.")]
AsMilled = Annotated[
    list[str] | None,
    typer.Option(
        "--as-milled",
        metavar="PART.SIZE=SIZE",
        help="A part's width or thickness as it came off the machines, such as "
        "'front left leg.width=2 31/64'; may be given again for each size. It counts before the "
        "file's own [as_milled].",
    ),
]
Held = Annotated[
    str | None,
    typer.Option(
        "--held",
        metavar="WHAT",
        help="What measured parts leave alone: overall (the size over the legs) or shoulders "
        "(the shoulder distances, where rails are cut already). Left out: as the file says, "
        "overall.",
    ),
]
DEFAULT_OUT = Path("templates_out")

# What every command without a piece file asks as well.
UnitName = Annotated[
    str, typer.Option("--unit", metavar="UNIT", help="in or mm: what bare numbers are in.")
]
RuleName = Annotated[
    str | None,
    typer.Option("--rule", metavar="RULE", help="Show sizes to this graduation: 1/32 in, 0.5 mm."),
]
BothUnits = Annotated[
    bool, typer.Option("--both-units", help="Show every size in inches and millimetres.")
]


def _milled(sizes: list[str] | None, held: str | None) -> "MilledWords":
    from layout.cli.opened import MilledWords

    return MilledWords(tuple(sizes or ()), held)


def _say_version(asked: bool) -> None:
    if asked:
        from importlib.metadata import version

        print(f"shoulderline {version('shoulderline')}")
        raise typer.Exit


@app.callback()
def whole(
    version: Annotated[
        bool,
        typer.Option("--version", help="Say which version this is.", callback=_say_version,
                     is_eager=True),
    ] = False,
) -> None:
    """From overall sizes and joint choices to exact sums and full-size paper."""


@app.command()
def packet(
    piece: PieceFile,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
    card: CardName = None,
    as_milled: AsMilled = None,
    held: Held = None,
) -> None:
    """Every sheet of a piece: drawing, lists, sums, checks, orders, cards, sticks, templates."""
    from layout.cli.packet import ALL, write_packet

    milled = _milled(as_milled, held)
    raise typer.Exit(write_packet(piece, ALL, out, paper, formats, card, milled))


@app.command()
def card(
    piece: PieceFile,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf",
    card: CardName = None,
    as_milled: AsMilled = None,
    held: Held = None,
) -> None:
    """The gauge cards: every setting once, with what it strikes."""
    from layout.cli.packet import write_packet

    milled = _milled(as_milled, held)
    raise typer.Exit(write_packet(piece, ("card",), out, paper, formats, card, milled))


@app.command()
def sticks(
    piece: PieceFile,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf",
    as_milled: AsMilled = None,
    held: Held = None,
) -> None:
    """A full-size stick for every distinct part."""
    from layout.cli.packet import write_packet

    milled = _milled(as_milled, held)
    raise typer.Exit(write_packet(piece, ("sticks",), out, paper, formats, None, milled))


@app.command()
def templates(
    piece: PieceFile,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf",
    as_milled: AsMilled = None,
    held: Held = None,
) -> None:
    """Full-size templates of every mortise, tenon and seat."""
    from layout.cli.packet import write_packet

    milled = _milled(as_milled, held)
    raise typer.Exit(write_packet(piece, ("templates",), out, paper, formats, None, milled))


@app.command()
def sums(piece: PieceFile, as_milled: AsMilled = None, held: Held = None) -> None:
    """Every size that was worked out, as an addition to check with a pencil."""
    from layout.cli.tell import tell_sums

    raise typer.Exit(tell_sums(piece, _milled(as_milled, held)))


@app.command()
def check(piece: PieceFile, as_milled: AsMilled = None, held: Held = None) -> None:
    """Does anything run into anything; is there wood enough. Exit code 1 on a stop."""
    from layout.cli.tell import tell_checks

    raise typer.Exit(tell_checks(piece, _milled(as_milled, held)))


@app.command()
def numbers(
    piece: PieceFile, json: AsJson = False, as_milled: AsMilled = None, held: Held = None
) -> None:
    """The cut list, the settings and the parts as a table, or everything as JSON."""
    from layout.cli.tell import tell_numbers

    raise typer.Exit(tell_numbers(piece, json, _milled(as_milled, held)))


@app.command()
def stock(
    piece: PieceFile,
    json: AsJson = False,
    csv: Annotated[
        bool, typer.Option("--csv", help="Print the list for a spreadsheet.")
    ] = False,
    cut_list: Annotated[
        bool, typer.Option("--cut-list", help="Print the cut list alone, not what to buy for it.")
    ] = False,
) -> None:
    """The cut list, boards to saw out for every part, and what to buy of each timber."""
    from layout.cli.stock import tell_stock

    raise typer.Exit(tell_stock(piece, json, csv, cut_list))


@app.command()
def boards(piece: PieceFile, json: AsJson = False) -> None:
    """The board plan: every part on a board of the rack or one to buy, and how it is sawn."""
    from layout.cli.boards import tell_boards

    raise typer.Exit(tell_boards(piece, json))


@app.command()
def milling(piece: PieceFile, json: AsJson = False) -> None:
    """The order of milling: every machine set once for each size, with what passes then."""
    from layout.cli.milling import tell_milling

    raise typer.Exit(tell_milling(piece, json))


@app.command()
def marking(piece: PieceFile, json: AsJson = False) -> None:
    """The marking order: what lies together, every tick, knife line and gauge setting in turn."""
    from layout.cli.marking import tell_marking

    raise typer.Exit(tell_marking(piece, json))


@app.command()
def kit(
    piece: Annotated[
        Path | None,
        typer.Argument(metavar="[PIECE]", help="A piece file (TOML), to see what counts for it."),
    ] = None,
    unit: Annotated[
        str | None,
        typer.Option(
            "--unit",
            metavar="UNIT",
            help="in or mm, where no piece is named. Left out: as the shop file says, in.",
        ),
    ] = None,
) -> None:
    """The tools that sizes are chosen from: which lists count, and where each comes from."""
    from layout.cli.tools import tell_kit

    raise typer.Exit(tell_kit(piece, unit))


@app.command()
def movement(
    timber: Annotated[
        str, typer.Argument(metavar="WOOD", help="The wood: 'white oak', cherry, 'European oak'.")
    ],
    width: Annotated[
        str | None, typer.Option("--width", metavar="SIZE", help="The board's width today.")
    ] = None,
    thickness: Annotated[
        str | None, typer.Option("--thickness", metavar="SIZE", help="Its thickness today.")
    ] = None,
    now: Annotated[
        str,
        typer.Option(
            "--from",
            metavar="MOISTURE",
            help="How moist it is today: a meter's reading, 8, or the air, '68 F, 45 %'.",
        ),
    ] = "8",
    to: Annotated[
        list[str] | None,
        typer.Option(
            "--to",
            metavar="MOISTURE",
            help="How moist it will be; may be given again. Left out: 6 and 10.",
        ),
    ] = None,
    sawn: Annotated[
        str,
        typer.Option(
            "--sawn",
            metavar="WAY",
            help="flat, quarter, or rift: its rings half way between the two.",
        ),
    ] = "flat",
    unit: UnitName = "in",
    rule: RuleName = None,
    json: AsJson = False,
) -> None:
    """How much wider and thicker a board becomes between two moistures.

    Example: shoulderline movement "white oak" --width "11 1/2" --from 8 --to "75 F, 65 %"
    """
    from layout.cli.answer import Shown
    from layout.cli.movement import BoardWords, tell_movement

    words = BoardWords(timber, width, thickness, now, tuple(to or ("6", "10")), sawn)
    raise typer.Exit(tell_movement(words, Shown(unit, rule, False, json)))


def _size(flag: str, words: str) -> object:
    return typer.Option(flag, help=words, metavar="SIZE")


Slope = Annotated[
    str | None,
    typer.Option(
        "--slope",
        metavar="SLOPE",
        help="How the tails slope: 1:7, '5/8 in 3', '8 deg'. Left out: 1:7.",
    ),
]
Pin = Annotated[
    str | None, _size("--pin", "A pin's narrowest width, at the end. Left out: 1/4 in, 6 mm.")
]
HalfPin = Annotated[
    str | None,
    _size(
        "--half-pin",
        "The narrowest width of both half pins. Left out: as wide at the baseline as a whole pin; "
        "less to let a groove fall inside a tail, more beside a rabbet.",
    ),
]
Tails = Annotated[
    str | None, typer.Option("--tails", metavar="COUNT", help="How many tails.")
]
TailWidth = Annotated[
    str | None,
    _size(
        "--tail-width",
        "About how wide a tail is at its end, instead of how many. Left out: 1 1/4 in, 32 mm.",
    ),
]


Enter = Annotated[
    str | None,
    typer.Option(
        "--enter",
        metavar="EDGE",
        help="back or front: from which edge it is slid in. Left out: back.",
    ),
]
Stop = Annotated[
    str | None,
    _size(
        "--stop",
        "How far the socket ends short of the closed edge; the board is notched there. Left out: "
        "it runs right across.",
    ),
]
Room = Annotated[
    str | None, _size("--room", "Free space at the bottom. Left out: 1/64 in, 0.5 mm.")
]
Into = Annotated[str, _size("--into", "Thickness of the board that it goes into.")]
Run = Annotated[str, _size("--width", "Width of both boards, which is the run.")]


@joint_app.command("tenon")
def joint_tenon(
    rail_width: Annotated[str, _size("--rail-width", "The rail, seen from outside.")],
    rail_thickness: Annotated[str, _size("--rail-thickness", "The rail, front to back.")],
    leg_width: Annotated[str, _size("--leg-width", "The leg, seen from the front.")],
    tenon_length: Annotated[
        str | None,
        _size(
            "--length",
            "How far the tenon stands out. Left out: the longest that leaves a sound wall behind "
            "the mortise, at most 3/4 of the leg.",
        ),
    ] = None,
    leg_thickness: Annotated[
        str | None,
        _size("--leg-thickness", "The leg, seen from the side. Left out: square."),
    ] = None,
    over: Annotated[
        str | None,
        _size(
            "--over",
            "Overall size over both legs, for shoulder distance and cut length. Left out: the legs "
            "are drawn 12 in, 300 mm apart.",
        ),
    ] = None,
    thickness: Annotated[
        str | None,
        _size("--thickness", "Tenon thickness. Left out: the chisel nearest a third of the rail."),
    ] = None,
    outer_shoulder: Annotated[
        str | None,
        _size("--outer-shoulder", "Shoulder at the face. Left out: the tenon is centred."),
    ] = None,
    inner_shoulder: Annotated[
        str | None,
        _size("--inner-shoulder", "Shoulder at the back, instead of the one at the face."),
    ] = None,
    barefaced: Annotated[
        str | None,
        typer.Option(
            "--barefaced",
            metavar="SIDE",
            help="face or back: no shoulder there. The tenon is then nearest half of the rail.",
        ),
    ] = None,
    stub: Annotated[
        bool, typer.Option("--stub", help="A short tenon: with --length left out, 1/3 of the leg.")
    ] = False,
    top_shoulder: Annotated[
        str | None, _size("--top-shoulder", "Left out: 1/4 in, 6 mm.")
    ] = None,
    bottom_shoulder: Annotated[
        str | None, _size("--bottom-shoulder", "Left out: 1/4 in, 6 mm.")
    ] = None,
    glue_room: Annotated[
        str | None,
        _size("--glue-room", "How much deeper the mortise is. Left out: 1/8 in, 2 mm."),
    ] = None,
    haunch: Annotated[
        str | None,
        typer.Option(
            "--haunch",
            metavar="KIND",
            help="square or sloped: a short shelf beside the tenon, at the rail's top edge.",
        ),
    ] = None,
    haunch_width: Annotated[
        str | None,
        _size("--haunch-width", "Left out: a third of the rail, a quarter beside a pair."),
    ] = None,
    haunch_length: Annotated[
        str | None,
        _size("--haunch-length", "Left out: 1/2 in, 12 mm, but at most half of the tenon."),
    ] = None,
    pair: Annotated[
        bool, typer.Option("--pair", help="Two tenons one above the other.")
    ] = False,
    web: Annotated[
        str | None,
        _size("--web", "Between the tenons of a pair. Left out: as wide as each of them."),
    ] = None,
    twin: Annotated[
        bool,
        typer.Option("--twin", help="Two tenons side by side, their gap as wide as each of them."),
    ] = False,
    through: Annotated[
        bool, typer.Option("--through", help="The tenon goes through the leg.")
    ] = False,
    projection: Annotated[
        str | None,
        _size("--projection", "How far a through tenon stands proud. Left out: flush."),
    ] = None,
    wedges: Annotated[
        str | None,
        typer.Option(
            "--wedges", metavar="COUNT", help="1 or 2 wedges in saw cuts of a through tenon."
        ),
    ] = None,
    key: Annotated[
        bool, typer.Option("--key", help="A tapered key through a tenon that stands proud.")
    ] = False,
    pegs: Annotated[
        str | None,
        typer.Option(
            "--pegs", metavar="COUNT", help="Pegs through each tenon; 0: by the tenon's width."
        ),
    ] = None,
    draw: Annotated[
        str | None,
        _size(
            "--draw",
            "How much nearer the shoulder the tenon's peg hole is. Left out: 1/4 of the peg; 0: "
            "none.",
        ),
    ] = None,
    set_in: Annotated[str, _size("--set-in", "Rail face behind leg face.")] = "0",
    panel: Annotated[
        str | None,
        _size("--panel", "Panel thickness, in a rabbet along the rail's lower edge."),
    ] = None,
    rabbet_depth: Annotated[
        str | None,
        _size("--rabbet-depth", "From the back of the rail. Left out: the panel's thickness."),
    ] = None,
    lip: Annotated[
        str | None,
        _size("--lip", "Width of the rabbet. Left out: 3/8 in, 10 mm."),
    ] = None,
    run_through: Annotated[
        bool,
        typer.Option("--run-through", help="The leg's rabbet runs past the rail: long shoulder."),
    ] = False,
    unit: UnitName = "in",
    rule: RuleName = None,
    both_units: BothUnits = False,
    json: AsJson = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write its templates and cards too, to --out.")
    ] = False,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
) -> None:
    """A tenon and its mortise: sizes, sums and gauge settings.

    Sizes are written as makers write them: "2 3/8", 2-3/8, 60mm, "1 ft 2 in".

    Example: shoulderline joint tenon --over 48 --leg-width "2 1/2" --rail-width 4
    --rail-thickness "1 1/8" --length "1 1/4" --thickness 3/8 --panel 1/4
    """
    from layout.cli.joint import tell_tenon
    from layout.cli.tenon_options import MoreWords, TenonWords

    words = TenonWords(
        rail_width=rail_width,
        rail_thickness=rail_thickness,
        length=tenon_length,
        leg_width=leg_width,
        leg_thickness=leg_thickness,
        over=over,
        thickness=thickness,
        outer_shoulder=outer_shoulder,
        top_shoulder=top_shoulder,
        bottom_shoulder=bottom_shoulder,
        glue_room=glue_room,
        set_in=set_in,
        panel=panel,
        rabbet_depth=rabbet_depth,
        lip=lip,
        run_through=run_through,
        unit=unit,
        rule=rule,
        both_units=both_units,
        more=MoreWords(
            inner_shoulder=inner_shoulder,
            barefaced=barefaced,
            stub=stub,
            haunch=haunch,
            haunch_width=haunch_width,
            haunch_length=haunch_length,
            pair=pair,
            web=web,
            twin=twin,
            through=through,
            projection=projection,
            wedges=wedges,
            key=key,
            pegs=pegs,
            draw=draw,
        ),
    )
    raise typer.Exit(tell_tenon(words, json, (out, paper, formats) if write else None))


@joint_app.command("dovetail")
def joint_dovetail(
    width: Annotated[str, _size("--width", "The boards' width.")],
    tail_board: Annotated[str, _size("--tail-board", "Thickness of the board with the tails.")],
    pin_board: Annotated[str, _size("--pin-board", "Thickness of the board with the pins.")],
    slope: Slope = None,
    pin: Pin = None,
    half_pin: HalfPin = None,
    tails: Tails = None,
    tail_width: TailWidth = None,
    pins_at: Annotated[
        str | None,
        typer.Option(
            "--pins-at",
            metavar="SIZES",
            help="The middles of the pins from the face edge, instead of how many tails: "
            "'1 1/4, 3, 5'.",
        ),
    ] = None,
    graduated: Annotated[
        str | None,
        typer.Option(
            "--graduated",
            metavar="SHARE",
            help="Each tail is this share of the next one toward the middle: 7/8. Left out: all "
            "alike.",
        ),
    ] = None,
    half_tails: Annotated[
        bool, typer.Option("--half-tails", help="Half tails at the edges, instead of half pins.")
    ] = False,
    lap: Annotated[
        str | None,
        _size("--lap", "Wood of the pin board over the tails' ends. Left out: through dovetails."),
    ] = None,
    lapped: Annotated[
        bool, typer.Option("--lapped", help="Lapped, with a lap of 1/4 of the pin board.")
    ] = False,
    first: Annotated[
        str | None,
        typer.Option(
            "--first",
            metavar="WHICH",
            help="tails or pins: what is cut first, to mark the other from it. Left out: tails.",
        ),
    ] = None,
    groove_up: Annotated[
        str | None,
        _size(
            "--groove-up",
            "A groove for a bottom, inside a tail: its lower wall above the face edge.",
        ),
    ] = None,
    groove_width: Annotated[str | None, _size("--groove-width", "How wide that groove is.")] = None,
    rabbet_width: Annotated[
        str | None,
        _size(
            "--rabbet-width",
            "A rabbet along the face edges, where a back drops in: how wide. The half pin there is "
            "at least as wide.",
        ),
    ] = None,
    rabbet_depth: Annotated[
        str | None, _size("--rabbet-depth", "How deep that rabbet is, from the face side.")
    ] = None,
    unit: UnitName = "in",
    rule: RuleName = None,
    both_units: BothUnits = False,
    json: AsJson = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write its templates and cards too, to --out.")
    ] = False,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
) -> None:
    """A dovetailed corner: tails, pins, baselines, sums and gauge settings.

    Sizes are written as makers write them: "2 3/8", 2-3/8, 60mm, "1 ft 2 in".

    Example: shoulderline joint dovetail --width 6 --tail-board 1/2 --pin-board 3/4 --tails 4
    --lapped
    """
    from layout.cli.answer import Shown
    from layout.cli.dovetail import tell_dovetail
    from layout.cli.dovetail_options import DovetailWords, SpacingWords

    words = DovetailWords(
        width=width,
        tail_board=tail_board,
        pin_board=pin_board,
        spacing=SpacingWords(slope, pin, half_pin, tails, tail_width),
        pins_at=pins_at,
        graduated=graduated,
        half_tails=half_tails,
        lap=lap,
        lapped=lapped,
        first=first,
        groove_up=groove_up,
        groove_width=groove_width,
        rabbet_width=rabbet_width,
        rabbet_depth=rabbet_depth,
    )
    shown = Shown(unit, rule, both_units, json, (out, paper, formats) if write else None)
    raise typer.Exit(tell_dovetail(words, shown))


@build_app.command("drawer")
def build_drawer(
    width: Annotated[str, _size("--width", "The opening's clear width.")],
    height: Annotated[str, _size("--height", "The opening's clear height.")],
    depth: Annotated[
        str,
        _size("--depth", "From the opening's front to the nearest thing behind the drawer."),
    ],
    front: Annotated[
        str | None, _size("--front", "Thickness of the front. Left out: 3/4 in, 20 mm.")
    ] = None,
    sides: Annotated[
        str | None, _size("--sides", "Thickness of the sides. Left out: 1/2 in, 12 mm.")
    ] = None,
    back: Annotated[
        str | None, _size("--back", "Thickness of the back. Left out: as the sides.")
    ] = None,
    style: Annotated[
        str | None,
        typer.Option(
            "--style", metavar="STYLE", help="flush, 'set in', or lipped. Left out: flush."
        ),
    ] = None,
    set_in: Annotated[
        str | None, _size("--set-in", "How far a front that is set in stands back.")
    ] = None,
    lip: Annotated[
        str | None,
        _size("--lip", "How far a lipped front reaches beyond the sides. Left out: 3/8 in, 10 mm."),
    ] = None,
    lip_thickness: Annotated[
        str | None, _size("--lip-thickness", "How thick its lip is. Left out: 1/4 in, 6 mm.")
    ] = None,
    bottom: Annotated[
        str | None,
        typer.Option("--bottom", metavar="KIND", help="plywood or solid. Left out: plywood."),
    ] = None,
    bottom_thickness: Annotated[
        str | None, _size("--bottom-thickness", "Left out: 1/4 in, 6 mm.")
    ] = None,
    tongue: Annotated[
        str | None,
        _size(
            "--tongue",
            "The groove's width, where the bottom is thicker and rabbeted underneath. Left out: as "
            "the bottom is thick.",
        ),
    ] = None,
    groove_up: Annotated[
        str | None,
        _size(
            "--groove-up",
            "The bottom's groove above the lower edge of the sides. Left out: 1/4 in, 6 mm.",
        ),
    ] = None,
    stopped: Annotated[
        bool,
        typer.Option("--stopped", help="The front's groove stops short where it would show."),
    ] = False,
    slips: Annotated[
        bool,
        typer.Option("--slips", help="Grooved slips inside the sides, instead of grooved sides."),
    ] = False,
    runners: Annotated[
        str | None,
        _size("--runners", "Runners of this thickness under the sides. Left out: none."),
    ] = None,
    slope: Slope = None,
    pin: Pin = None,
    half_pin: HalfPin = None,
    tails: Tails = None,
    tail_width: TailWidth = None,
    lap: Annotated[
        str | None,
        _size(
            "--lap",
            "Wood of the front over the tails' ends. Left out: 1/4 of the front, or the lip's "
            "thickness.",
        ),
    ] = None,
    through: Annotated[
        bool, typer.Option("--through", help="Through dovetails in the front too; no lap.")
    ] = False,
    room_wide: Annotated[
        str | None,
        _size("--room-wide", "How much narrower the drawer is in all. Left out: 1/16 in, 1.5 mm."),
    ] = None,
    room_high: Annotated[
        str | None,
        _size("--room-high", "How much lower it is. Left out: 1/16 in, 1.5 mm."),
    ] = None,
    room_behind: Annotated[
        str | None,
        _size("--room-behind", "Free space behind the drawer. Left out: 1/2 in, 12 mm."),
    ] = None,
    drop: Annotated[
        str | None,
        _size("--drop", "How much lower the back is than the sides. Left out: 1/4 in, 6 mm."),
    ] = None,
    unit: UnitName = "in",
    rule: RuleName = None,
    both_units: BothUnits = False,
    json: AsJson = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write its packet too, every sheet of it, to --out.")
    ] = False,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
) -> None:
    """A drawer for an opening: cut list, dovetails, sums and gauge settings.

    Sizes are written as makers write them: "2 3/8", 2-3/8, 60mm, "1 ft 2 in".

    Example: shoulderline build drawer --width 18 --height 4 --depth 16 --tails 2
    """
    from layout.cli.answer import Shown
    from layout.cli.dovetail_options import SpacingWords
    from layout.cli.drawer import DrawerWords, tell_drawer

    words = DrawerWords(
        width=width,
        height=height,
        depth=depth,
        front=front,
        sides=sides,
        back=back,
        style=style,
        set_in=set_in,
        lip=lip,
        lip_thickness=lip_thickness,
        bottom=bottom,
        bottom_thickness=bottom_thickness,
        tongue=tongue,
        groove_up=groove_up,
        stopped=stopped,
        slips=slips,
        runners=runners,
        spacing=SpacingWords(slope, pin, half_pin, tails, tail_width),
        lap=lap,
        through=through,
        room_wide=room_wide,
        room_high=room_high,
        room_behind=room_behind,
        drop=drop,
    )
    shown = Shown(unit, rule, both_units, json, (out, paper, formats) if write else None)
    raise typer.Exit(tell_drawer(words, shown))


@joint_app.command("slide")
def joint_slide(
    board_thickness: Annotated[
        str, _size("--board-thickness", "Thickness of the board that is slid in.")
    ],
    into: Into,
    width: Run,
    depth: Annotated[
        str | None,
        _size("--depth", "Depth of the socket. Left out: 1/3 of the board that it is in."),
    ] = None,
    slope: Annotated[
        str | None,
        typer.Option(
            "--slope",
            metavar="SLOPE",
            help="How the tail's sides slope: 1:7, '5/8 in 3', '8 deg'. Left out: 1:7.",
        ),
    ] = None,
    one_side: Annotated[
        str | None,
        typer.Option(
            "--one-side",
            metavar="SIDE",
            help="face or back: only this side of the tail slopes, the other is square. Left out: "
            "both slope.",
        ),
    ] = None,
    face_shoulder: Annotated[
        str | None,
        _size(
            "--face-shoulder",
            "The shoulder at the face side, where it is entered. Left out: as much as the slope "
            "takes.",
        ),
    ] = None,
    back_shoulder: Annotated[
        str | None, _size("--back-shoulder", "The shoulder at the back, likewise.")
    ] = None,
    taper: Annotated[
        str | None,
        _size("--taper", "How much narrower the run is at its closed end. Left out: not at all."),
    ] = None,
    taper_over: Annotated[
        str | None,
        _size("--taper-over", "Length of the taper, at the closed end. Left out: the whole run."),
    ] = None,
    stop: Stop = None,
    enter: Enter = None,
    room: Room = None,
    rods: Annotated[
        str | None,
        _size(
            "--rods",
            "What two rods of this diameter tell, laid in the corners of the socket and of the "
            "tail; and which rods fit.",
        ),
    ] = None,
    reading: Annotated[
        str | None,
        _size(
            "--reading",
            "With --rods: what was measured between them in the socket where it is entered, to "
            "know its widths.",
        ),
    ] = None,
    cutter: Annotated[
        str | None,
        _size(
            "--cutter",
            "Greatest diameter of a dovetail cutter, to know how far the fence of a router table "
            "is from its centre.",
        ),
    ] = None,
    unit: UnitName = "in",
    rule: RuleName = None,
    both_units: BothUnits = False,
    json: AsJson = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write its templates and cards too, to --out.")
    ] = False,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
) -> None:
    """A sliding dovetail: socket, tail, sums, gauge and machine settings.

    Sizes are written as makers write them: "2 3/8", 2-3/8, 60mm, "1 ft 2 in".

    Example: shoulderline joint slide --board-thickness 3/4 --into 3/4 --width 8 --taper 1/16
    --taper-over 2 --stop 1/2
    """
    from layout.cli.answer import Shown
    from layout.cli.slide import tell_slide
    from layout.cli.slide_options import RunWords, SlopeWords

    words = RunWords(
        board_thickness=board_thickness,
        into=into,
        width=width,
        depth=depth,
        face_shoulder=face_shoulder,
        back_shoulder=back_shoulder,
        stop=stop,
        enter=enter,
        room=room,
    )
    sloped = SlopeWords(
        slope=slope,
        one_side=one_side,
        taper=taper,
        taper_over=taper_over,
        rods=rods,
        reading=reading,
        cutter=cutter,
    )
    shown = Shown(unit, rule, both_units, json, (out, paper, formats) if write else None)
    raise typer.Exit(tell_slide(words, sloped, shown))


@joint_app.command("dogs")
def joint_dogs(
    length: Annotated[str, _size("--length", "The top, or the strip, along the row.")],
    width: Annotated[str, _size("--width", "Width of the top; of the strip for square dogs.")],
    thickness: Annotated[str, _size("--thickness", "Thickness of the top.")],
    vise: Annotated[str, _size("--vise", "How wide the vise opens.")],
    closed: Annotated[
        str | None,
        _size("--closed", "From the top's end to the vise's dog when closed. Left out: none."),
    ] = None,
    hand: Annotated[
        str | None, _size("--hand", "Of the opening, left unused. Left out: 1 in, 25 mm.")
    ] = None,
    dog: Annotated[
        str | None,
        _size("--dog", "Diameter of a dog, or its side. Left out: 3/4 in, 20 mm."),
    ] = None,
    square: Annotated[
        bool, typer.Option("--square", help="Square dogs, cut in a strip before it is glued in.")
    ] = False,
    lean: Annotated[
        str | None,
        typer.Option("--lean", metavar="SLOPE", help="Of square dogs, toward the vise: '3 deg'."),
    ] = None,
    first: Annotated[
        str | None,
        _size("--first", "From the vise's end to the middle of hole 1. Left out: the pitch."),
    ] = None,
    pitch: Annotated[
        str | None,
        _size("--pitch", "From hole to hole. Left out: 4 in, 100 mm, or what the vise serves."),
    ] = None,
    end: Annotated[
        str | None, _size("--end", "Least beyond the last hole. Left out: 1 1/2 in, 38 mm.")
    ] = None,
    line: Annotated[
        list[str] | None,
        _size("--line", "From the front edge to the middle of a row; once for each row. Left out: "
              "3 in, 75 mm."),
    ] = None,
    keep_out: Annotated[
        list[str] | None,
        typer.Option("--keep-out", metavar="ZONE",
                     help="What the holes must miss: 'left leg 2 to 4 1/2'; once for each."),
    ] = None,
    clear: Annotated[
        str | None,
        _size("--clear", "Least from a hole to what it must miss. Left out: 1/4 in, 6 mm."),
    ] = None,
    step: Annotated[
        str | None,
        _size("--step", "Grid that an uneven row stands on. Left out: 1/16 in, 1 mm."),
    ] = None,
    unit: UnitName = "in",
    rule: RuleName = None,
    both_units: BothUnits = False,
    json: AsJson = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write its strip, sticks and cards too, to --out.")
    ] = False,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
) -> None:
    """Rows of dog holes: where each stands, what they hold, a strip to bore by.

    Sizes are written as makers write them: "2 3/8", 2-3/8, 60mm, "1 ft 2 in".

    Example: shoulderline joint dogs --length 60 --width 24 --thickness 3 --vise 7 --keep-out
    "left leg 10 to 14"
    """
    from layout.cli.answer import Shown
    from layout.cli.dogs import DogWords, tell_dogs

    words = DogWords(
        length=length,
        width=width,
        thickness=thickness,
        vise=vise,
        closed=closed,
        hand=hand,
        dog=dog,
        square=square,
        lean=lean,
        first=first,
        pitch=pitch,
        end=end,
        lines=tuple(line or ()),
        clear=clear,
        step=step,
        zones=tuple(keep_out or ()),
    )
    shown = Shown(unit, rule, both_units, json, (out, paper, formats) if write else None)
    raise typer.Exit(tell_dogs(words, shown))


@joint_app.command("housing")
def joint_housing(
    board_thickness: Annotated[
        str, _size("--board-thickness", "Thickness of the board that is housed.")
    ],
    into: Into,
    width: Run,
    depth: Annotated[
        str | None,
        _size("--depth", "Depth of the housing. Left out: 1/3 of the board that it is in."),
    ] = None,
    face_shoulder: Annotated[
        str | None,
        _size(
            "--face-shoulder",
            "A shoulder at the face side. Left out: none, or what makes the housing as wide as a "
            "cutter of your own.",
        ),
    ] = None,
    back_shoulder: Annotated[
        str | None, _size("--back-shoulder", "A shoulder at the back. Left out: none.")
    ] = None,
    stop: Stop = None,
    enter: Enter = None,
    room: Room = None,
    unit: UnitName = "in",
    rule: RuleName = None,
    both_units: BothUnits = False,
    json: AsJson = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write its templates and cards too, to --out.")
    ] = False,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
) -> None:
    """A square housing: its sizes, sums and gauge settings.

    Sizes are written as makers write them: "2 3/8", 2-3/8, 60mm, "1 ft 2 in".

    Example: shoulderline joint housing --board-thickness 3/4 --into 3/4 --width 8 --depth 1/4
    --face-shoulder 1/8 --stop 1/2
    """
    from layout.cli.answer import Shown
    from layout.cli.slide import tell_slide
    from layout.cli.slide_options import RunWords

    words = RunWords(
        board_thickness=board_thickness,
        into=into,
        width=width,
        depth=depth,
        face_shoulder=face_shoulder,
        back_shoulder=back_shoulder,
        stop=stop,
        enter=enter,
        room=room,
    )
    shown = Shown(unit, rule, both_units, json, (out, paper, formats) if write else None)
    raise typer.Exit(tell_slide(words, None, shown))


@build_app.command("carcase")
def build_carcase(
    width: Annotated[str, _size("--width", "Width over all.")],
    height: Annotated[str, _size("--height", "Height over all.")],
    depth: Annotated[str, _size("--depth", "Depth over all, front to back.")],
    thickness: Annotated[str, _size("--thickness", "Thickness of its boards, and of the shelves.")],
    slope: Annotated[
        str | None,
        typer.Option(
            "--slope",
            metavar="SLOPE",
            help="How the tails slope, of the corners or with --slide of the slides: 1:7, "
            "'5/8 in 3', '8 deg'. Left out: 1:7.",
        ),
    ] = None,
    pin: Pin = None,
    tails: Tails = None,
    lap: Annotated[
        str | None,
        _size("--lap", "Wood over the tails' ends. Left out: through dovetails."),
    ] = None,
    tails_on: Annotated[
        str | None,
        typer.Option(
            "--tails-on",
            metavar="BOARDS",
            help="sides, or 'top and bottom': which boards have the tails. Left out: sides.",
        ),
    ] = None,
    slide: Annotated[
        bool,
        typer.Option(
            "--slide", help="Top and bottom slid into the sides, instead of dovetailed corners."
        ),
    ] = False,
    housing: Annotated[
        bool, typer.Option("--housing", help="Top and bottom housed square in the sides.")
    ] = False,
    top_in: Annotated[
        str | None,
        _size("--top-in", "A slid or housed top below the sides' ends. Left out: flush."),
    ] = None,
    bottom_in: Annotated[
        str | None,
        _size("--bottom-in", "A slid or housed bottom above the sides' ends. Left out: flush."),
    ] = None,
    back: Annotated[
        str | None, _size("--back", "A back of this thickness, in a rabbet. Left out: none.")
    ] = None,
    back_boards: Annotated[
        str | None,
        typer.Option(
            "--back-boards",
            metavar="COUNT",
            help="How many boards the back is made of, side by side. Left out: 1.",
        ),
    ] = None,
    shelves: Annotated[
        str | None,
        typer.Option(
            "--shelves",
            metavar="COUNT",
            help="Shelves housed in the sides, equally far apart; shelf 1 is the lowest.",
        ),
    ] = None,
    unit: UnitName = "in",
    rule: RuleName = None,
    both_units: BothUnits = False,
    json: AsJson = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write its packet too, every sheet of it, to --out.")
    ] = False,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
) -> None:
    """A carcase with shelves: cut list, corners, sums and gauge settings.

    Sizes are written as makers write them: "2 3/8", 2-3/8, 60mm, "1 ft 2 in".

    Example: shoulderline build carcase --width 30 --height 36 --depth 12 --thickness 3/4 --tails 5
    --back 1/4 --shelves 2
    """
    from layout.cli.answer import Shown
    from layout.cli.carcase import CarcaseWords, tell_carcase

    words = CarcaseWords(
        width=width,
        height=height,
        depth=depth,
        thickness=thickness,
        slope=slope,
        pin=pin,
        tails=tails,
        lap=lap,
        tails_on=tails_on,
        slide=slide,
        housing=housing,
        top_in=top_in,
        bottom_in=bottom_in,
        back=back,
        back_boards=back_boards,
        shelves=shelves,
    )
    shown = Shown(unit, rule, both_units, json, (out, paper, formats) if write else None)
    raise typer.Exit(tell_carcase(words, shown))


Now = Annotated[
    str | None,
    typer.Option(
        "--now", metavar="MOISTURE",
        help="How moist the wood is today: a meter's reading, 8, or the air, '68 F, 45 %'. With "
        "--dry and --wet; all three left out: 8, 6 and 10 %.",
    ),
]
Dry = Annotated[
    str | None,
    typer.Option("--dry", metavar="MOISTURE", help="How dry the room gets where it will stand."),
]
Wet = Annotated[
    str | None, typer.Option("--wet", metavar="MOISTURE", help="How damp it gets there.")
]
Plywood = Annotated[
    bool, typer.Option("--plywood", help="A sheet, which keeps its size, instead of solid wood.")
]
PanelEdge = Annotated[
    str | None,
    typer.Option("--edge", metavar="EDGE", help="plain, raised or tongue. Left out: plain."),
]
PanelTongue = Annotated[
    str | None,
    _size("--tongue", "Thickness of the tongue; the groove is as wide. Left out: 1/4 in, 6 mm."),
]
Border = Annotated[
    str | None, _size("--border", "A raised panel's edge to its field. Left out: 1 1/2 in, 38 mm.")
]
Step = Annotated[
    str | None, _size("--step", "From the field down to the bevel. Left out: 1/16 in, 1.5 mm.")
]
WoodBehind = Annotated[str | None, _size("--wood-behind", "Behind the tongue. Left out: none.")]
Lip = Annotated[
    str | None,
    _size("--lip", "How far it goes into the frame. Left out: 3/8 in, 10 mm, or what the year "
          "asks."),
]
PanelRoom = Annotated[
    str | None, _size("--room", "How much smaller than its grooves, along the grain.")
]
Grain = Annotated[
    str | None, typer.Option("--grain", metavar="WAY", help="up or across. Left out: up.")
]
Cover = Annotated[
    str | None, _size("--cover", "Least that it stands in each groove at its narrowest.")
]
Play = Annotated[str | None, _size("--play", "Least that is free across it at its widest.")]
Kept = Annotated[
    str | None,
    typer.Option(
        "--held", metavar="HOW",
        help="What keeps it in the middle: pins, spacers or free. Left out: pins.",
    ),
]
SawnWay = Annotated[
    str | None, typer.Option("--sawn", metavar="WAY", help="flat, quarter or rift. Left out: flat.")
]


@build_app.command("panel")
def build_panel(
    width: Annotated[str, _size("--width", "Clear width of the opening it fills.")],
    height: Annotated[str, _size("--height", "Clear height of the opening.")],
    thickness: Annotated[str, _size("--thickness", "Thickness of the panel.")],
    timber: Annotated[
        str | None,
        typer.Option("--timber", metavar="WOOD", help="'white oak', cherry, 'European oak'."),
    ] = None,
    plywood: Plywood = False,
    sawn: SawnWay = None,
    frame: Annotated[
        str | None, _size("--frame", "Thickness of the frame. Left out: 3/4 in, 20 mm.")
    ] = None,
    edge: PanelEdge = None,
    tongue: PanelTongue = None,
    border: Border = None,
    step: Step = None,
    wood_behind: WoodBehind = None,
    lip: Lip = None,
    room: PanelRoom = None,
    grain: Grain = None,
    cover: Cover = None,
    play: Play = None,
    held: Kept = None,
    now: Now = None,
    dry: Dry = None,
    wet: Wet = None,
    unit: UnitName = "in",
    rule: RuleName = None,
    both_units: BothUnits = False,
    json: AsJson = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write its sheets too, to --out.")
    ] = False,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
) -> None:
    """A panel in its grooves: its size today, and what the year makes of it.

    Example: shoulderline build panel --width 14 --height 20 --thickness 5/8 --timber cherry
    --edge raised
    """
    from layout.cli.answer import Shown
    from layout.cli.door import OnePanelWords, PanelWords, tell_panel
    from layout.cli.year_options import YearWords

    panel = PanelWords(thickness, plywood, edge, tongue, border, step, wood_behind, lip, room,
                       grain, timber, sawn, cover, play, held)
    words = OnePanelWords(width, height, frame, panel, YearWords(now, dry, wet))
    shown = Shown(unit, rule, both_units, json, (out, paper, formats) if write else None)
    raise typer.Exit(tell_panel(words, shown))


@build_app.command("door")
def build_door(
    width: Annotated[str, _size("--width", "Clear width of the opening.")],
    height: Annotated[str, _size("--height", "Clear height of the opening.")],
    thickness: Annotated[str, _size("--thickness", "Thickness of the door's frame.")],
    stiles: Annotated[str, _size("--stiles", "Width of the stiles.")],
    panel: Annotated[
        str | None, _size("--panel", "Thickness of its panels, which are solid wood.")
    ] = None,
    glass: Annotated[
        str | None, _size("--glass", "Glass instead: the depth of its rabbet from the back.")
    ] = None,
    top: Annotated[
        str | None, _size("--top", "Width of the top rail. Left out: as the stiles.")
    ] = None,
    bottom: Annotated[
        str | None, _size("--bottom", "Width of the bottom rail. Left out: as the stiles.")
    ] = None,
    middle: Annotated[
        str | None,
        typer.Option("--middle", metavar="COUNT", help="Rails between, equally far apart."),
    ] = None,
    muntins: Annotated[
        str | None,
        typer.Option("--muntins", metavar="COUNT", help="Uprights in every row of panels."),
    ] = None,
    overlay: Annotated[
        str | None, _size("--overlay", "Lies on the front and covers the opening by so much.")
    ] = None,
    pair: Annotated[
        bool, typer.Option("--pair", help="Two doors that meet in the middle.")
    ] = False,
    rebate: Annotated[
        str | None, _size("--rebate", "How far a pair's meeting stiles lie over each other.")
    ] = None,
    gap: Annotated[
        str | None, _size("--gap", "Free all round, and between a pair. Left out: 1/16 in, 1.5 mm.")
    ] = None,
    horns: Annotated[
        str | None, _size("--horns", "Left on the stiles at each end until it is glued up.")
    ] = None,
    through: Annotated[
        bool, typer.Option("--through", help="Through tenons, wedged.")
    ] = False,
    hinges_on: Annotated[
        str | None, typer.Option("--hinges-on", metavar="SIDE", help="left or right.")
    ] = None,
    hinge: Annotated[str | None, _size("--hinge", "Length of a hinge's leaf.")] = None,
    hinges: Annotated[
        str | None, typer.Option("--hinges", metavar="COUNT", help="How many. Left out: 2.")
    ] = None,
    lock: Annotated[str | None, _size("--lock", "Length of the lock along the stile.")] = None,
    lock_above: Annotated[
        str | None, _size("--lock-above", "Its middle above the door's foot. Left out: half way.")
    ] = None,
    timber: Annotated[
        str | None,
        typer.Option("--timber", metavar="WOOD", help="'white oak', cherry, 'European oak'."),
    ] = None,
    sawn: SawnWay = None,
    plywood: Plywood = False,
    panel_timber: Annotated[
        str | None,
        typer.Option("--panel-timber", metavar="WOOD", help="Left out: the door's."),
    ] = None,
    panel_sawn: Annotated[
        str | None, typer.Option("--panel-sawn", metavar="WAY", help="Left out: flat.")
    ] = None,
    edge: PanelEdge = None,
    tongue: PanelTongue = None,
    border: Border = None,
    step: Step = None,
    wood_behind: WoodBehind = None,
    lip: Lip = None,
    room: PanelRoom = None,
    grain: Grain = None,
    cover: Cover = None,
    play: Play = None,
    held: Kept = None,
    now: Now = None,
    dry: Dry = None,
    wet: Wet = None,
    unit: UnitName = "in",
    rule: RuleName = None,
    both_units: BothUnits = False,
    json: AsJson = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write its packet too, every sheet of it, to --out.")
    ] = False,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
) -> None:
    """A frame-and-panel door, or a pair: cut list, hinges, sums and gauge settings.

    Example: shoulderline build door --width 16 --height 24 --thickness 3/4 --stiles 2 --bottom
    "2 1/2" --panel 5/8 --edge raised --timber cherry --hinge 2
    """
    from layout.cli.answer import Shown
    from layout.cli.door import DoorWords, PanelWords, tell_door
    from layout.cli.year_options import YearWords

    infill = PanelWords(panel, plywood, edge, tongue, border, step, wood_behind, lip, room,
                        grain, panel_timber, panel_sawn, cover, play, held)
    words = DoorWords(width, height, thickness, stiles, infill, YearWords(now, dry, wet), top,
                      bottom, middle, muntins, glass, overlay, pair, rebate, gap, horns, through,
                      hinges_on, hinge, hinges, lock, lock_above, timber, sawn)
    shown = Shown(unit, rule, both_units, json, (out, paper, formats) if write else None)
    raise typer.Exit(tell_door(words, shown))


for _group in (app, joint_app, build_app):
    leave_for_later(_group)


def run() -> int:
    """Run the command in sys.argv. Every error that the maker can cure is one line."""
    try:
        result = app(standalone_mode=False)
        sys.stdout.flush()
    except typer.Abort:
        print("stopped", file=sys.stderr)
        return 2
    except typer.TyperException as error:
        message = error.format_message()
        if message.startswith("Usage:"):
            print(message)  # a command without anything to do shows its help
            return 2
        print(f"shoulderline: {' '.join(message.split())}", file=sys.stderr)
        context = getattr(error, "ctx", None)
        if context is not None:
            print(f"try: {context.command_path} --help", file=sys.stderr)
        return 2
    except ShoulderlineError as error:
        print(f"shoulderline: {error}", file=sys.stderr)
        return 2
    except BrokenPipeError:
        # the reader of our output went away (a pager was closed): nothing is wrong
        _drop_output()
        return 0
    except OSError as error:
        _drop_output()
        print(f"shoulderline: the answer can't be written: {error.strerror}", file=sys.stderr)
        return 2
    return result if isinstance(result, int) else 0


def _drop_output() -> None:
    """Let nothing more be written to standard output, at exit least of all."""
    sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115


@build_app.command("top")
def build_top(
    length: Annotated[str, _size("--length", "The top from end to end, end caps and all.")],
    width: Annotated[str, _size("--width", "The top from front to back.")],
    thickness: Annotated[str, _size("--thickness", "The top, planed flat.")],
    timber: Annotated[
        str | None,
        typer.Option("--timber", metavar="WOOD", help="'white oak', cherry, 'European beech'."),
    ] = None,
    sawn: SawnWay = None,
    stock_thickness: Annotated[
        str | None, _size("--stock-thickness", "Of the rough boards that it is glued up of.")
    ] = None,
    stock_width: Annotated[
        str | None, _size("--stock-width", "Of the rough boards that it is glued up of.")
    ] = None,
    stock_length: Annotated[
        str | None, _size("--stock-length", "Of the rough boards. Left out: longer than the top.")
    ] = None,
    on_edge: Annotated[
        bool, typer.Option("--on-edge", help="Strips stand on edge, glued face to face.")
    ] = False,
    planer: Annotated[
        str | None, _size("--planer", "Widest that the planer passes: sections are no wider.")
    ] = None,
    heart: Annotated[
        str | None,
        typer.Option("--heart", metavar="WAY", help="Heart sides: up or alternate. Left out: "
                     "alternate."),
    ] = None,
    end_caps: Annotated[
        str | None, _size("--end-caps", "Width of a board across each end, tongue and groove.")
    ] = None,
    pegs: Annotated[
        str | None, typer.Option("--pegs", metavar="COUNT", help="Through each end cap. Left "
                                 "out: 3.")
    ] = None,
    vise: Annotated[
        str | None, _size("--vise", "How wide the vise at the left end opens.")
    ] = None,
    row: Annotated[
        list[str] | None,
        _size("--row", "A row of dog holes so far from the front edge; may be given again."),
    ] = None,
    first: Annotated[
        str | None, _size("--first", "From the vise's end to the first hole. Left out: a pitch.")
    ] = None,
    pitch: Annotated[
        str | None, _size("--pitch", "From hole to hole. Left out: 4 in, 100 mm, or what the vise "
                          "serves.")
    ] = None,
    dog: Annotated[
        str | None, _size("--dog", "Diameter of the dogs. Left out: 3/4 in, 20 mm.")
    ] = None,
    now: Now = None,
    dry: Dry = None,
    wet: Wet = None,
    unit: UnitName = "in",
    rule: RuleName = None,
    both_units: BothUnits = False,
    json: AsJson = False,
    write: Annotated[
        bool, typer.Option("--write", help="Write its packet too, every sheet of it, to --out.")
    ] = False,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf,svg",
) -> None:
    """A top by itself: its strips, sections, clamps and glue, end caps, a row of dog holes.

    Example: shoulderline build top --length 60 --width 22 --thickness "1 1/2" --timber "hard maple"
    --stock-thickness 2 --stock-width 6 --planer 12 --end-caps 3
    """
    from layout.cli.answer import Shown
    from layout.cli.top import TopWords, tell_top
    from layout.cli.year_options import YearWords

    words = TopWords(
        length, width, thickness, YearWords(now, dry, wet), timber, sawn, on_edge,
        stock_thickness, stock_width, stock_length, planer, heart, end_caps, pegs, vise,
        tuple(row or ()), first, pitch, dog,
    )
    shown = Shown(unit, rule, both_units, json, (out, paper, formats) if write else None)
    raise typer.Exit(tell_top(words, shown))
