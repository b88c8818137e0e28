"""What a sheet says of its approval: in its field, whole, over nothing else."""

import pytest

from elevations import pipeline
from elevations.drawing.extent import text_boxes
from elevations.drawing.lettering import text_width
from elevations.export.svg import write_svg
from elevations.sheets.approved import with_approval
from elevations.sheets.factory import factory_sheet
from elevations.sheets.title_block import APPROVED

WORDS = [
    "not approved",
    "approved 2026-10-20 by M. Towpath (3f9a-1c2e)",
    "changed since approval 2026-10-20 (3f9a-1c2e)",
    "approved 2026-10-20 by " + "Lady Ermintrude of the Lower Lock and Weir " * 4 + "(3f9a-1c2e)",
]


@pytest.fixture(scope="module")
def plain():
    loaded = pipeline.read("specs/two-lights.yaml")
    (window, *_) = pipeline.windows(loaded)
    return {style: factory_sheet(window, loaded.job, style) for style in ("paper", "model")}


@pytest.mark.parametrize("style", ["paper", "model"])
@pytest.mark.parametrize("words", WORDS)
def test_the_words_stand_in_their_field_over_nothing_else(plain, words, style):
    sheet = with_approval(plain[style], words)
    boxes = text_boxes([item for group in sheet.groups for item in group.items], 1.0)
    own = [(text, box) for group in sheet.groups if group.id == "approved" for text, box in text_boxes(group.items, 1.0)]
    assert 1 <= len(own) <= 2
    for text, box in own:
        assert not [other for other, their in boxes if their.overlaps(box) and their != box], text
        assert box.right <= sheet.width - 10
    assert all(text != APPROVED for text, _ in boxes)
    if words.endswith(")"):
        assert own[-1][0].endswith("(3f9a-1c2e)")


def test_a_warning_stands_above_the_border(plain):
    sheet = with_approval(plain["paper"], "not approved", warning="NOT APPROVED: not for manufacture")
    (group,) = [g for g in sheet.groups if g.id == "approval-warning"]
    ((_, box),) = text_boxes(group.items, 1.0)
    assert sheet.height - 10 <= box.bottom < box.top <= sheet.height
    assert box.width == pytest.approx(text_width("NOT APPROVED: not for manufacture", 5.0, bold=True), rel=0.01)
    assert "NOT APPROVED" in write_svg(sheet)


def test_without_it_the_sheet_is_as_it_was(plain):
    assert APPROVED in write_svg(plain["paper"])
