"""Windows worked out by hand from the arithmetic of the spec format, every sum written out.

flush-70, mm from each datum: frame sash 43, rebate 46, sight 66; mullion and transom sash 15, rebate 18, sight 38,
joint 12; sash rebate 56, sight 76; edge clearance 5; weld allowance 3 at each end.
"""

import pytest

from elevations.geometry.window import whole_mm
from tests.jobs import window_of


def cut(window, tag):
    pane = next(p for p in window.panes if p.tag == tag)
    return pane.width.value, pane.height.value


def sight(window, tag):
    pane = next(p for p in window.panes if p.tag == tag)
    return pane.sight.width.value, pane.sight.height.value


def sash(window, tag):
    found = next(s for s in window.sashes if s.tag == tag)
    return found.outer.width.value, found.outer.height.value


def length(window, tag):
    members = [*window.members, *window.bars, *(m for s in window.sashes for m in s.members)]
    return next(m for m in members if m.tag == tag).length.value


def test_two_lights_of_the_spec_format():
    w = window_of("""
        frame: {width: 1200, height: 1050}
        mullions: [600]
        lights: [{light: side-hung, hinge: left}, {light: fixed}]
    """)
    assert (600 - 15 - 43, 1050 - 43 - 43) == (542, 964) == sash(w, "S1")
    assert cut(w, "G1") == (420, 842)
    assert (542 - 2 * 76, 964 - 2 * 76) == (390, 812) == sight(w, "G1")
    right = w.panes[1]
    assert (1200 - 46 - (600 + 18), 1050 - 2 * 46) == (536, 958) == (right.tight.width.value, right.tight.height.value)
    assert (536 - 2 * 5, 958 - 2 * 5) == (526, 948) == cut(w, "G2")
    assert (1200 - 66 - (600 + 38), 1050 - 2 * 66) == (496, 918) == sight(w, "G2")
    assert 958 + 2 * 12 == 982 == length(w, "M1")
    assert 1200 + 2 * 3 == 1206 == length(w, "head") == length(w, "sill")
    assert 1050 + 2 * 3 == 1056 == length(w, "left jamb") == length(w, "right jamb")
    assert 542 + 2 * 3 == 548 == length(w, "S1 top rail")
    assert 964 + 2 * 3 == 970 == length(w, "S1 left stile")


def test_one_fixed_light():
    w = window_of("frame: {width: 900, height: 1350}\nlights: [{light: fixed}]")
    assert (900 - 2 * 46 - 2 * 5, 1350 - 2 * 46 - 2 * 5) == (798, 1248) == cut(w, "G1")
    assert (900 - 2 * 66, 1350 - 2 * 66) == (768, 1218) == sight(w, "G1")
    assert not w.sashes
    # area 0.798 x 1.248 m; two 4 mm panes at 2.5 kg per m2 and mm
    assert w.panes[0].area_m2 == pytest.approx(0.798 * 1.248)
    assert w.panes[0].mass_kg == pytest.approx(0.798 * 1.248 * 8 * 2.5)


def test_one_tilt_and_turn_light():
    w = window_of("frame: {width: 800, height: 1200}\nlights: [{light: tilt-and-turn, hinge: right}]")
    assert (800 - 2 * 43, 1200 - 2 * 43) == (714, 1114) == sash(w, "S1")
    assert (714 - 2 * 61, 1114 - 2 * 61) == (592, 992) == cut(w, "G1")
    assert w.lights[0].swing == "in"
    assert w.reversed


