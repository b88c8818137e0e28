"""Where sections are cut."""

import pytest

from elevations.views.cuts import bars_between, choose_cuts, lights_cut, opens
from tests.jobs import window_of

SASH, FIXED = "{light: side-hung, hinge: left}", "{light: fixed}"


def kinds(window, axis):
    cuts = choose_cuts(window)
    return [opens(light) for light in lights_cut(window, axis, (cuts.upright_x, cuts.level_y)[axis])]


def test_a_level_cut_meets_both_kinds_side_by_side():
    window = window_of(f"frame: {{width: 1200, height: 1050}}\nmullions: [600]\nlights: [{SASH}, {FIXED}]")
    assert kinds(window, 1) == [True, False]
    assert len(kinds(window, 0)) == 1


def test_both_cuts_meet_both_kinds_where_the_division_allows():
    window = window_of(f"""
        frame: {{width: 1810, height: 1214}}
        mullions: [600, 1200]
        lights: [{SASH}, {{transoms: [350], lights: [{{light: top-hung}}, {FIXED}]}}, {SASH}]
    """)
    # upright through the fanlight and the fixed light below it; level through sash, fixed light, sash
    assert kinds(window, 0) == [False, True]
    assert kinds(window, 1) == [True, False, True]


def test_a_dummy_sash_counts_as_fixed():
    window = window_of(f"frame: {{width: 1200, height: 1050}}\nmullions: [600]\nlights: [{SASH}, {{light: fixed, sash: dummy}}]")
    assert kinds(window, 1) == [True, False]


@pytest.mark.parametrize("system", ["flush-70", "lipped-70"])
def test_no_cut_runs_along_a_bar_or_a_stile(system):
    # the bottom row's bars stand under the middles of the top row's lights
    window = window_of(f"""
        frame: {{width: 2400, height: 1500}}
        transoms: [600]
        lights:
          - {{mullions: [800, 1600], lights: [{SASH}, {FIXED}, {SASH}]}}
          - {{mullions: [400, 1200, 2000], lights: [{FIXED}, {SASH}, {FIXED}, {SASH}]}}
    """, system)
    cuts = choose_cuts(window)
    for axis, at in ((0, cuts.upright_x), (1, cuts.level_y)):
        for light in lights_cut(window, axis, at):
            sight = light.panes[0].sight.outline.bounds
            assert sight[axis] < at < sight[axis + 2]


def test_bars_between_are_those_that_the_cut_crosses():
    window = window_of(f"frame: {{width: 1800, height: 1050}}\nmullions: [600, 1200]\nlights: [{FIXED}, {FIXED}, {FIXED}]")
    assert [bar.tag for bar in bars_between(window, lights_cut(window, 1, 500), 1)] == ["M1", "M2"]
