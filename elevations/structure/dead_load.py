"""Dead load of glass on transoms: what stands on each, and how far it bends down. N, mm.

A fixed light bears on what is under it; a sash on the member that its hinges are on. What hangs on a mullion goes
down it, and presses on the transom that the mullion stands on. A mullion under a transom that stands on the frame
props it: the transom then spans from prop to prop.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from elevations.calculation import Calculation, CannotTell, ImpossibleInputError, Step, keeps
from elevations.geometry.mass import kg_per_m, light_kg
from elevations.geometry.window import Bar, Light, Window
from elevations.plane import SAME_MM
from elevations.structure.beams import Beam, LineLoad, PointLoad, needed_ei_n_mm2, peak_deflection, reactions
from elevations.structure.materials import GRAVITY_M_S2
from elevations.structure.sections import NO_STEEL, bar_stiffness
from elevations.structure.wind import span_mm

LIMIT_SHARE, LIMIT_MM = 500.0, 3.0
"""Default limit: the span over 500, at most 3 mm (EN 13830 for curtain walling, from memory; for windows common
practice, no source)."""


@dataclass(frozen=True, slots=True)
class TransomUnderGlass:
    """One transom under what stands on it and its own weight."""

    tag: str
    beam: Beam
    """The stretch between supports that bends most."""
    limit_mm: float
    needed_ei_n_mm2: float
    deflection: Calculation | CannotTell

    @property
    def passes(self) -> bool | None:
        """Whether the deflection keeps the limit; None where it can't be told."""
        return keeps(self.deflection, self.limit_mm)


def transoms_under_glass(window: Window, limit_mm: float | None = None) -> tuple[TransomUnderGlass, ...]:
    """Every transom of a window under dead load, in the order of its bars.

    Glass is spread evenly over the transom, although it stands on two packers near its ends, and each stretch between
    supports bends by itself: both err on the safe side. `limit_mm` replaces the default limit.
    """
    if limit_mm is not None and not limit_mm > 0:
        raise ImpossibleInputError(f"a deflection limit of {limit_mm:g} mm: it is more than 0")
    beams = dead_beams(window)
    return tuple(_judged(window, bar, beams[bar.tag], limit_mm) for bar in window.bars if not bar.upright)


def dead_beams(window: Window) -> dict[str, tuple[Beam, ...]]:
    """The stretches of each transom between its supports, from the left, by its tag.

    Bars are met last to first, as a carried bar comes after the one that carries it.
    """
    beams: dict[str, tuple[Beam, ...]] = {}
    down: dict[str, float] = {}   # along each mullion, N
    for bar in reversed(window.bars):
        weight = kg_per_m(window.system, bar.profile) * GRAVITY_M_S2 / 1000   # N/mm
        lines = list(_lights_on(window, bar))
        if bar.upright:
            down[bar.tag] = weight * span_mm(bar) + sum(line.total_n for line in lines) + _hung_on(window, bar, beams)
            continue
        if weight:
            lines.append(LineLoad(0.0, span_mm(bar), 0.0, weight))
        stops = [0.0, *sorted(_props(window, bar)), span_mm(bar)]
        points = list(_stands_on(window, bar, down))
        beams[bar.tag] = tuple(_stretch(low, high, lines, points) for low, high in pairwise(stops))
    return beams


def _props(window: Window, transom: Bar) -> Iterator[float]:
    """Where mullions that stand on the frame hold a transom up, mm from its left end."""
    bars = {bar.tag for bar in window.bars}
    for bar in window.bars:
        if bar.upright and bar.meets[1] == transom.tag and bar.meets[0] not in bars:
            yield bar.outer[1].x - transom.outer[0].x


def _stretch(low: float, high: float, lines: list[LineLoad], points: list[PointLoad]) -> Beam:
    """The part of an evenly loaded transom between two supports; a force above a support goes straight into it."""
    parts = []
    for line in lines:
        start, end = max(low, line.start_mm), min(high, line.start_mm + line.length_mm)
        if end - start > SAME_MM:
            parts.append(LineLoad(start - low, end - start, 0.0, line.peak_n_mm))
    forces = tuple(PointLoad(p.at_mm - low, p.force_n) for p in points if low + SAME_MM < p.at_mm < high - SAME_MM)
    return Beam(high - low, tuple(parts), forces)


