"""What a cutting line meets, laid out along it: members, beads, gaskets, steel and glass, in page coordinates."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.catalogue.opening_figures import FLOATING_STILE
from elevations.catalogue.system import Part, PartKind, Profile
from elevations.drawing.layers import Layer
from elevations.geometry.window import Member, Sash
from elevations.openings.base import in_half
from elevations.plane import Corner, Outline, Point
from elevations.views.cut_run import Run, Stretch, bars_cut, glass_outer_v, plane_v, room_in_depth

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
                found += _meeting_seals(run, *lights[i][:2])
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


def _meeting_seals(run: Run, first: Stretch, second: Stretch) -> Iterator[Thing]:
    """What lies between two sashes that slide past each other, where they stand behind one another."""
    sliding = run.window.system.ways.sliding
    if sliding and sliding.section and first.held and first.held.leaf.plane is not None:
        middle = (first.sash[1] + second.sash[0]) / 2
        yield Thing("seal", "seal where the sashes meet", tuple(_pieces(run, sliding.section, "sash", middle, 1.0)))


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
        pieces += _pieces(run, [_changed_over(run, stretch, sign, part) for part in _in_plane(run, stretch, parts)], name, datum, sign)
    return Thing(tag, name, tuple(pieces))


def _in_plane(run: Run, stretch: Stretch, parts: Sequence[Part]) -> Sequence[Part]:
    """The parts of a sash, or of what closes it in, in the plane of this sash."""
    v = plane_v(run, stretch)
    return [Part(part.kind, part.outline.moved(0.0, v)) for part in parts] if v else parts


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
    profile = run.window.system.profiles["sash"]
    datum, sign = stretch.sash[end], (1.0, -1.0)[end]
    if profile.section is None:
        ends = sorted((run.moved(datum), run.moved(datum) + sign * profile.rebate))
        out = plane_v(run, stretch)
        pieces = [Piece("box", Layer.SASH, run.box(ends[0], out, ends[1], out + room_in_depth(run, stretch)))]
    else:
        pieces = _pieces(run, _in_plane(run, stretch, profile.section.body + profile.section.glazed), "sash", datum, sign)
    return Thing(sash.members[stretch.rails[end]].tag, "sash", tuple(pieces))


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
