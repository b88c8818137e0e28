"""The glass drawing: a window's panes and nothing that hides them, their tags and sizes in large letters; their edges in detail."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from elevations.drawing.chains import chain
from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import CUT, FINE, VISIBLE, Layer
from elevations.drawing.lettering import text_width
from elevations.geometry.window import Pane, Window, whole_mm
from elevations.plane import Box, Corner, Outline, Point, rectangle
from elevations.views.section_parts import SEAL_MM, SPACER_MM
from elevations.views.shaped import largest_box
from elevations.views.visible import bar_face

GLASS_TONE, SEAL_TONE = "#e3eef3", "#4a5058"
LETTERING = ((10.0, 7.0, 3.5), (7.0, 5.0, 3.5), (5.0, 5.0, 3.5), (5.0, 3.5, 2.5), (3.5, 3.5, 2.5), (3.5, 2.5, 2.0), (2.5, 2.0, 1.8))
"""Heights of tag, size and further words on paper, largest first."""
AT_ARMS_LENGTH = 5.0
"""A size in capitals this high is read at arm's length, mm; common practice, no source."""
LEADING = 1.45
SHOWN_MM = 16.0
"""Of the unit past the sight line, in the detail of its edge."""
Line = tuple[str, float, bool]
"""Text, height, and whether it is bold."""


def glass_elevation(window: Window, scale: float) -> View:
    """The panes from outside, mm from the frame's bottom left corner; lettering sized for 1:`scale`.

    Layer GLASS holds the cut outline of each pane and nothing else. Frame and bars are fine lines, to find one's way.
    """
    frame = Stroke(window.frame.outline.corners, Layer.FRAME, closed=True, weight=FINE)
    bars = [Stroke(bar_face(window, bar).corners, Layer.BARS, closed=True, weight=FINE) for bar in window.bars]
    groups = [Group("glass-frame", (frame, *bars), "frame and bars")]
    groups += [_pane(window, pane, scale) for pane in window.panes]
    bounds = bounds_of_all((item for group in groups for item in group.items), scale)
    return View("glass", f"Glass of window {window.mark} from outside", tuple(groups), bounds)


def _pane(window: Window, pane: Pane, scale: float) -> Group:
    items: list[Entity] = [
        Fill(pane.cut.outline, Layer.HATCH, GLASS_TONE),
        Stroke(pane.sight.outline.corners, Layer.BEAD, closed=True, line="dashed"),
        Stroke(pane.cut.outline.corners, Layer.GLASS, closed=True, weight=VISIBLE),
        *_lettering(pane, scale),
    ]
    size = size_words(pane)
    data = (("mark", window.mark), ("light", str(pane.light)), ("tag", pane.tag))
    return Group(f"glass-{pane.tag}", tuple(items), f"{pane.tag}, cut {size}, {pane.glass}", data)


def size_words(pane: Pane) -> str:
    """'420 × 842'."""
    return f"{whole_mm(pane.width.value)} × {whole_mm(pane.height.value)}"


def _lettering(pane: Pane, scale: float) -> tuple[Label, ...]:
    """Tag and size as large as the visible glass takes them, make-up and mass where there is room besides.

    Level where that gives letters that are read at arm's length, then upright, then smaller ones; only the tag where
    nothing else fits: the list has the rest.
    """
    box = largest_box(pane.sight.outline)
    room = Box(box.left / scale, box.bottom / scale, box.right / scale, box.top / scale).grown(-1.0)
    large = [heights for heights in LETTERING if heights[1] >= AT_ARMS_LENGTH]
    for choices, upright in ((large, False), (large, True), (LETTERING, False), (LETTERING, True)):
        across, along = (room.height, room.width) if upright else (room.width, room.height)
        for heights in choices:
            for lines in _wordings(pane, heights):
                if _fits(lines, across, along):
                    return _set(lines, room, scale, upright=upright)
    return _set([(pane.tag, LETTERING[-1][0], True)], room, scale, upright=False) if room.width > 0 else ()


def _wordings(pane: Pane, heights: tuple[float, float, float]) -> Iterator[list[Line]]:
    """What may be written at these heights, the fullest first."""
    tag, size, small = heights
    two = [(pane.tag, tag, True), (size_words(pane), size, True)]
    mass = f"{pane.mass_kg:.1f} kg"
    yield [*two, (pane.glass, small, False), (mass, small, False)]
    yield [*two, (f"{pane.glass}, {mass}", small, False)]
    yield two
    yield [(f"{pane.tag}  {size_words(pane)}", size, True)]


