"""What goes to a drawing program: lines without tones, and sizes that stay where they were put."""

from pathlib import Path

from elevations import pipeline
from elevations.drawing.entities import Dimension, Fill, Label
from elevations.sheets.factory import factory_sheets
from elevations.views.section import tight

SPECS = Path(__file__).parents[2] / "specs"


def items_of(sheet, name):
    return [(item, placed.scale) for placed in sheet.placed if placed.view.id == name for group in placed.view.groups for item in group.items]


def test_the_sizes_under_a_sill_are_lines_and_text_that_stay_where_they_are():
    """LibreCAD laid the 6 of the drip before the 54 beside it, which read as 654 (seen)."""
    loaded = pipeline.read(str(SPECS / "fit-walls.yaml"))
    window = next(window for window in pipeline.windows(loaded) if window.mark == "W3")
    sheets = factory_sheets(window, loaded.job)
    tights = {
        style: [item for item, scale in items_of(sheet, "section-a-a") if isinstance(item, Dimension) and tight(item, scale)]
        for style, sheet in sheets.items()
    }
    assert tights["paper"] != []
    assert tights["model"] == []
    assert {"6", "54"} <= {item.text for item, _ in items_of(sheets["model"], "section-a-a") if isinstance(item, Label)}


def test_a_section_without_wall_or_sill_keeps_its_dimensions_for_measuring():
    loaded = pipeline.read(str(SPECS / "two-lights.yaml"))
    window = next(iter(pipeline.windows(loaded)))
    model = factory_sheets(window, loaded.job, ("model",))["model"]
    assert [item for item, _ in items_of(model, "section-a-a") if isinstance(item, Dimension)] != []
    assert [item for name in ("section-a-a", "elevation") for item, _ in items_of(model, name) if isinstance(item, Fill)] == []
