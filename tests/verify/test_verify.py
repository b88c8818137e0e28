"""A drawing is drawn, changed as a CAD program would change it, and every change must be told, and nothing else."""

from __future__ import annotations

import shutil
import subprocess

import ezdxf
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from elevations.catalogue.load import find_system
from elevations.errors import SpecError
from elevations.export.dxf import write_dxf
from elevations.geometry.resolve import resolve_job
from elevations.sheets.factory import factory_sheet
from elevations.spec.load import parse_job
from elevations.verify.compare import differences
from elevations.verify.measured import measured
from tests.commands.typed import JOB

ARCHED = """\
glass: {clear: {make_up: 4/20/4}}
windows:
  - mark: W1
    frame: {width: 1200, height: 1300}
    head: {arched: {rise: 200}}
    lights: [{light: fixed}]
"""


def windows(text=JOB):
    job = parse_job(text, "job.yaml").job
    return job, resolve_job(job, find_system)


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    """W1 of the job as DXF, and the window."""
    job, (window, _) = windows()
    file = tmp_path_factory.mktemp("drawn") / "W1.dxf"
    file.write_bytes(write_dxf(factory_sheet(window, job, "model")))
    return file, window


def changed(drawn, tmp_path, change):
    """What is told of the drawing after a change to it."""
    file, window = drawn
    document = ezdxf.readfile(file)
    change(document.modelspace())
    document.saveas(tmp_path / "changed.dxf")
    return differences(window, measured(str(tmp_path / "changed.dxf")))


def on(space, layer, kind="LWPOLYLINE"):
    return [e for e in space if e.dxf.layer == layer and e.dxftype() == kind]


def fixings_in_frame(space):
    """Signs in the elevation, which is the file's first view; the last sign is the key's."""
    return on(space, "FIXING", "INSERT")[:-1]


def test_a_drawing_as_it_was_written_measures_what_the_job_says(drawn):
    file, window = drawn
    found = measured(str(file))
    assert len(found.outlines["GLASS"]) == len(window.panes) == 2
    assert len(found.fixings) == len(window.fixings) + 1   # and the one in the key
    assert differences(window, found) == []


def test_a_drawing_moved_as_a_whole_is_the_same(drawn, tmp_path):
    def move(space):
        for entity in space:
            entity.translate(1234.5, -987.6, 0)

    assert changed(drawn, tmp_path, move) == []


def test_a_pane_made_narrower_is_told_with_both_sizes(drawn, tmp_path):
    def narrow(space):
        pane = on(space, "GLASS")[0]
        right = max(p[0] for p in pane.get_points())
        pane.set_points([(x - (10 if x > right - 1 else 0), y, b) for x, y, b in pane.get_points("xyb")], format="xyb")

    (told,) = changed(drawn, tmp_path, narrow)
    assert told.kind == "pane"
    # spec format, 'The arithmetic, on two lights': the left pane is 420 x 842
    assert told.message == "pane G1 measures 410 × 842 in the drawing; the job says 420 × 842: 10 narrower"


def test_a_pane_moved_is_told_with_how_far(drawn, tmp_path):
    (told,) = changed(drawn, tmp_path, lambda space: on(space, "GLASS")[1].translate(-3, 2.5, 0))
    assert told.message == "pane G2 has its size, 526 × 948, but stands 3 to the left and 2.5 up from where the job has it"


def test_a_change_below_a_tenth_is_none(drawn, tmp_path):
    assert changed(drawn, tmp_path, lambda space: on(space, "GLASS")[1].translate(0.05, 0, 0)) == []


def test_three_tenths_are_told(drawn, tmp_path):
    """Cut sizes are whole mm, and drawings are dimensioned to 0.1: what a person could read must be told."""
    (told,) = changed(drawn, tmp_path, lambda space: on(space, "GLASS")[1].translate(0.3, 0, 0))
    assert told.message.endswith("stands 0.3 to the right from where the job has it")


def test_a_pane_with_a_corner_cut_off_has_another_shape(drawn, tmp_path):
    def cut(space):
        pane = on(space, "GLASS")[0]
        points = pane.get_points("xy")
        corner, after = points[0], points[1]
        nearer = tuple(a + (b - a) * 0.2 for a, b in zip(corner, after, strict=True))
        back = tuple(a + (b - a) * 0.2 for a, b in zip(corner, points[-1], strict=True))
        pane.set_points([nearer, *points[1:], back], format="xy")

    (told,) = changed(drawn, tmp_path, cut)
    assert told.message.startswith("pane G1 has the job's width and height but another shape")


