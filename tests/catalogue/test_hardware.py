"""Hardware, reinforcement and drainage of a system file: what is read, and what is said about faulty ones."""

import pytest

from elevations.catalogue.load import find_system
from elevations.catalogue.reading import read_system
from tests.catalogue.test_systems import LEAST

ITEM = "{item: A, kind: stay, for: [side-hung], sash_width: [300, 600], sash_height: [200, 900], mass: 20, quantity: 2, takes: 40}"


def read(more, folder):
    return read_system(LEAST + more, "own.yaml", folder)


def test_a_system_without_them_is_whole(tmp_path):
    system = read("", tmp_path).system
    assert (system.hardware, system.reinforcement, system.drainage, system.pressure_holes) == ((), None, None, None)


def test_every_figure_of_an_item_is_read(tmp_path):
    (item,) = read(f"hardware:\n  - {ITEM}\n", tmp_path).system.hardware
    assert (item.item, item.kind, item.title, item.openings) == ("A", "stay", "A", ("side-hung",))
    assert (item.width_mm, item.height_mm, item.mass_kg, item.quantity, item.takes_mm) == ((300, 600), (200, 900), 20, 2, 40)


def test_an_item_without_limits_fits_every_sash(tmp_path):
    (item,) = read("hardware: [{item: H, kind: handle, for: side-hung}]\n", tmp_path).system.hardware
    assert (item.width_mm, item.height_mm, item.mass_kg, item.quantity) == ((0, 6000), (0, 6000), None, 1)


def test_the_rules_for_steel_and_water_are_read(tmp_path):
    system = read(
        "reinforcement: {set_back: 12, white_from: 850}\ndrainage: {slot: 30 x 5, from_end: 80, spacing: 600}\n"
        "pressure_holes: {slot: 8 round, from_end: 60}\n", tmp_path).system
    assert (system.reinforcement.set_back_mm, system.reinforcement.white_from_mm) == (12, 850)
    assert (system.drainage.slot, system.drainage.from_end_mm, system.drainage.spacing_mm) == ("30 x 5", 80, 600)
    assert (system.pressure_holes.from_end_mm, system.pressure_holes.spacing_mm) == (60, None)
    assert (system.drainage.move_mm, system.drainage.offset_mm, system.drainage.rebates, system.drainage.clear_of) == (None, None, (), ())


def test_what_slots_keep_clear_of_is_read(tmp_path):
    more = "drainage: {from_end: 80, move: 90, offset: -60, rebates: hung, clear_of: {corner: 100, fixing: 40}}\n"
    rule = read(more, tmp_path).system.drainage
    assert (rule.move_mm, rule.offset_mm, rule.rebates) == (90, -60, ("hung",))
    assert (rule.clear_of_mm("fixing"), rule.clear_of_mm("corner"), rule.clear_of_mm("bar")) == (40, 100, 0)


