"""How the commands answer: what went wrong, in words and as an exit code; findings; JSON."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

import click

from elevations.errors import Finding, Problem, SpecError, shared_findings
from elevations.spelling import counted

if TYPE_CHECKING:
    from elevations.batch import WorkerLostError
    from elevations.export.files import Obstacle, OthersFilesError
    from elevations.schedules.explain import UnknownNameError

MOST_NAMED = 12
"""Files that are named one by one."""
PROBLEMS, USAGE, BUG, INTERRUPTED = 1, 2, 3, 130   # 130: 128 + SIGINT, as shells report it


class InWords(click.Group):
    """Says what went wrong in the user's words, and sets the exit code."""

    def invoke(self, ctx: click.Context) -> Any:
        # What a clause catches is asked for only once something is raised: an answer without it doesn't wait for the imports.
        try:
            return super().invoke(ctx)
        except click.exceptions.Exit:
            raise
        except SpecError as error:
            print_problems(error.problems)
            ctx.exit(PROBLEMS)
        except _unknown_name() as error:
            raise click.UsageError(f"{error.message}{f' ({error.hint})' if error.hint else ''}", ctx) from None
        except _others_files() as error:
            for why, paths in _by_reason(error.obstacles):
                click.echo(f"error: {paths} {why}", err=True)
            click.echo(f"  = hint: {error.hint}", err=True)
            ctx.exit(USAGE)
        except BrokenPipeError:
            raise   # click ends quietly: whoever read us has had enough
        except (OSError, _worker_lost()) as error:
            click.echo(f"error: {_in_words(error)}", err=True)
            ctx.exit(PROBLEMS)
        except KeyboardInterrupt:
            click.echo("stopped; files already named are whole", err=True)
            ctx.exit(INTERRUPTED)


def _unknown_name() -> type[UnknownNameError]:
    from elevations.schedules.explain import UnknownNameError

    return UnknownNameError


def _others_files() -> type[OthersFilesError]:
    from elevations.export.files import OthersFilesError

    return OthersFilesError


def _worker_lost() -> type[WorkerLostError]:
    from elevations.batch import WorkerLostError

    return WorkerLostError


def _by_reason(obstacles: Sequence[Obstacle]) -> Iterator[tuple[str, str]]:
    """Why files are not replaced, and which: 'W1.dxf, W1.svg are there already,'."""
    reasons: dict[str, list[str]] = {}
    for obstacle in obstacles:
        reasons.setdefault(obstacle.why, []).append(str(obstacle.path))
    for why, paths in reasons.items():
        more = f" and {len(paths) - MOST_NAMED} more" if len(paths) > MOST_NAMED else ""
        yield why, f"{', '.join(paths[:MOST_NAMED])}{more} {'is' if len(paths) == 1 else 'are'} there already,"


def _in_words(error: OSError | RuntimeError) -> str:
    if isinstance(error, OSError) and error.strerror:
        return f"{error.filename}: {error.strerror}" if error.filename else error.strerror
    return str(error)


def print_problems(problems: Sequence[Problem]) -> None:
    """Every problem with its place, then how many there are."""
    from elevations.spec.diagnostics import render

    for problem in problems:
        first, _, rest = render(problem).partition("\n")
        click.secho(first, err=True, bold=True, color=_colour())
        if rest:
            click.echo(rest, err=True)
        click.echo(err=True)
    click.echo(f"{counted(len(problems), 'problem')}; nothing was made", err=True)


def _colour() -> bool | None:
    """Never where NO_COLOR is set (no-color.org), else as click finds the terminal."""
    return False if os.environ.get("NO_COLOR") else None


def finding_texts(findings: Sequence[Finding]) -> Iterator[str]:
    """Each finding in lines; one that several sides of a window share is said once."""
    for finding, subjects in shared_findings(findings):
        lines = [f"{finding.mark} {', '.join(subjects)}: {finding.message}"]
        lines += [f"    = {word}: {text}" for word, text in (("hint", finding.hint), ("rule", finding.rule)) if text]
        yield "\n".join(lines)


def finding_data(finding: Finding) -> dict[str, Any]:
    """The finding's fields."""
    from dataclasses import asdict

    return asdict(finding)


def problem_data(problem: Problem) -> dict[str, Any]:
    """The problem and its place; lines and columns count from 1, end_column is one past the last character."""
    place = problem.place
    where = {} if place is None else {
        "file": place.file, "line": place.line, "column": place.column, "end_column": place.end_column,
    }
    return {"code": problem.code, "message": problem.message, "hint": problem.hint, **where}


def print_json(data: Any) -> None:
    """On standard output, in UTF-8 whatever the terminal's own encoding."""
    import json

    click.echo(json.dumps(data, indent=1, ensure_ascii=False).encode())
