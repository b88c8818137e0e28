"""The elevation for whoever fits the window: fixings by their running distance along a tape, packers, setting blocks.

Seen from outside, mm from the frame's bottom left corner.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from elevations.drawing.chains import chain, next_line, overall
from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import FINE, THIN, VISIBLE, Layer
from elevations.drawing.lettering import fit, text_width
from elevations.geometry.fit_fixing import holds, kind_of_side
from elevations.geometry.neighbours import Neighbour, joined_sides
from elevations.geometry.setting_blocks import SettingBlock, setting_blocks
from elevations.geometry.sill import cut_length, sill_ends, weeps
from elevations.geometry.tightening import tightening_order
from elevations.geometry.window import FixingPoint, Window
from elevations.plane import Box, Corner, Outline, Point, rectangle
from elevations.views.cuts import Cuts
from elevations.views.developed import JOINT_TONE
from elevations.views.elevation import cut_mark, fixing_signs
from elevations.views.hatch import MATERIALS
from elevations.views.marking_figures import OFF, Figure, spread
from elevations.views.marking_lights import marked_lights

TITLE, TEXT = 3.5, 2.5
OVERALL_OFF, MARK_OFF = 5.0, 5.0
"""From the figures to the overall dimension, and from what is outermost to a cut mark, mm on paper."""
PACKER_LONG, PACKER_THICK, BLOCK_THICK = 3.0, 1.2, 1.2
"""As drawn, mm on paper."""
LONGEST_NAME = 24.0
"""Room for what a side is joined to, mm on paper."""
WEEP_MM = 30.0
"""Length of a weep as drawn."""
CARRIES, LOCATES = "#2b3440", "#ffffff"
OUTWARDS = {"left jamb": (-1.0, 0.0), "right jamb": (1.0, 0.0), "head": (0.0, 1.0), "sill": (0.0, -1.0)}


def marking_out(window: Window, scale: float, *, apex_at_hinge: bool = True, cuts: Cuts | None = None) -> View:
    """Frame, lights, fixings with their distances and the order to tighten them, packers and blocks; annotation for 1:`scale`.

    `cuts`: where to mark sections A-A and B-B.
    """
    figures = list(_figures(window))
    groups = [
        Group("installer-lights", tuple(marked_lights(window, scale, apex_at_hinge=apex_at_hinge)), "lights, glass, how they open"),
        Group("installer-sill", tuple(_sill(window)), "sill, with its weeps"),
        Group("installer-joined", tuple(item for neighbour in window.neighbours for item in _joint(window, neighbour)), "what it is joined by"),
        Group("installer-frame", (Stroke(window.frame.outline.corners, Layer.FRAME, closed=True, weight=VISIBLE),), "frame"),
        Group("installer-blocks", tuple(item for block in setting_blocks(window) for item in _block(block, scale)), "setting and location blocks"),
        Group("installer-fixings", tuple(_fixings(window, figures, scale)), "fixings, with the order to tighten them", (("mark", window.mark),)),
        Group("installer-overall", tuple(_overall(window, figures, scale)), "overall size"),
    ]
    groups = [group for group in groups if group.items]
    reach = bounds_of_all((item for group in groups for item in group.items), scale)
    if cuts is not None:
        marks = Group("cuts", tuple(_cut_marks(cuts, reach.grown(MARK_OFF * scale), scale)), "where sections A-A and B-B are cut")
        groups.append(marks)
        reach = reach.joined(bounds_of_all(marks.items, scale))
    top = reach.bottom - 3.0 * scale
    lines = [f"Scale 1:{scale:g}; distances run from the corner marked 0", "In circles: the order to tighten"]
    if text_width("; ".join(lines), TEXT) * scale <= reach.width:   # one line less is a larger scale on a low page
        lines = ["; ".join(lines).replace("In", "in")]
    lines += [] if window.frame.outline.is_box else [_shape_words(window), "Along a slope or an arc: taped on the frame's outer edge"]
    title = (
        Label("Marking out, from outside", Point(reach.left, top), TITLE, level="top", bold=True),
        *(Label(text, Point(reach.left, top - (6.0 + 4.5 * number) * scale), TEXT, level="top") for number, text in enumerate(lines)),
    )
    groups.append(Group("installer-title", title))
    return View("marking-out", "Marking out, from outside", tuple(groups), reach.joined(bounds_of_all(title, scale)))


def _shape_words(window: Window) -> str:
    said = window.shape.words(window.width.value, window.height.value)
    return said[:1].upper() + said[1:]


def _cut_marks(cuts: Cuts, around: Box, scale: float) -> Iterator[Entity]:
    """Both ends of both cutting lines, clear of everything else: A-A looks to the left, B-B down, as on the factory's elevation."""
    for y in (around.top, around.bottom):
        yield from cut_mark("A", Point(cuts.upright_x, y), 180.0, scale)
    for x in (around.left, around.right):
        yield from cut_mark("B", Point(x, cuts.level_y), 270.0, scale)


