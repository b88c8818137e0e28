"""A frame in its opening with the gaps drawn larger than they are: what no scale drawing shows."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import CUT, THIN, VISIBLE, Layer
from elevations.drawing.lettering import text_width, wrap
from elevations.geometry.fit import CROWN, Fitted, Gap, Site
from elevations.geometry.fit_deductions import between
from elevations.geometry.fit_head import Edges
from elevations.geometry.window import Window
from elevations.plane import Box, Outline, Point, offset, rectangle
from elevations.schedules.fit import BRIDGED, LAPPED, allowance_words, joint_of
from elevations.shapes import Edge
from elevations.views.fit_edge import SHARES, along, wall_edge

MOST_GAP = 14.0
"""The largest gap or lap is drawn at most this wide, mm on paper."""
MOST_SHARE = 0.2
"""And at most this share of the frame's shorter side, or laps would hide the window."""
NARROWEST = 90.0
"""Words under a narrow picture may be this wide, mm on paper."""
TIMES = (20, 10, 5, 2, 1)
TEXT, TITLE = 2.5, 3.5
OFF, INSET = 2.0, 3.0
"""From the wall's edge to a gap's figure, and from a corner along the side to it, mm on paper."""
WALL_TONE, GAP_TONE, FRAME_TONE, STACK_TONE = "#e9e4da", "#fbf6e6", "#f4f5f3", "#dfe4e6"
LEAST_LEVEL, LEAST_JAMB = 40.0, 18.0
"""Below this length on paper, mm, a side gets the range of its three figures: they all are in the table."""
AT_END = 0.08
"""The figure at the end of a shaped head stands this share of its width along it: beside the end is the jamb's."""
UPRIGHT = 0.2
"""A direction whose other part is less than this counts as upright, or level."""
BAND = 12.0
"""How much wall is drawn round the opening, mm on paper: room for the figures."""


def enlargement(fitted: Fitted, scale: float) -> int:
    """How many times larger than the frame the gaps are drawn."""
    widest = max(abs(gap.mm) for gap in fitted.gaps)
    room = min(MOST_GAP, MOST_SHARE * min(fitted.frame.width, fitted.frame.height) / scale)
    return next((times for times in TIMES if widest * times / scale <= room), 1)


def fit_picture(window: Window, scale: float) -> View:
    """The frame at 1:`scale` with its add-ons and sill, and the wall's edge with every gap enlarged; seen from outside."""
    site = window.site
    assert site is not None
    assert site.fitted is not None
    fitted, times = site.fitted, enlargement(site.fitted, scale)
    frame, made = window.frame.outline, _made(window, fitted)
    head = tuple(edge for edge, named in zip(made.edges(), _edges(window), strict=True) if named.side == "head")
    hole = wall_edge(fitted, made, head, times)
    figures = tuple(_figures(site, fitted, made.bounds, head, hole.bounds, times, scale))
    band = max(BAND, *(text_width(label.text, TEXT) + 2 * OFF for label in figures if label.align != "centre"))
    outer = hole.bounds.joined(made.bounds).grown(band * scale)
    wall = rectangle(*outer)
    lapped = site.fit.reveal.kind == "check"
    gap = Group("gap", (Fill(hole, Layer.HATCH, GAP_TONE),), "gap")
    drawn = Group("frame", tuple(_frame(frame, made, hidden=lapped)), "frame with its add-ons and sill")
    leaf = Group("wall", (Fill(wall, Layer.WALL, WALL_TONE, (hole,)),), "wall")
    edge = Group("frame-behind", (Stroke(frame.corners, Layer.FRAME, closed=True, line="dashed", weight=THIN),), "frame behind the wall")
    groups = [
        *((gap, drawn, leaf, edge) if lapped else (leaf, gap, drawn)),
        Group("wall-edge", (Stroke(hole.corners, Layer.WALL, closed=True, weight=CUT),), "edge of the wall, gaps enlarged"),
        Group("frame-words", tuple(_names(window, site, min(head[0][0].y, head[-1][1].y), scale)), "frame, and what stands round it"),
        Group("gaps", figures, "gaps in mm"),
    ]
    title = [Label("Fit, from outside", Point(outer.left, outer.bottom - 3.0 * scale), TITLE, level="top", bold=True)]
    said = f"Frame 1:{scale:g}; {'gap and laps' if lapped else 'gaps'} drawn {times} times larger than the frame, figures are true mm"
    said = (said if times > 1 else f"Scale 1:{scale:g}, gaps too") + ("; laps at jambs and head" if lapped and any(gap.mm < 0 for gap in fitted.gaps) else "")
    allowance = allowance_words(fitted)
    said += f"; {allowance}" if allowance else ""
    for number, row in enumerate(wrap(said, max(outer.width / scale, NARROWEST), TEXT)):
        title.append(Label(row, Point(outer.left, outer.bottom - (9.0 + number * TEXT * 1.6) * scale), TEXT, level="top"))
    groups.append(Group("fit-title", tuple(title)))
    items = [item for group in groups for item in group.items]
    return View("fit", "Fit, gaps enlarged", tuple(groups), outer.joined(bounds_of_all(items, scale)))


def _edges(window: Window) -> tuple[Edge, ...]:
    return window.shape.edges(window.width.value, window.height.value)


