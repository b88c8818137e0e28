"""Factory sheets by the browser's own measure (Chromium, driven by playwright): an oracle outside the project's widths."""

from itertools import combinations

import pytest

from elevations.export.svg import write_svg
from elevations.sheets.factory import factory_sheet
from tests.sheets.test_factory import JOB, varied

MM_PER_PX = 25.4 / 96
TOUCH_MM = 0.3
"""Boxes of text reach from accents to descenders, so two that only just touch hold ink that does not."""

pytestmark = pytest.mark.readers


def boxes(browser, tmp_path, sheet):
    (tmp_path / "sheet.svg").write_text(write_svg(sheet))
    page = browser.new_page()
    page.goto((tmp_path / "sheet.svg").as_uri())
    found = page.evaluate("""() => [...document.querySelectorAll('text')].map(text => {
        const box = text.getBoundingClientRect();
        return [text.textContent, box.left, box.top, box.right, box.bottom];
    })""")
    lines = page.evaluate("""() => [...document.querySelectorAll('[id$="head"] path')].map(path => path.getBoundingClientRect().width)""")
    page.close()
    return [(text, [side * MM_PER_PX for side in sides]) for text, *sides in found], [w * MM_PER_PX for w in lines]


@pytest.mark.parametrize("name", ["three lights with fanlights", "grid", "huge", "tiny"])
def test_no_text_overlaps_another_or_leaves_the_border(browser, tmp_path, name):
    sheet = factory_sheet(varied(name), JOB, "paper")
    found, _ = boxes(browser, tmp_path, sheet)
    assert len(found) > 50
    for _, (left, top, right, bottom) in found:
        assert left > 20
        assert top > 10
        assert right < sheet.width - 10
        assert bottom < sheet.height - 10
    for (text, a), (other, b) in combinations(found, 2):
        across = min(a[2], b[2]) - max(a[0], b[0])
        up = min(a[3], b[3]) - max(a[1], b[1])
        assert min(across, up) < TOUCH_MM, f"{text!r} and {other!r}"


def test_the_frame_prints_at_its_scale(browser, tmp_path):
    # 1810 mm at 1:10 is 181 mm of paper
    _, lines = boxes(browser, tmp_path, factory_sheet(varied("three lights with fanlights"), JOB, "paper"))
    assert max(lines) == pytest.approx(181, abs=0.1)
