"""Joined windows for their owner: one picture of the whole, true from in front, and words anybody reads."""

import math
import re
from pathlib import Path

import pytest

from elevations.drawing.entities import Fill
from elevations.drawing.layers import Layer
from elevations.sheets import customer_words as words
from elevations.sheets.customer_joined import customer_set_sheet
from elevations.sheets.overview import overview_sheets
from elevations.spec.model import Drawing
from elevations.views.customer_joined import customer_joined_view, laid_flat, picture_width
from tests.customer.packs import packed, run
from tests.geometry.test_joined import a_set, bay_of, framed, sets_of
from tests.sheets.lettered import texts
from tests.sheets.test_factory import JOB, collisions
from tests.sheets.test_joined_sheet import SETS

SPECS = Path(__file__).parents[2] / "specs"


def frames(view):
    """The outer box of each frame of the picture, from the left: the largest fill of each frame's group."""
    found = []
    for group in view.groups:
        if group.id.endswith("-frame"):
            boxes = [item.outline.bounds for item in group.items if isinstance(item, Fill) and item.layer is Layer.FRAME]
            found.append(max(boxes, key=lambda box: box.width * box.height))
    return sorted(found)


@pytest.mark.parametrize("side", ["outside", "inside"])
def test_a_canted_bay_is_seen_as_from_in_front_of_it(side):
    # facets at 45 degrees are 600 x cos 45 = 424.3 wide to the eye, the front one as wide as it is
    bay = bay_of([600, 1200, 900], [135, 135])
    boxes = frames(customer_joined_view(bay, 20.0, side=side))
    # the whole is turned so that both ends lie on the wall: each facet then turns by what the plan says
    wide = [w * math.cos(math.radians(t)) for w, t in zip((600, 1200, 900), bay.plan.turns, strict=True)]
    assert [box.width for box in boxes] == pytest.approx(wide if side == "outside" else wide[::-1])
    assert boxes[0].left == pytest.approx(0 if side == "outside" else picture_width(bay) - bay.plan.frames[2].corners[0].x - wide[2])
    assert picture_width(bay) == pytest.approx(bay.plan.width.value)
    assert all(box.height == pytest.approx(1200) for box in boxes)


def test_a_square_bay_whose_sides_would_not_be_seen_is_laid_flat_and_says_so():
    bay = bay_of([500, 1500, 500], [90, 90])
    assert laid_flat(bay)
    assert [box.width for box in frames(customer_joined_view(bay, 20.0))] == [500, 1500, 500]
    sheet = customer_set_sheet(bay, JOB)
    texts = [item.text for placed in sheet.placed for group in placed.view.groups for item in group.items if hasattr(item, "text")]
    assert any(words.LAID_FLAT in text for text in texts)


def test_from_inside_the_row_is_the_other_way_round():
    (row,) = sets_of(framed((600, 1050), (1200, 1050)), a_set("side-by-side", 2))
    assert [round(box.width) for box in frames(customer_joined_view(row, 20.0))] == [600, 1200]
    assert [round(box.width) for box in frames(customer_joined_view(row, 20.0, side="inside"))] == [1200, 600]


@pytest.mark.parametrize("paper", ["A3", "A4"])
@pytest.mark.parametrize("name", SETS)
def test_no_text_meets_another_on_the_sheet(name, paper):
    job = JOB.model_copy(update={"drawing": Drawing(sheet=paper)})
    sheet = customer_set_sheet(SETS[name](), job, ("W1: not approved", "W2: approved 2026-11-20 by A. Name (3f9a-1c2e)"))
    assert [hit for hit in collisions(sheet) if hit[0] != "off the border"] == []   # it has none
    assert [text for _, text, box in texts(sheet) if box.left < 8 or box.bottom < 8 or box.right > sheet.width - 8 or box.top > sheet.height - 8] == []


def test_words_say_how_they_stand_and_to_what_each_is_joined():
    bay = bay_of([600, 1200, 600], [135, 135])
    assert words.set_words(bay) == "Three windows that stand at angles as a bay: W1, W2, W3 from the left as you look at them from outside"
    # 2185.1 and 452.5: by hand in tests/geometry/test_joined.py
    assert words.set_size_words(bay) == "2185 mm wide × 1200 mm high, standing out 453 mm"
    assert words.joined_words(bay.windows[1]) == "Joined to window W1 on its left and window W3 on its right"
    assert words.joined_words(bay.windows[0]) == "Joined to window W2 on its right"
    (stack,) = sets_of(framed((900, 500), (900, 1350)), a_set("stacked", 2))
    assert words.joined_words(stack.windows[0]) == "Joined to window W2 below it"


def test_the_overview_shows_a_set_once_and_not_its_windows():
    bay = bay_of([600, 1200, 600], [135, 135])
    (sheet,) = overview_sheets(bay.windows, JOB, [bay])
    assert [placed.view.id for placed in sheet.placed if placed.view.id.startswith(("window", "set"))] == ["set-0"]
    (alone,) = overview_sheets(bay.windows, JOB)
    assert sum(placed.view.id.startswith("window") for placed in alone.placed) == 3


def test_the_pack_shows_the_set_and_says_what_rests_on_it(tmp_path):
    text = packed(tmp_path, SPECS / "bay.yaml").read_text("utf-8")
    assert "Windows W1, W2, W3 together" in text
    assert "no wall, floor or roof above rests on it" in text
    assert text.count("Joined to window") == 3
    part = packed(tmp_path / "part", SPECS / "bay.yaml", "--window", "W1", "--window", "W2").read_text("utf-8")
    assert "together</small>" not in part


def test_every_id_of_a_pack_with_sets_is_given_once(tmp_path):
    text = packed(tmp_path, SPECS / "coupled.yaml").read_text("utf-8")
    ids = re.findall(r'\bid="([^"]+)"', text)
    assert len(ids) == len(set(ids)) > 50


def test_the_pdf_has_a_page_of_the_set_before_its_windows(tmp_path):
    reader = pytest.importorskip("pypdf").PdfReader
    done = run("pack", str(SPECS / "bay.yaml"), "--out", str(tmp_path), "--format", "pdf")
    assert done.exit_code == 0, done.output
    pages = [page.extract_text() for page in reader(Path(done.stdout.strip())).pages]
    whole = next(number for number, text in enumerate(pages) if "How they stand" in text)
    alone = next(number for number, text in enumerate(pages) if "How it opens" in text)
    assert whole < alone
    assert "standing out 460 mm" in pages[whole]
    assert sum("Joined to window" in text for text in pages) == 4   # each window's page, and the pages of words
