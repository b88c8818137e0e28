"""The sill schedule: one row a sill, as it is cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.sill import cut_length, drip_clear, sill_ends, sill_notch, weeps
from elevations.geometry.window import Window
from elevations.schedules.cut_strips import SUB_SILL
from elevations.schedules.table import Column, Schedule, tidy
from elevations.spelling import counted


@dataclass(frozen=True, slots=True)
class SillRow:
    """One sill; lengths to 0.1 mm."""

    tag: str
    """'W1-sub-sill': 'W1-sill' is the frame's own bottom member."""
    mark: str
    length_mm: float
    """Cut length, horns included; the longest edge where an end is mitred."""
    projection_mm: float
    """Before the frame's outer face."""
    height_mm: float
    horns_mm: float
    """On each side that does not meet another window's sill."""
    left_end: str
    right_end: str
    """'horn 30, end cap', 'to the middle of C1, square'."""
    notch: str
    """'30 × 170': what is cut off each back corner, along the sill and across it from the frame's inner face; empty for none."""
    upstand_mm: float
    end_caps: int
    drip_clear_mm: float | None
    """Before the wall's finished face; None where the job does not describe the wall."""
    weeps_mm: tuple[str, ...]
    """From the left end, to whole mm."""
    finish_outside: str


def sill_rows(window: Window) -> Iterator[SillRow]:
    """The one row of a window with a sill."""
    site = window.site
    if site is None or site.sill is None:
        return
    sill, length = site.sill, cut_length(window)
    clear, ends, notch = drip_clear(site), sill_ends(window), sill_notch(window)
    yield SillRow(
        tag=f"{window.mark}-{SUB_SILL}", mark=window.mark, length_mm=tidy(length, 1), projection_mm=tidy(sill.projection, 1),
        height_mm=tidy(sill.height, 1), horns_mm=tidy(sill.horns, 1), left_end=ends[0].words(caps=sill.end_caps), right_end=ends[1].words(caps=sill.end_caps),
        notch=f"{tidy(notch.length, 1):g} × {tidy(notch.depth, 1):g}" if notch else "", upstand_mm=tidy(sill.upstand, 1), end_caps=sum(end.free for end in ends) if sill.end_caps else 0,
        drip_clear_mm=None if clear is None else tidy(clear, 1), weeps_mm=tuple(f"{at:.0f}" for at in weeps(length, window.system.weeps)),
        finish_outside=window.finish.outside,
    )


def totals(rows: Sequence[SillRow]) -> list[str]:
    """How many sills, how long together, how many end caps."""
    if not rows:
        return []
    metres = sum(row.length_mm for row in rows) / 1000
    return [f"{counted(len(rows), 'sill')}, {metres:.2f} m together, {sum(row.end_caps for row in rows)} end caps"]


SILLS = Schedule(
    key="sills",
    title="Sills",
    columns=(
        Column("tag", "tag", text=True),
        Column("mark", text=True),
        Column("length_mm", "cut mm"),
        Column("projection_mm", "projection mm"),
        Column("height_mm", "height mm"),
        Column("horns_mm", "horns mm"),
        Column("left_end", "left end", text=True),
        Column("right_end", "right end", text=True),
        Column("notch", "notches, long × deep", text=True),
        Column("upstand_mm", "upstand mm"),
        Column("end_caps", "end caps"),
        Column("drip_clear_mm", "drip clear mm"),
        Column("weeps_mm", "weeps, from left", text=True),
        Column("finish_outside", "finish", text=True),
    ),
    rows=sill_rows,
    totals=totals,
)
