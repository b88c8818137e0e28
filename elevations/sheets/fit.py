"""One window's fit on a page: the picture with its gaps enlarged, every gap in a table, findings."""

from __future__ import annotations

from elevations.drawing.entities import Group, Placed, Sheet
from elevations.geometry.fit_findings import FIT_CODES
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.schedules.fit import by_side, fit_words
from elevations.sheets.arrange import on_paper
from elevations.sheets.drawing_programs import without_tones
from elevations.sheets.page import BODY, Page, sheets_of
from elevations.spec.model import Job
from elevations.views.fit_picture import fit_picture
from elevations.views.table import Block, heading, paragraph, stack, table

SCALES = (5.0, 10.0, 20.0, 50.0)
COLUMN = 92.0
GAP = 6.0


def fit_sheet(window: Window, job: Job, style: str = "paper") -> Sheet:
    """The page; with style 'model' without tones, for a drawing program. The window's opening must have been surveyed."""
    area = Box(BODY.left, BODY.bottom, BODY.right - COLUMN - GAP, BODY.top)
    placed = _picture(window, area)
    if style == "model":
        placed = without_tones(placed)
    words = _column(window)
    group = Group("fit-words", words.at(BODY.right - COLUMN, BODY.top - 2.0), "gaps and findings")
    place = f", {window.location}" if window.location else ""
    said = f"How window {window.mark} fits its opening. " + ". ".join(fit_words(window)) + "."
    page = Page(f"Fit of window {window.mark}{place}", said, (group,), (placed,), placed.scale)
    return sheets_of([page], job.job, demonstration=window.system.demonstration)[0]


def _picture(window: Window, area: Box) -> Placed:
    for scale in SCALES:
        view = fit_picture(window, scale)
        box = on_paper(view, scale)
        if (box.width <= area.width and box.height <= area.height) or scale == SCALES[-1]:
            break
    return Placed(view, scale, Point(area.centre.x - box.centre.x, area.centre.y - box.centre.y))


def _column(window: Window) -> Block:
    blocks = [
        stack([heading("Fit", COLUMN), *(paragraph(text[:1].upper() + text[1:], COLUMN) for text in fit_words(window))], 1.2),
        stack([heading("Gaps, mm", COLUMN), paragraph("At jambs from the top, at head and sill from the left.", COLUMN),
               table(("Side", "Gaps", "Joint"), by_side(window), COLUMN, wide=2)]),
    ]
    found = [f for f in window.findings if f.code in FIT_CODES]
    if found:
        blocks.append(stack([heading("To be settled", COLUMN), *(paragraph(f"{f.subject}: {f.message}", COLUMN, lines=4) for f in found)], 1.2))
    return stack(blocks, 4.0)
