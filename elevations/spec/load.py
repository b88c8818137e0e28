"""A job file in, a validated job out, or every problem with it at once."""

from __future__ import annotations

import re
import sys
from dataclasses import dataclass, replace
from itertools import islice
from pathlib import Path as FilePath
from typing import Any

from pydantic import ValidationError

from elevations.errors import Path, Place, Problem, SpecError
from elevations.spec.fields import short
from elevations.spec.model import FRAME_FROM_OPENING, Defaults, Job
from elevations.spec.shape import with_frame
from elevations.spec.validate import problems_in
from elevations.spec.words import problems_of
from elevations.spelling import nearest
from elevations.yaml_source import MOST_CHARACTERS, MOST_PROBLEMS, Document, collector_paused, read_document

STDIN = "-"
FROM_STDIN = "<stdin>"
"""The name that places of a job from standard input carry."""


@dataclass(frozen=True, slots=True)
class LoadedJob:
    """A job, and the document it was read from: for places of what later stages find."""

    job: Job
    document: Document


def load_job(path_or_dash: str) -> LoadedJob:
    """Read and validate a job file, or standard input for '-'. Raises SpecError with every problem found."""
    file = FROM_STDIN if path_or_dash == STDIN else path_or_dash
    return parse_job(_decoded(_bytes_of(path_or_dash, file), file), file)


def parse_job(text: str, file: str) -> LoadedJob:
    """Validate a job's text; `file` is the name that places carry. Raises SpecError with every problem found."""
    with collector_paused():
        return _parsed(text, file)


def _parsed(text: str, file: str) -> LoadedJob:
    document = read_document(text, file)
    problems = list(document.problems)
    data = document.data
    if not isinstance(data, dict):
        what = "the file holds no job" if data is None else "a job is a block of keys"
        hint = "start with `elevations new`, which writes a job to fill in"
        raise SpecError([*problems, Problem("no-job", what, hint, place=document.place(()))])
    if document.holds_nothing:
        data = _without_empty(data, (), problems, document)
    problems += islice(problems_in(data), MOST_PROBLEMS)
    more = len(problems) >= MOST_PROBLEMS
    try:
        job = Job.model_validate(_with_defaults(data))
    except ValidationError as error:
        empty = {p.path for p in problems if p.code in ("empty", "glued")}   # told already: not missing as well
        problems += (p for p in problems_of(error) if not (p.code == "missing-key" and p.path in empty))
        more = more or error.error_count() > MOST_PROBLEMS
    if problems:
        raise SpecError(_in_order(locate(document, problems), more=more))
    return LoadedJob(job, document)


def job_name(loaded: LoadedJob) -> str:
    """What tells the job's drawings from another's: its reference, its site and the name of its file, without the folder."""
    job, file = loaded.job.job, loaded.document.file
    where = "standard input" if file == FROM_STDIN else FilePath(file).name
    said = ", ".join(text for text in (job.reference, job.site) if text)
    return f"{said} ({where})" if said else where


def locate(document: Document, problems: list[Problem] | tuple[Problem, ...]) -> tuple[Problem, ...]:
    """The same problems, each with its place in the file filled in from its path; what several windows share is told once."""
    placed = (p if p.place else replace(p, place=_place(document, p)) for p in problems)
    return tuple({(p.code, p.message, p.place): p for p in placed}.values())


ABOUT_THE_KEY = frozenset({"unknown-key", "not-drawn-yet", "not-wanted", "light-and-division"})
"""Problems of a key rather than of its value."""


def _place(document: Document, problem: Problem) -> Place:
    """Where its path leads; for what a window takes from the defaults, the line of the defaults."""
    path, data = problem.path, document.data
    if path[:1] == ("windows",) and len(path) > 2 and path[2] in Defaults.model_fields:
        number, shared = path[1], data.get("defaults")
        own = data["windows"][number] if isinstance(number, int) and number < len(data["windows"]) else None
        if isinstance(own, dict) and path[2] not in own and isinstance(shared, dict) and path[2] in shared:
            path = ("defaults", *path[2:])
    return document.place(path, key=problem.code in ABOUT_THE_KEY)


def _in_order(problems: tuple[Problem, ...], *, more: bool) -> list[Problem]:
    """By place, each only once: a block that three windows share through an anchor is wrong once."""
    seen: dict[tuple[str, str, Place | None], Problem] = {}
    for problem in problems:
        seen.setdefault((problem.code, problem.message, problem.place), problem)
    ordered = sorted(seen.values(), key=lambda p: (p.place.line, p.place.column) if p.place else (0, 0))
    if not more and len(ordered) < MOST_PROBLEMS:
        return ordered
    last = ordered[: MOST_PROBLEMS - 1]
    return [
        *last,
        Problem("more-problems", "there are more problems than these", "put these right first", place=last[-1].place),
    ]


