"""The dimensions of a drawing against those of the job's sheet: where their feet stand, and what they read."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from elevations.drawing.explode import dimension_text
from elevations.verify.annotation import DrawnDimension
from elevations.verify.difference import SAME_MM, Difference
from elevations.verify.said import ELEVATIONS, SaidDimension, SheetSays

SAYS_MM = 0.06
"""A dimension may read otherwise than it measures by this much, for it is rounded to 0.1."""
MOST_OF = 0.5
"""A view whose dimensions are for the greater part shifted alike was moved as a whole, which changes nothing."""
SAME_LINE_MM = 0.5
"""On paper: dimension lines nearer than this are one line."""


def changed_dimensions(says: SheetSays, found: Sequence[DrawnDimension], unit_mm: float = 1.0) -> Iterator[Difference]:
    """What dimensions measure or read otherwise than the job; `found` lies as the window does, in mm.

    `unit_mm`: of the file, whose figures may be in it.
    """
    pairs, wanted, left = _matched(says, [dim for dim in found if dim.upright is not None])
    for said, dim in pairs:
        yield from _reading(said, dim, unit_mm)
    for said, dim in _dragged(wanted, left, says.scale * SAME_LINE_MM):
        wanted.remove(said)
        left.remove(dim)
        yield Difference("dimension", said.place, f"{_named(said)}: {_feet(said, dim)}{_and_reads(dim, unit_mm)}")
    if found:
        yield from (Difference("dimension", said.place, f"{_named(said)} is not in the drawing") for said in wanted)
    yield from false_readings([*left, *(dim for dim in found if dim.upright is None)], unit_mm)


def false_readings(found: Sequence[DrawnDimension], unit_mm: float = 1.0) -> Iterator[Difference]:
    """Dimensions that read another length than they measure, whatever the job says."""
    for dim in found:
        if not reads_its_length(dim, unit_mm):
            shown = dimension_text(dim.length)
            yield Difference("dimension", shown, f"a dimension says '{dim.reads[:40]}' and measures {shown}")


def reads_its_length(dim: DrawnDimension, unit_mm: float) -> bool:
    """Whether a person reads what it measures, in mm or in the file's unit; one without a text of its own always does."""
    if not dim.reads:
        return True
    try:
        number = float(dim.reads.lower().removesuffix("mm").replace(",", "."))
    except ValueError:
        return False
    return any(abs(number * unit - dim.length) <= SAYS_MM for unit in (1.0, unit_mm))


Matched = tuple[list[tuple[SaidDimension, DrawnDimension]], list[SaidDimension], list[DrawnDimension]]


def _matched(says: SheetSays, found: Sequence[DrawnDimension]) -> Matched:
    """Dimensions whose feet stand where they should, and what is left on both sides."""
    wanted, left = list(says.dimensions), list(found)
    pairs = _pairs(wanted, left, 0.0)
    shifts: dict[tuple[str, bool], float] = {}
    for view, upright in dict.fromkeys((dim.view, dim.upright) for dim in wanted if dim.view not in ELEVATIONS):
        own = [dim for dim in wanted if (dim.view, dim.upright) == (view, upright)]
        count = sum((dim.view, dim.upright) == (view, upright) for dim in says.dimensions)
        shift = _shift(own, left, count)
        if shift is not None:
            shifts[view, upright] = shift
            pairs += _pairs(own, left, shift)
            wanted = [dim for dim in wanted if (dim.view, dim.upright) != (view, upright) or dim in own]
    return pairs, [_with_its_view(dim, shifts) for dim in wanted], left


def _with_its_view(dim: SaidDimension, shifts: dict[tuple[str, bool], float]) -> SaidDimension:
    """Where it should be by now, its view having been moved."""
    along, across = shifts.get((dim.view, dim.upright), 0.0), shifts.get((dim.view, not dim.upright), 0.0)
    return replace(dim, low=dim.low + along, high=dim.high + along, line_at=dim.line_at + across)


