"""A template as a CAD program changes it: corners by number, sides by letter, then its dimensions and words."""

from __future__ import annotations

import ezdxf
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from elevations.catalogue.load import find_system
from elevations.export.dxf import write_dxf
from elevations.geometry.resolve import resolve_job
from elevations.sheets.template import template_sheet
from elevations.spec.load import parse_job
from elevations.verify.measured import measured
from elevations.verify.template import template_differences, template_named, template_says
from tests.commands.typed import run

JOB = """\
job: {reference: QL-33, site: Quillback Lock Cottage}
glass: {clear: {make_up: 4/20/4}}
windows:
  - mark: W1
    frame: {width: 1200, height: 1300}
    head: {arched: {rise: 200}}
    mullions: [600]
    lights: [{light: fixed}, {light: fixed}]
  - {mark: W2, circular: {diameter: 700}, lights: [{light: fixed, bars: {columns: 2}}]}
  - {mark: W3, frame: {width: 700, height: 900}, lights: [{light: fixed}]}
"""


class Template:
    def __init__(self, folder, number=0):
        self.job = parse_job(JOB, "job.yaml").job
        self.window = resolve_job(self.job, find_system)[number]
        self.folder = folder
        self.document(write_dxf(template_sheet(self.window, self.window.panes[0], self.job, "model")))

    def document(self, data):
        (self.folder / "t.dxf").write_bytes(data)

    def told(self, change=None):
        document = ezdxf.readfile(self.folder / "t.dxf")
        if change:
            change(document.modelspace())
        document.saveas(self.folder / "changed.dxf")
        found = measured(str(self.folder / "changed.dxf"))
        says = template_says(self.window, "G1", self.job)
        return [difference.message for difference in template_differences(self.window, "G1", found, says)]


@pytest.fixture(scope="module")
def arched(tmp_path_factory):
    return Template(tmp_path_factory.mktemp("arched"))


def glass(space):
    return next(e for e in space.query("LWPOLYLINE") if e.dxf.layer == "GLASS")


def with_corner(space, at, dx=0.0, dy=0.0):
    """Drag the corner nearest to `at`, a share of the outline's width and height."""
    points = glass(space).get_points("xyb")
    left, bottom = min(p[0] for p in points), min(p[1] for p in points)
    wide, high = max(p[0] for p in points) - left, max(p[1] for p in points) - bottom
    nearest = min(range(len(points)), key=lambda i: (points[i][0] - left - at[0] * wide) ** 2 + (points[i][1] - bottom - at[1] * high) ** 2)
    x, y, bulge = points[nearest]
    points[nearest] = (x + dx, y + dy, bulge)
    glass(space).set_points(points, format="xyb")


@pytest.mark.parametrize("number", [0, 1])
def test_a_template_as_it_was_written_has_no_difference(tmp_path, number):
    assert Template(tmp_path, number).told() == []


def test_a_template_moved_as_a_whole_or_exploded_is_the_same(arched):
    assert arched.told(lambda space: [e.translate(500, -300, 0) for e in space]) == []
    assert arched.told(lambda space: glass(space).explode()) == []


def test_a_corner_that_was_dragged_is_told_by_its_number(arched):
    """Corners run counter-clockwise from the lowest left one, as the page has them: the second is the lower right."""
    (told,) = arched.told(lambda space: with_corner(space, (1, 0), 4, -2.5))
    assert told == "corner 2 of G1 stands 4 to the right and 2.5 down from where the job has it"


def test_a_corner_further_off_than_a_quarter_of_the_pane_is_another_corner(arched):
    """The pane is 526 wide: 131 is a quarter."""
    gone, new = arched.told(lambda space: with_corner(space, (1, 0), -200, 0))
    assert gone == "corner 2 of G1 is not in the drawing"
    assert new.startswith("a corner of G1, 3")
    assert new.endswith("is in the drawing and not in the job")