def _overall(window: Window, figures: list[Figure], scale: float) -> Iterator[Entity]:
    """Width below and height on the left, their extension lines outside the figures of the fixings.

    Inside them what else the head is set out by: springing, eaves, an apex; on the right the lower jamb under a slope.
    """
    box = window.frame.outline.bounds
    clear = {
        way: max((max(OFF * scale, f.beyond + 2 * scale) + (f.room + 1.0) * scale for f in figures if f.way == way), default=OFF * scale)
        for way in ("down", "left", "right")
    }
    below, left = box.bottom - max(clear["down"], _beyond(window, "sill")), box.left - clear["left"]
    size = window.width.value, window.height.value
    places = [box.left + at for at in window.shape.places(*size)]
    levels = {side: [box.bottom + up for up in window.shape.levels(side, *size)] for side in ("left", "right")}
    for ends, inner, foot, upright in (((box.left, box.right), places, below, False), ((box.bottom, box.top), levels["left"], left, True)):
        line_at = foot - OVERALL_OFF * scale
        if inner:
            parts = chain((ends[0], *inner, ends[1]), line_at=line_at, upright=upright, scale=scale, thing_at=foot)
            yield from parts
            line_at = next_line(parts, scale)
        yield from overall(ends, line_at=line_at, upright=upright, scale=scale, thing_at=foot)
    if levels["right"]:
        right = box.right + clear["right"]
        yield from chain((box.bottom, *levels["right"]), line_at=right + OVERALL_OFF * scale, upright=True, scale=scale, thing_at=right)


def _sill(window: Window) -> Iterator[Entity]:
    """Its front under the frame with horns and weeps, as long as it is cut; the nose lies lower by the fall."""
    site = window.site
    if site is None or site.sill is None:
        return
    sill, fit_ = site.sill, site.fit
    left, length = -sill_ends(window)[0].beyond, cut_length(window)
    top = -fit_.add_ons.sill
    yield Stroke(rectangle(left, top - sill.height - sill.fall, left + length, top).corners, Layer.SILL, closed=True, weight=THIN)
    yield Stroke((Corner(left, top - sill.fall), Corner(left + length, top - sill.fall)), Layer.SILL, weight=FINE)
    for at in weeps(length, window.system.weeps):
        yield Stroke((Corner(left + at - WEEP_MM / 2, top - sill.fall / 2), Corner(left + at + WEEP_MM / 2, top - sill.fall / 2)), Layer.SILL, weight=VISIBLE)


def _joint(window: Window, neighbour: Neighbour) -> Iterator[Entity]:
    """The coupler, or the face of the post, along a side that another frame is joined to."""
    box, (dx, dy), width = window.frame.outline.bounds, OUTWARDS[neighbour.side], neighbour.width
    if dx:
        x = box.left if dx < 0 else box.right
        height = next(m for m in window.members if m.tag == neighbour.side).outer
        low, high = sorted((height[0].y, height[1].y))
        outline = rectangle(min(x, x + dx * width), low, max(x, x + dx * width), high)
    else:
        y = box.bottom if dy < 0 else box.top
        outline = rectangle(box.left, min(y, y + dy * width), box.right, max(y, y + dy * width))
    yield Fill(outline, Layer.HATCH, JOINT_TONE)
    yield Stroke(outline.corners, Layer.COUPLER, closed=True, weight=THIN)


