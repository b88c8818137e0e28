"""Frame extensions, sills, glazing bars on the face, and beads by weight: sums by hand.

flush-70: extensions 20 (0.42 kg/m) and 40 (0.78), sill 150 (1.60), glazing bar 24 x 12 (0.14); frame sight 66, rebate 46.
"""

import math
from dataclasses import replace

import pytest

from elevations.catalogue.reading import read_system
from elevations.catalogue.strips import Strips
from elevations.cutting.job import bar_sets
from elevations.geometry.mass import bead_kg_per_m
from elevations.schedules.cut_strips import strip_findings
from elevations.schedules.cutting import CUTTING, cutting_rows, merged
from elevations.schedules.hardware import all_findings
from elevations.schedules.machining import machining_rows
from elevations.schedules.table import as_csv
from elevations.sheets.workshop import is_of
from elevations.spec.load import parse_job
from tests.catalogue.test_systems import LEAST
from tests.jobs import window_of, windows_of
from tests.schedules.cut_windows import TWO_LIGHTS, with_system

COLOURS = "finish: {outside: RAL 7038, inside: RAL 9016}\n"


def rows_of(text):
    return list(cutting_rows(window_of(text)))


def row(rows, piece):
    return next(r for r in rows if piece in r.pieces)


def test_extensions_run_along_the_frame_and_over_those_of_the_jambs():
    rows = rows_of("frame: {width: 1200, height: 1050}\nfit: {add_ons: {left: 20, right: 20, head: 40}}\nlights: [{light: fixed}]\n" + COLOURS)
    head, left = row(rows, "W1-head extension"), row(rows, "W1-left jamb extension")
    assert (head.profile, head.length_mm, head.ends, head.remark) == ("frame extension 40", 1200 + 2 * 20, "90/90", "runs over those of the jambs")
    assert (left.profile, left.length_mm, left.quantity, left.weld_each_end_mm) == ("frame extension 20", 1050, 2, 0)
    assert head.mass_kg == pytest.approx(1.240 * 0.78)
    assert left.mass_kg == pytest.approx(2 * 1.050 * 0.42)
    assert (head.finish_outside, head.finish_inside) == ("RAL 7038", "RAL 9016")
    assert not [r for r in rows if "W1-sill extension" in r.pieces]


def test_an_extension_that_the_system_does_not_have_is_cut_and_told():
    rows = rows_of("frame: {width: 1200, height: 1050}\nfit: {add_ons: {head: 33}}\nlights: [{light: fixed}]\n")
    head = row(rows, "W1-head extension")
    assert (head.length_mm, head.mass_kg, head.remark) == (1200, None, "flush-70 lists none 33 wide")


def test_a_size_that_the_system_does_not_have_is_a_finding_and_its_bars_say_so():
    text = "frame: {width: 1200, height: 1050}\nfit: {add_ons: {left: 25, head: 20}}\nsill: {projection: 130}\nlights: [{light: fixed}]\n"
    window = window_of(text)
    found = {finding.subject: finding for finding in all_findings(window) if finding.code == "size-not-listed"}
    assert set(found) == {"left extension", "sub-sill"}   # 20 over the head is there
    assert (found["left extension"].message, found["left extension"].value_mm) == ("flush-70 lists no frame extension of 25", 25)
    sizes = ", ".join(f"{strip.size_mm:g}" for strip in sorted(window.system.strips.sills, key=lambda strip: strip.size_mm))
    assert found["sub-sill"].hint == f"it lists {sizes}; take one of these, or add it to 'sills' in the system's file"
    names = {s.profile for s in bar_sets(rows_of(text)) if s.profile.startswith(("sill", "frame ext"))}
    assert names == {"frame extension 20", "frame extension 25, not in the system", "sill 130, not in the system"}
    job = parse_job("workshop: {off_cuts: [{system: flush-70, profile: sill 130, length: 1500}]}\nglass: {g: {make_up: 4/20/4}}\nwindows: [{mark: W1, "
                    "frame: {width: 900, height: 900}, lights: [{light: fixed}]}]\n", "job.yaml").job
    assert is_of(job.workshop.off_cuts[0], replace(row(rows_of(text), "W1-sub-sill"), finish_outside=""))   # the rack may have it all the same


