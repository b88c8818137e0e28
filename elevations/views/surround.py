"""What stands round a frame in a section: sill and add-ons, which are ordered with it, and the wall, for those who read it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from elevations.drawing.chains import chain
from elevations.drawing.entities import Dimension, Entity, Group, Label, Stroke
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import FINE, THIN, Layer
from elevations.drawing.lettering import text_width
from elevations.geometry.fit import Site
from elevations.geometry.fit_fixing import holds
from elevations.geometry.sill import drip_clear
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.spec.site import Wall
from elevations.views.cut_run import Run
from elevations.views.hatch import hatched
from elevations.views.wall import End, masonry, sill_items, under_and_over

CHAIN_OFF = 6.0
"""From what is drawn to the first chain, mm on paper."""
TEXT = 2.5
SWATCH, SWATCH_HIGH, ROW = 6.0, 3.2, 4.6
CONTEXT_WALL_MM = 70.0
"""How much of the wall is drawn where it is there as context alone."""
FACE_MM = 25.0
"""How much of the wall's face is drawn where the wall itself is not."""


class Context(StrEnum):
    """How much of a frame's surroundings a section shows."""

    NONE = "none"
    ORDERED = "ordered"
    """Sill and add-ons, and where the job gives the wall, its face over the sill."""
    WALL = "wall"
    """The wall too, without what fills the joint."""


@dataclass(frozen=True, slots=True)
class Surround:
    """What is drawn round the profiles of one section, back to front."""

    context: Context
    ends: tuple[End, ...]
    groups: tuple[Group, ...]
    materials: tuple[str, ...]
    """Hatched, for the key: what a material stands for is said there."""


def ends_of(window: Window, run: Run) -> list[End]:
    """Both ends of a cut: sill and head, or the jambs. The job says where the window stands."""
    site = window.site
    assert site is not None
    held = holds(window)
    sides = (("sill", -1.0), ("head", 1.0)) if run.axis == 0 else (("left jamb", -1.0), ("right jamb", 1.0))
    joined = {one.side: one for one in window.neighbours}
    return [End(run, site, site.wall, side, sign, held.get(side), joined.get(side)) for side, sign in sides]


def context_of(window: Window) -> Context:
    """The most that a section of this window has to show."""
    site = window.site
    if site is None:
        return Context.NONE
    if site.wall is not None:
        return Context.WALL
    return Context.ORDERED if site.sill is not None or any(site.fit.add_ons.model_dump().values()) else Context.NONE


def surround(window: Window, run: Run, scale: float, context: Context) -> Surround:
    """The surroundings of a section; annotation for 1:`scale`."""
    if context is Context.NONE or window.site is None:
        return Surround(Context.NONE, (), (), ())
    ends = ends_of(window, run)
    groups, names = [], []
    for end in ends:
        items, found = _drawn(end, scale, context)
        if items:
            groups.append(Group(f"{'ab'[run.axis] * 2}-round-{end.side.replace(' ', '-')}", tuple(items), f"at the {end.side}"))
        names += found
    return Surround(context, tuple(ends), tuple(groups), tuple(dict.fromkeys(names)))


def _drawn(end: End, scale: float, context: Context) -> tuple[list[Entity], list[str]]:
    if end.neighbour is not None:   # its set's own sheet shows what is between
        return [], []
    parts = [*(masonry(end, CONTEXT_WALL_MM) if context is Context.WALL else ()), *under_and_over(end)]
    items: list[Entity] = []
    for material, box in parts:
        items += hatched(box, material, scale, weight=FINE)
    items += sill_items(end)
    names = [material for material, _ in parts] + (["sill"] if end.side == "sill" and end.site.sill else [])
    if context is Context.ORDERED and end.side == "sill" and end.site.sill and end.wall:
        items.append(Stroke((end.at(-end.wall.frame_at, end.start), end.at(-end.wall.frame_at, end.start + FACE_MM)),
                            Layer.WALL, line="dashed", weight=THIN))
    return items, names


