"""What each choice in a job means for those who will live with it: only the choices that the job makes."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.geometry.window import Light, Window


def choices(windows: Sequence[Window]) -> list[tuple[str, str]]:
    """Term and meaning, in the order of a walk round a window: how it opens, its glass, its colours."""
    lights = [light for window in windows for light in window.lights]
    hung = [light for light in lights if any(sash.hinge_edges for sash in light.sashes)]
    glasses = [pane.make_up for light in lights for pane in light.panes]
    moving = [sash for light in lights for sash in light.sashes if not sash.dummy]
    ways = {light.swing for light in hung}
    edges = {len(sash.hinge_edges) for light in hung for sash in light.sashes}
    asked: list[tuple[bool, str, str]] = [
        ("out" in ways, "Opens outwards", "It swings over the outside: it takes no room inside, but think of paths, plants and cleaning."),
        ("in" in ways, "Opens inwards", "It swings into the room: it can be cleaned from inside, but the sill must be clear and a blind can be in its way."),
        (2 in edges, "Two ways of opening", "The handle sets which: tilted, it airs the room; turned, it opens like a door."),
        (any(sash.leaf.half_in for sash in moving), "Turns about its middle", "One half comes in while the other goes out: both need room, and it can be cleaned from inside."),
        (any(sash.leaf.slides for sash in moving), "Slides", "It takes no room inside or outside; only half of it can be open at a time."),
        (any(all(sash.dummy for sash in light.sashes) for light in lights), "Does not open", "Glass set for good: the slimmest frame and the most light. It is cleaned from outside."),
        (any(light.spec.escape for light in lights), "A way out", "Meant to be large enough to climb through in an emergency. Your local rules say how large that is."),
        (any(light.spec.restrictor for light in lights), "A catch that limits how far it opens", f"Keeps it from opening wide by accident. {_released(lights)}"),
        (any(light.spec.vent for light in lights), "A small vent", "Lets in a little fresh air while the window is shut."),
        (any(len(glass.layers) == 3 for glass in glasses), "Double glazing", "Two panes with a sealed space between them, which keeps warmth in."),
        (any(len(glass.layers) == 5 for glass in glasses), "Triple glazing", "Three panes with two sealed spaces: warmer and heavier than two."),
        (any(glass.obscure for glass in glasses), "Patterned glass", "Light comes through, a clear view does not. Ask to see a piece: patterns differ in how much they hide."),
        (any(glass.toughened for glass in glasses), "Toughened safety glass", "Hardened by heat: if it breaks, it crumbles into small blunt pieces."),
        (any(glass.laminated for glass in glasses), "Laminated safety glass", "Two sheets with a film between them: if it breaks, the film holds the pieces."),
        (True, "Colours", "The codes order the colour. A screen or a print can only come near it: ask for a sample."),
        (True, "Design number", "A short code made from everything that decides what is made. If anything changes, it changes."),
    ]
    return [(term, meaning) for is_asked, term, meaning in asked if is_asked]


def _released(lights: Sequence[Light]) -> str:
    """Whether catches can be released: only what the job says."""
    said = {light.spec.restrictor_releases for light in lights if light.spec.restrictor}
    if said == {True}:
        return "It can be released by hand."
    if said == {False}:
        return "It cannot be released by hand."
    return "Ask whether it can be released by hand, above all where the window is a way out."
