"""Good jobs, defaults, files that cannot be read, and places for later stages."""

import io
import sys

import pytest
from spec_jobs import GOOD, HEAD, of_lights, one

from elevations.errors import Problem, SpecError
from elevations.spec.load import load_job, locate, parse_job
from elevations.spec.starter import STARTER

FRAME = "frame: {width: 1200, height: 1050}\n"
FIXED = "lights: [{light: fixed}]"


def window(text):
    return parse_job(text, "job.yaml").job.windows[0]


def test_text_stays_as_it_is_written():
    text = one(f"location: on\n{FRAME}{FIXED}").replace("W1", "007").replace("QL-07", "12:30")
    job = parse_job(text.replace("site: Quillback Lock Cottage", "site: 1e3"), "f").job
    assert (job.windows[0].mark, job.windows[0].location) == ("007", "on")
    assert (job.job.reference, job.job.site, job.job.surveyed) == ("12:30", "1e3", "2026-10-14")


def test_lengths_may_carry_units_everywhere():
    read = window(
        one(
            'frame: {width: "1.2 m", height: 47 1/4 in}\nmullions: [60 cm]\nfloor_to_opening: 1 m\nlights: [{light: fixed}, {light: fixed}]'
        )
    )
    assert (read.frame.width, read.frame.height) == (1200, pytest.approx(47.25 * 25.4))
    assert (read.mullions, read.floor_to_opening) == ((600,), 1000)


def test_a_window_has_the_defaults():
    read = window(GOOD)
    assert (read.system, read.glass) == ("flush-70", "clear")
    assert (read.fixings.corner, read.fixings.spacing, read.fixings.clear_of_bars) == (160, 500, 150)


def test_a_window_s_part_of_a_block_keeps_the_defaults_of_the_rest():
    text = one(FRAME + "fixings: {corner: 200}\nfinish: {inside: RAL 9010}\n" + FIXED)
    read = window(text.replace("glass: clear,", "glass: clear, finish: {outside: RAL 7038, inside: RAL 9016},"))
    assert (read.fixings.corner, read.fixings.spacing, read.fixings.clear_of_bars) == (200, 500, 150)
    assert (read.finish.outside, read.finish.inside) == ("RAL 7038", "RAL 9010")


def test_the_only_make_up_needs_no_choosing():
    text = GOOD.replace("  safe: {make_up: 4/20/4, toughened: [outer, inner]}\n", "").replace("glass: clear, ", "")
    job = parse_job(text, "f").job
    assert (job.windows[0].glass, job.defaults.glass) == ("clear", "clear")


def test_a_light_with_glass_of_its_own_needs_no_default():
    lights = "[{light: fixed, glass: safe}]"
    assert window(of_lights(lights).replace("glass: clear, ", "")).lights[0].glass == "safe"


def test_every_key_of_a_light_is_read():
    lights = "[{light: side-hung, hinge: left, swing: in, escape: true, restrictor: true, handle_height: 450, vent: 4000 mm2}]"
    light = window(of_lights(lights)).lights[0]
    assert (light.swing, light.escape, light.restrictor) == ("in", True, True)
    assert (light.handle_height, light.vent) == (450, 4000)


def test_one_entry_that_is_divided_again_needs_no_bars_beside_it():
    read = window(of_lights("[{transoms: [300], lights: [{light: top-hung}, {light: fixed}]}]"))
    assert read.lights[0].transoms == (300,)


def test_the_sheet_may_be_chosen():
    drawing = parse_job(GOOD + "drawing: {sheet: A4, symbol_apex: lock}\n", "f").job.drawing
    assert (drawing.sheet, drawing.symbol_apex) == ("A4", "lock")
    assert parse_job(GOOD, "f").job.drawing.sheet == "A3"


def test_wrong_defaults_are_told_once_and_not_for_each_window():
    text = GOOD.replace("corner: 160", "corner: 5") + GOOD[len(HEAD) :].replace("W1", "W2")
    with pytest.raises(SpecError) as caught:
        parse_job(text, "f")
    assert [(p.code, p.place.line) for p in caught.value.problems] == [("out-of-range", 5)]


def test_an_empty_list_entry_does_not_move_the_places_of_the_others():
    text = of_lights("\n      -\n      - {light: fixd}", "mullions: [600]")
    with pytest.raises(SpecError) as caught:
        parse_job(text, "f")
    assert [(p.code, p.place.line) for p in caught.value.problems] == [("not-a-block", 11), ("unknown-light", 12)]


def test_a_problem_of_a_later_stage_gets_its_place_from_its_path():
    loaded = parse_job(GOOD, "job.yaml")
    at = ("windows", 0, "lights", 0, "hinge")
    (found,) = locate(loaded.document, (Problem("too-wide", "the sash is too wide", path=at),))
    assert (found.place.file, found.place.line, found.place.column) == ("job.yaml", 11, 35)
    assert locate(loaded.document, [found]) == (found,)


def test_a_job_is_read_from_a_file_and_from_standard_input(tmp_path, monkeypatch):
    file = tmp_path / "job.yaml"
    file.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    from_file = load_job(str(file)).job
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(GOOD.encode()), "ascii"))
    assert from_file == load_job("-").job == parse_job(GOOD, "f").job


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"job: \xff\xfe", "line 1 holds a byte"),
        (b"job: 1\nsite: caf\xe9\n", "line 2 holds a byte"),
        (b"a" * 16_000_100, "characters"),
        (b"\x89PNG\r\n\x1a\n\x00", "not UTF-8"),
    ],
)
def test_a_file_that_is_no_text_is_refused_in_words(tmp_path, content, words):
    file = tmp_path / "job.yaml"
    file.write_bytes(content)
    assert words in refused(str(file)).message


def test_a_missing_file_a_folder_and_an_impossible_name_are_refused_in_words(tmp_path):
    assert "no such file" in refused(str(tmp_path / "none.yaml")).message
    assert "a folder" in refused(str(tmp_path)).message
    assert "cannot be read" in refused("a\x00b").message
    assert "cannot be read" in refused("x" * 5000).message


def refused(path):
    with pytest.raises(SpecError) as caught:
        load_job(path)
    (problem,) = caught.value.problems
    assert problem.place.file == path
    return problem


def test_a_file_in_utf_16_is_read(tmp_path):
    file = tmp_path / "job.yaml"
    file.write_bytes(GOOD.encode("utf-16"))
    assert load_job(str(file)).job == parse_job(GOOD, "f").job


def test_the_starter_job_is_good_and_tells_editors_where_the_schema_is():
    job = parse_job(STARTER, "job.yaml").job
    assert [w.mark for w in job.windows] == ["W1", "W2"]
    assert job.defaults.system == "flush-70"
    # two comments, because editors disagree: yaml-language-server issue 959 (read through the notes, not tried here)
    assert STARTER.startswith(
        "# yaml-language-server: $schema=elevations.schema.json\n# $schema: elevations.schema.json\n"
    )
