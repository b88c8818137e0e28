"""The survey sheet of joined windows: what rests on them, the angles and overall sizes of the whole, each facet. One A4 page, upright."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from elevations.drawing.entities import Entity, Fill, Group, Label, Placed, Sheet, Stroke, View
from elevations.drawing.layers import CUT, FINE, THIN, Layer
from elevations.drawing.moving import moved
from elevations.geometry.joined import Joined
from elevations.geometry.neighbours import connectors
from elevations.plane import Box, Corner, Point, rectangle
from elevations.sheets import survey as sheet
from elevations.sheets import survey_form as form
from elevations.sheets.drawing_programs import without_tones
from elevations.sheets.survey_sketch import clear_of, opening_sketch
from elevations.spec.joined import BAY, JoinedFrames
from elevations.spec.model import Job
from elevations.views.elevation import window_groups

SKETCH = 62.0
LOOKED_AT = (
    "load above looked into", "posts: of what", "roof or ceiling over it", "gutter, flashing", "no cracks, no sagging", "floor inside level",
    "room for open sashes", "photographs taken",
)
"""To tick before measuring (a trade guide, read second hand, and common practice)."""
SET = form.Row("", (form.Box("Set"), form.Box("Where", weight=2.0), form.Box("Bay, row or stack"), form.Box("Windows, left to right or from the top", weight=2.0)))
LOAD = form.Row("1  What rests on it", (
    form.Box("Wall, floor or roof bears on it?"), form.Box("Posts there: of what, size"), form.Box("Beam or lintel over it", weight=2.0)))
PLAN = (
    form.Row("3  The whole, at the frame's plane, mm; A to E of a bay", (
        form.Box("A  outside, end to end"), form.Box("B  inside, end to end"), form.Box("C  stands out"), form.Box("Level: right end + / -"))),
    form.Row("", (form.Box("D  left end to last corner"), form.Box("E  right end to first corner"), form.Box("Height left"), form.Box("middle"), form.Box("right"))),
)
FACETS = ("No.", "Window", "Frame", "Top", "Middle", "Bottom", "Height", "Angle", "Joined by")
SHARES = (0.06, 0.11, 0.17, 0.11, 0.11, 0.11, 0.11, 0.09, 0.13)
ROWS = 7
CORNERS_OF_ONE_POST = 3
GENERIC = (Point(0.0, 0.0), Point(460.0, -460.0), Point(2060.0, -460.0), Point(2520.0, 0.0))
"""Outer corners of the bay that a blank form shows, mm: any canted one."""
GENERIC_DEPTH = 90.0


def survey_set_sheet(
    job: Job | None = None, spec: JoinedFrames | None = None, joined: Joined | None = None, style: str = "paper"
) -> Sheet:
    """One set's form, blank without `spec`; with `joined`, what it resolves to, it is sketched too."""
    items: list[Entity] = list(sheet.title_row(f"Survey of {spec.mark}, joined" if spec else "Survey, joined windows", "Page 1 of 1"))
    top = sheet.rows(items, form.HEAD[:1], sheet.BODY.top - 8.5, job, None)
    given = (spec.mark, spec.location, spec.way, ", ".join(spec.windows)) if spec else ("",) * len(SET.boxes)
    top = sheet.boxes(items, SET, top, given)
    top = sheet.ticks(items, LOOKED_AT, top - 1.5)
    load = "" if spec is None or spec.carries_load is None else "yes" if spec.carries_load else "no"
    top = sheet.boxes(items, LOAD, top, (load, "", "")) - 2.2
    middle = sheet.BODY.centre.x
    items.append(sheet.heading("2  Sketch", sheet.BODY.left, top))
    top -= sheet.HEAD_ROW
    left, right = Box(sheet.BODY.left, top - SKETCH, middle - 2, top), Box(middle + 2, top - SKETCH, sheet.BODY.right, top)
    placed = _sketches(items, left, right, spec, joined)
    top -= SKETCH + 0.5
    for row in PLAN:
        top = sheet.boxes(items, row, top, ("",) * len(row.boxes))
    items.append(sheet.heading("4  Each facet: widths top to bottom, mm; angle to the next, as the room has it", sheet.BODY.left, top - 2.2))
    listed = _facets(job, spec)
    if spec is not None and len(spec.windows) > ROWS:
        items.append(Label("more facets than rows: the others on a sheet of their own", Point(sheet.BODY.right, top - 2.2), 2.5, align="right", level="top"))
    top = sheet.grid_table(items, FACETS, SHARES, listed, top - 2.2 - sheet.HEAD_ROW)
    sheet.end(items, top - 2.0, note=True)
    if style == "model":
        items = [item for item in items if not isinstance(item, Fill)]
        placed = tuple(without_tones(place) for place in placed)
    what = f" of {spec.mark}" if spec else ", blank"
    said = f"Survey form of joined windows{what}: boxes for load, overall sizes, diagonals of the plan, each facet and angle."
    return Sheet(f"Survey of joined windows{what}", said, sheet.WIDTH, sheet.HEIGHT, placed, (Group("survey", tuple(items), "boxes to fill in"),), placed[0].scale if placed else 1.0)


