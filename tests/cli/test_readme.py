"""The README's tour shows what the commands print; `python tests/cli/tour.py` writes it anew."""

from __future__ import annotations

import importlib.util
from pathlib import Path

_tour = importlib.util.spec_from_file_location("tour", Path(__file__).with_name("tour.py"))
tour = importlib.util.module_from_spec(_tour)
_tour.loader.exec_module(tour)


def test_the_tour_shows_what_the_commands_print(tmp_path):
    readme = tour.README.read_text("utf-8")
    assert len(tour.BLOCK.findall(readme)) == 5
    assert tour.told_anew(readme, tmp_path) == readme


def test_the_job_in_the_readme_is_the_one_that_is_drawn():
    shown = tour.README.read_text("utf-8").split("```yaml\n")[1].split("```")[0]
    kept = (tour.ROOT / "specs/two-lights.yaml").read_text("utf-8")
    assert shown == kept.split("\n", 1)[1]
