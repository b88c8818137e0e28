"""The line of a cut through a window: the panes it meets, where they lie along it and in which depth, and how it is laid on the page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from elevations.geometry.along import Crossing, chord, spans
from elevations.geometry.window import GlazingBar, Light, Pane, Sash, Window
from elevations.plane import Box, Corner, Outline, rectangle
from elevations.views.cuts import SQUARE_DEGREES, bars_between, lights_cut


@dataclass(frozen=True, slots=True)
class Stretch:
    """One pane along the cut: where its visible glass begins and ends, mm along the cut before any shortening."""

    light: Light
    pane: Pane
    held: Sash | None
    """The sash that the pane is glazed in."""
    low: float
    high: float
    glass: tuple[float, float]
    """Both ends of the unit."""
    sash: tuple[float, float]
    """Outer edges of the sash; those of the datum where there is none."""
    datum: tuple[float, float]
    """Datum of what bounds the light."""
    edges: tuple[int, int]
    """Numbers of the light's edges that the cut crosses."""
    rails: tuple[int, int]
    """Numbers of the sash's edges that it crosses; those of the light where there is no sash."""
    slanting: tuple[float, float]
    """Degrees by which each of those edges is out of square to the cut; 0 where the cut shows its own section."""


@dataclass(frozen=True, slots=True)
class Run:
    """The line of the cut and how it is laid on the page.

    Along the cut runs t (x or y of the window), across it v from the outside in. Page x, y are v, t for a vertical
    section, with the outside on the left, and t, v for a horizontal one, with the outside at the bottom.
    """

    window: Window
    axis: int
    """0: cut at an x, so vertical; 1: cut at a y."""
    stretches: tuple[Stretch, ...]
    bounds: tuple[tuple[str, str, float], ...]
    """Frame members and bars in order: tag, profile, datum (t)."""
    gone: tuple[tuple[float, float], ...]
    """Lengths of glass that are left out, from t to t."""
    gap: float
    """Left open between the two parts of a shortened unit, mm."""
    at: float
    """Where it is cut: x of a vertical section, y of a horizontal one."""

    @property
    def lights(self) -> list[tuple[Stretch, ...]]:
        """The panes that are cut, light by light; one bound stands before, between and after them."""
        return [tuple(group) for _, group in groupby(self.stretches, key=lambda stretch: stretch.light.number)]

    @property
    def turned(self) -> tuple[str, ...]:
        """What the cut meets on a slant and shows turned square to it, in words."""
        ends = ((self.bounds[0][0], self.stretches[0].slanting[0]), (self.bounds[-1][0], self.stretches[-1].slanting[1]))
        said = (f"{tag} shown cut square to its length, which slants {angle:.1f}° here" for tag, angle in ends if angle)
        return tuple(dict.fromkeys(said))

    def moved(self, t: float) -> float:
        """Where a place along the cut is drawn when lengths before it are left out."""
        return t - sum(min(max(t, low), high) - low for low, high in self.gone)

    def corner(self, t: float, v: float, bulge: float = 0.0) -> Corner:
        """A place of the section on the page; t as drawn."""
        return Corner(v, t, bulge) if self.axis == 0 else Corner(t, v, bulge)

    def box(self, low: float, out: float, high: float, inner: float) -> Outline:
        """A rectangle from t to t (as drawn) and v to v."""
        return rectangle(out, low, inner, high) if self.axis == 0 else rectangle(low, out, high, inner)

    def reach(self) -> Box:
        """The box round all profiles, on the page: from frame edge to frame edge, lips of sashes included."""
        names = {profile for _, profile, _ in self.bounds} | ({"sash"} if any(s.light.sashes for s in self.stretches) else set())
        depth, ends = self.window.system.depth, [0.0, self.window.system.depth]
        for name in sorted(names):
            section = self.window.system.profiles[name].section
            for part in (*section.body, *section.hung, *section.glazed) if section else ():
                box = part.outline.bounds
                ends += [depth - box.top, depth - box.bottom] if self.window.reversed else [box.bottom, box.top]
        for stretch in self.stretches:
            out = glass_outer_v(self, stretch)
            for bar in stretch.pane.bars:
                if bar.kind == "on-face":
                    ends += [out - bar.depth, out + stretch.pane.make_up.thickness + bar.depth]
        first, last = self.moved(self.bounds[0][2]), self.moved(self.bounds[-1][2])
        return self.box(first, min(ends), last, max(ends)).bounds

    def placed(self, outline: Outline, datum: float, sign: float) -> Outline:
        """An outline in u, v with its datum at t = datum, u running towards larger t where sign is 1."""
        base, depth = self.moved(datum), self.window.system.depth
        over = self.window.reversed
        corners = [self.corner(base + sign * c.x, depth - c.y if over else c.y, c.bulge) for c in outline.corners]
        # Each of these turns the outline's sense round: u running down, v from the room, and t up the page.
        if (sign < 0) ^ over ^ (self.axis == 0):
            bulges = [c.bulge for c in corners]
            ends = [*corners[1:], corners[0]]
            corners = [Corner(c.x, c.y, bulge) for c, bulge in zip(ends, bulges, strict=True)][::-1]
        return Outline(tuple(corners))


def run_along(window: Window, axis: int, at: float, shorten_to: float | None = None, gap: float = 0.0) -> Run:
    """What the line x = at (axis 0) or y = at (axis 1) meets; glass longer than `shorten_to` mm is left out in its middle."""
    lights = lights_cut(window, axis, at)
    along = 1 - axis
    stretches = [stretch for light in lights for stretch in _stretches(window, light, axis, at)]
    first, last = stretches[0], stretches[-1]
    bounds = [(first.light.region.sides[first.edges[0]].tag, "frame", first.datum[0])]
    bounds += [(bar.tag, bar.profile, bar.outer[0][along]) for bar in bars_between(window, lights, axis)]
    bounds.append((last.light.region.sides[last.edges[1]].tag, "frame", last.datum[1]))
    gone = [
        part for stretch in stretches if shorten_to is not None
        for part in _left_out(stretch, bars_cut(stretch.pane, axis, at), shorten_to, gap)
    ]
    return Run(window, axis, tuple(stretches), tuple(bounds), tuple(gone), gap, at)


