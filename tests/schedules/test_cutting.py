"""The cutting list and the machining list: sums by hand, geometry by shapely, and totals that reconcile."""

import json
import math
from collections import Counter

import pytest
from hypothesis import given, settings
from shapely.geometry import Polygon

from elevations.catalogue.load import find_system
from elevations.cutting.plan import plan
from elevations.cutting.stock import Stock, tenths
from elevations.geometry.resolve import resolve_job
from elevations.geometry.window import Member
from elevations.plane import Corner, Outline, Point
from elevations.schedules.cutting import CUTTING, cutting_rows, merged, totals
from elevations.schedules.machining import MACHINING, machining_rows
from elevations.schedules.pieces import along_cut, end_cuts, first_end, members_of
from elevations.schedules.table import as_csv, as_json, as_table
from elevations.spec.load import parse_job
from elevations.working import Source, Term, Working
from tests.jobs import window_of, windows_of
from tests.properties.specs import job as job_of
from tests.properties.specs import windows as any_window
from tests.schedules.cut_windows import TWO_LIGHTS


# flush-70, mm from each datum: frame rebate 46, bead 40; mullion rebate 18, bead 12, joint 12; sash rebate and bead 56;
# weld allowance 3 at each end. Steel: frame u 10 to 42, sash u 20.3 to 51.7.
def rows_of(text):
    return list(cutting_rows(window_of(text)))


def row(rows, piece, profile):
    return next(r for r in rows if r.profile == profile and piece in r.pieces)


def test_two_lights_worked_out_by_hand():
    rows = rows_of(TWO_LIGHTS)
    head, mullion, transom = row(rows, "W1-head", "frame"), row(rows, "W1-M1", "mullion"), row(rows, "W1-T1", "transom")
    assert (1200 + 2 * 3, "45/45", 2, 3) == (head.length_mm, head.ends, head.quantity, head.weld_each_end_mm)  # noqa: SIM300
    assert (1050 - 2 * 46 + 2 * 12, "90/90", 1, 0) == (mullion.length_mm, mullion.ends, mullion.quantity, mullion.weld_each_end_mm)  # noqa: SIM300
    assert transom.length_mm == (1200 - 46) - (600 + 18) + 2 * 12
    assert row(rows, "W1-S1 top rail", "sash").length_mm == 600 - 15 - 43 + 2 * 3
    assert head.mass_kg == pytest.approx(2 * 1.206 * 1.15, abs=0.005)


def test_rails_of_equal_length_are_one_row():
    rails = row(rows_of(TWO_LIGHTS), "W1-S1 top rail", "sash")
    assert set(rails.pieces) == {"W1-S1 top rail", "W1-S1 bottom rail", "W1-S2 top rail", "W1-S2 bottom rail"}
    assert rails.quantity == 4


def test_beads_run_to_where_they_meet_the_profile():
    rows = rows_of(TWO_LIGHTS)
    assert row(rows, "W1-G3 top", "frame bead for 28 mm glass").length_mm == (1200 - 40) - (600 + 12)
    assert row(rows, "W1-G3 left", "frame bead for 28 mm glass").length_mm == (1050 - 40) - (350 + 12)
    assert row(rows, "W1-G1 left", "sash bead for 28 mm glass").length_mm == (1050 - 2 * 43) - 2 * 56
    assert {r.ends for r in rows if " bead " in r.profile} == {"45/45"}
    assert {r.remark for r in rows if " bead " in r.profile} == {""}


def member(face, outer):
    return Member("head", "frame", outer, face, Working((Term(1.0, "x", Source("rule", "test")),)), ())


def test_a_raked_mitre_is_cut_on_the_true_bisector():
    # head rising 1 in 2 to the right over jambs: corner angles 90 + atan(1/2) left and 90 - atan(1/2) right, halved
    rise = math.degrees(math.atan(0.5))
    slope = math.hypot(1, 0.5)
    w = 46.0

    def inside(x):   # on the head's inner edge
        return 1000 + x / 2 - w * slope
    a, b = Corner(1200, 1600), Corner(0, 1000)
    c, d = Corner(w, inside(w)), Corner(1200 - w, inside(1200 - w))
    cuts = end_cuts(member(Outline((a, b, c, d)), (a.point, b.point)))
    assert cuts.first == pytest.approx((90 + rise) / 2, abs=0.05)
    assert cuts.last == pytest.approx((90 - rise) / 2, abs=0.05)


