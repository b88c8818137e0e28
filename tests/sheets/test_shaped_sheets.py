"""Sheets and templates of shaped windows: arcs stay arcs in every format, texts keep clear, figures agree with the glass."""

import io
import json
import math
import re
import shutil
import subprocess
from pathlib import Path

import ezdxf
import ezdxf.path
import pytest
from hypothesis import given, settings
from shapely.geometry import Polygon, box

from elevations import pipeline
from elevations.drawing.extent import text_boxes
from elevations.export.dxf import write_dxf
from elevations.export.svg import write_svg
from elevations.plane import arc_radius, flatten
from elevations.schedules.templates import shaped_panes, sides_of
from elevations.sheets.factory import factory_sheet
from elevations.sheets.glass_order import glass_page
from elevations.sheets.template import template_sheet
from tests.properties.shapes import shaped_windows
from tests.properties.test_shaped_windows import made
from tests.sheets.lettered import texts
from tests.sheets.test_factory import JOB, collisions

SPECS = sorted((Path(__file__).parents[2] / "specs").glob("shapes-*.yaml"))


def windows():
    for file in SPECS:
        loaded = pipeline.read(str(file))
        yield from ((loaded.job, window) for window in pipeline.windows(loaded))


ALL = list(windows())
PANES = [(job, window, pane) for job, window in ALL for pane in shaped_panes(window)]


def named(cases):
    return [pytest.param(*case, id="-".join(part.mark if hasattr(part, "mark") else part.tag for part in case[1:])) for case in cases]


@pytest.mark.parametrize(("job", "window"), named(ALL))
@pytest.mark.parametrize("style", ["paper", "model"])
def test_no_text_meets_another_or_a_line_or_the_border(job, window, style):
    assert collisions(factory_sheet(window, job, style)) == []


@pytest.mark.parametrize(("job", "window", "pane"), named(PANES))
def test_no_text_of_a_template_meets_another_or_a_line(job, window, pane):
    # the page's head has a border of its own: its lettering is judged with the pages
    assert [wrong for wrong in collisions(template_sheet(window, pane, job, "paper")) if "sheet/head" not in wrong] == []


@settings(max_examples=25, deadline=None)
@given(shaped_windows())
def test_any_shaped_window_makes_a_sheet_and_templates_where_no_text_meets_another(block):
    window = made(block)
    if window is None:
        return
    for style in ("paper", "model"):
        assert collisions(factory_sheet(window, JOB, style)) == []
    for pane in shaped_panes(window):
        sheet = template_sheet(window, pane, JOB, "paper")
        assert any(text == f"Unit W1-{pane.tag}" for _, text, _ in texts(sheet))
        assert [wrong for wrong in collisions(sheet) if "sheet/head" not in wrong] == []


@pytest.mark.parametrize(("job", "window"), named(ALL))
def test_the_lettering_of_a_glass_drawing_stays_on_its_pane(job, window):
    page = glass_page(window)
    drawing = page.placed[0]
    for pane in window.panes:
        (group,) = [group for group in drawing.view.groups if group.id == f"glass-{pane.tag}"]
        sight = Polygon(flatten(pane.sight.outline))
        for text, where in text_boxes(group.items, drawing.scale):
            assert sight.contains(box(*where)), text


def glass_of(data):
    """The polylines on layer GLASS of a DXF."""
    doc = ezdxf.read(io.StringIO(data.decode()))
    assert not doc.audit().errors
    return list(doc.modelspace().query("LWPOLYLINE[layer=='GLASS']"))


def radii(points):
    return sorted(
        round(ezdxf.math.bulge_radius(a[:2], b[:2], a[2]), 3)
        for a, b in zip(points, [*points[1:], points[0]], strict=True) if a[2]
    )


@pytest.mark.parametrize(("job", "window"), named(ALL))
def test_the_dxf_holds_every_pane_with_its_own_arcs(job, window):
    found = glass_of(write_dxf(factory_sheet(window, job, "model")))
    assert len(found) == len(window.panes)
    for line, pane in zip(found, window.panes, strict=True):
        assert radii(line.get_points("xyb")) == sorted(round(arc_radius(a, b), 3) for a, b in pane.cut.outline.edges() if a.bulge)
        flat = Polygon([(p.x, p.y) for p in ezdxf.path.make_path(line).flattening(0.001)])
        assert flat.area == pytest.approx(pane.cut.outline.area, rel=3e-4)   # ezdxf flattens its Bezier curves, which stray that far from the arc


