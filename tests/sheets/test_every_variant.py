"""Every way to open under every frame shape in every format: drawn, or refused in words. Which one is the table here."""

import pytest
import yaml

from elevations.catalogue.load import find_system
from elevations.errors import SpecError
from elevations.export import FORMATS
from elevations.geometry.resolve import resolve_job
from elevations.openings import OPENINGS
from elevations.shapes import SHAPES
from elevations.sheets.factory import factory_sheets
from elevations.spec.load import parse_job

FRAME = {"frame": {"width": 1000, "height": 1500}}
HEADS = {
    "rectangular": FRAME,
    "raked": {**FRAME, "head": {"raked": {"left": 1100, "right": 1500}}},
    "segmental": {**FRAME, "head": {"arched": {"rise": 200}}},
    "semicircular": {**FRAME, "head": {"arched": {"rise": 500}}},
    "half round": {"frame": {"width": 1400, "height": 700}, "head": {"arched": {"rise": 700}}},
    "pointed": {**FRAME, "head": {"pointed": {"rise": 800}}},
    "gable": {**FRAME, "head": {"gable": {"apex": 400, "eaves": 900}}},
    "circular": {"circular": {"diameter": 1000}},
}
ROWS = {
    # How it opens, alone in the frame: which heads refuse it. All the others draw it.
    "fixed": set(),
    "side-hung": {"half round", "circular"},
    "top-hung": {"raked", "segmental", "semicircular", "half round", "pointed", "gable", "circular"},
    "bottom-hung": {"circular"},
    "tilt-and-turn": {"half round", "circular"},
    "side-hung-pair": {"half round", "circular"},
    "horizontal-pivot": {"half round", "pointed", "circular"},
    "sliding": {"raked", "segmental", "semicircular", "half round", "pointed", "gable", "circular"},
    "vertical-sliding": {"raked", "segmental", "semicircular", "half round", "pointed", "gable", "circular"},
    "vertical-pivot": {"raked", "segmental", "semicircular", "half round", "pointed", "gable", "circular"},
}
SYSTEMS = {"": "flush-70", "pair": "flush-70", "pivot": "pivot-68", "sliding": "slider-112"}
"""A built-in system that has the figures which a way of opening needs."""


def resolved(shape, opening):
    light = {"light": opening, **({"hinge": "left"} if OPENINGS[opening].takes_hinge else {})}
    window = {"mark": "W1", **HEADS[shape], "system": SYSTEMS[OPENINGS[opening].needs], "lights": [light]}
    data = {"glass": {"clear": {"make_up": "4/20/4"}}, "windows": [window]}
    job = parse_job(yaml.safe_dump(data, sort_keys=False), "job.yaml").job
    return job, resolve_job(job, find_system)[0]


def test_the_table_has_every_way_to_open_and_every_shape():
    assert set(ROWS) == set(OPENINGS)
    used = {key for head in HEADS.values() for key in (head.get("head") or {})} | {key for head in HEADS.values() for key in head}
    assert set(SHAPES) <= used


@pytest.mark.parametrize("opening", ROWS)
@pytest.mark.parametrize("shape", HEADS)
def test_every_opening_under_every_shape_in_every_format_is_drawn_or_refused_in_words(shape, opening):
    if shape in ROWS[opening]:
        with pytest.raises(SpecError) as caught:
            resolved(shape, opening)
        (problem,) = caught.value.problems
        assert problem.code == "shape-cannot-open"
        assert opening in problem.message
        assert problem.hint
        return
    job, window = resolved(shape, opening)
    styles = tuple(dict.fromkeys(kind.layout for kind in FORMATS.values()))
    sheets = factory_sheets(window, job, styles)
    for kind in FORMATS.values():
        assert len(kind.write(sheets[kind.layout])) > 10_000
