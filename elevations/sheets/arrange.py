"""The views of a factory sheet at the largest standard scales that fit, none over another."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from elevations.drawing.entities import Placed, View
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.views.cuts import Cuts, choose_cuts
from elevations.views.elevation import elevation
from elevations.views.section import section, section_length
from elevations.views.surround import Context, context_of

SCALES = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
"""ISO 5455's reductions that a window needs (from memory)."""
SECTION_SCALES = ((2.0, 5.0), (10.0,), (20.0,), (50.0,))
"""Tried in this order: the walls of a profile can be read down to 1:5, so a smaller elevation comes before a smaller section."""
READABLE_PROFILE = 5.0
KEPT_GLASS = (18.0, 12.0)
"""Visible glass left in a shortened section, mm on paper: less only where that makes the elevation's scale larger."""
GAP = 6.0
"""Between two views, mm on paper."""
LEAST_BESIDE, LEAST_UNDER, LEAST_TITLE = 24.0, 22.0, 34.0
"""Less than what the words and dimensions of any section take: across, along, and its title, mm on paper."""
LEAST_ROUND = 30.0
"""Less than what the chains of any elevation take, mm on paper: spares drawing what can't fit."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Views in their places."""

    placed: tuple[Placed, ...]
    scale: float
    """Of the elevation."""
    section_scale: float
    fits: bool


@dataclass(slots=True)
class Drawer:
    """Draws one window's views, each only once however many arrangements are tried."""

    window: Window
    apex_at_hinge: bool
    cuts: Cuts = field(init=False)
    elevations: dict[float, View] = field(default_factory=dict)
    sections: dict[tuple[int, float, float | None, Context], View] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.cuts = choose_cuts(self.window)

    def elevation(self, scale: float) -> View:
        """The elevation for a scale."""
        if scale not in self.elevations:
            self.elevations[scale] = elevation(self.window, scale, apex_at_hinge=self.apex_at_hinge, cuts=self.cuts)
        return self.elevations[scale]

    def section(self, axis: int, scale: float, shorten_to: float | None, context: Context) -> View:
        """Section A-A (0) or B-B (1) for a scale, with so much of what stands round the frame."""
        key = axis, scale, shorten_to, context
        if key not in self.sections:
            self.sections[key] = section(self.window, axis, self.at(axis), scale, shorten_to, context)
        return self.sections[key]

    def at(self, axis: int) -> float:
        """Where a section is cut."""
        return self.cuts.level_y if axis else self.cuts.upright_x


def arranged(drawer: Drawer, area: Box, style: str) -> Arrangement:
    """Elevation, A-A to its right, B-B below it, at the first scales at which all three fit the area.

    style 'paper' shortens the sections and gives them a scale of their own; 'model' draws them at the elevation's scale and
    whole, A-A at the elevation's heights and B-B at its widths. At the smallest scale they are placed, fit or not.
    Sill and add-ons are always in the sections; the wall where the job gives it and it costs the elevation nothing of its
    scale, and the sections no more than that their profiles can still be read.
    """
    most = context_of(drawer.window)
    ordered = Context.ORDERED if most is Context.WALL else most
    found = _first_fitting(drawer, area, _scales(drawer, area, style), ordered)
    assert found is not None
    if most is not Context.WALL or not found.fits:
        return found
    readable = max(found.section_scale, READABLE_PROFILE)
    tries = [each for each in _scales(drawer, area, style) if each[0] == found.scale and each[1] <= readable]
    walled = _first_fitting(drawer, area, tries, most)
    return walled if walled is not None and walled.fits else found


Scales = tuple[float, float, float | None]
"""Of elevation and sections, and the glass kept in shortened sections, mm."""


def _first_fitting(drawer: Drawer, area: Box, tries: Iterable[Scales], context: Context) -> Arrangement | None:
    """The first that fits, else the last; None without any."""
    found = None
    for scale, section_scale, kept in tries:
        found = _placed(drawer, area, (scale, section_scale), kept, context)
        if found.fits:
            break
    return found


def _scales(drawer: Drawer, area: Box, style: str) -> Iterator[Scales]:
    """Scales of elevation and sections in the order of preference, less what plainly can't fit, and the glass kept, mm."""
    width, height = drawer.window.width.value, drawer.window.height.value
    for choices in SECTION_SCALES if style == "paper" else ((),):
        for scale in SCALES:
            last = scale == SCALES[-1]
            if not last and (width / scale + LEAST_ROUND > area.width or height / scale + LEAST_ROUND > area.height):
                continue
            tries = [(c, kept * c) for c in choices if c <= scale for kept in KEPT_GLASS]
            for choice, kept in tries if style == "paper" else [(scale, None)]:
                if last or _may_fit(drawer, area, scale, choice, kept):
                    yield scale, choice, kept


