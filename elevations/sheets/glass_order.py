"""Glass drawings: a page a window with its panes in large letters, their list, and their edges at full size."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Entity, Group, Label, Placed, View
from elevations.drawing.lettering import text_width
from elevations.geometry.window import Pane, Window
from elevations.plane import Box, Point
from elevations.schedules.glass_order import MARKING, order_rows, tolerance_words
from elevations.schedules.glazing_bars import pattern_words
from elevations.schedules.lifting import NOTE as LIFTING
from elevations.schedules.lifting import lift_words, people_to_lift
from elevations.sheets.arrange import SCALES, on_paper
from elevations.sheets.page import BODY, Page
from elevations.spec.workshop import UnitTolerance
from elevations.views.glass import edge_details, glass_elevation
from elevations.views.glass_lettering import size_words
from elevations.views.table import GUTTER, LEADING, Block, heading, paragraph, stack

COLUMN, GAP = 79.0, 6.0
"""Width of the list on the right, and what lies between things, mm."""
LIST_HEIGHTS = (3.5, 2.5, 2.0, 1.8)
LEAST_LIST = 40.0
"""Height that edge details leave to the list, mm."""
HEADERS = ("Tag", "Size", "kg", "Unit")
KIND, MORE = 2.5, 5.0
"""Greatest height of the words below a pane's size; room for the line that says how many are left out, mm."""
MOST_TAGS = 12
"""Of the panes named beside their unit."""


def glass_page(window: Window, agreed: UnitTolerance | None = None) -> Page:
    """The glass drawing of a window, at the largest standard scale that fits; `agreed`: tolerances of units."""
    area = Box(BODY.left, BODY.bottom, BODY.right - COLUMN - GAP, BODY.top)
    placed = [_placed_elevation(window, area)]
    left = BODY.right - COLUMN
    edges, listed = _column(window, left, tolerance_words(agreed))
    items: tuple[Entity, ...] = listed.at(left, BODY.top)
    place = f", {window.location}" if window.location else ""
    title = f"Glass of window {window.mark}{place}"
    said = f"{title}, seen from outside at 1:{placed[0].scale:g}: {len(window.panes)} panes with tags and cut sizes; edge cover at full size."
    return Page(title, said, (Group("glass-list", items, "list of the panes"),), (placed[0], *edges), placed[0].scale)


def _placed_elevation(window: Window, area: Box) -> Placed:
    """The panes in the middle of the area, at the first scale that fits; at the last one fit or not."""
    frame = window.frame.outline.bounds   # the least that the view takes: spares drawing what can't fit
    for scale in SCALES:
        if scale != SCALES[-1] and (frame.width / scale > area.width or frame.height / scale > area.height):
            continue
        view = glass_elevation(window, scale)
        box = on_paper(view, scale)
        if box.width <= area.width and box.height <= area.height:
            break
    return Placed(view, scale, Point(area.centre.x - box.centre.x, area.centre.y - box.centre.y))


def _column(window: Window, left: float, tolerance: str) -> tuple[list[Placed], Block]:
    """Edge details and the list: what the units are comes before a drawing of every edge, which words then stand for."""
    details = edge_details(window)
    for count in range(len(details), -1, -1):
        edges, foot = _placed_edges(details[:count], left)
        room, titles = BODY.top - foot - GAP, [view.title for view in details[len(edges) :]]
        listed = _whole_list(window, room, titles, tolerance)
        if listed is not None:
            return edges, listed
    edges, foot = _placed_edges(details[:1], left)
    return edges, _shortened_list(window, BODY.top - foot - GAP, [view.title for view in details[len(edges) :]], tolerance)


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


def _whole_list(window: Window, height: float, edges: Sequence[str], tolerance: str) -> Block | None:
    """Tag, size, mass and make-up of each pane, what each unit is, and what belongs on every order, as large as there is room.

    None where that is not enough. `edges`: in words, those that found no place as a drawing.
    """
    rows = [_row(pane) for pane in window.panes]
    for text in LIST_HEIGHTS:
        for small in (KIND, *LIST_HEIGHTS[2:]):
            block = stack([_table(rows, text), *_foot(window, edges, min(text, small), tolerance)])
            if block.height <= height:
                return block
    return None


