"""Opening signs and words of a drawing against the job: what was changed is told, what was only moved is not."""

from __future__ import annotations

import shutil
import subprocess

import ezdxf
import pytest

from elevations.catalogue.load import find_system
from elevations.geometry.resolve import resolve_job
from elevations.sheets.readers import READERS, Standing
from elevations.spec.load import parse_job
from tests.commands.typed import JOB
from tests.verify.drawn import Drawn

SHAPED = """\
job: {reference: QL-31, site: 'Quillback Lock Cottage, 5% off the ^ quay', revision: A}
glass: {clear: {make_up: 4/20/4}}
windows:
  - mark: W1
    frame: {width: 1600, height: 1300}
    head: {arched: {rise: 200}}
    mullions: [800]
    lights: [{light: side-hung, hinge: left}, {light: fixed, bars: {columns: 2, rows: 2}}]
"""
WALLED = """\
job: {reference: QL-32, site: Quillback Lock Cottage}
glass: {clear: {make_up: 4/20/4}}
drawing: {sheet: A4}
windows:
  - mark: W1
    opening: {width: [1220, 1220, 1220], height: [1070, 1070, 1070], diagonals: [1622.8, 1622.8]}
    wall: {material: brick, thickness: 215, frame_at: 90}
    mullions: [600]
    lights: [{light: side-hung, hinge: left}, {light: fixed}]
"""


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    return Drawn(tmp_path_factory.mktemp("said"))


def text(space, words):
    return next(e for e in space.query("TEXT") if e.dxf.text == words)


@pytest.mark.parametrize(("job", "reader"), [(JOB, "factory"), (SHAPED, "factory"), (JOB, "installer"), (SHAPED, "installer")])
def test_a_drawing_as_it_was_written_has_no_difference(tmp_path, job, reader):
    assert Drawn(tmp_path, job, reader).told() == []


@pytest.mark.parametrize("text", [SHAPED, WALLED])
def test_every_page_of_the_installers_sheets_is_held_against_the_job(tmp_path, text):
    """Pages of sections and of words show no window to measure; what they say is compared all the same."""
    job = parse_job(text, "job.yaml").job
    pages = READERS["installer"].sheets(resolve_job(job, find_system)[0], job, ("model",), Standing())["model"]
    for number in range(len(pages)):
        page = Drawn(tmp_path, text, "installer", number)
        assert page.told() == []

        def change(space):
            entity = next(e for e in space.query("TEXT") if len(e.dxf.text) > 12)
            entity.dxf.text = entity.dxf.text[:-3] + "xyz"

        assert [told[0] for told in page.told(change)] == ["words"]


def test_signs_that_an_older_version_writes_as_codes_are_the_same_words(tmp_path):
    site = SHAPED.replace("5% off the ^ quay", "5% off the ^ quay at 10⁴ ≤ x")
    assert Drawn(tmp_path, site).told(version="R2000") == []


@pytest.mark.parametrize("version", ["R2000", "R2004", "R2007", "R2010", "R2018"])
def test_a_drawing_saved_as_another_version_has_no_difference(tmp_path, version):
    assert Drawn(tmp_path, SHAPED).told(version=version) == []


@pytest.mark.skipif(shutil.which("ogr2ogr") is None, reason="GDAL's programs are not installed")
def test_a_copy_that_gdal_wrote_has_its_words_and_figures(drawn, tmp_path):
    """GDAL makes TEXT to MTEXT, dimensions to lines and words, and writes × in other bytes than its header says."""
    copy = tmp_path / "copy.dxf"
    subprocess.run(["ogr2ogr", "-f", "DXF", copy, drawn.file, "--config", "DXF_INLINE_BLOCKS", "FALSE"], check=True, capture_output=True)
    assert len(ezdxf.readfile(copy).modelspace().query("DIMENSION")) == 0
    assert [told for told in drawn.of(copy) if told[0] != "drawing"] == []


def test_words_moved_are_no_difference(drawn):
    def change(space):
        for number, entity in enumerate(space.query("TEXT")):
            entity.translate(40 + 7 * number, -23, 0)

    assert drawn.said(change) == []


@pytest.mark.parametrize(("before", "after", "place"), [
    ("sash 542 × 964", "sash 545 × 964", "light 1"),
    ("side-hung, hinges left,", "side-hung, hinges right,", "light 1"),
    ("G2 526 × 948", "G2 526 × 943", "light 2"),
    ("Window W1", "Window W7", "title block"),
    ("B", "C", "title block, Revision"),
    ("QL-07", "QL-70", "title block, Reference"),
])
def test_changed_words_are_told_with_their_place(drawn, before, after, place):
    def change(space):
        found = [e for e in space.query("TEXT") if e.dxf.text == before]
        # The elevation is drawn first and the title block last; 'B' is also the letter of a cutting line.
        found[0 if place.startswith("light") else -1].dxf.text = after

    (told,) = drawn.told(change)
    assert told == ("words", place, f"{place}: the drawing says '{after}', the job '{before}'")


def test_a_glass_note_that_was_changed_is_told(drawn):
    def change(space):
        note = next(e for e in space.query("TEXT") if e.dxf.text.startswith("clear: 4/20/4"))
        note.dxf.text = note.dxf.text.replace("4/20/4", "4/16/4")

    (told,) = drawn.said(change)
    assert told.startswith("tables and notes: the drawing says 'clear: 4/16/4")


def test_words_changed_and_moved_are_told_as_changed(drawn):
    def change(space):
        entity = text(space, "sash 542 × 964")
        entity.dxf.text = "sash 542 × 946"
        entity.translate(60, 200, 0)

    assert drawn.said(change) == ["light 1: the drawing says 'sash 542 × 946', the job 'sash 542 × 964'"]


def test_two_words_changed_round_are_told_at_both_places(drawn):
    def change(space):
        first, second = text(space, "G1 420 × 842"), text(space, "G2 526 × 948")
        first.dxf.text, second.dxf.text = second.dxf.text, first.dxf.text

    assert [told[1] for told in drawn.told(change)] == ["light 1", "light 2"]


def test_words_taken_away_and_words_added_are_told(drawn):
    def change(space):
        space.delete_entity(text(space, "sash 542 × 964"))
        space.add_text("ring before cutting", height=25, dxfattribs={"layer": "NOTE"}).set_placement((3000, 100))

    gone, added = drawn.said(change)
    assert gone == "light 1: 'sash 542 × 964' is not in the drawing"
    assert added.startswith("'ring before cutting', ")
    assert added.endswith("is in the drawing and not in the job")


def test_an_opening_sign_turned_round_is_told_though_the_words_stand(drawn):
    def turn(space):
        sign = next(e for e in space.query("LWPOLYLINE") if e.dxf.layer == "OPENING")
        points = sign.get_points("xy")
        middle = (min(x for x, _ in points) + max(x for x, _ in points)) / 2
        sign.set_points([(2 * middle - x, y) for x, y in points], format="xy")

    assert drawn.told(turn) == [("opening", "light 1", "the opening sign of light 1 is not drawn as the job has it: side-hung, hinges left, opens out")]


def test_an_opening_sign_exploded_into_lines_is_the_same(drawn):
    assert drawn.said(lambda space: next(e for e in space.query("LWPOLYLINE") if e.dxf.layer == "OPENING").explode()) == []