def test_side_lights_with_a_fanlight_between():
    w = window_of("""
        frame: {width: 1810, height: 1214}
        mullions: [600, 1200]
        lights:
          - {light: side-hung, hinge: left}
          - transoms: [350]
            lights: [{light: top-hung}, {light: fixed}]
          - {light: side-hung, hinge: right}
    """)
    assert (600 - 15 - 43, 1214 - 2 * 43) == (542, 1128) == sash(w, "S1")
    assert (542 - 122, 1128 - 122) == (420, 1006) == cut(w, "G1")
    assert (1200 - 600 - 2 * 15, 350 - 15 - 43) == (570, 292) == sash(w, "S2")
    assert (570 - 122, 292 - 122) == (448, 170) == cut(w, "G2")
    assert (600 - 2 * 18 - 10, 1214 - 46 - (350 + 18) - 10) == (554, 790) == cut(w, "G3")
    assert (1810 - 43 - (1200 + 15), 1128) == (552, 1128) == sash(w, "S3")
    assert (552 - 122, 1128 - 122) == (430, 1006) == cut(w, "G4")
    assert 600 - 2 * 18 + 2 * 12 == 588 == length(w, "T1")
    assert [light.fanlight for light in w.lights] == [False, True, False, False]


def test_fanlights_over_three_lights_divided_by_a_transom_first():
    w = window_of("""
        frame: {width: 2100, height: 1300}
        transoms: [380]
        lights:
          - mullions: [700, 1400]
            lights: [{light: top-hung}, {light: fixed}, {light: top-hung}]
          - mullions: [700, 1400]
            lights: [{light: side-hung, hinge: left}, {light: fixed}, {light: side-hung, hinge: right}]
    """)
    assert (700 - 43 - 15, 380 - 43 - 15) == (642, 322) == sash(w, "S1")
    assert (642 - 122, 322 - 122) == (520, 200) == cut(w, "G1")
    assert (700 - 2 * 18 - 10, 380 - 46 - 18 - 10) == (654, 306) == cut(w, "G2")
    assert (700 - 43 - 15, 1300 - 380 - 15 - 43) == (642, 862) == sash(w, "S3")
    assert (642 - 122, 862 - 122) == (520, 740) == cut(w, "G4")
    assert (654, 1300 - 380 - 18 - 46 - 10) == (654, 846) == cut(w, "G5")
    # the transom runs from jamb to jamb; mullions stand on it
    assert 2100 - 2 * 46 + 2 * 12 == 2032 == length(w, "T1")
    assert 380 - 46 - 18 + 2 * 12 == 340 == length(w, "M1")
    assert 1300 - 380 - 18 - 46 + 2 * 12 == 880 == length(w, "M3")
    assert [light.fanlight for light in w.lights] == [True, True, True, False, False, False]


def test_equal_centres_leave_wider_glass_in_the_middle():
    w = window_of("""
        frame: {width: 2001, height: 1000}
        mullions: equal-centres
        lights: [{light: fixed}, {light: fixed}, {light: fixed}]
    """)
    assert [bar.centre.value for bar in w.bars] == [2001 / 3, 2 * 2001 / 3] == [667, 1334]
    assert 667 - 46 - 18 - 10 == 593 == cut(w, "G1")[0] == cut(w, "G3")[0]
    assert 667 - 2 * 18 - 10 == 621 == cut(w, "G2")[0]


def test_equal_sight_of_an_opening_and_a_fixed_light():
    w = window_of("""
        frame: {width: 1500, height: 1000}
        mullions: equal-sight
        lights: [{light: side-hung, hinge: left}, {light: fixed}]
    """)
    # the sash takes 43 + 76 + 76 + 15 = 210, the fixed light 38 + 66 = 104: (1500 - 314) / 2 = 593 each
    assert (1500 - (43 + 2 * 76 + 15) - (38 + 66)) / 2 == 593 == sight(w, "G1")[0] == sight(w, "G2")[0]
    assert 593 + 210 == 803 == w.bars[0].centre.value


def test_equal_glass_of_an_opening_and_a_fixed_light():
    w = window_of("""
        frame: {width: 1200, height: 1000}
        mullions: equal-glass
        lights: [{light: side-hung, hinge: left}, {light: fixed}]
    """)
    # 43 + 2 x (56 + 5) + 15 = 180 and 18 + 46 + 2 x 5 = 74: (1200 - 254) / 2 = 473 each
    assert (1200 - 180 - 74) / 2 == 473 == cut(w, "G1")[0] == cut(w, "G2")[0]
    assert 473 + 180 == 653 == w.bars[0].centre.value


