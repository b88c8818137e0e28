"""Where hardware sits on sashes and frames: stays, hinges, pivots, keeps, handles, by the places that the system gives its items."""

from __future__ import annotations

import math
from collections.abc import Iterator

from elevations.catalogue.hardware_places import USUAL_PAST_CORNER_MM, HardwarePlaces
from elevations.catalogue.system import System
from elevations.geometry.along import edge_words, place_on
from elevations.geometry.evenly import even_between
from elevations.geometry.hardware import fitted
from elevations.geometry.place import Place, foot_on
from elevations.geometry.stations import figure
from elevations.geometry.window import Light, Member, Sash, Window
from elevations.openings.base import OPPOSITE
from elevations.plane import SAME_MM, Point

HANDLE = HardwarePlaces("handle", "sash", "handle")
"""Of a sash whose system lists no handle, where the job gives its height."""
UPRIGHT = ("left", "right")


def hardware_places(window: Window) -> Iterator[Place]:
    """Every place of every item that the window's sashes get, light by light: what machining lists and all else keeps clear of."""
    for light in window.lights:
        yield from places_of_light(window, light)


def places_of_light(window: Window, light: Light) -> Iterator[Place]:
    """Every place of every item that the sashes of one light get, on them and on what they close against."""
    known = {member.tag: member for member in (*window.members, *window.bars)}
    placed = set()
    for sash, item in fitted(window, light):
        if item.places is not None:
            yield from _places(window, light, sash, item.places, f"{sash.tag} {item.item}", known)
            placed.add((sash.tag, item.places.on))
    for sash in light.sashes if light.spec.handle_height is not None else ():
        if not sash.leaf.follows and (sash.tag, "handle") not in placed:
            yield from _places(window, light, sash, HANDLE, sash.tag, known)


def _places(window: Window, light: Light, sash: Sash, rule: HardwarePlaces, what: str, known: dict[str, Member]) -> Iterator[Place]:
    outline, words = sash.outer.outline, edge_words(sash.outer.outline)
    for word in edges_of(rule.on, sash):
        if word not in words or outline.corners[words.index(word)].bulge:
            continue   # of a shaped sash: no one straight edge is there
        edge = words.index(word)
        for along in _along(light, sash, rule, edge):
            at, _ = place_on(outline, edge, along)
            if rule.piece != "frame":
                yield Place(sash.members[edge], at, rule.called, what)
            member = _beside(window, light, word, at, known) if rule.piece != "sash" else None
            if member is not None:
                yield Place(member, foot_on(member, at), rule.called, what)


def edges_of(on: str, sash: Sash) -> tuple[str, ...]:
    """The edges of a sash that a rule speaks of: left, right, top, bottom; none where it has no such edge."""
    hinge = sash.hinge_edges[0] if sash.hinge_edges else None
    opens = {"up": "top", "down": "bottom"}.get(sash.leaf.slides, sash.leaf.slides)
    still = hinge or opens
    if on in ("across", "handle"):
        return (OPPOSITE[still],) if still else ()
    if on == "axis" and sash.leaf.half_in:
        return UPRIGHT if sash.leaf.half_in == "top" else ("top", "bottom")
    if on == "bottom":
        return ("bottom",)
    if hinge is None or on == "axis":
        return ()
    return (hinge,) if on == "hinge" else tuple(edge for edge in OPPOSITE if edge not in (hinge, OPPOSITE[hinge]))


def straight_span(sash: Sash, edge: str) -> tuple[float, float] | None:
    """From where to where, in y, an upright edge of a sash is one straight; None where it is none."""
    words, outline = edge_words(sash.outer.outline), sash.outer.outline
    if edge not in words or outline.corners[words.index(edge)].bulge:
        return None
    number = words.index(edge)
    ends = outline.corners[number].y, outline.corners[(number + 1) % len(words)].y
    return min(ends), max(ends)


def handle_level(light: Light, sash: Sash, edge: str) -> float:
    """Y of a handle on a stile: as high as the job says, else in the middle of the stile, as far as that is one straight."""
    box, height = sash.outer.outline.bounds, light.spec.handle_height
    if height is not None:
        return box.bottom + height
    low, high = straight_span(sash, edge) or (box.bottom, box.top)
    return (low + high) / 2


def handle_from_end(system: System, opening: str, rail_mm: float) -> float:
    """The least distance of a handle's middle from the ends of its stile, mm: as the system's handles say, else past the rail's corner."""
    given = [
        item.places.from_end_mm for item in system.hardware
        if opening in item.openings and item.places is not None and item.places.on == "handle" and item.places.from_end_mm
    ]
    return min(given) if given else rail_mm + USUAL_PAST_CORNER_MM


def _along(light: Light, sash: Sash, rule: HardwarePlaces, edge: int) -> tuple[float, ...]:
    """Places along an edge of a sash, mm from its start."""
    outline = sash.outer.outline
    words, count, length = edge_words(outline), len(outline.corners), outline.length(edge)
    if rule.on == "axis":
        return (length / 2,)
    if rule.on == "handle":
        return (abs(handle_level(light, sash, words[edge]) - outline.corners[edge].y) if words[edge] in UPRIGHT else length / 2,)
    near = min(rule.from_end_mm, length)
    if rule.on == "beside":
        return (near if words[edge - 1] == sash.hinge_edges[0] else length - near,) if sash.hinge_edges[0] in (words[edge - 1], words[(edge + 1) % count]) else ()
    far = length - near
    if far - near < SAME_MM:
        return (length / 2,)
    between = () if rule.spacing_mm is None else even_between(near, far, (), rule.spacing_mm)
    return (near, *between, far)


def _beside(window: Window, light: Light, word: str, at: Point, known: dict[str, Member]) -> Member | None:
    """The member that an edge of a sash closes against; None where it meets another sash."""
    words = edge_words(light.region.outline)
    if word not in words:
        return None
    edge, outline = words.index(word), light.region.outline
    a, b = outline.corners[edge], outline.corners[(edge + 1) % len(outline.corners)]
    away = abs((b.x - a.x) * (at.y - a.y) - (b.y - a.y) * (at.x - a.x)) / math.dist(a[:2], b[:2])
    side = light.region.sides[edge]
    return known[side.tag] if not a.bulge and abs(away - figure(window.system, side.profile, "sash")) < SAME_MM else None


def places_of(window: Window, light: Light, sash: Sash, rule: HardwarePlaces) -> Iterator[Place]:
    """The places of one rule, on the sash or on what it closes against."""
    yield from _places(window, light, sash, rule, sash.tag, {member.tag: member for member in (*window.members, *window.bars)})


def down_the_lock(window: Window, light: Light, sash: Sash, down: float) -> Place | None:
    """What a sash's lock stile closes against, so many mm from the stile's top; None where it has no such stile or it is shorter."""
    outline, words = sash.outer.outline, edge_words(sash.outer.outline)
    word = next((word for word in edges_of("across", sash) if word in UPRIGHT and word in words), None)
    if word is None:
        return None
    edge = words.index(word)
    a, b = outline.corners[edge], outline.corners[(edge + 1) % len(outline.corners)]
    at = Point(a.x, max(a.y, b.y) - down)
    known = {member.tag: member for member in (*window.members, *window.bars)}
    member = _beside(window, light, word, at, known) if down < abs(a.y - b.y) else None
    return None if member is None else Place(member, foot_on(member, at), "keep", sash.tag)
