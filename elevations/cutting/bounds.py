"""Fewer new bars than this are impossible: bounds in whole numbers, without a solver.

All rest on one argument (linear programming duality): give each size a worth so that no filling of a bar is worth more than
1; then the worth of all pieces together, less what the off-cuts can hold of it, is a lower bound for the bars.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from elevations.cutting.load import Load


def simple_bound(load: Load) -> int:
    """The better of the length bound and the one that looks at pieces too long to share a bar.

    Martello and Toth's L2 for bin packing (from memory): a piece longer than the bar less a threshold counts as a whole
    bar, one shorter than the threshold not at all, others by their length. An off-cut saves a new bar at most.
    """
    room = load.rooms[load.bar]
    held = sum(there * of_kind for there, of_kind in zip(load.supply, load.rooms, strict=False))
    best = max(0, -(-(load.total - held) // room))
    for threshold in {0, *(size for size in load.sizes if 2 * size <= room)}:
        alone = shared = 0
        for size, count in zip(load.sizes, load.counts, strict=True):
            if size > room - threshold:
                alone += count
            elif size >= threshold:
                shared += count * size
        best = max(best, alone + -(-shared // room) - sum(load.supply))
    return best


def worth_bound(load: Load, worths: Sequence[int], fullest_worth: Sequence[int]) -> int:
    """The bound that these worths of the sizes prove.

    `fullest_worth` is the greatest worth that each kind of room can hold, the new bar's last. Exact: whole numbers only.
    """
    pieces = sum(worth * count for worth, count in zip(worths, load.counts, strict=True))
    off_cuts = sum(there * most for there, most in zip(load.supply, fullest_worth, strict=False))
    per_bar = fullest_worth[load.bar]
    return max(0, ceil(Fraction(pieces - off_cuts, per_bar))) if per_bar else 0
