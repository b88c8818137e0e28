"""Job texts and the check of one mistake, which the tests of this folder share."""

import time

import pytest

from elevations.errors import SpecError
from elevations.spec.load import parse_job

GOOD = """\
job: {reference: QL-07, site: Quillback Lock Cottage, surveyed: 2026-10-14}
glass:
  clear: {make_up: 4/20/4, gas: argon, low_e: {face: 3, emissivity: 0.03}}
  safe: {make_up: 4/20/4, toughened: [outer, inner]}
defaults: {system: flush-70, glass: clear, fixings: {corner: 160, spacing: 500}}
windows:
  - mark: W1
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights:
      - {light: side-hung, hinge: left}
      - {light: fixed}
"""
"""Windows begin on line 6."""

HEAD = GOOD[: GOOD.index("  - mark")]


def one(window: str) -> str:
    """A job with one window: its keys, from line 8 on, below the mark on line 7."""
    body = "".join(f"    {line}\n" for line in window.splitlines())
    return f"{HEAD}  - mark: W1\n{body}"


def of_lights(lights: str, bars: str = "") -> str:
    """A job with one window of 1200 x 1050: its `lights` value is on line 10, its bars on line 9."""
    return one(f"frame: {{width: 1200, height: 1050}}\n{bars or 'location: Landing'}\nlights: {lights}")


def problems_of(text):
    """What is wrong with a job's text; fails where nothing is."""
    with pytest.raises(SpecError) as caught:
        parse_job(text, "job.yaml")
    return caught.value.problems


def rows(*tables):
    """Rows (name, text, code, words, place) as parameters named after their mistake."""
    return [pytest.param(*row[1:], id=row[0]) for table in tables for row in table]


def assert_told(text, code, words, where):
    """One problem with this code, whose message and hint hold the words, at this line:column; all in under a second."""
    started = time.perf_counter()
    problems = problems_of(text)
    assert time.perf_counter() - started < 1
    problem = next((p for p in problems if p.code == code), None)
    assert problem is not None, problems
    said = f"{problem.message} | {problem.hint}"
    assert [word for word in words if word not in said] == [], said
    if where:
        assert f"{problem.place.line}:{problem.place.column}" == where, said
    assert len(said) < 600
