"""The approvals of a job, in a text file beside it: read with every fault said, written so that nothing is ever lost."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from elevations.approval.facts import Fact, fingerprint
from elevations.errors import Path as SpecPath
from elevations.errors import Place, Problem, SpecError
from elevations.export.files import write_whole
from elevations.export.marker import printable
from elevations.spec.fields import Date, Text
from elevations.yaml_source import Document, read_document

ENDING = ".approvals.yaml"
COPY_ENDING = ".bak"
KEYS = ("window", "revision", "by", "date", "fingerprint", "facts")
HEAD = """\
# What the customer approved, window by window. Written by `elevations approve`; keep it with the job file.
# 'facts' is what was approved; 'fingerprint' is their SHA-256. An entry edited by hand is refused.
"""
REPAIR = f"put back the copy that ends in {COPY_ENDING}, or the file from your backup or version control"


@dataclass(frozen=True, slots=True)
class Approval:
    """One window, approved once."""

    window: str
    """Its mark."""
    revision: str
    by: str
    date: str
    """Year-month-day."""
    fingerprint: str
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class Record:
    """The approvals file as it was read."""

    approvals: tuple[Approval, ...]
    content: bytes | None
    """What the file held; None where there is none."""


class ChangedMeanwhileError(OSError):
    """Somebody else wrote the approvals file while this approval was being made."""


def approvals_file(job_file: str | Path) -> Path:
    """Where a job's approvals are kept: 'cottage.yaml' has 'cottage.approvals.yaml' beside it."""
    path = Path(job_file)
    return path.with_name(path.stem + ENDING)


def read_record(path: Path) -> Record:
    """The approvals in a file, none where there is no such file. Raises SpecError with every fault of a damaged one."""
    try:
        content = path.read_bytes()
    except FileNotFoundError:
        return Record((), None)
    except OSError as error:
        raise SpecError([_unreadable(path, f"it cannot be read: {error.strerror or error}")]) from None
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        raise SpecError([_unreadable(path, f"it is not UTF-8 text (byte {error.start + 1})")]) from None
    document = read_document(text, str(path))
    problems = [*document.problems]
    approvals = list(_approvals(document, problems)) if not problems else []
    if problems:
        raise SpecError(problems)
    return Record(tuple(approvals), content)


def write_record(path: Path, old: Record, approvals: Iterable[Approval]) -> None:
    """Put these approvals into the file; what it held before stays beside it under its name with '.bak'.

    Both files are written whole and then renamed, so that whenever the program is killed, each holds either what it
    held or what it is to hold. Raises ChangedMeanwhileError where the file is no longer what `old` was read from.
    """
    now = path.read_bytes() if path.exists() else None
    if now != old.content:
        raise ChangedMeanwhileError(0, "somebody else has just written this file; approve again", str(path))
    if now is not None:
        write_whole(path.with_name(path.name + COPY_ENDING), now)
    write_whole(path, as_text(approvals).encode())


def as_text(approvals: Iterable[Approval]) -> str:
    """The whole file: sorted by window, then day, then as they came; a line for each subject, so that diffs read well."""
    lines = [HEAD, "approvals:\n"]
    for approval in sorted(approvals, key=lambda a: (natural(a.window), a.date)):
        lines.append(f"- window: {_quoted(approval.window)}\n")
        lines += [f"  {key}: {_quoted(getattr(approval, key))}\n" for key in KEYS[1:5]]
        lines.append("  facts:\n")
        subjects: dict[str, dict[str, str]] = {}
        for fact in sorted(approval.facts, key=lambda f: (natural(f.subject), f.what)):
            subjects.setdefault(fact.subject, {})[fact.what] = fact.value
        for subject, held in subjects.items():
            pairs = ", ".join(f"{_quoted(what)}: {_quoted(value)}" for what, value in held.items())
            lines.append(f"    {_quoted(subject)}: {{{pairs}}}\n")
    return "".join(lines)


def natural(text: str) -> list[tuple[int, str]]:
    """Sorts W2 before W10."""
    return [(int(part), "") if part.isdecimal() else (-1, part) for part in re.split(r"([0-9]+)", text)]


