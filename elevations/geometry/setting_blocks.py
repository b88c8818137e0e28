"""Where glass is set on blocks: which carry it and which only hold it in place, by the edges its sash turns on.

Fixed glass and glass hung at the bottom stands on two blocks at the quarter points of its lower edge, glass hung at the top on
two near its lower corners: EN 12488, from memory. A side-hung sash hangs from its glass: one block at the bottom on the hinge
side, one at the top on the lock side (a trade guide, read second hand). Location blocks stand at the other places.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from elevations.geometry.window import Light, Window
from elevations.plane import Box, Point

NEAR_CORNER_MM = 80.0
"""Middle of a block near a corner, from that corner: a block of 100 then ends 30 from it (BS 6262, from memory, not seen)."""
LEAST_LENGTH_MM, LENGTH_PER_M2_MM = 50.0, 27.0
"""27 mm a square metre of glass: a block maker, read second hand; at least 50: from memory."""


@dataclass(frozen=True, slots=True)
class SettingBlock:
    """One block at the edge of a pane; seen from outside."""

    pane: str
    carries: bool
    """True where it bears the glass, False where it only locates it."""
    edge: str
    """left, right, top or bottom: the edge of the glass that it stands at."""
    at: Point
    """Its middle, on that edge."""
    length: float


def setting_blocks(window: Window) -> tuple[SettingBlock, ...]:
    """Every block of every rectangular pane, pane by pane, the carrying ones first; shaped glass is for its maker to say."""
    return tuple(block for light in window.lights for block in _of_light(light))


def _of_light(light: Light) -> list[SettingBlock]:
    hinges = [edge for sash in light.sashes if not sash.dummy for edge in sash.hinge_edges]
    found = []
    for pane in light.panes:
        if pane.shaped:
            continue
        box = pane.cut.outline.bounds
        length = max(LEAST_LENGTH_MM, LENGTH_PER_M2_MM * pane.area_m2)
        carried, located = _places(box, hinges)
        for places, carries in ((carried, True), (located, False)):
            found += [SettingBlock(pane.tag, carries, edge, at, length) for edge, at in places]
    return found


Places = list[tuple[str, Point]]


def _places(box: Box, hinges: Sequence[str]) -> tuple[Places, Places]:
    """Carrying and locating places of one pane."""
    across, up = min(NEAR_CORNER_MM, box.width / 4), min(NEAR_CORNER_MM, box.height / 4)
    near = {"left": box.left + across, "right": box.right - across}
    level = {"bottom": box.bottom + up, "top": box.top - up}

    def foot(edge: str, side: str) -> tuple[str, Point]:
        return edge, Point(near[side], box.bottom if edge == "bottom" else box.top)

    def flank(edge: str, end: str) -> tuple[str, Point]:
        return edge, Point(box.left if edge == "left" else box.right, level[end])

    side = next((edge for edge in hinges if edge in near), None)
    if side is not None:
        lock = "right" if side == "left" else "left"
        return [foot("bottom", side), foot("top", lock)], [
            foot("bottom", lock), foot("top", side), flank(side, "bottom"), flank(side, "top"), flank(lock, "bottom"), flank(lock, "top"),
        ]
    flanks = [flank(edge, end) for edge in ("left", "right") for end in ("bottom", "top")]
    if "top" in hinges:
        return [foot("bottom", "left"), foot("bottom", "right")], flanks
    quarters = [("bottom", Point(box.left + share * box.width, box.bottom)) for share in (0.25, 0.75)]
    return quarters, [*flanks, foot("top", "left"), foot("top", "right")]
