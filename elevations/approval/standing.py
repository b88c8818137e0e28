"""How the approval of windows that are to be drawn stands, and which of them may not go out."""

from __future__ import annotations

from elevations.approval.state import approval_state, record_of
from elevations.errors import Problem
from elevations.geometry.window import Window
from elevations.sheets.readers import READERS, Standing
from elevations.spec.load import LoadedJob


class Approvals:
    """What a job's approvals say of windows that are to be drawn."""

    def __init__(self, loaded: LoadedJob, reader: str, *, unapproved: bool) -> None:
        """`reader`: a key of READERS, or empty for nobody in particular; `unapproved`: what isn't approved goes out too, and says so."""
        self.loaded, self.reader, self.unapproved = loaded, reader, unapproved
        self.record = record_of(loaded)
        self.needed = bool(reader) and READERS[reader].needs_approval
        self.problems: list[Problem] = []

    def standing(self, window: Window) -> Standing:
        """For the window's sheet; one that may not be drawn becomes a problem. Empty where the job keeps no approvals."""
        if not (self.needed or self.record.approvals):
            return Standing()
        state = approval_state(self.loaded, window, self.record)
        if not self.needed or state.holds:
            return Standing(state.words)
        if not self.unapproved:
            self.problems.append(Problem(
                "not-approved", f"{window.mark} is {state.words}; nothing goes to the {self.reader} unapproved",
                "record the approval with `elevations approve`, or draw it with --unapproved, which the sheet then says",
                (*window.path, "mark"),
            ))
        return Standing(state.words, state.words.upper())
