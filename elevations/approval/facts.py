"""The facts that make a window the product it is, and their fingerprint.

A fact is a subject, what is said of it, and the value as text: ('light 2', 'hinge', 'left'). What is not there, or is
as it is unless somebody asks otherwise, is no fact: so a later version that learns of a new thing gives windows
without it the fingerprint they had. What changes only the paper is no fact either: marks, places, rooms, notes,
names of make-ups, comments and order in the file.

Values are written to 0.01 mm: finer than any workshop, coarser than the noise of sums.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import fields
from typing import Any, NamedTuple

from elevations.catalogue.system import System
from elevations.export.marker import printable
from elevations.geometry.fit_fixing import holds
from elevations.geometry.region import Region
from elevations.geometry.window import Light, Pane, Window
from elevations.openings import OPENINGS
from elevations.openings.base import Leaf
from elevations.plane import SAME_MM, Outline
from elevations.spec.joined import JoinedFrames
from elevations.spec.model import Glass
from elevations.spec.model import Light as LightSpec
from elevations.spec.model import Window as WindowSpec

SHORT = 4
"""Digits in each half of a fingerprint as people read it: 3f9a-1c2e."""
ELSEWHERE_OF_A_WINDOW = frozenset({
    "mark", "location", "room", "floor_to_opening", "opening", "frame", "system", "finish", "glass", "fixings", "mullions",
    "transoms", "lights", "storey", "drop", "near", "guard", "old_vent", "wind", "air_leakage", "head", "circular", "fit", "wall",
})
"""Keys of a window that are no fact (its paper, its survey) or come as facts of what they lead to. All others count."""
ELSEWHERE_OF_A_LIGHT = frozenset({"light", "hinge", "swing", "glass", "sash", "bars", "leads", "clear_opening"})
FIGURES_OF_A_SYSTEM = (
    "sash_face", "bead_side", "edge_clearance", "sash_bead_side", "weld_allowance", "hardware", "reinforcement", "drainage",
    "pressure_holes", "joining", "ways",
)
WEIGHTS = frozenset({"kg_per_m", "screw"})
"""Fields that only weigh what is there, or say how it is put together on site."""
FIGURES_OF_A_PROFILE = ("sight", "rebate", "sash", "joint", "glass", "bead", "section")
"""What of a profile system makes a product another. Its names, its stock lengths and what is only calculated from it do
not; a test asks of every new field which it is."""


class Fact(NamedTuple):
    """One thing that is true of the product."""

    subject: str
    """'frame', 'light 2', 'glass G2', 'left jamb'."""
    what: str
    """'hinge', 'size'."""
    value: str
    shown: str = ""
    """As a person reads it, where that is shorter; not part of the fingerprint."""

    @property
    def words(self) -> str:
        """The value for people."""
        return self.shown or self.value


def fingerprint(facts: Iterable[Fact]) -> str:
    """SHA-256 of the facts, 64 hexadecimal digits; the same whatever their order."""
    lines = sorted([fact.subject, fact.what, fact.value] for fact in facts)
    return hashlib.sha256(json.dumps(lines, ensure_ascii=True, separators=(",", ":")).encode()).hexdigest()


def short(whole: str) -> str:
    """A fingerprint as people read and compare it: '3f9a-1c2e'."""
    return f"{whole[:SHORT]}-{whole[SHORT : 2 * SHORT]}"


def product_facts(window: Window, spec: WindowSpec, joined: Sequence[JoinedFrames] = ()) -> tuple[Fact, ...]:
    """Every fact of a window. `spec`: what was asked for it, for whatever the resolved window does not carry; `joined`: the job's."""
    return (
        Fact("frame", "width", number(window.width.value)),
        Fact("frame", "height", number(window.height.value)),
        *_shape("frame", window.frame.outline),
        *_build(window),
        *_finish(window),
        *_members(window),
        *(fact for light in window.lights for fact in _light(light)),
        *_fixings(window),
        *_asked("frame", spec.fixings.screw.model_dump(mode="json", exclude_defaults=True, include={"frame_drill"})),
        *_asked("frame", {f"extension on the {side}": width for side, width in spec.fit.add_ons.model_dump().items() if width}),
        *_joined(window, joined),
        *_asked("window", spec.model_dump(mode="json", exclude_defaults=True, exclude=set(ELSEWHERE_OF_A_WINDOW))),
    )


