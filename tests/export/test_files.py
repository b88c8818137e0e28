import os
import stat
import subprocess
import sys

import pytest

from elevations.export import FORMATS
from elevations.export.files import NotOurs, may_replace, write_whole
from tests.export.sample import sample_sheet

OURS = b"999\nDrawn by elevations\n"


def names_in(folder):
    return [entry.name for entry in folder.iterdir()]


def test_a_missing_folder_is_made(tmp_path):
    write_whole(tmp_path / "a" / "b" / "W1.dxf", OURS)
    assert (tmp_path / "a" / "b" / "W1.dxf").read_bytes() == OURS


def test_our_own_file_is_replaced(tmp_path):
    file = tmp_path / "W1.dxf"
    write_whole(file, OURS)
    write_whole(file, OURS + b"2")
    assert file.read_bytes() == OURS + b"2"


def test_somebody_elses_file_stays_and_the_words_name_it(tmp_path):
    file = tmp_path / "W1.dxf"
    file.write_bytes(b"their drawing")
    with pytest.raises(NotOurs, match=r"W1\.dxf is there already"):
        write_whole(file, OURS)
    assert file.read_bytes() == b"their drawing"
    assert "--force" in NotOurs.hint


def test_force_replaces_any_file(tmp_path):
    file = tmp_path / "W1.dxf"
    file.write_bytes(b"their drawing")
    write_whole(file, OURS, force=True)
    assert file.read_bytes() == OURS


def test_a_marker_far_down_does_not_make_a_file_ours(tmp_path):
    file = tmp_path / "notes.txt"
    file.write_bytes(b"x" * 600 + OURS)
    assert not may_replace(file)


def test_an_empty_file_is_not_ours(tmp_path):
    (tmp_path / "W1.svg").touch()
    assert not may_replace(tmp_path / "W1.svg")


def test_a_folder_of_the_same_name_is_refused_even_by_force(tmp_path):
    (tmp_path / "W1.dxf").mkdir()
    with pytest.raises(IsADirectoryError):
        write_whole(tmp_path / "W1.dxf", OURS, force=True)
    assert names_in(tmp_path) == ["W1.dxf"]


def test_a_pipe_of_the_same_name_is_not_read(tmp_path):
    os.mkfifo(tmp_path / "W1.dxf")
    with pytest.raises(NotOurs):
        write_whole(tmp_path / "W1.dxf", OURS)


def test_a_link_is_replaced_and_what_it_points_to_stays(tmp_path):
    (tmp_path / "far").mkdir()
    (tmp_path / "far" / "kept.dxf").write_bytes(OURS)
    (tmp_path / "W1.dxf").symlink_to(tmp_path / "far" / "kept.dxf")
    write_whole(tmp_path / "W1.dxf", OURS + b"new")
    assert (tmp_path / "far" / "kept.dxf").read_bytes() == OURS
    assert (tmp_path / "W1.dxf").read_bytes() == OURS + b"new"


@pytest.mark.parametrize("error", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_a_failure_on_the_way_leaves_the_old_file_and_nothing_beside_it(tmp_path, monkeypatch, error):
    file = tmp_path / "W1.dxf"
    write_whole(file, OURS)

    def fail(*_):
        raise error

    monkeypatch.setattr("pathlib.Path.replace", fail)
    with pytest.raises(type(error)):
        write_whole(file, OURS + b"new")
    assert file.read_bytes() == OURS
    assert names_in(tmp_path) == ["W1.dxf"]


def test_a_name_too_long_for_the_system_leaves_nothing(tmp_path):
    with pytest.raises(OSError, match="name too long"):
        write_whole(tmp_path / ("W" * 300 + ".dxf"), OURS)
    assert names_in(tmp_path) == []


def test_the_file_gets_the_permissions_of_any_new_file(tmp_path):
    (tmp_path / "other").touch()
    write_whole(tmp_path / "W1.dxf", OURS)
    assert stat.S_IMODE((tmp_path / "W1.dxf").stat().st_mode) == stat.S_IMODE((tmp_path / "other").stat().st_mode)


@pytest.mark.parametrize("key", list(FORMATS))
def test_what_each_format_writes_is_known_as_ours(tmp_path, key):
    form = FORMATS[key]
    assert form.key == key
    file = tmp_path / ("W1" + form.suffix)
    write_whole(file, form.write(sample_sheet()))
    assert may_replace(file)


def test_listing_the_formats_imports_no_writer():
    code = "import sys, elevations.export; print(sorted({'ezdxf', 'svgwrite', 'numpy'} & set(sys.modules)))"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"
