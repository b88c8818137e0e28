"""What a fixing keeps clear of along one edge of a frame of any shape: corners, vents, hinges, keeps and other hardware, by the system's figures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from elevations.catalogue.hardware_places import HardwarePlaces
from elevations.geometry.along import chord, distance_along
from elevations.geometry.hardware import fitted
from elevations.geometry.hardware_places import down_the_lock, places_of, places_of_light
from elevations.geometry.window import Light, Sash, Window
from elevations.plane import Point

KEEP_AT_HANDLE = HardwarePlaces("handle", "frame", "keep")
"""One keep is taken across from the handle where the hardware says no place for any: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Zone:
    """Where along an edge no fixing should be, mm from where its fixings are measured."""

    low: float
    high: float
    what: str
    distance: float


@dataclass(frozen=True, slots=True)
class FrameEdge:
    """One edge of a frame, as its fixings are set out on it: jambs from their upper end, the others from the left."""

    window: Window
    number: int
    """Of the frame's outline."""
    tag: str
    starts: bool
    """Whether the outline runs the same way."""

    @property
    def length(self) -> float:
        """Along it, mm."""
        return self.window.frame.outline.length(self.number)

    def along(self, place: Point) -> float | None:
        """How far along it a point lies, mm; None of one that is not on it."""
        found = distance_along(self.window.frame.outline, self.number, place)
        return found if found is None or self.starts else self.length - found

    def bars(self) -> list[float]:
        """Where the centre lines of bars end on it, mm along."""
        ends = (self.along(end) for bar in self.window.bars for end, met in zip(bar.outer, bar.meets, strict=True) if met == self.tag)
        return [at for at in ends if at is not None]


def frame_edges(window: Window) -> list[FrameEdge]:
    """Every edge of a frame."""
    box = window.frame.outline.bounds
    edges = window.shape.edges(box.width, box.height)
    return [FrameEdge(window, number, edge.tag, edge.side in ("left", "sill")) for number, edge in enumerate(edges)]


def zones(edge: FrameEdge) -> list[Zone]:
    """What a system's `keep_clear` asks for along one edge."""
    found = []
    corner = edge.window.system.frame_fixings.clear_of("corner")
    if corner is not None:
        joint = "the joint of the corner's reinforcement"
        found += [Zone(-1.0, corner, joint, corner), Zone(edge.length - corner, edge.length + 1.0, joint, corner)]
    for light in edge.window.lights:
        if edge.tag in {side.tag for side in light.region.sides}:
            found += [*_of_vent(edge, light), *_of_hardware(edge, light)]
    return found


def _of_vent(edge: FrameEdge, light: Light) -> Iterator[Zone]:
    """A slot vent stands in the frame over the middle of its light; under a slope or an arch its length is along it."""
    figures, middle = edge.window.system.frame_fixings, light.region.outline.bounds.centre.x
    vent, over = figures.clear_of("vent"), chord(edge.window.frame.outline, 0, middle)
    if vent is None or not light.spec.vent or over is None or over[1].edge != edge.number:
        return
    at, half = edge.along(Point(middle, over[1].at)), light.spec.vent * figures.vent_length / 2
    if at is not None:
        yield Zone(at - half - vent, at + half + vent, f"the vent over light {light.number}", vent)


def _of_hardware(edge: FrameEdge, light: Light) -> Iterator[Zone]:
    """Where the system's hardware says its places, by those; its figures for fixings stand in for what it does not say."""
    window, figures = edge.window, edge.window.system.frame_fixings
    found = [(place.kind, "", place.at) for place in places_of_light(window, light) if place.member.tag == edge.tag]
    for sash in light.sashes:
        if sash.dummy or sash.leaf.follows or not sash.hinge_edges:
            continue
        said = _listed(window, light, sash)
        rules = [] if "keep" in said else [KEEP_AT_HANDLE]
        if figures.hinges_from_end is not None and "hinge" not in said:
            rules.append(HardwarePlaces("hinge", "frame", "hinge", figures.hinges_from_end))
        found += [(place.kind, "", place.at) for rule in rules for place in places_of(window, light, sash, rule) if place.member.tag == edge.tag]
        found += _down(edge, light, sash)
    for kind, more, at in found:
        clear, along = figures.clear_of(kind if kind in NAMED else "hardware"), edge.along(at)
        if clear is not None and along is not None:
            yield Zone(along - clear, along + clear, f"{NAMED.get(kind, f'the {kind}')} of light {light.number}{more}", clear)


NAMED = {"hinge": "a hinge", "keep": "the keep"}


def _listed(window: Window, light: Light, sash: Sash) -> set[str]:
    """What the hardware of a sash says the places of: keep; hinge, where the item that carries it has its own."""
    items = [item for of, item in fitted(window, light) if of.tag == sash.tag and item.places is not None]
    keeps = {"keep" for item in items if item.places is not None and item.places.called == "keep"}
    return keeps | {"hinge" for item in items if item.mass_kg is not None}


def _down(edge: FrameEdge, light: Light, sash: Sash) -> list[tuple[str, str, Point]]:
    """Keeps that the system counts from the top of the lock stile."""
    downs = edge.window.system.frame_fixings.keeps
    places = [(down, down_the_lock(edge.window, light, sash, down)) for down in downs]
    return [("keep", f", {down:g} from the top of its sash", place.at) for down, place in places if place is not None and place.member.tag == edge.tag]
