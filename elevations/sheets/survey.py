"""The survey sheet: a form to measure a window by, blank or filled in with what the job says already. Two A4 pages, upright."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from elevations.drawing.entities import Entity, Fill, Group, Label, Placed, Sheet, Stroke, View
from elevations.drawing.layers import FINE, THIN, VISIBLE, Layer
from elevations.drawing.lettering import fit
from elevations.geometry.window import Window
from elevations.plane import Box, Point, rectangle
from elevations.sheets import survey_form as form
from elevations.sheets.arrange import on_paper
from elevations.sheets.drawing_programs import without_tones
from elevations.sheets.installer_words import square
from elevations.sheets.survey_sketch import box_of, opening_sketch
from elevations.spec.model import Division, Job, Light
from elevations.spec.model import Window as WindowSpec
from elevations.views.elevation import window_groups
from elevations.views.table import line, paragraph

WIDTH, HEIGHT = 210.0, 297.0
BODY = Box(16.0, 10.0, WIDTH - 10.0, HEIGHT - 10.0)
TITLE, HEADING, CAPTION = 5.0, 2.5, form.CAPTION
ROW, HEAD_ROW, LIGHT_ROW = 10.4, 4.6, 8.0
"""Heights of a row of boxes, of a heading and of a row of the lights' table, mm: room for a pen."""
PAGES = 2
SKETCH = 84.0
GRID = 5.0
NOTE_HIGH = 23.9
NOTE = (
    "Measure at the plane where the frame will sit, and behind a check the inner hole too; all lengths mm, all seen from outside. The smallest "
    "width and height govern: measure again if the diagonals don't close. Under an arch 'top' and the diagonals are at its springing, 'centre' is to "
    "the crown. Under a slope 'top' is level, at the lower jamb's top, and 'middle' at half its height; diagonals from the jambs' tops. "
    "Not surveyed by this form: strength, safety glass, escape - local codes decide."
)


def survey_sheets(
    job: Job | None = None, spec: WindowSpec | None = None, window: Window | None = None, first: int = 1, total: int = PAGES, style: str = "paper"
) -> list[Sheet]:
    """One window's form: what is measured on site, and what is to go there. Without `spec` it is blank.

    With `window`, what `spec` resolves to, its division is drawn too. `first` of `total` pages. style 'model': without tones,
    for a drawing program.
    """
    what = f" of window {spec.mark}" if spec else ", blank"
    pages = (
        ("on site", _site(job, spec, window), "boxes for access, wall, opening, levels, sill, heights"),
        ("the frame", _frame(job, spec), "boxes for frame, lights, neighbours, notes and signatures"),
    )
    sheets = []
    for number, (name, (items, placed), boxes) in enumerate(pages, first):
        page = [*title_row(f"Survey{f' of {spec.mark}' if spec else ''}, {name}", f"Page {number} of {total}"), *items]
        shown = placed
        if style == "model":
            page = [item for item in page if not isinstance(item, Fill)]
            shown = tuple(without_tones(place) for place in placed)
        sheets.append(Sheet(
            f"Survey{what}: {name}", f"Survey form{what}: {boxes}.", WIDTH, HEIGHT, shown, (Group("survey", tuple(page), "boxes to fill in"),),
            shown[0].scale if shown else 1.0,
        ))
    return sheets


def title_row(title: str, page: str) -> list[Entity]:
    """The head of a form: what it is, which page, and in what it is measured."""
    return [
        Label(fit(title, BODY.width * 0.62, TITLE), Point(BODY.left, BODY.top), TITLE, level="top", bold=True),
        Label(f"mm, seen from outside · {page}", Point(BODY.right, BODY.top - 1.5), HEADING, align="right", level="top"),
        line(BODY.left, BODY.top - 7.0, BODY.right, BODY.top - 7.0, VISIBLE),
    ]


Made = tuple[list[Entity], tuple[Placed, ...]]


def _site(job: Job | None, spec: WindowSpec | None, window: Window | None) -> Made:
    """What is looked at and measured, in that order."""
    items: list[Entity] = []
    top = rows(items, form.HEAD, BODY.top - 8.5, job, spec)
    top = ticks(items, form.LOOKED_AT, top - 1.5)
    top = rows(items, (*form.SITE, *form.WALL), top, job, spec) - 2.2
    middle = BODY.centre.x
    items.append(heading("3  Opening, at the frame's plane, mm", BODY.left, top))
    items.append(heading("Division: bars' centre lines", middle + 2, top))
    top -= HEAD_ROW
    items += opening_sketch(Box(BODY.left, top - SKETCH, middle - 2, top), spec)
    placed = _division(items, Box(middle + 2, top - SKETCH, BODY.right, top), window)
    top = rows(items, (*form.SHAPED, *form.INNER, *form.LEVELS, *form.SAFETY), top - SKETCH - 1.0, job, spec)
    items += paragraph(NOTE, BODY.width, height=CAPTION).at(BODY.left, top - 2.0)
    return items, placed


def _frame(job: Job | None, spec: WindowSpec | None) -> Made:
    """What goes into the opening, with notes and signatures under it."""
    items: list[Entity] = []
    top = rows(items, form.FRAME, BODY.top - 8.5, job, spec)
    top = _lights(items, top - 2.4, spec) - 1.0
    (row,) = form.JOINED
    top = boxes(items, row, top, form.joined_values(job, spec))
    end(items, top - 2.4)
    return items, ()


