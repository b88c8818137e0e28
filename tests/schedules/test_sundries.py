"""What else a job takes: gaskets, blocks, fixings, sealant and foam."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from elevations import pipeline
from elevations.catalogue.load import find_system
from elevations.geometry.resolve import resolve_job
from elevations.schedules.sundries import SUNDRIES, joined, packs, perimeter_mm, sundry_rows
from elevations.spec.load import parse_job
from elevations.spec.workshop import Seal
from tests.jobs import window_of

SPECS = Path(__file__).parents[2] / "specs"
PAIR = """\
frame: {width: 1200, height: 1050}
mullions: [600]
lights: [{light: side-hung, hinge: left}, {light: fixed}]
"""


def sundries(window, seal=None):
    return {(row.what, row.remark if row.what.endswith("block") else ""): row.quantity for row in sundry_rows(window, seal)}


def test_gaskets_run_round_every_rebate_and_every_sash():
    found = sundries(window_of(PAIR))
    # tight sizes: sash 542 - 2x56 by 964 - 2x56, frame 536 by 958 (spec format); two glazing gaskets in the outlines, one closing
    round_panes = 2 * ((542 - 112) + (964 - 112)) + 2 * (536 + 958)
    assert found["glazing gasket", ""] == pytest.approx(2 * round_panes / 1000)
    assert found["closing gasket", ""] == pytest.approx(2 * (542 + 964) / 1000)


def test_blocks_fixings_and_packers_are_counted():
    window = window_of(PAIR)
    rows = list(sundry_rows(window))
    # two setting blocks a pane (EN 12488, from memory), a packer at each fixing (common practice, no source)
    assert sum(row.quantity for row in rows if row.what == "setting block") == 2 * 2
    assert sum(row.quantity for row in rows if row.what == "frame fixing") == len(window.fixings)
    assert sum(row.quantity for row in rows if row.what == "frame packer") == len(window.fixings)


def test_brackets_are_counted_apart_by_how_far_they_reach():
    """fit-walls: W1 straps 93 in at jambs and sill, 78 at the lintel; W2's lintel takes none; three fixings a side."""
    loaded = pipeline.read(str(SPECS / "fit-walls.yaml"))
    counted = {}
    for window in pipeline.windows(loaded, ["W1", "W2"]):
        for row in SUNDRIES.joined(list(sundry_rows(window))):
            if row.what in ("frame bracket", "frame fixing"):
                counted[window.mark, row.what, next((word for word in ("93", "78", "25", "not to be ordered") if word in row.remark), "")] = row.quantity
    assert counted == {
        ("W1", "frame bracket", "93"): 9, ("W1", "frame bracket", "78"): 3,
        ("W2", "frame fixing", ""): 6, ("W2", "frame bracket", "25"): 3, ("W2", "frame bracket", "not to be ordered"): 3,
    }


def test_setting_blocks_grow_with_the_glass():
    """At least 27 mm for each m2 (a block maker's figure, read) and at least 50 mm: 1.898 x 1.898 = 3.6 m2 needs 100."""
    window = window_of("frame: {width: 2000, height: 2000}\nlights: [{light: fixed}]\n")
    (row,) = [row for row in sundry_rows(window) if row.what == "setting block"]
    assert row.remark == "for 28 mm units, at least 100 long"


def test_sealant_and_foam_are_the_joints_volume():
    seal = Seal(gap=10, sealant_depth=6, foam_depth=40, cartridge=310, foam_yield=30)
    found = sundries(window_of(PAIR), seal)
    round_mm = 2 * (1200 + 1050)
    assert found["sealant", ""] == pytest.approx(round_mm * 10 * 6 / 1e6)    # 0.27 litres
    assert found["foam", ""] == pytest.approx(round_mm * 10 * 40 / 1e6)      # 1.8 litres
    assert packs(list(sundry_rows(window_of(PAIR), seal)), seal) == [
        "sealant: 1 cartridge of 310 ml, nothing allowed for waste", "foam: 1 can of 30 litres set",
    ]


def test_without_a_joint_sealant_and_foam_are_said_not_to_be_counted():
    rows = [row for row in sundry_rows(window_of(PAIR)) if row.what in ("sealant", "foam")]
    assert [(row.what, row.quantity, row.unit) for row in rows] == [("sealant", None, "litre"), ("foam", None, "litre")]
    assert all("not counted" in row.remark and "workshop: seal" in row.remark for row in rows)


def test_screws_into_couplers_are_no_wall_fixings():
    """By hand, coupled.yaml: 1100 high, joints at both sides of K2, three screws a jamb; S1 over S2, 1000 wide, three a side.

    That is (K1 right, K2 left, K2 right, K3 left, S1 sill, S2 head) x 3 = 18, each of 55 (flush-70's coupler).
    """
    loaded = pipeline.read(str(SPECS / "coupled.yaml"))
    windows = list(pipeline.windows(loaded))
    rows = joined(row for window in windows for row in sundry_rows(window))
    counted = {(row.what, row.remark): row.quantity for row in rows if "fixing" in row.what or "screw" in row.what}
    assert counted == {
        ("screw into the coupler", "55 long, by the system"): 18,
        ("frame fixing", "as drawn; type and length by the wall"): sum(len(window.fixings) for window in windows) - 18,
    }


