"""`elevations compare`: what changed between two states of a job."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from elevations.answers import print_json
from elevations.commands.files import written
from elevations.commands.options import force_option, format_keys, json_option, window_option
from elevations.spelling import counted

if TYPE_CHECKING:
    from elevations.compare.changes import Change
    from elevations.compare.jobs import Compared
    from elevations.compare.sources import Drawn, Side
    from elevations.drawing.entities import Sheet

FORMATS = ("dxf", "svg", "pdf")


@click.command(short_help="What changed between two states of a job.")
@click.argument("old", metavar="OLD")
@click.argument("new", metavar="NEW")
@window_option
@json_option
@click.option("--out", "folder", metavar="DIR", help="Also draw each changed window there, its changes in clouds.")
@click.option("--format", "formats", metavar="dxf,svg,pdf", default="svg", show_default=True, help="Which files to draw.")
@force_option
def command(*, old: str, new: str, marks: tuple[str, ...], as_json: bool, folder: str | None, formats: str, force: bool) -> None:
    """Say what changed between two states of a job, window by window, in terms of the product.

    OLD and NEW are job files, or files at a git revision:

    \b
    elevations compare cottage-a.yaml cottage-b.yaml
    elevations compare HEAD~1:cottage.yaml cottage.yaml --out changes
    """  # noqa: D301 (click wants the character, not its name)
    from elevations.compare.jobs import compared
    from elevations.compare.sources import side

    format_keys(formats, FORMATS)
    before, after = side(old), side(new)
    found = [one for one in compared(before, after) if not marks or {one.mark, one.was} & set(marks)]
    _known(marks, before, after)
    if as_json:
        print_json([_data(one) for one in found])
    else:
        for text in _texts(found):
            click.echo(text)
    if folder is not None:
        for path in _draw(found, before, after, Path(folder), formats, force=force):
            click.echo(path, err=True)


def _known(marks: tuple[str, ...], before: Side, after: Side) -> None:
    for mark in marks:
        if mark not in before.windows and mark not in after.windows:
            raise click.UsageError(f"neither job has a window '{mark[:60]}'; there are {', '.join({**before.windows, **after.windows})[:200]}")


def _texts(found: list[Compared]) -> list[str]:
    """A paragraph a window that is not the same, then how many there are of each kind."""
    from elevations.compare.changes import said

    lines: list[str] = []
    for one in found:
        drawn = one.new or one.old
        assert drawn is not None
        window = drawn.window
        name = f"{one.mark} {window.location}".strip()
        size = f"{window.width.value:g} × {window.height.value:g}"
        if one.kind == "changed":
            lines += [f"{name}:", *(f"  {text}" for text in said(one.changes))]
        elif one.kind != "same":
            lines.append(f"{name}: " + {"new": f"new window, {size}", "gone": f"taken out, {size}", "renamed": f"was called {one.was}, else the same"}[one.kind])
    kinds = [one.kind for one in found]
    told = [f"{kinds.count(kind)} {word}" for kind, word in
            (("changed", "changed"), ("new", "new"), ("gone", "taken out"), ("renamed", "renamed"), ("same", "the same")) if kind in kinds]
    return [*lines, f"{counted(len(found), 'window')}: {', '.join(told)}" if told else "no windows"]


def _data(one: Compared) -> dict[str, Any]:
    changes = [{"subject": c.subject, "what": c.what, "old": c.old, "new": c.new, "words": c.words, "follows": c.follows} for c in one.changes]
    return {"mark": one.mark, "kind": one.kind, "was": one.was or None, "changes": changes}


def _draw(found: list[Compared], before: Side, after: Side, folder: Path, formats: str, *, force: bool) -> Iterator[Path]:
    """One file a changed window and format."""
    from elevations.compare.sheet import changes_sheet

    since = f"revision {before.job.job.revision}" if before.job.job.revision else before.name

    def maker(new: Drawn, changes: tuple[Change, ...]) -> Callable[[str], Sheet]:
        return lambda _layout: changes_sheet(new.window, after.job, changes, since)

    drawn = [(one.mark, "changes", maker(one.new, one.changes)) for one in found if one.kind == "changed" and one.new is not None]
    yield from written(drawn, formats, FORMATS, folder, after.job_name, force=force)
