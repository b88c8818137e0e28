"""What stands on a wall by itself in a customer's picture: a window, or joined ones as one thing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from elevations.drawing.entities import View
from elevations.geometry.joined import Joined
from elevations.geometry.window import Window
from elevations.plane import Box
from elevations.sheets import customer_words as words
from elevations.views.customer import customer_view, sill_bounds
from elevations.views.customer_joined import customer_joined_view, picture_width


@dataclass(frozen=True, slots=True)
class Seen:
    """One window or one set."""

    id: str
    """Unique in the job; letters, digits and hyphens."""
    mark: str
    name: str
    size: str
    """'1480 × 1290'."""
    size_words: str
    frame: Box
    """Of the frame, or of all frames together as they are seen, mm."""
    bounds: Box
    """With its sill."""
    view: Callable[[float], View]
    """From outside, for a scale."""


def seen_window(window: Window) -> Seen:
    """A window that stands alone."""
    size = f"{window.width.value:g} × {window.height.value:g}"
    return Seen(
        f"window-{window.path[-1]}", window.mark, words.name_of(window), size, words.size_words(window), window.frame.outline.bounds,
        sill_bounds(window), partial(customer_view, window),
    )


def seen_set(joined: Joined) -> Seen:
    """Joined windows as one."""
    frame = Box(0.0, 0.0, picture_width(joined), joined.height.value)
    bounds = customer_joined_view(joined, 10.0).bounds
    return Seen(
        f"set-{joined.path[-1]}", joined.mark, words.name_of_set(joined), words.set_size(joined), words.set_size_words(joined), frame, frame.joined(bounds),
        partial(customer_joined_view, joined),
    )


def all_seen(windows: Sequence[Window], sets: Sequence[Joined]) -> list[Seen]:
    """Windows in their order; joined ones as one, in the place of the first of them."""
    by_mark = {window.mark: one for one in sets for window in one.windows}
    found: dict[str, Seen] = {}
    for window in windows:
        one = by_mark.get(window.mark)
        if one is None:
            found[window.mark] = seen_window(window)
        elif one.mark not in found:
            found[one.mark] = seen_set(one)
    return list(found.values())