def test_equal_glass_down_three_rows():
    w = window_of("""
        frame: {width: 700, height: 1802}
        transoms: equal-glass
        lights: [{light: top-hung}, {light: fixed}, {light: bottom-hung}]
    """)
    # 180 at each end (43 + 122 + 15), 2 x 18 + 10 = 46 between: (1802 - 406) / 3
    each = (1802 - 180 - 46 - 180) / 3
    assert each == pytest.approx(465.333, abs=1e-3)
    assert [p.height.value for p in w.panes] == pytest.approx([465] * 3)
    assert [bar.centre.value for bar in w.bars] == pytest.approx([180 + each, 180 + each + 46 + each])


def test_an_entry_divided_the_other_way_counts_by_its_narrowest_pane():
    w = window_of("""
        frame: {width: 1400, height: 1200}
        mullions: equal-glass
        lights:
          - transoms: [400]
            lights: [{light: top-hung}, {light: fixed}]
          - {light: fixed}
    """)
    # left column: the top-hung light takes 180, the fixed one 74; the narrowest pane is the top-hung's
    each = (1400 - 180 - 74) / 2
    assert each == 573 == cut(w, "G1")[0] == cut(w, "G3")[0]
    assert each + 180 - 74 == 679 == cut(w, "G2")[0]


def test_a_dummy_sash_gives_a_fixed_light_the_sight_lines_of_its_neighbour():
    w = window_of("""
        frame: {width: 1300, height: 900}
        mullions: [650]
        lights: [{light: side-hung, hinge: left}, {light: fixed, sash: dummy}]
    """)
    assert (650 - 15 - 43, 900 - 2 * 43) == (592, 814) == sash(w, "S1") == sash(w, "S2")
    assert (592 - 122, 814 - 122) == (470, 692) == cut(w, "G1") == cut(w, "G2")
    assert w.lights[1].words == "fixed, dummy sash"
    assert w.sashes[1].dummy
    assert not w.sashes[1].hinge_edges


def test_nested_bars_are_measured_from_the_frame_too():
    w = window_of("""
        frame: {width: 1600, height: 1400}
        mullions: [500]
        lights:
          - {light: fixed}
          - transoms: [450]
            lights:
              - {light: fixed}
              - mullions: [1000]
                lights: [{light: fixed}, {light: side-hung, hinge: right}]
    """)
    assert (1000 - 18 - (500 + 18) - 10, 1400 - 46 - (450 + 18) - 10) == (454, 876) == cut(w, "G3")
    assert (1600 - 43 - (1000 + 15) - 122, 1400 - 43 - (450 + 15) - 122) == (420, 770) == cut(w, "G4")
    assert 1400 - 450 - 18 - 46 + 24 == 910 == length(w, "M2")
    assert w.bars[2].meets == ("sill", "T1")


def test_a_pane_is_cut_in_whole_mm_centred_between_its_uprights_on_its_blocks():
    w = window_of("frame: {width: 900.5, height: 1350.75}\nlights: [{light: fixed}]")
    assert (900.5 - 102, 1350.75 - 102) == (798.5, 1248.75)
    assert cut(w, "G1") == (798, 1248)
    # 46 + 5 from the left and 0.5 / 2 more; it stands where it stood, and is lower by 0.75 at its head
    assert w.panes[0].cut.outline.bounds == pytest.approx((51.25, 51, 51.25 + 798, 51 + 1248))
    # width by height of the order, 798 x 1248 mm, and 2.5 kg for each of 4 + 4 mm
    assert w.panes[0].area_m2 == pytest.approx(0.995904)
    assert w.panes[0].mass_kg == pytest.approx(19.91808)


def test_rounding_down_forgives_float_noise_and_nothing_more():
    assert whole_mm(419.9999999) == 420
    assert whole_mm(419.9999) == 419
    assert whole_mm(420.0) == 420
