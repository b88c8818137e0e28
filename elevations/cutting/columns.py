"""Column generation with HiGHS: a bound that proves a plan, and better plans from it (Gilmore and Gomory's method).

The linear program chooses how often each filling of a bar is used; new fillings are found by a knapsack whose values are
its duals. Needs the optional packages `highspy` and numpy.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from elevations.cutting.bounds import worth_bound
from elevations.cutting.filling import fill, first_fit
from elevations.cutting.load import Load, Packed, Packing, longest_rest, new_bars

if TYPE_CHECKING:
    import numpy as np

WORTH_STEPS = 10**9
"""Duals are rounded down to this fraction of a bar: the bound is then worked in whole numbers and can't be wrong by rounding."""

LARGEST_TABLE = 3 * 10**8
"""Cells of the knapsack's table, one byte each; a larger problem keeps the plan that it has."""


@dataclass(slots=True)
class Search:
    """What is known so far; gets better in place."""

    load: Load
    packing: Packing
    bound: int
    time_left: Callable[[], float]
    """Seconds."""
    stopped: bool = False
    """True where the clock ended a step."""

    @property
    def done(self) -> bool:
        """True where the packing is proven or the time is over."""
        if new_bars(self.load, self.packing) <= self.bound:
            return True
        self.stopped = self.stopped or self.time_left() <= 0
        return self.stopped

    def offer(self, packing: Packing) -> None:
        """Keep this packing if it takes fewer new bars, or as many and leaves a longer rest, which is the more useful one."""
        if self._worth(packing) < self._worth(self.packing):
            self.packing = packing

    def _worth(self, packing: Packing) -> tuple[int, int]:
        return new_bars(self.load, packing), -longest_rest(self.load, packing)


