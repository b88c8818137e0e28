"""A small system whose file holds lines of a test's own, and a window made of it."""

from pathlib import Path

from elevations.catalogue.load import find_system
from elevations.geometry.resolve import resolve_job
from elevations.geometry.window import Window
from elevations.spec.load import parse_job

FIGURES = """\
system: own
depth: 70
material: pvc-u
swing: out
sash_face: flush
members:
  frame:   {sight: 66, rebate: 46, sash: 43}
  mullion: {sight: 38, rebate: 18, sash: 15}
  transom: {sight: 38, rebate: 18, sash: 15}
  sash:    {sight: 76, rebate: 56}
glazing: {edge_clearance: 5, thickness: 28}
"""


def window_in(folder: Path, lines: str, text: str, defaults: str = "") -> Window:
    """The window of this text in the system with these lines; `defaults` goes on after the system's name."""
    (folder / "own.yaml").write_text(FIGURES + lines, "utf-8")
    body = "".join(f"  {line}\n" for line in text.splitlines())
    job = f"glass: {{clear: {{make_up: 4/20/4}}}}\ndefaults: {{system: own.yaml{defaults}}}\nwindows:\n- mark: W1\n{body}"
    return resolve_job(parse_job(job, "job.yaml").job, lambda name: find_system(name, str(folder)))[0]
