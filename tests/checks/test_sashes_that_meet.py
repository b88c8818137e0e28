"""Two sashes that meet have no mullion between them: nobody may read silence as stiffness."""

import pytest

from elevations.checks.results import State
from tests.checks.cases import only


@pytest.mark.parametrize(("light", "system"), [
    ("side-hung-pair", "flush-70"), ("side-hung-pair", "lipped-70"), ("sliding", "slider-112"), ("vertical-sliding", "slider-112"),
])
def test_nothing_is_said_to_stand_the_wind_where_two_sashes_meet(light, system):
    found = only("wind", f"frame: {{width: 1300, height: 1300}}\nlights: [{{light: {light}}}]", system=system)
    assert (found.subject, found.state) == ("light 1", State.CANNOT_TELL)
    assert "where they meet" in found.message
