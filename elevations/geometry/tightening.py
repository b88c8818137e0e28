"""In which order fixings are tightened, so that the frame is drawn straight and not bowed."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.geometry.window import FixingPoint, Window
from elevations.plane import Point


def tightening_order(window: Window) -> tuple[FixingPoint, ...]:
    """Bottom of one jamb, top of the other, and so on across; then head and sill; then what lies between, from the corners in.

    Common practice, no source: opposite corners first hold the frame square, and a fixing in the middle pulled up first
    would bow it.
    """
    box = window.frame.outline.bounds
    corners = [Point(box.left, box.bottom), Point(box.right, box.top), Point(box.left, box.top), Point(box.right, box.bottom)]
    left = list(window.fixings)
    order: list[FixingPoint] = []
    for jambs in (True, False):
        for corner in corners:
            side = [p for p in left if p.side.endswith("jamb") == jambs and p.kind != "intermediate"]
            if side:
                order.append(_nearest(side, corner))
                left.remove(order[-1])
    last = order[-1].at if order else box.centre
    while left:
        # The next is the one nearest to a corner, on the far side of the frame from the one before.
        ends = {p.tag: min(p.along.value, p.side_length - p.along.value) for p in left}
        least = min(ends.values())
        level = [p for p in left if ends[p.tag] <= least + 1.0]
        order.append(max(level, key=lambda p: (round((p.at.x - last.x) ** 2 + (p.at.y - last.y) ** 2, 3), -int(p.tag[1:]))))
        left.remove(order[-1])
        last = order[-1].at
    return tuple(order)


def _nearest(points: Sequence[FixingPoint], corner: Point) -> FixingPoint:
    return min(points, key=lambda p: (round((p.at.x - corner.x) ** 2 + (p.at.y - corner.y) ** 2, 3), int(p.tag[1:])))
