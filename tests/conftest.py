"""Settings for all tests: property tests are repeatable and not timed."""

from hypothesis import settings

settings.register_profile("repeatable", deadline=None, derandomize=True)
settings.load_profile("repeatable")

collect_ignore = ["fuzz_guided.py"]  # run by hand, it finds fuzz.py beside it
