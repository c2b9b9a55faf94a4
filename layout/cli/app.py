"""The command line: what can be typed, with the help a maker reads. The work is elsewhere."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Annotated

import typer

from layout.errors import ShoulderlineError

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
DEFAULT_OUT = Path("templates_out")


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
) -> None:
    """Every sheet of a piece: drawing, cut list, sums, checks, cards, sticks, templates."""
    from layout.cli.packet import ALL, write_packet

    raise typer.Exit(write_packet(piece, ALL, out, paper, formats, card))


@app.command()
def card(
    piece: PieceFile,
    out: Out = DEFAULT_OUT,
    paper: PaperName = None,
    formats: Formats = "pdf",
    card: CardName = None,
) -> None:
    """The gauge cards: every setting once, with what it strikes."""
    from layout.cli.packet import write_packet

    raise typer.Exit(write_packet(piece, ("card",), out, paper, formats, card))


@app.command()
def sticks(
    piece: PieceFile, out: Out = DEFAULT_OUT, paper: PaperName = None, formats: Formats = "pdf"
) -> None:
    """A full-size stick for every distinct part."""
    from layout.cli.packet import write_packet

    raise typer.Exit(write_packet(piece, ("sticks",), out, paper, formats, None))


@app.command()
def templates(
    piece: PieceFile, out: Out = DEFAULT_OUT, paper: PaperName = None, formats: Formats = "pdf"
) -> None:
    """Full-size templates of every mortise, tenon and seat."""
    from layout.cli.packet import write_packet

    raise typer.Exit(write_packet(piece, ("templates",), out, paper, formats, None))


@app.command()
def sums(piece: PieceFile) -> None:
    """Every size that was worked out, as an addition to check with a pencil."""
    from layout.cli.tell import tell_sums

    raise typer.Exit(tell_sums(piece))


@app.command()
def check(piece: PieceFile) -> None:
    """Does anything run into anything; is there wood enough. Exit code 1 on a stop."""
    from layout.cli.tell import tell_checks

    raise typer.Exit(tell_checks(piece))


@app.command()
def numbers(piece: PieceFile, json: AsJson = False) -> None:
    """The cut list, the settings and the parts as a table, or everything as JSON."""
    from layout.cli.tell import tell_numbers

    raise typer.Exit(tell_numbers(piece, json))


def _size(flag: str, words: str) -> object:
    return typer.Option(flag, help=words, metavar="SIZE")


@joint_app.command("tenon")
def joint_tenon(
    rail_width: Annotated[str, _size("--rail-width", "The rail, seen from outside.")],
    rail_thickness: Annotated[str, _size("--rail-thickness", "The rail, front to back.")],
    tenon_length: Annotated[str, _size("--length", "How far the tenon stands out.")],
    leg_width: Annotated[str, _size("--leg-width", "The leg, seen from the front.")],
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
    unit: Annotated[
        str, typer.Option("--unit", metavar="UNIT", help="in or mm: what bare numbers are in.")
    ] = "in",
    rule: Annotated[
        str | None,
        typer.Option(
            "--rule", metavar="RULE", help="Show sizes to this graduation: 1/32 in, 0.5 mm."
        ),
    ] = None,
    both_units: Annotated[
        bool, typer.Option("--both-units", help="Show every size in inches and millimetres.")
    ] = False,
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
    from layout.cli.joint import TenonWords, tell_tenon

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
    )
    raise typer.Exit(tell_tenon(words, json, (out, paper, formats) if write else None))


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
