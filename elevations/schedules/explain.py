"""How a size came about: the thing that somebody asks for, and the workings of its sizes.

Nothing is worked out here: what is shown is the record that the geometry core made the size from.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

from elevations.geometry.fit_fixing import holds, kind_of_side
from elevations.geometry.neighbours import joined_sides
from elevations.geometry.stations import ROUNDED_DOWN
from elevations.geometry.window import (
    GLASS_KG_PER_M2_MM,
    Bar,
    FixingPoint,
    GlazingBar,
    Light,
    Member,
    Pane,
    Sash,
    Window,
    whole_mm,
)
from elevations.schedules.fit import fit_words
from elevations.schedules.glazing_bars import KIND_WORDS
from elevations.schedules.pieces import cut_notes, end_cuts, members_of
from elevations.schedules.table import tidy
from elevations.spelling import did_you_mean
from elevations.working import Working


class UnknownNameError(LookupError):
    """A mark, tag or kind that the job does not have. `message` and `hint` are for the user."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message, self.hint = message, hint


@dataclass(frozen=True, slots=True)
class Size:
    """One size of a thing, its working, and the figure that schedules and drawings show."""

    name: str
    working: Working
    shown: float
    rounding: str
    """How `shown` came from the working's value."""


@dataclass(frozen=True, slots=True)
class Explanation:
    """A thing, what it is in words, and how its sizes came about."""

    tag: str
    facts: tuple[str, ...]
    sizes: tuple[Size, ...]


def explain(window: Window, kind: str, tag: str = "") -> Explanation:
    """The explanation of one thing of a window: `kind` is a key of KINDS, `tag` its tag in that window.

    A tag alone ('G2', given as `kind`) will do, and so will the name of a frame member. Raises UnknownNameError.
    """
    if kind in KINDS:
        return _of_kind(window, kind, tag)
    wanted = f"{kind} {tag}".strip()
    for things in KINDS.values():
        found = _pick(window, things(window), wanted)
        if found is not None and not wanted.isdecimal():
            return found
    raise UnknownNameError(
        f"{window.mark} has nothing called '{wanted[:60]}'",
        did_you_mean(kind, [*KINDS, *_tags(window)]) or f"ask for {', '.join(KINDS)} and a tag, for example 'glass G1'",
    )


def _of_kind(window: Window, kind: str, tag: str) -> Explanation:
    things = KINDS[kind](window)
    if not tag and len(things) == 1:
        return next(iter(things.values()))()
    found = _pick(window, things, tag)
    if found is not None:
        return found
    what = f"has no {kind} '{tag[:60]}'" if tag else f"has more than one {kind}" if things else f"has no {kind}"
    there = f"it has {', '.join(things)}" if things else ""
    guess = did_you_mean(tag, things)
    raise UnknownNameError(f"{window.mark} {what}", "; ".join(text for text in (guess, there) if text))


Things = dict[str, Callable[[], Explanation]]


def _pick(window: Window, things: Things, wanted: str) -> Explanation | None:
    """The thing of that tag; capitals do not count, and the window's mark may stand before it."""
    wanted = wanted.removeprefix(f"{window.mark}-").casefold()
    return next((make() for tag, make in things.items() if tag.casefold() == wanted), None)


def _tags(window: Window) -> list[str]:
    return [tag for things in KINDS.values() for tag in things(window) if not tag.isdecimal()]


def _glass(window: Window) -> Things:
    return {pane.tag: partial(_of_pane, window, pane) for pane in window.panes}


def _sashes(window: Window) -> Things:
    return {sash.tag: partial(_of_sash, window, sash) for sash in window.sashes}


def _glazing_bars(window: Window) -> Things:
    return {bar.tag: partial(_of_glazing_bar, window, bar) for pane in window.panes for bar in pane.bars}


def _bars(window: Window) -> Things:
    return {bar.tag: partial(_of_member, window, bar) for bar in window.bars}


def _members(window: Window) -> Things:
    return {member.tag: partial(_of_member, window, member) for member in members_of(window)}


def _fixings(window: Window) -> Things:
    return {fixing.tag: partial(_of_fixing, window, fixing) for fixing in window.fixings}


def _lights(window: Window) -> Things:
    return {str(light.number): partial(_of_light, window, light) for light in window.lights}


def _window(window: Window) -> Things:
    return {window.mark: partial(_of_window, window)}


KINDS: dict[str, Callable[[Window], Things]] = {
    "glass": _glass,
    "sash": _sashes,
    "fixing": _fixings,
    "glazing-bar": _glazing_bars,
    "bar": _bars,
    "member": _members,
    "light": _lights,
    "window": _window,
}
"""What can be asked for: a pane by its tag, and so on; a light by its number."""


