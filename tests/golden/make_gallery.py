"""Redraw gallery/ from specs/: `python tests/golden/make_gallery.py`. Look at what changed before committing it."""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SPECS, GALLERY = ROOT / "specs", ROOT / "gallery"
FORMATS = ("dxf", "svg")
READERS_OF = ("quillback-lock-cottage", "fit-walls")
"""Jobs that show what every reader gets."""


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


def main() -> None:
    """The old drawings go only when all the new ones are there."""
    with tempfile.TemporaryDirectory(dir=ROOT, prefix=".gallery-") as name:
        drawn = Path(name) / "gallery"
        count = sum(len(draw_spec(spec, drawn / spec.stem)) for spec in specs())
        shutil.rmtree(GALLERY, ignore_errors=True)
        drawn.rename(GALLERY)
    print(f"{count} files in {GALLERY}")


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    main()
