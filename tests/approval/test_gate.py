"""What is held back from the factory, and what is let through with a warning."""

import pytest

from elevations import pipeline
from elevations.approval.gate import hold_back, warning
from elevations.approval.state import approval_state, approve
from elevations.errors import SpecError

JOB = """\
job: {revision: A}
glass: {clear: {make_up: 4/20/4}}
windows:
  - {mark: W1, frame: {width: 700, height: 900}, lights: [{light: fixed}]}
  - {mark: W2, frame: {width: 700, height: 900}, lights: [{light: fixed}]}
  - {mark: W3, frame: {width: 700, height: 900}, lights: [{light: fixed}]}
"""


@pytest.fixture
def states(tmp_path):
    """W1 approved, W2 changed since, W3 not approved."""
    file = tmp_path / "job.yaml"
    file.write_text(JOB, "utf-8")
    loaded = pipeline.read(str(file))
    approve(loaded, list(pipeline.windows(loaded, ["W1", "W2"])), "A. Towpath", "2026-10-20")
    file.write_text(JOB.replace("W2, frame: {width: 700", "W2, frame: {width: 701"), "utf-8")
    loaded = pipeline.read(str(file))
    return {window.mark: approval_state(loaded, window) for window in pipeline.windows(loaded)}


def test_every_window_whose_approval_does_not_hold_is_named_with_what_would_do(states):
    with pytest.raises(SpecError) as refused:
        hold_back(states.items())
    assert [problem.message for problem in refused.value.problems] == ["window W2 has changed since it was approved", "window W3 is not approved"]
    assert all("--unapproved" in problem.hint for problem in refused.value.problems)


def test_an_approved_window_passes(states):
    hold_back([("W1", states["W1"])])


def test_what_is_let_through_carries_a_warning(states):
    assert warning(states["W1"]) == ""
    assert warning(states["W2"]).startswith("NOT APPROVED: not to be made from (changed since approval 2026-10-20 (")
    assert warning(states["W3"]) == "NOT APPROVED: not to be made from"
