"""Distances along a side of the frame, written outside it: a tick, the running distance, and in a circle when to tighten."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.drawing.entities import Entity, Label, Stroke
from elevations.drawing.layers import FINE, Layer
from elevations.drawing.lettering import text_width
from elevations.plane import Corner, Point

TEXT = 2.5
TICK, OFF, START = 4.0, 5.0, 1.2
"""From the frame's edge, past its packer, to the end of a tick and to its figure, mm on paper; where the tick starts."""
PITCH = 5.2
"""From one figure to the next, mm on paper: a circle and a little."""
RADIUS, GAP = 2.3, 1.0
"""Of the circle round the order, and between it and the distance, mm on paper."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A distance to be written outside the frame."""

    text: str
    at: Point
    dx: float
    dy: float
    """Outwards, a direction of length 1."""
    beyond: float
    """How far out there is something else, mm."""
    order: int | None = None
    """When the fixing there is tightened."""
    ticked: bool = True
    """False of words that belong to no point."""

    @property
    def way(self) -> str:
        """left, right, up or down."""
        if abs(self.dx) > 0.5:
            return "right" if self.dx > 0 else "left"
        return "up" if self.dy > 0 else "down"

    @property
    def room(self) -> float:
        """How far the text and its circle reach, mm on paper."""
        return text_width(self.text, TEXT) + (0.0 if self.order is None else GAP + 2 * RADIUS)


def spread(figures: Sequence[Figure], scale: float) -> Iterator[Entity]:
    """Figures on one side at their places, or as far along from the one before as their texts need."""
    upright = bool(figures) and figures[0].way in ("left", "right")
    last = math.inf if upright else -math.inf
    for figure in sorted(figures, key=lambda f: -f.at.y if upright else f.at.x):
        last = min(figure.at.y, last - PITCH * scale) if upright else max(figure.at.x, last + PITCH * scale)
        yield from _drawn(figure, last, scale)


def _drawn(figure: Figure, along: float, scale: float) -> Iterator[Entity]:
    """A tick out from the frame's edge, bent where its text had to move along, and the text, readable from the bottom or the right."""
    at, dx, dy, beyond = figure.at, figure.dx, figure.dy, figure.beyond
    tick, off = max(TICK * scale, beyond + scale), max(OFF * scale, beyond + 2 * scale)
    level = figure.way in ("left", "right")
    if figure.ticked:
        start, knee = START * scale, max(tick - 1.6 * scale, START * scale)
        end = Point(at.x + dx * tick, along) if level else Point(along, at.y + dy * tick)
        moved = abs(along - (at.y if level else at.x)) > 0.01 * scale
        bend = [Corner(at.x + dx * knee, at.y + dy * knee)] if moved else []
        yield Stroke((Corner(at.x + dx * start, at.y + dy * start), *bend, Corner(end.x, end.y)), Layer.DIMENSION, weight=FINE)
    after = (text_width(figure.text, TEXT) + GAP + RADIUS) * scale
    if level:
        x = at.x + dx * off
        yield Label(figure.text, Point(x, along), TEXT, Layer.DIMENSION, align="left" if dx > 0 else "right", level="middle")
        yield from order_sign(figure.order, Point(x + math.copysign(after, dx), along), scale)
    else:
        y, half = at.y + dy * off, TEXT / 2 * scale   # turned, so that close fixings don't meet
        yield Label(figure.text, Point(along + half, y), TEXT, Layer.DIMENSION, align="left" if dy > 0 else "right", angle=90.0)
        yield from order_sign(figure.order, Point(along, y + math.copysign(after, dy)), scale)


def order_sign(number: int | None, at: Point, scale: float) -> Iterator[Entity]:
    """A number in a circle with its middle there; nothing without one."""
    if number is None:
        return
    radius = RADIUS * scale
    yield Stroke((Corner(at.x - radius, at.y, 1.0), Corner(at.x + radius, at.y, 1.0)), Layer.FIXING, closed=True, weight=FINE)
    yield Label(str(number), at, TEXT, Layer.FIXING, align="centre", level="middle")
