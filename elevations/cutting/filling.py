"""Packings by rules of thumb: first-fit and best-fit decreasing, and bars filled one by one as full as they go."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Sequence
from random import Random

from elevations.cutting.load import Load, Packed, Packing


def first_fit(load: Load) -> Packing:
    """Longest piece first, each into the first bar with room: off-cuts, smallest first, then new bars."""
    kinds = _all_off_cuts(load)
    left = [load.rooms[kind] for kind in kinds]
    inside: list[dict[int, int]] = [{} for _ in kinds]
    for number, (size, count) in enumerate(zip(load.sizes, load.counts, strict=True)):
        at = 0
        rest = count
        while rest:
            if at == len(left):
                kinds.append(load.bar)
                left.append(load.rooms[load.bar])
                inside.append({})
            here = min(rest, left[at] // size)
            if here:
                inside[at][number] = here
                left[at] -= here * size
                rest -= here
            at += 1
    return _packing(load, kinds, inside)


def best_fit(load: Load) -> Packing:
    """Longest piece first, each into the bar where it leaves least; a new bar where it fits none."""
    kinds = _all_off_cuts(load)
    inside: list[dict[int, int]] = [{} for _ in kinds]
    open_bars = sorted((load.rooms[kind], bar) for bar, kind in enumerate(kinds))
    for number, (size, count) in enumerate(zip(load.sizes, load.counts, strict=True)):
        for _ in range(count):
            at = bisect_left(open_bars, (size, -1))
            if at == len(open_bars):
                left, bar = load.rooms[load.bar], len(kinds)
                kinds.append(load.bar)
                inside.append({})
            else:
                left, bar = open_bars.pop(at)
            inside[bar][number] = inside[bar].get(number, 0) + 1
            insort(open_bars, (left - size, bar))
    return _packing(load, kinds, inside)


def fill(load: Load, shuffle: Random | None = None) -> Packing:
    """Each bar in turn as full as the pieces that are left can make it, with the longest of them in it.

    `shuffle` puts in another of the long ones instead, which gives another packing for each state of it. A filling is
    used again for as long as there are pieces for it.
    """
    rest = list(load.counts)
    packing: list[Packed] = []
    for kind, there in enumerate(load.supply):
        for _ in range(there):
            counts = fullest(load.sizes, rest, load.rooms[kind])
            if not any(counts):
                break
            packing.append(Packed(kind, counts))
            rest = [r - c for r, c in zip(rest, counts, strict=True)]
    while any(rest):
        counts = _new_bar(load, rest, shuffle)
        times = 1 if shuffle else min(r // c for r, c in zip(rest, counts, strict=True) if c)
        packing += [Packed(load.bar, counts)] * times
        rest = [r - times * c for r, c in zip(rest, counts, strict=True)]
    return tuple(packing)


def _new_bar(load: Load, rest: Sequence[int], shuffle: Random | None) -> tuple[int, ...]:
    live = [number for number, count in enumerate(rest) if count]
    first = live[int(shuffle.random() ** 2 * len(live))] if shuffle else live[0]   # squared: rather the long ones
    others = [count - (number == first) for number, count in enumerate(rest)]
    counts = fullest(load.sizes, others, load.rooms[load.bar] - load.sizes[first])
    return tuple(count + (number == first) for number, count in enumerate(counts))


def fullest(sizes: Sequence[int], counts: Sequence[int], room: int) -> tuple[int, ...]:
    """How many of each size (largest first) fill the room best, at most `counts` of each; rather long pieces than short.

    A whole number's bits are the lengths that can be made: shifting it by a size adds that piece to all of them. Shorter
    sizes are looked at only for as long as the room can't be filled to the last step.
    """
    mask = (1 << (room + 1)) - 1
    reached = 1
    before: list[tuple[int, int]] = []
    for number, (size, count) in enumerate(zip(sizes, counts, strict=True)):
        most, part = min(count, room // size), 1
        if not most:
            continue
        before.append((number, reached))
        while most:
            part = min(part, most)
            reached |= (reached << (part * size)) & mask
            most -= part
            part *= 2
        if reached >> room:
            break
    target = reached.bit_length() - 1
    chosen = [0] * len(sizes)
    for number, longer in reversed(before):
        while not longer >> target & 1:
            chosen[number] += 1
            target -= sizes[number]
    return tuple(chosen)


def _all_off_cuts(load: Load) -> list[int]:
    return [kind for kind, there in enumerate(load.supply) for _ in range(there)]


def _packing(load: Load, kinds: Sequence[int], inside: Sequence[dict[int, int]]) -> Packing:
    sizes = range(len(load.sizes))
    return tuple(
        Packed(kind, tuple(bar.get(number, 0) for number in sizes)) for kind, bar in zip(kinds, inside, strict=True) if bar
    )
