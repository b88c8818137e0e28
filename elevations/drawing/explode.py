"""Dimensions and leaders as plain lines and text: the one picture of them that every writer draws.

Results are in view mm like what they come from; sizes of annotation below are mm on paper. A dimension is worked out
in a frame of its own, `u` along its text and `v` up from it: a level one has it as it is, an upright one turned by
90 degrees counter-clockwise, so that its text reads from the right.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from elevations.drawing.entities import Dimension, Fill, Label, Leader, Stroke
from elevations.drawing.layers import CUT, LAYERS, Layer
from elevations.drawing.lettering import ASCENT, DESCENT, text_width
from elevations.plane import Box, Corner, Outline, Point

TEXT_HEIGHT = 2.5
"""Capitals of a dimension's text: a step of ISO 3098."""
GAP, OVERRUN = 1.0, 1.5
"""An extension line starts this far off the thing and runs this far past the dimension line."""
TICK = 1.0
"""Half of an oblique stroke's width and height."""
TICK_WEIGHT = CUT
TEXT_GAP = 1.0
"""From the dimension line to the foot of its text."""
ROW = (ASCENT + DESCENT) * TEXT_HEIGHT
"""From one row of shifted text to the next."""
DOT = 0.4
"""Radius of the dot where a leader ends on its thing."""
LEADER_GAP = 0.8
_NEAR = 1e-9


def dimension_text(value: float) -> str:
    """A length in mm as a drawing writes it: whole, or with one decimal where it has one."""
    return f"{value:.1f}".removesuffix(".0")


def size_text(box: Box) -> str:
    """'686.7 × 1214': width by height as dimensions write them."""
    return f"{dimension_text(box.width)} × {dimension_text(box.height)}"


def measured(dim: Dimension) -> float:
    """What the dimension measures, mm."""
    return abs(dim.end.y - dim.start.y) if dim.upright else abs(dim.end.x - dim.start.x)


def explode_dimension(dim: Dimension, scale: float) -> tuple[Stroke | Label, ...]:
    """Extension lines, dimension line, ticks, a leader where the text is shifted, and the text, in this order."""
    parts: list[Stroke | Label] = [*dimension_lines(dim, scale), *dimension_ticks(dim, scale)]
    leader = dimension_leader(dim, scale)
    if leader:
        parts.append(leader)
    parts.append(dimension_label(dim, scale))
    return tuple(parts)


def dimension_lines(dim: Dimension, scale: float) -> tuple[Stroke, ...]:
    """Both extension lines, then the dimension line."""
    frame = _Frame.of(dim)
    lines = []
    for u, v in (frame.start, frame.end):
        out = math.copysign(1.0, frame.line_v - v) if abs(frame.line_v - v) > _NEAR else frame.outward
        first = v + out * min(GAP * scale, abs(frame.line_v - v))
        lines.append(frame.stroke((u, first), (u, frame.line_v + out * OVERRUN * scale)))
    lines.append(frame.stroke((frame.start[0], frame.line_v), (frame.end[0], frame.line_v)))
    return tuple(lines)


def dimension_ticks(dim: Dimension, scale: float) -> tuple[Stroke, ...]:
    """The oblique strokes at both ends of the dimension line."""
    frame, half = _Frame.of(dim), TICK * scale
    return tuple(
        frame.stroke((u - half, frame.line_v - half), (u + half, frame.line_v + half), weight=TICK_WEIGHT)
        for u in (frame.start[0], frame.end[0])
    )


def dimension_leader(dim: Dimension, scale: float) -> Stroke | None:
    """The thin line from the dimension line to its text, where that is shifted."""
    if not dim.shift:
        return None
    frame = _Frame.of(dim)
    foot = frame.text_foot(dim, scale)
    middle = (frame.start[0] + frame.end[0]) / 2
    half = text_width(dimension_text(measured(dim)), TEXT_HEIGHT) * scale / 2
    near = foot[1] - 0.4 * scale if frame.outward > 0 else foot[1] + (TEXT_HEIGHT + 0.4) * scale
    reach = max(0.0, half - 0.5 * scale)
    end = min(max(middle, foot[0] - reach), foot[0] + reach)
    # Straight out past the neighbours' text first, so that a slanting line never crosses it.
    knee = near - frame.outward * min(1.0 * scale, abs(near - frame.line_v))
    if abs(end - middle) < _NEAR:
        return frame.stroke((middle, frame.line_v), (middle, near))
    return frame.stroke((middle, frame.line_v), (middle, knee), (end, near))


