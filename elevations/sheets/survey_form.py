"""The boxes of the survey sheet, in the order in which one measures on site, and the job's key that each is for."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from elevations.drawing.lettering import text_width
from elevations.shapes import Shape
from elevations.spec.block import Block
from elevations.spec.model import FRAME_FROM_OPENING, Job
from elevations.spec.model import Window as WindowSpec

CAPTION = 2.5
"""Height of captions, mm on paper."""
PAD = 2.2
"""Kept free in a box's width beside its caption, mm."""


class Box(NamedTuple):
    """One box to write in."""

    caption: str
    keys: tuple[str, ...] = ()
    """Keys of the window (or with 'job.' of the job) that it fills, dotted; empty for what only people need."""
    weight: float = 1.0
    """Its share of what is left of the row once every caption has its room."""


class Row(NamedTuple):
    """Boxes side by side, under a heading where one is given."""

    heading: str
    boxes: tuple[Box, ...]


LOOKED_AT = (
    "lintel seen, sound", "no cracks above", "damp course found", "no damp or rot", "asbestos ruled out", "in a bay: load held",
    "listed, conserved", "photographs taken",
)
"""To tick before measuring (a trade guide, read second hand, and common practice)."""

HEAD = (
    Row("", (Box("Reference", ("job.reference",)), Box("Site", ("job.site",), 3.0), Box("Client", ("job.client",), 2.0), Box("Surveyed on", ("job.surveyed",)))),
    Row("", (Box("Window", ("mark",)), Box("Where", ("location",), 3.0), Box("Storey", ("storey",)), Box("Room used for", ("room.use",)),
             Box("Floor area m2", ("room.floor_area",), 0.5), Box("Way out by", ("room.exit",)))),
)
SITE = (
    Row("1  Getting there", (Box("Access: scaffold, ladder, crane, parking", weight=2.0), Box("Pipes, wires, alarm near it"), Box("To keep: blinds, tiles, sill"))),
)
WALL = (
    Row("2  Wall, from outside in, mm", (
        Box("Outer leaf, of what", ("wall.material",)), Box("Render", ("wall.render",)), Box("Thickness", ("wall.thickness",)), Box("Cavity", ("wall.cavity",)),
        Box("Inner leaf, of what", ("wall.inner_material",)),
        Box("Thickness", ("wall.inner",)), Box("Plaster", ("wall.plaster",)))),
    Row("", (
        Box("Reveal: square / check / inner leaf", ("fit.reveal.kind",)), Box("Check laps by", ("fit.reveal.lap",)), Box("Room behind it", ("fit.reveal.behind",)),
        Box("Lining to come", ("fit.reveal.lining",)), Box("Face to frame", ("wall.frame_at",)))),
    Row("", (
        Box("Lintel, of what", ("wall.lintel.kind",)), Box("Lintel's height", ("wall.lintel.height",)),
        Box("Drill it? What bars it", ("wall.lintel.drilling", "wall.lintel.barred_by"), 2.0), Box("Over it: wall, floor, roof?"))),
)
OPENING = {
    "top": ("opening.width", 0), "middle": ("opening.width", 1), "bottom": ("opening.width", 2),
    "left": ("opening.height", 0), "centre": ("opening.height", 1), "right": ("opening.height", 2),
    "\\": ("opening.diagonals", 0), "/": ("opening.diagonals", 1),
}
"""Boxes of the sketch: key and place in its list."""
SHAPED = (
    Row("", (
        Box("Head: level, raked, arched, pointed", ("opening.head", "head", "circular")), Box("Left jamb", ("head.left", "head.eaves")), Box("Right jamb", ("head.right",)),
        Box("Rise", ("head.rise",)), Box("Apex from left", ("head.apex",)), Box("Round, dia.", ("circular.diameter",)))),
)
INNER = (
    Row("", (
        Box("Inner hole, behind a check: width, top"), Box("middle"), Box("bottom"), Box("Height, left"), Box("centre"), Box("right"))),
)
"""What the frame goes in by where the opening outside is smaller: for people, the job takes the opening that shows."""
LEVELS = (
    Row("4  Levels and sill, mm", (
        Box("Sill's right end + higher / - lower", ("opening.out_of_level",)), Box("Sill projection", ("sill.projection",)), Box("Horns each", ("sill.horns",)),
        Box("Height", ("sill.height",)), Box("Packers", ("sill.packers",)))),
    Row("", (
        Box("Upstand", ("sill.upstand",)), Box("Fall", ("sill.fall",)), Box("Drip back", ("sill.drip",)), Box("End caps", ("sill.end_caps",)),
        Box("Board inside, nosing", ("wall.window_board.thickness", "wall.window_board.nosing")))),
)
SAFETY = (
    Row("5  Heights and safety, mm", (
        Box("Floor to opening", ("floor_to_opening",)), Box("Drop outside", ("drop",)), Box("Guard height", ("guard",)),
        Box("Near: door / bath", ("near",)), Box("Old vents mm2", ("old_vent",)))),
)
FRONT = (*HEAD, *SITE, *WALL, *SHAPED, *INNER, *LEVELS, *SAFETY)
FRAME = (
    Row("6  Frame, mm", (
        Box("System", ("system",), 2.0), Box("Colour outside", ("finish.outside",)), Box("Colour inside", ("finish.inside",)), Box("Glass", ("glass",)))),
    Row("", (
        Box("Frame width, if fixed", ("frame.width",)), Box("Frame height, if fixed", ("frame.height",)), Box("Clearance, both sides", ("fit.clearance",)),
        Box("Round down to", ("fit.round_to",)))),
    Row("", (
        Box("Add-on left", ("fit.add_ons.left",)), Box("Right", ("fit.add_ons.right",)), Box("Head", ("fit.add_ons.head",)), Box("Sill", ("fit.add_ons.sill",)),
        Box("Free over the head", ("fit.head_allowance",)))),
    Row("", (Box("Mullions, centres from the left", ("mullions",)), Box("Transoms, centres from the top", ("transoms",)))),
)
JOINED = (
    Row("8  Joined to other windows", (Box("Set"), Box("On the left"), Box("On the right"), Box("Above"), Box("Below"))),
)
SIGNED = Row("", (Box("Surveyor", weight=2.0), Box("Signed", weight=2.0), Box("Customer told of trims, making good, parking", weight=0.5)))
LIGHTS = ("No.", "Opens how", "Hinge", "In/out", "Glass", "Handle", "Restrict", "Escape", "Vent")
LIGHT_KEYS = ("", "light", "hinge", "swing", "glass", "handle_height", "restrictor", "escape", "vent")
LIGHT_SHARES = (0.06, 0.2, 0.09, 0.09, 0.13, 0.1, 0.11, 0.1, 0.12)
LIGHT_ROWS = 10


