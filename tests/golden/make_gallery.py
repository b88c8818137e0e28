"""Redraw gallery/ from specs/: `python tests/golden/make_gallery.py`. Look at what changed before committing it."""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SPECS, GALLERY = ROOT / "specs", ROOT / "gallery"
FORMATS = ("dxf", "svg")


def specs():
    """The job files, in order of their names."""
    return sorted(SPECS.glob("*.yaml"))


def draw_spec(spec: Path, folder: Path) -> list[Path]:
    """Draw every window of one job into a folder."""
    from elevations import pipeline

    loaded = pipeline.read(str(spec))
    return list(pipeline.draw(loaded, pipeline.Order((), FORMATS, folder), workers=1))


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