def _with_defaults(data: dict[str, Any]) -> dict[str, Any]:
    """The job's data with each window's system, finish, glass and fixings filled in, key by key."""
    windows = data.get("windows")
    if not isinstance(windows, list):
        return data
    try:
        defaults = Defaults.model_validate(data.get("defaults", {}))
    except ValidationError:
        defaults = Defaults()  # what is wrong with them is told by the job's own validation
    glasses = data.get("glass")
    if defaults.glass is None and isinstance(glasses, dict) and len(glasses) == 1:
        defaults = defaults.model_copy(update={"glass": next(iter(glasses))})
    finish, fit = defaults.finish.model_dump(), defaults.fit.model_dump()
    fixings = defaults.fixings.model_dump(exclude_unset=True)  # a system's own figures go before those nobody gave
    wall = defaults.wall.model_dump(exclude_none=True) if defaults.wall else {}
    filled = []
    for window in windows:
        if isinstance(window, dict):
            window = {"system": defaults.system, "glass": defaults.glass, **with_frame(window)}  # noqa: PLW2901
            window["finish"] = _merged(window, "finish", defaults.finish, finish)
            window["fixings"] = _merged(window, "fixings", defaults.fixings, fixings)
            window["fit"] = _merged(window, "fit", defaults.fit, fit)
            window["wall"] = _merged(window, "wall", defaults.wall, wall)
            if "opening" in window and "circular" not in window:
                window.setdefault("frame", FRAME_FROM_OPENING)
        filled.append(window)
    usable = data.get("defaults", {}) if isinstance(data.get("defaults", {}), dict) else None
    return {**data, "windows": filled, **({} if usable is None else {"defaults": _glass_in(usable, defaults.glass)})}


def _glass_in(defaults: dict[str, Any], glass: str | None) -> dict[str, Any]:
    return defaults if glass is None else {"glass": glass, **defaults}


def _merged(window: dict[str, Any], key: str, whole: Any, parts: dict[str, Any]) -> Any:
    """The window's own keys over the defaults'; `whole` where it has none."""
    if key not in window:
        return whole
    own = window[key]
    return {**parts, **own} if isinstance(own, dict) else own


def _without_empty(value: Any, path: Path, problems: list[Problem], document: Document) -> Any:
    """A copy without the keys that have no value, each told as a problem; list entries keep their positions."""
    if isinstance(value, list):
        return [_without_empty(item, (*path, number), problems, document) for number, item in enumerate(value)]
    if not isinstance(value, dict):
        return value
    kept = {}
    for key, item in value.items():
        if item is not None:
            kept[key] = _without_empty(item, (*path, key), problems, document)
        elif key.isdigit():
            kept[key] = ""  # {width: 1,200} makes a key '200' without a value: that it is unknown says more
        elif len(problems) < MOST_PROBLEMS:
            empty = _empty(key, (*path, key), document)
            problems += [empty] if all(p.place != empty.place for p in problems) else []   # a tag there is told already
    return kept


GLUED = re.compile(r"([a-z_]+)(?: ?[:=] ?| +)(\S.*)")
"""A key and its value without what parts them: {width:1200}, {width=1200}, {light fixed}."""


def _empty(key: str, path: Path, document: Document) -> Problem:
    place = document.place(path)
    glued = GLUED.fullmatch(key)
    if glued:
        message = f"'{short(key)}' has no ': ' between the key and its value"
        return Problem("glued", message, f"write `{glued[1]}: {short(glued[2])}`, with a space behind the colon", (*path[:-1], glued[1]), place)
    if "#" in place.text[place.end_column - 1 :]:
        hint = "text after # is a comment; put it in quotes if it is meant"
    else:
        hint = "give it a value, or delete the line"
    return Problem("empty", f"'{short(key)}' is empty", hint, path, place)


def _bytes_of(path: str, file: str) -> bytes:
    most = MOST_CHARACTERS * 4
    try:
        if path == STDIN:
            return sys.stdin.buffer.read(most + 1)
        with FilePath(path).open("rb") as stream:
            return stream.read(most + 1)
    except FileNotFoundError:
        raise _unreadable(file, "there is no such file", _near_by(FilePath(path))) from None
    except IsADirectoryError:
        raise _unreadable(file, "this is a folder, not a job file", "name the file in it") from None
    except PermissionError:
        raise _unreadable(file, "you may not read this file", "check its permissions") from None
    except (OSError, ValueError) as error:
        raise _unreadable(file, f"the file cannot be read: {getattr(error, 'strerror', None) or error}", "") from None


def _near_by(path: FilePath) -> str:
    """The job file beside it that was probably meant."""
    folder = path.parent
    try:
        there = [file.name for file in islice(folder.iterdir(), 1000) if file.suffix in (".yaml", ".yml")]
    except OSError:
        return "check the name and the folder: there is no such folder either"
    meant = nearest(path.name, there) or next((name for name in there if FilePath(name).stem == path.stem), None)
    return f"did you mean '{folder / meant}'?" if meant else "check the name and the folder"


def _decoded(content: bytes, file: str) -> str:
    try:
        if content.startswith((b"\xff\xfe", b"\xfe\xff")):
            return content.decode("utf-16")
        return content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        message = f"the file is not UTF-8 text: line {line} holds a byte that is no character"
        raise _unreadable(file, message, "save it as UTF-8 in your editor") from None


def _unreadable(file: str, message: str, hint: str) -> SpecError:
    return SpecError([Problem("unreadable", message, hint, place=Place(file, 1, 1, 1, ""))])
