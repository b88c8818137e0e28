"""Packs to look at: the demonstration job's, and one of a hostile job."""

import json

import pytest

from tests.customer.packs import DEMO, HOSTILE, JOB, packed


@pytest.fixture(scope="module")
def page_file(tmp_path_factory):
    return packed(tmp_path_factory.mktemp("pack"), DEMO)


@pytest.fixture(scope="module")
def hostile_file(tmp_path_factory):
    folder = tmp_path_factory.mktemp("hostile")
    (folder / "job.yaml").write_text(JOB % {"hostile": json.dumps(HOSTILE)}, "utf-8")
    return packed(folder, folder / "job.yaml")
