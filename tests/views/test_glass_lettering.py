"""What is written on panes: whole words, what is special before larger letters, and a sign of what was left to the list."""

from __future__ import annotations

import pytest

from elevations.catalogue.load import find_system
from elevations.drawing.entities import Label
from elevations.geometry.resolve import resolve_job
from elevations.geometry.window import Window
from elevations.spec.load import parse_job
from elevations.views.glass import glass_elevation
from elevations.views.glass_lettering import lettering, says_all

JOB = """\
glass: {safe: {make_up: 6/16/6, toughened: [inner], laminated: [outer]}}
windows: [{mark: W1, frame: {width: WIDTH, height: 1500}, lights: [{light: fixed}]}]
"""


def narrow(width: float) -> Window:
    (window,) = resolve_job(parse_job(JOB.replace("WIDTH", f"{width}"), "job.yaml").job, find_system)
    return window


@pytest.mark.parametrize("width", [240, 300, 400, 560, 700, 1200])
def test_words_on_panes_stay_whole(width):
    pane = narrow(width).panes[0]
    written = {word for label in lettering(pane, 20.0) for word in label.text.split()}
    words = "toughened inner, marked laminated outer, marked to lift: two people more than people, or lifting gear"
    whole = {"G1", "×", *words.split(), "6/16/6,", "kg", f"{pane.mass_kg:.1f}"}
    assert written <= whole | {f"{pane.width.value:g}", f"{pane.height.value:g}", "inner", "outer"}


def test_the_drawing_says_so_where_a_pane_has_no_room_for_its_make_up_or_mass():
    def said(window):
        return " ".join(item.text for group in glass_elevation(window, 20.0).groups for item in group.items if isinstance(item, Label))

    roomy, tight = narrow(1200), narrow(240)
    assert says_all(roomy.panes[0], lettering(roomy.panes[0], 20.0))
    assert not says_all(tight.panes[0], lettering(tight.panes[0], 20.0))
    sign = "The list has what a pane has no room for"
    assert sign not in said(roomy)
    assert sign in said(tight)
