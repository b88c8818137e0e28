"""Glass: the area that is scheduled, ordered, drawn and weighed is one area, for any window, shaped, barred or joined."""

from __future__ import annotations

import copy
import io
import json
from pathlib import Path

import ezdxf
import ezdxf.path
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from elevations import pipeline
from elevations.errors import SpecError
from elevations.export.dxf import write_dxf
from elevations.plane import flatten
from elevations.schedules.glass import GLASS
from elevations.schedules.glass_order import GLASS_ORDER
from elevations.sheets.factory import factory_sheet
from elevations.sheets.joined import joined_sheet
from elevations.spec.load import parse_job
from elevations.verify.measured import measured
from elevations.views.glass import glass_elevation
from tests.properties.shapes import shaped_windows
from tests.properties.specs import windows as straight_windows

KG_PER_M3 = 2500.0
"""Soda-lime glass: EN 572-1 (from memory, not seen)."""
SPECS = Path(__file__).parents[2] / "specs"
BARS = ({"columns": 2, "rows": 3}, {"margin": 60}, {"columns": 2, "kind": "in-unit"})
"""Georgian bars on the face, margin lights, bars in the unit."""


def with_bars(entry, bars):
    """The same with bars in every fixed light."""
    if "lights" in entry:
        return {**entry, "lights": [with_bars(child, bars) for child in entry["lights"]]}
    return {**entry, "bars": bars} if entry.get("light") == "fixed" else entry


def loaded(block):
    text = json.dumps({"glass": {"clear": {"make_up": "4/20/4"}, "thick": {"make_up": "6/16/6.4"}}, "defaults": {"glass": "thick"}, "windows": [block]})
    return parse_job(text, "job.yaml")


def drawn_areas(data):
    """m2 of each closed outline on layer GLASS of a DXF, by ezdxf's own flattening and shapely."""
    space = ezdxf.read(io.StringIO(data.decode())).modelspace()
    return [Polygon([(p.x, p.y) for p in ezdxf.path.make_path(e).flattening(0.01)]).area / 1e6 for e in space.query("LWPOLYLINE") if e.dxf.layer == "GLASS"]


def reconciled(job, window):
    """Areas and masses of one window by five ways round."""
    panes = window.panes
    exact = [Polygon(flatten(pane.cut.outline)).area / 1e6 for pane in panes]
    rows, order = list(GLASS.rows(window)), list(GLASS_ORDER.rows(window))
    for row, area, pane in zip(rows, exact, panes, strict=True):
        assert row.area_m2 == pytest.approx(area, abs=0.0005 + 1e-4 * area)
        solid_m = sum(float(part) for part in pane.make_up.make_up.split("/")[::2]) / 1000
        assert row.mass_kg == pytest.approx(area * solid_m * KG_PER_M3, abs=0.05 + 1e-4 * area * 40)
    assert sum(row.area_m2 for row in order) == pytest.approx(sum(row.area_m2 for row in rows), abs=1e-9 * len(rows) + 1e-9)
    assert sum(row.mass_kg for row in order) == pytest.approx(sum(row.mass_kg for row in rows), abs=1e-9 * len(rows) + 1e-9)
    assert sum(row.quantity for row in order) == len(panes)
    drawn = drawn_areas(write_dxf(factory_sheet(window, job, "model")))
    assert sorted(drawn) == pytest.approx(sorted(exact), rel=2e-4)
    alone = [item for group in glass_elevation(window, 10.0).groups for item in group.items if getattr(item, "layer", "") == "GLASS"]
    assert [stroke.corners for stroke in alone] == [pane.cut.outline.corners for pane in panes]
    return exact


@settings(max_examples=25, deadline=None)
@given(st.one_of(straight_windows(), shaped_windows()), st.sampled_from((None, *BARS)))
def test_scheduled_ordered_drawn_and_weighed_areas_are_one(block, bars):
    plain = loaded(block)
    try:
        (window,) = pipeline.windows(plain)
    except SpecError:
        return
    exact = reconciled(plain.job, window)
    if bars is None:
        return
    barred = loaded(with_bars(copy.deepcopy(block), bars))
    try:
        (window,) = pipeline.windows(barred)
    except SpecError:
        return
    # Bars divide what is seen of the glass, and neither cut it nor weigh in it.
    assert reconciled(barred.job, window) == pytest.approx(exact)
    for pane in window.panes:
        if pane.bars:
            seen = Polygon(flatten(pane.sight.outline)).area
            assert sum(Polygon(flatten(small)).area for small in pane.small_panes) < seen


@pytest.mark.parametrize("name", ["bay", "coupled"])
def test_a_joined_set_has_the_glass_of_its_windows_and_no_more(name, tmp_path):
    job = pipeline.read(str(SPECS / f"{name}.yaml"))
    windows = {window.mark: window for window in pipeline.windows(job)}
    for joined in pipeline.sets(job):
        exact = [area for mark in (window.mark for window in joined.windows) for area in reconciled(job.job, windows[mark])]
        file = tmp_path / "joined.dxf"
        file.write_bytes(write_dxf(joined_sheet(joined, job.job, "model")))
        drawn = [Polygon(flatten(outline)).area / 1e6 for outline in measured(str(file)).outlines["GLASS"]]
        assert sorted(drawn) == pytest.approx(sorted(exact), rel=2e-4)