def bearing_edge(light: Light) -> str:
    """The edge that carries a light: bottom, top, left or right."""
    edges = [edge for sash in light.sashes for edge in sash.hinge_edges]
    if not edges or "bottom" in edges:
        return "bottom"
    return "top" if "top" in edges else edges[0]


def bearing_shares(light: Light) -> tuple[tuple[str, float], ...]:
    """The edges that carry a light, and what share of it each: both sides of a pair, or where a level axis has its pivots."""
    sides = {sash.hinge_edges[0] for sash in light.sashes if sash.hinge_edges}
    if sides == {"left", "right"} or any(sash.leaf.half_in == "top" for sash in light.sashes):
        return ("left", 0.5), ("right", 0.5)
    return ((bearing_edge(light), 1.0),)


def _lights_on(window: Window, bar: Bar) -> Iterator[LineLoad]:
    """The weight of each light that bears on this bar, spread over the stretch that it touches."""
    axis = 1 if bar.upright else 0
    for light, edge, share in [(carried, *how) for carried in window.lights for how in bearing_shares(carried)]:
        box = light.region.outline.bounds
        limit = {"bottom": box.bottom, "top": box.top, "left": box.left, "right": box.right}[edge]
        across = 0 if edge in {"left", "right"} else 1
        for (a, b), side in zip(light.region.outline.edges(), light.region.sides, strict=True):
            if side.tag == bar.tag and abs(a[across] - limit) < SAME_MM and abs(b[across] - limit) < SAME_MM:
                low, high = sorted((a[axis], b[axis]))
                weight = share * light_kg(window, light) * GRAVITY_M_S2
                yield LineLoad(low - bar.outer[0][axis], high - low, 0.0, weight / (high - low))


def _hung_on(window: Window, mullion: Bar, beams: Mapping[str, tuple[Beam, ...]]) -> float:
    """What transoms bring to a mullion that carries their ends, N."""
    return sum(
        reactions(beams[bar.tag][-end])[end]   # the left end of the first stretch, the right end of the last
        for bar in window.bars if not bar.upright
        for end, tag in enumerate(bar.meets) if tag == mullion.tag
    )


def _stands_on(window: Window, transom: Bar, down: Mapping[str, float]) -> Iterator[PointLoad]:
    for bar in window.bars:
        if bar.upright and bar.meets[0] == transom.tag:
            yield PointLoad(bar.outer[0].x - transom.outer[0].x, down[bar.tag])


def _judged(window: Window, bar: Bar, stretches: tuple[Beam, ...], limit_mm: float | None) -> TransomUnderGlass:
    limits = [limit_mm or min(beam.span_mm / LIMIT_SHARE, LIMIT_MM) for beam in stretches]
    needed, beam, limit = max(
        ((needed_ei_n_mm2(beam, limit), beam, limit) for beam, limit in zip(stretches, limits, strict=True)), key=lambda found: found[0]
    )
    stiffness = bar_stiffness(window, bar)
    if isinstance(stiffness, CannotTell):
        return TransomUnderGlass(bar.tag, beam, limit, needed, stiffness)
    most = peak_deflection(beam, stiffness.weight.value)
    limit_source = "given" if limit_mm else "L/500, at most 3 mm (from memory)"
    steps = (
        Step("L", beam.span_mm, "mm", "between its supports, datum to datum"),
        *(Step(f"w from {w.start_mm:.0f} over {w.length_mm:.0f} mm", w.peak_n_mm, "N/mm", "weight that bears on it") for w in beam.line_loads),
        *(Step(f"F at {p.at_mm:.0f} mm", p.force_n, "N", "a mullion that stands on it") for p in beam.point_loads),
        *stiffness.weight.steps,
        Step(f"f, {most.at_mm:.0f} mm along", most.value, "mm", "simple beam"),
        Step("limit", limit, "mm", limit_source),
    )
    assumed = [f"mullions under {bar.tag} prop it: the sill is packed beneath them"] if len(stretches) > 1 else []
    if window.system.material == "pvc-u":
        assumed.append("PVC-U gives way under lasting load (creep), which is not counted: " + ("its steel carries most of this" if stiffness.steel_area_mm2 else NO_STEEL))
    assumed += [
        f"the mass of the {name} profile is left out: {window.system.name} doesn't give it"
        for name in (bar.profile, "mullion", "sash") if window.system.profiles[name].kg_per_m is None
    ]
    return TransomUnderGlass(bar.tag, beam, limit, needed, Calculation(most.value, "mm", steps, tuple(dict.fromkeys(assumed))))
