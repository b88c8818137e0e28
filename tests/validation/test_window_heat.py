"""Whole-window U-values and the rating index against sums done by hand."""

import math

import pytest

from elevations.calculation import CannotTell
from elevations.catalogue.system import Profile, System
from elevations.geometry.resolve import resolve_job
from elevations.spec.load import parse_job
from elevations.spec.model import Glass
from elevations.thermal import Declared, rating_index, whole_window_g, window_u
from elevations.thermal.edge import edge_psi
from elevations.thermal.rating import band


def fixed_light(width, height, sight):
    """A fixed light in a frame of which `sight` mm are seen all round."""
    frame = Profile("frame", sight=sight, rebate=sight - 20, sash=sight - 30)
    profiles = dict.fromkeys(("frame", "mullion", "transom", "sash"), frame)
    system = System("plain", "plain", "pvc-u", 70, "out", "flush", "outside", 5, (28,), profiles)
    job = parse_job(
        f"glass: {{clear: {{make_up: 4/20/4}}}}\nwindows:\n  - mark: W1\n    frame: {{width: {width}, height: {height}}}\n    lights: [{{light: fixed}}]\n",
        "job.yaml",
    ).job
    return resolve_job(job, lambda _: system)[0]


def test_hand_example_of_a_standard_window():
    # 1.23 x 1.48, frame 110 all round, Ug 1.2, Uf 1.4, ψ 0.08 (computed by hand; formula of EN ISO 10077-1 from memory)
    a_g = (1.23 - 0.22) * (1.48 - 0.22)
    l_g = 2 * (1.01 + 1.26)
    a_f = 1.23 * 1.48 - a_g
    expected = (a_g * 1.2 + a_f * 1.4 + l_g * 0.08) / (1.23 * 1.48)
    assert (round(a_g, 3), round(a_f, 3), round(l_g, 3), round(expected, 2)) == (1.273, 0.548, 4.54, 1.46)
    heat = window_u(fixed_light(1230, 1480, 110), Declared({"clear": 1.2}, {"frame": 1.4}, {"clear": 0.08}))
    assert heat.u_w.value == pytest.approx(expected, rel=1e-12)
    assert heat.glass_area_m2 == pytest.approx(a_g)


def test_thirty_per_cent_frame_unrounded():
    # frame width for a share s of w x h: ((w+h) - sqrt((w+h)^2 - 4·w·h·s)) / 4; Uw 1.4596 (computed, another program)
    w, h, s = 1230.0, 1480.0, 0.3
    sight = ((w + h) - math.sqrt((w + h) ** 2 - 4 * w * h * s)) / 4
    assert sight == pytest.approx(109.6, abs=0.05)
    heat = window_u(fixed_light(w, h, sight), Declared({"clear": 1.2}, {"frame": 1.4}, {"clear": 0.08}))
    assert heat.u_w.value == pytest.approx(1.4596, abs=1e-4)
    assert heat.glass_share == pytest.approx(0.7)


# EN ISO 10077-1 annex E (from memory): uncoated, coated
PSI = [
    ("pvc-u", "aluminium", 0.06, 0.08), ("timber", "aluminium", 0.06, 0.08), ("aluminium", "aluminium", 0.08, 0.11),
    ("pvc-u", "warm-edge", 0.05, 0.06), ("timber", "warm-edge", 0.05, 0.06), ("aluminium", "warm-edge", 0.06, 0.08),
]


@pytest.mark.parametrize(("material", "spacer", "uncoated", "coated"), PSI)
def test_psi_of_spacer_frame_and_glass(material, spacer, uncoated, coated):
    plain = Glass(make_up="4/20/4", spacer=spacer)
    assert edge_psi(plain, material).value == uncoated
    low_e = Glass(make_up="4/20/4", spacer=spacer, low_e={"face": 3, "emissivity": 0.03})
    assert edge_psi(low_e, material).value == coated


def test_rating_index_by_hand():
    # 218.6 gw - 68.5 (Uw + L), read in a trade journal's article of 2004; L stands inside the bracket
    # 218.6 x 0.45 - 68.5 x (1.4 + 0.03) = 98.37 - 97.955 = 0.415
    assert rating_index(0.45, 1.4, 0.03).value == pytest.approx(0.415)
    # gw = 0.9 x g x glass share (from memory)
    assert whole_window_g(0.63, 0.7) == pytest.approx(0.3969)


def test_bands_as_read_on_two_trade_pages():
    edges = {"A++": 20, "A+": 10, "A": 0, "B": -10, "C": -20}
    for name, least in edges.items():
        assert band(least) == name
        assert band(least - 0.001) != name
    assert band(-20.001) == "below C"


def test_a_rating_without_its_facts_says_which_are_missing():
    answer = rating_index(None, 1.4, None)
    assert isinstance(answer, CannotTell)
    assert len(answer.needs) == 2
    assert str(answer).startswith("can't tell: needs the solar gain")
