"""The joint between a frame and its wall: how much sealant and foam it takes, each side by its own gap, with the sum in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.geometry.fit import Fitted, Site
from elevations.geometry.fit_fixing import kind_of_side
from elevations.geometry.neighbours import joined_sides
from elevations.geometry.window import Window
from elevations.spec.workshop import Seal


@dataclass(frozen=True, slots=True)
class Filling:
    """What one joint takes of one thing."""

    what: str
    """sealant or foam."""
    litres: float | None
    """None where the gap is not known."""
    sum_words: str


@dataclass(frozen=True, slots=True)
class Stretch:
    """One side of a joint, mm."""

    side: str
    length: float
    gap: float

    @property
    def words(self) -> str:
        """'head 1240 x 6.3'."""
        return f"{self.side} {self.length:g} x {self.gap:.1f}"


def fillings(window: Window, seal: Seal) -> Iterator[Filling]:
    """Sealant and foam of one window, one side of the wall; sides that another frame is joined to have no joint."""
    joint = window.site.fit.joint if window.site else None
    for what, usual, own in (
        ("sealant", seal.sealant_depth, joint.sealant_depth if joint else None), ("foam", seal.foam_depth, joint.foam_depth if joint else None),
    ):
        depth = usual if own is None else own
        if depth:
            yield _filling(window, seal, what, depth)


def _filling(window: Window, seal: Seal, what: str, depth: float) -> Filling:
    if window.site is not None and window.site.fitted is not None:
        stretches = list(stretches_of(window, window.site, window.site.fitted, seal))
        words = f"{window.mark}: {' + '.join(stretch.words for stretch in stretches)}, all x {depth:g} deep, one side"
        return Filling(what, sum(stretch.length * stretch.gap for stretch in stretches) * depth / 1e6, words)
    if seal.gap is None:
        return Filling(what, None, f"{window.mark}: not counted, neither surveyed nor a gap given (workshop: seal: gap)")
    return Filling(what, _round_mm(window) * seal.gap * depth / 1e6, f"joint {seal.gap:g} wide, {depth:g} deep, all round, one side")


def stretches_of(window: Window, site: Site, fitted: Fitted, seal: Seal) -> Iterator[Stretch]:
    """Each side of a surveyed window by the mean of its gaps; behind a check by what the job says is there, else the workshop's is taken.

    Along the outer edge of the frame with its extensions.
    """
    add_ons, free = site.fit.add_ons, site.fit.joint.least if seal.gap is None else seal.gap
    wide = window.width.value + add_ons.left + add_ons.right
    high = window.height.value + add_ons.head + add_ons.sill
    for side in ("head", "left jamb", "right jamb", "sill"):
        if side in joined_sides(window.neighbours):
            continue
        lapped = site.fit.reveal.kind == "check" and side != "sill"
        behind = free if site.fit.reveal.behind is None else site.fit.reveal.behind
        mean = behind if lapped else max(0.0, fitted.mean(side))
        yield Stretch(side, high if side.endswith("jamb") else wide, mean)


def _round_mm(window: Window) -> float:
    """All round the frame, arcs included, but for sides that another frame is joined to."""
    joined, outline = joined_sides(window.neighbours), window.frame.outline
    return sum(outline.length(edge) for edge, side in enumerate(window.frame.sides) if kind_of_side(side.tag) not in joined)
