"""The template page of one shaped pane: its outline, its sides and corners in figures, and what it is made of."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Entity, Fill, Group, Placed, Sheet
from elevations.geometry.window import Pane, Window, whole_mm
from elevations.plane import Box, Point
from elevations.schedules.glazing_bars import pattern_words
from elevations.schedules.templates import TemplateRow, sides_of
from elevations.sheets.arrange import SCALES, on_paper
from elevations.sheets.page import BODY, Page, sheets_of
from elevations.sheets.words import glass_words
from elevations.spec.model import Job
from elevations.views.table import Block, heading, paragraph, stack, table
from elevations.views.template import template

COLUMN, GAP = 104.0, 6.0
"""Width of the figures on the right, and between them and the drawing, mm."""
SEEN = "Seen from outside. Sides run counter-clockwise from the lowest corner; slopes are to the level, of an arc's chord."
EXACT = (
    "Figures are exact, rounded to 0.1 mm; in DXF the outline on layer GLASS is at true size with true arcs. "
    "The dashed line is where visible glass begins."
)


def template_sheet(window: Window, pane: Pane, job: Job, style: str) -> Sheet:
    """One pane's template, at the largest standard scale that fits the page. style 'model' leaves tones out."""
    page = template_page(window, pane, tones=style == "paper")
    return sheets_of([page], job.job, demonstration=window.system.demonstration)[0]


def template_page(window: Window, pane: Pane, *, tones: bool) -> Page:
    """The page before it is numbered; without `tones` for a drawing program."""
    tag = f"{window.mark}-{pane.tag}"
    placed = _placed(window, pane, tones=tones)
    listed = _figures(window, pane, list(sides_of(pane, tag)), placed.scale)
    items: tuple[Entity, ...] = listed.at(BODY.right - COLUMN, BODY.top)
    title = f"Template {tag}"
    said = (
        f"{title}: shaped glass, {whole_mm(pane.width.value)} by {whole_mm(pane.height.value)} mm over all, seen from outside "
        f"at 1:{placed.scale:g}, with its sides and corners."
    )
    return Page(title, said, (Group("template-figures", items, "sides and corners in figures"),), (placed,), placed.scale)


def _placed(window: Window, pane: Pane, *, tones: bool) -> Placed:
    """The drawing in the middle of its area, at the largest scale that fits; at the smallest, fit or not."""
    area = Box(BODY.left, BODY.bottom, BODY.right - COLUMN - GAP, BODY.top)
    for scale in SCALES:
        view = template(window, pane, scale)
        box = on_paper(view, scale)
        if (box.width <= area.width and box.height <= area.height) or scale == SCALES[-1]:
            break
    if not tones:
        groups = tuple(
            Group(g.id, tuple(item for item in g.items if not isinstance(item, Fill)), g.title, g.data) for g in view.groups
        )
        view = type(view)(view.id, view.title, groups, view.bounds)
    return Placed(view, scale, Point(area.centre.x - box.centre.x, area.centre.y - box.centre.y))


def _figures(window: Window, pane: Pane, rows: Sequence[TemplateRow], scale: float) -> Block:
    """The column on the right."""
    sides = [
        (row.side, _mm(row.length_mm), *((_mm(row.chord_mm), _mm(row.rise_mm), _mm(row.radius_mm)) if row.radius_mm else ("–",) * 3),
         f"{row.slope_deg:.2f}°")
        for row in rows
    ]
    corners = [(str(row.corner), _mm(row.x_mm), _mm(row.y_mm), f"{row.angle_deg:.2f}°") for row in rows]
    unit = [
        f"{whole_mm(pane.width.value)} × {whole_mm(pane.height.value)} over all, rounded down; {pane.area_m2:.3f} m2, {pane.mass_kg:.1f} kg",
        glass_words(pane.glass, pane.make_up),
        f"Light {pane.light}, held in the {pane.holder}; edge clearance {window.system.edge_clearance:g} taken off already",
        *([f"Glazing bars {pattern_words(pane)}; their centre lines run from the edges of the rectangle round the glass"] if pane.bars else []),
    ]
    return stack([
        stack([heading(f"Unit {window.mark}-{pane.tag}", COLUMN), *(paragraph(text, COLUMN, lines=4) for text in unit)]),
        stack([heading("Sides", COLUMN), table(("", "length", "chord", "rise", "radius", "slope"), sides, COLUMN, wide=5)]),
        stack([heading("Corners", COLUMN), table(("", "from left", "from bottom", "angle inside"), corners, COLUMN, wide=3)]),
        stack([heading(f"Notes, drawn at 1:{scale:g}", COLUMN), paragraph(SEEN, COLUMN), paragraph(EXACT, COLUMN)]),
    ], 4.0)


def _mm(value: float | None) -> str:
    return "–" if value is None else f"{value:.1f}"
