"""Sheets as PDF, a page each: exact paper size, arcs as Bezier curves, text as text in an embedded font.

Needs reportlab. Lines go into the page as PDF operators of our own writing, which costs a fraction of reportlab's
path objects; pages, fonts and the file are reportlab's.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase.pdfmetrics import registerFont
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from elevations.drawing import explode
from elevations.drawing.entities import Dimension, Entity, Fill, Label, Leader, Sheet, Stroke, Symbol
from elevations.drawing.layers import LAYERS
from elevations.drawing.lettering import font_size
from elevations.drawing.symbols import SYMBOLS
from elevations.export.marker import MARKER, ROOM, printable
from elevations.plane import Corner, Outline, Point, arc_centre, arc_radius

rl_config.useA85 = 0   # compressed pages as bytes: as text they are a quarter larger and take a third of the time

POINTS_A_MM = 72 / 25.4
"""PDF's own unit is 1/72 inch (ISO 32000-1, 8.3.2.3; from memory)."""
DASHES = {"solid": "[] 0 d", "dashed": "[3 1.5] 0 d", "chain": "[6 1 0.6 1] 0 d"}
"""Line types as lengths of dash and gap on paper, mm."""
FONTS = Path(__file__).parent / "fonts"
REGULAR, BOLD = "DejaVuSans", "DejaVuSans-Bold"
CREDIT = b"ReportLab Generated PDF document (opensource)"
"""The comment at the top of reportlab's files; the marker takes its place, padded to its length, so no offset moves."""
QUARTER = math.pi / 2
Curve = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


def write_pdf(sheets: Iterable[Sheet]) -> bytes:
    """The whole file, a page for each sheet, each with a bookmark of its title. The same sheets give the same bytes.

    Raises ValueError where there is no sheet.
    """
    out = io.BytesIO()
    fonts = {False: _font(REGULAR), True: _font(BOLD)}
    canvas = Canvas(out, invariant=1, pageCompression=1, lang="en", initialFontName=REGULAR)
    canvas.setCreator("elevations")
    canvas.setAuthor("")
    canvas.setKeywords(ROOM)
    number = 0
    for number, sheet in enumerate(sheets, 1):
        if number == 1:
            canvas.setTitle(printable(sheet.title))
            canvas.setSubject(printable(sheet.description))
        _page(canvas, sheet, number, fonts)
    if not number:
        raise ValueError("a PDF needs at least one sheet")
    canvas.save()
    data = out.getvalue()
    start, found, rest = data.partition(CREDIT)
    assert found, "reportlab's comment is where the marker goes"
    return start + MARKER.encode().ljust(len(CREDIT)) + rest


@lru_cache(maxsize=2)
def _font(name: str) -> Any:
    """The shipped font; it keeps the state of every open document by itself."""
    font = TTFont(name, str(FONTS / f"{name}.ttf"))
    registerFont(font)   # so that pages can start in it, and reportlab need not name a font that is not in the file
    return font


def _page(canvas: Any, sheet: Sheet, number: int, fonts: dict[bool, Any]) -> None:
    canvas.setPageSize((sheet.width * POINTS_A_MM, sheet.height * POINTS_A_MM))
    canvas.bookmarkPage(str(number))
    canvas.addOutlineEntry(printable(sheet.title), str(number))
    ink = _Ink(canvas, fonts)
    unit = f"{POINTS_A_MM:.9f}"
    ink.say(f"{unit} 0 0 {unit} 0 0 cm 1 J 1 j")
    for placed in sheet.placed:
        pen = _Pen(ink, placed.at, placed.scale)
        for group in placed.view.groups:
            for item in group.items:
                pen.draw(item)
    pen = _Pen(ink, Point(0.0, 0.0), 1.0)
    for group in sheet.groups:
        for item in group.items:
            pen.draw(item)
    canvas.addLiteral("\n".join(ink.said))
    canvas.showPage()


@dataclass(slots=True)
class _Ink:
    """What is written on one page, and the settings that hold at its end, so that none is said twice."""

    canvas: Any
    fonts: dict[bool, Any]
    said: list[str] = field(default_factory=list)
    settings: dict[str, str] = field(default_factory=dict)

    def say(self, operators: str) -> None:
        self.said.append(operators)

    def set(self, kind: str, operators: str) -> None:
        """Say a setting unless it holds already."""
        if self.settings.get(kind) != operators:
            self.settings[kind] = operators
            self.said.append(operators)

    def text(self, text: str, x: float, y: float, label: Label) -> None:
        """A line of text with its baseline through x, y, mm on the paper."""
        font, size = self.fonts[label.bold], font_size(label.height)
        if label.align != "left":
            back = font.stringWidth(text, size) * (0.5 if label.align == "centre" else 1.0)
            x, y = (x, y - back) if label.angle else (x - back, y)
        turn = "0 1 -1 0" if label.angle else "1 0 0 1"
        self.set("fill", f"{_colour(LAYERS[label.layer].colour)} rg")
        parts = [f"BT {turn} {_number(x)} {_number(y)} Tm"]
        document = self.canvas._doc  # noqa: SLF001 - a TrueType font is cut to the characters of a document
        for subset, codes in font.splitString(text, document):
            inside = font.getSubsetInternalName(subset, document)
            parts.append(f"{inside} {_number(size)} Tf <{codes.hex()}> Tj")
        self.said.append(" ".join([*parts, "ET"]))


