"""Every bar of a job, as rows and as pages: which pieces come out of it, to scale, and what is left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.cutting.job import BarSet
from elevations.cutting.picture import bar_picture, bars_that_fit
from elevations.drawing.entities import Group, Label
from elevations.drawing.lettering import wrap
from elevations.geometry.window import Window
from elevations.plane import Point
from elevations.schedules.cutting_row import ENDS_WORDS
from elevations.schedules.table import Column, Schedule, tidy
from elevations.sheets.page import BODY, Page

TITLE = "Bars to cut"
BETWEEN = 5.0
"""Between two profiles on one page, mm."""
LEGEND_TEXT, LEGEND_LINE, AFTER_LEGEND = 2.5, 1.4, 3.0
"""Text that says how to read the bars, its lines in text heights, and the room below it on the first page, mm."""


@dataclass(frozen=True, slots=True)
class BarRow:
    """One bar or off-cut and what is cut from it."""

    profile: str
    system: str
    finish_outside: str
    finish_inside: str
    bar: int
    """From 1 within its profile and finish."""
    stock_mm: float
    off_cut: str
    """yes where it comes out of the rack."""
    pieces: tuple[str, ...]
    """'2418 W4-head 45/45', '1731 W5-head to bend 90/90', in the order of the saw."""
    pieces_mm: float
    kerf_mm: float
    trims_mm: float
    rest_mm: float
    kept: str
    """yes where the rest goes back into the rack."""
    saw: str = ""
    """What each saw cut and each end trim was taken to be, and what of it is assumed."""


def bar_rows(sets: Sequence[BarSet]) -> Iterator[BarRow]:
    """One row a bar; pieces + kerf + trims + rest = stock."""
    for bars in sets:
        for number, bar in enumerate(bars.plan.bars, 1):
            cuts = bars.ends[number - 1] if bars.ends else ("",) * len(bar.pieces_mm)
            names = [
                " ".join(filter(None, words)) for words in zip(bars.pieces[number - 1], bars.forms_of(number - 1), cuts, strict=True)
            ]
            yield BarRow(
                profile=bars.profile,
                system=bars.system,
                finish_outside=bars.finish_outside,
                finish_inside=bars.finish_inside,
                bar=number,
                stock_mm=tidy(bar.stock_mm, 1),
                off_cut="yes" if bar.off_cut else "no",
                pieces=tuple(f"{tidy(piece, 1)} {name}" for piece, name in zip(bar.pieces_mm, names, strict=True)),
                pieces_mm=tidy(sum(bar.pieces_mm), 1),
                kerf_mm=tidy(bar.kerf_mm, 1),
                trims_mm=tidy(bar.trims_mm, 1),
                rest_mm=tidy(bar.rest_mm, 1),
                kept="yes" if bar.kept else "no",
                saw=bars.plan.stock.saw_words,
            )


def saw_notes(sets: Sequence[BarSet]) -> list[str]:
    """What a command says where the plans hang on figures of the saw that nobody gave, or count none."""
    doubtful = [bars.plan.stock for bars in sets if {*bars.plan.stock.assumed} - {"grip"} or not bars.plan.stock.kerf_mm]
    bent = [bars.plan.stock for bars in sets if bars.bends and ("grip" in bars.plan.stock.assumed or not bars.plan.stock.grip_mm)]
    said = [*(f"note: bars are planned with {stock.saw_words}" for stock in doubtful), *(f"note: {stock.bend_words}" for stock in bent)]
    return list(dict.fromkeys(said))


def _of_a_window(window: Window) -> Iterator[BarRow]:
    raise TypeError(f"bars are planned for a whole job, not for {window.mark} alone")


def totals(rows: Sequence[BarRow]) -> list[str]:
    """Bars, length and waste of all profiles together."""
    new, stock = sum(row.off_cut == "no" for row in rows), sum(row.stock_mm for row in rows)
    kept = sum(row.rest_mm for row in rows if row.kept == "yes")
    waste = stock - kept - sum(row.pieces_mm for row in rows)
    said = f"{new} new bars, {len(rows) - new} off-cuts, {stock / 1000:.2f} m in all: waste {waste / 1000:.2f} m ({100 * waste / stock:.1f} %)"
    return [said + (f", {kept / 1000:.2f} m kept" if kept else "")] if rows else []


BARS = Schedule(
    key="bars",
    title="Bars",
    columns=(
        Column("profile", "profile", text=True),
        Column("system", "system", text=True),
        Column("finish_outside", "outside", text=True),
        Column("finish_inside", "inside", text=True),
        Column("bar", "bar"),
        Column("stock_mm", "bar length mm"),
        Column("off_cut", "off-cut", text=True),
        Column("pieces", "pieces", text=True),
        Column("pieces_mm", "pieces mm", decimals=1),
        Column("kerf_mm", "kerf mm", decimals=1),
        Column("trims_mm", "trims mm", decimals=1),
        Column("rest_mm", "rest mm", decimals=1),
        Column("kept", "kept", text=True),
        Column("saw", "saw", text=True),
    ),
    rows=_of_a_window,
    totals=totals,
)


def bar_pages(sets: Sequence[BarSet]) -> list[Page]:
    """The bars of all profiles, one profile after the other; a profile that does not fit its page goes on on the next."""
    legend, top = _legend(sets) if sets else ([], BODY.top)
    filled: list[list[Group]] = [legend]
    for number, bars in enumerate(sets, 1):
        first, count = 0, len(bars.plan.bars)
        while first < count:
            room = bars_that_fit(top - BODY.bottom)
            if room < min(2, count - first) and filled[-1]:
                filled.append([])
                top = BODY.top
                continue
            taken = max(1, min(room, count - first))
            picture = bar_picture(
                bars, left=BODY.left, top=top, width=BODY.width, prefix=f"bars-{number}-{first}", first=first, count=taken
            )
            filled[-1] += picture.groups
            first, top = first + taken, picture.bottom - BETWEEN
    total = sum(len(bars.plan.bars) for bars in sets)
    pages = [groups for groups in filled if groups]
    return [_page(groups, number, len(pages), total) for number, groups in enumerate(pages, 1)]


def _legend(sets: Sequence[BarSet]) -> tuple[list[Group], float]:
    """How to read the bars and what the saw was taken to take, bold, since bars packed full hang on it; and where it ends, mm."""
    text = (
        "Each bar is cut from its left end: trim (dark), the pieces in their order with a saw cut after each, what is left (hatched). "
        f"Ends: {ENDS_WORDS}."
    )
    said = dict.fromkeys(bars.plan.stock.saw_words for bars in sets) | dict.fromkeys(bars.plan.stock.bend_words for bars in sets if bars.bends)
    saws = [f"{words[0].upper()}{words[1:]}." for words in said]
    if any(form for bars in sets for bar in bars.forms for form in bar):
        text += " Shaded: to be bent, or an end of more than one straight cut; the cutting list says how."
    lines = [(line, False) for line in wrap(text, BODY.width, LEGEND_TEXT)]
    lines += [(line, True) for saw in saws for line in wrap(saw, BODY.width, LEGEND_TEXT, bold=True)]
    labels = [
        Label(line, Point(BODY.left, BODY.top - LEGEND_TEXT * (1 + LEGEND_LINE * number)), LEGEND_TEXT, bold=bold)
        for number, (line, bold) in enumerate(lines)
    ]
    return [Group("bars-legend", tuple(labels), "how to read the bars")], BODY.top - LEGEND_TEXT * LEGEND_LINE * len(lines) - AFTER_LEGEND


def _page(groups: Sequence[Group], number: int, count: int, bars: int) -> Page:
    title = f"{TITLE} ({number} of {count})" if count > 1 else TITLE
    return Page(title, f"{title}: {bars} bars and off-cuts in all, each with its pieces to scale.", tuple(groups))
