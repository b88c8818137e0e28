"""The customer's sheet: one window from both sides, how it opens, its colours and glass, and where to sign."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.checks.on_sheets import heat_for_customer
from elevations.drawing.entities import Entity, Fill, Group, Label, Placed, Sheet, View
from elevations.drawing.layers import FINE, THIN, Layer
from elevations.drawing.lettering import fit, wrap
from elevations.geometry.window import Light, Window
from elevations.plane import Box, Point, rectangle
from elevations.sheets import customer_words as words
from elevations.sheets.factory import PAPERS
from elevations.spec.model import Job, JobInfo
from elevations.views import customer_tones as tones
from elevations.views.customer import customer_view, ring, sill_bounds
from elevations.views.customer_ajar import ajar_views
from elevations.views.table import line

SCALES = (5.0, 7.5, 10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0, 100.0)
"""Reductions of ISO 5455 and steps between them, which it leaves to exceptions (from memory): nobody measures on this
sheet, its sizes are written out, and a window as large as the page has room for is what shows somebody their window."""
A3_WIDTH = 420.0
LEADING = 1.7
MOST_CELLS = 8


@dataclass(frozen=True, slots=True)
class Page:
    """A landscape page and its measures; `k` sizes them, 1 on A3."""

    width: float
    height: float

    @property
    def k(self) -> float:
        return self.width / A3_WIDTH

    @property
    def inner(self) -> Box:
        return Box(0.0, 0.0, self.width, self.height).grown(-14 * self.k)

    def text(self, height: float) -> float:
        """A text height of A3 as it is on this page: the next step of ISO 3098 down on A4."""
        steps = (1.8, 2.5, 3.5, 5.0, 7.0)
        return height if self.k > 0.99 else steps[max(0, steps.index(height) - 1)]


def customer_sheet(window: Window, job: Job, style: str = "paper", *, agreed: Sequence[str] = ()) -> Sheet:  # noqa: ARG001 (every reader's sheet takes a style)
    """One window's sheet on the job's paper. `agreed`: lines on its approval and fingerprint, the first one bold.

    Laid out for paper whatever the style.
    """
    page = Page(*PAPERS[job.drawing.sheet])
    k, inner = page.k, page.inner
    top = inner.top - 21 * k
    panel_high = 142 * k
    half = (inner.width - 8 * k) / 2
    panels = [
        Box(left, top - panel_high, left + half, top) for left in (inner.left, inner.left + half + 8 * k)
    ]
    seen = sill_bounds(window)
    scale = fitting_scale([(seen.width, seen.height)], half - 44 * k, panel_high - 34 * k)
    under = " · ".join(part for part in (window.location and f"Window {window.mark}", words.joined_words(window), job.job.site) if part)
    placed, groups = [], [header(page, words.name_of(window), under, job.job, "Your window, for your approval")]
    for panel, side in zip(panels, ("outside", "inside"), strict=True):
        placed += _panel(page, panel, window, side, scale)
    foot = Box(inner.left, inner.bottom, inner.right, top - panel_high - 7 * k)
    opens = Box(foot.left, foot.bottom, foot.left + 0.52 * foot.width, foot.top)
    looks = Box(opens.right + 8 * k, foot.bottom, foot.left + 0.74 * foot.width, foot.top)
    sign = Box(looks.right + 8 * k, foot.bottom, foot.right, foot.top)
    pictures, cells = _opening_cells(page, opens, window)
    placed += pictures
    groups += [cells, _looks(page, looks, window, heat_for_customer(window, job)), _sign(page, sign, window, agreed)]
    said = f"{words.name_of(window)}, window {window.mark}: {words.size_words(window)}. " + " ".join(
        f"{words.numbers(lights)}: {text}." for text, lights in words.grouped(window.lights)
    )
    return Sheet(f"Window {window.mark} for the customer", said, page.width, page.height, tuple(placed), tuple(groups), scale)


def fitting_scale(sizes: Sequence[tuple[float, float]], width: float, height: float, scales: Sequence[float] = SCALES) -> float:
    """The first of the scales at which each of these sizes, mm, fits the room on paper; the smallest where none does."""
    return next((s for s in scales if all(w / s <= width and h / s <= height for w, h in sizes)), scales[-1])


def wall(box: Box, side: str, name: str) -> Placed:
    """A piece of wall on the paper, for windows to stand on."""
    group = Group("wall", (Fill(rectangle(*box), Layer.WALL, tones.WALL[side]),), "wall")
    return Placed(View(name, "", (group,), box), 1.0, Point(0.0, 0.0))


def texts(lines: Sequence[str], left: float, top: float, height: float, *, bold: bool = False) -> list[Entity]:
    """Lines of text under each other, from the top left corner."""
    step = height * LEADING
    return [Label(text, Point(left, top - i * step), height, level="top", bold=bold) for i, text in enumerate(lines) if text]


def header(page: Page, title: str, under: str, info: JobInfo, right: str = "") -> Group:
    """The head of a customer's page: title and a line under it, on the right a line and the job's reference, revision and date."""
    k, inner = page.k, page.inner
    dated = " · ".join(part for part in (info.reference, info.revision and f"revision {info.revision}", info.issued or info.surveyed) if part)
    wide, narrow = inner.width * 0.62, inner.width * 0.36
    items: list[Entity] = [
        Label(fit(title, wide, page.text(7.0), bold=True), Point(inner.left, inner.top), page.text(7.0), level="top", bold=True),
        Label(fit(under, wide, page.text(3.5)), Point(inner.left, inner.top - 11 * k), page.text(3.5), level="top"),
        Label(fit(right, narrow, page.text(3.5)), Point(inner.right, inner.top - 0.6 * k), page.text(3.5), align="right", level="top"),
        Label(fit(dated, narrow, page.text(2.5)), Point(inner.right, inner.top - 11.6 * k), page.text(2.5), align="right", level="top"),
        line(inner.left, inner.top - 17.5 * k, inner.right, inner.top - 17.5 * k, THIN, Layer.OPENING),
    ]
    return Group("header", tuple(item for item in items if not isinstance(item, Label) or item.text), "title")


def _panel(page: Page, panel: Box, window: Window, side: str, scale: float) -> list[Placed]:
    """A wall with the window on it, and its size where it is the outside."""
    k = page.k
    badge = 3.5 * k if len(window.lights) > 1 else 0.0
    view = customer_view(window, scale, side=side, badge=badge)
    width, height = window.width.value / scale, window.height.value / scale
    at = Point(panel.centre.x - width / 2, panel.centre.y - height / 2 + 5 * k)
    caption = Label(f"From {side}", Point(panel.left + 5 * k, panel.bottom + 4.5 * k), page.text(3.5), bold=True)
    note = Label(f"Scale 1:{scale:g}", Point(panel.right - 5 * k, panel.bottom + 4.5 * k), page.text(2.5), align="right")
    items: list[Entity] = [caption, note]
    if side == "outside":
        seen = sill_bounds(window)
        below, beside = -seen.bottom / scale, (seen.width - window.width.value) / 2 / scale
        items += _sizes(page, Box(at.x, at.y, at.x + width, at.y + height), below, beside, window)
    label = Placed(View(f"{side}-words", "", (Group("words", tuple(items)),), panel), 1.0, Point(0.0, 0.0))
    return [wall(panel, side, f"{side}-wall"), Placed(view, scale, at), label]


def _sizes(page: Page, box: Box, below: float, beside: float, window: Window) -> Iterator[Entity]:
    """The frame's width under it and its height on the right, each on a thin line clear of its sill."""
    k = page.k
    y, x, tick = box.bottom - below - 6.5 * k, box.right + beside + 6.5 * k, 1.4 * k
    text = page.text(2.5)
    yield line(box.left, y, box.right, y, FINE, Layer.DIMENSION)
    yield line(x, box.bottom, x, box.top, FINE, Layer.DIMENSION)
    for end in (box.left, box.right):
        yield line(end, y - tick, end, y + tick, FINE, Layer.DIMENSION)
    for end in (box.bottom, box.top):
        yield line(x - tick, end, x + tick, end, FINE, Layer.DIMENSION)
    yield Label(f"{window.width.value:g} mm", Point(box.centre.x, y - 1.6 * k), text, Layer.DIMENSION, align="centre", level="top")
    yield Label(f"{window.height.value:g} mm", Point(x + 1.6 * k + text, box.centre.y), text, Layer.DIMENSION, align="centre", angle=90.0)