def number(value: float) -> str:
    """To 0.01 mm, without trailing zeros: '526', '456.5'."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _build(window: Window) -> Iterator[Fact]:
    system = window.system
    yield Fact("profiles", "system", printable(system.name))
    yield Fact("profiles", "material", printable(system.material))
    yield Fact("profiles", "depth", number(system.depth))
    yield Fact("profiles", "figures", _figures(system))
    if window.reversed:
        yield Fact("profiles", "built", "inside out")


def _figures(system: System) -> str:
    """A short digest of a system's figures and outlines: they are many, and change together. Kept for the job's other windows."""
    known = _digests.get(id(system))
    if known is not None and known[0] is system:
        return known[1]
    held = {name: _plain(getattr(system, name)) for name in FIGURES_OF_A_SYSTEM}
    held["profiles"] = {
        name: {key: _plain(getattr(profile, key)) for key in FIGURES_OF_A_PROFILE} for name, profile in system.profiles.items()
    }
    digest = hashlib.sha256(json.dumps(held, sort_keys=True).encode()).hexdigest()[:16]
    _digests[id(system)] = system, digest
    return digest


_digests: dict[int, tuple[System, str]] = {}
"""By the system's identity, which it keeps as long as it is held here: there are as many as a job has systems."""


def _plain(value: Any) -> Any:
    """A value as text, lists and dicts: lengths to 0.01 mm, an outline as its corners.

    What holds nothing is left out, so that a field that a later version adds is no change until a system uses it.
    """
    if isinstance(value, Outline):
        return _corners(value)
    if isinstance(value, str | bool) or value is None:
        return value
    if isinstance(value, int | float):
        return number(value)
    if isinstance(value, tuple | list | frozenset | set):
        items = [_plain(item) for item in value]
        return items if isinstance(value, tuple | list) else sorted(items, key=str)
    held = value.items() if isinstance(value, dict) else ((field.name, getattr(value, field.name)) for field in fields(value))
    counted = ((str(key), _plain(item)) for key, item in held if str(key) not in WEIGHTS)
    return {key: plain for key, plain in counted if plain not in (None, False, "", [], {})}


def _corners(outline: Outline) -> str:
    return " ".join(f"{number(c.x)},{number(c.y)}{f',{c.bulge:.5f}' if c.bulge else ''}" for c in outline.corners)


def _shape(subject: str, outline: Outline) -> Iterator[Fact]:
    """The outline, where width and height do not say it all."""
    box = outline.bounds
    if abs(outline.area - box.width * box.height) > SAME_MM * (box.width + box.height):
        yield Fact(subject, "shape", _corners(outline.moved(-box.left, -box.bottom)))


def _finish(window: Window) -> Iterator[Fact]:
    for side in ("outside", "inside"):
        if code := getattr(window.finish, side):
            yield Fact("finish", side, printable(code))


def _members(window: Window) -> Iterator[Fact]:
    for member in window.members:
        yield Fact(member.tag, "cut length", number(member.length.value))
    for bar in window.bars:
        subject = f"{bar.profile} {bar.tag}"
        yield Fact(subject, "centre line", number(bar.centre.value))
        yield Fact(subject, "cut length", number(bar.length.value))


def _light(light: Light) -> Iterator[Fact]:
    subject = f"light {light.number}"
    yield Fact(subject, "opening", light.opening)
    if light.hinge:
        yield Fact(subject, "hinge", light.hinge)
    if any(not sash.dummy for sash in light.sashes):
        yield Fact(subject, "swing", light.swing)
    if any(sash.dummy for sash in light.sashes):
        yield Fact(subject, "sash", "dummy")
    yield from _asked(subject, _light_keys(light.spec))
    for sash in light.sashes:
        yield from _sized(f"sash {sash.tag}", sash.outer)
        for member in sash.members:
            # 'S1 top rail' is the top rail of sash S1
            yield Fact(f"sash {sash.tag}", f"{member.tag.removeprefix(sash.tag).strip()} cut length", number(member.length.value))
        moves = _moves(sash.leaf)
        if moves:
            yield Fact(f"sash {sash.tag}", "moves", moves)
        if sash.stile is not None:
            yield Fact(f"sash {sash.tag}", "floating stile cut length", number(sash.stile.length.value))
    for pane in light.panes:
        yield from _pane(pane)


