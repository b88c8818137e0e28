"""A folder with the old state of a job in it."""

from pathlib import Path

import pytest

from tests.compare.states import OLD


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("old.yaml").write_text(OLD, "utf-8")
    return tmp_path