def test_a_fixing_into_a_known_wall_is_ordered_by_its_length():
    """By hand: 46 of frame + 5 of packer + 50 in brick = 101, so 102; 40 in a lintel of concrete = 91, so 92; two a side."""
    window = window_of(
        "frame: {width: 900, height: 900}\nopening: {width: 910, height: 910}\nwall: {material: brick, thickness: 215, frame_at: 60}\nlights: [{light: fixed}]\n"
    )
    each = len(window.fixings) // 4
    assert {row.remark: row.quantity for row in sundry_rows(window) if row.what == "frame fixing"} == {
        "masonry frame screw 102 into brick": 3 * each, "masonry frame screw 92 into concrete, the lintel (taken as concrete: not given)": each,
    }


def test_a_system_without_outlines_says_that_gaskets_are_not_counted():
    window = window_of(PAIR)
    bare = replace(window, system=replace(window.system, profiles={k: replace(p, section=None) for k, p in window.system.profiles.items()}))
    rows = [row for row in sundry_rows(bare) if row.what.endswith("gasket")]
    assert {(row.quantity, row.remark) for row in rows} == {(None, "not counted: the system gives no outlines")}


def test_two_windows_take_what_each_takes():
    window = window_of(PAIR)
    seal = Seal(gap=10)
    one, two = joined(sundry_rows(window, seal)), joined([*sundry_rows(window, seal), *sundry_rows(window, seal)])
    assert [(row.what, row.quantity * 2) for row in one] == [(row.what, pytest.approx(row.quantity)) for row in two]
    assert SUNDRIES.joined(one) == one


def test_the_perimeter_of_a_circle_is_two_pi_r():
    from elevations.drawing.explode import dot_at
    from elevations.plane import Point

    assert perimeter_mm(dot_at(Point(0, 0), 300.0)) == pytest.approx(2 * math.pi * 300)


SURVEYED = """\
frame: {width: 1200, height: 1050}
opening: {width: [1224, 1220, 1216], height: 1070}
lights: [{light: fixed}]
"""


def filled(text, seal, window=None):
    return {row.what: row for row in sundry_rows(window or window_of(text), seal) if row.what in ("sealant", "foam")}


def test_a_surveyed_window_is_sealed_by_its_own_gaps_and_the_sum_is_said():
    """By hand: 1200 in 1224, 1220, 1216 leaves 12, 10, 8 a side, 10 in the mean; 1050 in 1070 leaves 10 at head and sill."""
    found = filled(SURVEYED, Seal(gap=25, sealant_depth=6, foam_depth=40))
    litres = 2 * (1200 + 1050) * 10 / 1e6
    assert found["sealant"].quantity == pytest.approx(litres * 6, abs=0.0005)
    assert found["foam"].quantity == pytest.approx(litres * 40, abs=0.0005)
    assert found["sealant"].remark == (
        "W1: head 1200 x 10.0 + left jamb 1050 x 10.0 + right jamb 1050 x 10.0 + sill 1200 x 10.0, all x 6 deep, one side")


def test_the_joint_runs_round_the_extensions_and_a_window_may_have_its_own_depths():
    text = SURVEYED.replace("width: 1200", "width: 1180") + "fit: {add_ons: {left: 20}, joint: {sealant_depth: 8, foam_depth: 0}}\n"
    found = filled(text, Seal(gap=25, sealant_depth=6, foam_depth=40))
    assert set(found) == {"sealant"}
    assert found["sealant"].quantity == pytest.approx(2 * (1180 + 20 + 1050) * 10 * 8 / 1e6, abs=0.0005)


def test_behind_a_check_the_workshops_gap_is_taken_but_not_under_the_sill():
    text = "opening: {width: 905, height: 1204}\nfit: {reveal: {kind: check, lap: 25}}\nlights: [{light: fixed}]\n"
    window = window_of(text)
    sill = sum(share * gap.mm for share, gap in zip((0.25, 0.5, 0.25), (g for g in window.site.fitted.gaps if g.side == "sill"), strict=True))
    width, height = window.width.value, window.height.value
    found = filled(text, Seal(gap=8, sealant_depth=5))
    assert found["sealant"].quantity == pytest.approx(((width + 2 * height) * 8 + width * sill) * 5 / 1e6, abs=0.0005)


def test_a_window_without_survey_or_gap_is_told_and_not_counted():
    found = filled(PAIR, Seal(sealant_depth=6))
    assert found["sealant"].quantity is None
    assert found["sealant"].remark == "W1: not counted, neither surveyed nor a gap given (workshop: seal: gap)"


def test_no_sealant_goes_where_another_frame_is_joined():
    job = parse_job("""
glass: {clear: {make_up: 4/20/4}}
windows:
  - {mark: W1, frame: {width: 900, height: 1000}, lights: [{light: fixed}]}
  - {mark: W2, frame: {width: 700, height: 1000}, lights: [{light: fixed}]}
joined: [{mark: B1, way: side-by-side, windows: [W1, W2], carries_load: false}]
""", "job.yaml").job
    first, _ = resolve_job(job, find_system)
    found = filled("", Seal(gap=10, sealant_depth=6), first)
    assert found["sealant"].quantity == pytest.approx((2 * 900 + 1000) * 10 * 6 / 1e6)
