"""The committed drawings are what the specs draw, byte for byte, and every one of them is looked at before it changes.

A difference is either a fault or a change that somebody has to look at: tests/golden/make_gallery.py draws them anew.
"""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

_maker = importlib.util.spec_from_file_location("make_gallery", Path(__file__).with_name("make_gallery.py"))
gallery = importlib.util.module_from_spec(_maker)
_maker.loader.exec_module(gallery)


@pytest.mark.parametrize("spec", gallery.specs(), ids=lambda spec: spec.stem)
def test_the_gallery_holds_what_the_specs_draw(spec, tmp_path):
    drawn = {path.name: path.read_bytes() for path in gallery.draw_spec(spec, tmp_path)}
    kept = {path.name: path.read_bytes() for path in (gallery.GALLERY / spec.stem).iterdir()}
    assert sorted(drawn) == sorted(kept)
    for name, data in drawn.items():
        assert data == kept[name], f"{spec.stem}/{name} differs first {first_difference(data, kept[name])}"


def test_the_gallery_holds_nothing_else():
    assert sorted(path.name for path in gallery.GALLERY.iterdir()) == sorted([gallery.INDEX, *(spec.stem for spec in gallery.specs())])


def test_the_page_of_the_gallery_is_made_from_the_jobs_opening_comments():
    assert (gallery.GALLERY / gallery.INDEX).read_text() == gallery.index(gallery.GALLERY)


def test_every_job_begins_by_saying_what_it_shows():
    assert [spec.name for spec in gallery.specs() if len(gallery.opening_comment(spec)) < 40] == []


def first_difference(new: bytes, old: bytes) -> str:
    pairs = zip(new.split(b"\n"), old.split(b"\n"))
    for number, (line, was) in enumerate(pairs, start=1):
        if line != was:
            return f"in line {number}: {line[:120]!r}, was {was[:120]!r}"
    return "in length"


def test_a_difference_is_said_by_line():
    assert first_difference(b"a\nb\nc", b"a\nB\nc") == "in line 2: b'b', was b'B'"
