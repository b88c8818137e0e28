"""Fingerprints of lights with two sashes, pivots and glazing bars: the same product by another wording, another product by one word."""

import pytest

from elevations.approval.facts import fingerprint, product_facts
from elevations.catalogue.load import find_system
from elevations.geometry.resolve import resolve_job
from elevations.spec.load import parse_job


def print_of(light, system):
    text = f"glass: {{clear: {{make_up: 4/20/4}}}}\nwindows:\n  - {{mark: W1, system: {system}, frame: {{width: 1200, height: 1200}}, lights: [{{{light}}}]}}\n"
    job = parse_job(text, "job.yaml").job
    return fingerprint(product_facts(resolve_job(job, find_system)[0], job.windows[0]))


ALIKE = [
    ("light: side-hung-pair", "light: side-hung-pair, leads: right", "flush-70"),
    ("light: vertical-pivot", "light: vertical-pivot, leads: right", "pivot-68"),
    ("light: fixed, bars: {columns: 2}", "light: fixed, bars: {at: {upright: [600]}}", "flush-70"),
    ("light: fixed, bars: {rows: 2}", "light: fixed, bars: {columns: 1, rows: 2, kind: on-face}", "flush-70"),
]
UNLIKE = [
    ("light: side-hung-pair", "light: side-hung-pair, leads: left", "flush-70"),
    ("light: vertical-pivot", "light: vertical-pivot, leads: left", "pivot-68"), ("light: vertical-pivot", "light: horizontal-pivot", "pivot-68"),
    ("light: sliding", "light: sliding, leads: right", "slider-112"), ("light: sliding, leads: left", "light: sliding, leads: right", "slider-112"),
    ("light: vertical-sliding", "light: vertical-sliding, leads: bottom", "slider-112"),
    ("light: fixed", "light: fixed, bars: {columns: 2}", "flush-70"),
    ("light: fixed, bars: {columns: 2}", "light: fixed, bars: {columns: 2, kind: in-unit}", "flush-70"),
    ("light: fixed, bars: {margin: 100}", "light: fixed, bars: {border: 100}", "flush-70"),
    ("light: fixed, bars: {at: {upright: [600]}}", "light: fixed, bars: {at: {upright: [601]}}", "flush-70"),
]


@pytest.mark.parametrize(("one", "other", "system"), ALIKE)
def test_the_same_product_in_other_words_keeps_its_fingerprint(one, other, system):
    assert print_of(one, system) == print_of(other, system)


@pytest.mark.parametrize(("one", "other", "system"), UNLIKE)
def test_another_way_of_moving_or_dividing_is_another_product(one, other, system):
    assert print_of(one, system) != print_of(other, system)
