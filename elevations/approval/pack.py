"""The pack of a job for its customer, with each window's fingerprint and how its approval stands."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

from elevations.approval.facts import short
from elevations.approval.record import natural
from elevations.approval.state import State, approval_state, record_of
from elevations.checks.on_sheets import for_customer
from elevations.export.extras import require
from elevations.export.html import Standing, write_pack
from elevations.geometry.joined import Joined
from elevations.geometry.window import Window
from elevations.sheets.customer import customer_sheet
from elevations.sheets.customer_joined import customer_set_sheet
from elevations.sheets.customer_notes import notes_sheets
from elevations.sheets.overview import overview_sheets
from elevations.spec.load import LoadedJob


@dataclass(frozen=True, slots=True)
class Pack:
    """A job and those of its windows that the pack is about."""

    loaded: LoadedJob
    windows: tuple[Window, ...]
    sets: tuple[Joined, ...] = ()
    """Joined windows whose windows are all in it."""

    def states(self) -> dict[str, State]:
        """How each window stands, by its mark. Raises SpecError where the approvals file is damaged."""
        record = record_of(self.loaded)
        return {window.mark: approval_state(self.loaded, window, record) for window in self.windows}


def together(states: dict[str, State]) -> str:
    """The short fingerprint of several windows."""
    lines = "\n".join(f"{mark} {states[mark].fingerprint}" for mark in sorted(states, key=natural))
    return short(hashlib.sha256(lines.encode()).hexdigest())


def html_pack(pack: Pack) -> bytes:
    """One HTML page."""
    states = pack.states()
    standings = {mark: Standing(state.words, short(state.fingerprint), state.holds) for mark, state in states.items()}
    job = pack.loaded.job
    checked = {window.mark: for_customer(window, job) for window in pack.windows}
    return write_pack(pack.windows, job.job, standings, together(states), checked, pack.sets).encode()


def pdf_pack(pack: Pack) -> bytes:
    """A PDF of A4 pages, which people can print at home: all windows together, each with room to sign, all in words."""
    require("reportlab", "pdf", "writing PDF", "--format html")
    from elevations.export.pdf import write_pdf

    job = pack.loaded.job
    on_a4 = job.model_copy(update={"drawing": job.drawing.model_copy(update={"sheet": "A4"})})
    states = pack.states()
    sheets = overview_sheets(pack.windows, on_a4, pack.sets)
    sheets += [customer_set_sheet(joined, on_a4) for joined in pack.sets]
    for window in pack.windows:
        state = states[window.mark]
        agreed = (f"Design number {short(state.fingerprint)}", f"{state.words[0].upper()}{state.words[1:]}.")
        sheets.append(customer_sheet(window, on_a4, agreed=agreed))
    sheets += notes_sheets(pack.windows, on_a4, {mark: short(state.fingerprint) for mark, state in states.items()})
    return write_pdf(sheets)