def _opening_cells(page: Page, box: Box, window: Window) -> tuple[list[Placed], Group]:
    """Each way of opening once: which parts, pictures of it ajar, and words."""
    k = page.k
    entries = words.grouped(window.lights)
    shown = entries[: MOST_CELLS]
    across = min(4, max(len(shown), 2))
    rows = -(-len(shown) // across)
    width, height = box.width / across, (box.height - 9 * k) / rows
    text = page.text(2.5)
    items: list[Entity] = titled(page, "How it opens", box)
    placed: list[Placed] = []
    tone = tones.finished(window.finish.outside).tone
    for i, (said, lights) in enumerate(shown):
        left, top = box.left + (i % across) * width, box.top - 9 * k - (i // across) * height
        picture = min(30 * k, height * 0.5)
        placed += _ajar(lights[0], tone, left, top, picture, width - 4 * k)
        under = top - picture - 2 * k
        if len(window.lights) > 1:
            items += texts([fit(words.numbers(lights), width - 4 * k, text, bold=True)], left, under, text, bold=True)
            under -= text * LEADING
        room = max(1, int((under - (box.top - 9 * k - (i // across + 1) * height)) / (text * LEADING)))
        lines = wrap(said[0].upper() + said[1:], width - 4 * k, text)
        if len(lines) > room:
            lines = [*lines[: room - 1], fit(" ".join(lines[room - 1 :]), width - 4 * k, text)]
        items += texts(lines, left, under, text)
    note = words.FROM_OUTSIDE if len(entries) == len(shown) else f"{len(entries) - len(shown)} more ways of opening: see the list. {words.FROM_OUTSIDE}"
    items.append(Label(fit(note, box.width - 4 * k, page.text(2.5)), Point(box.left, box.bottom), page.text(2.5)))
    return placed, Group("opening", tuple(items), "how each part opens")


def _ajar(light: Light, tone: str, left: float, top: float, size: float, room: float) -> list[Placed]:
    views = ajar_views(light, tone, min(size * 1.2, room / 2), size)
    placed = []
    for view in views:
        box = view.bounds
        placed.append(Placed(view, 1.0, Point(left - box.left + 2.0, top - size / 2)))
        left += box.width * 1.3 + 4.0
    return placed


def titled(page: Page, title: str, box: Box) -> list[Entity]:
    """A heading over a thin line across the box."""
    height = page.text(3.5)
    foot = box.top - height - 1.6 * page.k
    return [
        Label(title, Point(box.left, box.top), height, level="top", bold=True),
        line(box.left, foot, box.right, foot, FINE, Layer.HATCH),
    ]


def _looks(page: Page, box: Box, window: Window, heat: str) -> Group:
    """Colours with swatches, glass, overall size and, where there is room left, warmth."""
    k, text = page.k, page.text(2.5)
    items: list[Entity] = titled(page, "Colour, glass and size", box)
    top = box.top - 9 * k
    for where, code in (("Outside", window.finish.outside), ("Inside", window.finish.inside)):
        swatch = rectangle(box.left, top - 9 * k, box.left + 14 * k, top)
        tone = tones.finished(code).tone
        items += [Fill(swatch, Layer.SHEET, tone), *ring(swatch, 0.2, tones.edge(tone), Layer.SHEET)]
        lines = [where, *wrap(words.finish_words(code), box.width - 18 * k, text)[:2]]
        items += texts(lines[:1], box.left + 18 * k, top, text, bold=True)
        items += texts(lines[1:], box.left + 18 * k, top - text * LEADING, text)
        top -= 14 * k
    items += texts([f"({words.SCREEN})"], box.left, top + 2 * k, text)
    top -= 5 * k
    for parts, said in words.glasses(window):
        lines = wrap(f"{parts}: {said[0].lower()}{said[1:]}" if parts else said, box.width, text)
        items += texts(lines, box.left, top, text)
        top -= (len(lines) + 0.4) * text * LEADING
    sill = wrap(words.sill_words(window), box.width, text)
    sizes = ["Overall size", words.size_words(window), *filter(None, sill)]
    items += texts(sizes, box.left, top, text)
    top -= (len(sizes) + 0.4) * text * LEADING
    warmth = ["Warmth", *wrap(heat, box.width, text)] if heat else []
    if top - len(warmth) * text * LEADING >= box.bottom:
        items += texts(warmth, box.left, top, text)
    return Group("looks", tuple(items), "colour, glass and size")


def _sign(page: Page, box: Box, window: Window, agreed: Sequence[str]) -> Group:
    """State of approval, room for name, date and signature, and the cautions."""
    k, text = page.k, page.text(2.5)
    items: list[Entity] = titled(page, "Your approval", box)
    top = box.top - 9 * k
    for i, said in enumerate(agreed):
        lines = wrap(said, box.width, text, bold=i == 0)
        items += texts(lines, box.left, top, text, bold=i == 0)
        top -= len(lines) * text * LEADING
    for caption in ("Name", "Date", "Signature"):
        top -= 10.5 * k
        items.append(line(box.left + 20 * k, top, box.right, top, FINE, Layer.NOTE))
        items.append(Label(caption, Point(box.left, top), text))
    small = page.text(2.5) * 0.72 if k > 0.99 else 1.5
    top -= 4 * k
    for said in (words.CONFIRM, words.CAUTIONS[0], *([words.DEMONSTRATION] if window.system.demonstration else [])):
        lines = wrap(said, box.width, small)
        items += texts(lines, box.left, top, small)
        top -= (len(lines) + 0.35) * small * LEADING
    return Group("approval", tuple(items), "your approval")

