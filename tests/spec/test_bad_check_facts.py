"""What users get wrong about the facts that only checks ask for. One row a mistake; and good ones, read."""

import pytest
from spec_jobs import GOOD, assert_told, of_lights, one, problems_of, rows

from elevations.spec.load import parse_job
from elevations.spec.wind import WindLoad

FIXED = "frame: {width: 1200, height: 1050}\nlights: [{light: fixed}]"


def building(text):
    return GOOD + f"building: {{{text}}}\n"


BUILDING = [
    ("wind as a word", building("wind: strong"), "not-a-wind-load", ["'strong'", "1200 Pa"], "13:18"),
    ("wind class D", building("wind: D3"), "not-a-wind-load", ["'D3'", "class"], "13:18"),
    ("class E too low", building("wind: CE1200"), "not-a-wind-load", ["CE1200"], "13:18"),
    ("negative wind", building("wind: -800"), "not-a-wind-load", ["'-800'"], "13:18"),
    ("wind in kPa", building("wind: 1.2"), "out-of-range", ["'wind'", "1.2 Pa", "100 to 10000"], "13:18"),
    ("no wind at all", building("wind: true"), "not-a-wind-load", ["'true'"], "13:18"),
    ("kind of work", building("work: repair"), "unknown-choice", ["replacement", "new-dwelling"], "13:18"),
    ("misspelt", building("ventilaton: natural"), "unknown-key", ["did you mean 'ventilation'"], "13:12"),
    ("building as text", GOOD + "building: cottage\n", "not-a-block", ["'building' must be a block"], "13:11"),
    ("wind of a window", one("wind: 12\n" + FIXED), "out-of-range", ["12 Pa"], "8:11"),
]

WINDOW = [
    ("storey", one("storey: attic\n" + FIXED), "unknown-choice", ["ground, upper"], "8:13"),
    ("drop upwards", one("drop: -200\n" + FIXED), "out-of-range", ["'drop'"], "8:11"),
    ("near what", one("near: [stair]\n" + FIXED), "unknown-choice", ["door, bath"], "8:12"),
    ("near as text", one("near: door\n" + FIXED), "not-a-list", ["near: [door]"], "8:11"),
    ("way out", one("room: {exit: window}\n" + FIXED), "unknown-choice", ["hall"], "8:18"),
    ("restrictor that is not there", of_lights("[{light: top-hung, restrictor_releases: true}]"), "not-wanted", ["restrictor: true"], "10:32"),
    ("fixed and opening", of_lights("[{light: fixed, opens_to: 90}]"), "not-wanted", ["does not open"], "10:29"),
    ("further than round", of_lights("[{light: top-hung, opens_to: 270}]"), "out-of-range", ["1 to 180 degrees"], "10:42"),
    ("half a clear opening", of_lights("[{light: top-hung, clear_opening: {width: 500}}]"), "missing-key", ["'height' is missing"], "10:32"),
]

GLASS = [
    ("negative emissivity", GOOD.replace("0.03", "-0.03"), "out-of-range", ["0.005 to 0.9"], "3:69"),
    ("a mirror", GOOD.replace("0.03", "0"), "out-of-range", ["0.005 to 0.9"], "3:69"),
    ("a gap of 2 mm", GOOD.replace("4/20/4,", "4/2/4,", 1), "make-up", ["cavity of 2 mm", "4 to 30"], "3:20"),
    ("coated twice", GOOD.replace("{face: 3, emissivity: 0.03}", "[{face: 3}, {face: 3}]"), "glass-face", ["face 3 is coated twice"], "3:66"),
    ("second face too far in", GOOD.replace("{face: 3, emissivity: 0.03}", "[{face: 3}, {face: 5}]"), "glass-face", ["no face 5"], "3:66"),
    ("second a mirror", GOOD.replace("{face: 3, emissivity: 0.03}", "[{face: 3}, {face: 2, emissivity: 0}]"), "out-of-range", ["0.005"], "3:81"),
    ("U of nothing", GOOD.replace("gas: argon", "u_value: 0"), "out-of-range", ["0.1 to 7 W/m2K"], "3:37"),
    ("negative ψ", GOOD.replace("gas: argon", "psi: -0.1"), "out-of-range", ["0 to 0.5 W/mK"], "3:33"),
    ("class of ordinary glass", GOOD.replace("gas: argon", "impact_class: 1"), "not-wanted", ["safety glass"], "3:28"),
    ("class of no glass", GOOD.replace("toughened: [outer, inner]", "toughened: [inner], impact_class: 4"), "out-of-range", ["1 to 3"], "4:61"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "code", "words", "where"), rows(BUILDING, WINDOW, GLASS))
def test_a_mistake_is_told_in_its_own_words_at_its_place(text, code, words, where):
    assert_told(text, code, words, where)


@pytest.mark.parametrize("text", [row[1] for row in BUILDING + WINDOW + GLASS])
def test_one_mistake_is_not_told_as_many(text):
    assert len(problems_of(text)) == 1


@pytest.mark.parametrize(("text", "pressure_pa", "limit", "limit_given"), [
    ("C3", 1200, "C", True), ("b2", 800, "B", True), ("AE2400", 2400, "A", True),
    ("1200", 1200, "B", False), ("1200 Pa", 1200, "B", False), ("850.5 Pa, C", 850.5, "C", True), ("800 class A", 800, "A", True),
])  # fmt: skip
def test_wind_is_read_as_a_pressure_or_a_class(text, pressure_pa, limit, limit_given):
    wind = parse_job(building(f'wind: "{text}"'), "job.yaml").job.building.wind
    assert isinstance(wind, WindLoad)
    assert (wind.pressure_pa, wind.limit, wind.limit_given) == (pressure_pa, limit, limit_given)
