"""What a cutting line meets, laid out along it: members, beads, gaskets, steel and glass, in page coordinates."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from elevations.catalogue.opening_figures import FLOATING_STILE
from elevations.catalogue.system import Part, PartKind, Profile
from elevations.drawing.layers import Layer
from elevations.geometry.along import Crossing, chord, spans
from elevations.geometry.window import GlazingBar, Light, Member, Pane, Sash, Window
from elevations.openings.base import in_half
from elevations.plane import Box, Corner, Outline, Point, rectangle
from elevations.views.cuts import SQUARE_DEGREES, bars_between, lights_cut

SEAL_MM, SPACER_MM = 4.0, 7.0   # from the unit's edge: outer seal, then spacer; common practice, no source
MEMBER_LAYERS = {"frame": Layer.FRAME, "mullion": Layer.BARS, "transom": Layer.BARS, "sash": Layer.SASH, FLOATING_STILE: Layer.SASH}
PART_LAYERS = {PartKind.GASKET: Layer.GASKET, PartKind.BEAD: Layer.BEAD, PartKind.STEEL: Layer.STEEL}


@dataclass(frozen=True, slots=True)
class Piece:
    """One closed shape of the section, on the page."""

    kind: str
    """profile, chamber, gasket, bead, reinforcement, box, pane, seal or spacer."""
    layer: Layer
    outline: Outline


@dataclass(frozen=True, slots=True)
class Thing:
    """A member or a pane with its shapes."""

    tag: str
    words: str
    pieces: tuple[Piece, ...]


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


def things(run: Run) -> list[Thing]:
    """Every member and pane that is cut, from the low end of the cut to the high one."""
    found = []
    lights = run.lights
    for i, (tag, profile, datum) in enumerate(run.bounds):
        below = lights[i - 1][-1] if i > 0 else None
        above = lights[i][0] if i < len(lights) else None
        found.append(_bounding(run, tag, profile, datum, below, above))
        if above is not None:
            for stretch in lights[i]:
                found += _within(run, stretch)
            if len(lights[i]) > 1:
                found += [_floating_stile(run, stretch.held.stile) for stretch in lights[i] if stretch.held and stretch.held.stile]
    return found


def _floating_stile(run: Run, stile: Member) -> Thing:
    """The stile between a pair of sashes, on their meeting line."""
    system, x = run.window.system, stile.outer[0].x
    parts, pair = system.profile(stile.profile).section, system.ways.pair
    if parts is None:
        half = pair.gap / 2 if pair else 0.0
        box = run.box(run.moved(x) - half, 0.0, run.moved(x) + half, system.depth)
        return Thing(stile.tag, stile.profile, (Piece("box", Layer.SASH, box),))
    return Thing(stile.tag, stile.profile, tuple(_pieces(run, parts.body, stile.profile, x, 1.0)))


def _bounding(run: Run, tag: str, name: str, datum: float, below: Stretch | None, above: Stretch | None) -> Thing:
    """A frame member or bar, with what its neighbours call for on each side."""
    profile = run.window.system.profiles[name]
    sides = [(stretch, sign) for stretch, sign in ((below, -1.0), (above, 1.0)) if stretch is not None]
    if profile.section is None:
        reach = {sign: _box_reach(profile, hung=stretch.held is not None) for stretch, sign in sides}
        low, high = -reach.get(-1.0, 0.0), reach.get(1.0, 0.0)
        start = run.moved(datum)
        box = run.box(start + low, 0.0, start + high, run.window.system.depth)
        return Thing(tag, name, (Piece("box", MEMBER_LAYERS[name], box),))
    pieces = _pieces(run, profile.section.body, name, datum, 1.0 if above is not None else -1.0)
    for stretch, sign in sides:
        parts = profile.section.hung if stretch.held else profile.section.glazed
        pieces += _pieces(run, [_changed_over(run, stretch, sign, part) for part in parts], name, datum, sign)
    return Thing(tag, name, tuple(pieces))


def _changed_over(run: Run, stretch: Stretch, sign: float, part: Part) -> Part:
    """What a sash closes against, on the other side of it where this half of the sash moves the other way than the system's sashes."""
    half = stretch.held.leaf.half_in if stretch.held else ""
    if not half or stretch.held is None:
        return part
    middle = stretch.held.outer.outline.bounds.centre
    end = stretch.sash[0] if sign > 0 else stretch.sash[1]
    place = Point(run.at, end) if run.axis == 0 else Point(end, run.at)
    if in_half(half, place, middle) == (run.window.system.swing == "in"):
        return part
    depth = run.window.system.depth
    turned = [Corner(b.x, depth - b.y, a.bulge) for a, b in part.outline.edges()]
    return Part(part.kind, Outline(tuple(reversed(turned))))


