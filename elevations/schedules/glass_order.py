"""The glass order: equal units of a job in one row, with all that whoever makes them has to know."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from elevations.geometry.window import Pane, Window
from elevations.schedules.glass import GlassRow, glass_rows
from elevations.schedules.glazing_bars import in_unit_words
from elevations.schedules.lifting import NOTE, lift_words, people_to_lift
from elevations.schedules.table import Column, Schedule, tidy
from elevations.spec.glass import PANES_NAMED
from elevations.spec.model import Glass
from elevations.spec.workshop import UnitTolerance
from elevations.spelling import counted

LEAST_COVER_MM = 12.0
"""Edge cover of a sealed unit: a glass supplier's figure, read; BS 6262 from memory."""

TOLERANCE = "Tolerances of size and thickness: agree them with your supplier (EN 1279-1; its figures were not seen)."
MARKING = (
    "Safety glass carries a permanent mark that can be seen after glazing: maker, standard, impact class (NHBC Standards "
    "6.7.5). Where safety glass is needed, and of which class, local codes and a licensed practice decide."
)
def notes(agreed: UnitTolerance | None) -> tuple[str, ...]:
    """What belongs on every order; `agreed`: tolerances that the job gives."""
    sizes = "Sizes are cut sizes in mm, width by height, seen from outside; panes and faces are counted from outside."
    return sizes, tolerance_words(agreed), MARKING, NOTE


def tolerance_words(agreed: UnitTolerance | None) -> str:
    """What holds of tolerances, or that they are to be agreed."""
    if agreed is None:
        return TOLERANCE
    thickness = f", thickness ± {agreed.thickness:g} mm" if agreed.thickness is not None else ""
    return f"Tolerances agreed for this job: width and height ± {agreed.size:g} mm{thickness}."


@dataclass(frozen=True, slots=True)
class GlassOrderRow:
    """Equal units. Sizes are cut sizes, rounded down to whole mm; width is across, height is up, seen from outside."""

    glass: str
    make_up: str
    width_mm: int
    height_mm: int
    quantity: int
    shape: str
    """Empty for a rectangle; otherwise where its template is."""
    thickness_mm: float
    area_each_m2: float
    area_m2: float
    mass_each_kg: float
    mass_kg: float
    """Of the glass alone."""
    gas: str
    spacer: str
    coating: str
    """'low-E on face 3 (inner pane, to the cavity)'."""
    special: str
    """'toughened outer and inner, marked; obscure outer'."""
    facing: str
    """Which way round the unit goes, where it matters."""
    edge_clearance_mm: float
    """Between the unit's edge and the rebate platform."""
    edge_cover_mm: float
    """How far its edge is covered, at the least."""
    people: int
    """To lift one: 1, 2, or 3 for more than two or lifting gear."""
    tags: tuple[str, ...]
    """'W1-G1', 'W2-G3' …: where they go."""

    @property
    def unit(self) -> str:
        """All that units of one kind have in common."""
        built = (self.make_up, f"{self.thickness_mm:g} thick", self.gas, f"{self.spacer} spacer" if self.spacer else "", self.coating)
        said = (", ".join(part for part in built if part), self.special, self.facing)
        return f"{self.glass}: {'; '.join(part for part in said if part)}"

    @property
    def notes(self) -> str:
        """What is special about this size."""
        cover = f"edge cover only {self.edge_cover_mm:g}" if self.edge_cover_mm < LEAST_COVER_MM else ""
        lift = f"to lift: {lift_words(self.people)}" if self.people > 1 else ""
        return "; ".join(part for part in (self.shape, lift, cover) if part)


def order_rows(window: Window) -> Iterator[GlassOrderRow]:
    """One row for each kind of unit in a window."""
    rows = [_row(window, pane, row) for pane, row in zip(window.panes, glass_rows(window), strict=True)]
    yield from joined(rows)


def joined(rows: Sequence[GlassOrderRow]) -> list[GlassOrderRow]:
    """Equal units made one row; by glass in the order it first comes up, then the largest first."""
    groups: dict[GlassOrderRow, list[GlassOrderRow]] = {}
    for row in rows:
        groups.setdefault(replace(row, quantity=0, area_m2=0.0, mass_kg=0.0, tags=()), []).append(row)
    names = list(dict.fromkeys((row.glass, row.make_up) for row in rows))
    made = [_together(group) for group in groups.values()]
    return sorted(made, key=lambda row: (names.index((row.glass, row.make_up)), -row.area_each_m2, row.width_mm, row.tags))


def _together(group: Sequence[GlassOrderRow]) -> GlassOrderRow:
    first, quantity = group[0], sum(row.quantity for row in group)
    return replace(
        first,
        quantity=quantity,
        area_m2=tidy(quantity * first.area_each_m2, 3),
        mass_kg=tidy(quantity * first.mass_each_kg, 1),
        tags=tuple(tag for row in group for tag in row.tags),
    )


