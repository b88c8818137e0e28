"""Many windows over many processes: the same files, in the same order, whatever the number."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from concurrent.futures import Executor, Future, ThreadPoolExecutor
from pathlib import Path

import pytest

from elevations import pipeline
from elevations.batch import WorkerLostError, chunks, in_order, process_pool
from elevations.export.files import OthersFilesError
from elevations.sheets.readers import Standing
from elevations.spec.load import parse_job

JOB = "glass: {clear: {make_up: 4/20/4}}\nwindows:\n" + "".join(
    f"  - {{mark: W{i}, frame: {{width: {600 + i}, height: 900}}, lights: [{{light: top-hung}}]}}\n" for i in range(20)
)


class AtOnce(Executor):
    """Does each piece when it is handed in, and remembers how many were waiting at most."""

    def __init__(self):
        self.open, self.most = 0, 0

    def submit(self, work, /, *arguments, **named):
        future = Future()
        future.set_result(work(*arguments, **named))
        self.open += 1
        self.most = max(self.most, self.open)
        return future


def test_chunks_hold_everything_once():
    assert list(chunks(range(7), 3)) == [(0, 1, 2), (3, 4, 5), (6,)]


def test_no_more_pieces_are_out_than_twice_the_workers():
    executor = AtOnce()
    for _ in in_order(abs, range(-50, 0), executor, workers=2):
        executor.open -= 1
    assert executor.most <= 4


def test_results_come_in_the_order_of_the_pieces():
    import time

    def slow_first(number):
        time.sleep(0.05 if number == 0 else 0)
        return number

    with ThreadPoolExecutor(4) as pool:
        assert list(in_order(slow_first, range(8), pool, workers=4)) == list(range(8))


def test_what_a_piece_raises_is_raised_and_the_rest_is_dropped():
    with ThreadPoolExecutor(1) as pool, pytest.raises(ZeroDivisionError):
        list(in_order(lambda n: 1 / n, [1, 0, 2, 3], pool, workers=1))


def test_a_dead_worker_is_said_in_words():
    with process_pool(1) as pool, pytest.raises(WorkerLostError, match="worker process"):
        list(in_order(os._exit, [7], pool, workers=1))


def test_files_do_not_depend_on_the_number_of_processes(tmp_path):
    loaded = parse_job(JOB, "job.yaml")
    one = pipeline.Order((), ("dxf", "svg"), tmp_path / "one")
    two = pipeline.Order((), ("dxf", "svg"), tmp_path / "two")
    alone = [path.name for path in pipeline.draw(loaded, one, workers=1)]
    with process_pool(2) as pool:
        shared = [path.name for path in pipeline.draw(loaded, two, workers=2, executor=pool)]
    assert alone == shared == [f"W{i}.{kind}" for i in range(20) for kind in ("dxf", "svg")]
    for name in alone:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_a_worker_that_meets_somebody_elses_file_says_so(tmp_path, monkeypatch):
    loaded = parse_job(JOB, "job.yaml")
    (tmp_path / "W3.svg").write_text("not ours", "utf-8")
    piece = pipeline.Piece(
        pipeline.Order((), ("svg",), tmp_path), loaded.job.model_copy(update={"windows": ()}),
        ((3, loaded.job.windows[3], Standing()),), ".", "a job",
    )
    with process_pool(1) as pool, pytest.raises(OthersFilesError) as caught:
        list(in_order(pipeline.draw_piece, [piece], pool, workers=1))
    assert caught.value.paths == [tmp_path / "W3.svg"]
    assert Path(tmp_path / "W3.svg").read_text("utf-8") == "not ours"


def test_ctrl_c_stops_without_a_traceback_and_leaves_whole_files(tmp_path):
    (tmp_path / "job.yaml").write_text(JOB.replace("windows:\n", "windows:\n" + "".join(
        f"  - {{mark: V{i}, frame: {{width: 900, height: 900}}, lights: [{{light: top-hung}}]}}\n" for i in range(300)
    )), "utf-8")
    running = subprocess.Popen(
        [sys.executable, "-m", "elevations.cli", "draw", "job.yaml", "--format", "svg", "--jobs", "2"], cwd=tmp_path,
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True,
        env={**os.environ, "PYTHONPATH": str(Path(__file__).resolve().parents[2]), "PYTHONUNBUFFERED": "1"},
    )
    first = running.stdout.readline()
    os.killpg(running.pid, signal.SIGINT)   # the whole group, as a terminal does
    _, errors = running.communicate(timeout=60)
    assert first.rstrip().endswith(b"V0.svg")
    assert (running.returncode, errors) == (130, b"stopped; files already named are whole\n")
    files = list((tmp_path / "drawings").iterdir())
    assert 0 < len(files) < 320
    assert all(path.suffix == ".svg" and path.read_text("utf-8").rstrip().endswith("</svg>") for path in files)
