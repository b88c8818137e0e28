"""Glass drawings: a page a window with its panes in large letters, their list, and their edges at full size."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Entity, Group, Label, Placed, View
from elevations.drawing.lettering import text_width
from elevations.geometry.window import Pane, Window
from elevations.plane import Box, Point
from elevations.schedules.glass_order import special_words
from elevations.schedules.lifting import people_to_lift, people_words
from elevations.sheets.arrange import SCALES, on_paper
from elevations.sheets.page import BODY, Page
from elevations.views.glass import edge_details, glass_elevation, size_words
from elevations.views.table import GUTTER, LEADING, Block, heading, paragraph, stack

COLUMN, GAP = 79.0, 6.0
"""Width of the list on the right, and what lies between things, mm."""
LIST_HEIGHTS = (3.5, 2.5, 2.0, 1.8)
LEAST_LIST = 40.0
"""Height that edge details leave to the list, mm."""
HEADERS = ("Tag", "Size", "kg")
KIND = 2.5
"""Greatest height of the words below a pane's size, mm."""


def glass_page(window: Window) -> Page:
    """The glass drawing of a window, at the largest standard scale that fits."""
    area = Box(BODY.left, BODY.bottom, BODY.right - COLUMN - GAP, BODY.top)
    placed = [_placed_elevation(window, area)]
    left = BODY.right - COLUMN
    details = edge_details(window)
    edges, foot = _placed_edges(details, left)
    listed = _list(window, BODY.top - foot - GAP, [view.title for view in details[len(edges) :]])
    items: tuple[Entity, ...] = listed.at(left, BODY.top)
    place = f", {window.location}" if window.location else ""
    title = f"Glass of window {window.mark}{place}"
    said = f"{title}, seen from outside at 1:{placed[0].scale:g}: {len(window.panes)} panes with tags and cut sizes; edge cover at full size."
    return Page(title, said, (Group("glass-list", items, "list of the panes"),), (placed[0], *edges), placed[0].scale)


def _placed_elevation(window: Window, area: Box) -> Placed:
    """The panes in the middle of the area; at the last scale fit or not."""
    frame = window.frame.outline.bounds   # nothing of this view lies outside it
    scale = next((s for s in SCALES if frame.width / s <= area.width and frame.height / s <= area.height), SCALES[-1])
    view = glass_elevation(window, scale)
    box = on_paper(view, scale)
    return Placed(view, scale, Point(area.centre.x - box.centre.x, area.centre.y - box.centre.y))


def _placed_edges(views: Sequence[View], left: float) -> tuple[list[Placed], float]:
    """Edge details in the column from the bottom up, two beside each other, as many as leave the list its room; their top."""
    placed: list[Placed] = []
    bottom, row_top, x = BODY.bottom, BODY.bottom, left
    for view in views:
        box = view.bounds
        if x + box.width > BODY.right and x > left:
            bottom, x = row_top + GAP, left
        if bottom + box.height > BODY.top - LEAST_LIST:
            break
        placed.append(Placed(view, 1.0, Point(x - box.left, bottom - box.bottom)))
        row_top, x = max(row_top, bottom + box.height), x + box.width + GAP
    return placed, row_top


def _list(window: Window, height: float, edges: Sequence[str]) -> Block:
    """Tag, size, mass and kind of each pane, as large as there is room; what does not fit is said.

    `edges`: in words, those that found no place as a drawing.
    """
    rows = [_row(pane) for pane in window.panes]
    foot = [paragraph(f"Edge not drawn: {said}", COLUMN, height=2.0) for said in edges]
    height -= sum(block.height for block in foot)
    for text in LIST_HEIGHTS:
        block = _table(rows, text)
        if block.height <= height:
            return stack([block, *foot])
    kept = max((n for n in range(len(rows)) if _table(rows[:n], LIST_HEIGHTS[-1]).height <= height - 5.0), default=0)
    more = paragraph(f"and {len(rows) - kept} more panes: see the glass schedule", COLUMN, height=2.5, bold=True)
    return stack([_table(rows[:kept], LIST_HEIGHTS[-1]), more, *foot], 1.0)


def _table(rows: Sequence[Sequence[str]], text: float) -> Block:
    """A line for tag, size and mass of each pane, and its kind in smaller letters below it."""
    columns = list(zip(HEADERS, *(row[:3] for row in rows), strict=True))
    widths = [max(text_width(cell, text, bold=True) for cell in column) for column in columns]
    lines = [heading("Panes, cut sizes", COLUMN), _cells(HEADERS, widths, text, bold=True)]
    for row in rows:
        lines += [_cells(row[:3], widths, text, bold=False), paragraph(row[3], COLUMN, height=min(text, KIND)), Block((), COLUMN, 1.0)]
    return stack(lines)


def _cells(cells: Sequence[str], widths: Sequence[float], text: float, *, bold: bool) -> Block:
    left, items = 0.0, []
    for cell, width in zip(cells, widths, strict=True):
        items.append(Label(cell, Point(left, 0.0), text, level="top", bold=bold))
        left += width + GUTTER
    return Block(tuple(items), COLUMN, text * LEADING)


def _row(pane: Pane) -> tuple[str, str, str, str]:
    people = people_to_lift(pane.mass_kg)
    lift = f"{people_words(people)} people" if people > 1 else ""
    shape = "shaped: see template" if pane.shaped else ""
    kind = "; ".join(word for word in (pane.glass, special_words(pane.make_up), shape, lift) if word)
    return pane.tag, size_words(pane), f"{pane.mass_kg:.1f}", kind
