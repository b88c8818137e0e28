"""Which face the beads are on, read off the systems' own files: flush-70 beads frames outside and sashes inside."""

from __future__ import annotations

import pytest

from elevations.geometry.beads import bead_words, outer_beaded
from tests.jobs import window_of

TWO = "frame: {width: 1400, height: 900}\nmullions: [700]\nlights: [{light: side-hung, hinge: left%s}, {light: fixed}]"


@pytest.mark.parametrize(("swing", "outer", "words"), [
    ("", ["G2"], "Beads inside; outside: G2"),
    (", swing: in", ["G1"], "Beads inside; outside: G1"),   # built inside out
])  # fmt: skip
def test_beads_are_where_the_system_puts_them_as_the_window_is_built(swing, outer, words):
    window = window_of(TWO % swing)
    assert [pane.tag for pane in outer_beaded(window)] == outer
    assert bead_words(window, {"G1", "G2"}) == words


def test_panes_of_one_cut_are_spoken_of_alone():
    window = window_of(TWO % "")
    assert bead_words(window, {"G2"}) == "Beads outside"
    assert bead_words(window, {"G1"}) == "Beads inside"
