from dataclasses import replace

import pytest

from elevations.calculation import CannotTell, ImpossibleInputError
from elevations.spec.model import Glass
from elevations.structure import pane_estimate
from elevations.structure.glass import loaded_pane_share, plate_figures
from tests.jobs import window_of

PANE = window_of("frame: {width: 1000, height: 1400}\nlights: [{light: fixed}]").panes[0]


def glazed(make_up, **more):
    return replace(PANE, make_up=Glass(make_up=make_up, **more))


def test_an_estimate_never_says_that_glass_is_enough():
    found = pane_estimate(glazed("4/20/4"), 800)
    assert isinstance(found.enough, CannotTell)
    assert "strength" in str(found.enough)


def test_the_panes_share_the_whole_pressure_and_bend_together_nearly():
    found = pane_estimate(glazed("6/16/4"), 800)
    assert sum(layer.share for layer in found.layers) == pytest.approx(1)
    assert found.layers[0].share > found.layers[1].share
    # the loaded pane bends more: the gas gives way a little
    assert found.layers[0].deflection_mm > found.layers[1].deflection_mm


def test_a_single_pane_takes_it_all_by_hand():
    # cut size 898 x 1,298 in flush-70; y = alpha q a⁴/(E t³), σ = beta q a²/t² (handbook form)
    assert (PANE.width.value, PANE.height.value) == (1000 - 102, 1400 - 102)
    found, figures = pane_estimate(glazed("6"), 1000).layers[0], plate_figures(1298 / 898)
    assert found.share == 1
    assert found.deflection_mm == pytest.approx(figures.alpha * 0.001 * 898**4 / (70_000 * 6**3))
    assert found.stress_n_mm2 == pytest.approx(figures.beta * 0.001 * 898**2 / 36)


@pytest.mark.parametrize("pane", [glazed("4/12/4/12/4"), glazed("6.4/16/4", laminated=("outer",))])
def test_units_without_a_sourced_formula_cannot_be_told(pane):
    assert isinstance(pane_estimate(pane, 800), CannotTell)


def test_impossible_figures_are_refused():
    with pytest.raises(ImpossibleInputError, match="wind pressure"):
        pane_estimate(PANE, 0)
    with pytest.raises(ImpossibleInputError, match="side ratio"):
        plate_figures(0.5)


def test_a_stiffer_gap_hands_on_more():
    assert loaded_pane_share(800, 1000, 4, 8, 4) < loaded_pane_share(800, 1000, 4, 20, 4)
