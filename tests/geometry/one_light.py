"""One light in a frame of its own, for the tests of ways of opening; and a system file to add figures to."""

import pytest

from elevations.errors import SpecError
from tests.jobs import window_of

OWN = """
depth: 70
material: timber
swing: out
sash_face: flush
members:
  frame:   {sight: 66, rebate: 46, sash: 43}
  mullion: {sight: 38, rebate: 18, sash: 15}
  transom: {sight: 38, rebate: 18, sash: 15}
  sash:    {sight: 76, rebate: 56}
glazing: {edge_clearance: 5, thickness: 28}
"""


def light(text, system, width=1000, height=1200):
    return window_of(f"frame: {{width: {width}, height: {height}}}\nlights: [{{{text}}}]", system).lights[0]


def sizes(region):
    return region.width.value, region.height.value


def problem(text, system, width=1000, height=1200):
    with pytest.raises(SpecError) as caught:
        light(text, system, width, height)
    (found,) = caught.value.problems
    return found
