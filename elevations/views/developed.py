"""The developed elevation of joined windows: every facet at true size, laid into one plane, with what stands between them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from elevations.drawing.chains import chain, next_line, overall
from elevations.drawing.entities import Dimension, Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import THIN, Layer
from elevations.drawing.lettering import fit, text_width, wrap
from elevations.drawing.moving import moved
from elevations.geometry.joined import Facet, Joined, Joint
from elevations.plane import Box, Corner, Point, rectangle
from elevations.views.elevation import NARROWEST_TITLE, NOTE_HEIGHT, TITLE_HEIGHT, window_groups
from elevations.views.marking_figures import RADIUS, order_sign

MARK = 3.5
"""Height of a facet's mark, mm on paper."""
NEAR, FAR = 1.6, 6.2
"""From the frames to the foot of a joint's tag, and to that of a facet's mark, mm on paper."""
FIRST = 9.0
"""From the frames to the first chain, mm on paper."""
JOINT_TONE = "#e4e2dc"


def developed(joined: Joined, scale: float, *, apex_at_hinge: bool = True, order: Mapping[str, int] | None = None) -> View:
    """All facets from outside, mm from the bottom left outer corner of the whole; annotation sized for 1:`scale`.

    `order`: when each frame and joint of a stack, which has no plan, goes up, by mark and tag.
    """
    groups = [group for facet in joined.facets for group in _facet(facet, scale, apex_at_hinge=apex_at_hinge)]
    groups += [_joint(joined, number, joint) for number, joint in enumerate(joined.joints)]
    names = list(_names(joined, scale))
    groups.append(Group("names", tuple(names), "marks of the facets, and of what stands between them"))
    if order and joined.stacked:
        signs = [sign for name in names for sign in _order_sign(name, order.get(name.text), scale)]
        groups.append(Group("order", tuple(signs), "order of assembly"))
    groups.append(Group("dimensions", tuple(_dimensions(joined, scale)), "facets, couplers and posts, overall size"))
    inner = bounds_of_all((item for group in groups for item in group.items), scale)
    title = _title(joined, scale, inner)
    groups.append(title)
    return View("developed", title_words(joined), tuple(groups), inner.joined(bounds_of_all(title.items, scale)))


def title_words(joined: Joined) -> str:
    """What the view is called."""
    return "Developed elevation from outside" if joined.bay else "Elevation from outside"


def _facet(facet: Facet, scale: float, *, apex_at_hinge: bool) -> Iterator[Group]:
    """The window as its own elevation draws it, in its place."""
    number = int(facet.window.path[1]) + 1
    for group in window_groups(facet.window, scale, apex_at_hinge=apex_at_hinge):
        items = tuple(moved(item, facet.x, facet.y) for item in group.items)
        yield replace(group, id=f"w{number}-{group.id}", items=items, title=f"{facet.window.mark} {group.title}")


def joint_box(joined: Joined, number: int) -> Box:
    """What a joint covers: from the frame before it to the one after, along the edges that meet."""
    joint, before = joined.joints[number], joined.facets[number]
    width = sum(part.value for part in joint.widths)
    if joined.stacked:
        return Box(0.0, before.y - width, joint.length.value, before.y)
    left = before.x + before.window.width.value
    return Box(left, 0.0, left + width, joint.length.value)


def _joint(joined: Joined, number: int, joint: Joint) -> Group:
    box = joint_box(joined, number)
    outline = rectangle(*box)
    items: list[Entity] = [Fill(outline, Layer.HATCH, JOINT_TONE), Stroke(outline.corners, Layer.COUPLER, closed=True)]
    if len(joint.widths) > 1:   # the edge where both faces of a post meet
        edge = box.left + joint.widths[0].value
        items.append(Stroke((Corner(edge, box.bottom), Corner(edge, box.top)), Layer.COUPLER, weight=THIN))
    said = f"{joint.tag}, {joint.profile} between {joint.between[0]} and {joint.between[1]}, cut length {joint.length.value:g}"
    return Group(f"joint-{joint.tag.lower()}", tuple(items), said, (("mark", joined.mark), ("tag", joint.tag)))


def _names(joined: Joined, scale: float) -> Iterator[Label]:
    """Above the frames, or to the right of a stack: a joint's tag near it, a facet's mark further out."""
    for facet in joined.facets:
        frame = facet.window.frame.outline.bounds
        if joined.stacked:
            at = Point(joined.width.value + FAR * scale, facet.y + frame.height / 2)
            yield Label(facet.window.mark, at, MARK, level="middle", bold=True)
            continue
        room = frame.width / scale
        height = MARK if text_width(facet.window.mark, MARK, bold=True) <= room else NOTE_HEIGHT
        yield Label(
            fit(facet.window.mark, room, height, bold=True) or "…", Point(facet.x + frame.width / 2, joined.height.value + FAR * scale),
            height, align="centre", bold=True,
        )
    for number, joint in enumerate(joined.joints):
        centre = joint_box(joined, number).centre
        if joined.stacked:
            yield Label(joint.tag, Point(joined.width.value + NEAR * scale, centre.y), NOTE_HEIGHT, level="middle")
        else:
            yield Label(joint.tag, Point(centre.x, joined.height.value + NEAR * scale), NOTE_HEIGHT, align="centre")


def _order_sign(name: Label, number: int | None, scale: float) -> Iterator[Entity]:
    """After a name of a stack."""
    along = (text_width(name.text, name.height, bold=name.bold) + 1.0 + RADIUS) * scale
    yield from order_sign(number, Point(name.at.x + along, name.at.y), scale)


def _dimensions(joined: Joined, scale: float) -> Iterator[Dimension]:
    """Along the joints: each facet and joint, then all; across them: the heights, or the width of a stack."""
    places = {0.0, joined.height.value if joined.stacked else joined.width.value}
    for number in range(len(joined.joints)):
        box = joint_box(joined, number)
        places |= {box.bottom, box.top} if joined.stacked else {box.left, box.right}
    along = chain(sorted(places), line_at=-FIRST * scale, upright=joined.stacked, scale=scale, thing_at=0.0)
    yield from along
    end = joined.height.value if joined.stacked else joined.width.value
    yield from overall((0.0, end), line_at=next_line(along, scale), upright=joined.stacked, scale=scale, thing_at=0.0)
    if joined.stacked:
        yield from overall((0.0, joined.width.value), line_at=-FIRST * scale, upright=False, scale=scale, thing_at=0.0)
        return
    heights = sorted({0.0, joined.facets[0].window.height.value, joined.height.value})
    levels = chain(heights, line_at=-FIRST * scale, upright=True, scale=scale, thing_at=0.0)
    yield from levels
    if len(heights) > 2:
        yield from overall((0.0, heights[-1]), line_at=next_line(levels, scale), upright=True, scale=scale, thing_at=0.0)


def _title(joined: Joined, scale: float, inner: Box) -> Group:
    top = inner.bottom - 3.5 * scale
    items = [Label(title_words(joined), Point(0.0, top), TITLE_HEIGHT, level="top", bold=True)]
    note = f"Scale 1:{scale:g}" + ("; facets laid into one plane, at true size" if joined.bay else "")
    top -= 6.0 * scale
    for row in wrap(note, max(inner.right / scale, NARROWEST_TITLE), NOTE_HEIGHT):
        items.append(Label(row, Point(0.0, top), NOTE_HEIGHT, level="top"))
        top -= NOTE_HEIGHT * 1.6 * scale
    return Group("developed-title", tuple(items))
