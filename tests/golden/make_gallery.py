"""Redraw gallery/ from specs/: `python tests/golden/make_gallery.py`. Look at what changed before committing it."""

from __future__ import annotations

import re
import shutil
import sys
import tempfile
from itertools import takewhile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SPECS, GALLERY = ROOT / "specs", ROOT / "gallery"
FORMATS = ("dxf", "svg")
READERS_OF = ("quillback-lock-cottage", "fit-walls")
"""Jobs that show what every reader gets."""
INDEX = "README.md"
COMMAND = re.compile(r"(^|^[^`]*: ) +(elevations \S+(?: \S+)*)")
"""A command on a line of its own, or at the end of a line that says what it is for."""


def specs():
    """The job files, in order of their names."""
    return sorted(SPECS.glob("*.yaml"))


def draw_spec(spec: Path, folder: Path) -> list[Path]:
    """Draw one job into a folder: every window for the factory, templates of shaped panes, and for `READERS_OF` the other readers' sheets."""
    from elevations import pipeline
    from elevations.export import FORMATS as KINDS
    from elevations.schedules.templates import shaped_panes
    from elevations.sheets.readers import READERS
    from elevations.sheets.template import template_sheet

    loaded = pipeline.read(str(spec))
    drawn = list(pipeline.draw(loaded, pipeline.Order((), FORMATS, folder), workers=1))
    for window in pipeline.windows(loaded):
        for pane, key in ((pane, key) for pane in shaped_panes(window) for key in FORMATS):
            drawn.append(folder / f"{window.mark}-{pane.tag}{KINDS[key].suffix}")
            drawn[-1].write_bytes(KINDS[key].write(template_sheet(window, pane, loaded.job, KINDS[key].layout)))
    if spec.stem in READERS_OF:
        for reader in sorted(set(READERS) - {pipeline.DEFAULT_READER}):
            drawn += pipeline.draw(loaded, pipeline.Order((), ("svg",), folder, reader=reader), workers=1)
    return drawn


def index(folder: Path) -> str:
    """A page of the drawings in `folder`: under each job what its opening comment says of it, a picture, and links to the rest."""
    lines = ["# Gallery", "", "What the jobs in [specs](../specs) draw. This page is made by `tests/golden/make_gallery.py`.", ""]
    for spec in specs():
        names = sorted(path.name for path in (folder / spec.stem).glob("*.svg"))
        links = [f"[{name.removesuffix('.svg')}]({spec.stem}/{name})" for name in names]
        lines += [
            f"## [{spec.stem}](../specs/{spec.name})", "", opening_comment(spec), "",
            f'<img src="{spec.stem}/{names[0]}" width="600" alt="{spec.stem}: {names[0]}">', "", " · ".join(links), "",
        ]
    return "\n".join(lines)


def opening_comment(spec: Path) -> str:
    """The comment that a job begins with, as Markdown: its prose as a paragraph, each command in it as code."""
    block = takewhile(lambda line: line.startswith("#"), spec.read_text().splitlines())
    return "\n".join(COMMAND.sub(r"<br>\1`\2`", line[1:]).strip() for line in block)


def main() -> None:
    """The old drawings go only when all the new ones are there."""
    with tempfile.TemporaryDirectory(dir=ROOT, prefix=".gallery-") as name:
        drawn = Path(name) / "gallery"
        count = sum(len(draw_spec(spec, drawn / spec.stem)) for spec in specs())
        (drawn / INDEX).write_text(index(drawn))
        shutil.rmtree(GALLERY, ignore_errors=True)
        drawn.rename(GALLERY)
    print(f"{count} files in {GALLERY}")


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    main()
