"""A job of two windows, and commands typed beside it."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from elevations.cli import cli

ROOT = Path(__file__).resolve().parents[2]
JOB = """\
glass: {clear: {make_up: 4/20/4}}
windows:
  - mark: W1
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights: [{light: side-hung, hinge: left}, {light: fixed}]
  - mark: W2
    frame: {width: 320, height: 700}
    lights: [{light: fixed}]
"""


def run(*arguments, **more):
    return CliRunner().invoke(cli, arguments, catch_exceptions=False, **more)


def names(folder):
    return sorted(path.name for path in folder.iterdir())
