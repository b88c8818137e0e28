"""What a cutter needs of shaped glass: each side and each corner of its exact outline, as one row a side."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.window import Pane, Window
from elevations.plane import SAME_MM, Corner, Outline, arc_radius
from elevations.schedules.table import Column, Schedule, tidy
from elevations.spelling import counted

LETTERS = "abcdefghijklmnopqrstuvwxyz"


@dataclass(frozen=True, slots=True)
class TemplateRow:
    """One side of a shaped pane and the corner that it starts from; mm to 0.1, degrees to 0.01.

    Sides run counter-clockwise seen from outside; corners are measured from the bottom left of the rectangle round the pane.
    """

    tag: str
    """'W1-G2'."""
    side: str
    """a, b, c …"""
    kind: str
    """straight or arc."""
    length_mm: float
    """Along the side; of an arc along the arc."""
    chord_mm: float
    """From corner to corner in a straight line."""
    rise_mm: float
    """Of an arc over its chord; 0 of a straight side."""
    radius_mm: float | None
    slope_deg: float
    """Of the side, or of the arc's chord, to the level: 0 level, 90 upright."""
    corner: int
    """Number of the corner where it starts, from 1."""
    x_mm: float
    y_mm: float
    angle_deg: float
    """Inside the pane at that corner, between the sides or the tangents of arcs."""


def template_outline(pane: Pane, *, sight: bool = False) -> Outline:
    """The cut outline with the bottom left of its bounds at 0, 0, starting at its lowest corner, of those the leftmost.

    `sight`: the sight line in its place, side by side.
    """
    box, cut = pane.cut.outline.bounds, pane.cut.outline.corners
    first = min(range(len(cut)), key=lambda i: (round(cut[i].y, 3), cut[i].x))
    corners = (pane.sight if sight else pane.cut).outline.moved(-box.left, -box.bottom).corners
    return Outline((*corners[first:], *corners[:first]))


def shaped_panes(window: Window) -> tuple[Pane, ...]:
    """The panes that are cut to a template, in the order of their tags."""
    return tuple(pane for pane in window.panes if pane.shaped)


def template_rows(window: Window) -> Iterator[TemplateRow]:
    """The sides of every shaped pane; nothing where all are rectangles."""
    for pane in shaped_panes(window):
        yield from sides_of(pane, f"{window.mark}-{pane.tag}")


def sides_of(pane: Pane, tag: str) -> Iterator[TemplateRow]:
    """One pane's sides, in order."""
    outline = template_outline(pane)
    for number, (a, b) in enumerate(outline.edges()):
        chord = math.dist(a[:2], b[:2])
        yield TemplateRow(
            tag=tag,
            side=LETTERS[number],
            kind="arc" if a.bulge else "straight",
            length_mm=tidy(outline.length(number), 1),
            chord_mm=tidy(chord, 1),
            rise_mm=tidy(abs(a.bulge) * chord / 2, 1),
            radius_mm=tidy(arc_radius(a, b), 1) if a.bulge else None,
            slope_deg=tidy(math.degrees(math.atan2(abs(b.y - a.y), abs(b.x - a.x))), 2),
            corner=number + 1,
            x_mm=tidy(a.x, 1),
            y_mm=tidy(a.y, 1),
            angle_deg=tidy(_inside_angle(outline, number), 2),
        )


def _inside_angle(outline: Outline, corner: int) -> float:
    """Between the side that arrives at a corner and the one that leaves it, inside the outline, degrees."""
    corners = outline.corners
    before, here, after = corners[corner - 1], corners[corner], corners[(corner + 1) % len(corners)]
    arriving = _chord_angle(before, here) + 2 * math.atan(before.bulge)
    leaving = _chord_angle(here, after) - 2 * math.atan(here.bulge)
    turned = (leaving - arriving + math.pi) % math.tau - math.pi
    return 180 - math.degrees(turned if abs(turned) > SAME_MM else 0.0)


def _chord_angle(a: Corner, b: Corner) -> float:
    return math.atan2(b.y - a.y, b.x - a.x)


def totals(rows: Sequence[TemplateRow]) -> list[str]:
    """How many panes there are."""
    count = len({row.tag for row in rows})
    return [counted(count, "shaped pane")] if rows else ["no shaped panes"]


TEMPLATES = Schedule(
    key="templates",
    title="Templates of shaped glass",
    columns=(
        Column("tag", "tag", text=True),
        Column("side", "side", text=True),
        Column("kind", "kind", text=True),
        Column("length_mm", "length mm", decimals=1),
        Column("chord_mm", "chord mm", decimals=1),
        Column("rise_mm", "rise mm", decimals=1),
        Column("radius_mm", "radius mm", decimals=1),
        Column("slope_deg", "slope deg", decimals=2),
        Column("corner", "corner"),
        Column("x_mm", "x mm", decimals=1),
        Column("y_mm", "y mm", decimals=1),
        Column("angle_deg", "angle deg", decimals=2),
    ),
    rows=template_rows,
    totals=totals,
)
