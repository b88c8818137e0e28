"""File names made from marks."""

import ntpath
import posixpath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from elevations.spec.marks import file_name, folded

HOSTILE = ["../../x", "</svg>", "=1+1", "", " ", ".", "..", ".hidden", "a/b", "a\\b", "C:", "\x00", "\x1b[31m", "W" * 10_000,
           "CON", "nul", "Com1", "lpt9.x", "aux.", "NUL.tar.gz", "W1 ", "W1.", "W1*", "\U0001f600" * 200, "é" * 200, "\ud800"]  # fmt: skip
# reserved under Windows whatever follows the first dot: Microsoft, 'Naming Files, Paths, and Namespaces' (from memory)
DEVICES = {"con", "prn", "aux", "nul", "com1", "lpt9"}


@pytest.mark.parametrize("mark", ["W1", "007", "K-2_b", "W1.2", "Küche-3"])
def test_an_ordinary_mark_is_its_own_file_name(mark):
    assert file_name(mark) == mark


@pytest.mark.parametrize("mark", HOSTILE)
def test_a_hostile_mark_stays_in_its_folder_and_changes(mark):
    name = file_name(mark)
    assert name != mark
    assert_safe(name)


@given(st.text(max_size=300))
def test_any_mark_gives_a_safe_name(mark):
    assert_safe(file_name(mark))


@given(st.text(max_size=20), st.text(max_size=20))
def test_different_marks_give_different_names_except_for_unchanged_ones_in_capitals(one, other):
    if one != other and folded(file_name(one)) == folded(file_name(other)):
        assert file_name(one) == one or file_name(other) == other


def assert_safe(name):
    assert name
    assert not name.startswith(".")
    assert not name.endswith((".", " "))
    assert len(name) <= 80
    assert len(f"{name}.svg".encode()) <= 255
    assert all(c.isalnum() or c in "-_." for c in name)
    assert posixpath.basename(name) == ntpath.basename(name) == name
    assert name.split(".")[0].casefold() not in DEVICES
