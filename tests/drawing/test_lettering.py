from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from elevations.drawing import advances
from elevations.drawing.lettering import ASCENT, DESCENT, ELLIPSIS, SLACK, fit, font_size, text_width, wrap

# Debian's fonts-dejavu-core 2.37
FONTS = Path("/usr/share/fonts/truetype/dejavu")


@pytest.mark.parametrize(("name", "runs"), [("DejaVuSans.ttf", advances.REGULAR), ("DejaVuSans-Bold.ttf", advances.BOLD)])
def test_the_shipped_advances_are_those_of_the_font(name, runs):
    if not (FONTS / name).exists():
        pytest.skip("Debian's fonts-dejavu-core is not installed here")
    font = TTFont(FONTS / name)
    cmap, widths = font.getBestCmap(), font["hmtx"]
    for first, run in runs:
        assert [widths[cmap[first + i]][0] for i in range(len(run))] == list(run)
    assert font["head"].unitsPerEm == advances.UNITS_PER_EM
    assert font["glyf"]["H"].yMax / 2048 == advances.CAPITAL_EM
    assert (font["hhea"].ascent / 2048, -font["hhea"].descent / 2048) == (advances.ASCENT_EM, advances.DESCENT_EM)


def test_the_width_of_1216_x_351_is_that_of_its_glyphs():
    # digits 1303 units, spaces 651, x 1212 of 2048 to the em (the font's hmtx table); capitals are 1493 high
    expected = (7 * 1303 + 2 * 651 + 1212) / 1493 * 2.5
    assert text_width("1216 x 351", 2.5) == pytest.approx(expected * SLACK)


def test_capitals_2_5_high_need_a_font_of_3_43():
    assert font_size(2.5) == pytest.approx(2.5 * 2048 / 1493)


def test_bold_is_wider_than_regular():
    assert text_width("Quillback Lock", 5, bold=True) > text_width("Quillback Lock", 5)


@pytest.mark.parametrize("character", ["漢", "🪟", "Ж", "\x07"])
def test_a_character_outside_the_table_counts_as_wider_than_an_em(character):
    assert text_width(character, 1) >= 1 / 0.729


def test_a_line_of_text_is_taller_than_its_capitals_by_accents_and_descenders():
    assert pytest.approx(0.928 / 0.729, rel=1e-3) == ASCENT
    assert pytest.approx(0.236 / 0.729, rel=1e-3) == DESCENT


def test_text_that_fits_is_left_alone():
    assert fit("G1", 20, 2.5) == "G1"


def test_text_too_long_ends_in_an_ellipsis():
    assert fit("side-hung, hinges left, opens out", 30, 2.5) == "side-hung, hin…"


def test_nothing_is_left_where_not_even_the_ellipsis_fits():
    assert fit("side-hung", 1, 2.5) == ""


def test_wrapped_words_keep_their_order_and_paragraphs():
    assert wrap("toughened outer pane\nlaminated inner pane", 36, 2.5) == ["toughened outer", "pane", "laminated inner", "pane"]


def test_ten_thousand_letters_wrap_into_full_lines():
    lines = wrap("W" * 10_000, 100, 2.5)
    assert "".join(lines) == "W" * 10_000
    assert all(text_width(line, 2.5) <= 100 for line in lines)


@given(st.text(max_size=60), st.floats(1, 80))
def test_fitted_and_wrapped_text_never_exceeds_the_width(text, width):
    assert text_width(fit(text, width, 2.5), 2.5) <= width
    for line in wrap(text, width, 2.5):
        assert len(line) <= 1 or text_width(line, 2.5) <= width


@given(st.text(st.characters(min_codepoint=33, max_codepoint=0x17F), max_size=60), st.floats(8, 80))
def test_wrapping_loses_no_letter(text, width):
    assert "".join("".join(wrap(text, width, 2.5)).split()) == "".join(text.split())


def test_the_ellipsis_is_one_character():
    assert len(ELLIPSIS) == 1
