"""Profile systems by name or file: the built-in ones and the user's own."""

from __future__ import annotations

from difflib import get_close_matches
from functools import lru_cache
from pathlib import Path

from elevations.catalogue.reading import read_system
from elevations.catalogue.system import System
from elevations.errors import Problem, SpecError

BUILT_IN = Path(__file__).parent / "systems"


@lru_cache(maxsize=1)
def builtin_names() -> tuple[str, ...]:
    """Names of the built-in systems, sorted."""
    return tuple(sorted(path.stem for path in BUILT_IN.glob("*.yaml")))


def find_system(name: str, beside: str | None = None) -> System:
    """The system of that name: a built-in one, or the user's own YAML file.

    A path is relative to `beside`, the folder of the job file (the current folder without it). The format of the
    file is described in `elevations.catalogue.reading`. Raises SpecError: code 'unknown-system' without a path,
    for the caller knows which line of the job asked for it; any other problem points into the system's own file.
    """
    if name in builtin_names():
        return _read(BUILT_IN / f"{name}.yaml", "built in", 0)
    file = Path(beside or ".") / name
    if "\0" in name or not file.is_file():
        raise SpecError([_unknown(name)])
    return _read(file.resolve(), name, file.stat().st_mtime_ns)


@lru_cache(maxsize=32)
def _read(file: Path, origin: str, _changed_ns: int) -> System:
    return read_system(file, origin)


def _unknown(name: str) -> Problem:
    shown = name if len(name) <= 60 else name[:57] + "..."
    if name.endswith((".yaml", ".yml")):
        return Problem(
            "unknown-system", f"there is no profile system file {shown!r}", "the path is taken from the job file's folder"
        )
    near = get_close_matches(name, builtin_names(), 1)
    guess = f"did you mean {near[0]}? " if near else ""
    built_in = ", ".join(builtin_names())
    return Problem(
        "unknown-system", f"there is no profile system {shown!r}", f"{guess}built in are {built_in}; your own is a path to its YAML file"
    )
