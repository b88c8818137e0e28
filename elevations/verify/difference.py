"""One thing that a drawing has otherwise than the job, and how lengths and places are said of it."""

from __future__ import annotations

from dataclasses import dataclass

from elevations.drawing.explode import dimension_text
from elevations.plane import Box

SAME_MM = 0.1
"""A difference up to this is none: drawings are dimensioned to 0.1 mm."""


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that the drawing has otherwise than the job."""

    kind: str
    """pane, member, section, fixing, opening, dimension, words or drawing."""
    subject: str
    """Its tag, or where on the sheet it is."""
    message: str


def moves(dx: float, dy: float) -> str:
    """'12 to the right and 3 up'; empty where it has not moved."""
    said = []
    if abs(dx) > SAME_MM:
        said.append(f"{dimension_text(abs(dx))} to the {'right' if dx > 0 else 'left'}")
    if abs(dy) > SAME_MM:
        said.append(f"{dimension_text(abs(dy))} {'up' if dy > 0 else 'down'}")
    return " and ".join(said)


def place_in(box: Box, frame: Box) -> str:
    """Where its top left corner is: '700 from the left and 800 from the top of the frame'."""
    return f"{dimension_text(box.left - frame.left)} from the left and {dimension_text(frame.top - box.top)} from the top of the frame"