def heading(text: str, left: float, top: float) -> Label:
    """A heading of the form."""
    return Label(text, Point(left, top), HEADING, level="top", bold=True)


def rows(items: list[Entity], listed: Sequence[form.Row], top: float, job: Job | None, spec: WindowSpec | None) -> float:
    """Rows of boxes under each other; where the next one starts."""
    for row in listed:
        values = [", ".join(text for key in box.keys if (text := form.value_of(spec, job, key))) for box in row.boxes]
        top = boxes(items, row, top, values)
    return top


def boxes(items: list[Entity], row: form.Row, top: float, values: Sequence[str]) -> float:
    """Boxes side by side; where the next row starts."""
    if row.heading:
        items.append(heading(row.heading, BODY.left, top - 2.2))
        top -= HEAD_ROW + 2.0
    left = BODY.left
    for box, width, value in zip(row.boxes, form.widths(row.boxes, BODY.width), values, strict=True):
        items += box_of(Box(left, top - ROW, left + width, top), box.caption, value)
        left += width
    return top - ROW


def ticks(items: list[Entity], texts: Sequence[str], top: float) -> float:
    """What to look at before measuring; where the next row starts."""
    columns, side, step = 4, 2.6, 5.0
    for number, text in enumerate(texts):
        row, column = divmod(number, columns)
        left = BODY.left + column * BODY.width / columns
        items.append(square(left, top - row * step, side))
        items.append(Label(text, Point(left + side + 1.2, top - row * step - side / 2), CAPTION, level="middle"))
    return top - step * -(-len(texts) // columns)


def _division(items: list[Entity], area: Box, window: Window | None) -> tuple[Placed, ...]:
    """A grid to draw on, or a sketch of the window as the job divides it."""
    items.append(Stroke(rectangle(*area).corners, Layer.SHEET, closed=True, weight=THIN))
    if window is None:
        items += grid(area)
        return ()
    width, height = window.width.value, window.height.value
    scale = float(math.ceil(max(width / (area.width - 8), height / (area.height - 8))))   # a sketch: it says of no scale
    groups = tuple(window_groups(window, scale))
    centre = area.centre
    view = View("division", "Division as the job has it", groups, window.frame.outline.bounds)
    box = on_paper(view, scale)
    return (Placed(view, scale, Point(centre.x - box.centre.x, centre.y - box.centre.y)),)


def grid(area: Box) -> Iterator[Stroke]:
    """Pale lines to draw by."""
    for i in range(1, int(area.width // GRID) + 1):
        yield line(area.left + i * GRID, area.bottom, area.left + i * GRID, area.top, 0.13, Layer.HATCH)
    for j in range(1, int(area.height // GRID) + 1):
        yield line(area.left, area.bottom + j * GRID, area.right, area.bottom + j * GRID, 0.13, Layer.HATCH)


def _lights(items: list[Entity], top: float, spec: WindowSpec | None) -> float:
    """A row for each light; more lights than rows are for another sheet."""
    lights = list(lights_of(spec)) if spec is not None else []
    items.append(heading("7  Lights, in reading order; vents mm2", BODY.left, top))
    if len(lights) > form.LIGHT_ROWS:
        items.append(Label(f"{len(lights)} lights: the others on a sheet of their own", Point(BODY.right, top), HEADING, align="right", level="top"))
    top -= HEAD_ROW
    listed = [[str(row), *("" if row > len(lights) else _of_light(lights[row - 1], key) for key in form.LIGHT_KEYS[1:])] for row in range(1, form.LIGHT_ROWS + 1)]
    return grid_table(items, form.LIGHTS, form.LIGHT_SHARES, listed, top)


def grid_table(items: list[Entity], heads: Sequence[str], shares: Sequence[float], listed: Sequence[Sequence[str]], top: float) -> float:
    """A table with lines to write in; where the next thing starts."""
    for number, row in enumerate([heads, *listed]):
        left = BODY.left
        for text, share in zip(row, shares, strict=True):
            width = share * BODY.width
            items.append(Stroke(rectangle(left, top - LIGHT_ROW, left + width, top).corners, Layer.SHEET, closed=True, weight=FINE))
            if text:
                bold = number == 0
                items.append(Label(fit(text, width - 1.6, CAPTION, bold=bold), Point(left + 0.8, top - LIGHT_ROW / 2), CAPTION, level="middle", bold=bold))
            left += width
        top -= LIGHT_ROW
    return top


def _of_light(light: Light, key: str) -> str:
    text = form.shown(getattr(light, key)) if key in light.model_fields_set else ""
    return f"{text}, dummy sash" if key == "light" and light.sash else text


def lights_of(entry: Division) -> Iterator[Light]:
    """Every light of a window's spec, in reading order."""
    for inner in entry.lights:
        if isinstance(inner, Light):
            yield inner
        else:
            yield from lights_of(inner)


def end(items: list[Entity], top: float, *, note: bool = False) -> None:
    """Room for notes, who surveyed, and with `note` how to measure: at the foot of a page."""
    foot = BODY.bottom + (NOTE_HIGH if note else 0.0)
    sign = foot + ROW + 1.0
    if top - sign > ROW:
        items += box_of(Box(BODY.left, sign, BODY.right, top), "Notes, obstructions")
    boxes(items, form.SIGNED, foot + ROW, ("",) * len(form.SIGNED.boxes))
    if note:
        items += paragraph(NOTE, BODY.width, height=CAPTION).at(BODY.left, foot - 1.4)
