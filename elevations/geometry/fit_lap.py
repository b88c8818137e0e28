"""What a check's outer leaf runs over besides the frame: sashes that then can't open, glass that it hides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.catalogue.system import System
from elevations.errors import Finding
from elevations.geometry.fit import Fitted
from elevations.geometry.fit_deductions import between
from elevations.geometry.fit_fixing import BEHIND_CHECK_MM, kind_of_side, taken_behind
from elevations.geometry.stations import figure
from elevations.geometry.window import Light, Sash
from elevations.openings.base import OPPOSITE
from elevations.plane import SAME_MM
from elevations.spec.model import Window as WindowSpec

LAP_CODES = frozenset({"lap-blocks-sash", "lap-hides-glass", "behind-unmeasured"})
"""Told by the fit report: they decide the frame's size."""
RULE = "settings: fit.reveal.lap and fit.reveal.sash_clear; common practice, no source"
EDGE_OF = {"left jamb": "left", "right jamb": "right", "head": "top"}


@dataclass(frozen=True, slots=True)
class _Over:
    """How far the wall runs over the frame's own profile at one side, mm."""

    side: str
    """left jamb, right jamb or head."""
    mm: float


def lap_findings(spec: WindowSpec, system: System, fitted: Fitted | None, lights: Sequence[Light], joined: frozenset[str]) -> Iterator[Finding]:
    """Lights of a frame behind a check that the wall is in the way of. `joined`: tags of sides that have no wall."""
    if spec.fit.reveal.kind != "check":
        return
    if fitted is not None and taken_behind(spec.fit, spec.fixings, "head"):
        yield _unmeasured(spec, fitted)
    over = [_over(spec, fitted, side) for side in EDGE_OF if side not in joined]
    for light in lights:
        met = {kind_of_side(side.tag) for side in light.region.sides if side.profile == "frame"}
        beside = [each for each in over if each.side in met]
        yield from _sash(spec, system, light, beside)
        yield from _glass(spec, system, light, beside)


def _unmeasured(spec: WindowSpec, fitted: Fitted) -> Finding:
    """The hole behind a check is not in the survey of the one before it: how large it has to be."""
    box, under = fitted.frame, fitted.in_the_middle("sill")
    add_ons = [sum(each.mm for each in between(spec.fit, spec.sill, side)) for side in ("left jamb", "right jamb", "sill", "head")]
    wide, high = box.width + add_ons[0] + add_ons[1], box.height + add_ons[2] + add_ons[3]
    taken = BEHIND_CHECK_MM
    return Finding(
        "behind-unmeasured", spec.mark, "left jamb, right jamb, head", f"not measured behind the check: {taken:g} between frame and wall is taken",
        f"measure the hole there, and give what is left at each side (fit.reveal.behind): the frame needs {wide:.0f} by {high:.0f}, "
        f"and with {taken:g} the hole is {wide + 2 * taken:.0f} by {high + under + taken:.0f}", rule="common practice, no source",
    )


def _over(spec: WindowSpec, fitted: Fitted | None, side: str) -> _Over:
    """By the survey where there is one, at its worst place; else the lap asked for. A frame extension is lapped before the frame is."""
    laps = [-gap.mm for gap in fitted.gaps if gap.side == side] if fitted else []
    lap = max(laps) if laps else spec.fit.reveal.lap or 0.0
    return _Over(side, lap - sum(each.mm for each in between(spec.fit, spec.sill, side)))


def _sash(spec: WindowSpec, system: System, light: Light, beside: Sequence[_Over]) -> Iterator[Finding]:
    edges = {edge for sash in light.sashes for edge in _out(sash, light)}
    begins, clear = figure(system, "frame", "sash"), spec.fit.reveal.sash_clear
    hit = [each for each in beside if EDGE_OF[each.side] in edges and each.mm > begins - clear + SAME_MM]
    if not hit:
        return
    worst = max(hit, key=lambda each: each.mm)
    left = begins - worst.mm
    said = "it can't open" if left <= 0 else f"that leaves {left:.1f} beside it, less than {clear:g}"
    yield Finding(
        "lap-blocks-sash", spec.mark, ", ".join(each.side for each in hit),
        f"the wall runs {worst.mm:.1f} over the frame ({worst.side}), and the sash of light {light.number} ({light.words}) begins {begins:g} "
        f"from its edge: {said}",
        f"a lap of at most {begins - clear:g} over the frame: ask for less (fit.reveal.lap), put frame extensions there "
        "(fit.add_ons), or choose a light that opens in", worst.mm, begins - clear, RULE,
    )


def _out(sash: Sash, light: Light) -> set[str]:
    """The edges of a sash that come out past the frame's outer face; none of one that slides, opens in or never moves."""
    leaf = sash.leaf
    if sash.dummy or leaf.fixed or leaf.slides:
        return set()
    if leaf.half_in:
        return set(OPPOSITE) - {leaf.half_in}
    return set(OPPOSITE) if light.swing == "out" and sash.hinge_edges else set()


def _glass(spec: WindowSpec, system: System, light: Light, beside: Sequence[_Over]) -> Iterator[Finding]:
    held = "sash" if light.sashes else "frame"
    sight = figure(system, "frame", "sash") + figure(system, "sash", "sight") if light.sashes else figure(system, "frame", "sight")
    hit = [each for each in beside if each.mm > sight + SAME_MM]
    if not hit:
        return
    worst = max(hit, key=lambda each: each.mm)
    yield Finding(
        "lap-hides-glass", spec.mark, ", ".join(each.side for each in hit),
        f"the wall runs {worst.mm:.1f} over the frame ({worst.side}) and hides {worst.mm - sight:.1f} of the glass of light {light.number}, "
        f"which begins {sight:g} from the frame's edge in its {held}",
        "ask for a smaller lap, or put frame extensions there (fit.add_ons)", worst.mm, sight, RULE,
    )
