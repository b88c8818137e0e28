"""What all tests share: the mark of those that open a drawing in another program, and how Hypothesis looks for examples."""

import os

from hypothesis import settings

# A change is accepted or not by the same examples; who develops sees new ones each time.
settings.register_profile("ci", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("ci")


def pytest_configure(config):
    config.addinivalue_line("markers", "readers: opens a drawing in a browser or another program; slower")
