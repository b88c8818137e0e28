"""Many pieces of work over any executor of `concurrent.futures`: a bounded number in flight, results in order."""

from __future__ import annotations

import os
import signal
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from itertools import islice
from multiprocessing import get_context
from typing import TypeVar

Piece = TypeVar("Piece")
Result = TypeVar("Result")

AHEAD = 2
"""Pieces handed out for each worker: one at work, one waiting."""


class WorkerLostError(RuntimeError):
    """A worker process ended without an answer: killed, or out of memory."""


def chunks(items: Iterable[Piece], size: int) -> Iterator[tuple[Piece, ...]]:
    """The items in runs of `size`, the last one shorter."""
    items = iter(items)
    while run := tuple(islice(items, size)):
        yield run


def in_order(work: Callable[[Piece], Result], pieces: Iterable[Piece], executor: Executor, workers: int) -> Iterator[Result]:
    """Each piece's result, in the order of the pieces, however many workers there are.

    Only `submit` is asked of the executor, so a cluster's will do as well. What `work` raises is raised here, and
    pieces not yet begun are then dropped. Raises WorkerLostError where a worker process died.
    """
    waiting: deque[Future[Result]] = deque()
    pieces = iter(pieces)
    try:
        while True:
            for piece in islice(pieces, AHEAD * workers - len(waiting)):
                waiting.append(executor.submit(work, piece))
            if not waiting:
                return
            yield waiting.popleft().result()
    except BrokenProcessPool as error:
        raise WorkerLostError("a worker process ended without an answer; it may have run out of memory") from error
    finally:
        for future in waiting:
            future.cancel()


def process_pool(workers: int) -> ProcessPoolExecutor:
    """A pool whose processes start fresh, as they must on some systems, and leave Ctrl-C to their parent."""
    return ProcessPoolExecutor(workers, mp_context=get_context("spawn"), initializer=_leave_interrupts)


def usable_cores() -> int:
    """Processors that this process may use."""
    affinity = getattr(os, "sched_getaffinity", None)
    return len(affinity(0)) if affinity else os.cpu_count() or 1


def _leave_interrupts() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)
