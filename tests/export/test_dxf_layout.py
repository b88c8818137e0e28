import io

import ezdxf
import pytest
from click.testing import CliRunner
from ezdxf import const
from ezdxf.bbox import extents

from elevations.commands.draw import command
from elevations.export.dxf import write_dxf
from elevations.export.dxf_layout import AROUND, LAYOUT, VIEWPORTS
from tests.export.sample import sample_sheet

SHEET = sample_sheet()


def read(*, paper_space):
    return ezdxf.read(io.StringIO(write_dxf(SHEET, paper_space=paper_space).decode()))


@pytest.fixture(scope="module")
def laid_out():
    return read(paper_space=True)


def viewports(doc):
    """Those that show the model: the first of a layout is the layout's own."""
    return [one for one in doc.paperspace(LAYOUT).query("VIEWPORT") if one.dxf.id != 1]


def kinds(entities):
    return sorted((one.dxftype(), one.dxf.layer) for one in entities if one.dxftype() != "VIEWPORT")


def test_an_audit_finds_nothing(laid_out):
    audit = laid_out.audit()
    assert (audit.errors, audit.fixes) == ([], [])


def test_each_view_has_one_viewport_locked_at_its_scale_on_a_layer_that_is_not_printed(laid_out):
    shown = viewports(laid_out)
    assert len(shown) == len(SHEET.placed)
    for viewport, placed in zip(shown, SHEET.placed, strict=True):
        assert viewport.dxf.view_height == pytest.approx(viewport.dxf.height * placed.scale)
        assert viewport.dxf.flags & const.VSF_LOCK_ZOOM
        assert viewport.dxf.layer == VIEWPORTS
    assert laid_out.layers.get(VIEWPORTS).dxf.plot == 0


def test_a_viewport_shows_the_view_where_the_sheet_without_a_layout_has_it(laid_out):
    for viewport, placed in zip(viewports(laid_out), SHEET.placed, strict=True):
        box, scale = placed.view.bounds, placed.scale
        left_on_paper = viewport.dxf.center.x - viewport.dxf.width / 2
        left_in_model = viewport.dxf.view_center_point.x - viewport.dxf.width * scale / 2
        assert left_on_paper == pytest.approx(placed.at.x + box.left / scale - AROUND)
        assert left_in_model == pytest.approx(placed.at.x * scale + box.left - AROUND * scale)


def test_nothing_is_lost_or_drawn_twice_when_the_paper_moves_to_the_layout(laid_out):
    together = kinds(read(paper_space=False).modelspace())
    assert kinds([*laid_out.modelspace(), *laid_out.paperspace(LAYOUT)]) == together
    assert "SHEET" not in {one.dxf.layer for one in laid_out.modelspace()}


def test_what_is_on_the_paper_lies_within_it_at_its_true_size(laid_out):
    box = extents(one for one in laid_out.paperspace(LAYOUT) if one.dxftype() != "VIEWPORT")
    assert min(box.extmin.x, box.extmin.y) >= 0
    assert box.extmax.x <= SHEET.width
    assert box.extmax.y <= SHEET.height
    assert (laid_out.paperspace(LAYOUT).dxf.paper_width, laid_out.paperspace(LAYOUT).dxf.paper_height) == (SHEET.width, SHEET.height)


def test_the_same_sheet_gives_the_same_bytes():
    assert write_dxf(SHEET, paper_space=True) == write_dxf(SHEET, paper_space=True)


def test_the_command_draws_with_a_layout_only_when_asked(tmp_path):
    names = {}
    for flag in ([], ["--paper-space"]):
        folder = tmp_path / f"out{len(flag)}"
        result = CliRunner().invoke(command, ["specs/one-light.yaml", "--format", "dxf", "--out", str(folder), *flag])
        assert result.exit_code == 0, result.output
        names[bool(flag)] = ezdxf.readfile(folder / "W1.dxf").layouts.names()
    assert names == {False: ["Model", "Layout1"], True: ["Model", LAYOUT]}
