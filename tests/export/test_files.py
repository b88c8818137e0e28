import os
import stat
import subprocess
import sys

import pytest

from elevations.export import FORMATS
from elevations.export.files import (
    CHANGED,
    NOT_OURS,
    OthersFilesError,
    why_not_replaced,
    write_file,
    write_files,
    write_whole,
)
from elevations.export.stamp import stamped
from tests.export.sample import sample_sheet

OURS = b"999\nDrawn by elevations\n  0\nSECTION\n  0\nENDSEC\n"
JOB, OTHER = "QL-07, Quillback Lock Cottage (cottage.yaml)", "QL-08, Lock keeper's hut (hut.yaml)"


def names_in(folder):
    return [entry.name for entry in folder.iterdir()]


def test_a_missing_folder_is_made(tmp_path):
    write_whole(tmp_path / "a" / "b" / "W1.dxf", OURS)
    assert (tmp_path / "a" / "b" / "W1.dxf").read_bytes() == OURS


def test_our_own_file_is_replaced(tmp_path):
    file = tmp_path / "W1.dxf"
    write_file(file, OURS, JOB, force=False)
    write_file(file, OURS + b"2", JOB, force=False)
    assert file.read_bytes() == stamped(OURS + b"2", JOB)


def test_somebody_elses_file_stays_and_the_words_name_it(tmp_path):
    file = tmp_path / "W1.dxf"
    file.write_bytes(b"their drawing")
    with pytest.raises(OthersFilesError, match=r"W1\.dxf: not written by this program"):
        write_file(file, OURS, JOB, force=False)
    assert file.read_bytes() == b"their drawing"
    assert "--force" in OthersFilesError.hint


def test_another_jobs_file_stays_and_the_words_name_that_job(tmp_path):
    file = tmp_path / "W1.dxf"
    write_file(file, OURS, OTHER, force=False)
    with pytest.raises(OthersFilesError, match=r"for another job, QL-08, Lock keeper's hut \(hut\.yaml\); this one is QL-07"):
        write_file(file, OURS, JOB, force=False)
    assert file.read_bytes() == stamped(OURS, OTHER)


def test_a_file_that_was_changed_since_stays(tmp_path):
    file = tmp_path / "W1.svg"
    write_file(file, b"<!-- Drawn by elevations -->\n<svg>1200</svg>", JOB, force=False)
    file.write_bytes(file.read_bytes().replace(b"1200", b"1201"))
    assert why_not_replaced(file, JOB) == CHANGED


def test_one_file_in_the_way_keeps_the_whole_set_from_being_written(tmp_path):
    (tmp_path / "W2.dxf").write_bytes(b"their drawing")
    with pytest.raises(OthersFilesError):
        list(write_files([(tmp_path / f"W{n}.dxf", OURS) for n in (1, 2, 3)], JOB, force=False))
    assert names_in(tmp_path) == ["W2.dxf"]


def test_a_folder_in_the_way_keeps_the_whole_set_from_being_written_even_by_force(tmp_path):
    (tmp_path / "W2.dxf").mkdir()
    with pytest.raises(IsADirectoryError):
        list(write_files([(tmp_path / f"W{n}.dxf", OURS) for n in (1, 2, 3)], JOB, force=True))
    assert names_in(tmp_path) == ["W2.dxf"]


def test_force_replaces_any_file(tmp_path):
    file = tmp_path / "W1.dxf"
    for theirs in (b"their drawing", stamped(OURS, OTHER), stamped(OURS, JOB) + b"changed"):
        file.write_bytes(theirs)
        write_file(file, OURS, JOB, force=True)
        assert file.read_bytes() == stamped(OURS, JOB)


def test_a_file_of_a_version_without_stamps_is_not_replaced_unasked(tmp_path):
    (tmp_path / "W1.dxf").write_bytes(OURS)
    assert why_not_replaced(tmp_path / "W1.dxf", JOB) == NOT_OURS


def test_an_empty_file_is_not_ours(tmp_path):
    (tmp_path / "W1.svg").touch()
    assert why_not_replaced(tmp_path / "W1.svg", JOB) == NOT_OURS


def test_a_folder_of_the_same_name_is_refused_even_by_force(tmp_path):
    (tmp_path / "W1.dxf").mkdir()
    with pytest.raises(IsADirectoryError):
        write_file(tmp_path / "W1.dxf", OURS, JOB, force=True)
    assert names_in(tmp_path) == ["W1.dxf"]


def test_a_pipe_of_the_same_name_is_not_read(tmp_path):
    os.mkfifo(tmp_path / "W1.dxf")
    with pytest.raises(OthersFilesError, match="no ordinary file"):
        write_file(tmp_path / "W1.dxf", OURS, JOB, force=False)


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
def test_what_each_format_writes_is_known_as_this_jobs_and_no_others(tmp_path, key):
    form = FORMATS[key]
    assert form.key == key
    file = tmp_path / ("W1" + form.suffix)
    write_file(file, form.write(sample_sheet()), JOB, force=False)
    assert why_not_replaced(file, JOB) is None
    assert JOB in why_not_replaced(file, OTHER)
    half = file.read_bytes()
    file.write_bytes(half[: len(half) // 2] + b"?" + half[len(half) // 2 :])
    assert why_not_replaced(file, JOB) == CHANGED


def test_listing_the_formats_imports_no_writer():
    code = "import sys, elevations.export; print(sorted({'ezdxf', 'svgwrite', 'numpy'} & set(sys.modules)))"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout == "[]\n"
