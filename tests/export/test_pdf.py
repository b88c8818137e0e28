import io
import math
import re
import shutil
import subprocess

import pypdf
import pypdfium2
import pytest

from elevations.drawing.entities import Fill, Group, Label, Placed, Sheet, Stroke, Symbol, View
from elevations.drawing.layers import Layer
from elevations.export.marker import MARKER
from elevations.export.pdf import BOLD, FONTS, REGULAR, curves, write_pdf
from elevations.plane import Box, Corner, Point, rectangle
from tests.export.sample import sample_sheet

POINT = 72 / 25.4   # PDF's unit is 1/72 inch: ISO 32000-1, 8.3.2.3 (from memory); checked below against two readers


def sheet_of(*items, scale=10.0, title="Title"):
    view = View("view", "View", (Group("g", items),), Box(0, 0, 1, 1))
    return Sheet(title, "Words", 200, 100, (Placed(view, scale, Point(20, 10)),), (), scale)


def pdf(*sheets):
    return pypdf.PdfReader(io.BytesIO(write_pdf(sheets)))


def page_content(*items, **ways):
    return pdf(sheet_of(*items, **ways)).pages[0].get_contents().get_data().decode("latin-1")


def drawn_box(sheet):
    """Of what is dark on the page, mm from its bottom left corner: measured in the picture that pdfium makes."""
    scale = 4.0
    page = pypdfium2.PdfDocument(write_pdf([sheet]))[0]
    image = page.render(scale=scale).to_pil().convert("L").point(lambda tone: 255 if tone < 128 else 0)
    left, top, right, bottom = image.getbbox()
    size = scale * POINT
    return left / size, (image.height - bottom) / size, right / size, (image.height - top) / size


def test_pages_have_the_size_of_their_papers():
    reader = pdf(sample_sheet(), sheet_of(Label("second", Point(0, 0), 2.5)))
    sizes = [(float(page.mediabox.width) / POINT, float(page.mediabox.height) / POINT) for page in reader.pages]
    assert sizes[0] == pytest.approx((297, 210), abs=0.01)
    assert sizes[1] == pytest.approx((200, 100), abs=0.01)


def test_a_metre_at_1_to_10_measures_100_mm_on_the_page():
    """In the picture of a reader that is not ours, to half a pixel of 0.09 mm."""
    box = drawn_box(sheet_of(Stroke(rectangle(0, 0, 1000, 500).corners, Layer.FRAME, closed=True, weight=0.1)))
    assert box == pytest.approx((20, 10, 120, 60), abs=0.12)


def test_an_arc_stays_on_its_circle():
    """A half turn up from 0 to 100: middle 50, radius 50; the middle of each curve too, where a Bezier strays most."""
    a, b = Corner(100, 0, 1.0), Corner(0, 0)
    start = (a.x, a.y)
    for first, second, end in curves(a, b):
        for t in (0.0, 0.2, 0.5, 0.8, 1.0):
            x, y = (
                (1 - t) ** 3 * start[i] + 3 * (1 - t) ** 2 * t * first[i] + 3 * (1 - t) * t**2 * second[i] + t**3 * end[i]
                for i in (0, 1)
            )
            assert math.hypot(x - 50, y) == pytest.approx(50, rel=3e-4)
            assert y >= -1e-9
        start = end
    assert start == (0, 0)


def test_a_clockwise_arc_bulges_to_its_own_side():
    # bulge -1 from the right to the left: a half turn below the chord, so 50 mm deep at 1:10 is 5 mm under y = 10 + 60
    box = drawn_box(sheet_of(Stroke((Corner(1000, 600, -1.0), Corner(0, 600)), Layer.FRAME, weight=0.1)))
    assert box == pytest.approx((20, 20, 120, 70), abs=0.12)


def test_text_is_text_and_in_reading_order():
    text = pdf(sample_sheet()).pages[0].extract_text()
    for words in ("Quillback Lock Cottage – W1", "Ø 40 – 2° “sill” ½ é", "490 × 760", "317.3"):
        assert words in text


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler-utils is not installed")
def test_poppler_reads_the_text_and_finds_every_font_embedded(tmp_path):
    file = tmp_path / "sheet.pdf"
    file.write_bytes(write_pdf([sample_sheet()]))
    said = subprocess.run(["pdftotext", file, "-"], capture_output=True, text=True, check=True)
    assert said.stderr == ""
    assert "“sill”" in said.stdout
    fonts = subprocess.run(["pdffonts", file], capture_output=True, text=True, check=True).stdout.splitlines()[2:]
    assert len(fonts) == 2
    assert all(re.search(r"DejaVuSans.* yes yes yes ", row) for row in fonts)