def _pairs(wanted: list[SaidDimension], left: list[DrawnDimension], shift: float) -> list[tuple[SaidDimension, DrawnDimension]]:
    """Each with the dimension between the same two places, of several the one on the nearest line; both lists lose them."""
    made = []
    for said in list(wanted):
        own = [
            dim for dim in left
            if dim.upright == said.upright and max(abs(at - shift - to) for at, to in zip(_ends(dim), (said.low, said.high), strict=True)) <= SAME_MM
        ]
        if own:
            dim = min(own, key=lambda other: abs(_line_at(other) - said.line_at))
            wanted.remove(said)
            left.remove(dim)
            made.append((said, dim))
    return made


def _shift(own: Sequence[SaidDimension], left: Sequence[DrawnDimension], count: int) -> float | None:
    """How far a view was moved along its dimensions, where most of its `count` say so."""
    votes = Counter(
        round((_ends(dim)[0] - said.low) / SAME_MM)
        for said in own for dim in left
        if dim.upright == said.upright and abs(dim.length - (said.high - said.low)) <= SAME_MM
    )
    if not votes:
        return None
    steps, agreed = min(votes.items(), key=lambda vote: (-vote[1], abs(vote[0])))
    return steps * SAME_MM if agreed > MOST_OF * count else None


def _dragged(wanted: Sequence[SaidDimension], left: Sequence[DrawnDimension], same_line: float) -> list[tuple[SaidDimension, DrawnDimension]]:
    """Dimensions with a foot elsewhere: on the same line, or with one foot where it should be; the least moved first."""
    costs = []
    for i, said in enumerate(wanted):
        for j, dim in enumerate(left):
            low, high = (abs(at - to) for at, to in zip(_ends(dim), (said.low, said.high), strict=True))
            across = abs(_line_at(dim) - said.line_at)
            if dim.upright == said.upright and (across <= same_line or min(low, high) <= SAME_MM):
                costs.append((low + high + across, i, j))
    taken: tuple[set[int], set[int]] = set(), set()
    made = []
    for _, i, j in sorted(costs):
        if i not in taken[0] and j not in taken[1]:
            taken[0].add(i)
            taken[1].add(j)
            made.append((wanted[i], left[j]))
    return made


def _reading(said: SaidDimension, dim: DrawnDimension, unit_mm: float) -> Iterator[Difference]:
    if not reads_its_length(dim, unit_mm):
        yield Difference("dimension", said.place, f"{_named(said)} says '{dim.reads[:40]}' in the drawing")


def _named(said: SaidDimension) -> str:
    """'the dimension 600, 0 to 600 from the left of the frame (elevation from outside, bar centre lines)'."""
    low, high = dimension_text(said.low + 0.0), dimension_text(said.high + 0.0)
    where = f", {low} to {high} {'up from the bottom' if said.upright else 'from the left'} of the {ELEVATIONS[said.view]}" if said.view in ELEVATIONS else ""
    return f"the dimension {dimension_text(said.high - said.low)}{where} ({said.place})"


def _feet(said: SaidDimension, dim: DrawnDimension) -> str:
    """Which foot stands how far off, and what it measures there."""
    names, ways = (("lower", "upper"), ("up", "down")) if said.upright else (("left", "right"), ("to the right", "to the left"))
    told = [
        f"its {name} foot stands {dimension_text(abs(at - to))} {ways[at < to]}"
        for name, at, to in zip(names, _ends(dim), (said.low, said.high), strict=True) if abs(at - to) > SAME_MM
    ]
    return f"{' and '.join(told)}, so that it measures {dimension_text(dim.length)}"


def _and_reads(dim: DrawnDimension, unit_mm: float) -> str:
    return "" if reads_its_length(dim, unit_mm) else f" and still says '{dim.reads[:40]}'"


def _ends(dim: DrawnDimension) -> tuple[float, float]:
    """Where its feet stand along its line, the lower first."""
    along = (dim.start.y, dim.end.y) if dim.upright else (dim.start.x, dim.end.x)
    return min(along), max(along)


def _line_at(dim: DrawnDimension) -> float:
    return dim.line.x if dim.upright else dim.line.y
