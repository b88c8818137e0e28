"""Two sashes in one light, a pair that meets or two that slide: sums written out, what they weigh on, refusals in words."""


import pytest

from elevations.catalogue.load import find_system
from elevations.catalogue.opening_figures import FLOATING_STILE
from elevations.errors import SpecError
from elevations.geometry.mass import kg_per_m, light_kg
from elevations.plane import arc_radius
from elevations.schedules.cutting import cutting_rows
from elevations.schedules.hardware import hardware_rows
from elevations.schedules.machining import machining_rows
from elevations.structure.dead_load import bearing_shares, dead_beams
from elevations.structure.materials import GRAVITY_M_S2
from elevations.structure.wind import span_mm
from elevations.thermal.window import frame_areas_m2
from tests.geometry.one_light import OWN, light, problem, sizes
from tests.jobs import window_of


def test_a_pair_meets_in_the_middle_with_the_system_s_gap_between():
    """flush-70: frame to sash 43, gap 6; sash to rebate 56 and to sight 76, clearance 5; the stile stays 2 clear of the frame's sight 66."""
    made = light("light: side-hung-pair", "flush-70", 1200, 1300)
    wide = (1200 - 2 * 43 - 6) / 2
    assert wide == 554
    assert [sizes(sash.outer) for sash in made.sashes] == [(554, 1300 - 2 * 43)] * 2
    assert [sizes(pane.cut) for pane in made.panes] == [(554 - 2 * 56 - 2 * 5, 1214 - 2 * 56 - 2 * 5)] * 2 == [(432, 1092)] * 2
    assert made.sashes[1].outer.outline.bounds.left - made.sashes[0].outer.outline.bounds.right == 6
    assert [sash.hinge_edges for sash in made.sashes] == [("left",), ("right",)]
    assert [sash.tag for sash in made.sashes] == ["S1", "S2"]
    assert [pane.tag for pane in made.panes] == ["G1", "G2"]
    (stile,) = [sash.stile for sash in made.sashes if sash.stile]
    assert stile.length.value == 1300 - 2 * 66 - 2 * 2
    assert stile.end_angles == (90.0, 90.0)


@pytest.mark.parametrize(("lead", "carries"), [("", "S1"), (", leads: right", "S1"), (", leads: left", "S2")])
def test_the_sash_that_follows_carries_the_floating_stile(lead, carries):
    made = light(f"light: side-hung-pair{lead}", "lipped-70", 1200, 1300)
    assert [sash.tag for sash in made.sashes if sash.stile] == [carries]
    assert made.words.startswith(f"pair of side-hung sashes, {'left' if 'left' in lead else 'right'} opens first")


def test_a_pair_under_an_arch_is_one_arch_cut_in_two():
    window = window_of("frame: {width: 1200, height: 1500}\nhead: {arched: {rise: 250}}\nlights: [{light: side-hung-pair}]")
    left, right = window.lights[0].sashes
    assert left.outer.outline.area == pytest.approx(right.outer.outline.area)
    mirror = left.outer.outline.mirrored(600)
    assert sorted((round(c.x, 6), round(c.y, 6)) for c in mirror.corners) == sorted(
        (round(c.x, 6), round(c.y, 6)) for c in right.outer.outline.corners)
    # R 845 from c^2 / 8h + h / 2 (chord 1200, rise 250); the frame takes 43 of it.
    radius = 1200**2 / (8 * 250) + 250 / 2
    assert [arc_radius(a, b) for a, b in left.outer.outline.edges() if a.bulge] == [pytest.approx(radius - 43)]


def test_a_pair_in_too_narrow_a_frame_is_told_what_its_profiles_take():
    """2 x 43 of frame, 4 x 76 of sash, 6 of gap: 396, and 20 of glass for each pane."""
    assert 2 * 43 + 4 * 76 + 6 == 396
    found = problem("light: side-hung-pair", "flush-70", 430)
    assert found.code == "too-close"
    assert "= 396 of it" in found.message
    assert "at least 436" in found.hint
    assert light("light: side-hung-pair", "flush-70", 436).panes[0].sight.width.value == 20