def test_text_turned_by_90_degrees_is_centred_on_its_place():
    box = drawn_box(sheet_of(Label("HHHH", Point(500, 400), 5, align="centre", angle=90)))
    # capitals 5 high stand left of x = 20 + 50; the middle of the word is at y = 10 + 40
    assert (box[0], box[2]) == pytest.approx((65, 70), abs=0.15)
    assert (box[1] + box[3]) / 2 == pytest.approx(50, abs=0.3)


def test_right_aligned_text_ends_at_its_place():
    box = drawn_box(sheet_of(Label("HHHH", Point(500, 400), 5, align="right", bold=True)))
    assert box[2] == pytest.approx(70, abs=0.8)   # less the side bearing of H
    assert (box[1], box[3]) == pytest.approx((50, 55), abs=0.15)


def test_the_same_sheets_give_the_same_bytes():
    assert write_pdf([sample_sheet(), sample_sheet()]) == write_pdf([sample_sheet(), sample_sheet()])


def test_the_marker_stands_near_the_top_and_every_object_where_the_table_says():
    data = write_pdf([sample_sheet()])
    assert MARKER.encode() in data[:512]
    start = int(data.rsplit(b"startxref", 1)[1].split()[0])
    rows = re.findall(rb"(\d{10}) \d{5} n", data[start:])
    assert rows
    for row in rows:
        assert re.match(rb"\d+ 0 obj", data[int(row):])


def test_each_page_has_a_bookmark_of_its_title():
    reader = pdf(sheet_of(title="Window W1, Kitchen"), sheet_of(title="Glass"))
    assert [entry.title for entry in reader.outline] == ["Window W1, Kitchen", "Glass"]
    assert reader.metadata.title == "Window W1, Kitchen"


def test_hostile_text_stays_text():
    said = "1) Tj ET Q (% \\) endobj \x00\x07 \u202e6121 </svg>"
    text = pdf(sheet_of(Label(said, Point(0, 0), 2.5), title=said)).pages[0].extract_text()
    assert text.strip() == "1) Tj ET Q (% \\) endobj  6121 </svg>"


def test_a_character_that_the_font_lacks_breaks_nothing():
    assert pdf(sheet_of(Label("窓 W1", Point(0, 0), 2.5))).pages[0].extract_text().strip().endswith("W1")


def test_settings_are_said_again_after_a_symbol():
    """A symbol's own colours end with it: a line after it has its own again."""
    line = Stroke((Corner(0, 0), Corner(9, 0)), Layer.OPENING)
    content = page_content(line, Symbol("fixing", Point(5, 5), Layer.FIXING), line)
    assert content.count("0.6902 0.3765 0.1843 RG") == 1   # OPENING's #b0602f; it still holds after the symbol's q … Q
    assert content.index("q 1 0 0 1") < content.index("0.8157 0.2235 0.2392 RG") < content.index("Q\n")


def test_a_fill_leaves_its_holes_open():
    content = page_content(Fill(rectangle(0, 0, 100, 100), Layer.FRAME, "#ddeeff", (rectangle(10, 10, 90, 90),)))
    assert content.count(" m ") == 2
    assert " f*" in content


def test_a_file_needs_a_sheet():
    with pytest.raises(ValueError, match="at least one sheet"):
        write_pdf([])


def test_the_fonts_come_with_their_licence_and_keep_their_names():
    licence = (FONTS / "LICENCE.txt").read_text("utf-8")
    assert "to reproduce and distribute the\nFont Software" in licence
    assert "Tavmjong Bah" in licence
    for name in (REGULAR, BOLD):
        assert (FONTS / f"{name}.ttf").stat().st_size < 150_000


def test_the_fonts_hold_every_character_whose_width_is_known():
    from fontTools.ttLib import TTFont

    from elevations.drawing import advances

    for name, runs in ((REGULAR, advances.REGULAR), (BOLD, advances.BOLD)):
        font = TTFont(FONTS / f"{name}.ttf")
        known, widths = font.getBestCmap(), font["hmtx"]
        for first, row in runs:
            for i, advance in enumerate(row):
                assert widths[known[first + i]][0] == advance, chr(first + i)