def _shortened_list(window: Window, height: float, edges: Sequence[str], tolerance: str) -> Block:
    """The same with what does not fit left out, which is said."""
    rows = [_row(pane) for pane in window.panes]
    foot = [*_foot(window, edges, LIST_HEIGHTS[-1], tolerance)][:-1]
    foot.append(paragraph("Tolerances, marking, lifting: see the glass order.", COLUMN, height=LIST_HEIGHTS[-1]))
    if sum(block.height for block in foot) > height / 2:
        foot = [paragraph("What the units are: see the glass order.", COLUMN, height=KIND, bold=True)]
    room = height - sum(block.height for block in foot) - MORE
    kept = max((n for n in range(len(rows) + 1) if _table(rows[:n], LIST_HEIGHTS[-1]).height <= room), default=0)
    said = f"and {len(rows) - kept} more panes: see the glass schedule"
    more = [paragraph(said, COLUMN, height=KIND, bold=True)] if kept < len(rows) else []
    return stack([_table(rows[:kept], LIST_HEIGHTS[-1]), *more, *foot])


def _foot(window: Window, edges: Sequence[str], text: float, tolerance: str) -> list[Block]:
    """What the units are; edges that are not drawn; and last, tolerance, marking of safety glass and lifting, where they apply."""
    units: dict[str, list[str]] = {}
    for row in order_rows(window):
        units.setdefault(row.unit, []).extend(tag.removeprefix(f"{window.mark}-") for tag in row.tags)
    blocks = [Block((), COLUMN, 2.0), heading("Units, outside first", COLUMN)]
    order = [pane.tag for pane in window.panes]
    for unit, found in units.items():
        tags = sorted(found, key=order.index)
        which = ", ".join(tags) if len(tags) <= MOST_TAGS else f"{len(tags)} panes"
        blocks.append(paragraph(f"{unit}. For {which}." if len(units) > 1 else f"{unit}.", COLUMN, height=text))
    blocks += [paragraph(f"Edge not drawn: {said}", COLUMN, height=min(text, 2.0)) for said in edges]
    safe = any(pane.make_up.toughened or pane.make_up.laminated for pane in window.panes)
    heavy = any(people_to_lift(pane.mass_kg) > 1 for pane in window.panes)
    notes = [tolerance, *([MARKING] if safe else []), *([LIFTING] if heavy else [])]
    return [*blocks, stack([Block((), COLUMN, 1.5), *(paragraph(note, COLUMN, height=min(text, 2.0)) for note in notes)], 1.0)]


def _table(rows: Sequence[Sequence[str]], text: float) -> Block:
    """A line for tag, size and mass of each pane, its make-up's name beside or below, what is special below in smaller letters."""
    named = len({row[3] for row in rows}) > 1
    widths = [max(text_width(row[i], text, bold=True) for row in (HEADERS, *rows)) for i in range(4)]
    beside = named and sum(widths) + 3 * GUTTER <= COLUMN
    shown = 4 if beside else 3
    lines = [heading("Panes: cut sizes, width × height", COLUMN), _cells(HEADERS[:shown], widths, text, bold=True)]
    for row in rows:
        below = "; ".join(word for word in ("" if beside or not named else row[3], row[4]) if word)
        more = [paragraph(below, COLUMN, height=min(text, KIND))] if below else []
        lines += [_cells(row[:shown], widths, text, bold=False), *more, Block((), COLUMN, 1.0)]
    return stack(lines)


def _cells(cells: Sequence[str], widths: Sequence[float], text: float, *, bold: bool) -> Block:
    """Cells side by side; the mass to the right."""
    left, items = 0.0, []
    for number, (cell, width) in enumerate(zip(cells, widths, strict=False)):
        to_right = number == HEADERS.index("kg")
        at = Point(left + width if to_right else left, 0.0)
        items.append(Label(cell, at, text, align="right" if to_right else "left", level="top", bold=bold))
        left += width + GUTTER
    return Block(tuple(items), COLUMN, text * LEADING)


def _row(pane: Pane) -> tuple[str, str, str, str, str]:
    """Tag, size, mass, make-up, and what else is to be known of this one."""
    lift = lift_words(people_to_lift(pane.mass_kg))
    shape = "shaped: cut to its template" if pane.shaped else ""
    on_face = any(bar.kind == "on-face" for bar in pane.bars)
    bars = f"glazing bars {pattern_words(pane)}" if on_face else ""
    said = "; ".join(word for word in (shape, f"to lift: {lift}" if lift else "", bars) if word)
    return pane.tag, size_words(pane), f"{pane.mass_kg:.1f}", pane.glass, said
