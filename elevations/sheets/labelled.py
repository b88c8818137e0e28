"""What gets a label: frames, sashes and units, with what a person who handles them has to know."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from urllib.parse import quote

from elevations.drawing.explode import size_text
from elevations.geometry.hardware import measured
from elevations.geometry.window import Light, Pane, Sash, Window
from elevations.plane import Outline
from elevations.schedules.glass_order import facing_words, special_words
from elevations.schedules.lifting import lift_words, people_to_lift
from elevations.spec.model import JobInfo
from elevations.views.glass_lettering import size_words

KINDS = ("frame", "sash", "unit")


@dataclass(frozen=True, slots=True)
class Tagged:
    """One thing that gets a label."""

    kind: str
    mark: str
    tag: str
    """frame, S1, G2."""
    size: str
    words: tuple[str, ...]
    """What else is to be known of it, a line each where there is room, the most needful first."""
    outline: Outline
    """Of the thing in the window."""
    window: Window
    caution: str = ""
    """Who lifts it, where one person should not."""

    @property
    def needful(self) -> tuple[str, ...]:
        """What a label of it must say whole: who lifts it, and what a unit is and which way round it goes."""
        return tuple(text for text in (self.caution, *(self.words if self.kind == "unit" else ())) if text)


def things(windows: Sequence[Window], kinds: Sequence[str] = KINDS) -> Iterator[Tagged]:
    """Frames, sashes and units, window by window."""
    for window in windows:
        made: list[Tagged] = []
        if "frame" in kinds:
            size = f"{window.width.value:g} × {window.height.value:g}"
            finish = " / ".join(part for part in (window.finish.outside, window.finish.inside) if part)
            made.append(Tagged("frame", window.mark, "frame", size, (", ".join(part for part in (window.system.name, finish) if part),), window.frame.outline, window))
        lights = {light.number: light for light in window.lights}
        if "sash" in kinds:
            for sash in window.sashes:
                size, light = size_text(sash.outer.outline.bounds), lights[sash.light]
                made.append(Tagged("sash", window.mark, sash.tag, size, (light.words,), sash.outer.outline, window, _lift_sash(window, light, sash)))
        if "unit" in kinds:
            made += [
                Tagged("unit", window.mark, pane.tag, size_words(pane), _of_unit(window, pane), pane.cut.outline, window, _lift(pane))
                for pane in window.panes
            ]
        yield from made


def _of_unit(window: Window, pane: Pane) -> tuple[str, ...]:
    """Its build and mass, what is special about which pane, which way round it goes, and its template."""
    made = pane.make_up
    built = f"{made.make_up}, {made.thickness:g} thick, {pane.mass_kg:.1f} kg"
    shape = f"shaped: template {window.mark}-{pane.tag}" if pane.shaped else ""
    return built, "; ".join(said for said in (special_words(made), facing_words(made)) if said), shape


def _lift(pane: Pane) -> str:
    people = lift_words(people_to_lift(pane.mass_kg))
    return f"To lift: {people}" if people else ""


def _lift_sash(window: Window, light: Light, sash: Sash) -> str:
    """Of the sash with its glass in."""
    mass = measured(window, light, sash).mass_kg
    people = lift_words(people_to_lift(mass))
    return f"To lift glazed, {mass:g} kg: {people}" if people else ""


def code_text(thing: Tagged, info: JobInfo) -> str:
    """What the code holds: job/mark/tag/revision, a '/' inside one of them written as %2F. No names of people or places."""
    return "/".join(quote(part, safe=" ") for part in (info.reference, thing.mark, thing.tag, info.revision))
