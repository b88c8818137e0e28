"""The views of a factory sheet at the largest standard scales that fit, none over another."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from elevations.drawing.entities import Placed, View
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.views.cuts import Cuts, choose_cuts
from elevations.views.elevation import elevation
from elevations.views.section import section, section_length

SCALES = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
"""ISO 5455's reductions that a window needs (from memory)."""
SECTION_SCALES = ((2.0, 5.0), (10.0,), (20.0,), (50.0,))
"""Tried in this order: the walls of a profile can be read down to 1:5, so a smaller elevation comes before a smaller section."""
KEPT_GLASS = 22.0
"""Visible glass left in a shortened section, mm on paper."""
GAP = 7.0
"""Between two views, mm on paper."""
LEAST_ROUND = 30.0
"""Less than what the chains of any elevation take, mm on paper: spares drawing what can't fit."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Views in their places."""

    placed: tuple[Placed, ...]
    scale: float
    """Of the elevation."""
    section_scale: float


@dataclass(slots=True)
class Drawer:
    """Draws one window's views, each only once however many arrangements are tried."""

    window: Window
    apex_at_hinge: bool
    cuts: Cuts = field(init=False)
    elevations: dict[float, View] = field(default_factory=dict)
    sections: dict[tuple[int, float, float | None], View] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.cuts = choose_cuts(self.window)

    def elevation(self, scale: float) -> View:
        """The elevation for a scale."""
        if scale not in self.elevations:
            self.elevations[scale] = elevation(self.window, scale, apex_at_hinge=self.apex_at_hinge, cuts=self.cuts)
        return self.elevations[scale]

    def section(self, axis: int, scale: float, shorten_to: float | None) -> View:
        """Section A-A (0) or B-B (1) for a scale."""
        key = axis, scale, shorten_to
        if key not in self.sections:
            self.sections[key] = section(self.window, axis, self.at(axis), scale, shorten_to)
        return self.sections[key]

    def at(self, axis: int) -> float:
        """Where a section is cut."""
        return self.cuts.level_y if axis else self.cuts.upright_x


def arranged(drawer: Drawer, area: Box, style: str) -> Arrangement:
    """Elevation, A-A to its right, B-B below it, at the first scales at which all three fit the area.

    style 'paper' shortens the sections and gives them a scale of their own; 'model' draws them at the elevation's scale and
    whole, A-A at the elevation's heights and B-B at its widths. At the smallest scale they are placed, fit or not.
    """
    found = None
    for scale, section_scale in _scales(drawer, area, style):
        found = _placed(drawer, area, scale, section_scale, style)
        if found[1]:
            break
    assert found is not None
    return found[0]


def _scales(drawer: Drawer, area: Box, style: str) -> Iterator[tuple[float, float]]:
    """Scales of elevation and sections in the order of preference, less what plainly can't fit."""
    width, height = drawer.window.width.value, drawer.window.height.value
    for choices in SECTION_SCALES if style == "paper" else ((0.0,),):
        for scale in SCALES:
            too_large = width / scale + LEAST_ROUND > area.width or height / scale + LEAST_ROUND > area.height
            if too_large and scale != SCALES[-1]:
                continue
            for choice in choices:
                long = [section_length(drawer.window, axis, drawer.at(axis), KEPT_GLASS * choice) for axis in (0, 1)] if choice else []
                last = choices == SECTION_SCALES[-1]
                if not choice:
                    yield scale, scale
                elif last or (long[0] / choice < area.height and long[1] / choice < area.width):
                    yield scale, choice


def _placed(drawer: Drawer, area: Box, scale: float, section_scale: float, style: str) -> tuple[Arrangement, bool]:
    """The three views in the middle of the area, and whether they fit."""
    model = style == "model"
    kept = None if model else KEPT_GLASS * section_scale
    views = drawer.elevation(scale), drawer.section(0, section_scale, kept), drawer.section(1, section_scale, kept)
    front, upright, level = (on_paper(view, s) for view, s in zip(views, (scale, section_scale, section_scale), strict=True))
    best: tuple[Box, list[Point]] | None = None
    for beside_both in (False, True):
        origins = [Point(0.0, 0.0), *_around(front, upright, level, model=model, beside_both=beside_both)]
        whole = front
        for box, at in zip((upright, level), origins[1:], strict=True):
            whole = whole.joined(_at(box, at))
        if best is None or _excess(whole, area) < _excess(best[0], area):
            best = whole, origins
    assert best is not None
    whole, origins = best
    dx, dy = area.centre.x - whole.centre.x, area.centre.y - whole.centre.y
    placed = tuple(
        Placed(view, s, Point(at.x + dx, at.y + dy))
        for view, s, at in zip(views, (scale, section_scale, section_scale), origins, strict=True)
    )
    return Arrangement(placed, scale, section_scale), _excess(whole, area) <= 0.0


def _around(front: Box, upright: Box, level: Box, *, model: bool, beside_both: bool) -> list[Point]:
    """Origins of A-A and B-B on paper, the elevation's being 0, 0.

    A-A stands beside the elevation alone, or, with `beside_both`, beside the elevation and B-B.
    """
    level_x = 0.0 if model else front.left - level.left
    level_y = front.bottom - GAP - level.top
    right = max(front.right, level.right + level_x) if beside_both else front.right
    upright_at = Point(right + GAP - upright.left, 0.0 if model else front.top - upright.top)
    if not beside_both:
        level_y = min(level_y, upright_at.y + upright.bottom - GAP - level.top)
    return [upright_at, Point(level_x, level_y)]


def _excess(box: Box, area: Box) -> float:
    """How far the box is larger than the area, mm, at its worst; 0 where it fits."""
    return max(0.0, box.width - area.width, box.height - area.height)


def _at(box: Box, at: Point) -> Box:
    return Box(box.left + at.x, box.bottom + at.y, box.right + at.x, box.top + at.y)


def on_paper(view: View, scale: float) -> Box:
    """A view's bounds in paper mm about its origin."""
    box = view.bounds
    return Box(box.left / scale, box.bottom / scale, box.right / scale, box.top / scale)
