"""The elevation from outside: what is seen, where, on which layer."""

import itertools

import pytest

from elevations.drawing.entities import Dimension, Fill, Label, Stroke, Symbol
from elevations.drawing.explode import measured
from elevations.drawing.layers import Layer
from elevations.views.chains_round import chains_round, division_rows
from elevations.views.cuts import choose_cuts
from elevations.views.elevation import elevation
from tests.jobs import window_of
from tests.sheets.lettered import items_on

TWO = "frame: {width: 1200, height: 1050}\nmullions: [600]\nlights: [{light: side-hung, hinge: left}, {light: fixed}]"
THREE = """
    frame: {width: 1810, height: 1214}
    mullions: [600, 1200]
    lights:
      - {light: side-hung, hinge: left}
      - transoms: [350]
        lights: [{light: top-hung}, {light: fixed}]
      - {light: side-hung, hinge: right}
"""


def drawn(spec, system="flush-70", scale=10.0, **options):
    window = window_of(spec, system)
    return window, elevation(window, scale, cuts=choose_cuts(window), **options)


def edges(stroke):
    xs, ys = [c.x for c in stroke.corners], [c.y for c in stroke.corners]
    return min(xs), min(ys), max(xs), max(ys)


def test_layer_glass_holds_each_panes_cut_outline_and_nothing_else():
    _, view = drawn(TWO)
    glass = items_on(view, Layer.GLASS)
    assert all(isinstance(item, Stroke) and item.closed for item in glass)
    # left: sash edge 43 + rebate 56 + clearance 5 = 104 to 104 + 420; right: 600 + 18 + 5 = 623 to 623 + 526
    assert [edges(item) for item in glass] == [(104, 104, 524, 946), (623, 51, 1149, 999)]


def test_the_sash_the_beads_and_the_sight_lines_stand_at_the_systems_stations():
    _, view = drawn(TWO)
    sash = [edges(item) for item in items_on(view, Layer.SASH) if item.closed]
    assert sash == [(43, 43, 585, 1007), (119, 119, 509, 931)]          # 585 = 600 - 15; 119 = 43 + 76
    bead = [edges(item) for item in items_on(view, Layer.BEAD)]
    assert bead == [(612, 40, 1160, 1010), (638, 66, 1134, 984)]        # bead edge 12 and 40; sight 38 and 66


def test_built_inside_out_the_frame_covers_the_edge_of_the_sash():
    _, view = drawn(TWO.replace("hinge: left", "hinge: left, swing: in"))
    hidden = [edges(item) for item in items_on(view, Layer.SASH) if item.closed and item.line == "dashed"]
    assert hidden == [(43, 43, 585, 1007)]
    seen = [edges(item) for item in items_on(view, Layer.FRAME) if item.closed]
    assert seen == [(66, 66, 562, 984)]                                 # the frame's own sight line: 66, and 600 - 38
    beads = [edges(item) for item in items_on(view, Layer.BEAD)]
    assert (612, 40, 1160, 1010) not in beads                           # the fixed light's beads are inside now


@pytest.mark.parametrize(("swing", "line"), [("out", None), ("in", "dashed")])
def test_the_symbol_is_solid_where_the_light_opens_towards_the_viewer(swing, line):
    _, view = drawn(TWO.replace("hinge: left", f"hinge: left, swing: {swing}"))
    assert [item.line for item in items_on(view, Layer.OPENING)] == [line]


def test_the_symbols_point_is_at_the_hinge_unless_turned_round():
    points = [
        items_on(drawn(TWO, apex_at_hinge=at_hinge)[1], Layer.OPENING)[0].corners[1][:2] for at_hinge in (True, False)
    ]
    assert points == [(43, 525), (585, 525)]


def test_tilt_and_turn_has_two_triangles_and_a_dummy_none():
    _, view = drawn(TWO.replace("side-hung", "tilt-and-turn"), "lipped-70")
    assert len(items_on(view, Layer.OPENING)) == 2
    _, view = drawn("frame: {width: 900, height: 900}\nlights: [{light: fixed, sash: dummy}]")
    assert items_on(view, Layer.OPENING) == []


def test_fixing_signs_stand_at_their_schedules_places_half_a_rebate_in():
    window, view = drawn(THREE)
    signs = {item.tag: item for item in items_on(view, Layer.FIXING)}
    assert all(isinstance(sign, Symbol) for sign in signs.values())
    assert len(signs) == len(window.fixings)
    for point in window.fixings:
        sign = signs[point.tag].at
        if point.side.endswith("jamb"):
            assert 1214 - sign.y == pytest.approx(point.along.value)
            assert min(sign.x, 1810 - sign.x) == 23                      # half of the frame's 46
        else:
            assert sign.x == pytest.approx(point.along.value)
            assert min(sign.y, 1214 - sign.y) == 23


def chains(view, upright):
    """Parts of each chain by the line it runs on, in order along it."""
    lines = {}
    for group in view.groups:
        for item in group.items:
            if isinstance(item, Dimension) and item.upright == upright:
                lines.setdefault(item.line_at, []).append(item)
    axis = 1 if upright else 0
    return {at: [round(measured(d), 3) for d in sorted(dims, key=lambda d: d.start[axis])] for at, dims in lines.items()}


