"""Rows judged in this process, or in several that are started afresh and end with it."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from multiprocessing import connection, get_context, parent_process
from threading import Thread, current_thread, main_thread

from linewright.app.sweeps.preparing import Job, bench_of
from linewright.explore.sweeps import Bench, Row, judge_row

#: Rows that one process judges before it reports.
PORTION = 8
#: Fewer rows for each process are not worth its start.
WORTH_STARTING = 200


def usual_workers(rows: int) -> int:
    """How many processes so many rows are worth, on this machine."""
    return max(1, min(os.cpu_count() or 1, rows // WORTH_STARTING))


def judged(job: Job, bench: Bench, rows: Sequence[int], workers: int) -> Iterator[list[Row]]:
    """Give every row, in whatever order they are done, some at once."""
    portions = [rows[at : at + PORTION] for at in range(0, len(rows), PORTION)]
    if workers == 1:
        for portion in portions:
            yield [judge_row(bench, row) for row in portion]
        return
    yield from _in_processes(job, portions, min(workers, len(portions)))


def _in_processes(job: Job, portions: list[Sequence[int]], workers: int) -> Iterator[list[Row]]:
    executor = ProcessPoolExecutor(workers, mp_context=get_context("spawn"), initializer=_begin, initargs=(job,))
    left = iter(portions)
    waiting: set[Future[list[Row]]] = set()
    try:
        for _, portion in zip(range(2 * workers), left, strict=False):
            waiting.add(_submit(executor, portion))
        while waiting:
            done, waiting = wait(waiting, return_when=FIRST_COMPLETED)
            for future in done:
                yield future.result()
                portion = next(left, ())
                if portion:
                    waiting.add(_submit(executor, portion))
    finally:
        executor.shutdown(wait=True, cancel_futures=True)


def _submit(executor: ProcessPoolExecutor, portion: Sequence[int]) -> Future[list[Row]]:
    """Hand a portion over, which may start a process: one that starts is deaf to Ctrl-C, as this one hears it."""
    if current_thread() is not main_thread():
        return executor.submit(_portion, portion)
    heard = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        return executor.submit(_portion, portion)
    finally:
        signal.signal(signal.SIGINT, heard)


_BENCH: list[Bench] = []


def _begin(job: Job) -> None:
    """Make the bench of this process, leave stopping to the one that started it, and end when that has ended."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_parent, daemon=True).start()
    _BENCH.append(bench_of(job))


def _end_with_parent() -> None:
    parent = parent_process()
    if parent is not None:
        connection.wait([parent.sentinel])
        os._exit(1)


def _portion(rows: Sequence[int]) -> list[Row]:
    return [judge_row(_BENCH[0], row) for row in rows]
