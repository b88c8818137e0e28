"""The window schedule: one row a window."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from elevations.geometry.window import Light, Window
from elevations.schedules.hardware import all_findings
from elevations.schedules.table import Column, Schedule, tidy
from elevations.spelling import counted


@dataclass(frozen=True, slots=True)
class WindowRow:
    """One window. The frame's overall size, sill not included, to 0.1 mm."""

    mark: str
    location: str
    width_mm: float
    height_mm: float
    system: str
    finish_outside: str
    finish_inside: str
    lights: tuple[str, ...]
    """Each light in words, in the order of their numbers: 'top-hung, opens out (fanlight)'."""
    panes: int
    sashes: int
    fixings: int
    findings: tuple[str, ...]
    """Codes of what the design does not meet; `elevations check` says them in words."""

    @property
    def findings_in_words(self) -> str:
        """Their number and what they are about, each once: '2: diagonals missing, hardware none carries'; empty without any."""
        said = ", ".join(dict.fromkeys(code.replace("-", " ") for code in self.findings))
        return f"{len(self.findings)}: {said}" if said else ""

    @property
    def lights_in_words(self) -> str:
        """How many lights there are, by kind: '2 side-hung, hinges left, opens out; 1 fixed'."""
        counts: dict[str, int] = {}
        for words in self.lights:
            counts[words] = counts.get(words, 0) + 1
        return "; ".join(f"{count} {words}" for words, count in counts.items())


def light_words(light: Light) -> str:
    """How a light opens, and that it is a fanlight where it is one."""
    return f"{light.words} (fanlight)" if light.fanlight else light.words


def window_rows(window: Window) -> Iterator[WindowRow]:
    """The one row of a window."""
    yield WindowRow(
        mark=window.mark,
        location=window.location,
        width_mm=tidy(window.width.value, 1),
        height_mm=tidy(window.height.value, 1),
        system=window.system.name,
        finish_outside=window.finish.outside,
        finish_inside=window.finish.inside,
        lights=tuple(light_words(light) for light in window.lights),
        panes=len(window.panes),
        sashes=len(window.sashes),
        fixings=len(window.fixings),
        findings=tuple(finding.code for finding in all_findings(window)),
    )


def totals(rows: Sequence[WindowRow]) -> list[str]:
    """Windows, panes, sashes and fixings together."""
    return [", ".join((
        counted(len(rows), "window"), counted(sum(row.panes for row in rows), "pane"),
        f"{(sashes := sum(row.sashes for row in rows))} {'sash' if sashes == 1 else 'sashes'}", counted(sum(row.fixings for row in rows), "fixing"),
    ))]


WINDOWS = Schedule(
    key="windows",
    title="Windows",
    columns=(
        Column("mark", "mark", text=True),
        Column("location", "location", text=True),
        Column("width_mm", "width mm"),
        Column("height_mm", "height mm"),
        Column("system", "system", text=True),
        Column("finish_outside", text=True),
        Column("finish_inside", text=True),
        Column("lights", text=True),
        Column("panes", "panes"),
        Column("sashes", "sashes"),
        Column("fixings", "fixings"),
        Column("findings", text=True),
        Column("findings_in_words", "findings", text=True, data=False),
        Column("lights_in_words", "lights, seen from outside", text=True, data=False),
    ),
    rows=window_rows,
    totals=totals,
)
