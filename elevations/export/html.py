"""The customer's pack as one HTML page: pictures inside it, nothing fetched, no script, right on a phone and on A4.

Whatever the job holds is escaped by Jinja; pictures are SVG elements of our own writing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined, Template
from markupsafe import Markup

from elevations.checks.said import ESTIMATES
from elevations.drawing.entities import Sheet
from elevations.export.marker import MARKER, printable
from elevations.export.svg import write_svg
from elevations.geometry.joined import Joined
from elevations.geometry.window import Window
from elevations.sheets import customer_choices, customer_words
from elevations.sheets.customer_pictures import ajar_pictures, job_pictures, set_picture, window_picture
from elevations.spec.model import JobInfo
from elevations.views.customer_joined import laid_flat
from elevations.views.customer_tones import finished

FOLDER = Path(__file__).parent / "pack"
WIDTH, PICTURE_HIGH, OVERVIEW_HIGH = 180.0, 92.0, 225.0
"""Room on an A4 page within margins of 15 mm: across, and what a window's picture and that of all windows may take, mm."""
PAIR, STACK = 88.0, 112.0
"""A picture up to PAIR wide has its other side beside it on paper; up to STACK, the words."""
PHONE, PHONE_TEXT = 96.0, 2.5
"""Width of the picture of all windows that phones show, and the height of its names, mm."""


@dataclass(frozen=True, slots=True)
class Standing:
    """How a window's approval stands, for the page."""

    words: str
    """'approved 2026-10-20 by A. Name (3f9a-1c2e)'."""
    fingerprint: str
    """Of the window as it now is, short."""
    approved: bool


@dataclass(frozen=True, slots=True)
class Picture:
    """An SVG element and its true width on paper."""

    svg: Markup
    width_mm: str


@dataclass(frozen=True, slots=True)
class Swatch:
    """A colour of a window."""

    where: str
    words: str
    tone: str


@dataclass(frozen=True, slots=True)
class Part:
    """Lights of a window that open alike."""

    numbers: str
    """'Parts 1 and 5'; empty where there is only one."""
    words: str
    pictures: tuple[Picture, ...]


@dataclass(frozen=True, slots=True)
class PackWindow:
    """One window as the page shows it."""

    id: str
    mark: str
    name: str
    size: str
    sill: str
    """Of its sill; empty where it has none."""
    scale: str
    paper: str
    """How its page is laid out on paper: pair, stack or wide."""
    sides: tuple[tuple[str, Picture], ...]
    parts: tuple[Part, ...]
    swatches: tuple[Swatch, ...]
    glass: tuple[str, ...]
    standing: Standing
    checked: tuple[str, ...]
    """How warm it is and what is to be settled; empty where nothing is known of that."""
    joined: str
    """To which windows it is joined; empty where it stands alone."""


@dataclass(frozen=True, slots=True)
class PackSet:
    """Joined windows as the page shows them together."""

    id: str
    name: str
    marks: str
    size: str
    words: str
    load: str
    scale: str
    sides: tuple[tuple[str, Picture], ...]