def test_a_bent_head_is_cut_radially_where_it_meets_its_like():
    # half a circle of radius 500 outside and 450 inside, running from right to left over the top
    a, b = Corner(500, 0, 1.0), Corner(-500, 0)
    c, d = Corner(-450, 0, -1.0), Corner(450, 0)
    bent = member(Outline((a, b, c, d)), (a.point, b.point))
    assert end_cuts(bent).words == "90/90"
    assert first_end(bent) == "left"
    system = find_system("flush-70")
    # the crown is a quarter of the circle from the left end, the weld allowance before it
    assert along_cut(bent, Point(0, 500), system) == pytest.approx(3 + 500 * math.pi / 2)
    assert along_cut(bent, Point(-500 * math.cos(0.3), 500 * math.sin(0.3)), system) == pytest.approx(3 + 500 * 0.3)


def test_a_raked_window_worked_out_by_hand():
    window = window_of("""
        frame: {width: 1200, height: 1400}
        head: {raked: {left: 1100, right: 1400}}
        mullions: [600]
        lights: [{light: fixed}, {light: fixed}]
    """)
    rows = list(cutting_rows(window))
    rise = math.degrees(math.atan(300 / 1200))
    cuts = [round((90 + rise) / 2, 1), round((90 - rise) / 2, 1)]
    assert cuts == [52.0, 38.0]
    assert row(rows, "W1-head", "frame").ends == "52/38"
    assert (row(rows, "W1-left jamb", "frame").ends, row(rows, "W1-right jamb", "frame").ends) == ("52/45", "38/45")
    assert row(rows, "W1-M1", "mullion").ends == f"{90 - rise:.0f}/90"
    assert row(rows, "W1-head", "frame").length_mm == pytest.approx(math.hypot(1200, 300) + 2 * 3, abs=0.05)
    # steel in the head: its edge 42 in from the outer edge is shorter by 42 / tan at each end, and the set-back is 10
    steel = math.hypot(1200, 300) - 42 / math.tan(math.radians(52.0)) - 42 / math.tan(math.radians(38.0)) - 2 * 10
    assert row(rows, "W1-head", "frame reinforcement").length_mm == pytest.approx(steel, abs=0.1)
    # steel in the mullion: by its shorter edge, 38 left of the centre line, joints 12 past the rebates of 46, set-back 10
    shorter = 1100 + (600 - 38) / 4 - 34 * math.hypot(1, 0.25) - 34
    assert row(rows, "W1-M1", "mullion reinforcement").length_mm == pytest.approx(shorter - 2 * 10, abs=0.05)
    places = {(r.piece, r.what): (r.along_mm, r.measured_from) for r in machining_rows(window)}
    assert places["W1-head", "M1"] == (pytest.approx(math.hypot(600, 150) + 3, abs=0.05), "left")
    assert places["W1-sill", "M1"] == (603, "left")


def test_bent_members_say_that_they_are_and_scribed_bars_how():
    window = window_of("circular: {diameter: 900}\nmullions: [450]\nlights: [{light: fixed}, {light: fixed}]")
    rows = list(cutting_rows(window))
    ring = row(rows, "W1-ring upper", "frame")
    assert ring.length_mm == pytest.approx(math.pi * 450 + 2 * 3, abs=0.05)
    assert ring.remark == "bent: length along the outer edge, its ends are cut after bending; its reinforcement is not listed"
    assert not [r for r in rows if r.profile == "frame reinforcement"]
    edge = 2 * math.sqrt(416**2 - 38**2)   # the chord 38 off the middle, of a circle of 450 less the rebate, plus the joint
    ends = "bottom end scribed to radius 416.0; top end scribed to radius 416.0"
    assert row(rows, "W1-M1", "mullion").remark == f"left edge {edge:.1f}, right edge {edge:.1f}; {ends}"
    assert (ring.form, row(rows, "W1-M1", "mullion").form) == ("to bend", ends)
    assert {r.form for r in rows if "bead" in r.profile and "bent" in r.remark} == {"to bend"}
    places = {(r.piece, r.what): r.along_mm for r in machining_rows(window)}
    assert places["W1-ring upper", "M1"] == pytest.approx(math.pi * 450 / 2 + 3, abs=0.05)
    assert len({piece for r in rows for piece in r.pieces if r.profile.startswith("frame bead")}) == 6


def test_equal_pieces_of_different_windows_merge_and_others_do_not():
    text = """
    - {mark: A, frame: {width: 900, height: 900}, lights: [{light: fixed}]}
    - {mark: B, frame: {width: 900, height: 800}, lights: [{light: fixed}]}
    - {mark: C, frame: {width: 900, height: 900}, lights: [{light: fixed}], finish: {inside: RAL 9016}}
    """
    rows = merged(row for window in windows_of(text) for row in cutting_rows(window))
    frames = [(r.length_mm, r.finish_inside, r.quantity) for r in rows if r.profile == "frame"]
    assert frames == [(906, "", 4 + 2), (806, "", 2), (906, "RAL 9016", 4)]
    assert set(rows[0].pieces) == {"A-head", "A-sill", "A-left jamb", "A-right jamb", "B-head", "B-sill"}


