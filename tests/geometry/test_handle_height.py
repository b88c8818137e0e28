import pytest

from elevations.errors import SpecError
from tests.jobs import window_of

JOB = "frame: {{width: 1200, height: 1050}}\nlights: [{{light: side-hung, hinge: left, handle_height: {}}}]"


def test_a_handle_above_its_sash_is_told_at_its_key():
    with pytest.raises(SpecError) as caught:
        window_of(JOB.format(1500))
    (problem,) = caught.value.problems
    assert problem.code == "handle-off-sash"
    assert f"{1050 - 2 * 43} high" in problem.message
    assert problem.path[-1] == "handle_height"


def test_a_handle_on_its_sash_is_taken():
    assert window_of(JOB.format(963)).lights[0].spec.handle_height == 963
