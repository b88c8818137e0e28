"""Glass as its owner will see it: a calm tint with the sky in it, or a pattern where it is obscured."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from elevations.drawing.entities import Fill
from elevations.drawing.layers import Layer
from elevations.geometry.window import Pane
from elevations.plane import SAME_MM, Corner, Outline, Point
from elevations.views import customer_tones as tones

BANDS = ((0.16, 0.40, 0), (0.46, 0.56, 1))
"""Sheen: where each band starts and ends along the pane's diagonal, as shares, and which tone it has."""
PITCH_MM, MOST_SPOTS = 2.6, 420
"""Distance of the spots of obscure glass on paper, and how many a pane may have: larger panes get larger spots."""


def glass(pane: Pane, side: str, scale: float) -> Iterator[Fill]:
    """What is seen through or on a pane, from outside or inside, for 1:`scale`."""
    outline = pane.sight.outline
    if pane.make_up.obscure:
        spots = tuple(_spots(outline, PITCH_MM * scale))
        yield Fill(outline, Layer.HATCH, tones.OBSCURE_BRIGHT)
        yield Fill(outline, Layer.HATCH, tones.OBSCURE, spots)
        return
    yield Fill(outline, Layer.HATCH, tones.GLASS[side])
    box = outline.bounds
    # The chords under arcs lie within the pane, so a band cut to them never leaves it.
    corners = [corner.point for corner in outline.corners]
    # Bands slant at a fixed angle: x + y/2 is constant along each.
    low, high = box.left + box.bottom / 2, box.right + box.top / 2
    for start, end, number in BANDS:
        band = _between(corners, low + (high - low) * start, low + (high - low) * end)
        if len(band) > 2:
            yield Fill(Outline(tuple(Corner(*p) for p in band)), Layer.HATCH, tones.SHEEN[side][number])


def _between(corners: Sequence[Point], low: float, high: float) -> list[Point]:
    """The part of a convex polygon where x + y/2 lies between two values (Sutherland and Hodgman's cut, twice)."""
    return _cut(_cut(corners, low, 1.0), high, -1.0)


def _cut(corners: Sequence[Point], limit: float, sign: float) -> list[Point]:
    kept: list[Point] = []
    for a, b in zip(corners, [*corners[1:], *corners[:1]], strict=True):
        da, db = (sign * (p.x + p.y / 2 - limit) for p in (a, b))
        if da >= 0:
            kept.append(a)
        if (da < 0) != (db < 0) and abs(da - db) > SAME_MM:
            t = da / (da - db)
            kept.append(Point(a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)))
    return kept


def _spots(outline: Outline, pitch: float) -> Iterator[Outline]:
    """Lozenges in staggered rows, each wholly inside the pane."""
    box = outline.bounds
    pitch = max(pitch, (box.width * box.height / MOST_SPOTS) ** 0.5)
    half_w, half_h = pitch * 0.36, pitch * 0.36
    corners = [corner.point for corner in outline.corners]
    rows, columns = int(box.height / (pitch * 0.62)), int(box.width / pitch)
    left, bottom = box.centre.x - columns * pitch / 2, box.centre.y - rows * pitch * 0.31
    for row in range(rows):
        y = bottom + (row + 0.5) * pitch * 0.62
        for column in range(columns - row % 2):
            x = left + (column + 0.5 + (row % 2) / 2) * pitch
            tips = (Point(x - half_w, y), Point(x, y - half_h), Point(x + half_w, y), Point(x, y + half_h))
            if all(_inside(corners, tip) for tip in tips):
                yield Outline(tuple(Corner(*tip) for tip in tips))


def _inside(corners: Sequence[Point], p: Point) -> bool:
    """Whether a point lies inside a convex counter-clockwise polygon."""
    return all(
        (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) > 0
        for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
