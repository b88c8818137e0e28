"""Simply supported beams against handbook formulas and against numerical integration."""

import numpy as np
import pytest

from elevations.structure.beams import (
    Beam,
    LineLoad,
    PointLoad,
    deflection_ei,
    moment,
    needed_ei_n_mm2,
    peak_deflection,
    peak_moment,
    reactions,
)
from elevations.structure.wind import strip_load

# handbook cases for L = w = EI = 1: rise a, moment, mid-span deflection; closed forms from memory, digits computed with
# SciPy 1.17.1 quad, nine equal
HANDBOOK = [
    (0.0, 0.125, 0.0130208333),
    (0.1, 0.123333333, 0.0128133333),
    (0.25, 0.114583333, 0.0117513021),
    (0.4, 0.098333333, 0.0099008333),
    (0.5, 0.083333333, 0.0083333333),
]


@pytest.mark.parametrize(("rise", "most", "sag"), HANDBOOK)
def test_trapezoids_from_uniform_to_triangle(rise, most, sag):
    beam = Beam(1.0, (LineLoad(0.0, 1.0, rise, 1.0),))
    assert peak_moment(beam).value == pytest.approx(most, rel=1e-8)
    assert peak_deflection(beam, 1.0).value == pytest.approx(sag, rel=1e-8)
    assert reactions(beam) == pytest.approx(((1 - rise) / 2, (1 - rise) / 2))   # w (L - a) / 2
    # w (3L² - 4a²)/24 and w (5L² - 4a²)²/1920 (from memory)
    assert peak_moment(beam).value == pytest.approx((3 - 4 * rise**2) / 24)
    assert peak_deflection(beam, 1.0).value == pytest.approx((5 - 4 * rise**2) ** 2 / 1920)
    assert peak_deflection(beam, 1.0).at_mm == pytest.approx(0.5)


@pytest.mark.parametrize("at", [0.2, 0.5, 0.7])
def test_a_point_load_off_centre(at):
    # handbook (from memory): M = P a b / L; greatest deflection P b (L² - b²)^1.5 / (9 √3 L EI), b the shorter part,
    # at √((L² - b²)/3) from the far end
    beam = Beam(1.0, (), (PointLoad(at, 1.0),))
    b = min(at, 1 - at)
    far = ((1 - b * b) / 3) ** 0.5
    assert peak_moment(beam).value == pytest.approx(at * (1 - at))
    assert peak_deflection(beam, 1.0).value == pytest.approx(b * (1 - b * b) ** 1.5 / (9 * 3**0.5))
    assert peak_deflection(beam, 1.0).at_mm == pytest.approx(far if at >= 0.5 else 1 - far)
    assert reactions(beam) == pytest.approx((1 - at, at))


def test_the_two_worked_members():
    # computed, two programs: lights 600 and 900 wide beside 1,400 mm at 1,200 Pa; 1,500 and 700 beside 1,200 at 800 Pa
    first = Beam(1400, (strip_load(0, 1400, 600, 1200), strip_load(0, 1400, 900, 1200)))
    assert peak_moment(first).value == pytest.approx(196_875, abs=0.5)
    assert needed_ei_n_mm2(first, 1400 / 200) / 210_000 == pytest.approx(26_829.6, abs=0.1)
    second = Beam(1200, (strip_load(0, 1200, 1500, 800), strip_load(0, 1200, 700, 800)))
    assert peak_moment(second).value == pytest.approx(102_283, abs=0.5)
    assert needed_ei_n_mm2(second, 1200 / 300) / 70_000 == pytest.approx(53_072.9, abs=0.1)


def integrated(beam, count=200_001):
    """Moment and EI·deflection along a beam by the trapezoidal rule: no formula but equilibrium and curvature."""
    x = np.linspace(0, beam.span_mm, count)
    step = x[1] - x[0]
    load = np.zeros_like(x)
    for w in beam.line_loads:
        end = w.start_mm + w.length_mm
        edge = np.minimum(x - w.start_mm, end - x)
        shape = np.where(edge < 0, 0.0, 1.0 if w.rise_mm == 0 else np.minimum(edge / max(w.rise_mm, 1e-12), 1.0))
        load += w.peak_n_mm * shape

    def sums(y):
        return np.concatenate([[0.0], np.cumsum((y[1:] + y[:-1]) / 2) * step])

    inside = sums(sums(load))
    for p in beam.point_loads:
        inside = inside + p.force_n * np.maximum(0.0, x - p.at_mm)
    bending = inside[-1] / beam.span_mm * x - inside   # no moment at either end
    twice = sums(sums(bending))
    return x, bending, twice[-1] / beam.span_mm * x - twice


BEAMS = [
    Beam(2100, (strip_load(0, 2100, 380, 800), strip_load(0, 700, 920, 800), strip_load(700, 1400, 920, 800)), (PointLoad(700, 240.0),)),
    Beam(1500, (LineLoad(200, 300, 150, 0.4), LineLoad(0, 1500, 200, 0.2)), (PointLoad(300, 90.0), PointLoad(1200, 10.0))),
    Beam(900, (LineLoad(450, 450, 0, 1.0),)),
]


@pytest.mark.parametrize("beam", BEAMS)
def test_loads_side_by_side_agree_with_numerical_integration(beam):
    # computed: NumPy, trapezoidal rule on 200,000 steps
    x, bending, sag = integrated(beam)
    assert peak_moment(beam).value == pytest.approx(bending.max(), rel=1e-5)
    assert peak_deflection(beam, 1.0).value == pytest.approx(sag.max(), rel=1e-5)
    for i in range(0, len(x), 20_000):
        assert moment(beam, float(x[i])) == pytest.approx(bending[i], abs=1e-5 * bending.max())
        assert deflection_ei(beam, float(x[i])) == pytest.approx(sag[i], abs=1e-5 * sag.max())