def _box_reach(profile: Profile, *, hung: bool) -> float:
    """How far a member without an outline is drawn from its datum: clear of the sash where one hangs in it."""
    return min(profile.rebate, profile.sash or profile.rebate) if hung else profile.rebate


def _pieces(run: Run, parts: Sequence[Part], profile: str, datum: float, sign: float) -> list[Piece]:
    return [
        Piece(part.kind.value, PART_LAYERS.get(part.kind, MEMBER_LAYERS[profile]), run.placed(part.outline, datum, sign))
        for part in parts
    ]


def _within(run: Run, stretch: Stretch) -> list[Thing]:
    """The sash members and the glass of one light."""
    found = [_sash_member(run, stretch, stretch.held, end) for end in (0, 1)] if stretch.held else []
    return [*found, _glass(run, stretch), *_glazing_bars(run, stretch)]


def _sash_member(run: Run, stretch: Stretch, sash: Sash, end: int) -> Thing:
    """The rail or stile at the low (0) or high (1) end of a sash."""
    profile, depth = run.window.system.profiles["sash"], run.window.system.depth
    datum, sign = stretch.sash[end], (1.0, -1.0)[end]
    if profile.section is None:
        ends = sorted((run.moved(datum), run.moved(datum) + sign * profile.rebate))
        pieces = [Piece("box", Layer.SASH, run.box(ends[0], 0.0, ends[1], depth))]
    else:
        pieces = _pieces(run, profile.section.body + profile.section.glazed, "sash", datum, sign)
    return Thing(sash.members[stretch.rails[end]].tag, "sash", tuple(pieces))


def bars_cut(pane: Pane, axis: int, at: float) -> list[tuple[GlazingBar, float, float]]:
    """The glazing bars of a pane that the line x = at (axis 0) or y = at (axis 1) crosses, and from where to where, from its low end."""
    found = [(bar, low, high) for bar in pane.bars for low, high in spans(bar.face, axis, at)]
    return sorted(found, key=lambda item: item[1])


def _glazing_bars(run: Run, stretch: Stretch) -> list[Thing]:
    """Each bar that is cut, as a plain box: one on each face of the glass, or one in the middle of the outer cavity."""
    out, layers = glass_outer_v(run, stretch), stretch.pane.make_up.layers
    made: list[Thing] = []
    depths: tuple[tuple[float, float], ...]
    for bar, low, high in bars_cut(stretch.pane, run.axis, run.at):
        if bar.kind == "on-face":
            depths = ((out - bar.depth, out), (out + sum(layers), out + sum(layers) + bar.depth))
        else:
            middle = out + layers[0] + layers[1] / 2
            depths = ((middle - bar.depth / 2, middle + bar.depth / 2),)
        boxes = [run.box(run.moved(low), outer, run.moved(high), inner) for outer, inner in depths]
        made.append(Thing(bar.tag, f"glazing bar, {bar.kind}", tuple(Piece("glazing-bar", Layer.GLAZING_BAR, box) for box in boxes)))
    return made


def glass_outer_v(run: Run, stretch: Stretch) -> float:
    """Depth (v) of the outer face of the unit: where its holder says, else in the middle of the frame's depth, mm."""
    system, pane = run.window.system, stretch.pane
    holders = {"sash"} if pane.holder == "sash" else {side.profile for side in stretch.light.region.sides}
    given = [v for v in (system.profiles[name].glass for name in sorted(holders)) if v is not None]
    thickness = pane.make_up.thickness
    if not given:
        return (system.depth - thickness) / 2
    return system.depth - given[0] - thickness if run.window.reversed else given[0]


def _glass(run: Run, stretch: Stretch) -> Thing:
    """Panes in pieces where the unit is shortened; seals and spacers at both ends of each cavity."""
    pane = stretch.pane
    ends = run.moved(stretch.glass[0]), run.moved(stretch.glass[1])
    breaks = [run.moved(low) + half for low, _ in run.gone if stretch.low < low < stretch.high for half in (-run.gap / 2, run.gap / 2)]
    places = [ends[0], *breaks, ends[1]]
    v, pieces = glass_outer_v(run, stretch), []
    for i, thickness in enumerate(pane.make_up.layers):
        if i % 2 == 0:
            pieces += [
                Piece("pane", Layer.GLASS_CUT, run.box(low, v, high, v + thickness))
                for low, high in zip(places[::2], places[1::2], strict=True)
            ]
        else:
            for end, sign in ((ends[0], 1.0), (ends[1], -1.0)):
                edges = end, end + sign * SEAL_MM, end + sign * (SEAL_MM + SPACER_MM)
                pieces += [
                    Piece(kind, Layer.GLASS_CUT, run.box(min(a, b), v, max(a, b), v + thickness))
                    for kind, a, b in (("seal", edges[0], edges[1]), ("spacer", edges[1], edges[2]))
                ]
        v += thickness
    return Thing(pane.tag, f"glass {pane.make_up.make_up}", tuple(pieces))
