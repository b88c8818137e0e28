"""Which face the glazing beads are on, as the window is built: it decides from which side its glass comes out."""

from __future__ import annotations

from collections.abc import Collection

from elevations.geometry.window import Pane, Window


def beads_outside(window: Window, *, sash: bool) -> bool:
    """Whether the beads are on the outer face, for glass in a sash or directly in the frame.

    As the system's `glazing` says for profiles built as drawn; built inside out, the other way round.
    """
    side = window.system.sash_bead_side if sash else window.system.bead_side
    return (side == "outside") != window.reversed


def outer_beaded(window: Window) -> tuple[Pane, ...]:
    """The panes whose beads are on the outer face, in the order of their tags."""
    return tuple(pane for light in window.lights for pane in light.panes if beads_outside(window, sash=bool(light.sashes)))


def bead_words(window: Window, tags: Collection[str]) -> str:
    """Of these panes: 'Beads inside', 'Beads outside', or 'Beads inside; outside: G2, G4'."""
    outer = [pane.tag for pane in outer_beaded(window) if pane.tag in tags]
    if len(outer) == len(set(tags)):
        return "Beads outside"
    return f"Beads inside; outside: {', '.join(outer)}" if outer else "Beads inside"
