"""The glass drawing: a window's panes and nothing that hides them, their tags and sizes in large letters; their edges in detail."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from elevations.drawing.chains import chain
from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.explode import label_box
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import CUT, FINE, VISIBLE, Layer
from elevations.drawing.lettering import wrap
from elevations.geometry.window import Pane, Window
from elevations.plane import Box, Corner, Outline, Point, rectangle
from elevations.views.glass_bars import bar_chains, bars_beside
from elevations.views.glass_lettering import lettering, says_all, size_words
from elevations.views.section_parts import SEAL_MM, SPACER_MM
from elevations.views.visible import bar_face

GLASS_TONE, SEAL_TONE = "#e3eef3", "#4a5058"
SHOWN_MM = 16.0
"""Of the unit past the sight line, in the detail of its edge."""
TITLE, NOTE, TITLE_OFF = 3.5, 2.5, 3.0
"""Heights of the words under the drawing, and how far below it they begin, mm on paper."""
NARROWEST_TITLE = 110.0
"""They may be as wide as this under a narrow window, mm on paper."""


def glass_elevation(window: Window, scale: float) -> View:
    """The panes from outside, mm from the frame's bottom left corner; lettering sized for 1:`scale`.

    Layer GLASS holds the cut outline of each pane and nothing else. Frame and bars are fine lines, to find one's way.
    """
    frame = Stroke(window.frame.outline.corners, Layer.FRAME, closed=True, weight=FINE)
    bars = [Stroke(bar_face(window, bar).corners, Layer.BARS, closed=True, weight=FINE) for bar in window.bars]
    groups = [Group("glass-frame", (frame, *bars), "frame and bars")]
    groups += [_pane(window, pane, scale) for pane in window.panes]
    chains = bar_chains(window, scale)
    if chains:
        groups.append(Group("glass-bars", chains, "centre lines of glazing bars, from the edges of their pane"))
    inner = bounds_of_all((item for group in groups for item in group.items), scale)
    title = Group("glass-title", tuple(_title(window, inner, scale)))
    bounds = inner.joined(bounds_of_all(title.items, scale))
    return View("glass", f"Glass of window {window.mark} from outside", (*groups, title), bounds)


def _title(window: Window, inner: Box, scale: float) -> list[Label]:
    """Under the drawing: which side it is seen from, and what its sizes and lines are."""
    said = [f"Scale 1:{scale:g}. Cut sizes, width × height; dashed: edge of visible glass."]
    if any(pane.shaped for pane in window.panes):
        said.append("Sizes of shaped panes are those of the rectangle round them: cut to template.")
    if any(pane.bars for pane in window.panes):
        said.append("Glazing bars: centre lines from the edges of the cut size.")
    if not all(says_all(pane, lettering(pane, scale)) for pane in window.panes):
        said.append("The list has what a pane has no room for: its make-up or its mass.")
    top, wide = inner.bottom - TITLE_OFF * scale, max(inner.width / scale, NARROWEST_TITLE)
    made = [Label("Seen from outside", Point(inner.left, top), TITLE, level="top", bold=True)]
    top -= TITLE * 1.7 * scale
    for row in (row for text in said for row in wrap(text, wide, NOTE)):
        made.append(Label(row, Point(inner.left, top), NOTE, level="top"))
        top -= NOTE * 1.6 * scale
    return made


def _pane(window: Window, pane: Pane, scale: float) -> Group:
    words = lettering(pane, scale)
    items: list[Entity] = [
        Fill(pane.cut.outline, Layer.HATCH, GLASS_TONE),
        Stroke(pane.sight.outline.corners, Layer.BEAD, closed=True, line="dashed"),
        *bars_beside(pane, [label_box(label, scale) for label in words], scale),
        Stroke(pane.cut.outline.corners, Layer.GLASS, closed=True, weight=VISIBLE),
        *words,
    ]
    data = (("mark", window.mark), ("light", str(pane.light)), ("tag", pane.tag))
    return Group(f"glass-{pane.tag}", tuple(items), f"{pane.tag}, cut {size_words(pane)}, {pane.glass}", data)


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