@pytest.mark.parametrize(("more", "code", "words"), [
    ("hardware: handles\n", "not-a-list", "'hardware' must be a list of items, not 'handles'"),
    ("hardware: [3]\n", "not-a-block", "must be a block of keys, not '3'"),
    ("hardware: [null]\n", "not-a-block", "is empty"),
    ("hardware: [{item: A, kind: stay, for: [side-hung], wide: 3}]\n", "unknown-key", "'wide' has no meaning"),
    ("hardware: [{kind: stay, for: [side-hung]}]\n", "missing-key", "needs 'item'"),
    ("hardware: [{item: A, for: [side-hung]}]\n", "missing-key", "needs 'kind'"),
    ("hardware: [{item: A, kind: stay}]\n", "missing-key", "needs 'for'"),
    ("hardware: [{item: A, kind: stay, for: [sidehung]}]\n", "unknown-word", "'sidehung', which is no way of opening"),
    ("hardware: [{item: A, kind: stay, for: [fixed]}]\n", "unknown-word", "'fixed'"),
    ("hardware: [{item: A, kind: stay, for: side-hung, sash_width: 300}]\n", "not-a-range", "'sash_width' is '300'; it is two lengths"),
    ("hardware: [{item: A, kind: stay, for: side-hung, sash_width: [600, 300]}]\n", "out-of-range", "runs from 600 to 300"),
    ("hardware: [{item: A, kind: stay, for: side-hung, sash_height: [a, 300]}]\n", "not-a-number", "'a', not a number"),
    ("hardware: [{item: A, kind: stay, for: side-hung, mass: 0}]\n", "out-of-range", "'mass' is 0"),
    ("hardware: [{item: A, kind: stay, for: side-hung, quantity: 1.5}]\n", "not-whole", "'quantity' is 1.5"),
    ("hardware: [{item: A, kind: stay, for: side-hung, only: fire}]\n", "unknown-word", "'only' is 'fire'"),
    ("hardware: [{item: A, kind: stay, for: side-hung, at: 150}]\n", "not-a-block", "'at' must be a block"),
    ("hardware: [{item: A, kind: stay, for: side-hung, at: {on: hinges, from_end: 9}}]\n", "unknown-word", "'on' is 'hinges'"),
    ("hardware: [{item: A, kind: stay, for: side-hung, at: {on: hinge}}]\n", "missing-key", "needs 'from_end'"),
    ("hardware: [{item: A, kind: stay, for: side-hung, at: {on: hinge, from_end: 90, piece: glass}}]\n", "unknown-word", "'piece' is 'glass'"),
    ("hardware: [{item: A, kind: stay, for: side-hung, at: {on: hinge, from_end: 90, spacing: 3}}]\n", "out-of-range", "'spacing' is 3"),
    ("reinforcement: 10\n", "not-a-block", "'reinforcement' must be a block"),
    ("reinforcement: {white_from: 900}\n", "missing-key", "needs 'set_back'"),
    ("reinforcement: {set_back: -1}\n", "out-of-range", "'set_back' is -1"),
    ("reinforcement: {set_back: 10, screws: {from_end: 50}}\n", "missing-key", "needs 'spacing'"),
    ("reinforcement: {set_back: 10, screws: {from_end: 50, spacing: 300, clear_of: {sash: 4}}}\n", "unknown-key", "'sash' has no meaning"),
    ("drainage: {slot: 30 x 5}\n", "missing-key", "needs 'from_end'"),
    ("drainage: {from_end: 80, spacing: 5}\n", "out-of-range", "'spacing' is 5"),
    ("drainage: {from_end: 80, move: -1}\n", "out-of-range", "'move' is -1"),
    ("drainage: {from_end: 80, rebates: [glased]}\n", "unknown-word", "'rebates' names 'glased'"),
    ("drainage: {from_end: 80, clear_of: {screw: 3}}\n", "unknown-key", "'screw' has no meaning in 'clear_of'"),
    ("drainage: {from_end: 80, clear_of: {bar: wide}}\n", "not-a-number", "'bar' is 'wide'"),
    ("pressure_holes: {from_end: 80, clear_of: 40}\n", "not-a-block", "'clear_of' must be a block"),
])
def test_each_fault_has_its_own_words_and_line(more, code, words, tmp_path):
    found = read(more, tmp_path)
    assert found.system is None
    assert [problem.code for problem in found.problems] == [code]
    assert words in found.problems[0].message
    assert found.problems[0].place.line == LEAST.count("\n") + 1


def test_the_built_in_systems_serve_every_common_opening():
    for name in ("flush-70", "lipped-70"):
        system = find_system(name)
        served = {opening for item in system.hardware for opening in item.openings}
        assert {"side-hung", "top-hung", "bottom-hung", "tilt-and-turn"} <= served
        assert len({item.item for item in system.hardware}) == len(system.hardware)
        assert system.reinforcement
        assert system.drainage


def test_how_far_hardware_opens_is_read_and_held_to_half_a_turn(tmp_path):
    (item,) = read("hardware: [{item: H, kind: hinge, for: side-hung, opens: 95}]\n", tmp_path).system.hardware
    assert item.opens_degrees == 95
    (problem,) = read("hardware: [{item: H, kind: hinge, for: side-hung, opens: 270}]\n", tmp_path).problems
    assert problem.code == "out-of-range"


def test_declared_figures_of_the_frame_are_read(tmp_path):
    assert read("u_f: 1.3\n", tmp_path).system.u_f_w_m2k == {"frame": 1.3}
    system = read("u_f: {frame: 1.3, frame+sash: 1.4, mullion: 1.5}\nmodulus: 11000\n", tmp_path).system
    assert system.u_f_w_m2k == {"frame": 1.3, "frame+sash": 1.4, "mullion": 1.5}
    assert system.modulus_n_mm2 == 11000


@pytest.mark.parametrize(("more", "code"), [
    ("u_f: 0\n", "out-of-range"), ("u_f: low\n", "not-a-number"), ("u_f: {sash: 1.2}\n", "unknown-key"), ("u_f: {frame: -1}\n", "out-of-range"),
    ("modulus: 11\n", "out-of-range"),
])  # fmt: skip
def test_impossible_figures_of_the_frame_are_refused(more, code, tmp_path):
    assert [p.code for p in read(more, tmp_path).problems] == [code]