def _of_pane(window: Window, pane: Pane) -> Explanation:
    glass = sum(pane.make_up.layers[::2])
    light = window.lights[pane.light - 1]
    return Explanation(
        f"{window.mark}-{pane.tag}",
        (
            f"glass of light {light.number}, {light.words}; glazed in the {pane.holder}",
            f"'{pane.glass}', {pane.make_up.make_up}, {pane.make_up.thickness:g} mm thick",
            (f"area {tidy(pane.area_m2, 3):.3f} m2; mass {glass:g} mm of glass x {GLASS_KG_PER_M2_MM:g} kg/m2 per mm "
            f"x {pane.area_m2:.3f} m2 = {tidy(pane.mass_kg, 1):.1f} kg"),
        ),
        (
            _cut("cut width", pane.width), _cut("cut height", pane.height),
            _tenth("sight width", pane.sight.width), _tenth("sight height", pane.sight.height),
        ),
    )


def _of_sash(window: Window, sash: Sash) -> Explanation:
    light = window.lights[sash.light - 1]
    return Explanation(
        f"{window.mark}-{sash.tag}", (f"sash of light {light.number}, {light.words}; overall, before its corners are welded",),
        (_tenth("width", sash.outer.width), _tenth("height", sash.outer.height)),
    )


def _of_member(window: Window, member: Member) -> Explanation:
    sizes = [_tenth("cut length", member.length)]
    facts = [f"{member.profile} profile of {window.system.title}"]
    if isinstance(member, Bar):
        end = "left" if member.upright else "top"
        sizes.insert(0, _tenth(f"centre line, from the {end} of the frame", member.centre))
        facts.append(f"joins {member.meets[0]} and {member.meets[1]}")
    facts.append("; ".join([f"end cuts {end_cuts(member).words} degrees, the top or left end first", *cut_notes(member)]))
    return Explanation(f"{window.mark} {member.tag}", tuple(facts), tuple(sizes))


def _of_glazing_bar(window: Window, bar: GlazingBar) -> Explanation:
    sizes = [_tenth("visible length", bar.length)]
    if bar.centre is not None:
        sizes.insert(0, _tenth(f"centre line, from the {'left' if bar.upright else 'top'} of the frame", bar.centre))
    fact = f"glazing bar of {bar.pane}, {KIND_WORDS[bar.kind]}, {bar.width:g} wide, ends {bar.ends}"
    return Explanation(f"{window.mark}-{bar.tag}", (fact,), tuple(sizes))


def _of_fixing(window: Window, fixing: FixingPoint) -> Explanation:
    corner = min(fixing.along.value, fixing.side_length - fixing.along.value)
    return Explanation(
        f"{window.mark}-{fixing.tag}",
        (f"{fixing.kind} fixing in the {fixing.side}, {tidy(corner, 1)} from the nearer corner", *_held(window, fixing)),
        (_tenth(f"distance along the {fixing.side}, from its {fixing.measured_from}", fixing.along),),
    )


def _held(window: Window, fixing: FixingPoint) -> tuple[str, ...]:
    """With what, where the job describes the wall or another frame is joined there."""
    told = (window.site and window.site.wall) or fixing.side in joined_sides(window.neighbours)
    return (holds(window)[kind_of_side(fixing.side)].words(),) if told else ()


def _of_light(window: Window, light: Light) -> Explanation:
    panes = ", ".join(pane.tag for pane in light.panes)
    sashes = ", ".join(sash.tag for sash in light.sashes)
    holds = f"glass {panes}" + (f" in sash {sashes}" if sashes else "")
    return Explanation(
        f"{window.mark} light {light.number}", (f"{light.words}{' (fanlight)' if light.fanlight else ''}; {holds}",),
        (_tenth("width between frame edges or bar centre lines", light.region.width),
         _tenth("height between frame edges or bar centre lines", light.region.height)),
    )


def _of_window(window: Window) -> Explanation:
    return Explanation(
        window.mark, tuple(text for text in (window.location, window.system.title, *_fit(window)) if text),
        (_tenth("overall frame width", window.width), _tenth("overall frame height", window.height),
         *(_tenth(f"{name} of the head" if name == "rise" else f"height of the {name}", working) for name, working in _head_sizes(window))),
    )


def _fit(window: Window) -> Sequence[str]:
    """How it stands in its opening, where that was surveyed."""
    return fit_words(window) if window.site and window.site.fitted else ()


def _head_sizes(window: Window) -> tuple[tuple[str, Working], ...]:
    """Sizes of a shaped head that follow from its surveyed opening."""
    return window.site.fitted.head if window.site and window.site.fitted else ()


def _cut(name: str, working: Working) -> Size:
    return Size(name, working, whole_mm(working.value), ROUNDED_DOWN)


def _tenth(name: str, working: Working) -> Size:
    return Size(name, working, tidy(working.value, 1), "rounded to 0.1 mm")


def sizes_of(window: Window) -> Sequence[tuple[str, Size]]:
    """Every size that can be explained, with its thing's tag: for tests that hold them against the drawings."""
    return [(made.tag, size) for things in KINDS.values() for make in things(window).values() for made in [make()] for size in made.sizes]