def _made(window: Window, fitted: Fitted) -> Outline:
    """The frame with its add-ons, lining and sill."""
    stack = {"left": fitted.stack.left, "right": fitted.stack.right, "sill": fitted.stack.sill, "head": fitted.stack.head}
    return offset(window.frame.outline, [-stack[edge.side] for edge in _edges(window)])


def _frame(frame: Outline, made: Outline, *, hidden: bool) -> Iterator[Entity]:
    """With `hidden` its own edge is left to be drawn over the wall that covers it."""
    if made != frame:
        yield Fill(made, Layer.HATCH, STACK_TONE)
        yield Stroke(made.corners, Layer.SILL, closed=True, weight=THIN)
    yield Fill(frame, Layer.HATCH, FRAME_TONE)
    if not hidden:
        yield Stroke(frame.corners, Layer.FRAME, closed=True, weight=VISIBLE)


def _figures(site: Site, fitted: Fitted, made: Box, head: Edges, hole: Box, times: int, scale: float) -> Iterator[Label]:
    """Each gap's width outside the wall's edge; bold where sealant alone does not do. A short side's are given as a range."""
    for side in dict.fromkeys(gap.side for gap in fitted.gaps):
        gaps = [gap for gap in fitted.gaps if gap.side == side]
        bold = [joint_of(site, gap) not in (BRIDGED, LAPPED) for gap in gaps]
        texts = [f"{abs(gap.mm):.1f}" for gap in gaps]
        upright = side.endswith("jamb")
        high = (head[-1][1].y if side == "left jamb" else head[0][0].y) - made.bottom
        if (high if upright else made.width) / scale < (LEAST_JAMB if upright else LEAST_LEVEL):
            widths = sorted(abs(gap.mm) for gap in gaps)
            ends = [f"{widths[0]:.1f}", f"{widths[-1]:.1f}"]
            gaps, texts, bold = [gaps[len(gaps) // 2]], ["–".join(dict.fromkeys(ends))], [any(bold)]
        for gap, text, heavy in zip(gaps, texts, bold, strict=True):
            shaped = side == "head" and fitted.hole.kind != "level"
            x, y, align, level = _along_head(fitted, gap, head, times, scale) if shaped else _figure_place(gap, made, head, hole, times, scale)
            yield Label(text, Point(x, y), TEXT, align=align, level=level, bold=heavy)


def _names(window: Window, site: Site, high: float, scale: float) -> Iterator[Label]:
    """Between the frame's jambs, `high` mm: its size, and what stands round it by its true width; left out where there is no room for a row."""
    rows = [f"frame {window.width.value:g} × {window.height.value:g}"]
    for side, where in (("head", "over it"), ("sill", "under it"), ("left jamb", "left of it"), ("right jamb", "right of it")):
        parts = [f"{each.mm:g} {each.name}" for each in between(site.fit, site.sill, side)]
        rows += [f"{where} {', '.join(parts)}"] if parts else []
    middle, step = Point(window.width.value / 2, high / 2), TEXT * 1.6 * scale
    room = (window.width.value - 2 * INSET * scale) / scale
    if any(text_width(row, TEXT) > room for row in rows) or (len(rows) + 1) * step > high:
        return
    for number, row in enumerate(rows):
        yield Label(row, Point(middle.x, middle.y + ((len(rows) - 1) / 2 - number) * step), TEXT, align="centre", level="middle")


def _along_head(fitted: Fitted, gap: Gap, head: Edges, times: int, scale: float) -> tuple[float, float, str, str]:
    """Outside the wall's edge along a slope or an arch, square to it; at the springing a little further along, above the jamb's figure."""
    share = {"left": AT_END, "right": 1 - AT_END, **SHARES}.get(gap.place, 0.5)
    at, out = along(head, min(max(share, AT_END), 1 - AT_END))
    if gap.place == CROWN:
        out = Point(0.0, 1.0)
    inwards = min(max(gap.at / fitted.frame.width, 2 * AT_END), 1 - 2 * AT_END)   # where the figure reaches to; under an arch the gap may widen fast
    off = max(0.0, gap.mm, fitted.along("head", fitted.frame.width * inwards)) * times + OFF * scale
    align = "centre" if abs(out.x) < UPRIGHT else "right" if out.x < 0 else "left"
    return at.x + out.x * off, at.y + out.y * off, align, "base" if out.y > UPRIGHT else "middle"


def _figure_place(gap: Gap, made: Box, head: Edges, hole: Box, times: int, scale: float) -> tuple[float, float, str, str]:
    off, inset, out = OFF * scale, INSET * scale, max(0.0, gap.mm) * times
    if gap.side.endswith("jamb"):
        top = head[-1][1].y if gap.side == "left jamb" else head[0][0].y
        y = {"top": top - inset, "bottom": made.bottom + inset}.get(gap.place, (min(head[-1][1].y, head[0][0].y) + made.bottom) / 2)
        left = gap.side == "left jamb"
        edge = min(made.left - out, made.left) if left else max(made.right + out, made.right)
        return (edge - off if left else edge + off), y, ("right" if left else "left"), "middle"
    x = {"left": made.left + inset, "right": made.right - inset}.get(gap.place, made.centre.x)
    over = gap.side == "head"
    y = max(hole.top, made.top) + off if over else min(hole.bottom, made.bottom) - off
    align = {"left": "left", "right": "right"}.get(gap.place, "centre")
    return x, y, align, "base" if over else "top"
