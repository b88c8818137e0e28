"""Installer's, fit and survey sheets by Chromium's own measure, and the same files read back by ezdxf."""

import io
import shutil
from itertools import combinations
from pathlib import Path

import pytest

from elevations import pipeline
from elevations.export.svg import write_svg
from elevations.sheets.fit import fit_sheet
from elevations.sheets.installer import a3_sheets
from elevations.sheets.installer_a4 import installer_sheets
from elevations.sheets.survey import survey_sheets

MM_PER_PX = 25.4 / 96
TOUCH_MM = 0.3
"""Boxes of text reach from accents to descenders, so two that only just touch hold ink that does not."""
KEY_FROM = 300.0
"""Where the column of words begins, whose key shows each sign once more, mm on paper."""
SPECS = Path(__file__).parents[2] / "specs"


def every_sheet():
    """Name and sheet, for paper and for a drawing program."""
    for name in ("fit-opening.yaml", "fit-walls.yaml"):
        loaded = pipeline.read(str(SPECS / name))
        a4 = loaded.job.model_copy(update={"drawing": loaded.job.drawing.model_copy(update={"sheet": "A4"})})
        for window in pipeline.windows(loaded):
            spec = loaded.job.windows[window.path[1]]
            for style in ("paper", "model"):
                made = [*a3_sheets(window, loaded.job, style), fit_sheet(window, loaded.job, style), *survey_sheets(loaded.job, spec, window, 1, 2, style),
                        *installer_sheets(window, a4, style)]
                for number, sheet in enumerate(made):
                    yield f"{name}-{window.mark}-{number}", style, sheet


SHEETS = list(every_sheet())


@pytest.fixture(scope="module")
def page():
    program = shutil.which("chromium")
    if not program:
        pytest.skip("chromium is not installed here")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        running = play.chromium.launch(executable_path=program)
        yield running.new_page()
        running.close()


@pytest.mark.readers
def test_no_text_lies_on_another_or_off_the_page(page, tmp_path):
    for name, style, sheet in SHEETS:
        if style == "model":
            continue
        file = tmp_path / f"{name}.svg"
        file.write_text(write_svg(sheet), "utf-8")
        page.goto(file.as_uri())
        found = page.evaluate("""() => [...document.querySelectorAll('text')].map(text => {
            const box = text.getBoundingClientRect();
            return [text.textContent, box.left, box.top, box.right, box.bottom];
        })""")
        boxes = [(text, [side * MM_PER_PX for side in sides]) for text, *sides in found]
        assert len(boxes) > 10, name
        for text, (left, top, right, bottom) in boxes:
            assert left > 5, (name, text)
            assert top > 4, (name, text)
            assert right < sheet.width - 5, (name, text)
            assert bottom < sheet.height - 4, (name, text)
        for (text, a), (other, b) in combinations(boxes, 2):
            across, up = min(a[2], b[2]) - max(a[0], b[0]), min(a[3], b[3]) - max(a[1], b[1])
            assert min(across, up) < TOUCH_MM, f"{name}: {text!r} and {other!r}"


def test_drawing_programs_get_sound_files():
    """ezdxf's audit, and every fixing of the installer's sheet as an insert on its layer."""
    import ezdxf

    from elevations.export.dxf import write_dxf

    for name, style, sheet in SHEETS:
        if style == "model":
            doc = ezdxf.read(io.StringIO(write_dxf(sheet).decode("utf-8")))
            assert doc.audit().errors == [], name


def test_the_installers_dxf_has_an_insert_where_each_fixing_is():
    import ezdxf

    from elevations.export.dxf import write_dxf

    loaded = pipeline.read(str(SPECS / "fit-opening.yaml"))
    for window in pipeline.windows(loaded):
        sheet = a3_sheets(window, loaded.job, "model")[0]
        doc = ezdxf.read(io.StringIO(write_dxf(sheet).decode("utf-8")))
        origin = sheet.placed[0].at
        found = sorted((round(e.dxf.insert.x - origin.x * sheet.scale, 3), round(e.dxf.insert.y - origin.y * sheet.scale, 3))
                       for e in doc.modelspace().query("INSERT") if e.dxf.layer == "FIXING" and e.dxf.insert.x < KEY_FROM * sheet.scale)
        inset = window.system.profiles["frame"].rebate / 2
        wanted = sorted((round(p.at.x + p.inward.x * inset, 3), round(p.at.y + p.inward.y * inset, 3)) for p in window.fixings)
        assert found == wanted