def _block(block: SettingBlock, scale: float) -> Iterator[Entity]:
    """On the inner side of its edge, so that it never lies on the frame's fixings."""
    half, thick = block.length / 2, BLOCK_THICK * scale
    x, y = block.at
    if block.edge in ("bottom", "top"):
        box = Box(x - half, y if block.edge == "bottom" else y - thick, x + half, y + thick if block.edge == "bottom" else y)
    else:
        box = Box(x if block.edge == "left" else x - thick, y - half, x + thick if block.edge == "left" else x, y + half)
    yield Fill(rectangle(*box), Layer.HATCH, CARRIES if block.carries else LOCATES)
    yield Stroke(rectangle(*box).corners, Layer.HARDWARE, closed=True, weight=FINE)
    if block.carries:   # a cross, for sheets without tones
        yield Stroke((Corner(box.left, box.bottom), Corner(box.right, box.top)), Layer.HARDWARE, weight=FINE)


def _figures(window: Window) -> Iterator[Figure]:
    """The distance of each fixing, the corners they run from, and what joined sides are joined to."""
    order = {point.tag: number for number, point in enumerate(tightening_order(window), 1)}
    held = holds(window)
    for point in window.fixings:
        hold = held[kind_of_side(point.side)]
        said = _along(point) + (" b" if hold.how == "bracket" else "") + (" ?" if hold.fails else "")
        yield Figure(said, point.at, -point.inward.x, -point.inward.y, _beyond(window, point.side), order[point.tag])
    for side in dict.fromkeys(point.side for point in window.fixings):
        ends = next(member.outer for member in window.members if member.tag == side)
        start = max(ends, key=lambda end: end.y) if side.endswith("jamb") else min(ends, key=lambda end: end.x)
        # Square to where the side begins, as the nearest fixing is, so that its words stay clear of a neighbour's.
        first = min((p for p in window.fixings if p.side == side), key=lambda p: p.along.value)
        yield Figure("0", start, -first.inward.x, -first.inward.y, _beyond(window, side))
    for neighbour in window.neighbours:
        dx, dy = OUTWARDS[neighbour.side]
        words = fit(f"{neighbour.connector.tag}, to {neighbour.mark}", LONGEST_NAME, TEXT)
        yield Figure(words, _widest_gap(window, neighbour.side), dx, dy, _beyond(window, neighbour.side), ticked=False)


def _widest_gap(window: Window, side: str) -> Point:
    """The middle of the longest stretch of a side between two of its fixings, or between a fixing and the end."""
    box, (dx, dy) = window.frame.outline.bounds, OUTWARDS[side]
    axis = 1 if dx else 0
    places = sorted([box[axis], box[axis + 2], *(point.at[axis] for point in window.fixings if point.side == side)])
    low, high = max(pairwise(places), key=lambda pair: round(pair[1] - pair[0], 3))
    middle = (low + high) / 2
    return Point(box.left if dx < 0 else box.right, middle) if dx else Point(middle, box.bottom if dy < 0 else box.top)


def _along(point: FixingPoint) -> str:
    return f"{round(point.along.value, 1):g}"


def _fixings(window: Window, figures: list[Figure], scale: float) -> Iterator[Entity]:
    for point, sign in zip(window.fixings, fixing_signs(window), strict=True):
        yield sign
        if point.side not in joined_sides(window.neighbours):
            yield from _packer(point, scale)
    for way in ("left", "right", "up", "down"):
        yield from spread([figure for figure in figures if figure.way == way], scale)


def _packer(point: FixingPoint, scale: float) -> Iterator[Entity]:
    """At every fixing into a wall, outside the frame's edge."""
    ux, uy = -point.inward.y, point.inward.x
    half, thick = PACKER_LONG / 2 * scale, PACKER_THICK * scale
    corners = tuple(
        Corner(point.at.x + ux * a - point.inward.x * b, point.at.y + uy * a - point.inward.y * b)
        for a, b in ((-half, 0.0), (half, 0.0), (half, thick), (-half, thick))
    )
    yield Fill(Outline(corners), Layer.HATCH, MATERIALS["packer"].tone)
    yield Stroke(corners, Layer.FIXING, closed=True, weight=FINE)


def _beyond(window: Window, side: str) -> float:
    """How far outside a side the figures start, mm: beyond the sill, or what another frame is joined by, where there is one."""
    joint = next((neighbour.width for neighbour in window.neighbours if neighbour.side == side), 0.0)
    site = window.site
    if side != "sill" or site is None or site.sill is None:
        return joint
    return max(joint, site.fit.add_ons.sill + site.sill.height + site.sill.fall)
