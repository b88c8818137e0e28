"""What all tests share: the mark of those that open a drawing in another program, and how Hypothesis looks for examples."""

import os
import shutil

import pytest
from hypothesis import settings

# A change is accepted or not by the same examples; who develops sees new ones each time.
settings.register_profile("ci", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("ci")


def pytest_configure(config):
    config.addinivalue_line("markers", "readers: opens a drawing in a browser or another program; slower")


@pytest.fixture(scope="module")
def browser():
    """Debian's Chromium without a screen."""
    program = shutil.which("chromium")
    if not program:
        pytest.skip("chromium is not installed here")
    from playwright.sync_api import sync_playwright
    with sync_playwright() as play:
        running = play.chromium.launch(executable_path=program)
        yield running
        running.close()