def _row(window: Window, pane: Pane, row: GlassRow) -> GlassOrderRow:
    made = pane.make_up
    return GlassOrderRow(
        glass=row.glass,
        make_up=row.make_up,
        width_mm=row.width_mm,
        height_mm=row.height_mm,
        quantity=1,
        shape=f"shaped: template {row.tag}" if pane.shaped else "",
        thickness_mm=row.thickness_mm,
        area_each_m2=row.area_m2,
        area_m2=row.area_m2,
        mass_each_kg=row.mass_kg,
        mass_kg=row.mass_kg,
        gas=made.gas,
        spacer=made.spacer,
        coating=coating_words(made),
        special="; ".join(said for said in (special_words(made), in_unit_words(pane)) if said),
        facing=facing_words(made),
        edge_clearance_mm=tidy(window.system.edge_clearance, 1),
        edge_cover_mm=tidy(edge_cover_mm(window, pane), 1),
        people=people_to_lift(pane.mass_kg),
        tags=(row.tag,),
    )


def edge_cover_mm(window: Window, pane: Pane) -> float:
    """How far the pane's edge is covered by bead and rebate, at its least covered side."""
    figures = [window.system.profiles[side.profile] for side in pane.cut.sides]
    return min(profile.sight - profile.rebate for profile in figures) - window.system.edge_clearance


def coating_words(glass: Glass) -> str:
    """'low-E on face 3 (inner pane, to the cavity)', several parted by commas; empty without a coating."""
    panes = PANES_NAMED[(len(glass.layers) + 1) // 2]
    said = []
    for coating in glass.coatings:
        face = coating.face
        towards = "to the outside" if face == 1 else "to the room" if face == 2 * len(panes) else "to the cavity"
        said.append(f"low-E on face {face} ({panes[(face - 1) // 2]} pane, {towards})")
    return ", ".join(said)


def special_words(glass: Glass) -> str:
    """What is to be done to which pane: 'toughened outer and inner, marked; obscure outer'."""
    marked = "marked" + (f" with impact class {glass.impact_class}" if glass.impact_class else "")
    said = [
        f"{word} {' and '.join(panes)}, {marked}"
        for word, panes in (("toughened", glass.toughened), ("laminated", glass.laminated)) if panes
    ]
    return "; ".join([*said, *([f"obscure {glass.obscure}"] if glass.obscure else [])])


def facing_words(glass: Glass) -> str:
    """Which way round a unit goes in, where its two sides differ."""
    if glass.obscure:
        return f"obscure pane to the {'outside' if glass.obscure == 'outer' else 'room'}"
    panes = PANES_NAMED[(len(glass.layers) + 1) // 2]
    treated = [frozenset(panes) & frozenset(part) for part in (glass.toughened, glass.laminated)]
    lopsided = glass.layers != glass.layers[::-1] or any((panes[0] in part) != (panes[-1] in part) for part in treated)
    if lopsided or (glass.coatings and len(panes) > 1):
        return f"mark the {panes[0]} pane: it goes to the outside"
    return ""


def totals(rows: Sequence[GlassOrderRow]) -> list[str]:
    """Count, area and mass of each make-up and of all, added up from the rows as shown; and what two people lift."""
    groups: dict[tuple[str, str], list[GlassOrderRow]] = {}
    for row in rows:
        groups.setdefault((row.glass, row.make_up), []).append(row)
    lines = [_sum(f"{glass} ({make_up})", group) for (glass, make_up), group in groups.items()]
    lines += [] if len(groups) == 1 else [_sum("all", rows)]
    heavy = sum(row.quantity for row in rows if row.people > 1)
    return [*lines, f"{counted(heavy, 'unit')} for more than one person to lift"] if heavy else lines


def _sum(name: str, rows: Sequence[GlassOrderRow]) -> str:
    count, area, mass = (sum(getattr(row, key) for row in rows) for key in ("quantity", "area_m2", "mass_kg"))
    return f"{name}: {counted(count, 'unit')}, {area:.3f} m2, {mass:.1f} kg"


GLASS_ORDER = Schedule(
    key="glass-order",
    title="Glass order",
    columns=(
        Column("glass", "glass", text=True),
        Column("make_up", "make-up", text=True),
        Column("thickness_mm"),
        Column("gas", text=True),
        Column("spacer", text=True),
        Column("coating", text=True),
        Column("width_mm", "width mm"),
        Column("height_mm", "height mm"),
        Column("quantity", "number"),
        Column("area_each_m2", "m2 each", decimals=3),
        Column("area_m2", "m2 all", decimals=3),
        Column("mass_each_kg", "kg each", decimals=1),
        Column("mass_kg", "kg all", decimals=1),
        Column("people"),
        Column("special", "special", text=True),
        Column("facing", "way round", text=True),
        Column("shape", text=True),
        Column("edge_clearance_mm"),
        Column("edge_cover_mm"),
        Column("notes", "notes", text=True, data=False),
        Column("tags", "for", text=True),
    ),
    rows=order_rows,
    totals=totals,
    joined=joined,
)
