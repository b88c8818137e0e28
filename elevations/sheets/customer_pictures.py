"""Single pictures for pages that are not ours to lay out: a window on its wall, a light ajar, all windows of a job."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Placed, Sheet, View
from elevations.geometry.joined import Joined
from elevations.geometry.window import Light, Window
from elevations.plane import Box, Point
from elevations.sheets import customer_words as words
from elevations.sheets.customer import fitting_scale, wall
from elevations.sheets.customer_seen import seen_set
from elevations.sheets.overview import on_wall
from elevations.views import customer_tones as tones
from elevations.views.customer import customer_view, sill_bounds
from elevations.views.customer_ajar import ajar_views
from elevations.views.customer_joined import customer_joined_view, laid_flat

MARGIN = 4.5
"""Wall seen round a window, mm on paper."""
STANDARD = (5.0, 10.0, 20.0, 50.0, 100.0)
"""Reductions of ISO 5455 (from memory): these pictures are printed true to scale, and share their page with words."""
AJAR_WIDTH, AJAR_HEIGHT = 26.0, 26.0
LEAST_BADGE, BADGE_SHARE = 3.0, 0.026
"""Height of the lights' numbers: this at least, and this share of the picture's width, so that a phone shows them."""


def window_picture(window: Window, side: str, width: float, height: float) -> Sheet:
    """The window from outside or inside on its wall, at the largest standard scale at which the picture fits the room, mm."""
    seen = sill_bounds(window)   # both sides at one scale and on one size of wall, though only one shows the sill
    overall = seen.width, seen.height
    scale = fitting_scale([overall], width - 2 * MARGIN, height - 2 * MARGIN, STANDARD)
    size = overall[0] / scale + 2 * MARGIN, overall[1] / scale + 2 * MARGIN
    badge = max(LEAST_BADGE, size[0] * BADGE_SHARE) if len(window.lights) > 1 else 0.0
    view = customer_view(window, scale, side=side, badge=badge)
    placed = (wall(Box(0.0, 0.0, *size), side, "wall"), Placed(view, scale, Point(MARGIN - seen.left / scale, MARGIN - seen.bottom / scale)))
    said = f"Window {window.mark} from {side}, {words.size_words(window)}, at 1:{scale:g}. " + " ".join(
        f"{words.numbers(lights)}: {text}." for text, lights in words.grouped(window.lights)
    )
    return Sheet(f"{words.name_of(window)} from {side}", said, *size, placed, (), scale)


def ajar_pictures(light: Light, window: Window) -> list[Sheet]:
    """The light ajar, once for each way in which it opens, or shut where it does not."""
    tone = tones.finished(window.finish.outside).tone
    sheets = []
    for view in ajar_views(light, tone, AJAR_WIDTH, AJAR_HEIGHT):
        edge = view.bounds.grown(4.0)
        placed = (Placed(View(view.id, view.title, view.groups, view.bounds), 1.0, Point(-edge.left, -edge.bottom)),)
        sheets.append(Sheet(f"Part {light.number}", words.opening_words(light), edge.width, edge.height, placed, (), 1.0))
    return sheets


def job_pictures(windows: Sequence[Window], width: float, height: float, text: float = 1.8, sets: Sequence[Joined] = ()) -> list[Sheet]:
    """All windows, joined ones as one, on one wall at one scale, from outside; several pictures where one can't hold them at 1:50."""
    return on_wall(windows, width, height, text, sets)


def set_picture(joined: Joined, side: str, width: float, height: float) -> Sheet:
    """Joined windows from outside or inside on their wall, at the largest standard scale at which the picture fits the room, mm."""
    seen = seen_set(joined)
    scale = fitting_scale([(seen.bounds.width, seen.bounds.height)], width - 2 * MARGIN, height - 2 * MARGIN, STANDARD)
    size = seen.bounds.width / scale + 2 * MARGIN, seen.bounds.height / scale + 2 * MARGIN
    at = Point(MARGIN - seen.bounds.left / scale, MARGIN - seen.bounds.bottom / scale)
    placed = (wall(Box(0.0, 0.0, *size), side, "wall"), Placed(customer_joined_view(joined, scale, side=side), scale, at))
    flat = f", {words.LAID_FLAT}" if joined.bay and laid_flat(joined) else ""
    said = f"{words.set_words(joined)}, from {side}, {words.set_size_words(joined)}, at 1:{scale:g}{flat}."
    return Sheet(f"{seen.name} from {side}", said, *size, placed, (), scale)
