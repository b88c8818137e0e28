"""The folder that commands are typed in."""

from __future__ import annotations

import pytest

from tests.commands.typed import JOB


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.yaml").write_text(JOB, "utf-8")
    return tmp_path
