"""The true plan of joined windows, seen from above with the outside at the bottom: frames, posts, angles, overall sizes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from elevations.drawing.chains import chain, next_line, overall, snapped
from elevations.drawing.entities import Dimension, Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.explode import label_box
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import CUT, FINE, Layer
from elevations.drawing.lettering import text_width, wrap
from elevations.geometry.bay_plan import Plan
from elevations.geometry.joined import Joined
from elevations.plane import SAME_MM, Box, Corner, Outline, Point, flatten
from elevations.views.developed import JOINT_TONE
from elevations.views.elevation import NARROWEST_TITLE, NOTE_HEIGHT, TITLE_HEIGHT
from elevations.views.light_note import crosses
from elevations.views.marking_figures import order_sign

FRAME_TONE = "#f4f5f3"
FIRST, AWAY = 9.0, (1.6, 5.0, 9.0)
"""From the frames to the first chain, and how far a facet's mark may stand off it, mm on paper."""
RADIUS, REACHES = 5.0, (9.0, 12.5, 16.0, 20.0)
"""Of an angle's arc, and how far its text may stand from the corner, mm on paper."""
KEPT, RADIUS_OF_ORDER = "      ", 2.3
"""Spaces before a name, kept for the circle with its order, and the circle's radius, mm on paper."""
CLEAR = 0.5
"""Kept free round a text, mm on paper."""


def plan_view(joined: Joined, scale: float, order: Mapping[str, int] | None = None) -> View:
    """The plan, mm from the left end of the outer face, x along the line through both ends; annotation sized for 1:`scale`.

    `order`: when each frame and joint goes up, by mark and tag; a joint is then named too. Raises ValueError for a stack, which has none.
    """
    plan = joined.plan
    if plan is None:
        raise ValueError(f"{joined.mark} is a stack and has no plan")
    groups = [
        _part(f"plan-w{int(facet.window.path[1]) + 1}", outline, Layer.FRAME, FRAME_TONE, f"{facet.window.mark}, frame", joined.mark)
        for facet, outline in zip(joined.facets, plan.frames, strict=True)
    ]
    groups += [
        _part(f"plan-{joint.tag.lower()}", outline, Layer.COUPLER, JOINT_TONE, f"{joint.tag}, {joint.profile}", joined.mark)
        for joint, outline in zip(joined.joints, plan.joints, strict=True)
    ]
    groups.append(Group("plan-angles", tuple(_arcs(plan, scale)), "angles between the facets"))
    words = _words(joined, plan, scale, order or {})
    groups.append(Group("plan-words", tuple(_bare(word, scale) for word in words), "marks and angles"))
    if order:
        signs = [sign for word in words if (name := word.text.strip()) in order for sign in _order_sign(word, order[name], scale)]
        groups.append(Group("plan-order", tuple(signs), "order of assembly"))
    taken = [label_box(word, scale) for word in words]
    top = max([*(point.y for point in plan.inner), *(box.top for box in taken)])
    right = max([*(point.x for point in (*plan.outer, *plan.inner)), *(box.right for box in taken)])
    groups.append(Group("plan-dimensions", tuple(_dimensions(plan, right, top, scale)), "overall sizes and projection"))
    inner = bounds_of_all((item for group in groups for item in group.items), scale)
    title = _title(joined, scale, inner)
    groups.append(title)
    return View("plan", "True plan, seen from above", tuple(groups), inner.joined(bounds_of_all(title.items, scale)))


def _part(name: str, outline: Outline, layer: Layer, tone: str, title: str, mark: str) -> Group:
    items: tuple[Entity, ...] = (Fill(outline, Layer.HATCH, tone), Stroke(outline.corners, layer, closed=True, weight=CUT))
    return Group(name, items, title, (("mark", mark),))


def _bends(plan: Plan) -> Iterator[tuple[Point, float, float]]:
    """Each corner of the inner face, and the directions of the facets before and after it, degrees."""
    for before, at, after in zip(plan.inner, plan.inner[1:], plan.inner[2:], strict=False):
        yield at, _heading(before, at), _heading(at, after)


