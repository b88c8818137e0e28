from __future__ import annotations

import csv
import io
import json
from dataclasses import replace

import pytest
from shapely.geometry import Polygon, box

from elevations import pipeline
from elevations.schedules import SCHEDULES
from elevations.schedules.fixings import FIXINGS
from elevations.schedules.glass import GLASS
from elevations.schedules.table import Column, Schedule, as_csv, as_json, as_table, tidy
from elevations.schedules.windows import WINDOWS
from elevations.spec.load import parse_job
from tests.jobs import windows_of

HEAD = "glass: {clear: {make_up: 4/20/4}, safe: {make_up: 4/20/4, toughened: [outer, inner], obscure: outer}}\n"
TWO = HEAD + """
defaults: {glass: clear}
windows:
  - mark: W1
    location: Kitchen
    frame: {width: 1200, height: 1050}
    mullions: [600]
    lights: [{light: side-hung, hinge: left}, {light: fixed, glass: safe}]
"""


def rows(kind, text=TWO):
    return pipeline.rows(parse_job(text, "job.yaml"), SCHEDULES[kind])


def test_glass_rows_carry_cut_and_sight_sizes():
    left, right = rows("glass")
    # The sums of the format's own description, 'The arithmetic, on two lights'.
    assert (600 - 15 - 43 - 2 * 56 - 2 * 5, 1050 - 2 * 43 - 2 * 56 - 2 * 5) == (left.width_mm, left.height_mm) == (420, 842)
    assert (1200 - 46 - 618 - 2 * 5, 1050 - 2 * 46 - 2 * 5) == (right.width_mm, right.height_mm) == (526, 948)
    assert (542 - 2 * 76, 964 - 2 * 76) == (left.sight_width_mm, left.sight_height_mm) == (390, 812)


def test_glass_mass_is_that_of_its_panes_without_the_cavity():
    left, right = rows("glass")
    # 2,500 kg/m3 for soda-lime glass (EN 572-1, from memory): 8 mm is 20 kg/m2.
    assert left.area_m2 == round(0.420 * 0.842, 3) == 0.354
    assert left.mass_kg == round(0.420 * 0.842 * 20, 1) == 7.1
    assert right.mass_kg == round(0.526 * 0.948 * 20, 1) == 10


def test_glass_json_has_the_fields_of_the_format():
    first = json.loads(as_json(SCHEDULES["glass"], rows("glass")))[0]
    described = {
        "tag": "W1-G1", "mark": "W1", "light": 1, "make_up": "4/20/4", "width_mm": 420, "height_mm": 842, "thickness_mm": 28,
    }
    assert {key: first[key] for key in described} == described
    assert type(first["width_mm"]) is int
    assert set(first) >= {"area_m2", "mass_kg", "toughened", "obscure"}


def test_what_is_toughened_or_obscure_is_said():
    left, right = rows("glass")
    assert left.notes == ""
    assert right.notes == "toughened outer, inner; obscure outer"


def test_the_totals_of_a_table_are_the_sums_of_its_columns():
    text = as_table(SCHEDULES["glass"], rows("glass"))
    assert "clear (4/20/4): 1 pane, 0.354 m2, 7.1 kg\n" in text
    assert "safe (4/20/4): 1 pane, 0.499 m2, 10.0 kg\n" in text
    assert "all: 2 panes, 0.853 m2, 17.1 kg\n" in text   # 0.354 + 0.499; 7.1 + 10.0


def test_fixing_rows_say_how_far_along_and_from_which_end():
    found = [(row.tag, row.side, row.along_mm, row.measured_from, row.from_corner_mm) for row in rows("fixings")]
    # Jambs 1050 high: 150 from each end leaves 750, more than 600, so one more half way: 150, 525, 900.
    assert found[:3] == [
        ("W1-F1", "left jamb", 150, "top", 150), ("W1-F2", "left jamb", 525, "top", 525), ("W1-F3", "left jamb", 900, "top", 150),
    ]
    # Head 1200 long, mullion at 600: nothing between 450 and 750.
    assert [row[2] for row in found[3:6]] == [150, 450, 1050] or [row[2] for row in found[3:6]] == [150, 750, 1050]


def test_window_rows_put_lights_into_words():
    (row,) = rows("windows")
    assert (row.mark, row.location, row.width_mm, row.height_mm, row.system) == ("W1", "Kitchen", 1200, 1050, "flush-70")
    assert row.lights == ("side-hung, hinges left, opens out", "fixed")
    assert (row.panes, row.sashes, row.fixings) == (2, 1, 12)


def test_a_fanlight_is_called_one():
    text = HEAD + (
        "defaults: {glass: clear}\nwindows:\n  - mark: W1\n    frame: {width: 900, height: 1300}\n"
        "    transoms: [400]\n    lights: [{light: top-hung}, {light: fixed}]\n"
    )
    assert rows("windows", text)[0].lights == ("top-hung, opens out (fanlight)", "fixed")


