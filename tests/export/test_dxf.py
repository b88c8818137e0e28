import io
import shutil
import subprocess
import sys
from dataclasses import replace
from itertools import pairwise

import ezdxf
import pytest
from ezdxf.bbox import extents
from ezdxf.math import bulge_radius
from PIL import Image

from elevations.drawing.chains import chain
from elevations.drawing.entities import Dimension, Fill, Group, Label, Leader, Placed, Sheet, Stroke, Symbol, View
from elevations.drawing.explode import dimension_text, measured
from elevations.drawing.extent import text_boxes
from elevations.drawing.layers import LAYERS, Layer
from elevations.export.dxf import write_dxf
from elevations.export.marker import MARKER
from elevations.plane import Box, Corner, Outline, Point, rectangle
from tests.export.sample import sample_sheet
from tests.export.test_svg import HOSTILE


def read(sheet):
    return ezdxf.read(io.StringIO(write_dxf(sheet).decode()))


def sheet_of(*items, scale=10.0, data=()):
    view = View("view", "View", (Group("g", items, data=data),), Box(0, 0, 1, 1))
    return Sheet("Title", "Words", 200, 100, (Placed(view, scale, Point(20, 10)),), (), scale)


def drawn(*items, **ways):
    """What one entity becomes in model space."""
    return list(read(sheet_of(*items, **ways)).modelspace())


@pytest.fixture(scope="module")
def sample():
    return read(sample_sheet())


def test_an_audit_finds_nothing(sample):
    audit = sample.audit()
    assert (audit.errors, audit.fixes) == ([], [])


def test_the_file_is_r2010_in_millimetres(sample):
    assert (sample.dxfversion, sample.header["$INSUNITS"], sample.header["$MEASUREMENT"]) == ("AC1024", 4, 1)


def test_a_line_has_its_true_length_at_its_place_on_the_paper_times_the_scale():
    # x: 20 * 10 + 0, y: 10 * 10 + 50
    (line,) = drawn(Stroke((Corner(0, 50), Corner(1200, 50)), Layer.FRAME))
    assert (line.dxftype(), line.dxf.start, line.dxf.end) == ("LINE", (200, 150), (1400, 150))
    assert (line.dxf.layer, line.dxf.linetype, line.dxf.lineweight) == ("FRAME", "BYLAYER", -1)


def test_a_closed_outline_is_a_closed_polyline_with_its_bulges():
    # rise 300 over a chord of 1200: bulge 2 * 300 / 1200 = 0.5, radius (600² + 300²) / (2 * 300) = 750
    (line,) = drawn(Stroke((Corner(0, 0), Corner(1200, 0), Corner(1200, 900, 0.5), Corner(0, 900)), Layer.GLASS, closed=True))
    assert line.closed
    points = line.get_points("xyb")
    assert points[2] == (1400, 1000, 0.5)
    assert bulge_radius(points[2][:2], points[3][:2], 0.5) == pytest.approx(750)


def test_a_half_turn_goes_the_way_that_its_bulge_says():
    # counter-clockwise from left to right passes below; ezdxf's own reading of bulges is the judge
    doc = read(sheet_of(Stroke((Corner(0, 0, 1.0), Corner(100, 0)), Layer.FRAME)))
    box = extents(doc.modelspace())
    assert (box.extmin.y, box.extmax.y) == pytest.approx((50, 100), abs=0.2)


def test_an_entitys_own_line_type_and_weight_go_with_it():
    (line,) = drawn(Stroke((Corner(0, 0), Corner(9, 0)), Layer.OPENING, line="dashed", weight=0.35))
    assert (line.dxf.linetype, line.dxf.lineweight) == ("DASHEDTINY", 35)


def test_layers_have_the_weight_and_type_of_the_table(sample):
    for name in ("FRAME", "GLASS", "CENTRE", "DIMENSION"):
        style, layer = LAYERS[Layer(name)], sample.layers.get(name)
        assert (layer.dxf.lineweight, layer.dxf.color) == (round(style.weight * 100), style.aci)
    assert sample.layers.get("CENTRE").dxf.linetype == "CENTERTINY"
    assert sample.linetypes.get("DASHEDTINY") is not None