def _heading(a: Point, b: Point) -> float:
    return math.degrees(math.atan2(b.y - a.y, b.x - a.x))


def _towards(at: Point, degrees: float, by: float) -> Point:
    return Point(at.x + by * math.cos(math.radians(degrees)), at.y + by * math.sin(math.radians(degrees)))


def _arcs(plan: Plan, scale: float) -> Iterator[Stroke]:
    """From one inner face to the next, in the room."""
    for at, first, second in _bends(plan):
        start, end = _towards(at, second, RADIUS * scale), _towards(at, first + 180.0, RADIUS * scale)
        bulge = math.tan(math.radians(180.0 - (second - first)) / 4)
        yield Stroke((Corner(*start, bulge), Corner(*end)), Layer.DIMENSION, weight=FINE)


def _bare(word: Label, scale: float) -> Label:
    """Without the spaces before it, which not every reader keeps, and still where it was."""
    text = word.text.lstrip()
    moved = text_width(word.text[: len(word.text) - len(text)], word.height, bold=word.bold) / 2
    return replace(word, text=text, at=Point(word.at.x + moved * scale, word.at.y))


def _order_sign(word: Label, number: int, scale: float) -> Iterator[Entity]:
    """In the room that the spaces before a name keep free."""
    box = label_box(word, scale)
    yield from order_sign(number, Point(box.left + RADIUS_OF_ORDER * scale, box.centre.y), scale)


def _words(joined: Joined, plan: Plan, scale: float, order: Mapping[str, int]) -> list[Label]:
    """Each angle in the room, each facet's mark outside: at the first place that is clear of lines and of other words."""
    lines = [edge for outline in (*plan.frames, *plan.joints) for edge in pairwise([*outline.corners, outline.corners[0]])]
    ends = (plan.outer[0].x, plan.outer[-1].x, plan.inner[0].x, plan.inner[-1].x)
    highest = max(point.y for point in plan.inner)
    # Extension lines of the widths run up from the ends, those of the projection to the right.
    far, lowest = 60.0 * scale, _furthest(plan)
    lines += [(Corner(x, 0.0 if x in ends[:2] else highest), Corner(x, highest + far)) for x in ends]
    lines += [(Corner(*at), Corner(plan.outer[-1].x + far, at.y)) for at in (lowest, plan.outer[-1])]
    lines += [(Corner(*a), Corner(*b)) for arc in _arcs(plan, scale) for a, b in pairwise(flatten(Outline(arc.corners), scale * CLEAR / 2))]
    placed: list[Label] = []
    tags = _tags(joined, plan, scale) if order else ()
    for choices in (*_angle_words(joined, plan, scale), *_marks(joined, plan, scale, room=KEPT if order else ""), *tags):
        placed += _first_clear(choices, placed, lines, scale)
    return placed


def _angle_words(joined: Joined, plan: Plan, scale: float) -> Iterator[list[Label]]:
    angles = [joint.angle for joint in joined.joints if len(joint.widths) > 1]
    for (at, first, second), angle in zip(_bends(plan), angles, strict=True):
        middle = (first + second) / 2 + 90.0
        yield [
            Label(f"{angle:g}°", _towards(at, middle + off, reach * scale), NOTE_HEIGHT, align="centre", level="middle")
            for reach in REACHES for off in (0.0, 15.0, -15.0, 30.0, -30.0)
        ]


def _tags(joined: Joined, plan: Plan, scale: float) -> Iterator[list[Label]]:
    """The tag of each joint, outside or in the room."""
    for joint, outline in zip(joined.joints, plan.joints, strict=True):
        centre = outline.bounds.centre
        half = text_width(KEPT + joint.tag, NOTE_HEIGHT) / 2
        yield [
            Label(KEPT + joint.tag, _towards(centre, way, (reach + half * abs(math.cos(math.radians(way)))) * scale), NOTE_HEIGHT, align="centre", level="middle")
            for reach in REACHES for way in (-90.0, -60.0, -120.0, 90.0, 60.0, 120.0, -30.0, -150.0)
        ]


