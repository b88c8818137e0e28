"""Glass panes as plates: against a handbook's table, Navier's series and recalled figures of a national standard."""

import math

import numpy as np
import pytest

from elevations.structure.glass import loaded_pane_share, plate_figures

# read: Roark table 11.4 case 1a (stored copies), Poisson's ratio 0.3: long/short, alpha, beta
ROARK = [
    (1.0, 0.0444, 0.2874), (1.2, 0.0616, 0.3762), (1.4, 0.0770, 0.4530), (1.6, 0.0906, 0.5172), (1.8, 0.1017, 0.5688),
    (2.0, 0.1110, 0.6102), (3.0, 0.1335, 0.7134),
]


@pytest.mark.parametrize(("ratio", "alpha", "beta"), ROARK)
def test_handbook_table(ratio, alpha, beta):
    # 0.6 %: the table's alpha at 1.4 and 2.0 is off the exact series by 0.5 and 0.4 %, reason not known
    found = plate_figures(ratio, 0.3)
    assert found.alpha == pytest.approx(alpha, rel=0.006)
    assert found.beta == pytest.approx(beta, rel=0.002)


def navier(ratio, poisson, terms=801):
    """Deflection, moment and mean of a plate 1 by `ratio` under unit load with E = t = 1, by the double sine series."""
    m, n = np.meshgrid(np.arange(1, terms, 2), np.arange(1, terms, 2), indexing="ij")
    k = m**2 + (n / ratio) ** 2
    sign = (-1.0) ** ((m + n) // 2 - 1)
    rigidity = 1 / (12 * (1 - poisson**2))
    w = 16 / (math.pi**6 * rigidity) * np.sum(sign / (m * n * k**2))
    bend = 16 / math.pi**4 * np.sum(sign * (m**2 + poisson * (n / ratio) ** 2) / (m * n * k**2))
    mean = 64 / (math.pi**8 * rigidity) * np.sum(1 / (m**2 * n**2 * k**2))
    return w, 6 * bend, mean


@pytest.mark.parametrize("poisson", [0.22, 0.3])
@pytest.mark.parametrize("ratio", [1.0, 1.37, 2.0, 4.5])
def test_navier_series(ratio, poisson):
    # computed: NumPy; Navier's double series, which shares no step with the single series of the code
    found = plate_figures(ratio, poisson)
    w, beta, mean = navier(ratio, poisson)
    assert (found.alpha, found.volume) == pytest.approx((w, mean), rel=1e-6)
    assert found.beta == pytest.approx(beta, rel=1e-4)


def test_square_plate_of_glass():
    # beta is 0.2696 at Poisson's ratio 0.22 (computed, another program)
    assert plate_figures(1.0, 0.22).beta == pytest.approx(0.2696, abs=5e-5)


def test_swept_volume_as_recalled_from_a_national_standard():
    # B at Poisson's ratio 0.23 for short/long 1.0, 0.9 … 0.1 (from memory)
    recalled = [0.0194, 0.0237, 0.0288, 0.0350, 0.0421, 0.0501, 0.0587, 0.0676, 0.0767, 0.0857]
    for tenths, expected in zip(range(10, 0, -1), recalled, strict=True):
        assert plate_figures(10 / tenths, 0.23).volume == pytest.approx(expected, abs=1.1e-4)


# computed from the same derivation by another program: guards against slips, proves nothing
SHARES = [(500, 1000, 4, 16, 4, 0.551), (1000, 1500, 4, 16, 4, 0.505), (1000, 1500, 6, 16, 4, 0.775), (300, 400, 4, 16, 4, 0.790)]


@pytest.mark.parametrize("case", SHARES)
def test_loaded_pane_share(case):
    assert loaded_pane_share(*case[:5]) == pytest.approx(case[5], abs=1e-3)   # its last printed digit


def test_large_panes_share_by_thickness_cubed():
    # read: conference slides on load sharing: the limit for large panes
    assert loaded_pane_share(4000, 5000, 6, 16, 4) == pytest.approx(6**3 / (6**3 + 4**3), rel=1e-3)