def widths(boxes: Sequence[Box], whole: float) -> list[float]:
    """Of the boxes of a row, mm: room for each caption, and a share of what is left."""
    needed = [text_width(box.caption, CAPTION) + PAD for box in boxes]
    spare = (whole - sum(needed)) / sum(box.weight for box in boxes)
    return [need + spare * box.weight for need, box in zip(needed, boxes, strict=True)]


def value_of(window: WindowSpec | None, job: Job | None, key: str) -> str:
    """What the job says under a key, as it stands there; empty where it says nothing (a standard value is not said)."""
    start: Any = job if key.startswith("job.") else window
    for step in key.split("."):
        if isinstance(start, Shape):
            return shown(getattr(start, step, None))
        if not isinstance(start, Block) or step not in type(start).model_fields or step not in start.model_fields_set:
            return ""
        start = getattr(start, step)
        if step == "frame" and start == FRAME_FROM_OPENING:
            return ""   # stands in for a size that the opening gives
    return shown(start)


def joined_values(job: Job | None, window: WindowSpec | None) -> tuple[str, ...]:
    """For the boxes of `JOINED`: the set's mark, and the windows at each side."""
    for spec in job.joined if job is not None and window is not None else ():
        if window is not None and window.mark in spec.windows:
            number = spec.windows.index(window.mark)
            before, after = (spec.windows[n] if 0 <= n < len(spec.windows) else "" for n in (number - 1, number + 1))
            return (spec.mark, "", "", before, after) if spec.way == "stacked" else (spec.mark, before, after, "", "")
    return ("",) * len(JOINED[0].boxes)


def shown(value: Any) -> str:
    """A value as it is written in a box."""
    if value is None or value == "":
        return ""
    if isinstance(value, Shape):
        return value.key
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return f"{value:g}"
    if isinstance(value, tuple | list):
        return ", ".join(shown(item) for item in value) or "none"
    return str(value)
