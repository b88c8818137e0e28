"""The built-in figures for England against what was read of the documents, written down apart from the rules file.

'read': the figure was seen in a copy of the document; 'second hand': in somebody's restatement of it; 'memory': not seen.
The documents' current editions were not available: a figure that agrees here agrees with what was read, no more.
"""

import pytest

from elevations.checks.results import HARD
from elevations.checks.rules_file import load_rules
from elevations.thermal.rating import BANDS

READ = [
    # Approved Document K, diagram 3.1 (image-text copy of page 24): guarding of opening windows 800
    ("guard-height", 800, "mm"),
    # Approved Document O, 1,100 for openable windows of new dwellings (cwct.co.uk; hse.gov.uk RR1219)
    ("guard-height-new-dwelling", 1100, "mm"),
    # NHBC Standards 6.7.11, nhbc-standards.co.uk
    ("fixing-corner-least", 150, "mm"), ("fixing-corner-most", 250, "mm"), ("fixing-spacing", 600, "mm"), ("fixing-bar", 150, "mm"), ("fixing-count", 2, ""),
    # Approved Document Q, appendix A: within 2 m vertically of an accessible level surface (designingbuildings.co.uk; labc.co.uk)
    ("reach-from-outside", 2000, "mm"),
]
SECOND_HAND = [
    # Approved Document B volume 1, 2.10: several council and trade pages, two public rule files
    ("escape-area", 0.33, "m2"), ("escape-width", 450, "mm"), ("escape-height", 450, "mm"), ("escape-bottom", 1100, "mm"), ("escape-storey", 4500, "mm"),
    # Approved Document K, section 5: four pages agree on the zones; a doorset maker's page on width, small and robust panes
    ("safety-low", 800, "mm"), ("safety-door", 1500, "mm"), ("safety-door-width", 900, "mm"), ("small-pane-width", 250, "mm"),
    ("small-pane-area", 0.5, "m2"), ("small-pane-thickness", 6, "mm"), ("robust-8-mm", 1100, "mm"), ("robust-10-mm", 2250, "mm"),
    # BS 6262-4:2005: two safety pages
    ("safety-bath", 800, "mm"),
    # Approved Document K, 3.3 and O: a 100 mm sphere; public notes
    ("restrictor-opening", 100, "mm"),
    # Approved Document F volume 1, 2021, 3.15: two pages. (An older page prints 5,000 mm2 per 10 m2, another 800: superseded, and a slip)
    ("vent-habitable", 8000, "mm2"), ("vent-kitchen", 8000, "mm2"), ("vent-bathroom", 4000, "mm2"), ("vent-height", 1700, "mm"),
    # Approved Document F volume 1, table 1.4: two public notes
    ("purge-wide-share", 1 / 20, ""), ("purge-narrow-share", 1 / 10, ""), ("purge-wide-angle", 30, "degrees"), ("purge-least-angle", 15, "degrees"),
    # Approved Document L volume 1, 2021: a glass maker's page for England (many live pages still print 1.6 and band C)
    ("u-value-replacement", 1.4, "W/m2K"), ("u-value-new-dwelling", 1.6, "W/m2K"), ("rating-replacement", -10, "kWh/m2a"),
    # a glass supplier's page, not of the UK
    ("edge-cover", 12, "mm"),
]  # fmt: skip
MEMORY = [
    # BS 6262-1, BS 8000-7, BS EN 12488
    ("edge-clearance", 3, "mm"), ("edge-clearance-long", 5, "mm"), ("edge-clearance-long-from", 2000, "mm"),
    # Approved Document K: 600 was read for stairs (1.41), for windows it is remembered
    ("guard-drop", 600, "mm"),
    # Approved Document K, section 9; BS 8213-1
    ("cleaning-height", 2000, "mm"),
    # a page of low authority
    ("escape-restrictor-releases", 1, ""),
]  # fmt: skip
ENGLAND = load_rules("england")


@pytest.mark.parametrize(("key", "value", "unit"), READ + SECOND_HAND + MEMORY)
def test_the_figure_is_what_was_found(key, value, unit):
    limit = ENGLAND.limits[key]
    assert (limit.value, limit.unit) == (value, unit)


@pytest.mark.parametrize(("rows", "hard"), [(READ, True), (SECOND_HAND, True), (MEMORY, False)])
def test_only_what_somebody_read_can_fail_a_design(rows, hard):
    assert {key for key, *_ in rows if ENGLAND.limits[key].hard is not hard} == set()


def test_what_was_read_second_hand_says_so():
    assert {ENGLAND.limits[key].sure for key, *_ in READ} == {"read"}
    assert {ENGLAND.limits[key].sure for key, *_ in SECOND_HAND} == {"read second hand"}
    assert {ENGLAND.limits[key].sure for key, *_ in MEMORY} & HARD == set()


def test_no_figure_is_left_without_its_row_here():
    # the share of the old window's ventilators, 1, is 'no smaller than the original', in words
    assert set(ENGLAND.limits) - {key for key, *_ in READ + SECOND_HAND + MEMORY} == {"vent-as-old"}


def test_rating_band_b_begins_where_two_trade_pages_say():
    assert dict(BANDS)["B"] == ENGLAND.limits["rating-replacement"].value


def test_the_companion_of_450_mm_is_734():
    # 0.33 / 0.45 = 0.7333 m; public pages print 735 or 740 (read second hand), which both keep the area
    area, width = ENGLAND.limits["escape-area"].value, ENGLAND.limits["escape-width"].value
    assert 733 < area / width * 1e6 < 734
    assert min(735, 740) * width / 1e6 > area