def test_numbers_stand_right_and_text_left():
    header, _, first, *_ = as_table(SCHEDULES["glass"], rows("glass")).splitlines()
    assert first.startswith("W1-G1 ")
    for heading, cell in (("width mm", "420"), ("height mm", "842"), ("mass kg", "7.1")):
        assert header.index(heading) + len(heading) == first.index(cell) + len(cell)


@pytest.mark.parametrize("start", ["=1+1", "+44", "-5 mm", "@x", "\tx", "\rx"])   # OWASP, 'CSV injection' (from memory)
def test_text_that_a_spreadsheet_would_run_is_disarmed(start):
    schedule = Schedule("x", "x", (Column("mark", text=True),), lambda _: [], lambda _: [])
    (_, (cell,)) = csv.reader(io.StringIO(as_csv(schedule, [type("Row", (), {"mark": start})()]), newline=""))
    assert cell == "'" + start


def test_numbers_are_never_disarmed():
    schedule = Schedule("x", "x", (Column("along_mm"),), lambda _: [], lambda _: [])
    assert as_csv(schedule, [type("Row", (), {"along_mm": -5})()]) == "along_mm\r\n-5\r\n"


@pytest.mark.parametrize("kind", SCHEDULES)
def test_csv_and_json_hold_the_same(kind):
    every_kind = TWO.replace("hinge: left", "hinge: left, bars: {columns: 2}") + "  - {mark: W2, circular: {diameter: 700}, lights: [{light: fixed}]}\n"
    every_kind += "  - {mark: W3, frame: {width: 900, height: 900}, sill: {projection: 90}, lights: [{light: fixed}]}\n"
    schedule, made = SCHEDULES[kind], rows(kind, every_kind)
    data = json.loads(as_json(schedule, made))
    read = list(csv.DictReader(io.StringIO(as_csv(schedule, made), newline="")))
    assert len(read) == len(data) > 0
    for line, row in zip(read, data, strict=True):
        assert list(line) == list(row)
        for key, value in row.items():
            yes_no = {True: "yes", False: "no"}.get(value) if isinstance(value, bool) else None
            shown = yes_no or ("; ".join(value) if isinstance(value, list) else "" if value is None else str(value))
            assert line[key] == shown


def test_lengths_without_a_fraction_are_whole_numbers():
    assert json.dumps([tidy(420.0, 1), tidy(462.66, 1), tidy(-0.04, 1)]) == "[420, 462.7, 0]"


def test_the_higher_light_of_two_is_no_fanlight():
    # transom 900 from the top of 1300: 900 above it, 400 below; common practice, no source
    (window,) = windows_of("""
        - mark: W1
          frame: {width: 900, height: 1300}
          transoms: [900]
          lights: [{light: top-hung}, {light: fixed}]
    """)
    assert next(iter(WINDOWS.rows(window))).lights == ("top-hung, opens out", "fixed")


def test_findings_are_said_in_words_with_spaces_to_break_at():
    row = replace(next(iter(WINDOWS.rows(windows_of("- {mark: W1, frame: {width: 900, height: 1300}, lights: [{light: fixed}]}")[0]))), findings=())
    assert row.findings_in_words == ""
    told = replace(row, findings=("diagonals-missing", "hardware-none-carries", "hardware-none-carries"))
    assert told.findings_in_words == "3: diagonals missing, hardware none carries"


def test_the_area_of_a_shaped_pane_is_its_own_and_not_its_rectangles():
    # raked 1000 wide, 800 to 1200 high, fixed: shapely's offset of the outer edge by 46 + 5 all round is the oracle
    (window,) = windows_of("""
        - mark: W1
          frame: {width: 1000}
          head: {raked: {left: 800, right: 1200}}
          lights: [{light: fixed}]
    """)
    (row,) = GLASS.rows(window)
    cut = Polygon([(0, 0), (1000, 0), (1000, 1200), (0, 800)]).buffer(-51, join_style="mitre", mitre_limit=50)
    # 898 x 1073.671 over all: 0.671 comes off the level bottom edge, so that its template is in whole mm, as it is ordered
    left, low, right, high = cut.bounds
    assert (right - left, high - low) == pytest.approx((898, 1073.671), abs=1e-3)
    ordered = cut.intersection(box(left, high - 1073, right, high))
    assert (row.width_mm, row.height_mm, row.area_m2) == (898, 1073, round(ordered.area / 1e6, 3))
    assert row.area_m2 < row.width_mm * row.height_mm / 1e6 - 0.1


def test_half_millimetres_stay_in_the_schedule_of_fixings():
    (window,) = windows_of("- {mark: W1, frame: {width: 1051, height: 600}, lights: [{light: fixed}]}")
    head = [row.along_mm for row in FIXINGS.rows(window) if row.side == "head"]
    assert head == [150, 150 + 751 / 2, 901]