def through_wall(ends: Sequence[End], reach: Box, scale: float) -> list[Dimension]:
    """Reveal, frame and inner reveal, over a vertical section or to the left of a horizontal one."""
    wall, depth = ends[0].wall, ends[0].run.window.system.depth
    assert wall is not None
    places = sorted({-wall.frame_at, 0.0, depth, max(depth, wall.whole - wall.frame_at)})
    if all(end.neighbour is not None for end in ends):
        places = [0.0, depth]   # other frames at both ends: no wall to be measured through
    if ends[0].run.axis == 1:
        return list(chain(places, line_at=reach.left - CHAIN_OFF * scale, upright=True, scale=scale, thing_at=reach.left))
    return list(chain(places, line_at=reach.top + CHAIN_OFF * scale, upright=False, scale=scale, thing_at=reach.top))


def under_sill(ends: Sequence[End], reach: Box, scale: float) -> tuple[Dimension, ...]:
    """Under a vertical section: from the sill's front edge to its drip, to the wall's face and to the frame.

    So the drip's clear distance stands there by itself; where the front edge lies between the two, it is left out for that.
    """
    end = ends[0]
    sill, wall = end.site.sill, end.wall
    if end.side != "sill" or sill is None:
        return ()
    front = -sill.projection
    marks = {front, 0.0}
    if wall is not None:
        face, drip = -wall.frame_at, front + sill.drip
        marks = {face, drip, 0.0} | (set() if face < front < drip else {front})
    return chain(sorted(marks), line_at=reach.bottom - CHAIN_OFF * scale, upright=False, scale=scale, thing_at=reach.bottom)


def ordered_sizes(ends: Sequence[End]) -> list[list[float]]:
    """Along the cut, as drawn: from the frame's edge over its add-on and over the height of its sill, at each end that has them."""
    found = []
    for end in ends:
        sill = end.site.sill if end.side == "sill" else None
        out = [0.0, *([end.add_on] if end.add_on else []), *([end.add_on + sill.height] if sill else [])]
        if len(out) > 1 and end.neighbour is None:
            found.append(sorted(end.edge + end.sign * d for d in out))
    return found


def box_round(groups: Sequence[Group], scale: float) -> Box | None:
    """What the surroundings take up; None without any. Hatching lies inside its edges."""
    return bounds_of_all((item for group in groups for item in group.items if getattr(item, "layer", None) is not Layer.HATCH), scale) if groups else None


def said(around: Surround) -> Iterator[str]:
    """What the drawing does not show by itself: the drip's clear distance, a sill's and an add-on's name, where the wall is drawn."""
    if not around.ends:
        return
    end = around.ends[0]
    if end.side == "sill":
        yield from drip_words(end.site)
        if end.wall is not None and around.context is Context.WALL:
            yield from lintel_words(end.wall)
    if end.wall is not None and around.context is Context.ORDERED:
        yield "No room for the wall here: it is on the installer's sheet" + ("; its face dashed" if end.side == "sill" and end.site.sill else "")


def drip_words(site: Site) -> Iterator[str]:
    """How far the drip stands before the wall's face; nothing without sill or wall."""
    clear = drip_clear(site)
    if clear is not None:
        yield f"Drip {clear:g} clear of the wall's face" if clear >= 0 else f"Drip {-clear:g} behind the wall's face"


def lintel_words(wall: Wall) -> Iterator[str]:
    """That the lintel's material is assumed, where the job does not give it."""
    if wall.lintel.kind is None:
        yield f"Lintel taken as {wall.carried_by}: not given"


def key_under(around: Surround, at: Point, width: float, scale: float) -> Iterator[Entity]:
    """What each hatching of this section stands for, in swatches; `at` its top left corner, `width` mm on paper."""
    left, top = at
    for name in around.materials:
        wide = SWATCH + 1.5 + text_width(name, TEXT)
        if left > at.x and left + wide * scale > at.x + width * scale:
            left, top = at.x, top - ROW * scale
        box = Box(left, top - SWATCH_HIGH * scale, left + SWATCH * scale, top)
        yield from hatched(box, name, scale, Layer.SHEET, weight=FINE)
        yield Label(name, Point(box.right + 1.5 * scale, box.centre.y), TEXT, level="middle")
        left += (wide + 4.0) * scale
