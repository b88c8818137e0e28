"""The glazing bars schedule: every length of glazing bar with its place; and the pattern and its small panes in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.window import Pane, Window
from elevations.schedules.table import Column, Schedule, tidy
from elevations.spelling import counted

KIND_WORDS = {"on-face": "on both faces", "in-unit": "in the unit"}


@dataclass(frozen=True, slots=True)
class GlazingBarRow:
    """One glazing bar. Lengths to 0.1 mm; places from the frame's left or top outer edge, seen from outside."""

    tag: str
    mark: str
    light: int
    pane: str
    kind: str
    runs: str
    """upright, level or along the edge."""
    centre_mm: float | None
    """Of its centre line: from the left for upright bars, from the top for level ones; None for others."""
    width_mm: float
    depth_mm: float
    length_mm: float
    """Visible, over its longest points."""
    quantity: int
    """Two on the faces, one in the unit."""
    ends: str
    """square, cut to the sight line, mitred, or bent and mitred (its length then along its outer edge)."""


def glazing_bar_rows(window: Window) -> Iterator[GlazingBarRow]:
    """One row a bar, in the order of their tags."""
    for pane in window.panes:
        for bar in pane.bars:
            yield GlazingBarRow(
                tag=f"{window.mark}-{bar.tag}",
                mark=window.mark,
                light=bar.light,
                pane=f"{window.mark}-{bar.pane}",
                kind=bar.kind,
                runs="along the edge" if bar.centre is None else "upright" if bar.upright else "level",
                centre_mm=None if bar.centre is None else tidy(bar.centre.value, 1),
                width_mm=tidy(bar.width, 1),
                depth_mm=tidy(bar.depth, 1),
                length_mm=tidy(bar.length.value, 1),
                quantity=2 if bar.kind == "on-face" else 1,
                ends=bar.ends,
            )


MOST_SIZES = 3
"""Different sizes of small panes that are said in words; the glass schedule's data has them all."""


def pattern_words(pane: Pane) -> str:
    """'on both faces, 24 wide; 6 small panes, each 195 × 268.7 visible'; empty without bars."""
    if not pane.bars:
        return ""
    bar, sizes = pane.bars[0], small_pane_sizes(pane)
    number, kinds = len(sizes), dict.fromkeys(sizes)
    said = counted(number, "small pane")
    if len(kinds) == 1:
        said += f"{'' if number == 1 else ', each'} {sizes[0]} visible"
    elif len(kinds) <= MOST_SIZES:
        said += ", visible: " + ", ".join(f"{sizes.count(size)} of {size}" for size in kinds)
    else:
        said += f" of {len(kinds)} sizes"
    return f"{KIND_WORDS[bar.kind]}, {bar.width:g} wide; {said}"


def small_pane_sizes(pane: Pane) -> tuple[str, ...]:
    """'195 × 268.7' for each small pane, visible width by height; of a shaped one that of the rectangle round it."""
    boxes = [(outline.bounds, "" if outline.is_box else " shaped") for outline in pane.small_panes]
    return tuple(f"{tidy(box.width, 1):g} × {tidy(box.height, 1):g}{shaped}" for box, shaped in boxes)


def bar_places(pane: Pane, *, upright: bool) -> list[float]:
    """Centre lines of its upright bars from the left edge of its cut size, or of its level ones from the top, each place once.

    Bars that slope or bend have none. mm to 0.1.
    """
    box = pane.cut.outline.bounds
    middles = [bar.face.bounds.centre for bar in pane.bars if bar.upright == upright and bar.centre is not None]
    return sorted({tidy(at.x - box.left if upright else box.top - at.y, 1) for at in middles})


def in_unit_words(pane: Pane) -> str:
    """For whoever makes the unit: where the bars between its panes go, from the unit's own edges; empty where there are none."""
    bars = [bar for bar in pane.bars if bar.kind == "in-unit"]
    if not bars:
        return ""
    said = [f"glazing bars in the unit, {bars[0].width:g} wide"]
    for upright, edge in ((True, "left"), (False, "top")):
        places = bar_places(pane, upright=upright)
        if places:
            said.append(f"{'upright' if upright else 'level'} {', '.join(f'{at:g}' for at in places)} from its {edge}")
    if any(bar.centre is None for bar in bars):
        said.append("along its shaped edges: see the elevation")
    return "; ".join(said)


def totals(rows: Sequence[GlazingBarRow]) -> list[str]:
    """Number and length of each kind."""
    lines = []
    for kind in dict.fromkeys(row.kind for row in rows):
        own = [row for row in rows if row.kind == kind]
        metres = sum(row.quantity * row.length_mm for row in own) / 1000
        lines.append(f"{kind}: {sum(row.quantity for row in own)} lengths, {metres:.2f} m visible")
    return lines


GLAZING_BARS = Schedule(
    key="glazing-bars",
    title="Glazing bars",
    columns=(
        Column("tag", "tag", text=True),
        Column("mark", text=True),
        Column("light", "light"),
        Column("pane", "glass", text=True),
        Column("kind", "kind", text=True),
        Column("runs", "runs", text=True),
        Column("centre_mm", "centre mm"),
        Column("width_mm", "wide mm"),
        Column("depth_mm", "deep mm"),
        Column("length_mm", "length mm", decimals=1),
        Column("quantity", "number"),
        Column("ends", "ends", text=True),
    ),
    rows=glazing_bar_rows,
    totals=totals,
)
