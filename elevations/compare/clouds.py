"""Clouds of arcs round what changed in a window, each with its tag."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from elevations.compare.changes import ALWAYS, Change, said
from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke
from elevations.drawing.layers import THIN, Layer
from elevations.geometry.window import Window
from elevations.plane import Box, Corner, Outline, Point

PUFF, BULGE = 5.0, 0.55
"""Length of one arc of a cloud, mm on paper, and its bulge: how far it swells."""
TAG, TAG_TEXT = 6.5, 2.5
"""Side of a tag's triangle and height of its number, mm on paper."""
ROOM = {"frame": 2.0, "bar": 0.0, "light": 0.6}
"""Between a thing and its cloud, mm on paper."""


@dataclass(frozen=True, slots=True)
class Cloud:
    """Changes that lie in one place of the drawing."""

    tag: int
    box: Box
    """Of the thing, mm in the elevation: the frame, a bar, or what is seen of a light's glass."""
    kind: str
    """frame, bar or light: clouds and tags stand clear of each other by it."""
    changes: tuple[Change, ...]

    @property
    def lines(self) -> list[str]:
        """What is said of it in the revision table."""
        return said(self.changes)


def clouds(window: Window, found: Sequence[Change]) -> tuple[list[Cloud], list[Change]]:
    """The changes by place, numbered in the order they are told, and those that have no place: gone, or following."""
    places: dict[str, tuple[_Place, list[Change]]] = {}
    rest: list[Change] = []
    known = _places(window)
    for change in found:
        place = known.get(change.subject)
        if place is None or change.follows or (change.new is None and not change.what):
            rest.append(change)
        else:
            places.setdefault(place.name, (place, []))[1].append(change)
    return [Cloud(tag, place.box, place.kind, tuple(held)) for tag, (place, held) in enumerate(places.values(), start=1)], rest


class _Place(NamedTuple):
    """Where subjects of facts are seen."""

    name: str
    kind: str
    box: Box


def _places(window: Window) -> dict[str, _Place]:
    """The place of each subject: a light's sash and glass are seen in the light."""
    found = dict.fromkeys(ALWAYS, _Place("frame", "frame", window.frame.outline.bounds))
    for bar in window.bars:
        found[f"{bar.profile} {bar.tag}"] = _Place(bar.tag, "bar", bar.face.bounds)
    for light in window.lights:
        place = _Place(f"light {light.number}", "light", light.panes[0].sight.outline.bounds)
        tags = [place.name, *(f"sash {sash.tag}" for sash in light.sashes), *(f"glass {pane.tag}" for pane in light.panes)]
        tags += [f"glazing bar {bar.tag} of {pane.tag}" for pane in light.panes for bar in pane.bars]
        found |= dict.fromkeys(tags, place)
    return found


def cloud_group(cloud: Cloud, scale: float) -> Group:
    """The cloud round its box, and its tag where neither another cloud nor a dimension is, for 1:`scale`."""
    box = cloud.box.grown(ROOM[cloud.kind] * scale)
    corner = Point(box.right, box.top)
    if cloud.kind == "frame":
        corner = Point(box.right + TAG / 2 * scale, box.top + TAG / 2 * scale)
    elif cloud.kind == "bar":
        level = box.width > box.height
        corner = Point(box.left + 0.25 * box.width, box.centre.y) if level else Point(box.centre.x, box.bottom + 0.25 * box.height)
    items: list[Entity] = [Stroke(tuple(_puffs(box, PUFF * scale)), Layer.REVISION, closed=True)]
    items += tag_at(cloud.tag, corner, scale)
    return Group(f"cloud-{cloud.tag}", tuple(items), f"change {cloud.tag}: {'; '.join(cloud.lines)}", (("change", str(cloud.tag)),))


def tag_at(number: int, at: Point, scale: float) -> Iterator[Entity]:
    """A triangle with the number in it, its middle there, for 1:`scale`."""
    half, high = TAG / 2 * scale, TAG * 0.866 * scale
    foot = at.y - high / 3
    corners = (Corner(at.x - half, foot), Corner(at.x + half, foot), Corner(at.x, foot + high))
    yield Fill(Outline((corners[0], corners[1], corners[2])), Layer.REVISION, "#ffffff")
    yield Stroke(corners, Layer.REVISION, closed=True, weight=THIN)
    yield Label(str(number), Point(at.x, foot + 0.75 * scale), TAG_TEXT if number < 10 else TAG_TEXT * 0.72, Layer.REVISION, align="centre", bold=True)


def _puffs(box: Box, length: float) -> Iterator[Corner]:
    """Corners of arcs that swell outwards all round the box, as near to that length as the sides allow."""
    ends = (Point(box.left, box.bottom), Point(box.right, box.bottom), Point(box.right, box.top), Point(box.left, box.top))
    for a, b in zip(ends, (*ends[1:], ends[0]), strict=True):
        count = max(1, round(math.dist(a, b) / length))
        for i in range(count):
            yield Corner(a.x + (b.x - a.x) * i / count, a.y + (b.y - a.y) * i / count, BULGE)