def write_pack(
    windows: Sequence[Window], info: JobInfo, standings: Mapping[str, Standing], fingerprint: str,
    checked: Mapping[str, Sequence[str]] | None = None, sets: Sequence[Joined] = (),
) -> str:
    """The whole page. `standings`: of each window by its mark; `fingerprint`: of all of them together, short.

    `checked`: by mark, what the checks have to say to the customer. `sets`: joined windows, which are shown together too.
    """
    told = checked or {}
    pages = [_window(window, number, standings[window.mark], told.get(window.mark, ())) for number, window in enumerate(windows, start=1)]
    together = {
        "wide": job_pictures(windows, WIDTH, OVERVIEW_HIGH, sets=sets),
        "narrow": job_pictures(windows, PHONE, 4 * OVERVIEW_HIGH, PHONE_TEXT, sets),
    }
    overview = [(kind, _picture(sheet, f"{kind}{number}-")) for kind, sheets in together.items() for number, sheet in enumerate(sheets, 1)]
    return _template().render(
        marker=MARKER,
        css=Markup((FOLDER / "page.css").read_text("utf-8")),  # noqa: S704 (our own file)
        info={name: printable(getattr(info, name)) for name in ("site", "client", "reference", "revision")},
        date=info.issued or info.surveyed,
        fingerprint=fingerprint,
        overview=overview,
        windows=pages,
        sets=[_set(joined, number) for number, joined in enumerate(sets, start=1)],
        choices=customer_choices.choices(windows),
        checked=any(told.values()),
        cautions=[customer_words.CONFIRM, *customer_words.CAUTIONS, *([ESTIMATES] if any(told.values()) else [])],
        demonstration=customer_words.DEMONSTRATION if any(window.system.demonstration for window in windows) else "",
        from_outside=customer_words.FROM_OUTSIDE,
        screen=customer_words.SCREEN,
    )


@lru_cache(maxsize=1)
def _template() -> Template:
    environment = Environment(
        loader=FileSystemLoader(FOLDER), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.filters["capfirst"] = lambda text: text[:1].upper() + text[1:]
    return environment.get_template("page.html.jinja")


def _picture(sheet: Sheet, prefix: str) -> Picture:
    return Picture(Markup(write_svg(sheet, id_prefix=prefix)), f"{sheet.width:.2f}")  # noqa: S704 (escaped by its writer)


def _window(window: Window, number: int, standing: Standing, checked: Sequence[str]) -> PackWindow:
    sheets = {side: window_picture(window, side, WIDTH, PICTURE_HIGH) for side in ("outside", "inside")}
    several = len(window.lights) > 1
    parts = []
    for words, lights in customer_words.grouped(window.lights):
        prefix = f"w{number}p{lights[0].number}"
        pictures = tuple(
            _picture(sheet, f"{prefix}a{i}-") for i, sheet in enumerate(ajar_pictures(lights[0], window), start=1)
        )
        parts.append(Part(customer_words.numbers(lights) if several else "", f"{words}.", pictures))
    return PackWindow(
        f"window-{number}", printable(window.mark), printable(customer_words.name_of(window)), customer_words.size_words(window),
        customer_words.sill_words(window), f"1:{sheets['outside'].scale:g}", _layout(sheets["outside"].width),
        tuple((side, _picture(sheet, f"w{number}{side[0]}-")) for side, sheet in sheets.items()),
        tuple(parts), _swatches(window),
        tuple(f"{parts}: {said[0].lower()}{said[1:]}." if parts else f"{said}." for parts, said in customer_words.glasses(window)),
        standing, tuple(checked), printable(customer_words.joined_words(window)),
    )


def _set(joined: Joined, number: int) -> PackSet:
    sheets = {side: set_picture(joined, side, WIDTH, PICTURE_HIGH) for side in ("outside", "inside")}
    flat = f", {customer_words.LAID_FLAT}" if joined.bay and laid_flat(joined) else ""
    return PackSet(
        f"set-{number}", printable(customer_words.name_of_set(joined)), printable(", ".join(window.mark for window in joined.windows)),
        customer_words.set_size_words(joined), f"{printable(customer_words.set_words(joined))}.", customer_words.load_words(joined),
        f"1:{sheets['outside'].scale:g}{flat}", tuple((side, _picture(sheet, f"s{number}{side[0]}-")) for side, sheet in sheets.items()),
    )


def _layout(width: float) -> str:
    return "pair" if width <= PAIR else "stack" if width <= STACK else "wide"


def _swatches(window: Window) -> tuple[Swatch, ...]:
    codes = (("Outside", window.finish.outside), ("Inside", window.finish.inside))
    return tuple(Swatch(where, printable(customer_words.finish_words(code)), finished(code).tone) for where, code in codes)
