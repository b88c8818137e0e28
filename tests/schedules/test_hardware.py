"""Hardware by size and mass."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from elevations.catalogue.hardware import HardwareItem
from elevations.geometry.hardware import fits, measured
from elevations.schedules.hardware import HARDWARE, NONE_FITS, hardware_findings, hardware_rows, limits_words
from elevations.schedules.windows import window_rows
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


WIDE = "frame: {width: 900, height: 900}\nlights: [{light: side-hung, hinge: right}]\n"


def test_the_window_schedule_tells_of_a_sash_that_nothing_carries():
    (row,) = window_rows(window_of(WIDE))     # 814 wide; stays go to 700
    assert row.findings == ("hardware-none-carries",)


def test_a_lock_that_does_not_fit_is_another_finding_than_a_stay():
    window = with_hardware(window_of(WIDE), item("A", width_mm=(0, 700), mass_kg=30.0), replace(item("B", width_mm=(0, 600)), kind="lock"))
    assert [finding.code for finding in hardware_findings(window)] == ["hardware-none-carries", "hardware-none-fits"]