def test_a_pane_taken_away_and_one_added_are_told(drawn, tmp_path):
    def swap(space):
        space.delete_entity(on(space, "GLASS")[0])
        corner = on(space, "FRAME", "LINE")[0].dxf.start
        x, y = corner.x, corner.y
        space.add_lwpolyline([(x + 700, y + 100), (x + 800, y + 100), (x + 800, y + 250), (x + 700, y + 250)], close=True, dxfattribs={"layer": "GLASS"})

    told = changed(drawn, tmp_path, swap)
    assert [t.subject for t in told] == ["G1", "?"]
    assert "pane G1 is not in the drawing" in told[0].message
    assert told[1].message == "a pane of 100 × 150, 700 from the left and 800 from the top of the frame, is in the drawing and not in the job"


def test_a_fixing_moved_lost_or_added_is_told(drawn, tmp_path):
    def change(space):
        signs = fixings_in_frame(space)
        signs[0].translate(0, -12, 0)
        space.delete_entity(signs[-1])
        space.add_blockref(signs[1].dxf.name, signs[1].dxf.insert + ezdxf.math.Vec3(400, 0), {"layer": "FIXING"})

    moved, lost, added = changed(drawn, tmp_path, change)
    assert moved.message == "fixing F1 stands 12 down from where the job has it (left jamb, 150 along it)"
    assert lost.subject == drawn[1].fixings[-1].tag
    assert lost.message.endswith("is not in the drawing")
    assert added.message.startswith("a fixing, 423 from the left")   # 46 / 2 from the frame's edge, and 400


def test_a_bar_a_sash_and_the_frame_are_measured_too(drawn, tmp_path):
    def change(space):
        on(space, "BARS")[0].translate(4, 0, 0)
        on(space, "SASH")[0].translate(0, 3, 0)
        jamb = next(e for e in on(space, "FRAME", "LINE") if abs(e.dxf.start.x - e.dxf.end.x) < 1)
        jamb.translate(7, 0, 0)

    told = changed(drawn, tmp_path, change)
    assert {t.kind for t in told} == {"member"}
    assert [t.subject for t in told] == ["right jamb", "M1", "S1"] or [t.subject for t in told] == ["left jamb", "M1", "S1"]
    assert "lies up to 7 mm from where the job has it" in told[0].message
    assert "bar M1 has its size, 27 × " in told[1].message
    assert "stands 4 to the right" in told[1].message
    assert "sash S1 has its size, 542 × 964, but stands 3 up" in told[2].message


def test_exploded_and_grouped_panes_are_still_measured(drawn, tmp_path):
    def explode(space):
        first, second = on(space, "GLASS")
        first.explode()
        block = space.doc.blocks.new("PANE")
        block.add_lwpolyline(second.get_points("xyb"), format="xyb", close=True, dxfattribs={"layer": "GLASS"})
        space.delete_entity(second)
        space.add_blockref("PANE", (0, 0), {"layer": "0"})

    assert changed(drawn, tmp_path, explode) == []


def test_a_pane_mirrored_twice_onto_the_back_of_the_plane_is_the_same(drawn, tmp_path):
    """As programs leave it after mirroring: extrusion -z and x turned round."""
    def turn(space):
        pane = on(space, "GLASS")[0]
        points = [(-x, y, -b) for x, y, b in pane.get_points("xyb")]
        space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": "GLASS", "extrusion": (0, 0, -1)})
        space.delete_entity(pane)

    assert changed(drawn, tmp_path, turn) == []


def test_words_and_dimensions_that_say_another_figure_are_told(drawn, tmp_path):
    def change(space):
        text = next(e for e in space if e.dxftype() == "TEXT" and e.dxf.text.startswith("G1 420"))
        text.dxf.text = "G1 400 × 842"
        dims = [e for e in space if e.dxftype() == "DIMENSION"]
        dims[0].dxf.text, dims[1].dxf.text = "777", "<>"

    dimension, words = changed(drawn, tmp_path, change)
    assert words.message == "the words 'G1 400 × 842' say another size than the job, 420 × 842"
    assert dimension.message.startswith("a dimension says '777' and measures ")