def test_a_flatter_arc_is_told_by_the_letter_of_its_side(arched):
    def flatten(space):
        glass(space).set_points([(x, y, 0.9 * b) for x, y, b in glass(space).get_points("xyb")], format="xyb")

    (told,) = arched.told(flatten)
    assert told.startswith("side c of G1 bends by ")
    rise, wanted = (float(text) for text in (told.split()[6], told.split()[-1]))
    assert rise == pytest.approx(0.9 * wanted, abs=0.11)   # a bulge is rise over half the chord (DXF reference, from memory)


def test_a_corner_cut_off_is_told_with_what_is_new(arched):
    def cut(space):
        points = glass(space).get_points("xyb")
        corner = min(range(len(points)), key=lambda i: points[i][0] + points[i][1])
        x, y, bulge = points[corner]
        points[corner : corner + 1] = [(x, y + 40, 0), (x + 40, y, bulge)]
        glass(space).set_points(points, format="xyb")

    told = arched.told(cut)
    assert len(told) == 2
    assert told[0].startswith("corner 1 of G1 stands ")
    assert told[1].endswith("is in the drawing and not in the job")


def test_a_round_pane_of_another_size_is_told_with_both(tmp_path):
    def larger(space):
        points = glass(space).get_points("xyb")
        middle = sum(p[0] for p in points) / len(points)
        glass(space).set_points([(middle + 1.02 * (x - middle), y, b) for x, y, b in points], format="xyb")

    (told,) = Template(tmp_path, 1).told(larger)
    # 700 less twice 46 + 5: 598 across; two hundredths more make 610
    assert told == "the outline measures 610 × 610 over all, G1 in the job 598 × 598, and too few of its corners lie as the job has them"


def test_words_and_dimensions_of_a_template_are_compared_too(arched):
    def change(space):
        space.query("DIMENSION").first.dxf.text = "999"
        next(e for e in space.query("TEXT") if e.dxf.text == "Template W1-G1").dxf.text = "Template W1-G2"

    figure, words = arched.told(change)
    assert figure.endswith("says '999' in the drawing")
    assert "of the glass (template W1-G1" in figure or "of the glass (Template W1-G1" in figure
    assert words == "which job and what: the drawing says 'Template W1-G2', the job 'Template W1-G1'"


def test_a_drawing_without_an_outline_says_so(arched):
    assert arched.told(lambda space: space.delete_entity(glass(space))) == [
        "the drawing has no closed outline on layer GLASS: nothing could be measured"
    ]


@pytest.mark.parametrize(("words", "stem", "named"), [
    (["Template W1-G2"], "x", ("W1", "G2")), (["x"], "W1-G2", ("W1", "G2")), (["Window W1"], "W1", None), (["Template bay-G1-G2"], "x", ("bay-G1", "G2")),
])
def test_a_template_is_known_by_its_words_or_else_by_its_files_name(words, stem, named):
    assert template_named(words, stem) == named


def test_the_command_measures_a_template(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.yaml").write_text(JOB, "utf-8")
    run("templates", "job.yaml", "--out", "t")
    done = run("verify", "t/W1-G2.dxf", "job.yaml")
    assert (done.exit_code, done.stdout) == (0, "t/W1-G2.dxf: the outline, 4 dimensions and the words of W1-G2 are as job.yaml says\n")
    (tmp_path / "job.yaml").write_text(JOB.replace("    head: {arched: {rise: 200}}\n", ""), "utf-8")
    done = run("verify", "t/W1-G2.dxf", "job.yaml")
    assert done.exit_code == 2
    assert "is a template of W1-G2, and the job has no shaped pane of that name" in done.stderr


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from([((0, 0), 1), ((1, 0), 2)]), st.integers(-60, 60), st.integers(-60, 60))
def test_any_drag_of_a_corner_is_told_as_it_was_made(arched, corner, dx, dy):
    at, number = corner
    told = arched.told(lambda space: with_corner(space, at, dx, dy))
    words = [f"{abs(d)} {way[d > 0]}" for d, way in ((dx, ("to the left", "to the right")), (dy, ("down", "up"))) if d]
    expected = [f"corner {number} of G1 stands {' and '.join(words)} from where the job has it"] if words else []
    assert told == expected
