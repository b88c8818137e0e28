"""What a system has to stand round its frames, from its file: frame extensions and sills, for their masses and to say what there is.

    extensions: [{width: 20, kg_per_m: 0.42}, {width: 40, kg_per_m: 0.78}]    # by the face width that the job's add_ons give
    sills: [{projection: 150, kg_per_m: 1.60}]                                # by the projection that the job's sill gives

Both are optional. Without them a job may have any, and no mass is given; with them one of another size is said not to be there.
"""

from __future__ import annotations

from dataclasses import dataclass

from elevations.catalogue.blocks import Block, shown
from elevations.plane import SAME_MM

LARGEST_MM = 500.0
HEAVIEST_KG_PER_M = 60.0


@dataclass(frozen=True, slots=True)
class Strip:
    """One frame extension or sill."""

    size_mm: float
    """Face width of an extension, projection of a sill."""
    kg_per_m: float | None = None


@dataclass(frozen=True, slots=True)
class Strips:
    """All of a system's."""

    extensions: tuple[Strip, ...] = ()
    sills: tuple[Strip, ...] = ()


def of_size(strips: tuple[Strip, ...], size_mm: float) -> Strip | None:
    """The one of that size; None where there is none."""
    return next((strip for strip in strips if abs(strip.size_mm - size_mm) < SAME_MM), None)


def is_unlisted(strips: tuple[Strip, ...], size_mm: float) -> bool:
    """Whether the system gives sizes and this is none of them; a system that gives none says nothing."""
    return bool(strips) and of_size(strips, size_mm) is None


def read_strips(top: Block) -> Strips:
    """The lists `extensions` and `sills`, as far as the file gives them. Problems go to the report."""
    return Strips(_list(top, "extensions", "width"), _list(top, "sills", "projection"))


def _list(top: Block, key: str, size: str) -> tuple[Strip, ...]:
    given = top.data.get(key)
    if given is None:
        return ()
    example = f"for example [{{{size}: 40, kg_per_m: 0.8}}]"
    if not isinstance(given, list):
        top.say(key, "not-a-list", f"'{key}' is {shown(given)}, not a list", example)
        return ()
    found = []
    for number, item in enumerate(given):
        block = Block(top.report, (*top.path, key, number), item, f"an item of '{key}'")
        if not block.given:
            if item is None:
                block.report.say(block.path, "not-a-block", f"an item of '{key}' is empty", example)
            continue
        block.only((size, "kg_per_m"))
        mm = block.required(size, low=0, high=LARGEST_MM, hint=f"mm: {{{size}: 40}}")
        mass = block.number("kg_per_m", low=0, high=HEAVIEST_KG_PER_M, above=True)
        if mm is not None:
            found.append(Strip(mm, mass))
    return tuple(found)
