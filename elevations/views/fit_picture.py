"""A frame in its opening with the gaps drawn larger than they are: what no scale drawing shows."""

from __future__ import annotations

from collections.abc import Iterator

from elevations.drawing.entities import Entity, Fill, Group, Label, Stroke, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import CUT, THIN, VISIBLE, Layer
from elevations.drawing.lettering import wrap
from elevations.geometry.fit import Fitted, Gap, Site
from elevations.geometry.window import Window
from elevations.plane import Box, Corner, Outline, Point, rectangle
from elevations.schedules.fit import BRIDGED, LAPPED, joint_of

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
    width, height, stack = window.width.value, window.height.value, fitted.stack
    frame, made = Box(0, 0, width, height), Box(-stack.left, -stack.sill, width + stack.right, height + stack.head)
    hole = _wall_edge(fitted, made, times)
    outer = hole.bounds.joined(made).grown(BAND * scale)
    wall = rectangle(*outer)
    lapped = site.fit.reveal.kind == "check"
    gap = Group("gap", (Fill(hole, Layer.HATCH, GAP_TONE),), "gap")
    drawn = Group("frame", tuple(_frame(frame, made, hidden=lapped)), "frame with its add-ons and sill")
    leaf = Group("wall", (Fill(wall, Layer.WALL, WALL_TONE, (hole,)),), "wall")
    edge = Group("frame-behind", (Stroke(rectangle(*frame).corners, Layer.FRAME, closed=True, line="dashed", weight=THIN),), "frame behind the wall")
    groups = [
        *((gap, drawn, leaf, edge) if lapped else (leaf, gap, drawn)),
        Group("wall-edge", (Stroke(hole.corners, Layer.WALL, closed=True, weight=CUT),), "edge of the wall, gaps enlarged"),
        Group("gaps", tuple(_figures(site, fitted, made, hole.bounds, times, scale)), "gaps in mm"),
    ]
    title = [Label("Fit, from outside", Point(outer.left, outer.bottom - 3.0 * scale), TITLE, level="top", bold=True)]
    said = f"Frame 1:{scale:g}; {'gap and laps' if lapped else 'gaps'} drawn {times} times larger than the frame, figures are true mm"
    said = (said if times > 1 else f"Scale 1:{scale:g}, gaps too") + ("; laps at jambs and head" if lapped else "")
    said += f"; those at the head hold the head allowance of {fitted.allowance:g}" if fitted.allowance else ""
    for number, row in enumerate(wrap(said, max(outer.width / scale, NARROWEST), TEXT)):
        title.append(Label(row, Point(outer.left, outer.bottom - (9.0 + number * TEXT * 1.6) * scale), TEXT, level="top"))
    groups.append(Group("fit-title", tuple(title)))
    items = [item for group in groups for item in group.items]
    return View("fit", "Fit, gaps enlarged", tuple(groups), outer.joined(bounds_of_all(items, scale)))


def _wall_edge(fitted: Fitted, made: Box, times: int) -> Outline:
    """The wall's edge with each gap `times` as wide: corners and mid-sides, from the bottom left anticlockwise."""
    gap = {(g.side, g.place): g.mm * times for g in fitted.gaps}
    left, right = ("left jamb", made.left), ("right jamb", made.right)

    def corner(jamb: tuple[str, float], level: str, place: str, end: str) -> Corner:
        sign = -1 if jamb is left else 1
        y = made.bottom - gap[level, place] if level == "sill" else made.top + gap[level, place]
        return Corner(jamb[1] + sign * gap[jamb[0], end], y)

    middle = made.centre
    return Outline((
        corner(left, "sill", "left", "bottom"), Corner(middle.x, made.bottom - gap["sill", "middle"]),
        corner(right, "sill", "right", "bottom"), Corner(made.right + gap["right jamb", "middle"], middle.y),
        corner(right, "head", "right", "top"), Corner(middle.x, made.top + gap["head", "middle"]),
        corner(left, "head", "left", "top"), Corner(made.left - gap["left jamb", "middle"], middle.y),
    ))


def _frame(frame: Box, made: Box, *, hidden: bool) -> Iterator[Entity]:
    """With `hidden` its own edge is left to be drawn over the wall that covers it."""
    if made != frame:
        yield Fill(rectangle(*made), Layer.HATCH, STACK_TONE)
        yield Stroke(rectangle(*made).corners, Layer.SILL, closed=True, weight=THIN)
    yield Fill(rectangle(*frame), Layer.HATCH, FRAME_TONE)
    if not hidden:
        yield Stroke(rectangle(*frame).corners, Layer.FRAME, closed=True, weight=VISIBLE)


def _figures(site: Site, fitted: Fitted, made: Box, hole: Box, times: int, scale: float) -> Iterator[Label]:
    """Each gap's width outside the wall's edge; bold where sealant alone does not do. A short side's are given as a range."""
    for side in dict.fromkeys(gap.side for gap in fitted.gaps):
        gaps = [gap for gap in fitted.gaps if gap.side == side]
        bold = [joint_of(site, gap) not in (BRIDGED, LAPPED) for gap in gaps]
        texts = [f"{abs(gap.mm):.1f}" for gap in gaps]
        upright = side.endswith("jamb")
        if (made.height if upright else made.width) / scale < (LEAST_JAMB if upright else LEAST_LEVEL):
            widths = sorted(abs(gap.mm) for gap in gaps)
            ends = [f"{widths[0]:.1f}", f"{widths[-1]:.1f}"]
            gaps, texts, bold = [gaps[1]], ["–".join(dict.fromkeys(ends))], [any(bold)]
        for gap, text, heavy in zip(gaps, texts, bold, strict=True):
            x, y, align, level = _figure_place(gap, made, hole, times, scale)
            yield Label(text, Point(x, y), TEXT, align=align, level=level, bold=heavy)


def _figure_place(gap: Gap, made: Box, hole: Box, times: int, scale: float) -> tuple[float, float, str, str]:
    off, inset, out = OFF * scale, INSET * scale, max(0.0, gap.mm) * times
    if gap.side.endswith("jamb"):
        y = {"top": made.top - inset, "bottom": made.bottom + inset}.get(gap.place, made.centre.y)
        left = gap.side == "left jamb"
        edge = min(made.left - out, made.left) if left else max(made.right + out, made.right)
        return (edge - off if left else edge + off), y, ("right" if left else "left"), "middle"
    x = {"left": made.left + inset, "right": made.right - inset}.get(gap.place, made.centre.x)
    head = gap.side == "head"
    y = max(hole.top, made.top) + off if head else min(hole.bottom, made.bottom) - off
    align = {"left": "left", "right": "right"}.get(gap.place, "centre")
    return x, y, align, "base" if head else "top"
