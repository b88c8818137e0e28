"""Views as drawing programs want them: lines without tones, and no size that such a program would lay over its neighbour."""

from __future__ import annotations

from dataclasses import replace

from elevations.drawing.entities import Dimension, Entity, Fill, Placed, Stroke, View
from elevations.drawing.explode import explode_dimension
from elevations.drawing.layers import Layer
from elevations.views.section import tight

ROUND = (Layer.WALL, Layer.SILL)
"""What stands round a frame brings chains of short sizes, each told nowhere else, so that none may be left out."""


def without_tones(placed: Placed) -> Placed:
    """Lines alone: on the dark screen of a drawing program pale areas would glare."""
    groups = tuple(replace(group, items=tuple(item for item in group.items if not isinstance(item, Fill))) for group in placed.view.groups)
    return replace(placed, view=replace(placed.view, groups=groups))


def for_drawing_programs(placed: Placed) -> Placed:
    """Without tones; in a section with its wall or sill, sizes that have no room in their spans as lines and text.

    LibreCAD sets the texts of dimensions anew, and laid 60 on 70, and 6 before 54 as 654 (seen).
    """
    bare = without_tones(placed)
    if not _shows_surroundings(bare.view):
        return bare
    groups = tuple(
        replace(group, items=tuple(part for item in group.items for part in _as_lines(item, placed.scale))) for group in bare.view.groups
    )
    return replace(bare, view=replace(bare.view, groups=groups))


def _shows_surroundings(view: View) -> bool:
    items = (item for group in view.groups for item in group.items)
    return view.id.startswith(("wall-", "section-")) and any(isinstance(item, Stroke) and item.layer in ROUND for item in items)


def _as_lines(item: Entity, scale: float) -> tuple[Entity, ...]:
    return tuple(explode_dimension(item, scale)) if isinstance(item, Dimension) and tight(item, scale) else (item,)
