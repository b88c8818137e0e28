"""Ways of opening that a system must give figures for: pivots by their sums, and what is refused in words."""

import math

import pytest

from elevations.catalogue.load import builtin_names, find_system
from elevations.errors import SpecError
from elevations.openings import OPENINGS
from tests.geometry.one_light import OWN, light, problem, sizes
from tests.jobs import window_of


def test_a_pivoted_sash_has_the_sums_of_any_sash():
    """pivot-68: frame to sash 49, sash to rebate 50 and to sight 70, clearance 5."""
    made = light("light: horizontal-pivot", "pivot-68")
    assert sizes(made.sashes[0].outer) == (1000 - 2 * 49, 1200 - 2 * 49)
    assert sizes(made.panes[0].cut) == (902 - 2 * 50 - 2 * 5, 1102 - 2 * 50 - 2 * 5)
    assert sizes(made.panes[0].sight) == (902 - 2 * 70, 1102 - 2 * 70)


@pytest.mark.parametrize(("text", "words", "half"), [
    ("light: horizontal-pivot", "horizontal pivot, top opens in, bottom out", "top"),
    ("light: vertical-pivot", "vertical pivot, right opens out, left in", "left"),
    ("light: vertical-pivot, leads: left", "vertical pivot, left opens out, right in", "right"),
])
def test_which_half_comes_in_is_said(text, words, half):
    made = light(text, "pivot-68")
    assert made.words == words
    assert made.sashes[0].leaf.half_in == half
    assert made.sashes[0].hinge_edges == ()


@pytest.mark.parametrize(("kind", "size"), [("horizontal-pivot", (800, None)), ("vertical-pivot", (None, 800))])
def test_a_sash_turns_where_its_corner_clears_the_frame_by_pythagoras(tmp_path, kind, size):
    """A sash 60 thick stands 3 clear: its corner is sqrt(h^2 + 30^2) from the axis, its edge h; they differ by 3 at h = (30^2 - 3^2) / 6."""
    own = tmp_path / "own.yaml"
    own.write_text(f"{OWN}pivot: {{gap: 3, thickness: 60, cover: 9}}\n")
    half = (30**2 - 3**2) / (2 * 3)
    assert math.hypot(half, 30) - half == pytest.approx(3)
    assert 2 * half + 2 * 43 == 383
    assert len(light(f"light: {kind}", str(own), *(side or 384 for side in size)).sashes) == 1
    found = problem(f"light: {kind}", str(own), *(side or 382 for side in size))
    assert found.code == "sash-cannot-turn"
    assert "60 thick" in found.message
    assert "at least 297" in found.hint


@pytest.mark.parametrize("kind", [key for key, opening in OPENINGS.items() if opening.needs])
@pytest.mark.parametrize("system", builtin_names())
def test_a_system_without_the_figures_says_which_it_lacks_and_which_system_has_them(kind, system):
    opening = OPENINGS[kind]
    hinge = ", hinge: left" if opening.takes_hinge else ""
    if getattr(find_system(system).ways, opening.needs) is not None:
        assert light(f"light: {kind}{hinge}", system).sashes
        return
    found = problem(f"light: {kind}{hinge}", system)
    assert found.code == "opening-not-offered"
    assert f"{system} makes no {kind} lights" in found.message
    assert any(name in found.hint for name in builtin_names() if getattr(find_system(name).ways, opening.needs) is not None)
    assert f"'{opening.needs}'" in found.message


def test_pivots_need_a_straight_edge_where_the_axis_is():
    """The springing of this head is 200 above the sill, so the middle of the jambs' height lies in the arch."""
    with pytest.raises(SpecError) as caught:
        window_of("frame: {width: 800, height: 600}\nhead: {arched: {rise: 400}}\nlights: [{light: horizontal-pivot}]", "pivot-68")
    assert [p.code for p in caught.value.problems] == ["shape-cannot-open"]


def test_hung_lights_hang_in_a_system_for_pivots_too():
    made = light("light: side-hung, hinge: left", "pivot-68")
    assert made.sashes[0].hinge_edges == ("left",)


FIGURES = [
    ("pivot: {gap: 3, thickness: 44}", "missing-key", "'cover'"), ("pivot: {gap: 0, thickness: 44, cover: 9}", "out-of-range", "'gap'"),
    ("pivot: 3", "not-a-block", "'pivot'"), ("pivot: {gap: 3, thicknes: 44, cover: 9}", "unknown-key", "thicknes"),
    ("pair: {gap: 6}", "missing-key", "'sight'"), ("pair: {gap: 6, sight: 28, kg_per_m: heavy}", "not-a-number", "'kg_per_m'"),
    ("pair: {gap: 6, sight: 28, section: [{part: profile, points: [[0, 0]]}]}", "bad-outline", "too few points"),
    ("openings: [pivoting]", "unknown-word", "'pivoting'"), ("openings: {a: b}", "unknown-word", "way to open"),
]


@pytest.mark.parametrize(("figures", "code", "word"), FIGURES)
def test_wrong_figures_for_ways_of_opening_are_told_at_their_place(tmp_path, figures, code, word):
    own = tmp_path / "own.yaml"
    own.write_text(f"{OWN}{figures}\n")
    with pytest.raises(SpecError) as caught:
        find_system(str(own))
    assert code in [p.code for p in caught.value.problems]
    assert all(p.place.line == 12 for p in caught.value.problems)
    assert any(word in p.message for p in caught.value.problems)


def test_a_system_may_say_that_it_makes_only_some_ways_of_opening(tmp_path):
    own = tmp_path / "own.yaml"
    own.write_text(f"{OWN}openings: [fixed, side-hung]\n")
    assert light("light: side-hung, hinge: left", str(own)).sashes
    found = problem("light: top-hung", str(own))
    assert found.code == "opening-not-offered"
    assert "makes no top-hung lights" in found.message