def test_a_system_that_lists_no_sizes_finds_none_missing():
    window = window_of("frame: {width: 1200, height: 1050}\nfit: {add_ons: {left: 25}}\nsill: {projection: 130}\nlights: [{light: fixed}]\n")
    assert not list(strip_findings(replace(window, system=replace(window.system, strips=Strips()))))


def test_an_extension_round_an_arch_is_as_long_as_the_frame_there():
    rows = rows_of("frame: {width: 1000, height: 1500}\nhead: {arched: {rise: 500}}\nfit: {add_ons: {head: 20}}\nlights: [{light: fixed}]\n")
    head = row(rows, "W1-head extension")
    assert head.length_mm == pytest.approx(math.pi * 500, abs=0.05)
    assert head.remark.startswith("bent")


def test_a_sill_is_cut_with_its_horns_over_the_extensions_and_slotted():
    window = window_of("frame: {width: 1200, height: 1050}\nfit: {add_ons: {left: 20}}\nsill: {projection: 150, horns: 40}\nlights: [{light: fixed}]\n" + COLOURS)
    sill = row(list(cutting_rows(window)), "W1-sub-sill")
    length = 1200 + 20 + 2 * 40
    assert (sill.profile, sill.length_mm, sill.ends, sill.quantity, sill.remark) == ("sill 150", length, "90/90", 1, "2 end caps")
    assert sill.mass_kg == pytest.approx(length / 1000 * 1.60)
    # 150 from both ends, and as many between as 600 asks for: 1000 in two
    weeps = [(r.along_mm, r.measured_from) for r in machining_rows(window) if r.piece == "W1-sub-sill"]
    assert weeps == [(150, "left"), (650, "left"), (1150, "left")]


def test_glazing_bars_on_the_face_are_cut_twice_each_in_the_colour_of_its_side():
    rows = rows_of("frame: {width: 1200, height: 1050}\nlights: [{light: fixed, bars: {columns: 2, rows: 2}}]\n" + COLOURS)
    # visible glass 1200 - 2 x 66 by 1050 - 2 x 66; the upright runs through, the levels are cut between: (1068 - 24) / 2
    bars = [(r.finish_outside, r.length_mm, r.quantity, r.ends) for r in rows if r.profile == "glazing bar on the face 24 x 12"]
    assert sorted(bars) == [("RAL 7038", 522, 2, "90/90"), ("RAL 7038", 918, 1, "90/90"), ("RAL 9016", 522, 2, "90/90"), ("RAL 9016", 918, 1, "90/90")]
    assert row(rows, "W1-B1 outside").mass_kg == pytest.approx(0.918 * 0.14)


def test_bars_between_the_panes_come_with_the_unit():
    rows = rows_of("frame: {width: 1200, height: 1050}\nlights: [{light: fixed, bars: {columns: 2, rows: 1, kind: in-unit}}]\n")
    assert not [r for r in rows if r.profile.startswith("glazing bar")]


def test_a_border_is_mitred_and_a_bar_under_a_rake_cut_to_it():
    border = rows_of("frame: {width: 1200, height: 1050}\nlights: [{light: fixed, bars: {border: 100}}]\n")
    assert {r.ends for r in border if r.profile.startswith("glazing bar")} == {"45/45"}
    raked = rows_of("frame: {width: 1200, height: 1400}\nhead: {raked: {left: 1100, right: 1400}}\nlights: [{light: fixed, bars: {columns: 2, rows: 1}}]\n")
    (bar,) = [r for r in raked if r.profile.startswith("glazing bar")]
    assert bar.ends == f"{90 - math.degrees(math.atan(300 / 1200)):.0f}/90"    # the top end first
    arched = rows_of("frame: {width: 1200, height: 1400}\nhead: {arched: {rise: 300}}\nlights: [{light: fixed, bars: {columns: 2, rows: 1}}]\n")
    (bar,) = [r for r in arched if r.profile.startswith("glazing bar")]
    assert (bar.ends, bar.remark) == ("90/90", "top end scribed to the sight line")


