import pytest

from elevations.drawing.layers import LAYERS, Layer
from elevations.drawing.symbols import SYMBOLS

DARK_SCREEN = "#212830"   # a dark CAD background, common practice, no source
COLOURED = [layer for layer, style in LAYERS.items() if style.aci not in (7, 8, 9)]


def luminance(colour):
    # WCAG 2.2, definition of relative luminance
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_every_layer_has_a_style():
    assert set(LAYERS) == set(Layer)


@pytest.mark.parametrize("layer", COLOURED)
@pytest.mark.parametrize("ground", ["#ffffff", DARK_SCREEN])
def test_coloured_lines_stand_out_from_paper_and_from_a_dark_screen(layer, ground):
    # WCAG 2.2, success criterion 1.4.11: graphics need 3 to 1
    assert contrast(LAYERS[layer].colour, ground) >= 3


@pytest.mark.parametrize("layer", [Layer.DIMENSION, Layer.NOTE])
def test_lettering_stands_out_from_paper(layer):
    # WCAG 2.2, success criterion 1.4.6: text needs 7 to 1 at the enhanced level
    assert contrast(LAYERS[layer].colour, "#ffffff") >= 7


def test_line_widths_are_steps_of_the_series():
    # ISO 128 series of line widths, from memory
    assert {style.weight for style in LAYERS.values()} <= {0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0}


def test_a_fixing_is_2_4_mm_on_paper():
    xs = [corner.x for part in SYMBOLS["fixing"] for corner in part.corners]
    assert max(xs) - min(xs) == pytest.approx(2.4)
