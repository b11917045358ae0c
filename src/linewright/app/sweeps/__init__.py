"""Sweeps of a design: prepared, run on several processors, kept while they run, tabulated."""

from linewright.app.sweeps.preparing import Job, Prepared, bench_of, prepare
from linewright.app.sweeps.running import Outcome, Request, Stopped, sweep

__all__ = ["Job", "Outcome", "Prepared", "Request", "Stopped", "bench_of", "prepare", "sweep"]