@pytest.mark.parametrize(("job", "window", "pane"), named(PANES))
def test_a_template_in_dxf_is_the_glass_at_true_size(job, window, pane):
    (line,) = glass_of(write_dxf(template_sheet(window, pane, job, "model")))
    points = line.get_points("xyb")
    rows = list(sides_of(pane, "t"))
    left, bottom = min(p[0] for p in points), min(p[1] for p in points)
    ends = [*points[1:], points[0]]
    for row, a, b in zip(rows, points, ends, strict=True):
        assert math.dist(a[:2], b[:2]) == pytest.approx(row.chord_mm, abs=0.051)
        if not any(p[2] for p in points):   # the bounds of arcs reach beyond their corners
            assert (a[0] - left, a[1] - bottom) == pytest.approx((row.x_mm, row.y_mm), abs=0.051)
        if row.radius_mm:
            assert ezdxf.math.bulge_radius(a[:2], b[:2], a[2]) == pytest.approx(row.radius_mm, abs=0.051)
            # r = c^2 / 8h + h / 2, circular segment; from figures rounded to 0.1, so the flatter the coarser
            assert row.radius_mm == pytest.approx(row.chord_mm**2 / (8 * row.rise_mm) + row.rise_mm / 2, rel=0.06 / row.rise_mm + 1e-3)
            assert abs(a[2]) == pytest.approx(2 * row.rise_mm / row.chord_mm, abs=0.001)


@pytest.mark.parametrize(("job", "window", "pane"), named(PANES))
def test_the_angles_of_a_template_close(job, window, pane):
    rows = list(sides_of(pane, "t"))
    # the corners turn through a whole circle, less what the arcs turn through themselves: exterior angles of any closed line
    swept = sum(2 * math.degrees(math.asin(min(1.0, row.chord_mm / 2 / row.radius_mm))) for row in rows if row.radius_mm and row.rise_mm <= row.radius_mm)
    assert sum(180 - row.angle_deg for row in rows) + swept == pytest.approx(360, abs=0.5)


@pytest.mark.parametrize(("job", "window"), named(ALL))
def test_the_svg_draws_arcs_as_arcs(job, window):
    sheet = factory_sheet(window, job, "paper")
    svg = write_svg(sheet)
    drawn = {float(r) for r in re.findall(r"A([0-9.]+) ", svg)}
    for a, b in window.frame.outline.edges():
        if a.bulge:
            assert any(r == pytest.approx(arc_radius(a, b) / sheet.scale, abs=0.0011) for r in drawn)


@pytest.mark.readers
def test_gdal_reads_a_templates_arcs_on_their_circle(tmp_path):
    if not shutil.which("ogr2ogr"):
        pytest.skip("GDAL's ogr2ogr is not installed here")
    job, window = next((job, window) for job, window in ALL if window.mark == "A3")
    pane = window.panes[0]
    (tmp_path / "t.dxf").write_bytes(write_dxf(template_sheet(window, pane, job, "model")))
    subprocess.run(["ogr2ogr", "-f", "GeoJSON", "t.json", "t.dxf", "-where", "Layer = 'GLASS'"], cwd=tmp_path, check=True, capture_output=True)
    (feature,) = json.loads((tmp_path / "t.json").read_text())["features"]
    line = feature["geometry"]["coordinates"]
    line = line[0] if feature["geometry"]["type"] == "Polygon" else line
    # a half round frame of radius 500: the glass has 500 - 46 - 5 = 449 about the middle of the sill's outer edge
    width, left, bottom = pane.cut.outline.bounds.width, min(p[0] for p in line), min(p[1] for p in line)
    arc = [p for p in line if p[1] > bottom + 1]
    assert len(arc) > 8
    for x, y, *_ in arc:
        assert math.hypot(x - left - width / 2, y - bottom + 51) == pytest.approx(449, abs=0.01)
    area = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(line, [*line[1:], line[0]], strict=True))) / 2
    assert area == pytest.approx(pane.cut.outline.area, rel=2e-3)   # GDAL makes chords of the arc, every few degrees