def test_the_longest_bead_seat_without_bead_figures_is_the_rebate(tmp_path):
    own = tmp_path / "own.yaml"
    own.write_text("""
system: own
title: Own
material: timber
depth: 68
swing: out
sash_face: flush
members:
  frame:   {sight: 60, rebate: 45, sash: 42}
  mullion: {sight: 35, rebate: 17, sash: 14, joint: 10}
  transom: {sight: 35, rebate: 17, sash: 14, joint: 10}
  sash:    {sight: 70, rebate: 55}
glazing: {edge_clearance: 5, thickness: [28], bead_side: outside}
""")
    text = f"""
glass: {{clear: {{make_up: 4/20/4}}}}
windows: [{{mark: W1, system: {own.name}, frame: {{width: 900, height: 800}}, lights: [{{light: fixed}}]}}]
"""
    window, = resolve_job(parse_job(text, "job.yaml").job, lambda name: find_system(name, beside=str(tmp_path)))
    rows = list(cutting_rows(window))
    bead = row(rows, "W1-G1 top", "frame bead for 28 mm glass")
    assert bead.length_mm == 900 - 2 * 45
    assert bead.remark == "cut to the rebate: the system gives no bead edge"
    frame = row(rows, "W1-head", "frame")
    assert (frame.length_mm, frame.mass_kg) == (900, None)
    assert not [r for r in rows if r.profile.endswith("reinforcement")]
    assert totals(rows)[0] == "own frame: 4 pieces, 3.40 m"


def test_both_lists_go_out_as_table_csv_and_json():
    window = window_of(TWO_LIGHTS)
    for schedule in (CUTTING, MACHINING):
        rows = list(schedule.rows(window))
        assert len(as_csv(schedule, rows).splitlines()) == len(rows) + 1
        assert '"length_mm"' in as_json(schedule, rows)
        assert schedule.totals(rows)[-1] in as_table(schedule, rows)
        assert schedule.totals([]) == []


@given(any_window())
@settings(max_examples=40, deadline=None)
def test_every_member_and_bead_of_any_window_is_cut_once_and_every_place_lies_on_its_piece(block):
    window, = resolve_job(parse_job(as_yaml(block), "job.yaml").job, find_system)
    rows = list(cutting_rows(window))
    cut = Counter(piece for r in rows for piece in r.pieces if not r.profile.endswith("reinforcement"))
    assert set(cut.values()) == {1}
    assert len(cut) == len(members_of(window)) + 4 * len(window.panes)
    assert all(r.quantity == len(r.pieces) for r in rows)
    for r in machining_rows(window):
        assert 0 < r.along_mm < r.length_mm
    slots = [r.what for r in machining_rows(window) if r.kind == "drainage slot"]
    assert {tag for what in slots for tag in what.split(", ")} == {part.tag for part in (*window.panes, *window.sashes)}
    assert sum(r.kind == "bar joint" for r in machining_rows(window)) == 2 * len(window.bars)
    assert sum(r.kind == "fixing hole" for r in machining_rows(window)) == len(window.fixings)


@given(any_window())
@settings(max_examples=25, deadline=None)
def test_beads_stand_around_the_rebate_of_any_window_by_shapely(block):
    window, = resolve_job(parse_job(as_yaml(block), "job.yaml").job, find_system)
    lengths = {piece: r.length_mm for r in cutting_rows(window) for piece in r.pieces if " bead " in r.profile}
    for pane in window.panes:
        tight = Polygon([corner.point for corner in pane.tight.outline.corners])
        around = sum(length for piece, length in lengths.items() if piece.startswith(f"W1-{pane.tag} "))
        # a bead starts at the rebate or up to 6 mm outside it, all round alike, in both built-in systems
        assert any(around == pytest.approx(tight.buffer(by, join_style="mitre").length, abs=0.25) for by in (0, 6))


@given(any_window())
@settings(max_examples=25, deadline=None)
def test_cut_lengths_and_waste_reconcile_with_the_bars(block):
    window, = resolve_job(parse_job(as_yaml(block), "job.yaml").job, find_system)
    rows = [r for r in cutting_rows(window) if r.profile == "frame"]
    pieces = Counter()
    for r in rows:
        pieces[r.length_mm] += r.quantity
    made = plan(pieces, Stock(6000, kerf_mm=4, end_trim_mm=15, least_usable_off_cut_mm=800))
    listed = sum(tenths(r.length_mm) * r.quantity for r in rows)
    assert tenths(made.pieces_mm) == listed
    bars = sum(tenths(bar.kerf_mm) + tenths(bar.trims_mm) + tenths(bar.rest_mm) for bar in made.bars)
    assert listed + bars == 60_000 * made.new_bars


def as_yaml(block):
    return json.dumps(job_of(block))   # JSON is YAML
