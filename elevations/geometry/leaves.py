"""What a wall is made of in its depth, and where in it a fixing finds something to hold in.

`v` is the depth from the frame's outer face inwards to the room, mm, negative before the frame.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from elevations.plane import SAME_MM
from elevations.spec.site import Wall

OUTER, INNER, SOLID = "outer leaf", "inner leaf", "wall"
Edge = Callable[[str], float]
"""Least distance of a fixing from the edge of a material, mm."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """A part of the wall that can hold a fixing, from v to v."""

    name: str
    """wall, outer leaf or inner leaf; 'lintel', 'lintel of the outer leaf' over a head."""
    material: str
    out: float
    inner: float

    def takes(self, edge: float) -> tuple[float, float] | None:
        """From where to where a fixing keeps its distance from both edges; None where the leaf is too thin for it."""
        low, high = self.out + edge, self.inner - edge
        return (low, high) if high > low - SAME_MM else None


def layers(wall: Wall) -> list[tuple[str, float, float]]:
    """What the wall is made of, from outside in: material, v to v. A cavity is left out."""
    at, found = -wall.frame_at, []
    for material, thickness in (
        ("render", wall.render), (wall.material, wall.thickness), ("", wall.cavity), (wall.inner_material, wall.inner), ("plaster", wall.plaster),
    ):
        if thickness and material:
            found.append((material, at, at + thickness))
        at += thickness
    return found


def cavity(wall: Wall) -> tuple[float, float] | None:
    """From v to v; None in a solid wall."""
    start = -wall.frame_at + wall.render + wall.thickness
    return (start, start + wall.cavity) if wall.cavity else None


def leaves(wall: Wall, side: str) -> tuple[Leaf, ...]:
    """What can hold a fixing beside one side of a frame, from outside in: leaves, at the head the lintel under each."""
    gap = cavity(wall)
    outer = -wall.frame_at + wall.render
    found = [(SOLID if gap is None else OUTER, wall.material, outer, outer + wall.thickness)]
    if gap is not None:
        found.append((INNER, wall.inner_material, gap[1], gap[1] + wall.inner))
    if side != "head":
        return tuple(Leaf(*each) for each in found)
    if not wall.lintel.drilling:
        return ()
    return tuple(Leaf("lintel" if name == SOLID else f"lintel of the {name}", wall.carried_by, low, high) for name, _, low, high in found)


def leaf_at(found: Sequence[Leaf], v: float, edge: Edge) -> Leaf | None:
    """The leaf that holds a fixing at v, far enough from its edges; None where none does."""
    return next((leaf for leaf, low, high in _holding(found, edge) if low - SAME_MM <= v <= high + SAME_MM), None)


def first_hold(found: Sequence[Leaf], low: float, high: float, edge: Edge) -> tuple[Leaf, float] | None:
    """The first place from v = low to high that holds, and in which leaf; None without one."""
    for leaf, least, most in _holding(found, edge):
        at = max(low, least)
        if at <= min(high, most) + SAME_MM:
            return leaf, at
    return None


def reach_needed(found: Sequence[Leaf], low: float, edge: Edge) -> tuple[Leaf, float] | None:
    """The nearest leaf that holds at v = low or further in, and the v of its first place; None where there is none."""
    return first_hold(found, low, float("inf"), edge)


def frame_places(wall: Wall, found: Sequence[Leaf], low: float, high: float, edge: Edge) -> list[tuple[float, float]]:
    """Distances of the frame's outer face from the wall's face at which something from v = low to high holds: least, most."""
    whole = wall.whole
    places = [(wall.frame_at + least - high, wall.frame_at + most - low) for _, least, most in _holding(found, edge)]
    return [(max(0.0, least), most) for least, most in places if most >= 0.0 and least < whole]


def _holding(found: Sequence[Leaf], edge: Edge) -> Iterator[tuple[Leaf, float, float]]:
    for leaf in found:
        takes = leaf.takes(edge(leaf.material))
        if takes is not None:
            yield leaf, *takes
