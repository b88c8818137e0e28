"""Reinforcement: who gets it, and how long it is; sums by hand, geometry by shapely."""

import pytest
from shapely.geometry import Polygon, box

from elevations.catalogue.hardware import Reinforcement
from elevations.catalogue.system import PartKind
from elevations.schedules.cutting import cutting_rows
from tests.jobs import window_of
from tests.schedules.cut_windows import TWO_LIGHTS, with_system


def rows_of(text):
    return list(cutting_rows(window_of(text)))


def row(rows, piece, profile):
    return next(r for r in rows if r.profile == profile and piece in r.pieces)


def test_steel_stops_short_of_the_mitre_where_that_comes_nearest():
    # flush-70: set-back 10 from each end cut; the mitre reaches 42 in where the steel ends
    rows = rows_of(TWO_LIGHTS)
    head = row(rows, "W1-head", "frame reinforcement")
    assert (head.length_mm, head.ends, head.remark) == (1200 - 2 * 42 - 2 * 10, "90/90", "")
    assert row(rows, "W1-M1", "mullion reinforcement").length_mm == 982 - 2 * 10


@pytest.mark.parametrize(("finish", "all_of_them"), [
    ("{outside: RAL 9016, inside: RAL 9016}", False),
    ("{outside: RAL 7038, inside: RAL 9016}", True),
    ("{outside: RAL 9016, inside: RAL 7038}", True),
    ("{}", True),
])
def test_white_profiles_get_steel_by_length_and_coloured_ones_always(finish, all_of_them):
    # flush-70: white ones from 900 on. Common practice, no source.
    rows = list(cutting_rows(window_of(TWO_LIGHTS + f"    finish: {finish}\n")))
    got = {piece for r in rows if r.profile.endswith(" reinforcement") for piece in r.pieces}
    long = {piece for r in rows if r.profile in {"frame", "mullion", "transom", "sash"} and r.length_mm - 2 * r.weld_each_end_mm >= 900 for piece in r.pieces}
    every = {piece for r in rows if r.profile in {"frame", "mullion", "transom", "sash"} for piece in r.pieces}
    assert "W1-S1 left stile" in long
    assert "W1-T1" in every - long
    assert got == (every if all_of_them else long)


@pytest.mark.parametrize(("height", "reinforced"), [(899, False), (899.9, False), (900, True)])
def test_a_white_profile_is_long_enough_for_steel_by_its_finished_length(height, reinforced):
    """flush-70 welds 3 off each end: a jamb of 899 is cut 905 long, and stays without; bars have no weld."""
    rows = list(cutting_rows(window_of(
        f"frame: {{width: 1200, height: {height}}}\nlights: [{{light: fixed}}]\nfinish: {{outside: RAL 9016, inside: RAL 9016}}\n"
    )))
    assert row(rows, "W1-left jamb", "frame").length_mm == pytest.approx(height + 6)
    assert any("W1-left jamb" in r.pieces for r in rows if r.profile == "frame reinforcement") is reinforced
    assert row(rows, "W1-head", "frame reinforcement").length_mm == 1200 - 2 * 42 - 2 * 10


def test_steel_without_a_set_back_is_the_longest_that_fits_and_says_so():
    window = with_system(window_of(TWO_LIGHTS), reinforcement=None)
    head = row(list(cutting_rows(window)), "W1-head", "frame reinforcement")
    assert head.length_mm == 1200 - 2 * 42
    assert head.remark == "longest that fits between the end cuts: set-back not given"


def test_steel_too_short_to_be_there_is_left_out():
    rows = list(cutting_rows(with_system(window_of(TWO_LIGHTS), reinforcement=Reinforcement(450, 0))))
    assert row(rows, "W1-head", "frame reinforcement").length_mm == 1200 - 2 * 42 - 2 * 450
    assert all(r.length_mm > 0 for r in rows)
    assert not [r for r in rows if r.profile == "sash reinforcement"]


def test_square_ended_steel_lies_inside_the_mitred_member_by_shapely():
    window = with_system(window_of(TWO_LIGHTS), reinforcement=None)
    for member in window.members:
        part = next(p for p in window.system.profiles["frame"].section.body if p.kind is PartKind.STEEL)
        steel = row(list(cutting_rows(window)), f"W1-{member.tag}", "frame reinforcement")
        bounds, across = part.outline.bounds, member.face.bounds
        length = max(across.width, across.height)
        mitred = Polygon([(0, 0), (length, 0), (length - 46, 46), (46, 46)])
        for extra, fits in ((0.0, True), (0.2, False)):
            half = (steel.length_mm + extra) / 2
            lies = box(length / 2 - half, bounds.left, length / 2 + half, bounds.right)
            assert mitred.buffer(1e-6).contains(lies) is fits


def test_steel_weighs_what_its_section_does():
    steel = row(rows_of(TWO_LIGHTS), "W1-head", "frame reinforcement")
    # a channel of 1.5 mm sheet, 31.25 + 31.1 + 31.25 long along its middle line, the rounding of its two corners neglected
    # (under 2 %); steel 7,850 kg/m3 (from memory)
    assert steel.mass_kg == pytest.approx(2 * 1.096 * (31.25 + 31.1 + 31.25) * 1.5e-6 * 7850, rel=0.02)