def test_a_bead_weighs_what_its_outline_does_or_what_the_system_says():
    window = window_of(TWO_LIGHTS)
    # the frame's bead in its outline, by the shoelace formula over its twelve corners by hand: 148 mm2; PVC-U 1,400 kg/m3 (from memory)
    corners = [(40, 0), (61, 0), (66, 5), (66, 21), (46, 21), (46, 19), (64, 19), (64, 5.8), (60.2, 2), (42, 2), (42, 11), (40, 11)]
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1], strict=True)) / 2
    assert bead_kg_per_m(window.system, "frame") == pytest.approx(area * 1e-6 * 1400)
    bead = row(list(cutting_rows(window)), "W1-G3 top")
    assert bead.mass_kg == pytest.approx(bead.quantity * bead.length_mm / 1000 * area * 1e-6 * 1400)
    told = with_system(window, bead_kg_per_m=0.2)
    assert row(list(cutting_rows(told)), "W1-G3 top").mass_kg == pytest.approx(bead.quantity * bead.length_mm / 1000 * 0.2)
    assert bead_kg_per_m(replace(window.system, material="timber"), "frame") is None


def test_a_mullion_and_a_transom_of_one_profile_come_out_of_the_same_bars():
    rows = rows_of(TWO_LIGHTS)
    assert {r.bars for r in rows if r.profile in ("mullion", "transom")} == {"mullion and transom"}
    assert {r.bars for r in rows if r.profile in ("mullion reinforcement", "transom reinforcement")} == {"mullion and transom reinforcement"}
    (bars,) = [s for s in bar_sets(rows) if s.profile == "mullion and transom"]
    assert sorted(name for bar in bars.pieces for name in bar) == ["W1-M1", "W1-T1"]
    assert bars.plan.new_bars == 1


def test_profiles_that_differ_or_are_named_otherwise_have_bars_of_their_own(tmp_path):
    window = window_of(TWO_LIGHTS)
    heavier = {**window.system.profiles, "transom": replace(window.system.profiles["transom"], kg_per_m=1.6)}
    assert {r.bars for r in cutting_rows(with_system(window, profiles=heavier)) if r.profile in ("mullion", "transom")} == {"mullion", "transom"}
    text = LEAST.replace("sash:    {", "sash:    {stock: bar-60, ").replace("transom: {", "transom: {stock: bar-60, ")
    system = read_system(text, "own.yaml", tmp_path).system
    assert system.cut_from("sash") == ("bar-60", ("transom", "sash"))
    assert system.cut_from("mullion") == ("mullion", ("mullion",))


def test_masses_are_rounded_once_where_they_are_printed():
    # a bead of 28 mm in the frame, 100 windows: each weighs so little more than its two decimals that rounding first would lose it
    text = "".join(f"- {{mark: W{n}, frame: {{width: 901, height: 701}}, lights: [{{light: fixed}}]}}\n" for n in range(40))
    rows = merged(r for window in windows_of(text) for r in cutting_rows(window))
    head = row(rows, "W1-head")
    assert head.mass_kg == pytest.approx(40 * 2 * 0.907 * 1.15, abs=1e-9)     # 83.444; 40 times 2.09 would be 83.6
    assert "83.44," in next(line for line in as_csv(CUTTING, rows).splitlines() if "W1-head" in line and line.startswith("frame,"))


@pytest.mark.parametrize(("more", "code", "words"), [
    ("extensions: 40\n", "not-a-list", "'extensions' is '40', not a list"),
    ("extensions: [40]\n", "not-a-block", "an item of 'extensions' must be a block of keys, not '40'"),
    ("sills: [{projection: 150, width: 150}]\n", "unknown-key", "'width' has no meaning"),
    ("sills: [{projection: 0}]\n", "out-of-range", "'projection' is 0"),
    ("sills: [null]\n", "not-a-block", "an item of 'sills' is empty"),
])
def test_faults_in_the_lists_of_strips_are_told_in_their_line(more, code, words, tmp_path):
    problems = read_system(LEAST + more, "own.yaml", tmp_path).problems
    assert problems[0].code == code
    assert words in problems[0].message
    assert problems[0].place.line == LEAST.count("\n") + 1