def test_ink_follows_the_screen_and_colours_are_true(sample):
    assert sample.layers.get("FRAME").rgb is None
    assert tuple(sample.layers.get("GLASS").rgb) == (0x3F, 0x7F, 0x9F)


def test_dashes_are_at_paper_size_times_the_scale(sample):
    assert sample.header["$LTSCALE"] == 10


def test_every_dimension_measures_what_it_says(sample):
    dims = sample.modelspace().query("DIMENSION")
    wanted = sorted(dimension_text(measured(d)) for g in sample_sheet().placed[0].view.groups for d in g.items
                    if isinstance(d, Dimension))
    assert len(dims) == len(wanted)
    for dim in dims:
        (text,) = [e.dxf.text for e in dim.get_geometry_block() if e.dxftype() == "TEXT"]
        assert text == dimension_text(dim.get_measurement()) == dimension_text(dim.dxf.actual_measurement)
        assert dim.dxf.text == ""
    assert sorted(dimension_text(d.get_measurement()) for d in dims) == wanted


def test_dimension_sizes_are_absolute_in_the_style_and_in_the_header_alike(sample):
    style = sample.dimstyles.get("ELEVATIONS")
    for name, size in (("dimscale", 1), ("dimlfac", 1), ("dimtxt", 25), ("dimexo", 10), ("dimexe", 15), ("dimgap", 10),
                       ("dimtad", 1), ("dimdec", 1), ("dimzin", 8)):
        assert style.get_dxf_attrib(name) == size
        assert sample.header["$" + name.upper()] == size


def test_only_shifted_texts_are_marked_as_placed_by_hand():
    low = chain([0, 600, 612], line_at=-100, upright=False, scale=10, thing_at=0)
    wide, narrow = [e for e in drawn(*low) if e.dxftype() == "DIMENSION"]
    assert wide.dxf.dimtype & 128 == 0
    assert narrow.dxf.dimtype & 128 == 128
    # the middle of the text: 1 mm of gap and half of 2.5 mm above the line's 100 - 100 = 0
    assert tuple(wide.dxf.text_midpoint) == pytest.approx((200 + 300, 10 + 12.5, 0))


def test_the_middle_of_an_upright_dimensions_text_lies_left_of_its_line():
    (dim,) = drawn(Dimension(Point(0, 0), Point(0, 900), -50, upright=True))
    assert tuple(dim.dxf.text_midpoint) == pytest.approx((200 - 50 - 22.5, 100 + 450, 0))
    assert (dim.dxf.angle, dim.get_measurement()) == (90, 900)


def test_a_shifted_texts_leader_is_a_line_of_its_own():
    low = chain([0, 600, 612], line_at=-100, upright=False, scale=10, thing_at=0)
    assert [e.dxftype() for e in drawn(*low)].count("LWPOLYLINE") + [e.dxftype() for e in drawn(*low)].count("LINE") == 1


def test_text_stands_on_its_baseline_at_paper_height_times_the_scale():
    (text,) = drawn(Label("G1", Point(0, 0), 2.5, align="centre", level="middle"))
    assert (text.dxf.height, text.dxf.halign, text.dxf.valign) == (25, 1, 0)
    assert text.dxf.align_point == (200, 100 - 12.5)


def test_the_sheets_own_groups_lie_on_the_paper_times_the_scale(sample):
    (title,) = [t for t in sample.modelspace().query("TEXT") if t.dxf.text.startswith("Quillback")]
    assert (title.dxf.insert, title.dxf.height) == ((200, 140), 50)


def test_each_fixing_is_an_insert_at_its_place_with_its_tag(sample):
    inserts = sample.modelspace().query("INSERT[layer=='FIXING']")
    found = {i.get_xdata("ELEVATIONS")[0].value: (i.dxf.insert.x - 600, i.dxf.insert.y - 600) for i in inserts}
    assert found == {"tag=F1": (23, 150), "tag=F2": (23, 750), "tag=F3": (1177, 150), "tag=F4": (1177, 750)}
    assert [b.name for b in sample.blocks if b.name == "FIXING"] == ["FIXING"]


