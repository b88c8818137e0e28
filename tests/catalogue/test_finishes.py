"""Screen colours against values of other public tables, which differ a little from ours and from each other."""

import pytest

from elevations.catalogue.finishes import SCREEN_COLOURS, screen_colour

# A second value for the same number, read in other public RAL tables (9016, 9010, 8017, 7016, 1015) or remembered
# (the rest): shared notes on regulations, section 11. None is official; RAL publishes physical samples.
ELSEWHERE = {
    "9016": "#F7F5F0", "9010": "#F7F9F5", "9005": "#0A0A0A", "9006": "#A5A5A5", "9007": "#8F8F8F", "7016": "#333940",
    "7015": "#434B4D", "7012": "#4E5754", "7021": "#23282B", "7035": "#D7D7D7", "7038": "#B5B8B1", "7040": "#9DA1AA",
    "8014": "#382C1E", "8017": "#45322E", "8022": "#212121", "1015": "#E6D5A8",
}  # fmt: skip


def channels(colour):
    return [int(colour[i : i + 2], 16) for i in (1, 3, 5)]


@pytest.mark.parametrize(("number", "other"), ELSEWHERE.items())
def test_colour_is_near_what_other_tables_give(number, other):
    _, ours = SCREEN_COLOURS[number]
    assert max(abs(a - b) for a, b in zip(channels(ours), channels(other), strict=True)) <= 24


@pytest.mark.parametrize("code", ["RAL 7038", "ral7038", "7038", " RAL-7038 "])
def test_a_code_may_be_written_in_several_ways(code):
    assert screen_colour(code) == ("Agate grey", "#b0b0a9")


@pytest.mark.parametrize("code", ["", "white", "RAL 70381", "RAL 0000", "NCS 7038-G", "٧٠٣٨"])
def test_an_unknown_finish_has_no_colour(code):
    assert screen_colour(code) is None
