"""The glass schedule: one row a pane, as it is ordered."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.window import Pane, Window, whole_mm
from elevations.schedules.glazing_bars import pattern_words, small_pane_sizes
from elevations.schedules.table import Column, Schedule, tidy
from elevations.spelling import counted


@dataclass(frozen=True, slots=True)
class GlassRow:
    """One pane. Sizes are cut sizes, rounded down to whole mm; width is across, height is up, seen from outside."""

    tag: str
    mark: str
    light: int
    glass: str
    make_up: str
    width_mm: int
    height_mm: int
    sight_width_mm: float
    sight_height_mm: float
    thickness_mm: float
    area_m2: float
    """Of the outline as it is cut, so of the printed size where that is a rectangle; to 0.001."""
    mass_kg: float
    """Of the glass alone, to 0.1."""
    shaped: bool
    """True where the pane is no rectangle: width and height are then those of the rectangle round it."""
    toughened: tuple[str, ...]
    laminated: tuple[str, ...]
    obscure: str | None
    glazing_bars: str
    """'on both faces, 24 wide; 6 small panes, each 195 × 268.7 visible'; empty where it has none."""
    small_panes: tuple[str, ...]
    """'195 × 268.7': visible size of each small pane between its glazing bars."""

    @property
    def notes(self) -> str:
        """What the glass is besides its make-up: 'toughened outer, inner; obscure outer'."""
        bars = [f"glazing bars {self.glazing_bars}"] if self.glazing_bars else []
        said = [f"{word} {', '.join(panes)}" for word, panes in (("toughened", self.toughened), ("laminated", self.laminated)) if panes]
        shape = [f"shaped, cut to template {self.tag}"] if self.shaped else []
        return "; ".join([*shape, *said, *([f"obscure {self.obscure}"] if self.obscure else []), *bars])


def glass_rows(window: Window) -> Iterator[GlassRow]:
    """One row a pane, in the order of their tags."""
    for pane in window.panes:
        yield _row(window.mark, pane)


def _row(mark: str, pane: Pane) -> GlassRow:
    made = pane.make_up
    return GlassRow(
        tag=f"{mark}-{pane.tag}",
        mark=mark,
        light=pane.light,
        glass=pane.glass,
        make_up=made.make_up,
        width_mm=whole_mm(pane.width.value),
        height_mm=whole_mm(pane.height.value),
        sight_width_mm=tidy(pane.sight.width.value, 1),
        sight_height_mm=tidy(pane.sight.height.value, 1),
        thickness_mm=tidy(made.thickness, 1),
        area_m2=tidy(pane.area_m2, 3),
        mass_kg=tidy(pane.mass_kg, 1),
        shaped=pane.shaped,
        toughened=made.toughened,
        laminated=made.laminated,
        obscure=made.obscure,
        glazing_bars=pattern_words(pane),
        small_panes=small_pane_sizes(pane),
    )


def totals(rows: Sequence[GlassRow]) -> list[str]:
    """Count, area and mass of each make-up and of all, added up from the rows as shown, so that the columns agree."""
    groups: dict[tuple[str, str], list[GlassRow]] = {}
    for row in rows:
        groups.setdefault((row.glass, row.make_up), []).append(row)
    lines = [_sum(f"{glass} ({make_up})", group) for (glass, make_up), group in groups.items()]
    return lines if len(groups) == 1 else [*lines, _sum("all", rows)]


def _sum(name: str, rows: Sequence[GlassRow]) -> str:
    area, mass = sum(row.area_m2 for row in rows), sum(row.mass_kg for row in rows)
    return f"{name}: {counted(len(rows), 'pane')}, {area:.3f} m2, {mass:.1f} kg"


GLASS = Schedule(
    key="glass",
    title="Glass",
    columns=(
        Column("tag", "tag", text=True),
        Column("mark", text=True),
        Column("light", "light"),
        Column("glass", "glass", text=True),
        Column("make_up", "make-up", text=True),
        Column("width_mm", "width mm"),
        Column("height_mm", "height mm"),
        Column("sight_width_mm"),
        Column("sight_height_mm"),
        Column("thickness_mm", "thick mm"),
        Column("area_m2", "area m2", decimals=3),
        Column("mass_kg", "mass kg", decimals=1),
        Column("shaped", text=True),
        Column("toughened", text=True),
        Column("laminated", text=True),
        Column("obscure", text=True),
        Column("glazing_bars", text=True),
        Column("small_panes", text=True),
        Column("notes", "notes", text=True, data=False),
    ),
    rows=glass_rows,
    totals=totals,
)