def test_a_pane_carries_its_tag_and_lies_alone_on_glass(sample):
    panes = sample.modelspace().query("*[layer=='GLASS']")
    assert [p.dxftype() for p in panes] == ["LWPOLYLINE", "LWPOLYLINE"]
    assert [tag.value for tag in panes[0].get_xdata("ELEVATIONS")] == ["mark=W1", "tag=G1"]


def test_a_dark_fill_is_a_solid_hatch_on_its_layer_with_its_arcs():
    round_fill = Outline((Corner(100, 0, 1.0), Corner(0, 0, 1.0)))
    (hatch,) = drawn(Fill(round_fill, Layer.GASKET, "#33383d"))
    assert (hatch.dxf.layer, tuple(hatch.rgb), hatch.dxf.solid_fill) == ("GASKET", (0x33, 0x38, 0x3D), 1)
    assert [v[2] for v in hatch.paths[0].vertices] == [1.0, 1.0]


def test_a_light_fill_keeps_its_holes_and_goes_to_a_layer_that_is_frozen():
    doc = read(sheet_of(Fill(rectangle(0, 0, 100, 100), Layer.FRAME, "#f2efe8", (rectangle(10, 10, 90, 90),))))
    (hatch,) = doc.modelspace()
    assert (hatch.dxf.layer, len(hatch.paths)) == ("TINT", 2)
    assert doc.layers.get("TINT").is_frozen()


def test_everything_is_in_model_space(sample):
    assert len(sample.layout("Layout1")) <= 1   # its own viewport at most
    assert len(sample.modelspace()) > 60


def test_a_view_at_another_scale_is_refused():
    sheet = sample_sheet()
    other = replace(sheet, placed=(replace(sheet.placed[0], scale=5.0),))
    with pytest.raises(ValueError, match="view elevation is at 1:5, the sheet at 1:10"):
        write_dxf(other)


def test_hostile_text_breaks_nothing():
    items = (Label(HOSTILE, Point(0, 0), 2.5), Leader((Point(0, 0), Point(9, 9)), HOSTILE * 9, 2.5),
             Symbol("fixing", Point(0, 0), Layer.FIXING, tag=HOSTILE * 9),
             Stroke(rectangle(0, 0, 9, 9).corners, Layer.GLASS, closed=True))
    group = Group(HOSTILE, items, HOSTILE, ((HOSTILE, HOSTILE), ("tag", "é" * 300)))
    view = View(HOSTILE, HOSTILE, (group,), Box(0, 0, 1, 1))
    doc = read(Sheet(HOSTILE, HOSTILE, 200, 100, (Placed(view, 10, Point(0, 0)),), (group,), 10))
    assert doc.audit().errors == []
    assert len(doc.modelspace()) == 2 * 6
    text = doc.modelspace().query("TEXT").first
    # read as a CAD program reads it, the caret is back and %%c has not become a sign for diameter
    assert text.plain_text().startswith("</svg><script>alert(1)</script>&\"' ]]>=1+1 ../../x 6121 % % c ^J")
    panes = doc.modelspace().query("LWPOLYLINE[layer=='GLASS']")
    assert all(len(tag.value.encode()) <= 255 for pane in panes for tag in pane.get_xdata("ELEVATIONS"))


def test_signs_that_a_reader_lacks_are_written_plainly():
    (text,) = drawn(Label("W1 – “sill” 490 × 760 Ø 2°", Point(0, 0), 2.5))
    assert text.dxf.text == 'W1 - "sill" 490 × 760 Ø 2°'


def test_the_file_says_that_it_is_ours():
    assert MARKER.encode() in write_dxf(sample_sheet())[:100]


def test_other_users_of_the_library_keep_their_option():
    before = ezdxf.options.write_fixed_meta_data_for_testing
    write_dxf(sample_sheet())
    assert ezdxf.options.write_fixed_meta_data_for_testing == before is False