def _moves(leaf: Leaf) -> str:
    """How a sash moves beyond what its hinge says, however the job came to ask for it; empty for a sash on its own hinges."""
    said = (
        ("half that comes in: ", leaf.half_in), ("", "after the other" if leaf.follows else ""), ("slides ", leaf.slides),
        ("", "stands still" if leaf.fixed else ""), ("plane ", "" if leaf.plane is None else str(leaf.plane)),
    )
    return ", ".join(f"{word}{value}" for word, value in said if value)


def _light_keys(spec: LightSpec) -> dict[str, Any]:
    held = spec.model_dump(mode="json", exclude_defaults=True, exclude=set(ELSEWHERE_OF_A_LIGHT))
    as_usual = {("vent", 0), *(("leads", lead) for lead in OPENINGS[spec.light].leads[:1])}   # a vent of 0 mm2 is none
    return {key: value for key, value in held.items() if not isinstance(value, str | int | float) or (key, value) not in as_usual}


def _sized(subject: str, region: Region) -> Iterator[Fact]:
    width, height = region.width.value, region.height.value
    yield Fact(subject, "size", f"{number(width)} × {number(height)}", f"{number(round(width, 1))} × {number(round(height, 1))}")
    yield from _shape(subject, region.outline)


def _pane(pane: Pane) -> Iterator[Fact]:
    subject = f"glass {pane.tag}"
    yield from _sized(subject, pane.cut)
    for bar in pane.bars:
        at = "along the edge" if bar.centre is None else f"{'upright' if bar.upright else 'level'} at {number(bar.centre.value)}"
        yield Fact(
            f"glazing bar {bar.tag} of {pane.tag}", "is",
            f"{bar.kind} {number(bar.width)} × {number(bar.depth)}, {at}, {number(bar.length.value)} long",
        )
    yield from _make_up(subject, pane.make_up)


def _make_up(subject: str, glass: Glass) -> Iterator[Fact]:
    """The make-up's own fields: its name in the job is no fact."""
    yield Fact(subject, "make-up", "/".join(number(layer) for layer in glass.layers))
    for key, value in glass.model_dump(mode="json", exclude_defaults=True, exclude={"make_up"}).items():
        if isinstance(value, list):
            value = sorted(value)  # noqa: PLW2901  toughened: [outer, inner] says what [inner, outer] says
        yield from _asked(subject, {key: value})


def _fixings(window: Window) -> Iterator[Fact]:
    sides: dict[str, list[str]] = {}
    for point in window.fixings:
        sides.setdefault(point.side, []).append(number(point.along.value))
    for side, places in sides.items():
        yield Fact(side, "fixings at", ", ".join(places))
    silled = window.site is not None and window.site.sill is not None
    for side, hold in holds(window).items():
        if hold.how == "bracket" and not (side == "sill" and silled):   # over a sill there are always brackets
            yield Fact(side, "held by", "brackets, not drilled")
        elif hold.fails and hold.how == "screw":
            yield Fact(side, "held by", "nothing yet, not drilled")


def _joined(window: Window, joined: Sequence[JoinedFrames]) -> Iterator[Fact]:
    """What the window is part of: its couplers and posts are made for its place and angles."""
    for frames in joined:
        if window.mark in frames.windows:
            place = f"{frames.windows.index(window.mark) + 1} of {len(frames.windows)}"
            angles = f", angles {', '.join(number(angle) for angle in frames.angles)}" if frames.angles else ""
            yield Fact("window", "joined", f"{frames.way}, {place}{angles}")


def _asked(subject: str, data: dict[str, Any]) -> Iterator[Fact]:
    """Whatever keys the spec gives beyond the ones above, each as a fact; blocks within blocks by their keys."""
    for key, value in data.items():
        what = key.replace("_", " ")
        if isinstance(value, dict):
            yield from (Fact(subject, f"{what} {fact.what}", fact.value) for fact in _asked(subject, value))
        elif value is not None:
            yield Fact(subject, what, _text(value))


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        # an emissivity is 0.005 at least, a length 0.01 at most: three decimals serve both
        return f"{value:.3f}".rstrip("0").rstrip(".")
    return ", ".join(_text(item) for item in value) if isinstance(value, list) else printable(str(value))
