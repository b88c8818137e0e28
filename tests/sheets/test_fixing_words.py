"""Fixings in words and signs: from where they are measured, and whether a screw or a bracket holds there."""

from pathlib import Path

import pytest

from elevations import pipeline
from elevations.drawing.entities import Label, Symbol
from elevations.schedules.explain import KINDS
from elevations.schedules.fixings import fixing_rows
from elevations.sheets.factory import factory_sheet
from elevations.sheets.installer_words import holding
from elevations.sheets.key import marking_key
from elevations.sheets.words import fixings_words
from elevations.views.elevation import elevation
from elevations.views.marking_out import marking_out
from tests.jobs import window_of

LOADED = pipeline.read(str(Path(__file__).parents[2] / "specs" / "fit-walls.yaml"))
WINDOWS = {window.mark: window for window in pipeline.windows(LOADED)}


def shaped(head):
    return window_of(f"frame: {{width: 1000, height: 1400}}\nhead: {head}\nlights: [{{light: fixed}}]")


@pytest.mark.parametrize(("window", "end", "height"), [
    (shaped("{arched: {rise: 200}}"), "springing", 1200),     # 1400 - 200
    (shaped("{pointed: {rise: 900}}"), "springing", 500),     # 1400 - 900
    (shaped("{gable: {apex: 500, eaves: 900}}"), "eaves", 900),
    (window_of("frame: {width: 1000, height: 1400}\nlights: [{light: fixed}]"), "top", 1400),
], ids=["arched", "pointed", "gable", "rectangular"])
def test_fixings_of_a_jamb_are_measured_from_its_upper_end_and_say_what_that_is(window, end, height):
    first = next(point for point in window.fixings if point.side == "left jamb")
    assert first.at.y == pytest.approx(height - first.along.value)
    assert {row.measured_from for row in fixing_rows(window) if row.side.endswith("jamb")} == {end}
    assert any(f"from the {end}: {first.along.value:g}" in line for line in fixings_words(window))
    explained = KINDS["fixing"](window)[first.tag]()
    assert any(f"from its {end}" in size.name for size in explained.sizes)
    zeros = {(item.at.x, round(item.at.y, 1)) for group in marking_out(window, 10.0).groups for item in group.items if isinstance(item, Label) and item.text == "0"}
    assert any(y == pytest.approx(height) for _, y in zeros)


@pytest.mark.parametrize(("mark", "bracketed"), [
    ("W1", {"left jamb", "right jamb", "head", "sill"}), ("W2", {"head", "sill"}), ("W3", {"sill"}), ("W4", set()),
])
def test_brackets_have_a_sign_of_their_own_and_are_said_not_to_be_drilled(mark, bracketed):
    window = WINDOWS[mark]
    tags = {point.tag for point in window.fixings if point.side in bracketed}
    for view in (elevation(window, 10.0), marking_out(window, 10.0)):
        signs = [item for group in view.groups for item in group.items if isinstance(item, Symbol) and item.tag]
        assert {sign.tag for sign in signs if sign.name == "bracket"} == tags
        assert {sign.tag for sign in signs if sign.name == "fixing"} == {point.tag for point in window.fixings} - tags
    figures = [item.text for group in marking_out(window, 10.0).groups for item in group.items if isinstance(item, Label)]
    assert sum(text.removesuffix(" ?").endswith(" b") for text in figures) == len(tags)
    names = {"left jamb": ("left jamb", "jambs"), "right jamb": ("right jamb", "jambs"), "head": ("head",), "sill": ("sill",)}
    assert {row.side for row in fixing_rows(window) if row.by == "bracket"} == bracketed
    lines = fixings_words(window)
    for side, words in names.items():
        (line,) = [line for line in lines if any(word in line.partition(",")[0] for word in words)]
        assert line.endswith("; brackets, not drilled") == (side in bracketed)


@pytest.mark.parametrize("mark", WINDOWS)
def test_the_factorys_key_names_the_signs_that_its_elevation_shows(mark):
    window = WINDOWS[mark]
    words = {item.text for group in factory_sheet(window, LOADED.job, "paper").groups for item in group.items if isinstance(item, Label)}
    shown = {sign.name for group in elevation(window, 10.0).groups for sign in group.items if isinstance(sign, Symbol) and sign.tag}
    assert ("fixing point" in words) == ("fixing" in shown)
    assert ("bracket on the frame: not drilled" in words) == ("bracket" in shown)


def held_words(window):
    return " ".join(item.text for item in holding(window, 400.0).items if isinstance(item, Label))


@pytest.mark.parametrize(("spec", "mark", "said"), [
    ("fit-walls.yaml", "W1", "Brackets all round: no hole through the frame; 6 in the wall at jambs and sill; no drill in the wall at head."),
    ("fit-walls.yaml", "W2", "Drill 6.2 through the frame at jambs only; 6 in the wall at jambs and sill."),
    ("fit-walls.yaml", "W3", "Drill 6.2 through the frame at jambs and head only; 6.5 in the wall at head; 6 in the wall at jambs and sill."),
    ("fit-clash.yaml", "W2", "Drill nothing at jambs and head before it is settled what holds there."),
])
def test_drills_are_told_side_by_side_and_none_where_nothing_holds(spec, mark, said):
    """Brick and block 6, concrete 6.5, steel none: the table of anchors; common practice, no source."""
    (window,) = pipeline.windows(pipeline.read(str(Path(__file__).parents[2] / "specs" / spec)), [mark])
    assert said in held_words(window)


def test_a_wall_of_one_drill_all_round_is_said_once():
    wall = "wall: {material: concrete, thickness: 200, frame_at: 60}\nfinish: {outside: RAL 9016}\nlights: [{light: fixed}]"
    assert "Drill 6.2 through the frame; 6.5 in the wall. " in held_words(window_of("frame: {width: 1000, height: 1000}\n" + wall))


def test_marking_out_queries_the_places_where_nothing_holds_and_its_key_says_so():
    """The clash example's W2: screws in the cavity at jambs and head, brackets too short at the sill. W1: its lintel bars the head alone."""
    job = pipeline.read(str(Path(__file__).parents[2] / "specs" / "fit-clash.yaml"))
    for window, queried in zip(pipeline.windows(job), ({"head"}, {"left jamb", "right jamb", "head", "sill"}), strict=True):
        figures = [item.text for group in marking_out(window, 10.0).groups for item in group.items if isinstance(item, Label)]
        assert sum(text.endswith(" ?") for text in figures) == sum(point.side in queried for point in window.fixings)
        words = [item.text for item in marking_key(window, 80.0, 2.5, apex_at_hinge=True).items if isinstance(item, Label)]
        assert "?" in words
    (sound,) = pipeline.windows(LOADED, ["W4"])
    assert "?" not in [item.text for item in marking_key(sound, 80.0, 2.5, apex_at_hinge=True).items if isinstance(item, Label)]
