"""The survey sheet: a form to measure a window by, blank or filled in with what the job says already. A4, upright."""

from __future__ import annotations

import math
from collections.abc import Iterator

from elevations.drawing.entities import Entity, Fill, Group, Label, Placed, Sheet, Stroke, View
from elevations.drawing.layers import FINE, THIN, VISIBLE, Layer
from elevations.drawing.lettering import fit
from elevations.geometry.window import Window
from elevations.plane import Box, Corner, Point, rectangle
from elevations.sheets import survey_form as form
from elevations.sheets.arrange import on_paper
from elevations.sheets.fit import without_tones
from elevations.sheets.installer_words import square
from elevations.spec.model import Division, Job, Light
from elevations.spec.model import Window as WindowSpec
from elevations.views.elevation import window_groups
from elevations.views.table import line, paragraph

WIDTH, HEIGHT = 210.0, 297.0
BODY = Box(16.0, 10.0, WIDTH - 10.0, HEIGHT - 10.0)
TITLE, HEADING, VALUE, CAPTION = 5.0, 2.5, 2.5, 1.8
ROW, HEAD_ROW, LIGHT_ROW = 8.6, 4.6, 6.0
SKETCH = 70.0
PAPER = "#ffffff"
GRID = 5.0
NOTE = (
    "Measure outside and inside, at the plane where the frame will sit; all lengths mm, all seen from outside. The smallest width and height "
    "govern: measure again if the diagonals don't close. Not surveyed by this form: strength, safety glass, escape - local codes decide."
)


def survey_sheet(
    job: Job | None = None, spec: WindowSpec | None = None, window: Window | None = None, number: int = 1, total: int = 1, style: str = "paper"
) -> Sheet:
    """One window's form. Without `spec` it is blank; with `window`, what `spec` resolves to, its division is drawn too.

    style 'model': without tones, for a drawing program.
    """
    top = BODY.top
    items: list[Entity] = [
        Label("Survey", Point(BODY.left, top), TITLE, level="top", bold=True),
        Label("all lengths mm, seen from outside", Point(BODY.right, top - 1.5), HEADING, align="right", level="top"),
    ]
    top -= 8.5
    for row in form.HEAD:
        top = _row(items, row, top, job, spec)
    top = _ticks(items, top - 1.5)
    for row in form.WALL:
        top = _row(items, row, top, job, spec)
    top -= 2.4
    middle = BODY.centre.x
    items.append(Label("2  Opening, at the frame's plane, mm", Point(BODY.left, top), HEADING, level="top", bold=True))
    items.append(Label("Division", Point(middle + 2, top), HEADING, level="top", bold=True))
    items.append(Label("bars' centre lines from left and top", Point(BODY.right, top), CAPTION, align="right", level="top"))
    top -= HEAD_ROW
    items += _opening(Box(BODY.left, top - SKETCH, middle - 2, top), spec)
    placed = _division(items, Box(middle + 2, top - SKETCH, BODY.right, top), window)
    top -= SKETCH + 2.0
    for row in form.AFTER:
        top = _row(items, row, top, job, spec)
    top = _lights(items, top - 2.4, spec)
    _end(items, top - 2.0, f"Page {number} of {total}")
    said = f"Survey form{f' of window {spec.mark}' if spec else ', blank'}: boxes for wall, opening, levels, sill, frame and lights."
    title = f"Survey of window {spec.mark}" if spec else "Survey, blank"
    if style == "model":
        items = [item for item in items if not isinstance(item, Fill)]
        placed = tuple(without_tones(place) for place in placed)
    return Sheet(title, said, WIDTH, HEIGHT, placed, (Group("survey", tuple(items), "boxes to fill in"),), placed[0].scale if placed else 1.0)


def _row(items: list[Entity], row: form.Row, top: float, job: Job | None, spec: WindowSpec | None) -> float:
    """Boxes side by side; where the next row starts."""
    if row.heading:
        items.append(Label(row.heading, Point(BODY.left, top - 2.2), HEADING, level="top", bold=True))
        top -= HEAD_ROW + 2.0
    left = BODY.left
    for box in row.boxes:
        width = box.share * BODY.width
        value = ", ".join(text for key in box.keys if (text := form.value_of(spec, job, key)))
        items += _box(Box(left, top - ROW, left + width, top), box.caption, value)
        left += width
    return top - ROW


def _box(box: Box, caption: str, value: str = "") -> Iterator[Entity]:
    yield Stroke(rectangle(*box).corners, Layer.SHEET, closed=True, weight=FINE)
    yield Label(fit(caption, box.width - 1.6, CAPTION), Point(box.left + 0.8, box.top - 0.7), CAPTION, level="top")
    if value:
        yield Label(fit(value, box.width - 2.0, VALUE), Point(box.left + 1.0, box.bottom + 1.3), VALUE)