def _may_fit(drawer: Drawer, area: Box, scale: float, section_scale: float, kept: float | None) -> bool:
    """False where even the least that the sections take around their profiles does not fit beside the elevation."""
    front = on_paper(drawer.elevation(scale), scale)
    depth = drawer.window.system.depth / section_scale
    tall, wide = (section_length(drawer.window, axis, drawer.at(axis), kept) / section_scale for axis in (0, 1))
    upright = Box(0.0, 0.0, max(depth + LEAST_BESIDE, LEAST_TITLE), tall + LEAST_UNDER)
    level = Box(0.0, 0.0, wide + LEAST_BESIDE, depth + LEAST_UNDER)
    return _excess(_best(front, upright, level, area, model=kept is None)[0], area) <= 0.0


def _placed(drawer: Drawer, area: Box, of: tuple[float, float], kept: float | None, context: Context) -> Arrangement:
    """The three views in the middle of the area; `of`: the scales of elevation and sections."""
    scale, section_scale = of
    views = drawer.elevation(scale), drawer.section(0, section_scale, kept, context), drawer.section(1, section_scale, kept, context)
    scales = scale, section_scale, section_scale
    front, upright, level = (on_paper(view, s) for view, s in zip(views, scales, strict=True))
    whole, origins = _best(front, upright, level, area, model=kept is None)
    dx, dy = area.centre.x - whole.centre.x, area.centre.y - whole.centre.y
    placed = tuple(
        Placed(view, s, Point(at.x + dx, at.y + dy)) for view, s, at in zip(views, scales, origins, strict=True)
    )
    return Arrangement(placed, scale, section_scale, _excess(whole, area) <= 0.0)


def _best(front: Box, upright: Box, level: Box, area: Box, *, model: bool) -> tuple[Box, list[Point]]:
    """The way of setting the three views that exceeds the area least: their joint box, and their origins on paper."""
    found = []
    for around in (_beside_and_below, _beside_both) if model else (_beside_and_below, _beside_both, _beside):
        origins = [Point(0.0, 0.0), *around(front, upright, level, model=model)]
        whole = front.joined(_at(upright, origins[1])).joined(_at(level, origins[2]))
        found.append((whole, origins))
    return min(found, key=lambda item: _excess(item[0], area))


def _beside_and_below(front: Box, upright: Box, level: Box, *, model: bool) -> tuple[Point, Point]:
    """Origins of A-A beside the elevation and B-B below both, mm on paper, the elevation's own being 0, 0."""
    upright_at = Point(front.right + GAP - upright.left, 0.0 if model else front.top - upright.top)
    lowest = min(front.bottom, upright_at.y + upright.bottom)
    return upright_at, Point(0.0 if model else front.left - level.left, lowest - GAP - level.top)


def _beside_both(front: Box, upright: Box, level: Box, *, model: bool) -> tuple[Point, Point]:
    """Origins of B-B below the elevation and A-A beside both."""
    level_at = Point(0.0 if model else front.left - level.left, front.bottom - GAP - level.top)
    right = max(front.right, level_at.x + level.right)
    return Point(right + GAP - upright.left, 0.0 if model else front.top - upright.top), level_at


def _beside(front: Box, upright: Box, level: Box, *, model: bool) -> tuple[Point, Point]:
    """Origins of A-A beside the elevation and B-B under A-A: for tall windows, never where B-B is to stand below the elevation."""
    assert not model
    left, y = front.right + GAP, front.top - upright.top
    return Point(left - upright.left, y), Point(left - level.left, y + upright.bottom - GAP - level.top)


def _excess(box: Box, area: Box) -> float:
    """How far the box is larger than the area, mm, at its worst; 0 where it fits."""
    return max(0.0, box.width - area.width, box.height - area.height)


def _at(box: Box, at: Point) -> Box:
    return Box(box.left + at.x, box.bottom + at.y, box.right + at.x, box.top + at.y)


def on_paper(view: View, scale: float) -> Box:
    """A view's bounds in paper mm about its origin."""
    box = view.bounds
    return Box(box.left / scale, box.bottom / scale, box.right / scale, box.top / scale)
