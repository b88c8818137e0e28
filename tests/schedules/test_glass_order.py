"""The glass order: equal units together, nothing lost, and all that whoever makes them has to know."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations import pipeline
from elevations.schedules.glass import GLASS
from elevations.schedules.glass_order import GLASS_ORDER, coating_words, facing_words, special_words
from elevations.schedules.glass_order import notes as order_notes
from elevations.schedules.lifting import people_to_lift
from elevations.schedules.table import as_csv, as_table
from elevations.spec.load import parse_job
from elevations.spec.model import Glass, LowE
from elevations.spec.workshop import UnitTolerance
from tests.jobs import window_of, windows_of
from tests.properties.specs import windows as any_window

TWO_ALIKE = """
glass:
  clear: {make_up: 4/20/4, gas: argon, low_e: {face: 3, emissivity: 0.03}, spacer: warm-edge}
  safe: {make_up: 6/16/6, toughened: [outer, inner], obscure: outer}
defaults: {glass: clear}
windows:
  - {mark: W1, frame: {width: 900, height: 1350}, lights: [{light: fixed}]}
  - {mark: W2, frame: {width: 900, height: 1350}, lights: [{light: fixed}]}
  - {mark: W3, frame: {width: 900, height: 1350}, lights: [{light: fixed, glass: safe}]}
  - {mark: W4, frame: {width: 2000, height: 1800}, lights: [{light: fixed, glass: safe}]}
"""


def order(text=TWO_ALIKE):
    return pipeline.rows(parse_job(text, "job.yaml"), GLASS_ORDER)


def test_equal_units_are_one_row_with_their_count():
    first = order()[0]
    assert (first.width_mm, first.height_mm, first.quantity, first.tags) == (798, 1248, 2, ("W1-G1", "W2-G1"))
    assert first.width_mm == 900 - 2 * 46 - 2 * 5
    # 2.5 kg a m2 and mm (EN 572-1, from memory): 8 mm of glass is 20 kg/m2; 0.798 x 1.248 = 0.996 m2
    assert first.area_m2 == pytest.approx(2 * 0.996)
    assert first.mass_kg == pytest.approx(2 * 19.9)


def test_the_same_size_in_other_glass_is_another_row():
    rows = order()
    assert [(row.glass, row.width_mm, row.quantity) for row in rows] == [("clear", 798, 2), ("safe", 1898, 1), ("safe", 798, 1)]


def test_a_row_says_what_the_maker_needs():
    rows = order()
    assert rows[0].unit == (
        "clear: 4/20/4, 28 thick, argon, warm-edge spacer, low-E on face 3 (inner pane, to the cavity); "
        "mark the outer pane: it goes to the outside"
    )
    assert rows[1].unit == "safe: 6/16/6, 28 thick; toughened outer and inner, marked; obscure outer; obscure pane to the outside"


def test_heavy_units_ask_for_more_people():
    heavy = order()[1]
    # 1.898 x 1.698 = 3.2228 m2 of 12 mm glass at 2.5 kg: 96.7 kg
    assert heavy.mass_each_kg == pytest.approx(3.2228 * 12 * 2.5, abs=0.1)
    assert heavy.people == 3
    assert heavy.notes == "to lift: more than two people, or lifting gear"
    assert "2 units for more than one person to lift" in GLASS_ORDER.totals(order())[-1]   # 96.7 and 0.996 x 30 = 29.9 kg


@pytest.mark.parametrize(("mass", "people"), [(0.1, 1), (25.0, 1), (25.1, 2), (33.3, 2), (33.4, 3), (200, 3)])
def test_people_by_mass(mass, people):
    """25 kg for one, two thirds of twice that for two: HSE guideline figures, from memory."""
    assert people_to_lift(mass) == people


def test_edge_cover_under_12_mm_is_told():
    """12 mm: a glass supplier's figure, read; BS 6262 from memory. flush-70 covers 66 - 46 = 20 less its clearance."""
    (window,) = windows_of("- {mark: W1, frame: {width: 900, height: 900}, lights: [{light: fixed}]}")
    (row,) = GLASS_ORDER.rows(window)
    assert (row.edge_cover_mm, row.edge_clearance_mm, row.notes) == (66 - 46 - 5, 5, "")
    for clearance, notes in ((8, ""), (8.5, "edge cover only 11.5")):
        (row,) = GLASS_ORDER.rows(replace(window, system=replace(window.system, edge_clearance=clearance)))
        assert (row.edge_cover_mm, row.notes) == (20 - clearance, notes)


def test_a_shaped_pane_points_to_its_template():
    window = windows_of("""
        - mark: W1
          frame: {width: 1200, height: 1300}
          head: {arched: {rise: 200}}
          lights: [{light: fixed}]
        """)[0]
    (row,) = GLASS_ORDER.rows(window)
    assert row.shape == "shaped: template W1-G1"


