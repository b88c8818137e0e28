"""The boxes of the survey sheet, in the order in which one measures on site, and the job's key that each is for."""

from __future__ import annotations

from typing import Any, NamedTuple

from elevations.shapes import Shape
from elevations.spec.block import Block
from elevations.spec.model import FRAME_FROM_OPENING, Job
from elevations.spec.model import Window as WindowSpec


class Box(NamedTuple):
    """One box to write in."""

    caption: str
    keys: tuple[str, ...]
    """Keys of the window (or with 'job.' of the job) that it fills, dotted; empty for what only people need."""
    share: float
    """Of the row's width."""


class Row(NamedTuple):
    """Boxes side by side, under a heading where one is given."""

    heading: str
    boxes: tuple[Box, ...]


LOOKED_AT = (
    "lintel seen", "no cracks above", "damp course found", "no damp or rot", "no pipes or wires",
    "asbestos ruled out", "in a bay: load held", "access, scaffold", "listed, conserved", "no obstructions",
)
"""To tick before measuring (a trade guide, read second hand, and common practice)."""

HEAD = (
    Row("", (Box("Reference", ("job.reference",), 0.2), Box("Site", ("job.site",), 0.36), Box("Client", ("job.client",), 0.26), Box("Surveyed on", ("job.surveyed",), 0.18))),
    Row("", (Box("Window", ("mark",), 0.12), Box("Where", ("location",), 0.28), Box("Storey", ("storey",), 0.12), Box("Room used for", ("room.use",), 0.2),
             Box("Floor area m2", ("room.floor_area",), 0.13), Box("Way out by", ("room.exit",), 0.15))),
)
WALL = (
    Row("1  Wall, from outside in, mm", (
        Box("Material (outer leaf)", ("wall.material",), 0.2), Box("Render", ("wall.render",), 0.12), Box("Thickness", ("wall.thickness",), 0.16),
        Box("Cavity", ("wall.cavity",), 0.1), Box("Inner leaf, of what", ("wall.inner", "wall.inner_material"), 0.18), Box("Plaster", ("wall.plaster",), 0.1),
        Box("Lining to come", ("fit.reveal.lining",), 0.14))),
    Row("", (
        Box("Reveal: square / check / inner leaf", ("fit.reveal.kind",), 0.28), Box("Check laps by", ("fit.reveal.lap",), 0.13),
        Box("Face to frame", ("wall.frame_at",), 0.13), Box("Lintel, kind", ("wall.lintel.kind",), 0.13), Box("Height", ("wall.lintel.height",), 0.09),
        Box("Drill it? What bars it", ("wall.lintel.drilling", "wall.lintel.barred_by"), 0.24))),
)
OPENING = {
    "top": ("opening.width", 0), "middle": ("opening.width", 1), "bottom": ("opening.width", 2),
    "left": ("opening.height", 0), "centre": ("opening.height", 1), "right": ("opening.height", 2),
    "\\": ("opening.diagonals", 0), "/": ("opening.diagonals", 1),
}
"""Boxes of the sketch: key and place in its list."""
AFTER = (
    Row("3  Levels and sill, mm", (
        Box("Sill's right end + higher / - lower", ("opening.out_of_level",), 0.26), Box("Floor to opening", ("floor_to_opening",), 0.16),
        Box("Drop outside", ("drop",), 0.14), Box("Guard height", ("guard",), 0.14), Box("Near: door / bath", ("near",), 0.16),
        Box("Old vents mm2", ("old_vent",), 0.14))),
    Row("", (
        Box("Sill projection", ("sill.projection",), 0.16), Box("Horns each", ("sill.horns",), 0.12), Box("Height", ("sill.height",), 0.1),
        Box("Packers", ("sill.packers",), 0.1), Box("Upstand", ("sill.upstand",), 0.1), Box("Fall", ("sill.fall",), 0.08),
        Box("Drip back", ("sill.drip",), 0.1), Box("End caps", ("sill.end_caps",), 0.1), Box("Board, nosing", ("wall.window_board.thickness", "wall.window_board.nosing"), 0.14))),
    Row("4  Frame, mm", (
        Box("System", ("system",), 0.2), Box("Colour outside", ("finish.outside",), 0.16), Box("Colour inside", ("finish.inside",), 0.16),
        Box("Glass", ("glass",), 0.14), Box("Clearance, both sides", ("fit.clearance",), 0.18), Box("Round down to", ("fit.round_to",), 0.16))),
    Row("", (
        Box("Add-on left", ("fit.add_ons.left",), 0.12), Box("Right", ("fit.add_ons.right",), 0.1), Box("Head", ("fit.add_ons.head",), 0.1),
        Box("Sill", ("fit.add_ons.sill",), 0.1), Box("Over the head", ("fit.head_allowance",), 0.14), Box("Frame width, if fixed", ("frame.width",), 0.22),
        Box("Frame height, if fixed", ("frame.height",), 0.22))),
    Row("", (
        Box("Mullions, from the left", ("mullions",), 0.36), Box("Transoms, from the top", ("transoms",), 0.36),
        Box("Head, if shaped; centre: crown", ("opening.head", "head", "circular"), 0.28))),
)
LIGHTS = ("No.", "Opens how", "Hinge", "In/out", "Glass", "Handle height", "Restrictor", "Escape", "Vent, mm2")
LIGHT_KEYS = ("", "light", "hinge", "swing", "glass", "handle_height", "restrictor", "escape", "vent")
LIGHT_SHARES = (0.06, 0.2, 0.09, 0.08, 0.14, 0.14, 0.1, 0.08, 0.11)
LIGHT_ROWS = 6


def value_of(window: WindowSpec | None, job: Job | None, key: str) -> str:
    """What the job says under a key, as it stands there; empty where it says nothing (a standard value is not said)."""
    start: Any = job if key.startswith("job.") else window
    for step in key.split("."):
        if not isinstance(start, Block) or step not in type(start).model_fields or step not in start.model_fields_set:
            return ""
        start = getattr(start, step)
        if step == "frame" and start == FRAME_FROM_OPENING:
            return ""   # stands in for a size that the opening gives
    return shown(start)


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