def _marks(joined: Joined, plan: Plan, scale: float, room: str = "") -> Iterator[list[Label]]:
    """`room`: spaces before the mark, kept for a sign."""
    for facet, outline, turn in zip(joined.facets, plan.frames, plan.turns, strict=True):
        a, b, c, d = (corner.point for corner in outline.corners)
        mark = room + facet.window.mark
        half = text_width(mark, NOTE_HEIGHT, bold=True) / 2 * abs(math.sin(math.radians(turn))) + NOTE_HEIGHT * 0.8
        sides = ((a, b, turn - 90.0), (d, c, turn + 90.0))
        yield [
            Label(
                mark, _towards(Point(near.x + share * (far.x - near.x), near.y + share * (far.y - near.y)), way, (away + half) * scale),
                NOTE_HEIGHT, align="centre", level="middle", bold=True,
            )
            for away in AWAY for near, far, way in sides for share in (0.5, 0.4, 0.6, 0.3, 0.7)
        ]


def _first_clear(choices: Sequence[Label], placed: Iterable[Label], lines: Sequence[tuple[Corner, Corner]], scale: float) -> list[Label]:
    """The first label that meets nothing; none where all do, for the table beside the drawing says it too."""
    taken = [label_box(label, scale) for label in placed]
    for label in choices:
        box = label_box(label, scale).grown(CLEAR * scale)
        if not any(box.overlaps(other) for other in taken) and not any(crosses(a.point, b.point, box) for a, b in lines):
            return [label]
    return []


def _dimensions(plan: Plan, edge: float, top: float, scale: float) -> Iterator[Dimension]:
    """Above, in the room: inner width, then outer; to the right: how far the outer face stands out, or the frames' depth.

    `edge` and `top`: how far everything else reaches to the right and up, mm.
    """
    line_at = top + FIRST * scale
    first, last = plan.inner[0], plan.inner[-1]
    if abs(first.x - plan.outer[0].x) > SAME_MM or abs(last.x - plan.outer[-1].x) > SAME_MM:
        inner = (Dimension(first, last, line_at, upright=False),)
        yield from inner
        line_at = next_line(inner, scale)
    yield from overall((plan.outer[0].x, plan.outer[-1].x), line_at=line_at, upright=False, scale=scale, thing_at=0.0)
    right = plan.outer[-1]
    beside = edge + FIRST * scale
    if plan.projection.value > SAME_MM:
        lowest = _furthest(plan)
        yield from chain((lowest.y, 0.0), line_at=beside, upright=True, scale=scale, thing_at=(lowest.x, right.x))
    else:
        yield from chain((0.0, last.y), line_at=beside, upright=True, scale=scale, thing_at=right.x)


def _furthest(plan: Plan) -> Point:
    """The corner of the outer face that stands out furthest; of several the right one."""
    return min(plan.outer, key=lambda point: (snapped(point.y), -point.x))


def _title(joined: Joined, scale: float, inner: Box) -> Group:
    top = inner.bottom - 3.5 * scale
    items = [Label("True plan, seen from above", Point(0.0, top), TITLE_HEIGHT, level="top", bold=True)]
    kinds = " and ".join(dict.fromkeys(f"{joint.kind}s" for joint in joined.joints))
    note = f"Scale 1:{scale:g}; outside at the bottom. Frames at their depth; {kinds} as plain shapes, their outlines are not given"
    top -= 6.0 * scale
    for row in wrap(note, max((inner.right - inner.left) / scale, NARROWEST_TITLE), NOTE_HEIGHT):
        items.append(Label(row, Point(0.0, top), NOTE_HEIGHT, level="top"))
        top -= NOTE_HEIGHT * 1.6 * scale
    return Group("plan-title", tuple(items))
