"""Hardware of each sash, chosen from the system's limits by its size and its mass; what fits no limit is a finding."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from elevations.catalogue.hardware import LARGEST_SASH_MM, HardwareItem
from elevations.errors import Finding
from elevations.geometry.hardware import chosen, fits, items_by_kind, measured, opening_sashes
from elevations.geometry.window import Window
from elevations.schedules.cut_strips import strip_findings
from elevations.schedules.table import Column, Schedule

NONE_FITS, NOT_CHOSEN = "none fits", "not chosen"
NONE_CARRIES = "hardware-none-carries"
"""Code of the finding for a kind that carries the sash, known by its greatest mass: a rule of the checks asks the same."""


@dataclass(frozen=True, slots=True)
class HardwareRow:
    """One item, for the sashes that get it."""

    kind: str
    """stay, hinge, handle, lock …"""
    item: str
    """What it is ordered by; 'none fits' where no item of this kind does, 'not chosen' where the system lists none at all."""
    title: str
    quantity: int
    each_sash: int
    limits: str
    """What the item serves: '300 to 700 wide, up to 26 kg'."""
    sashes: tuple[str, ...]
    """'W1-S1', each with its size and mass where nothing is chosen for it."""


def hardware_rows(window: Window) -> Iterator[HardwareRow]:
    """One row for each item that the window needs, one for each sash and kind that nothing fits, and one for each sash that the system has nothing for."""
    rows = []
    for light, sash in opening_sashes(window):
        seen = measured(window, light, sash)
        if not (items_by_kind(window, light) or sash.leaf.fixed):
            why = f"lists none for a {light.opening} light" if window.system.hardware else "gives no hardware"
            rows.append(HardwareRow("", NOT_CHOSEN, f"{window.system.name} {why}", 0, 0, "", (f"{seen.tag} ({seen.words})",)))
        for kind, fitting in chosen(window, light, sash, seen).items():
            if fitting is None:
                rows.append(HardwareRow(kind, NONE_FITS, "", 0, 0, "", (f"{seen.tag} ({seen.words})",)))
            else:
                count = fitting.quantity
                rows.append(HardwareRow(kind, fitting.item, fitting.title, count, count, limits_words(fitting), (seen.tag,)))
    yield from joined(rows)


def all_findings(window: Window) -> tuple[Finding, ...]:
    """What the window does not meet, in its wall, its fixings and drainage, in what carries its sashes and in the sizes that its system has: the count that every command tells."""
    return (*window.findings, *hardware_findings(window), *strip_findings(window))


def hardware_findings(window: Window) -> Iterator[Finding]:
    """Each sash and kind of hardware that none of the system's items fits; nothing where the system lists no hardware."""
    for light, sash in opening_sashes(window):
        seen, by_kind = measured(window, light, sash), items_by_kind(window, light)
        subject = f"{sash.tag}"
        if window.system.hardware and not by_kind:
            yield Finding(
                "no-hardware", window.mark, subject, f"{window.system.name} lists no hardware for a {light.opening} light",
                "add it to the system's 'hardware', or choose another opening", rule=f"{window.system.name}: hardware",
            )
        if window.system.hardware and light.spec.restrictor and "restrictor" not in by_kind:
            yield Finding(
                "no-restrictor", window.mark, subject, f"it asks for a restrictor, and {window.system.name} lists none for a {light.opening} light",
                "add one to the system's 'hardware'", rule=f"{window.system.name}: hardware",
            )
        for kind, items in by_kind.items():
            if not any(fits(item, seen) for item in items):
                yield Finding(
                    NONE_CARRIES if any(item.mass_kg is not None for item in items) else "hardware-none-fits", window.mark, subject,
                    f"no {kind} of {window.system.name} fits a {light.opening} sash of {seen.words}",
                    f"there {'is' if len(items) == 1 else 'are'} {'; '.join(f'{item.item}: {limits_words(item)}' for item in items)}",
                    rule=f"{window.system.name}: hardware",
                )


def limits_words(item: HardwareItem) -> str:
    """'300 to 700 wide, 250 to 1300 high, up to 26 kg'; 'any size' without limits."""
    said = [
        f"{low:g} to {high:g} {word}" for (low, high), word in ((item.width_mm, "wide"), (item.height_mm, "high"))
        if (low, high) != _ANY
    ]
    return ", ".join([*said, *([f"up to {item.mass_kg:g} kg"] if item.mass_kg is not None else [])]) or "any size"


_ANY = 0.0, LARGEST_SASH_MM


def joined(rows: Sequence[HardwareRow]) -> list[HardwareRow]:
    """One row an item, by kind and name; what fits nothing first."""
    groups: dict[HardwareRow, list[HardwareRow]] = {}
    for row in rows:
        groups.setdefault(replace(row, quantity=0, sashes=()), []).append(row)
    made = [
        replace(group[0], quantity=sum(row.quantity for row in group), sashes=tuple(tag for row in group for tag in row.sashes))
        for group in groups.values()
    ]
    return sorted(made, key=lambda row: (row.item not in (NONE_FITS, NOT_CHOSEN), row.kind, row.item))


def totals(rows: Sequence[HardwareRow]) -> list[str]:
    """How many of each kind, and for how many sashes there is none."""
    counts: dict[str, int] = {}
    for row in rows:
        counts[row.kind] = counts.get(row.kind, 0) + row.quantity
    said = [", ".join(f"{count} x {kind}" for kind, count in sorted(counts.items()) if count)]
    missing = sum(len(row.sashes) for row in rows if row.item == NONE_FITS)
    bare = sum(len(row.sashes) for row in rows if row.item == NOT_CHOSEN)
    return [
        *filter(None, said), *([f"{missing} x none fits: see the findings"] if missing else []),
        *([f"{bare} x not chosen: order by the size and mass of the sash"] if bare else []),
    ]


HARDWARE = Schedule(
    key="hardware",
    title="Hardware",
    columns=(
        Column("kind", "kind", text=True),
        Column("item", "item", text=True),
        Column("title", "what it is", text=True),
        Column("quantity", "number"),
        Column("each_sash", "a sash"),
        Column("limits", "for sashes", text=True),
        Column("sashes", "for", text=True),
    ),
    rows=hardware_rows,
    totals=totals,
    joined=joined,
)
