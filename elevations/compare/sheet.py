"""A window's elevation with clouds round what changed, and the table that says what each tag stands for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from elevations.compare.changes import Change, said
from elevations.compare.clouds import Cloud, cloud_group, clouds, tag_at
from elevations.drawing.entities import Entity, Group, Label, Placed, Sheet, Stroke, View
from elevations.drawing.extent import bounds_of_all
from elevations.drawing.layers import CUT, Layer
from elevations.drawing.lettering import fit, wrap
from elevations.geometry.fit_fixing import holds
from elevations.geometry.window import Window
from elevations.plane import Box, Corner, Point
from elevations.sheets import words
from elevations.sheets.arrange import SCALES, on_paper
from elevations.sheets.column import banner
from elevations.sheets.factory import BINDING, INSIDE, MARGIN, PAPERS
from elevations.sheets.key import elevation_key
from elevations.sheets.title_block import HEIGHT, WIDTH, title_block
from elevations.spec.model import Job
from elevations.views.elevation import elevation
from elevations.views.table import LEADING, SMALL, TEXT, Block, line, paragraph, stack

FOOT_GAP = 4.0
"""Between the changes and the notes under them, mm."""
TAG_ROOM = 10.0
"""Left of the words of a change, for its tag, mm."""


def changes_sheet(window: Window, job: Job, found: Sequence[Change], before: str) -> Sheet:
    """The window as it now is, its changes clouded. `before`: what it is compared with, for people ('revision A')."""
    width, height = PAPERS[job.drawing.sheet]
    border = Box(BINDING, MARGIN, width - MARGIN, height - MARGIN)
    area = Box(border.left, border.bottom, border.right - WIDTH, border.top).grown(-INSIDE)
    placed_clouds, rest = clouds(window, found)
    view, scale = _view(window, placed_clouds, area, apex_at_hinge=job.drawing.symbol_apex == "hinge")
    box = on_paper(view, scale)
    at = Point(area.centre.x - box.centre.x, area.centre.y - box.centre.y)
    column = Box(border.right - WIDTH, border.bottom + HEIGHT, border.right, border.top).grown(-INSIDE)
    foot = _foot(window, column.width, apex_at_hinge=job.drawing.symbol_apex == "hinge")
    groups = (
        _border(border),
        _table(placed_clouds, rest, job, before, Box(column.left, column.bottom + foot.height + FOOT_GAP, column.right, column.top)),
        Group("notes", foot.at(column.left, column.bottom + foot.height), "key and notes"),
        title_block(window, job.job, f"1:{scale:g}", job.drawing.sheet, border.right, border.bottom),
    )
    description = f"Window {window.mark}: what changed since {before}. " + "; ".join(said(found)) + "."
    return Sheet(f"Changes of window {window.mark}", description, width, height, (Placed(view, scale, at),), groups, scale)


def _view(window: Window, placed: Sequence[Cloud], area: Box, *, apex_at_hinge: bool) -> tuple[View, float]:
    """The clouded elevation at the first scale at which it fits the area, at the smallest fit or not."""
    for scale in SCALES:
        if scale != SCALES[-1] and window.width.value / scale > area.width:
            continue
        plain = elevation(window, scale, apex_at_hinge=apex_at_hinge)
        drawn = tuple(cloud_group(cloud, scale) for cloud in placed)
        bounds = plain.bounds
        if drawn:
            bounds = bounds.joined(bounds_of_all([item for group in drawn for item in group.items], scale))
        view = replace(plain, groups=(*plain.groups, *drawn), bounds=bounds)
        box = on_paper(view, scale)
        if box.width <= area.width and box.height <= area.height:
            break
    return view, scale


def _border(box: Box) -> Group:
    corners = (Corner(box.left, box.bottom), Corner(box.right, box.bottom), Corner(box.right, box.top), Corner(box.left, box.top))
    left = box.right - WIDTH
    return Group("border", (Stroke(corners, Layer.SHEET, closed=True, weight=CUT), line(left, box.bottom, left, box.top)))


def _foot(window: Window, width: float, *, apex_at_hinge: bool) -> Block:
    """The key, and what the reader is to settle: sizes, cautions, whether figures are invented."""
    ways = {hold.how for hold in holds(window).values()}
    blocks = [elevation_key(window.sashes, width, TEXT, apex_at_hinge=apex_at_hinge, ways=ways),
              paragraph(words.CONFIRM, width, bold=True), paragraph(words.CAUTIONS, width, height=SMALL)]
    blocks += [banner(words.DEMONSTRATION, width)] if window.system.demonstration else []
    return stack(blocks, 2.0)


def _table(placed: Sequence[Cloud], rest: Sequence[Change], job: Job, before: str, box: Box) -> Group:
    """Tag and words of each change, in smaller letters where they are many; what has no room is counted."""
    rows: list[tuple[int, list[str]]] = [(cloud.tag, cloud.lines) for cloud in placed]
    if rest:
        rows.append((0, said(rest)))
    items: list[Entity] = []
    now = f"Revision {job.job.revision}" if job.job.revision else "Now"
    title = ", ".join(part for part in (now, job.job.issued) if part)
    items.append(Label(fit(title, box.width, 3.5, bold=True), Point(box.left, box.top), 3.5, level="top", bold=True))
    items.append(Label(fit(f"What changed since {before}", box.width, TEXT), Point(box.left, box.top - 6.5), TEXT, level="top"))
    items.append(line(box.left, box.top - 11.5, box.right, box.top - 11.5))
    top = box.top - 14.0
    text = TEXT if _depth(rows, box.width, TEXT) <= top - box.bottom else SMALL
    for number, (tag, lines) in enumerate(rows):
        wrapped = [part for line_ in lines for part in wrap(line_, box.width - TAG_ROOM, text)]
        deep = max(len(wrapped) * text * LEADING, 7.0) + 2.0
        if (top - deep < box.bottom + text * LEADING and number < len(rows) - 1) or top - deep < box.bottom:
            items.append(Label(f"and {len(rows) - number} more: see `elevations compare`", Point(box.left, box.bottom), text, bold=True))
            break
        if tag:
            items += tag_at(tag, Point(box.left + 3.5, top - 3.8), 1.0)
        items += [Label(part, Point(box.left + TAG_ROOM, top - i * text * LEADING), text, level="top") for i, part in enumerate(wrapped)]
        top -= deep
    return Group("revision-table", tuple(items), "what changed")


def _depth(rows: Sequence[tuple[int, list[str]]], width: float, text: float) -> float:
    return sum(max(sum(len(wrap(line_, width - TAG_ROOM, text)) for line_ in lines) * text * LEADING, 7.0) + 2.0 for _, lines in rows)
