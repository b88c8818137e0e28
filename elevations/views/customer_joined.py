"""Joined windows as their owner will see them: as one thing, from outside or from inside.

Facets of a bay are drawn as they are seen by somebody who stands in front of it, so those that stand at an angle are
narrower than they are; where they would hardly be seen they are laid flat.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import Layer
from elevations.geometry.joined import Joined
from elevations.geometry.window import Window
from elevations.plane import Corner, Outline, Point, flatten, rectangle
from elevations.views import customer_tones as tones
from elevations.views.customer import LINE_MM, customer_view, mirrored, ring
from elevations.views.developed import joint_box

STEEPEST_DEG = 62.0
"""A facet that turns more from the front would be drawn narrower than half of what it is."""
SAGITTA_MM = 0.2
"""Arcs that are drawn narrower are drawn as lines this near to them: a picture, not a measure."""


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a frame stands in the picture from outside, mm, and how much narrower it is drawn."""

    window: Window
    x: float
    y: float
    share: float


def laid_flat(joined: Joined) -> bool:
    """Whether the picture shows all facets of a bay in one plane."""
    return joined.plan is None or not joined.bay or max(abs(turn) for turn in joined.plan.turns) > STEEPEST_DEG


def picture_width(joined: Joined) -> float:
    """Of the picture, mm."""
    return joined.width.value if laid_flat(joined) or joined.plan is None else joined.plan.width.value


def customer_joined_view(joined: Joined, scale: float, *, side: str = "outside") -> View:
    """The whole from one side, mm from its bottom left corner as seen from there; lines for 1:`scale`."""
    inside, width = side == "inside", picture_width(joined)
    groups = [Group("joints", tuple(_joints(joined, scale, inside=inside)), "what joins the windows")]
    for place in _places(joined):
        wide = place.window.width.value * place.share
        x = width - place.x - wide if inside else place.x
        view = customer_view(place.window, scale, side=side, setting=False)
        name = f"w{int(place.window.path[1]) + 1}"
        groups += [
            replace(group, id=f"{name}-{group.id}", items=tuple(_put(item, x, place.y, place.share) for item in group.items), title=f"{place.window.mark} {group.title}")
            for group in view.groups
        ]
    groups = [group for group in groups if group.items]
    bounds = bounds_of_all((item for group in groups for item in group.items), scale)
    return View(f"{side}-{joined.mark}", f"{joined.mark} from {side}", tuple(groups), bounds.joined(rectangle(0.0, 0.0, width, joined.height.value).bounds))


def _places(joined: Joined) -> Iterator[_Place]:
    if laid_flat(joined) or joined.plan is None:
        for facet in joined.facets:
            yield _Place(facet.window, facet.x, facet.y, 1.0)
        return
    for facet, outline, turn in zip(joined.facets, joined.plan.frames, joined.plan.turns, strict=True):
        yield _Place(facet.window, outline.corners[0].x, 0.0, math.cos(math.radians(turn)))


def _joints(joined: Joined, scale: float, *, inside: bool) -> Iterator[Entity]:
    """Couplers and posts, each face of a post in the tone of the way it looks."""
    finish = joined.windows[0].finish
    tone = tones.finished(finish.inside if inside else finish.outside).tone
    for number, joint in enumerate(joined.joints):
        box = joint_box(joined, number)
        edges = [box.left, box.right]
        if len(joint.widths) > 1:
            edges.insert(1, box.left + joint.widths[0].value)
            if joined.plan is not None and not laid_flat(joined):
                first, corner, last = joined.plan.joints[number].corners[5], joined.plan.joints[number].corners[0], joined.plan.joints[number].corners[1]
                edges = [first.x, corner.x, last.x]
        faces = [rectangle(low, box.bottom, high, box.top) for low, high in pairwise(edges)]
        for face, right in zip(faces, (0.0,) if len(faces) == 1 else (-0.6, 0.6), strict=True):
            items = [Fill(face, Layer.COUPLER, tones.facet(tone, right, 0.0)), *ring(face, LINE_MM * scale, tones.edge(tone), Layer.COUPLER)]
            yield from (mirrored(item, picture_width(joined) / 2) if inside else item for item in items)


def _put(item: Entity, x: float, y: float, share: float) -> Entity:
    """An entity of a frame's own picture in its place, narrowed to that share."""
    match item:
        case Fill():
            return replace(item, outline=_narrow(item.outline, x, y, share), holes=tuple(_narrow(hole, x, y, share) for hole in item.holes))
        case Label():
            return replace(item, at=Point(x + item.at.x * share, y + item.at.y))
        case Stroke() if item.closed:
            return replace(item, corners=_narrow(Outline(item.corners), x, y, share).corners)
    raise TypeError(f"a {type(item).__name__} is not drawn for customers")


def _narrow(outline: Outline, x: float, y: float, share: float) -> Outline:
    if share >= 1.0:
        return outline.moved(x, y)
    return Outline(tuple(Corner(x + point.x * share, y + point.y) for point in flatten(outline, SAGITTA_MM)))
