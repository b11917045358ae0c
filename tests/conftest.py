"""What holds for all tests."""

from hypothesis import settings

# Time per example says nothing on a shared machine; what is slow shows in the benchmarks.
settings.register_profile("linewright", deadline=None, print_blob=True)
settings.load_profile("linewright")
