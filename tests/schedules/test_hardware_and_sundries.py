"""Hardware by size and mass, and what else a job takes."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from elevations import pipeline
from elevations.catalogue.hardware import HardwareItem
from elevations.catalogue.load import find_system
from elevations.geometry.hardware import fits, measured
from elevations.geometry.resolve import resolve_job
from elevations.schedules.hardware import HARDWARE, NONE_FITS, hardware_findings, hardware_rows, limits_words
from elevations.schedules.sundries import SUNDRIES, joined, packs, perimeter_mm, sundry_rows
from elevations.schedules.windows import window_rows
from elevations.spec.load import parse_job
from elevations.spec.workshop import Seal
from tests.jobs import window_of, windows_of

SPECS = Path(__file__).parents[2] / "specs"
PAIR = """\
frame: {width: 1200, height: 1050}
mullions: [600]
lights: [{light: side-hung, hinge: left}, {light: fixed}]
"""


def items(window):
    return {row.kind: row.item for row in hardware_rows(window)}


def with_hardware(window, *made):
    return replace(window, system=replace(window.system, hardware=made))


def item(name, **limits):
    given = {"kind": "stay", "title": name, "openings": ("side-hung",), "width_mm": (0, 6000), "height_mm": (0, 6000), "mass_kg": None,
             "quantity": 2, "takes_mm": None, "only": ""}
    return HardwareItem(name, **{**given, **limits})


def test_the_first_item_whose_limits_hold_is_taken():
    window = window_of(PAIR)
    assert items(window) == {"stay": "ST-40", "lock": "LK-M", "handle": "HN-1"}   # the sash is 542 x 964
    assert {row.item: row.quantity for row in hardware_rows(window)} == {"ST-40": 2, "LK-M": 1, "HN-1": 1}


def test_the_mass_counts_the_glass_and_the_sash():
    window = window_of(PAIR)
    light = window.lights[0]
    seen = measured(window, light, light.sashes[0])
    glass = 0.420 * 0.842 * 8 * 2.5
    profile = 2 * (0.548 + 0.970) * 1.30      # cut lengths with 2 x 3 mm weld, kg/m of the system file
    assert seen.mass_kg > glass + profile     # and its steel
    assert seen.mass_kg == pytest.approx(glass + profile, abs=6)


@pytest.mark.parametrize(("limits", "fit"), [
    ({}, True), ({"width_mm": (542, 542)}, True), ({"width_mm": (0, 541)}, False), ({"height_mm": (965, 2000)}, False),
    ({"mass_kg": 12.0}, True), ({"mass_kg": 11.9}, False),
])
def test_limits_hold_at_their_ends(limits, fit):
    from elevations.geometry.hardware import Measured

    assert fits(item("A", **limits), Measured("W1-S1", 542, 964, 12.0)) is fit


def test_no_item_that_fits_is_a_finding_and_a_row_and_no_silence():
    window = with_hardware(window_of(PAIR), item("A", mass_kg=3.0), item("B", width_mm=(600, 900)))
    (row,) = hardware_rows(window)
    assert (row.item, row.quantity, row.kind) == (NONE_FITS, 0, "stay")
    (finding,) = hardware_findings(window)
    assert finding.code == "hardware-none-carries"
    assert (finding.mark, finding.subject) == ("W1", "S1")
    assert "no stay of flush-70 fits a side-hung sash of 542 x 964 mm" in finding.message
    assert finding.hint == "there are A: up to 3 kg; B: 600 to 900 wide"


def test_an_opening_that_the_system_lists_nothing_for_is_a_finding():
    window = with_hardware(window_of(PAIR), item("A", openings=("top-hung",)))
    assert [finding.code for finding in hardware_findings(window)] == ["no-hardware"]


def test_a_system_without_a_list_finds_nothing_wrong_and_says_that_nothing_is_chosen():
    window = with_hardware(window_of(PAIR))
    assert list(hardware_findings(window)) == []
    (row,) = hardware_rows(window)
    assert (row.item, row.title, row.quantity) == ("not chosen", "flush-70 gives no hardware", 0)
    assert row.sashes == (f"W1-S1 (542 x 964 mm, {measured(window, window.lights[0], window.lights[0].sashes[0]).mass_kg:g} kg)",)
    assert HARDWARE.totals([row]) == ["1 x not chosen: order by the size and mass of the sash"]


def test_a_way_of_opening_that_the_system_lists_nothing_for_has_a_row_too():
    (row,) = hardware_rows(with_hardware(window_of(PAIR), item("A", openings=("top-hung",))))
    assert (row.item, row.title) == ("not chosen", "flush-70 lists none for a side-hung light")


def test_restrictors_and_escape_stays_only_where_they_are_asked_for():
    plain = window_of("frame: {width: 700, height: 1100}\nlights: [{light: side-hung, hinge: left}]\n")
    asked = window_of("frame: {width: 700, height: 1100}\nlights: [{light: side-hung, hinge: left, restrictor: true, escape: true}]\n")
    assert items(plain) == {"stay": "ST-40", "lock": "LK-M", "handle": "HN-1"}
    assert items(asked) == {"stay": "ST-40E", "lock": "LK-M", "handle": "HN-1", "restrictor": "RS-1"}


def test_a_restrictor_that_the_system_does_not_have_is_a_finding():
    window = window_of("frame: {width: 900, height: 900}\nlights: [{light: tilt-and-turn, hinge: left, swing: in, restrictor: true}]\n")
    assert [finding.code for finding in hardware_findings(window)] == ["no-restrictor"]


def test_dummy_and_fixed_lights_get_none():
    window = window_of("frame: {width: 900, height: 900}\nlights: [{light: fixed, sash: dummy}]\n")
    assert list(hardware_rows(window)) == []


def test_like_items_of_a_job_are_one_row():
    rows = HARDWARE.joined([row for window in windows_of("""
        - {mark: W1, frame: {width: 700, height: 1100}, lights: [{light: side-hung, hinge: left}]}
        - {mark: W2, frame: {width: 700, height: 1100}, lights: [{light: side-hung, hinge: right}]}
        """) for row in hardware_rows(window)])
    stay = next(row for row in rows if row.kind == "stay")
    assert (stay.quantity, stay.sashes) == (4, ("W1-S1", "W2-S1"))
    assert HARDWARE.totals(rows) == ["2 x handle, 2 x lock, 4 x stay"]


def test_limits_in_words():
    assert limits_words(item("A")) == "any size"
    assert limits_words(item("A", width_mm=(300, 700), mass_kg=26.0)) == "300 to 700 wide, up to 26 kg"


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


WIDE = "frame: {width: 900, height: 900}\nlights: [{light: side-hung, hinge: right}]\n"


def test_the_window_schedule_tells_of_a_sash_that_nothing_carries():
    (row,) = window_rows(window_of(WIDE))     # 814 wide; stays go to 700
    assert row.findings == ("hardware-none-carries",)


def test_a_lock_that_does_not_fit_is_another_finding_than_a_stay():
    window = with_hardware(window_of(WIDE), item("A", width_mm=(0, 700), mass_kg=30.0), replace(item("B", width_mm=(0, 600)), kind="lock"))
    assert [finding.code for finding in hardware_findings(window)] == ["hardware-none-carries", "hardware-none-fits"]
