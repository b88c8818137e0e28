"""An explanation for the eye and for programs: each step, its running total and where its figure comes from."""

from __future__ import annotations

from typing import Any

from elevations.catalogue.system import System
from elevations.errors import Path
from elevations.geometry.stations import ROUNDED_DOWN
from elevations.plane import SAME_MM
from elevations.schedules.explain import Explanation, Size
from elevations.schedules.table import tidy
from elevations.working import Source
from elevations.yaml_source import Document

FIGURES = 3
"""Decimals of a step: enough that the steps add up to the result by hand."""


def as_text(explanation: Explanation, document: Document, system: System) -> str:
    """Each size as a column of steps."""
    blocks = ["\n".join([explanation.tag, *(f"  {fact}" for fact in explanation.facts)])]
    blocks += [_column(size, document, system) for size in explanation.sizes]
    return "\n\n".join(blocks) + "\n"


def as_data(explanation: Explanation, document: Document, system: System) -> dict[str, Any]:
    """The same, in plain dicts and lists; lengths in mm."""
    return {
        "tag": explanation.tag,
        "facts": list(explanation.facts),
        "sizes": [
            {
                "name": size.name,
                "steps": [
                    {
                        "amount_mm": tidy(term.amount, FIGURES),
                        "what": term.label,
                        "total_mm": tidy(total, FIGURES),
                        "source": {"kind": term.source.kind, "where": where(term.source, document, system)},
                        "detail": list(term.detail),
                    }
                    for term, total in _running(size)
                ],
                "exact_mm": tidy(size.working.value, FIGURES),
                "shown_mm": size.shown,
                "rounding": size.rounding,
            }
            for size in explanation.sizes
        ],
    }


def where(source: Source, document: Document, system: System) -> str:
    """The source of a figure in words: 'job.yaml:12', 'flush-70: members.frame.sash', 'rule: …'."""
    if source.kind == "spec" and isinstance(source.ref, tuple):
        return _line(source.ref, document)
    if source.kind == "system":
        return f"{system.name}: {source.ref}"
    return f"rule: {source.ref}"


def _line(path: Path, document: Document) -> str:
    """The line of the job; of its defaults, where the window leaves the figure to them; else the standard value."""
    shared = ("defaults", *path[2:])
    for candidate in (path, shared) if path[:1] == ("windows",) else (path,):
        if _given(candidate, document.data):
            return f"{document.file}:{document.place(candidate).line}"
    return f"standard value of {'.'.join(str(step) for step in path[2:])}"


def _given(path: Path, data: Any) -> bool:
    for step in path:
        try:
            data = data[step]
        except (KeyError, IndexError, TypeError):
            return False
    return True


def _running(size: Size) -> list[tuple[Any, float]]:
    total, steps = 0.0, []
    for term in size.working.terms:
        total += term.amount
        steps.append((term, total))
    return steps


def _column(size: Size, document: Document, system: System) -> str:
    rows: list[tuple[str, str, str, str]] = []
    details: list[tuple[str, ...]] = []
    for term, total in _running(size):
        sign = "-" if term.amount < 0 else "+" if rows else ""
        rows.append((f"{sign} {_figure(abs(term.amount))}".strip(), term.label, _figure(total), where(term.source, document, system)))
        details.append(term.detail)
    widths = [max((len(row[i]) for row in rows), default=0) for i in range(3)]
    lines = [size.name[:1].upper() + size.name[1:]]
    for (amount, label, so_far, source), detail in zip(rows, details, strict=True):
        lines.append(f"  {amount:>{widths[0]}}  {label:<{widths[1]}}  {so_far:>{widths[2]}}  {source}")
        lines += [f"  {'':{widths[0]}}    {line}" for line in detail]
    return "\n".join([*lines, f"  = {_figure(size.shown)} mm{_rounding(size)}"])


def _rounding(size: Size) -> str:
    exact = size.working.value
    if size.rounding == ROUNDED_DOWN:
        return f", {size.rounding} from {exact:.1f}" if abs(exact - round(exact, 1)) < SAME_MM else f", {size.rounding} from {_figure(exact)}"
    return "" if abs(exact - size.shown) < SAME_MM else f", {size.rounding} from {_figure(exact)}"


def _figure(number: float) -> str:
    return f"{tidy(number, FIGURES)}"