@pytest.mark.parametrize("spacing", ["equal-sight", "equal-glass"])
def test_a_light_of_two_panes_can_not_be_weighed_against_others(spacing):
    text = f"frame: {{width: 2400, height: 1200}}\nmullions: {spacing}\nlights: [{{light: side-hung-pair}}, {{light: fixed}}]"
    with pytest.raises(SpecError) as caught:
        window_of(text)
    assert [p.code for p in caught.value.problems] == ["equal-two-panes"]
    assert window_of(text.replace(spacing, "equal-centres")).bars[0].centre.value == 1200


def test_glazing_bars_divide_both_panes_of_a_pair():
    made = light("light: side-hung-pair, bars: {rows: 2}", "flush-70", 1200, 1300)
    assert [len(pane.small_panes) for pane in made.panes] == [2, 2]
    assert [bar.tag for pane in made.panes for bar in pane.bars] == ["B1", "B2"]
    given = light("light: side-hung-pair, bars: {at: {upright: [300]}}", "flush-70", 1200, 1300)
    assert [len(pane.bars) for pane in given.panes] == [1, 0]


def test_the_cutting_list_has_the_floating_stile_square_and_without_weld():
    window = window_of("frame: {width: 1200, height: 1300}\nlights: [{light: side-hung-pair}]")
    (row,) = [row for row in cutting_rows(window) if row.profile == FLOATING_STILE]
    assert (row.length_mm, row.ends, row.weld_each_end_mm, row.quantity) == (1164, "90/90", 0, 1)
    assert row.mass_kg == pytest.approx(0.60 * 1.164)
    assert row.pieces == ("W1-S1 floating stile",)


def test_the_handle_is_on_the_sash_that_opens_first():
    window = window_of("frame: {width: 1200, height: 1300}\nlights: [{light: side-hung-pair}]")
    handles = [row for row in hardware_rows(window) if row.kind == "handle"]
    assert [(row.quantity, row.sashes) for row in handles] == [(1, ("W1-S2",))]
    assert [row.quantity for row in hardware_rows(window) if row.kind == "stay"] == [4]


def test_the_sections_of_both_sashes_tile_the_light_with_the_frame():
    """Heat: what covers the light and its visible glass add up to the light's own area."""
    made = light("light: side-hung-pair", "flush-70", 1200, 1300)
    covered = sum(area for _, area in frame_areas_m2(made))
    glass = sum(pane.sight.outline.area for pane in made.panes) / 1e6
    assert covered + glass == pytest.approx(1.2 * 1.3)


def test_two_sliding_sashes_lap_in_the_middle():
    """slider-112: frame to sash 24, lap 70; sash to rebate 50 and to sight 70, clearance 5."""
    made = light("light: sliding", "slider-112", 1600, 1200)
    wide = (1600 - 2 * 24 + 70) / 2
    assert wide == 811
    assert [sizes(sash.outer) for sash in made.sashes] == [(811, 1200 - 2 * 24)] * 2
    assert [sizes(pane.cut) for pane in made.panes] == [(811 - 2 * 50 - 2 * 5, 1152 - 2 * 50 - 2 * 5)] * 2 == [(701, 1042)] * 2
    left, right = (sash.outer.outline.bounds for sash in made.sashes)
    assert left.right - right.left == 70
    assert made.panes[0].sight.outline.bounds.right == right.left   # stile behind stile
    assert made.panes[1].sight.outline.bounds.left == left.right


def test_of_two_sashes_one_above_the_other_the_upper_one_is_first_and_outside():
    made = light("light: vertical-sliding", "slider-112", 900, 1600)
    upper, lower = made.sashes
    assert (upper.leaf.plane, lower.leaf.plane) == (0, 1)
    assert upper.outer.outline.bounds.bottom > lower.outer.outline.bounds.bottom
    assert sizes(upper.outer) == sizes(lower.outer) == (900 - 2 * 24, (1600 - 2 * 24 + 70) / 2) == (852, 811)
    assert upper.outer.outline.bounds.top == 1600 - 24
    assert [sizes(pane.cut) for pane in made.panes] == [(852 - 2 * 50 - 2 * 5, 811 - 2 * 50 - 2 * 5)] * 2