def _ticks(items: list[Entity], top: float) -> float:
    """What to look at before measuring."""
    columns, side, step = 5, 2.4, 4.6
    for number, text in enumerate(form.LOOKED_AT):
        row, column = divmod(number, columns)
        left = BODY.left + column * BODY.width / columns
        items.append(square(left, top - row * step, side))
        items.append(Label(fit(text, BODY.width / columns - 5.0, 2.0), Point(left + side + 1.2, top - row * step - side / 2), 2.0, level="middle"))
    return top - step * -(-len(form.LOOKED_AT) // columns)


WIDE, HIGH = 17.0, 8.0
PLACES = {
    "top": (0.36, 0.86), "middle": (0.36, 0.5), "bottom": (0.36, 0.14), "left": (0.11, 0.68), "centre": (0.62, 0.68), "right": (0.89, 0.68),
    "\\": (0.68, 0.32), "/": (0.36, 0.32),
}
"""Middle of each box of the opening's sketch, as shares of the hole."""


def _opening(area: Box, spec: WindowSpec | None) -> Iterator[Entity]:
    """The hole with the lines that are measured, and a box on each."""
    hole = area.grown(-3.0)
    yield Stroke(rectangle(*hole).corners, Layer.WALL, closed=True, weight=0.7)

    def at(x: float, y: float) -> Corner:
        return Corner(hole.left + x * hole.width, hole.bottom + y * hole.height)

    for name in ("top", "middle", "bottom"):
        y = PLACES[name][1]
        yield Stroke((at(0, y), at(1, y)), Layer.DIMENSION, weight=FINE)
    for name in ("left", "centre", "right"):
        x = PLACES[name][0]
        yield Stroke((at(x, 0), at(x, 1)), Layer.DIMENSION, weight=FINE)
    yield Stroke((at(0, 1), at(1, 0)), Layer.DIMENSION, line="dashed", weight=FINE)
    yield Stroke((at(0, 0), at(1, 1)), Layer.DIMENSION, line="dashed", weight=FINE)
    for name, (key, number) in form.OPENING.items():
        middle = at(*PLACES[name])
        box = Box(middle.x - WIDE / 2, middle.y - HIGH / 2, middle.x + WIDE / 2, middle.y + HIGH / 2)
        value = ""
        if spec is not None and spec.opening is not None:
            measured = getattr(spec.opening, key.removeprefix("opening.")) or ()
            value = form.shown(measured[number]) if number < len(measured) else ""
        yield Fill(rectangle(*box), Layer.SHEET, PAPER)
        caption = {"\\": "diagonal \\", "/": "diagonal /"}.get(name, name)
        yield from _box(box, caption, value)


def _division(items: list[Entity], area: Box, window: Window | None) -> tuple[Placed, ...]:
    """A grid to draw on, or a sketch of the window as the job divides it."""
    items.append(Stroke(rectangle(*area).corners, Layer.SHEET, closed=True, weight=THIN))
    if window is None:
        across, up = int(area.width // GRID), int(area.height // GRID)
        items += [line(area.left + i * GRID, area.bottom, area.left + i * GRID, area.top, 0.13, Layer.HATCH) for i in range(1, across + 1)]
        items += [line(area.left, area.bottom + j * GRID, area.right, area.bottom + j * GRID, 0.13, Layer.HATCH) for j in range(1, up + 1)]
        return ()
    width, height = window.width.value, window.height.value
    scale = float(math.ceil(max(width / (area.width - 8), height / (area.height - 8))))   # a sketch: it says of no scale
    groups = tuple(window_groups(window, scale))
    centre = area.centre
    view = View("division", "Division as the job has it", groups, window.frame.outline.bounds)
    box = on_paper(view, scale)
    return (Placed(view, scale, Point(centre.x - box.centre.x, centre.y - box.centre.y)),)


def _lights(items: list[Entity], top: float, spec: WindowSpec | None) -> float:
    """A row for each light; more lights than rows go on the back."""
    lights = list(lights_of(spec)) if spec is not None else []
    items.append(Label("5  Lights, in reading order", Point(BODY.left, top), HEADING, level="top", bold=True))
    if len(lights) > form.LIGHT_ROWS:
        items.append(Label(f"{len(lights)} lights: the others on the back", Point(BODY.right, top), HEADING, align="right", level="top"))
    top -= HEAD_ROW
    for row in range(form.LIGHT_ROWS + 1):
        light = lights[row - 1] if 0 < row <= len(lights) else None
        left = BODY.left
        for name, key, share in zip(form.LIGHTS, form.LIGHT_KEYS, form.LIGHT_SHARES, strict=True):
            width = share * BODY.width
            text = name if row == 0 else str(row) if not key else "" if light is None else _of_light(light, key)
            items.append(Stroke(rectangle(left, top - LIGHT_ROW, left + width, top).corners, Layer.SHEET, closed=True, weight=FINE))
            if text:
                items.append(Label(fit(text, width - 1.6, 2.0), Point(left + 0.8, top - LIGHT_ROW / 2), 2.0, level="middle", bold=row == 0))
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


def _end(items: list[Entity], top: float, page: str) -> None:
    """Notes, who surveyed, cautions."""
    foot = BODY.bottom + 7.5
    sign = foot + ROW + 1.0
    if top - sign > 6.0:
        items += _box(Box(BODY.left, sign, BODY.right, top), "Notes, photographs taken, obstructions")
    left = BODY.left
    for caption, share in (("Surveyor", 0.3), ("Signed", 0.3), ("Customer told of trims, making good, parking", 0.4)):
        items += _box(Box(left, foot, left + share * BODY.width, foot + ROW), caption)
        left += share * BODY.width
    items += paragraph(NOTE, BODY.width - 24.0, height=2.0).at(BODY.left, foot - 1.2)
    items.append(Label(page, Point(BODY.right, foot - 1.2), 2.0, align="right", level="top"))
    items.append(line(BODY.left, BODY.top - 7.0, BODY.right, BODY.top - 7.0, VISIBLE))