def _left_out(
    stretch: Stretch, bars: Sequence[tuple[GlazingBar, float, float]], shorten_to: float, gap: float
) -> Iterator[tuple[float, float]]:
    """What of a light's glass is left out, so that `shorten_to` of it stays: the middle of each part between glazing bars."""
    stops = [stretch.low, *(place for _, low, high in bars for place in (low, high)), stretch.high]
    kept = max(shorten_to / (len(bars) + 1), 3 * gap if bars else 0.0)
    for low, high in zip(stops[::2], stops[1::2], strict=True):
        over = high - low - kept
        if over > 1.0:
            middle = (low + high) / 2
            yield middle - over / 2, middle + over / 2


def _stretches(window: Window, light: Light, axis: int, at: float) -> list[Stretch]:
    """The panes of one light along the cut; where it passes between two sashes, the first of them."""
    number = len(light.panes)
    inside = [i for i in range(number) if number == 1 or _meets(light.sashes[i].outer.outline, axis, at)] or [0]
    found = [_stretch(window, light, i, axis, at) for i in inside]
    return sorted(found, key=lambda stretch: stretch.low)


def _meets(outline: Outline, axis: int, at: float) -> bool:
    box = outline.bounds
    return box[axis] < at < box[axis + 2] and chord(outline, axis, at) is not None


def _stretch(window: Window, light: Light, number: int, axis: int, at: float) -> Stretch:
    """One pane along the cut.

    A member that the cut meets on a slant is laid out from the visible glass by its own figures, as a cut square to it
    would show it.
    """
    pane, system = light.panes[number], window.system
    held = light.sashes[number] if light.sashes else None
    outlines = [pane.sight.outline, pane.cut.outline, held.outer.outline if held else light.region.outline, light.region.outline]
    found = [_crossed(outline, axis, at) for outline in outlines]
    places: list[tuple[float, float, float]] = []
    slanting = []
    for end, sign in ((0, -1.0), (1, 1.0)):
        sight, edge = found[0][end], found[3][end]
        angle = max(sight.out_of_square, edge.out_of_square)
        if angle <= SQUARE_DEGREES:
            places.append((found[1][end].at, found[2][end].at, edge.at))
            slanting.append(0.0)
            continue
        bounding = system.profiles[light.region.sides[edge.edge].profile]
        holder = system.profiles["sash"] if held else bounding
        outer = sight.at + sign * holder.sight
        glass = sight.at + sign * (holder.sight - holder.rebate - system.edge_clearance)
        datum = outer + sign * (bounding.sash or 0.0) if held else outer
        places.append((glass, outer, datum))
        slanting.append(angle)
    (g0, s0, d0), (g1, s1, d1) = places
    return Stretch(
        light, pane, held, found[0][0].at, found[0][1].at, (g0, g1), (s0, s1), (d0, d1),
        (found[3][0].edge, found[3][1].edge), (found[2][0].edge, found[2][1].edge), (slanting[0], slanting[1]),
    )


def _crossed(outline: Outline, axis: int, at: float) -> tuple[Crossing, Crossing]:
    """Where the cut enters and leaves an outline; beside it, where the nearest cut would."""
    box = outline.bounds
    found = chord(outline, axis, at)
    if found is None:
        inside = min(1.0, (box[axis + 2] - box[axis]) / 4)
        found = chord(outline, axis, min(max(at, box[axis] + inside), box[axis + 2] - inside))
    assert found is not None, "a line inside the bounds of an outline crosses it"
    return found


def bars_cut(pane: Pane, axis: int, at: float) -> list[tuple[GlazingBar, float, float]]:
    """The glazing bars of a pane that the line x = at (axis 0) or y = at (axis 1) crosses, and from where to where, from its low end."""
    found = [(bar, low, high) for bar in pane.bars for low, high in spans(bar.face, axis, at)]
    return sorted(found, key=lambda item: item[1])


def plane_v(run: Run, stretch: Stretch) -> float:
    """How far in from the outer plane a sash lies that slides past another, mm; 0 where there is one plane."""
    sliding = run.window.system.ways.sliding
    return (stretch.held.leaf.plane or 0) * sliding.step if stretch.held and sliding else 0.0


def room_in_depth(run: Run, stretch: Stretch) -> float:
    """How much of the frame's depth a sash without an outline takes: all of it, or one of two planes."""
    depth, sliding = run.window.system.depth, run.window.system.ways.sliding
    two = stretch.held is not None and stretch.held.leaf.plane is not None and sliding is not None
    return min(sliding.step, depth - sliding.step) if two and sliding else depth


def glass_outer_v(run: Run, stretch: Stretch) -> float:
    """Depth (v) of the outer face of the unit: where its holder says, else in the middle of the frame's depth, mm."""
    system, pane = run.window.system, stretch.pane
    holders = {"sash"} if pane.holder == "sash" else {side.profile for side in stretch.light.region.sides}
    given = [v for v in (system.profiles[name].glass for name in sorted(holders)) if v is not None]
    thickness = pane.make_up.thickness
    if not given:
        return plane_v(run, stretch) + (room_in_depth(run, stretch) - thickness) / 2
    return system.depth - given[0] - thickness if run.window.reversed else given[0] + plane_v(run, stretch)
