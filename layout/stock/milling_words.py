"""What terminal and paper both tell of the milling order: each operation, and its caution.

The words are our own; what they say is common practice, no source, but for lengths, whose sources
stand in defaults.toml.
"""

from __future__ import annotations

from layout.stock.milling import TO_BOARDS, Kind, Step
from layout.stock.rough import Rough

# What each operation is told as, and the caution at its machine.
TOLD: dict[Kind, tuple[str, str]] = {
    "crosscut rough": ("crosscut the rough boards; set the stop, from the longest down",
                       "no stop against the fence and a loose offcut between: it jams and flies"),
    "rip rough": ("rip to rough width, from the widest down",
                  "one edge must be straight first; riving knife and push stick in place"),
    "joint a face": ("joint one face of everything, hollow side down; mark it as the face side",
                     "push blocks, never a hand over the head; nothing shorter than the machine's "
                     "manual allows"),
    "plane to thickness": ("plane to thickness, face side down, the table closing up from one "
                           "setting to the next",
                           "one length after another, stand aside, never look or reach in"),
    "joint an edge": ("joint one edge square to the face side; mark it as the face edge; of boards "
                      "to be glued side by side joint both",
                      "face side to the fence; hands well away from the head and its guard"),
    "part": ("part the matched blanks, number the pieces in their order, joint an edge of each",
             "short pieces by hand or by a sled"),
    "strips to width": ("rip the strips of tops, a little over, and joint the sawn edge to this "
                        "width; square the ends of staves that meet; number them in their order",
                        "riving knife, guard and push stick; narrow strips by a push block that "
                        "holds them down"),
    "glue up": ("glue up what is of several boards, layers or strips, then scrape it clean",
                "cured glue chips knives: scrape before it goes to a machine"),
    "flatten": ("flatten what was glued up, both faces, to finished thickness: through the planer "
                "what it takes, wider tops in sections before they are joined, else by hand",
                "wide pieces want two people at the machine"),
    "plane to width": ("plane to width on edge, several of a size side by side, face edge down",
                       "only what stands safely on its edge"),
    "rip to width": ("rip to width at the saw, face edge to the fence, from the widest down",
                     "riving knife, guard and push stick; the last stretch by push stick only"),
    "square one end": ("square end A of everything",
                       "let the blade stop before you take the piece"),
    "cut to length": ("cut to finished length; set the stop, from the longest down; blanks of "
                      "several parts come apart here",
                      "short pieces by a clamp or a sled, never by hand"),
}
# How a board is read before it is fed.
GRAIN = (
    "Reading the grain: look at the edge. At the jointer its lines rise away from the knives "
    "toward the end that goes first; chalk an arrow at that end. At the planer, face side down, "
    "the other end goes first. For an edge read the face in the same way. Where the lines turn, "
    "take little at a time, or plane it by hand.",
)
# Where a part is thicker than wide, what is made true first is marked as the other one.
MARKED: dict[Kind, str] = {"joint a face": "face edge", "joint an edge": "face side"}
LAST = "At every machine its own manual, its guards and local rules come first."


def who(step: Step) -> str:
    """What passes: which boards or parts, and how many where there are several. A part that is
    thicker than wide lies the other way on the machines: its first face becomes its face edge.
    """
    named: dict[str, int] = {}
    for one in step.batches:
        name = _name(step.kind, one.rough)
        named[name] = named.get(name, 0) + one.many
    return ", ".join(f"{many} × {name}" if many > 1 else name for name, many in named.items())


def _name(kind: Kind, one: Rough) -> str:
    """What a piece is called while it is still a board, and when it is a part."""
    name = one.row.name
    if kind in TO_BOARDS:
        if one.strips:
            name = f"strip of the {name}"
        elif one.beside * one.layers > 1:
            name = f"board of the {name}"
        elif one.holds:
            name = f"{name} ({len(one.holds)} {one.how})"
        elif one.gang > 1:
            name = f"{name} ({one.gang} joined)"
    if one.row.thickness > one.row.width and kind in MARKED:
        name = f"{name} (mark it as the {MARKED[kind]})"
    return name
