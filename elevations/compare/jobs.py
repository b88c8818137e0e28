"""Two states of a job, window by window."""

from __future__ import annotations

from dataclasses import dataclass

from elevations.approval.facts import fingerprint
from elevations.compare.changes import Change, changes
from elevations.compare.sources import Drawn, Side


@dataclass(frozen=True, slots=True)
class Compared:
    """One window in both states."""

    mark: str
    """In the new state; in the old one where it is gone."""
    old: Drawn | None
    new: Drawn | None
    was: str
    """Its mark in the old state, where that was another; else ''."""
    changes: tuple[Change, ...]

    @property
    def kind(self) -> str:
        """new, gone, changed, renamed or same."""
        if self.old is None:
            return "new"
        if self.new is None:
            return "gone"
        return "changed" if self.changes else "renamed" if self.was else "same"


def compared(old: Side, new: Side) -> list[Compared]:
    """Every window of either, in the new state's order, those that are gone last.

    A window that is gone, and one that is new and of the same product, are one with a new mark.
    """
    gone = {mark: drawn for mark, drawn in old.windows.items() if mark not in new.windows}
    by_print = {fingerprint(drawn.facts): mark for mark, drawn in reversed(gone.items())}
    found = []
    for mark, drawn in new.windows.items():
        was = mark if mark in old.windows else by_print.pop(fingerprint(drawn.facts), "")
        before = old.windows.get(was)
        gone.pop(was, None)
        told = tuple(changes(mark, before.facts, drawn.facts)) if before else ()
        found.append(Compared(mark, before, drawn, was if was != mark else "", told))
    return [*found, *(Compared(mark, drawn, None, "", ()) for mark, drawn in gone.items())]