def _facets(job: Job | None, spec: JoinedFrames | None) -> list[list[str]]:
    """A row a window, filled in with the frame that the job gives and the angle to the next."""
    listed = []
    frames = {window.mark: window.frame for window in job.windows} if job else {}
    standing = connectors(spec) if spec else ()
    for number in range(ROWS):
        row = [str(number + 1)] + [""] * (len(FACETS) - 1)
        if spec is not None and number < len(spec.windows):
            row[1] = spec.windows[number]
            frame = frames.get(row[1])
            row[2] = f"{frame.width:g} × {frame.height:g}" if frame is not None and frame.width > 0 else ""
            if number < len(standing):
                row[7] = f"{standing[number].angle:g}" if spec.way == BAY else ""
                row[8] = standing[number].kind
        listed.append(row)
    return listed


def _sketches(items: list[Entity], left: Box, right: Box, spec: JoinedFrames | None, joined: Joined | None) -> tuple[Placed, ...]:
    """Of a bay its plan, of a row or stack its hole; beside that the windows as the job has them, or both blank ones."""
    if spec is None or spec.way == BAY:
        outer = joined.plan.outer if joined is not None and joined.plan is not None else GENERIC
        inner = joined.plan.inner if joined is not None and joined.plan is not None else _inner(GENERIC)
        items += _plan(right if spec is None else left, outer, inner)
    if spec is None or spec.way != BAY:
        items += opening_sketch(left, None)
    if spec is None:
        return ()
    items.append(Stroke(rectangle(*right).corners, Layer.SHEET, closed=True, weight=THIN))
    if joined is None:
        items += sheet.grid(right)
        return ()
    return (_windows(right, joined),)


def _inner(outer: Sequence[Point]) -> list[Point]:
    """Behind the corners of the generic bay."""
    share = GENERIC_DEPTH * math.tan(math.radians(22.5))
    reach = GENERIC_DEPTH * math.sqrt(0.5)
    return [Point(outer[0].x + reach, outer[0].y + reach), Point(outer[1].x + share, outer[1].y + GENERIC_DEPTH),
            Point(outer[2].x - share, outer[2].y + GENERIC_DEPTH), Point(outer[3].x - reach, outer[3].y + reach)]


def _plan(area: Box, outer: Sequence[Point], inner: Sequence[Point]) -> Iterator[Entity]:
    """The faces of a bay from above, and the lines A to E that are taped."""
    points = (*outer, *inner)
    width, height = max(p.x for p in points) - min(p.x for p in points), max(p.y for p in points) - min(p.y for p in points)
    scale = max(width / (area.width - 18.0), height / (area.height - 26.0))
    left = area.centre.x - (min(p.x for p in points) + width / 2) / scale
    foot = area.bottom + 8.0 - min(p.y for p in points) / scale

    def at(point: Point) -> Corner:
        return Corner(left + point.x / scale, foot + point.y / scale)

    yield Stroke(tuple(at(p) for p in outer), Layer.FRAME, weight=CUT)
    yield Stroke(tuple(at(p) for p in inner), Layer.FRAME, weight=THIN)
    first, last = at(outer[0]), at(outer[-1])
    lowest = min(at(p).y for p in outer)
    lines: list[tuple[str, tuple[Corner, Corner], str | None]] = [
        ("A", (Corner(first.x, first.y + 15.0), Corner(last.x, last.y + 15.0)), None),
        ("B", (Corner(at(inner[0]).x, first.y + 9.0), Corner(at(inner[-1]).x, first.y + 9.0)), None),
        ("C", (Corner(area.right - 4.0, first.y), Corner(area.right - 4.0, lowest)), None),
    ]
    if len(outer) > CORNERS_OF_ONE_POST:
        lines += [("D", (first, at(outer[-2])), "dashed"), ("E", (last, at(outer[1])), "dashed")]
    for name, ends, style in lines:
        share = 0.5 if style is None else 0.34
        x, y = ends[0].x + share * (ends[1].x - ends[0].x), ends[0].y + share * (ends[1].y - ends[0].y)
        for start, stop in clear_of(*ends, [Box(x - 2.2, y - 2.2, x + 2.2, y + 2.2)]):
            yield Stroke((start, stop), Layer.DIMENSION, line=style, weight=FINE)
        yield Label(name, Point(x, y), 2.5, align="centre", level="middle", bold=True)
    for end_at, foot_at in ((first, first.y + 15.0), (last, last.y + 15.0)):
        yield Stroke((Corner(end_at.x, end_at.y + 1.0), Corner(end_at.x, foot_at)), Layer.DIMENSION, weight=FINE)
    yield Label("from above; the outside is at the bottom", Point(area.centre.x, area.bottom + 1.5), 2.5, align="centre")


def _windows(area: Box, joined: Joined) -> Placed:
    """The developed elevation, without dimensions: a sketch that says of no scale."""
    scale = float(math.ceil(max(joined.width.value / (area.width - 8), joined.height.value / (area.height - 8))))
    groups = [
        Group(f"w{number}-{group.id}", tuple(moved(item, facet.x, facet.y) for item in group.items), group.title)
        for number, facet in enumerate(joined.facets) for group in window_groups(facet.window, scale)
    ]
    at = Point(area.centre.x - joined.width.value / 2 / scale, area.centre.y - joined.height.value / 2 / scale)
    return Placed(View("windows", "Windows as the job has them", tuple(groups), Box(0.0, 0.0, joined.width.value, joined.height.value)), scale, at)
