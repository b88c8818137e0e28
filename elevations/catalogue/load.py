"""Profile systems by name or file: the built-in ones and the user's own."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path

from elevations.catalogue.blocks import shown
from elevations.catalogue.reading import Read, read_system
from elevations.catalogue.system import System
from elevations.errors import Problem, SpecError
from elevations.spelling import did_you_mean

BUILT_IN = Path(__file__).parent / "systems"


@lru_cache(maxsize=1)
def builtin_names() -> tuple[str, ...]:
    """Names of the built-in systems, sorted."""
    return tuple(sorted(path.stem for path in BUILT_IN.glob("*.yaml")))


def find_system(name: str, beside: str | None = None) -> System:
    """The system of that name: a built-in one, or the user's own YAML file.

    A path is relative to `beside`, the folder of the job file (the current folder without it). The format of the
    file is described in `elevations.catalogue.reading`. Raises SpecError: code 'unknown-system' without a path,
    for the caller knows which line of the job asked for it; every other problem is placed in the system's own file.
    """
    if name in builtin_names():
        return _built_in(name)
    file = Path(beside or ".") / name
    try:
        if "\0" in name or not file.is_file():
            raise SpecError([_unknown(name)])
        return _own(file.resolve(), name)
    except OSError as error:
        message = f"the profile system file {shown(name)} cannot be read: {error.strerror or error}"
        raise SpecError([Problem("unreadable-system", message)]) from None


@lru_cache(maxsize=8)
def _built_in(name: str) -> System:
    text = (BUILT_IN / f"{name}.yaml").read_text("utf-8")
    return _system(read_system(text, f"{name}.yaml", BUILT_IN, built_in=True))


def _system(read: Read) -> System:
    if read.system is None:
        raise SpecError(read.problems)
    return read.system


_Stamps = tuple[tuple[Path, int, int], ...]
_known: dict[tuple[Path, str], tuple[_Stamps, Read]] = {}
"""System files read before, each with the state of the files that it came from."""


def _own(file: Path, name: str) -> System:
    known = _known.get((file, name))
    if known is not None and known[0] == _stamps(path for path, _, _ in known[0]):
        return _system(known[1])
    try:
        text = file.read_text("utf-8-sig")
    except UnicodeDecodeError as error:
        message = f"the profile system file {shown(name)} is not UTF-8 text (byte {error.start + 1})"
        raise SpecError([Problem("unreadable-system", message, "save it as UTF-8")]) from None
    read = read_system(text, name, file.parent)
    _known[file, name] = (_stamps((file, *read.drawings)), read)
    return _system(read)


def _stamps(files: Iterable[Path]) -> _Stamps:
    return tuple(_stamp(file) for file in files)


def _stamp(file: Path) -> tuple[Path, int, int]:
    try:
        status = file.stat()
    except (OSError, ValueError):
        return file, 0, 0
    return file, status.st_mtime_ns, status.st_size


def _unknown(name: str) -> Problem:
    message = f"there is no profile system {shown(name)}"
    if name.endswith((".yaml", ".yml")):
        return Problem("unknown-system", message, "a path is taken from the job file's folder")
    built_in = f"built in are {', '.join(builtin_names())}; your own is a path to its YAML file"
    guess = did_you_mean(name, builtin_names())
    return Problem("unknown-system", message, f"{guess} {built_in}".strip())