def test_the_same_sheet_gives_the_same_bytes_whatever_the_hash_seed():
    code = """
import sys
from elevations.export import FORMATS
from tests.export.sample import sample_sheet
sys.stdout.buffer.write(FORMATS["dxf"].write(sample_sheet()))
"""
    found = {subprocess.run([sys.executable, "-c", code], env={"PYTHONHASHSEED": seed}, capture_output=True, check=True).stdout
             for seed in ("0", "1", "2", "5", "7")}
    assert found == {write_dxf(sample_sheet())}


@pytest.mark.readers
def test_gdal_reads_every_pane_and_text(tmp_path):
    if not shutil.which("ogrinfo"):
        pytest.skip("GDAL's ogrinfo is not installed here")
    (tmp_path / "s.dxf").write_bytes(write_dxf(sample_sheet()))

    def count(where):
        # GDAL 3.6 goes by $DWGCODEPAGE, though from R2007 on a DXF is UTF-8 whatever that says
        run = subprocess.run(["ogrinfo", "--config", "DXF_ENCODING", "UTF-8", "-q", "-sql", f"SELECT COUNT(*) FROM entities WHERE {where}", "s.dxf"], cwd=tmp_path,
                             capture_output=True, text=True, check=True)
        return int(run.stdout.rsplit("=", 1)[1])

    assert count("Layer = 'GLASS'") == 2
    assert count("Text = '490 × 760'") == 1
    assert count("Text = '1200'") == 2


@pytest.fixture
def librecad_picture(tmp_path):
    """The sample sheet as LibreCAD prints it, grey, cropped to the sheet's frame."""
    for program in ("librecad", "xvfb-run", "pdftoppm"):
        if not shutil.which(program):
            pytest.skip(f"{program} is not installed here")
    (tmp_path / "s.dxf").write_bytes(write_dxf(sample_sheet()))
    subprocess.run(["xvfb-run", "-a", "librecad", "dxf2pdf", "-a", "s.dxf"], cwd=tmp_path, capture_output=True, check=True,
                   timeout=60)
    subprocess.run(["pdftoppm", "-r", "200", "-gray", "-png", "-singlefile", "s.pdf", "s"], cwd=tmp_path, check=True)
    picture = Image.open(tmp_path / "s.png").convert("L").point(lambda v: 255 if v < 200 else 0)
    return picture.crop(picture.getbbox())


@pytest.mark.readers
def test_librecad_prints_the_sheet_to_its_proportions(librecad_picture):
    width, height = librecad_picture.size
    assert width / height == pytest.approx(277 / 190, rel=0.01)


@pytest.mark.readers
def test_librecad_draws_each_dimensions_text_where_it_was_laid_out(librecad_picture):
    pixels = librecad_picture.size[0] / 277   # a millimetre of paper; the frame is 277 wide
    view, at = sample_sheet().placed[0].view, Point(60, 60)
    dims = [d for g in view.groups for d in g.items if isinstance(d, Dimension) and not d.shift]
    assert len(dims) > 12
    for dim, (text, box) in zip(dims, text_boxes(dims, 10), strict=True):
        left, right = (at.x + box.left / 10 - 10) * pixels, (at.x + box.right / 10 - 10) * pixels
        top, bottom = (200 - at.y - box.top / 10) * pixels, (200 - at.y - box.bottom / 10) * pixels
        ink = librecad_picture.crop((round(left), round(top), round(right), round(bottom))).histogram()[255]
        assert 0.02 < ink / ((right - left) * (bottom - top)) < 0.4, (text, dim)


def test_the_sample_has_one_of_each_entity():
    kinds = {type(item) for group in sample_sheet().placed[0].view.groups for item in group.items}
    assert kinds == {Stroke, Fill, Label, Dimension, Leader, Symbol}


def test_handles_rise_in_the_order_of_drawing(sample):
    handles = [int(e.dxf.handle, 16) for e in sample.modelspace()]
    assert all(a < b for a, b in pairwise(handles))
