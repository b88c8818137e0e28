"""What a shaped head changes in an elevation: symbols that follow it, and its radii and slopes in words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from elevations.drawing.entities import Label, Leader
from elevations.drawing.explode import explode_leader, label_box
from elevations.geometry.along import chord, place_on
from elevations.geometry.window import Window
from elevations.plane import SAME_MM, Box, Corner, Outline, Point, arc_radius
from elevations.views.cuts import Cuts

NOTE_HEIGHT, LINE_CLEAR = 2.5, 0.6
"""Of the words about a head; and what they keep off an extension line, mm on paper."""
REACH = 5.0
"""From a head's edge to the words about it, mm on paper."""
PLACES = (0.3, 0.2, 0.4, 0.12, 0.5, 0.6, 0.7, 0.8)
"""Where along an edge, as shares from its right end, the words may be led from, in order of preference."""
MARK_HALF, MARK_HIGH = 7.5, 10.0
"""What the mark of a cut takes above the frame, to each side of its line and upwards, mm on paper."""


def holds(outline: Outline, point: Point) -> bool:
    """Whether an outline without hollows has a point inside it or on its edge."""
    found = chord(outline, 0, point.x)
    return found is not None and found[0].at - SAME_MM <= point.y <= found[1].at + SAME_MM


def holds_box(outline: Outline, box: Box) -> bool:
    """Whether an outline without hollows has a whole box inside it."""
    return all(holds(outline, Point(x, y)) for x in (box.left, box.right) for y in (box.bottom, box.top))


def on_shape(strokes: Sequence[Sequence[Point]], outline: Outline) -> list[tuple[Point, ...]]:
    """The lines of an opening symbol made for the outline's bounds, brought onto the outline itself.

    Ends on an upright or level edge of the bounds slide along that edge of the outline; what then still lies outside is cut
    off at the outline.
    """
    if outline.is_box:
        return [tuple(stroke) for stroke in strokes]
    box = outline.bounds
    return [
        tuple(_clipped(points, outline)) for stroke in strokes for points in [[_slid(point, box, outline) for point in stroke]]
    ]


def _slid(point: Point, box: Box, outline: Outline) -> Point:
    """A point on the bounds, at the same share of the outline's own straight edge on that side, where there is one."""
    for axis, limit in ((0, box.left), (0, box.right), (1, box.bottom), (1, box.top)):
        if abs(point[axis] - limit) > SAME_MM:
            continue
        along = 1 - axis
        for a, b in outline.edges():
            if not a.bulge and abs(a[axis] - limit) < SAME_MM and abs(b[axis] - limit) < SAME_MM:
                low, high = sorted((a[along], b[along]))
                share = (point[along] - box[along]) / (box[along + 2] - box[along])
                place = [limit, limit]
                place[along] = low + share * (high - low)
                return Point(*place)
    return point


def _clipped(points: Sequence[Point], outline: Outline) -> Iterator[Point]:
    """A polyline whose ends stop at the outline; its inner points stay where they are, or come onto the outline."""
    inside = [holds(outline, point) for point in points]
    for i, point in enumerate(points):
        if inside[i]:
            yield point
            continue
        near = [points[j] for j in (i - 1, i + 1) if 0 <= j < len(points) and inside[j]]
        yield _towards(point, near[0] if near else outline.bounds.centre, outline)


def _towards(point: Point, inner: Point, outline: Outline) -> Point:
    """Where the line from a point outside to one inside enters the outline, by halving: drawn lines need no more."""
    low, high = 0.0, 1.0
    for _ in range(40):
        middle = (low + high) / 2
        here = Point(point.x + (inner.x - point.x) * middle, point.y + (inner.y - point.y) * middle)
        low, high = (low, middle) if holds(outline, here) else (middle, high)
    return Point(point.x + (inner.x - point.x) * high, point.y + (inner.y - point.y) * high)


def head_notes(window: Window, scale: float, cuts: Cuts | None) -> tuple[Leader, ...]:
    """Radius of each arc and slope of each sloping edge of the frame, led out of it clear of the marks of cuts."""
    outline, made = window.frame.outline, []
    said: set[str] = set()
    blocked = [_mark(window, cuts, scale)] if cuts else []
    box = outline.bounds
    # The extension line of the overall height runs from the highest point to the left.
    blocked.append(Box(box.left, box.top, _highest(outline).x, box.top).grown(LINE_CLEAR * scale))
    for number, (a, b) in enumerate(outline.edges()):
        text = edge_words(a, b)
        if text and text not in said:
            leader = _leader(outline, number, text, scale, blocked)
            if leader:
                made.append(leader)
                blocked.append(_text_box(leader, scale))
                said.add(text)
    return tuple(made)


def _highest(outline: Outline) -> Point:
    """The middle of its highest part."""
    box = outline.bounds
    found = chord(outline, 1, box.top - min(1.0, box.height / 10))
    return Point((found[0].at + found[1].at) / 2 if found else box.centre.x, box.top)


def edge_words(a: Corner, b: Corner) -> str:
    """'R 966' of an arc, 'slope 14°' of a sloping edge; empty for a level or upright one."""
    if a.bulge:
        return f"R {_tenth(arc_radius(a, b))}"
    if abs(a.x - b.x) < SAME_MM or abs(a.y - b.y) < SAME_MM:
        return ""
    return f"slope {_tenth(math.degrees(math.atan2(abs(b.y - a.y), abs(b.x - a.x))))}°"


def _tenth(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _mark(window: Window, cuts: Cuts, scale: float) -> Box:
    """What the mark of A-A takes above the frame."""
    top = window.frame.outline.bounds.top
    return Box(cuts.upright_x - MARK_HALF * scale, top, cuts.upright_x + MARK_HALF * scale, top + MARK_HIGH * scale)


def _leader(outline: Outline, number: int, text: str, scale: float, blocked: Sequence[Box]) -> Leader | None:
    """From the edge outwards, the words on the side that the edge falls away to; nothing where every place is taken."""
    length = outline.length(number)
    for share in PLACES:
        at, inward = place_on(outline, number, share * length)
        end = Point(at.x - inward.x * REACH * scale, at.y - inward.y * REACH * scale)
        if inward.y > 0.3:   # the lower half of a ring: what is below it belongs to the chains
            continue
        leader = Leader((at, end), text, NOTE_HEIGHT)
        if not any(_text_box(leader, scale).overlaps(box) for box in blocked):
            return leader
    return None


def _text_box(leader: Leader, scale: float) -> Box:
    return next(label_box(part, scale) for part in explode_leader(leader, scale) if isinstance(part, Label))
