"""Places along a line: as few and as even as what is in their way allows."""

from __future__ import annotations

import math
from functools import lru_cache

from elevations.plane import SAME_MM

Zones = tuple[tuple[float, float], ...]
"""Stretches, from and to, where nothing may be set."""


@lru_cache(maxsize=4096)   # head and sill, and both jambs, mostly ask the same
def even_between(start: float, end: float, zones: Zones, spacing: float) -> tuple[float, ...]:
    """Places between two that are set, mm along the same line: fewest, then most even, none inside a zone, gaps at most `spacing` where that can be.

    The most even arrangement is a stretched string: it bends only at ends of zones and is evenly spaced between.
    So a shortest path over those ends finds it, by (mm that gaps must be too long, fixings, sum of squared gaps).
    """
    pins = sorted({start, end, *(p for zone in zones for p in zone if start < p < end and is_free(p, zones))})
    best: dict[float, tuple[tuple[float, int, float], list[float]]] = {start: ((0.0, 0, 0.0), [])}
    for pin in pins[1:]:
        choices = []
        for before in pins[: pins.index(pin)]:
            (excess, count, squares), places = best[before]
            added = 0 if pin == end else 1
            for between in _divided(before, pin, zones, spacing):
                gap = (pin - before) / (len(between) + 1)
                cost = (
                    round(excess + max(0.0, gap - spacing) * (len(between) + 1), 6),
                    count + len(between) + added,
                    round(squares + (len(between) + 1) * gap * gap, 6),
                )
                choices.append((cost, [*places, *between, *([] if pin == end else [pin])]))
        best[pin] = min(choices)
    return tuple(best[end][1])


def _divided(start: float, end: float, zones: Zones, spacing: float) -> list[list[float]]:
    """Even divisions of a stretch that keep out of the zones; the undivided one too, however long."""
    fewest = max(0, math.ceil((end - start) / spacing - SAME_MM) - 1)
    made: list[list[float]] = [[]] if fewest else []
    for count in range(fewest, fewest + len(zones) + 1):
        places = [start + (end - start) * i / (count + 1) for i in range(1, count + 1)]
        if all(is_free(p, zones) for p in places):
            made.append(places)
    return made


def is_free(at: float, zones: Zones) -> bool:
    """Whether a place lies in no zone; their ends are free."""
    return all(not low + SAME_MM < at < high - SAME_MM for low, high in zones)