@pytest.mark.parametrize(("text", "moves"), [
    ("light: sliding", [("right", False, 0), ("left", False, 1)]),
    ("light: sliding, leads: right", [("", True, 0), ("left", False, 1)]),
    ("light: sliding, leads: left", [("right", False, 1), ("", True, 0)]),
    ("light: vertical-sliding", [("down", False, 0), ("up", False, 1)]),
    ("light: vertical-sliding, leads: bottom", [("", True, 0), ("up", False, 1)]),
    ("light: vertical-sliding, leads: top", [("down", False, 0), ("", True, 1)]),
])
def test_which_sash_slides_which_way_and_in_which_plane(text, moves):
    made = light(text, "slider-112", 1500, 1500)
    assert [(sash.leaf.slides, sash.dummy, sash.leaf.plane) for sash in made.sashes] == moves


def test_the_cut_height_of_the_lower_sash_is_explained_step_by_step():
    made = light("light: vertical-sliding", "slider-112", 900, 1600)
    labels = [term.label for term in made.panes[1].height.terms]
    assert "half of what the two sashes close" in labels
    assert "half of the lap of the sashes" in labels
    assert sum(term.amount for term in made.panes[1].height.terms) == 701


def test_a_slider_hangs_no_sashes_and_says_who_does():
    found = problem("light: side-hung, hinge: left", "slider-112")
    assert found.code == "opening-not-offered"
    assert "slider-112 makes no side-hung lights" in found.message
    assert "flush-70, lipped-70, pivot-68" in found.hint


def test_a_lap_that_would_cover_glass_is_refused(tmp_path):
    own = tmp_path / "own.yaml"
    own.write_text(f"{OWN}sliding: {{lap: 80, step: 30}}\n")
    with pytest.raises(SpecError) as caught:
        find_system(str(own))
    assert [p.code for p in caught.value.problems] == ["lap-past-sight"]


def test_only_sashes_that_slide_get_hardware():
    window = window_of("frame: {width: 1500, height: 1200}\nlights: [{light: sliding, leads: right}]", "slider-112")
    assert {row.sashes for row in hardware_rows(window)} == {("W1-S2",)}


def test_a_pair_and_a_level_axis_hang_on_both_sides_and_a_sliding_sash_stands_on_its_sill():
    """Statics: two equal sashes, each on its own jamb; a symmetrical sash on two pivots at half its height."""
    for text, system, shares in (
        ("light: side-hung-pair", "flush-70", {"left": 0.5, "right": 0.5}), ("light: horizontal-pivot", "pivot-68", {"left": 0.5, "right": 0.5}),
        ("light: vertical-pivot", "pivot-68", {"bottom": 1.0}), ("light: sliding", "slider-112", {"bottom": 1.0}),
        ("light: side-hung, hinge: right", "flush-70", {"right": 1.0}),
    ):
        assert dict(bearing_shares(light(text, system, 1200, 1300))) == shares


def test_a_mullion_beside_a_pair_carries_half_of_it():
    window = window_of("""
        frame: {width: 1800, height: 2000}
        transoms: [1400]
        lights:
          - mullions: [1200]
            lights: [{light: side-hung-pair}, {light: fixed}]
          - {light: fixed}
    """)
    pair, fixed = window.lights[:2]
    (beam,) = dead_beams(window)["T1"]
    mullion = kg_per_m(window.system, "mullion") * span_mm(window.bars[1]) / 1000 + light_kg(window, pair) / 2
    assert [point.force_n for point in beam.point_loads] == [pytest.approx(mullion * GRAVITY_M_S2)]
    assert beam.line_loads[0].total_n == pytest.approx(light_kg(window, fixed) * GRAVITY_M_S2)


def test_the_height_of_a_handle_is_set_out_on_the_sash_that_opens_first():
    window = window_of("frame: {width: 1200, height: 1300}\nlights: [{light: side-hung-pair, handle_height: 500}]")
    handles = [row for row in machining_rows(window) if row.kind == "handle"]
    assert [row.piece for row in handles] == ["W1-S2 left stile"]
