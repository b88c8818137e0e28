"""What can be wrong with a job, said in the user's words: problems in the spec, findings about the design."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

Path = tuple[str | int, ...]
"""Where in the job file: the keys and list positions that lead there, e.g. ("windows", 0, "mullions", 1)."""


@dataclass(frozen=True, slots=True)
class Place:
    """A stretch of one line of a file; line and column count from 1, end_column is one past the last character."""

    file: str
    line: int
    column: int
    end_column: int
    text: str


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with the job: where it is, what it is in plain words, and what would put it right."""

    code: str
    """Stable short name, kebab-case: what a script matches on."""
    message: str
    hint: str = ""
    path: Path = ()
    """Where in the spec, when the place is not known yet."""
    place: Place | None = None


class SpecError(Exception):
    """Every problem found in a job, together."""

    def __init__(self, problems: list[Problem] | tuple[Problem, ...]) -> None:
        self.problems = tuple(problems)
        super().__init__("; ".join(problem.message for problem in self.problems))


@dataclass(frozen=True, slots=True)
class Finding:
    """A rule that the design does not meet, or meets only in part: it is drawn, and said."""

    code: str
    mark: str
    subject: str
    """What it is about, by tag: 'left jamb', 'G2'."""
    message: str
    hint: str = ""
    value_mm: float | None = None
    limit_mm: float | None = None
    rule: str = ""
    """Where the limit comes from: a spec line's key, a clause and edition, or 'common practice, no source'."""


def shared_findings(findings: Sequence[Finding]) -> Iterator[tuple[Finding, list[str]]]:
    """Each finding once, with all the subjects of its window that share its words."""
    shared: dict[tuple[str, ...], tuple[Finding, list[str]]] = {}
    for f in findings:
        shared.setdefault((f.mark, f.message, f.hint, f.rule), (f, []))[1].append(f.subject)
    yield from shared.values()