def test_chains_add_up_to_the_overall_size():
    _, view = drawn(THREE)
    level, upright = chains(view, upright=False), chains(view, upright=True)
    assert [600, 600, 610] in level.values()
    assert [864, 350] in upright.values()                                # from the bottom up: 1214 - 350 = 864
    assert {sum(parts) for parts in level.values()} == {1810}
    assert {sum(parts) for parts in upright.values()} == {1214}


def test_third_millimetres_still_add_up():
    _, view = drawn("frame: {width: 1000, height: 700}\nmullions: equal-centres\nlights: [{light: fixed}, {light: fixed}, {light: fixed}]")
    assert [333.3, 333.4, 333.3] in chains(view, upright=False).values()


def test_sides_whose_fixings_repeat_another_are_named_and_not_dimensioned():
    _, view = drawn(THREE)
    words = " ".join(item.text for group in view.groups for item in group.items if isinstance(item, Label))
    assert "sill as head, left jamb as right jamb" in words


def test_a_sill_that_is_fixed_otherwise_than_the_head_has_its_own_chain():
    window, view = drawn("""
        frame: {width: 1810, height: 1214}
        transoms: [400]
        lights:
          - mullions: [700]
            lights: [{light: fixed}, {light: fixed}]
          - {light: fixed}
    """)
    head, sill = ([p.along.value for p in window.fixings if p.side == side] for side in ("head", "sill"))
    assert head != sill
    below = [parts for at, parts in chains(view, upright=False).items() if at < 0]
    # the sill is as the rules would have it: 150 at both ends, and (1810 - 300) / 3 = 503.3 between
    assert any(parts == pytest.approx([150, 503.3, 503.4, 503.3, 150]) for parts in below)


def test_deeper_divisions_get_rows_of_their_own_and_repeats_none():
    window = window_of("""
        frame: {width: 2400, height: 1800}
        transoms: [600, 1200]
        lights:
          - mullions: [800, 1600]
            lights: [{light: fixed}, {light: fixed}, {light: fixed}]
          - mullions: [1200]
            lights: [{light: fixed}, {light: fixed}]
          - mullions: [800, 1600]
            lights: [{light: fixed}, {light: fixed}, {light: fixed}]
    """)
    assert division_rows(window, mullions=True) == [[(0, 800, 1600, 2400)], [(0, 1200, 2400)]]
    assert division_rows(window, mullions=False) == [[(0, 600, 1200, 1800)]]


def test_a_mirrored_window_makes_mirrored_lines():
    spec = "frame: {width: 1200, height: 1050}\nmullions: [500]\nlights: [{light: side-hung, hinge: left}, {light: fixed}]"
    other = "frame: {width: 1200, height: 1050}\nmullions: [700]\nlights: [{light: fixed}, {light: side-hung, hinge: right}]"

    def lines(view, turned):
        found = set()
        for group in view.groups:
            for item in group.items:
                if isinstance(item, Stroke):
                    ends = [(round(1200 - c.x if turned else c.x, 3), round(c.y, 3)) for c in item.corners]
                    ends += ends[:1] if item.closed else []
                    found |= {(item.layer, item.line, *sorted(pair)) for pair in itertools.pairwise(ends)}
        return found

    assert lines(drawn(spec)[1], turned=False) == lines(drawn(other)[1], turned=True)


def test_every_member_bar_and_light_is_a_group_with_its_identity():
    _, view = drawn(THREE)
    groups = {group.id: group for group in view.groups}
    for name in ("head", "sill", "left-jamb", "right-jamb", "m1", "m2", "t1", "light-1", "light-2", "light-3", "light-4"):
        assert groups[name].title
        assert ("mark", "W1") in groups[name].data
    assert ("tag", "G2") in groups["light-2"].data


def test_the_words_of_a_light_hold_its_glass_size_clear_of_the_symbol():
    _, view = drawn(THREE)
    light = next(group for group in view.groups if group.id == "light-1")
    words = [item.text for item in light.items if isinstance(item, Label)]
    assert words[0] == "1"
    assert "G1 420 × 1006" in words          # 600-15-43-2*61 = 420; 1214-86-122 = 1006
    assert "sash 542 × 1128" in words


def test_glass_has_a_tone_within_its_sight_line_on_another_layer():
    window, view = drawn(TWO)
    fills = [item for group in view.groups for item in group.items if isinstance(item, Fill)]
    assert {item.layer for item in fills} == {Layer.HATCH}
    assert [item.outline for item in fills] == [pane.sight.outline for pane in window.panes]


def test_neighbouring_chains_that_need_each_others_room_go_on_lines_of_their_own():
    # at 1:50 six spans of 200 take 26 mm of paper, their texts some 40
    side = "{transoms: [1200], lights: [{light: fixed}, {mullions: [%s], lights: [%s]}]}"
    fixed = ", ".join(["{light: fixed}"] * 6)
    left, right = (", ".join(str(first + 200 * i) for i in range(5)) for first in (300, 1500))
    window = window_of(f"""
        frame: {{width: 2600, height: 2400}}
        mullions: [1300]
        lights: [{side % (left, fixed)}, {side % (right, fixed)}]
    """)
    bars = [dim for dim in chains_round(window, 50.0).bars if not dim.upright and measured(dim) < 1000]
    assert len(bars) == 12
    assert len({dim.line_at for dim in bars}) == 2
