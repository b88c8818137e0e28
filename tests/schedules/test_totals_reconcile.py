"""Totals of any job add up: pieces, metres and kilograms of the cutting list, what comes out of the bars, and every piece once."""

from __future__ import annotations

import json
from collections import Counter

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from elevations.catalogue.load import find_system
from elevations.cutting.job import bar_sets
from elevations.cutting.stock import Stock, tenths
from elevations.errors import SpecError
from elevations.geometry.resolve import resolve_job
from elevations.schedules.cutting import cutting_rows, merged
from elevations.schedules.machining import machining_rows
from elevations.schedules.pieces import members_of
from elevations.spec.load import parse_job
from tests.properties.shapes import shaped_windows
from tests.properties.specs import job as job_of
from tests.properties.specs import windows as any_window
from tests.properties.test_ways_of_opening import HEADS
from tests.properties.test_ways_of_opening import windows as any_way_of_opening

SIDES = ("left", "right", "head", "sill")


@st.composite
def jobs(draw):
    """One to three windows, each perhaps with a sill, extensions and a colour."""
    blocks = []
    for number in range(draw(st.integers(1, 3))):
        block = dict(draw(any_window()), mark=f"W{number + 1}")
        if draw(st.booleans()):
            block["sill"] = {"projection": draw(st.sampled_from([60, 100, 150])), "horns": draw(st.integers(0, 60))}
        if draw(st.booleans()):
            block["fit"] = {"add_ons": {side: draw(st.sampled_from([0, 20, 40])) for side in SIDES}}
        if draw(st.booleans()):
            block["finish"] = {"outside": "RAL 7038", "inside": "RAL 9016"}
        blocks.append(block)
    return blocks


def resolved(blocks):
    data = job_of(blocks[0])
    data["windows"] = blocks
    return resolve_job(parse_job(json.dumps(data), "job.yaml").job, find_system)   # JSON is YAML


@given(jobs())
@settings(max_examples=40, deadline=None)
def test_every_piece_comes_out_of_one_bar_and_lengths_add_up(blocks):
    windows = resolved(blocks)
    rows = merged(row for window in windows for row in cutting_rows(window))
    sets = bar_sets(rows, lambda group: Stock(group[0].bar_length_mm, kerf_mm=4, end_trim_mm=15, least_usable_off_cut_mm=700), 0.5)
    listed = Counter((row.bars, row.finish_outside, row.finish_inside, row.system, piece) for row in rows for piece in row.pieces)
    out = Counter((s.profile, s.finish_outside, s.finish_inside, s.system, piece) for s in sets for bar in s.pieces for piece in bar)
    assert out == listed
    assert set(listed.values()) == {1}
    for s in sets:
        own = [row for row in rows if (row.bars, row.system, row.finish_outside, row.finish_inside) == (s.profile, s.system, s.finish_outside, s.finish_inside)]
        assert sum(tenths(row.length_mm) * row.quantity for row in own) == sum(tenths(piece) for bar in s.plan.bars for piece in bar.pieces_mm)
        for bar in s.plan.bars:
            assert tenths(bar.stock_mm) == sum(map(tenths, bar.pieces_mm)) + tenths(bar.kerf_mm) + tenths(bar.trims_mm) + tenths(bar.rest_mm)
        assert s.plan.new_bars <= s.plan.first_fit_bars


@given(jobs())
@settings(max_examples=40, deadline=None)
def test_all_that_a_window_has_is_in_the_list_once_with_its_mass(blocks):
    """Counted from the window and the job, and weighed from the system file's figures, apart from the list."""
    for window, block in zip(resolved(blocks), blocks, strict=True):
        rows = list(cutting_rows(window))
        pieces = Counter(piece for row in rows if not row.profile.endswith("reinforcement") for piece in row.pieces)
        bars = sum(bar.kind == "on-face" for pane in window.panes for bar in pane.bars)
        extended = sum(bool(width) for width in block.get("fit", {}).get("add_ons", {}).values())
        beads = sum(len(pane.tight.outline.corners) for pane in window.panes)
        assert pieces.total() == len(pieces) == len(members_of(window)) + beads + 2 * bars + extended + ("sill" in block)
        per_m = {"frame": 0.0, "mullion": 0.0, "transom": 0.0, "sash": 0.0}
        for member in members_of(window):
            if member.profile in per_m:
                per_m[member.profile] += member.length.value / 1000 * window.system.profiles[member.profile].kg_per_m
        for profile, kg in per_m.items():
            assert sum(row.mass_kg for row in rows if row.profile == profile) == pytest.approx(kg, abs=1e-9)
        cut = {piece for row in rows for piece in row.pieces}
        assert {row.piece for row in machining_rows(window)} <= cut


@given(jobs())
@settings(max_examples=25, deadline=None)
def test_a_job_weighs_what_its_windows_weigh(blocks):
    each = [list(cutting_rows(window)) for window in resolved(blocks)]
    whole = merged(row for rows in each for row in rows)
    apart = sum(row.mass_kg or 0.0 for rows in each for row in rows)
    assert sum(row.mass_kg or 0.0 for row in whole if row.mass_kg is not None) == pytest.approx(apart, abs=1e-9)


@given(st.one_of(any_way_of_opening(HEADS), any_way_of_opening(), shaped_windows()))
@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_places_of_any_way_of_opening_and_shape_lie_on_pieces_that_are_cut(block):
    try:
        window, = resolved([dict(block, fit={"add_ons": {"left": 20, "head": 40}}, sill={"projection": 150})])
    except SpecError:
        return
    lengths = {piece: row.length_mm for row in cutting_rows(window) for piece in row.pieces if not row.profile.endswith("reinforcement")}
    for row in machining_rows(window):
        assert 0 < row.along_mm < row.length_mm == lengths[row.piece]