def checked_name(by: str) -> str:
    """Who approves, as one line. Raises ValueError with the words where it is empty or too long."""
    text = printable(_checked(Text, by, "--by")).strip()
    if not text:
        raise ValueError("--by is empty; say who approved, for example --by 'A. Name'")
    return text


def checked_date(on: str) -> str:
    """A day as year-month-day. Raises ValueError with the words where it is none."""
    text = _checked(Date, on, "--on")
    if not text:
        raise ValueError("--on is empty; dates are year-month-day, for example 2026-10-20")
    return text


def _checked(kind: Any, value: str, name: str) -> str:
    try:
        return str(TypeAdapter(kind).validate_python(value))
    except ValidationError as error:
        words = error.errors()[0]["ctx"]
        hint = f" ({words['hint']})" if words["hint"] else ""
        raise ValueError(words["message"].replace("{key}", name) + hint) from None


def _quoted(text: str) -> str:
    """A double-quoted YAML scalar: JSON's are (YAML 1.2, section 1.3), and hostile text stays text in them."""
    return json.dumps(text, ensure_ascii=False)


def _unreadable(path: Path, what: str) -> Problem:
    return Problem("damaged-approvals", f"the approvals file is of no use: {what}", REPAIR, place=Place(str(path), 1, 1, 1, ""))


def _approvals(document: Document, problems: list[Problem]) -> Iterator[Approval]:
    data = document.data
    entries = data.get("approvals") if isinstance(data, dict) else None
    if not isinstance(entries, list):
        problems.append(_damaged(document, (), "the file holds no list called 'approvals'"))
        return
    seen: dict[tuple[str, str], int] = {}
    for index, entry in enumerate(entries):
        path: SpecPath = ("approvals", index)
        fault = _fault(entry)
        if fault:
            problems.append(_damaged(document, (*path, *fault[0]), fault[1]))
            continue
        approval = _approval(entry)
        if fingerprint(approval.facts) != approval.fingerprint:
            message = f"the facts of window {approval.window} are not those that were approved: their fingerprint is another"
            problems.append(_damaged(document, (*path, "fingerprint"), message))
        first = seen.setdefault((approval.window, approval.revision), index)
        if first != index:
            line = document.place(("approvals", first)).line
            message = f"revision '{approval.revision}' of window {approval.window} is approved twice; first on line {line}"
            problems.append(_damaged(document, (*path, "revision"), message))
        yield approval


def _fault(entry: Any) -> tuple[SpecPath, str] | None:
    """Where an entry is wrong and what is, or None."""
    if not isinstance(entry, dict):
        return (), "an entry of 'approvals' is not a block of keys"
    for key in KEYS:
        if key not in entry:
            return (), f"an approval has no '{key}'"
    if extra := sorted(set(entry) - set(KEYS)):
        return (extra[0],), f"'{extra[0]}' is no key of an approval"
    for key in KEYS[:5]:
        if not isinstance(entry[key], str):
            return (key,), f"'{key}' is not text in quotes"
    if not re.fullmatch(r"[0-9a-f]{64}", entry["fingerprint"]):
        return ("fingerprint",), "this is not a fingerprint: 64 digits of 0 to 9 and a to f"
    try:
        checked_date(entry["date"])
    except ValueError as error:
        return ("date",), str(error).replace("--on", "'date'")
    held = entry["facts"]
    good = isinstance(held, dict) and all(
        isinstance(facts, dict) and all(isinstance(value, str) for value in facts.values()) for facts in held.values()
    )
    return None if good else (("facts",), "'facts' is not what was written")


def _approval(entry: dict[str, Any]) -> Approval:
    facts = tuple(Fact(subject, what, value) for subject, held in entry["facts"].items() for what, value in held.items())
    return Approval(entry["window"], entry["revision"], entry["by"], entry["date"], entry["fingerprint"], facts)


def _damaged(document: Document, path: SpecPath, message: str) -> Problem:
    return Problem("damaged-approvals", message, REPAIR, path, document.place(path))


def latest(approvals: Sequence[Approval], mark: str) -> Approval | None:
    """The approval of a window that counts: the last one in the file of those of the latest day."""
    own = [approval for approval in approvals if approval.window == mark]
    return max(enumerate(own), key=lambda item: (item[1].date, item[0]))[1] if own else None