def improve(search: Search, known: Iterable[Packing]) -> None:
    """Better the search by the linear program, then by rounding it, then by whole-number programming over its fillings."""
    load = search.load
    parts = sum((min(c, load.rooms[-1] // s)).bit_length() for s, c in zip(load.sizes, load.counts, strict=True))
    if parts * (load.rooms[load.bar] + 1) > LARGEST_TABLE:
        return
    master = _Master(load)
    for packed in sorted({packed for packing in known for packed in packing}, key=lambda p: (p.kind, p.counts)):
        master.add(packed)
    for number, (size, count) in enumerate(zip(load.sizes, load.counts, strict=True)):   # can be met without off-cuts
        alone = min(count, load.rooms[load.bar] // size)
        master.add(Packed(load.bar, tuple(alone * (at == number) for at in range(len(load.sizes)))))
    converged = _generate(search, master)
    if converged and not search.done:
        _dive(search, master)
    if not search.done:
        _whole_numbers(search, master)


def _generate(search: Search, master: _Master) -> bool:
    """Add fillings until none betters the linear program; True when that is so. Each round may raise the bound."""
    load = search.load
    while not search.done:
        worths, rents = master.prices()
        fillings, values = fullest_worths(load.sizes, load.counts, worths, load.rooms)
        search.bound = max(search.bound, worth_bound(load, worths, values))
        better = [
            Packed(kind, counts)
            for kind, (counts, value) in enumerate(zip(fillings, values, strict=True))
            if value > WORTH_STEPS * (kind == load.bar) + rents[kind] + 1e-6 * WORTH_STEPS
        ]
        if not sum(master.add(packed) for packed in better):
            return True
    return False


def _dive(search: Search, master: _Master) -> None:
    """Use the program's fillings a whole number of times, the most wanted first, and solve it again for the rest."""
    load = search.load
    rest, supply = list(load.counts), list(load.supply)
    fixed: list[Packed] = []
    while any(rest) and not search.done:
        uses = [
            (use, packed) for use, packed in zip(master.uses(), master.columns, strict=True)
            if use > 1e-6 and _left_to_do(packed, rest) and (packed.kind == load.bar or supply[packed.kind])
        ]
        if not uses:
            return
        whole = [(int(use + 1e-6), packed) for use, packed in uses if use > 1 - 1e-6]
        for times, packed in whole or [(1, max(uses, key=lambda item: item[0])[1])]:
            for _ in range(times):
                here = _left_to_do(packed, rest)
                if not here or (packed.kind != load.bar and not supply[packed.kind]):
                    break
                fixed.append(here)
                rest = [r - c for r, c in zip(rest, here.counts, strict=True)]
                if packed.kind != load.bar:
                    supply[packed.kind] -= 1
        remainder = Load(load.sizes, tuple(rest), load.rooms, tuple(supply))
        for way in (first_fit, fill):
            search.offer((*fixed, *way(remainder)))
        master.need(rest, supply)


def _left_to_do(packed: Packed, rest: Sequence[int]) -> Packed | None:
    """A filling without the pieces that nobody needs any more; None where nothing is left of it."""
    counts = tuple(min(c, r) for c, r in zip(packed.counts, rest, strict=True))
    return Packed(packed.kind, counts) if any(counts) else None


def _whole_numbers(search: Search, master: _Master) -> None:
    """Ask HiGHS for the best whole-number use of the fillings that are known."""
    load = search.load
    master.need(load.counts, load.supply)
    uses, search.stopped = master.whole_uses(search.time_left())
    rest = list(load.counts)
    packing: list[Packed] = []
    for column, times in enumerate(uses):
        for _ in range(times):
            here = _left_to_do(master.columns[column], rest)
            if here:
                packing.append(here)
                rest = [r - c for r, c in zip(rest, here.counts, strict=True)]
    if not any(rest):
        search.offer(tuple(packing))


class _Master:
    """The linear program: a row for each size (at least its count) and each kind of off-cut (at most its supply)."""

    def __init__(self, load: Load) -> None:
        import highspy

        self.load = load
        self.columns: list[Packed] = []
        self._known: set[Packed] = set()
        self._highs: Any = _silent()
        self._endless: float = highspy.kHighsInf
        self._integer: Any = highspy.HighsVarType.kInteger
        for option, value in (("output_flag", False), ("threads", 1), ("random_seed", 1)):
            self._highs.setOptionValue(option, value)
        for count in load.counts:
            self._highs.addRow(float(count), self._endless, 0, [], [])
        for there in load.supply:
            self._highs.addRow(-self._endless, float(there), 0, [], [])

    def add(self, packed: Packed) -> bool:
        """Add a filling; False where it is there already."""
        if packed in self._known:
            return False
        self._known.add(packed)
        self.columns.append(packed)
        entries = [(number, float(count)) for number, count in enumerate(packed.counts) if count]
        new = packed.kind == self.load.bar
        if not new:
            entries.append((len(self.load.sizes) + packed.kind, 1.0))
        rows, values = zip(*entries, strict=True)
        self._highs.addCol(float(new), 0.0, self._endless, len(rows), list(rows), list(values))
        return True

    def prices(self) -> tuple[list[int], list[float]]:
        """Solve; the worth of each size and the rent of each kind of room (0 for new bars), in WORTH_STEPS."""
        self._highs.run()
        duals = list(self._highs.getSolution().row_dual)
        sizes = len(self.load.sizes)
        return (
            [max(0, int(dual * WORTH_STEPS)) for dual in duals[:sizes]],
            [*(max(0.0, -dual) * WORTH_STEPS for dual in duals[sizes:]), 0.0],
        )

    def uses(self) -> list[float]:
        """Solve; how often each filling is used."""
        self._highs.run()
        return list(self._highs.getSolution().col_value)

    def need(self, counts: Sequence[int], supply: Sequence[int]) -> None:
        """Ask for other counts of the sizes, and allow other numbers of off-cuts."""
        for row, count in enumerate(counts):
            self._highs.changeRowBounds(row, float(count), self._endless)
        for row, there in enumerate(supply, len(counts)):
            self._highs.changeRowBounds(row, -self._endless, float(there))

    def whole_uses(self, seconds: float) -> tuple[list[int], bool]:
        """Solve in whole numbers; how often each filling is used, and whether the clock ended it."""
        import highspy

        for column in range(len(self.columns)):
            self._highs.changeColIntegrality(column, self._integer)
        self._highs.setOptionValue("time_limit", float(self._highs.getRunTime() + max(seconds, 0.0)))
        self._highs.run()
        status = self._highs.getModelStatus()
        info = self._highs.getInfo()
        if info.primal_solution_status != 2:   # 2: feasible
            return [0] * len(self.columns), status == highspy.HighsModelStatus.kTimeLimit
        return [round(use) for use in self._highs.getSolution().col_value], status == highspy.HighsModelStatus.kTimeLimit


def _silent() -> Any:
    """A solver that says nothing: switching on callbacks prints a banner to standard output before any option can be set."""
    import highspy

    class Silent(highspy.Highs):
        def enableCallbacks(self) -> None:  # noqa: N802 - the library's name
            """Leave them off: nothing here needs them."""

    made: Any = Silent
    return made()


def fullest_worths(
    sizes: Sequence[int], counts: Sequence[int], worths: Sequence[int], rooms: Sequence[int]
) -> tuple[list[tuple[int, ...]], list[int]]:
    """For each room the filling of the greatest worth, at most `counts` of each size, and that worth: exact.

    Dynamic programming over lengths; a size that may come c times is split into 1, 2, 4 … of it.
    """
    import numpy as np

    longest = max(rooms)
    best: np.ndarray = np.zeros(longest + 1, dtype=np.int64)
    steps = [
        (number, times) for number, worth in enumerate(worths) if worth
        for times in _split(min(counts[number], longest // sizes[number]))
    ]
    taken = np.zeros((len(steps), longest + 1), dtype=bool)
    for step, (number, times) in enumerate(steps):
        length = times * sizes[number]
        with_it = best[: longest + 1 - length] + times * worths[number]
        np.greater(with_it, best[length:], out=taken[step, length:])
        np.maximum(best[length:], with_it, out=best[length:])
    fillings = []
    for room in rooms:
        filling, left = [0] * len(sizes), room
        for step in range(len(steps) - 1, -1, -1):
            if taken[step, left]:
                number, times = steps[step]
                filling[number] += times
                left -= times * sizes[number]
        fillings.append(tuple(filling))
    return fillings, [int(best[room]) for room in rooms]


def _split(count: int) -> list[int]:
    """1, 2, 4 … and a rest that add up to `count`: their sums make every number up to it."""
    parts = []
    part = 1
    while count:
        part = min(part, count)
        parts.append(part)
        count -= part
        part *= 2
    return parts