def _fits(lines: Sequence[Line], across: float, along: float) -> bool:
    wide = max(text_width(text, height, bold=bold) for text, height, bold in lines)
    return wide <= across and sum(height for _, height, _ in lines) * LEADING <= along


def _set(lines: Sequence[Line], room: Box, scale: float, *, upright: bool) -> tuple[Label, ...]:
    """Lines in the middle of the room, the first on top, or leftmost where they read from the right."""
    x, y = room.centre
    along = sum(height for _, height, _ in lines) * LEADING / 2
    made = []
    for text, height, bold in lines:
        along -= height * (LEADING + 1.0) / 2
        at = Point((x - along) * scale, y * scale) if upright else Point(x * scale, (y + along) * scale)
        made.append(Label(text, at, height, align="centre", angle=90.0 if upright else 0.0, bold=bold))
        along -= height * (LEADING - 1.0) / 2
    return tuple(made)


def edge_details(window: Window) -> tuple[View, ...]:
    """The edge of each different unit where it sits: clearance to the rebate, cover up to the sight line; full size.

    x from the rebate's platform towards the glass, y from the outer face inwards.
    """
    found: dict[tuple[float, float, tuple[float, ...]], list[str]] = {}
    clearance = window.system.edge_clearance
    for pane in window.panes:
        for side in pane.cut.sides:
            profile = window.system.profiles[side.profile]
            key = clearance, profile.sight - profile.rebate - clearance, pane.make_up.layers
            holders = found.setdefault(key, [])
            if side.profile not in holders:
                holders.append(side.profile)
    return tuple(_detail(number, *key, holders) for number, (key, holders) in enumerate(found.items(), 1))


def _detail(number: int, clearance: float, cover: float, layers: tuple[float, ...], holders: Sequence[str]) -> View:
    thick, sight = sum(layers), clearance + cover
    end = sight + SHOWN_MM
    items: list[Entity] = [
        Stroke((Corner(0.0, -3.0), Corner(0.0, thick + 3.0)), Layer.FRAME, weight=CUT),
        *_unit(clearance, end, layers),
        Stroke((Corner(sight, -4.0), Corner(sight, thick + 4.0)), Layer.CENTRE),
        *chain([0.0, clearance, sight], line_at=-9.5, upright=False, scale=1.0, thing_at=-4.0),
        *chain([0.0, thick], line_at=end + 6.0, upright=True, scale=1.0, thing_at=end),
        Label("rebate", Point(-1.5, thick / 2), 2.0, align="centre", angle=90.0),
        Label("sight line", Point(sight, thick + 4.6), 2.0, align="centre"),
    ]
    where = f"In {', '.join(holders)}"
    words = f"clearance {clearance:g}, cover {cover:g}"
    titles = (
        Label(where, Point(-6.0, thick + 12.6), 2.5, bold=True),
        Label(words, Point(-6.0, thick + 8.6), 2.5),
        Label(f"{'/'.join(f'{layer:g}' for layer in layers)}, full size; outside below", Point(-6.0, -14.6), 2.0),
    )
    group = Group(f"edge-{number}", (*items, *titles), f"{where}: {words}")
    return View(f"edge-{number}", f"{where}: {words}", (group,), bounds_of_all(group.items, 1.0))


def _unit(left: float, right: float, layers: Sequence[float]) -> Iterator[Entity]:
    """Panes, and in each cavity the seal and the spacer, from the unit's edge as far as it is shown."""
    stops = [0.0]
    for layer in layers:
        stops.append(stops[-1] + layer)
    for number, (low, high) in enumerate(pairwise(stops)):
        if number % 2:
            yield Fill(rectangle(left, low, left + SEAL_MM, high), Layer.GASKET, SEAL_TONE)
            yield _closed(rectangle(left + SEAL_MM, low, left + SEAL_MM + SPACER_MM, high), FINE)
        else:
            yield Fill(rectangle(left, low, right, high), Layer.HATCH, GLASS_TONE)
            yield _closed(rectangle(left, low, right, high), VISIBLE)


def _closed(outline: Outline, weight: float) -> Stroke:
    return Stroke(outline.corners, Layer.GLASS_CUT, closed=True, weight=weight)