def test_a_drawing_at_another_scale_is_told_in_one_line(drawn, tmp_path):
    def scale(space):
        for entity in list(space):
            entity.scale_uniform(0.1) if hasattr(entity, "scale_uniform") else entity.scale(0.1, 0.1, 0.1)

    (told,) = changed(drawn, tmp_path, scale)
    assert told.message == "everything is 0.1 times as large as in the job: check the drawing's scale and units"


def test_a_drawing_in_inches_is_measured_in_mm(drawn, tmp_path):
    def scale(space):
        for entity in list(space):
            entity.scale(1 / 25.4, 1 / 25.4, 1 / 25.4)
        space.doc.header["$INSUNITS"] = 1

    assert changed(drawn, tmp_path, scale) == []


def test_a_wrong_unit_in_the_header_is_told(drawn, tmp_path):
    def lie(space):
        space.doc.header["$INSUNITS"] = 1

    (told,) = changed(drawn, tmp_path, lie)
    assert told.message.startswith("the file says that its unit is 25.4 mm, but its figures are the job's in mm")


def test_another_windows_drawing_is_told_as_such(drawn):
    file, _ = drawn
    _, (_, other) = windows()
    (told,) = differences(other, measured(str(file)))
    assert told.message.startswith("the drawing shows another window: its largest pane measures 526 × 948, the largest of W2 798 × 1248")


def test_a_drawing_with_nothing_on_the_layers_says_so(drawn, tmp_path):
    def empty(space):
        for entity in list(space):
            space.delete_entity(entity)

    (told,) = changed(drawn, tmp_path, empty)
    assert "no pane on layer GLASS and no fixing on layer FIXING" in told.message


def test_an_arched_pane_is_measured_with_its_arc(tmp_path):
    job, (window,) = windows(ARCHED)
    file = tmp_path / "W1.dxf"
    file.write_bytes(write_dxf(factory_sheet(window, job, "model")))
    assert differences(window, measured(str(file))) == []

    def flatten(space):
        pane = on(space, "GLASS")[0]
        pane.set_points([(x, y, 0.9 * b) for x, y, b in pane.get_points("xyb")], format="xyb")

    told = changed((file, window), tmp_path, flatten)
    assert [t.subject for t in told] == ["G1"]


@pytest.mark.skipif(shutil.which("ogr2ogr") is None, reason="GDAL's programs are not installed")
def test_a_copy_that_gdal_wrote_is_measured(drawn, tmp_path):
    """GDAL as the other CAD program: it writes every layer's polylines, and its template's header says inches."""
    file, window = drawn
    copy = tmp_path / "copy.dxf"
    subprocess.run(["ogr2ogr", "-f", "DXF", copy, file, "--config", "DXF_INLINE_BLOCKS", "FALSE"], check=True, capture_output=True)
    told = differences(window, measured(str(copy)))
    assert [t.kind for t in told if t.kind != "drawing"] == []


@pytest.mark.parametrize(("content", "code"), [
    (b"", "not-dxf"), (b"AC1015 binary", "not-dxf"), (b"\x89PNG\r\n\x1a\n\x00", "not-dxf"), (b"0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n", "not-dxf"),
    (b"mark: W1\n", "not-dxf"),
])
def test_what_is_no_dxf_is_refused_in_words(tmp_path, content, code):
    file = tmp_path / "bad.dxf"
    file.write_bytes(content)
    with pytest.raises(SpecError) as caught:
        measured(str(file))
    assert [p.code for p in caught.value.problems] == [code]


def test_a_file_that_is_not_there_is_refused_in_words(tmp_path):
    with pytest.raises(SpecError, match="there is no file"):
        measured(str(tmp_path / "none.dxf"))


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_any_shift_of_a_pane_is_told_as_it_was_made(drawn, tmp_path, data):
    number = data.draw(st.integers(0, 1))
    dx, dy = (data.draw(st.integers(-60, 60)) for _ in range(2))
    told = changed(drawn, tmp_path, lambda space: on(space, "GLASS")[number].translate(dx, dy, 0))
    words = [f"{abs(d)} {way[d > 0]}" for d, way in ((dx, ("to the left", "to the right")), (dy, ("down", "up"))) if d]
    if not words:
        assert told == []
    else:
        (only,) = told
        assert only.message.endswith(f"stands {' and '.join(words)} from where the job has it")
