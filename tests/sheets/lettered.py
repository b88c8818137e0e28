"""Every text and every line of a sheet where it stands on the paper: what the tests of layout judge by."""

import itertools

from elevations.drawing.entities import Dimension, Stroke
from elevations.drawing.explode import explode_dimension
from elevations.drawing.extent import text_boxes
from elevations.plane import Box, Corner, Outline, Point, flatten


def texts(sheet):
    """(view and group, text, box in paper mm) of every text, those of dimensions too."""
    found = []
    for name, groups, scale, at in _layers(sheet):
        for group in groups:
            for text, box in text_boxes(group.items, scale):
                where = Box(*(value / scale + at[i % 2] for i, value in enumerate(box)))
                found.append((f"{name}/{group.id}", text, where))
    return found


def segments(sheet):
    """(view and group, start, end in paper mm) of every line of the views, those of dimensions too, arcs in short chords."""
    for name, groups, scale, at in _layers(sheet):
        for group in groups:
            for item in group.items:
                parts = explode_dimension(item, scale) if isinstance(item, Dimension) else (item,)
                for part in parts:
                    if isinstance(part, Stroke):
                        ends = [Point(p.x / scale + at.x, p.y / scale + at.y) for p in _flat(part)]
                        for a, b in itertools.pairwise(ends):
                            yield f"{name}/{group.id}", a, b


def _flat(stroke):
    """The corners of a line in order, with points between them where it is bent."""
    corners = [*stroke.corners, *stroke.corners[:1]] if stroke.closed else stroke.corners
    for a, b in itertools.pairwise(corners):
        yield from flatten(Outline((a, Corner(b.x, b.y))))[:-1] if a.bulge else [a.point]
    yield corners[-1].point


def _layers(sheet):
    for placed in sheet.placed:
        yield placed.view.id, placed.view.groups, placed.scale, placed.at
    yield "sheet", sheet.groups, 1.0, Point(0.0, 0.0)


def items_on(view, layer):
    return [item for group in view.groups for item in group.items if getattr(item, "layer", None) == layer]


def view_named(sheet, name):
    return next(placed for placed in sheet.placed if placed.view.id == name)