@pytest.mark.parametrize(("glass", "coating", "special", "facing"), [
    (Glass(make_up="4/20/4"), "", "", ""),
    (Glass(make_up="4/20/4", low_e=LowE(face=2)), "low-E on face 2 (outer pane, to the cavity)", "", "mark the outer pane: it goes to the outside"),
    (Glass(make_up="4/12/4/12/4", low_e=LowE(face=5)), "low-E on face 5 (inner pane, to the cavity)", "", "mark the outer pane: it goes to the outside"),
    (Glass(make_up="4/20/4", low_e=LowE(face=4)), "low-E on face 4 (inner pane, to the room)", "", "mark the outer pane: it goes to the outside"),
    (Glass(make_up="6", low_e=LowE(face=1)), "low-E on face 1 (outer pane, to the outside)", "", ""),
    (Glass(make_up="4/20/4", obscure="inner"), "", "obscure inner", "obscure pane to the room"),
    (Glass(make_up="6/16/4"), "", "", "mark the outer pane: it goes to the outside"),
    (Glass(make_up="4/20/4", toughened=("inner",)), "", "toughened inner, marked", "mark the outer pane: it goes to the outside"),
    (Glass(make_up="4/20/4", toughened=("outer", "inner")), "", "toughened outer and inner, marked", ""),
    (Glass(make_up="4/20/4", laminated=("outer",)), "", "laminated outer, marked", "mark the outer pane: it goes to the outside"),
])
def test_coatings_treatments_and_which_way_round(glass, coating, special, facing):
    assert (coating_words(glass), special_words(glass), facing_words(glass)) == (coating, special, facing)


def test_the_table_and_the_csv_hold_every_row():
    rows = order()
    assert "W1-G1; W2-G1" in as_table(GLASS_ORDER, rows)
    assert as_csv(GLASS_ORDER, rows).count("\r\n") == len(rows) + 1


@settings(max_examples=40, deadline=None)
@given(st.lists(any_window(), min_size=1, max_size=3))
def test_order_schedule_and_drawing_have_the_same_glass(blocks):
    """Count and tags exactly; area and mass of the order as those of the schedule, which are the panes' own, rounded."""
    text = {"glass": {"clear": {"make_up": "4/20/4"}}, "windows": [{**block, "mark": f"W{i}"} for i, block in enumerate(blocks)]}
    import json

    loaded = parse_job(json.dumps(text), "job.yaml")
    rows, each = pipeline.rows(loaded, GLASS_ORDER), pipeline.rows(loaded, GLASS)
    panes = [pane for window in pipeline.windows(loaded) for pane in window.panes]
    assert sorted(tag for row in rows for tag in row.tags) == sorted(row.tag for row in each)
    assert sum(row.quantity for row in rows) == len(panes)
    assert sum(row.area_m2 for row in rows) == pytest.approx(sum(row.area_m2 for row in each), abs=1e-9 * len(panes) + 1e-9)
    assert sum(row.mass_kg for row in rows) == pytest.approx(sum(row.mass_kg for row in each), abs=1e-6)
    assert sum(row.area_m2 for row in rows) == pytest.approx(sum(p.cut.outline.area / 1e6 for p in panes), abs=0.0005 * len(panes) + 1e-9)
    assert sum(row.mass_kg for row in rows) == pytest.approx(sum(p.cut.outline.area / 1e6 * 20 for p in panes), abs=0.05 * len(panes) + 1e-9)


def test_tolerances_are_the_jobs_or_are_to_be_agreed():
    """No figures of EN 1279-1 were seen: without the job's own there are none."""
    assert "agree them with your supplier" in order_notes(None)[1]
    assert order_notes(UnitTolerance(size=2, thickness=1))[1] == "Tolerances agreed for this job: width and height ± 2 mm, thickness ± 1 mm."
    assert order_notes(UnitTolerance(size=1.5))[1] == "Tolerances agreed for this job: width and height ± 1.5 mm."


def test_a_declared_impact_class_is_part_of_the_mark():
    glass = Glass(make_up="4/20/4", toughened=("outer", "inner"), impact_class=2)
    assert special_words(glass) == "toughened outer and inner, marked with impact class 2"


@pytest.mark.parametrize("width", [1000.5, 1234.56, 2100])
def test_area_mass_and_outline_belong_to_the_ordered_size(width):
    window = window_of(f"frame: {{width: {width}, height: 1300.4}}\nmullions: equal-glass\nlights: [{{light: side-hung, hinge: left}}, {{light: fixed}}, {{light: side-hung, hinge: right}}]")
    for pane, row in zip(window.panes, GLASS.rows(window), strict=True):
        drawn = pane.cut.outline.bounds
        assert (drawn.width, drawn.height) == pytest.approx((row.width_mm, row.height_mm))
        assert row.area_m2 == round(row.width_mm * row.height_mm / 1e6, 3)
        assert row.mass_kg == round(row.width_mm * row.height_mm / 1e6 * 2.5 * 8, 1)   # 4 + 4 mm of glass, 2,500 kg/m3
