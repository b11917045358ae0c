"""What holds for all tests."""

import gc

import pytest
from hypothesis import settings

# Time per example says nothing on a shared machine; what is slow shows in the benchmarks.
settings.register_profile("linewright", deadline=None, print_blob=True)
settings.load_profile("linewright")

# As rarely as the server does: tests hold many designs and sheets that live to the end, and each search for garbage
# looks at all of them. A third of the time of a run went by that way.
gc.set_threshold(100_000, 50, 100)


@pytest.hookimpl(trylast=True)
def pytest_collection_finish() -> None:
    """Leave what was loaded and collected out of every search for garbage: it lives to the end of the run."""
    gc.collect()
    gc.freeze()
