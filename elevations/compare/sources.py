"""Where a state of a job comes from: a file, or a file at a git revision ('HEAD~1:jobs/cottage.yaml')."""

from __future__ import annotations

import io
import subprocess
import tarfile
import tempfile
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath

from elevations.approval.facts import Fact
from elevations.approval.state import facts_of
from elevations.errors import Place, Problem, SpecError
from elevations.geometry.window import Window
from elevations.pipeline import read, windows
from elevations.spec.load import LoadedJob, job_name
from elevations.spec.model import Job

NEEDED = (".yaml", ".yml", ".dxf")
"""What a job and its profile systems are made of."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A window and its facts."""

    window: Window
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True)
class Side:
    """One state of a job."""

    name: str
    """As the user gave it."""
    job: Job
    windows: dict[str, Drawn]
    """By mark, in the job's order."""
    job_name: str
    """What its drawings' stamps say."""


def side(source: str) -> Side:
    """The job of a file, or of 'REVISION:PATH' in the git repository of the current folder, with all its windows.

    A path is taken from the current folder, then from the repository's top. Raises SpecError with every problem, told
    under the name that the user gave.
    """
    if Path(source).exists() or ":" not in source or source == "-":
        return _of(source, read(source))
    revision, _, path = source.partition(":")
    commit = _commit(source, revision)
    inside = _path_in(source, commit, path)
    with tempfile.TemporaryDirectory(prefix="elevations-") as folder:
        _unpack(source, commit, inside, Path(folder))
        file = str(Path(folder) / inside)
        try:
            return _of(source, read(file))
        except SpecError as error:
            raise SpecError([_renamed(problem, folder, source) for problem in error.problems]) from None


def _of(name: str, loaded: LoadedJob) -> Side:
    found = {w.mark: Drawn(w, facts_of(loaded, w)) for w in windows(loaded)}
    return Side(name, loaded.job, found, job_name(loaded))


def _git(*arguments: str) -> subprocess.CompletedProcess[bytes]:
    """Run git in the current folder. Raises SpecError where there is no git."""
    try:
        return subprocess.run(["git", *arguments], capture_output=True, check=False)  # noqa: S603, S607 (git as the user has it)
    except FileNotFoundError:
        raise SpecError([Problem("no-git", "git is not installed, which revisions are read with", "compare two files instead")]) from None


def _trouble(source: str, message: str, hint: str) -> SpecError:
    return SpecError([Problem("no-revision", message, hint, place=Place(source, 1, 1, 1, ""))])


def _commit(source: str, revision: str) -> str:
    if _git("rev-parse", "--git-dir").returncode:
        raise _trouble(source, "there is no such file, and this folder is in no git repository", "check the name and the folder")
    done = _git("rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision or 'HEAD'}^{{commit}}")
    if done.returncode:
        raise _trouble(source, f"git knows no revision '{revision}'", "a revision is a commit, branch or tag; `git log` lists them")
    return done.stdout.decode().strip()


def _path_in(source: str, commit: str, path: str) -> str:
    """The path within the repository."""
    prefix = _git("rev-parse", "--show-prefix").stdout.decode().strip()
    for candidate in (_joined(prefix, path), _joined("", path)):
        if candidate and _git("cat-file", "-e", f"{commit}:{candidate}").returncode == 0:
            return candidate
    raise _trouble(source, f"there is no file '{path}' at that revision", "check its path; it is taken from here, then from the repository's top")


def _joined(prefix: str, path: str) -> str | None:
    """A path without '.' and '..', None where it leads out of the repository."""
    parts: list[str] = []
    for part in (PurePosixPath(prefix) / path.replace("\\", "/")).parts:
        if part == "..":
            if not parts:
                return None
            parts.pop()
        elif part not in (".", "/"):
            parts.append(part)
    return "/".join(parts)


def _unpack(source: str, commit: str, inside: str, folder: Path) -> None:
    """Put the job file and what lies beside and below it, as it was, into a folder: its own systems are there too."""
    beside = str(PurePosixPath(inside).parent)
    top = _git("rev-parse", "--show-toplevel").stdout.decode().strip() or "."
    done = _git("-C", top, "archive", "--format=tar", commit, *(["--", beside] if beside != "." else []))
    if done.returncode:
        raise _trouble(source, "git could not read that revision", done.stderr.decode(errors="replace").strip()[:200])
    # Beside the top of a repository lies all of it: only what a job can be made of is kept.
    with tarfile.open(fileobj=io.BytesIO(done.stdout)) as archive:
        for member in archive:
            stream = archive.extractfile(member) if member.isreg() and member.name.endswith(NEEDED) else None
            if stream is not None:
                target = folder / member.name
                target.parent.mkdir(parents=True, exist_ok=True)
                target.write_bytes(stream.read())


def _renamed(problem: Problem, folder: str, source: str) -> Problem:
    """Told under the user's name instead of the folder's."""
    if problem.place is None or not problem.place.file.startswith(folder):
        return problem
    revision = source.partition(":")[0]
    within = Path(problem.place.file).relative_to(folder).as_posix()
    return replace(problem, place=replace(problem.place, file=f"{revision}:{within}"))