@dataclass(frozen=True, slots=True)
class _Pen:
    """Draws entities of one view: knows where its coordinates lie on the paper."""

    ink: _Ink
    at: Point
    scale: float

    def draw(self, item: Entity) -> None:
        """Put one entity on the page."""
        match item:
            case Stroke():
                self._lines((item,))
            case Fill():
                self._fill(item)
            case Label():
                place = explode.baseline(item, self.scale)
                self.ink.text(printable(item.text), self.at.x + place.x / self.scale, self.at.y + place.y / self.scale, item)
            case Dimension():
                self._dimension(item)
            case Leader():
                for part in explode.explode_leader(item, self.scale):
                    self.draw(part)
            case Symbol():
                self._symbol(item)

    def _lines(self, strokes: Sequence[Stroke]) -> None:
        """Strokes that look like the first of them, as one path."""
        first = strokes[0]
        style = LAYERS[first.layer]
        weight = style.weight if first.weight is None else first.weight
        self.ink.set("stroke", f"{_colour(style.colour)} RG")
        self.ink.set("width", f"{_number(weight)} w")
        self.ink.set("dash", DASHES[first.line or style.line])
        self.ink.say(" ".join([*(self._track(s.corners, closed=s.closed) for s in strokes), "S"]))

    def _fill(self, fill: Fill) -> None:
        self.ink.set("fill", f"{_colour(fill.tone)} rg")
        outlines: tuple[Outline, ...] = (fill.outline, *fill.holes)
        self.ink.say(" ".join([*(self._track(outline.corners, closed=True) for outline in outlines), "f*"]))

    def _dimension(self, dim: Dimension) -> None:
        lines, leader = explode.dimension_lines(dim, self.scale), explode.dimension_leader(dim, self.scale)
        self._lines((*lines, leader) if leader else lines)
        self._lines(explode.dimension_ticks(dim, self.scale))
        self.draw(explode.dimension_label(dim, self.scale))

    def _symbol(self, symbol: Symbol) -> None:
        x, y = self.at.x + symbol.at.x / self.scale, self.at.y + symbol.at.y / self.scale
        cos, sin = math.cos(math.radians(symbol.angle)), math.sin(math.radians(symbol.angle))
        self.ink.say(f"q {_number(cos)} {_number(sin)} {_number(-sin)} {_number(cos)} {_number(x)} {_number(y)} cm")
        own, kept = _Pen(self.ink, Point(0.0, 0.0), 1.0), dict(self.ink.settings)
        colour = LAYERS[symbol.layer].colour
        for part in SYMBOLS[symbol.name]:
            own.draw(replace(part, tone=colour) if isinstance(part, Fill) else replace(part, layer=symbol.layer))
        self.ink.say("Q")
        self.ink.settings = kept

    def _track(self, corners: Sequence[Corner], *, closed: bool) -> str:
        """Path operators: straight edges, and arcs as curves of at most a quarter turn each."""
        dx, dy, scale = self.at.x, self.at.y, self.scale
        start = corners[0]
        parts = [f"{dx + start.x / scale:.3f} {dy + start.y / scale:.3f} m"]
        ends = (*corners[1:], start) if closed else corners[1:]
        for a, b in zip(corners, ends, strict=False):
            if a.bulge:
                parts += [
                    " ".join([f"{dx + x / scale:.3f} {dy + y / scale:.3f}" for x, y in curve]) + " c" for curve in curves(a, b)
                ]
            elif b is not start:
                parts.append(f"{dx + b.x / scale:.3f} {dy + b.y / scale:.3f} l")
        if closed:
            parts.append("h")
        return " ".join(parts)


def curves(a: Corner, b: Corner) -> list[Curve]:
    """An arc as Bezier curves: two control points and the end of each.

    A curve of at most a quarter turn strays from the circle by less than 0.03 % of its radius.
    """
    centre, radius, sweep = arc_centre(a, b), arc_radius(a, b), 4 * math.atan(a.bulge)
    count = max(1, math.ceil(abs(sweep) / QUARTER - 1e-9))
    step = sweep / count
    reach = 4 / 3 * math.tan(step / 4) * radius
    angle = math.atan2(a.y - centre.y, a.x - centre.x)
    found: list[Curve] = []
    for _ in range(count):
        after = angle + step
        x, y = centre.x + radius * math.cos(angle), centre.y + radius * math.sin(angle)
        end = centre.x + radius * math.cos(after), centre.y + radius * math.sin(after)
        found.append((
            (x - reach * math.sin(angle), y + reach * math.cos(angle)),
            (end[0] + reach * math.sin(after), end[1] - reach * math.cos(after)),
            end,
        ))
        angle = after
    found[-1] = (found[-1][0], found[-1][1], (b.x, b.y))
    return found


@lru_cache(maxsize=64)
def _colour(tone: str) -> str:
    """'#rrggbb' as PDF's three shares."""
    return " ".join(_number(int(tone[i : i + 2], 16) / 255) for i in (1, 3, 5))


def _number(value: float) -> str:
    """To a ten-thousandth, without trailing zeros or a negative zero."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
