"""Jobs for tests: a few lines of YAML in, resolved windows out."""

from textwrap import dedent, indent

from elevations.catalogue.load import find_system
from elevations.geometry.resolve import resolve_job
from elevations.geometry.window import Window
from elevations.spec.load import parse_job

HEAD = """\
glass:
  clear: {make_up: 4/20/4}
defaults:
  system: SYSTEM
windows:
"""


def windows_of(windows: str, system: str = "flush-70") -> list[Window]:
    """The windows of a job whose `windows:` list is given; glass is one 28 mm unit called clear."""
    text = HEAD.replace("SYSTEM", system) + indent(dedent(windows), "  ")
    return resolve_job(parse_job(text, "job.yaml").job, find_system)


def window_of(window: str, system: str = "flush-70") -> Window:
    """One window: the lines of its block, without the leading dash; its mark is W1."""
    lines = indent(dedent(window).strip(), "  ")
    return windows_of("- mark: W1\n" + lines, system)[0]
