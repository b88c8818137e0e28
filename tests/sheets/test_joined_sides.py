"""A window that is joined to others, on the installer's sheet: no wall, packers or foam at its joined sides, and what stands there."""

from pathlib import Path

from elevations import pipeline
from elevations.drawing.entities import Dimension, Fill, Label, Placed, Stroke
from elevations.drawing.layers import Layer
from elevations.plane import Point
from elevations.sheets.drawing_programs import for_drawing_programs
from elevations.sheets.installer import a3_sheets
from elevations.spec.load import parse_job
from elevations.views.hatch import MATERIALS
from elevations.views.marking_out import marking_out
from elevations.views.section import tight
from elevations.views.wall_section import wall_section
from tests.sheets.test_installer import on_paper

SPECS = Path(__file__).parents[2] / "specs"
WALLED = "defaults: {wall: {material: brick, thickness: 215, frame_at: 60}}\n"


def bay():
    loaded = pipeline.read(str(SPECS / "bay.yaml"))
    return loaded.job, list(pipeline.windows(loaded))


def test_a_jamb_against_a_post_has_no_packers_and_says_what_it_is_joined_to():
    job, (window, middle, _) = bay()
    def packers(one):
        return sum(isinstance(item, Fill) and item.layer is Layer.HATCH and item.tone == MATERIALS["packer"].tone
                   for group in marking_out(one, 10.0).groups for item in group.items)

    walled = [point for point in window.fixings if point.side != "right jamb"]
    assert (packers(window), len(walled)) == (len(walled), len(window.fixings) - 3)
    assert packers(middle) == sum(not point.side.endswith("jamb") for point in middle.fixings)
    said = [text for text, _ in on_paper(a3_sheets(window, job)[0])]
    assert "P1, to W2" in said
    assert "no wall there: joined by bay post P1" in " ".join(said)


def test_a_joined_side_has_no_wall_in_the_section():
    text = (SPECS / "bay.yaml").read_text("utf-8").replace("windows:\n", WALLED + "windows:\n", 1)
    loaded = parse_job(text, "bay.yaml")
    window = next(iter(pipeline.windows(loaded)))
    sheet = a3_sheets(window, loaded.job)[0]
    level = next(placed.view for placed in sheet.placed if placed.view.id == "wall-b-b")
    groups = {group.id: group for group in level.groups}
    assert any(item.layer is Layer.COUPLER for item in groups["b-b-right-jamb"].items if isinstance(item, Stroke))
    assert not any(item.layer is Layer.WALL for item in groups["b-b-right-jamb"].items)
    assert any(item.layer is Layer.WALL for item in groups["b-b-left-jamb"].items)
    assert "Right jamb: joined to W2 by bay post P1" in [text for text, _ in on_paper(sheet)]


def test_a_frame_between_two_others_is_measured_through_no_wall():
    text = (SPECS / "bay.yaml").read_text("utf-8").replace("windows:\n", WALLED + "windows:\n", 1)
    loaded = parse_job(text, "bay.yaml")
    middle = list(pipeline.windows(loaded))[1]
    level = wall_section(middle, 1, 10.0).view
    spans = [round(abs(item.end.y - item.start.y)) for group in level.groups for item in group.items if isinstance(item, Dimension)]
    assert spans == [70]   # flush-70's depth; its reveal and wall are on the sheets of W1 and W3


def test_sizes_of_a_wall_too_tight_for_their_spans_are_lines_and_text_for_drawing_programs():
    """LibreCAD sets the texts of dimensions anew, and laid 60 on 70 at 1:20 (seen)."""
    loaded = pipeline.read(str(SPECS / "fit-walls.yaml"))
    window = next(window for window in pipeline.windows(loaded) if window.mark == "W3")
    scale = 20.0

    def tights(view):
        return [item for group in view.groups for item in group.items if isinstance(item, Dimension) and tight(item, scale)]

    drawn = Placed(wall_section(window, 0, scale).view, scale, Point(0.0, 0.0))
    assert tights(drawn.view) != []
    made = for_drawing_programs(drawn).view
    assert tights(made) == []
    assert {"60", "70", "118"} <= {item.text for group in made.groups for item in group.items if isinstance(item, Label)}
    for sheet in a3_sheets(window, loaded.job, "model"):
        assert [tights(placed.view) for placed in sheet.placed if placed.view.id.startswith("wall-") and placed.scale == scale] == []