def dimension_label(dim: Dimension, scale: float) -> Label:
    """The text where it stands."""
    frame = _Frame.of(dim)
    return Label(
        text=dimension_text(measured(dim)),
        at=frame.point(*frame.text_foot(dim, scale)),
        height=TEXT_HEIGHT,
        layer=Layer.DIMENSION,
        align="centre",
        angle=90.0 if dim.upright else 0.0,
    )


def dimension_box(dim: Dimension, scale: float) -> Box:
    """The box of its text, mm in the view."""
    return label_box(dimension_label(dim, scale), scale)


def label_box(label: Label, scale: float) -> Box:
    """The box of a line of text with its slack, mm in the view: from descenders to the accents of capitals."""
    width = text_width(label.text, label.height, bold=label.bold) * scale
    left = {"left": 0.0, "centre": -width / 2, "right": -width}[label.align]
    base = _above_baseline(label) * scale
    bottom, top = base - DESCENT * label.height * scale, base + ASCENT * label.height * scale
    corners = [_turned(u, v, label.angle) for u in (left, left + width) for v in (bottom, top)]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return Box(label.at.x + min(xs), label.at.y + min(ys), label.at.x + max(xs), label.at.y + max(ys))


def baseline(label: Label, scale: float) -> Point:
    """Where the baseline of a label's text passes its `at`: writers place text by this and need no other level."""
    x, y = _turned(0.0, _above_baseline(label) * scale, label.angle)
    return Point(label.at.x + x, label.at.y + y)


def explode_leader(leader: Leader, scale: float) -> tuple[Stroke | Fill | Label, ...]:
    """Its line, the dot on the thing, and the text beside the far end, on the side where the line was going."""
    first, last = leader.points[0], leader.points[-1]
    before = leader.points[-2] if len(leader.points) > 1 else first
    leftwards = last.x < before.x
    label = Label(
        text=leader.text,
        at=Point(last.x + (-LEADER_GAP if leftwards else LEADER_GAP) * scale, last.y),
        height=leader.height,
        layer=leader.layer,
        align="right" if leftwards else "left",
        level="middle",
    )
    dot = dot_at(first, DOT * scale)
    line = Stroke(tuple(Corner(p.x, p.y) for p in leader.points), leader.layer)
    return line, Fill(dot, leader.layer, LAYERS[leader.layer].colour), label


def dot_at(centre: Point, radius: float) -> Outline:
    """A circle as an outline of two half turns."""
    return Outline((Corner(centre.x + radius, centre.y, 1.0), Corner(centre.x - radius, centre.y, 1.0)))


@dataclass(frozen=True, slots=True)
class _Frame:
    """A dimension in its own (u, v)."""

    start: tuple[float, float]
    end: tuple[float, float]
    line_v: float
    outward: float
    """1 where the dimension line lies on the text's upper side of the thing, otherwise -1."""
    upright: bool

    @classmethod
    def of(cls, dim: Dimension) -> _Frame:
        if dim.upright:
            start, end, line_v = (dim.start.y, -dim.start.x), (dim.end.y, -dim.end.x), -dim.line_at
        else:
            start, end, line_v = (dim.start.x, dim.start.y), (dim.end.x, dim.end.y), dim.line_at
        return cls(start, end, line_v, 1.0 if line_v >= start[1] else -1.0, dim.upright)

    def point(self, u: float, v: float) -> Point:
        return Point(-v, u) if self.upright else Point(u, v)

    def stroke(self, *places: tuple[float, float], weight: float | None = None) -> Stroke:
        points = [self.point(u, v) for u, v in places]
        return Stroke(tuple(Corner(p.x, p.y) for p in points), Layer.DIMENSION, weight=weight)

    def text_foot(self, dim: Dimension, scale: float) -> tuple[float, float]:
        """Middle of the text's baseline."""
        u = (self.start[0] + self.end[0]) / 2 + dim.slide * scale
        if not dim.shift:
            return u, self.line_v + TEXT_GAP * scale
        if self.outward > 0:
            return u, self.line_v + (TEXT_GAP + dim.shift * ROW) * scale
        below = OVERRUN + 0.2 + ASCENT * TEXT_HEIGHT + (dim.shift - 1) * ROW
        return u, self.line_v - below * scale


def _above_baseline(label: Label) -> float:
    """How far the baseline lies above `at`, in the text's own frame, mm on paper."""
    return {"base": 0.0, "middle": -label.height / 2, "top": -label.height}[label.level]


def _turned(x: float, y: float, degrees: float) -> tuple[float, float]:
    if not degrees:
        return x, y
    if degrees == 90:
        return -y, x
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return x * cos - y * sin, x * sin + y * cos
