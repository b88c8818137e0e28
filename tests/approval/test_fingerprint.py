"""The fingerprint: the same for whatever changes only the paper, another for every change of the product."""

import re
from copy import deepcopy
from dataclasses import fields

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from elevations.approval import facts as facts_module
from elevations.approval.facts import fingerprint, product_facts
from elevations.catalogue.load import find_system
from elevations.catalogue.system import Profile, System
from elevations.geometry import window as resolved
from elevations.geometry.resolve import resolve_window
from elevations.spec import model
from elevations.spec.load import parse_job
from tests.properties.specs import job, windows

QUICK = settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])

BASE = """\
job: {reference: T-1, revision: A, site: Quillback Lock Cottage}
glass:
  clear: {make_up: 4/20/4, gas: argon, spacer: warm-edge, low_e: {face: 3, emissivity: 0.03}}
  other: {make_up: 4/20/4}
windows:
  - mark: W1
    location: Kitchen
    room: {use: kitchen, floor_area: 11.5}
    glass: clear
    frame: {width: 1810, height: 1213}
    floor_to_opening: 1040
    finish: {outside: RAL 7038, inside: RAL 9016}
    mullions: [600, 1200]
    lights:
      - {light: side-hung, hinge: left}
      - transoms: [350]
        lights:
          - {light: top-hung}
          - {light: fixed}
      - {light: side-hung, hinge: right}
  - {mark: W2, frame: {width: 500, height: 500}, glass: clear, lights: [{light: fixed}]}
"""


def print_of(data):
    """Fingerprint of the first window of a job, given as text or as data."""
    loaded = parse_job(data if isinstance(data, str) else yaml.safe_dump(data, sort_keys=False), "job.yaml")
    spec = loaded.job.windows[0]
    return fingerprint(product_facts(resolve_window(loaded.job, spec, ("windows", 0), find_system), spec, loaded.job.joined))


def changed(path, value):
    data = yaml.safe_load(BASE)
    block = data
    for step in path[:-1]:
        block = block[step]
    if value is REMOVED:
        del block[path[-1]]
    else:
        block[path[-1]] = value
    return data


REMOVED = type("Removed", (), {"__repr__": lambda _: "removed"})()   # named alike in every test process
W = ("windows", 0)
LEFT, FANLIGHT, FIXED = (*W, "lights", 0), (*W, "lights", 1, "lights", 0), (*W, "lights", 1, "lights", 1)
CLEAR = ("glass", "clear")

PRODUCT = [
    ((*W, "frame", "width"), 1811), ((*W, "frame", "width"), 1810.1), ((*W, "frame", "height"), 1212), ((*W, "system"), "lipped-70"),
    ((*W, "finish", "outside"), "RAL 7016"), ((*W, "finish", "inside"), "RAL 7038"), ((*W, "finish"), {"outside": "RAL 7038"}),
    ((*W, "mullions", 0), 601), ((*W, "mullions"), "equal-sight"), ((*W, "lights", 1, "transoms", 0), 355),
    ((*W, "fixings"), {"corner": 160}), ((*W, "fixings"), {"spacing": 450}), ((*W, "fixings"), {"clear_of_bars": 100}),
    ((*W, "fixings"), {"sides": ["left", "right"]}), ((*W, "glass"), "other"),
    ((*W, "fixings"), {"screw": {"frame_drill": 8}}), ((*W, "fixings"), {"bracket": {"sides": ["left"]}}),
    ((*W, "wall"), {"material": "brick", "thickness": 215, "frame_at": 60, "lintel": {"drilling": False}}), ((*W, "fit"), {"add_ons": {"head": 40}}),
    ((*W, "sill"), {"projection": 150}), (("joined",), [{"mark": "B", "way": "side-by-side", "windows": ["W1", "W2"]}]),
    ((*FIXED, "bars"), {"columns": 2}),
    (LEFT, {"light": "top-hung"}), ((*LEFT, "hinge"), "right"), ((*LEFT, "glass"), "other"), ((*LEFT, "handle_height"), 500),
    ((*LEFT, "escape"), True), ((*LEFT, "restrictor"), True), ((*FANLIGHT, "light"), "bottom-hung"), ((*FANLIGHT, "vent"), 4000),
    ((*FIXED, "sash"), "dummy"), ((*FIXED, "vent"), 2500), ((*FIXED, "light"), "top-hung"),
    ((*CLEAR, "make_up"), "6/16/6"), ((*CLEAR, "gas"), "krypton"), ((*CLEAR, "spacer"), "steel"), ((*CLEAR, "obscure"), "outer"),
    ((*CLEAR, "toughened"), ["outer"]), ((*CLEAR, "laminated"), ["inner"]), ((*CLEAR, "low_e", "face"), 2),
    ((*CLEAR, "low_e", "emissivity"), 0.04), ((*CLEAR, "gas"), REMOVED), ((*CLEAR, "low_e"), REMOVED),
]
PAPER = [
    ((*W, "mark"), "W9"), ((*W, "location"), "Scullery"), ((*W, "room"), REMOVED), ((*W, "floor_to_opening"), 900),
    (("job",), {"reference": "X", "revision": "Z", "client": "Somebody"}), (("drawing",), {"sheet": "A4", "symbol_apex": "lock"}),
    ((*LEFT, "swing"), "out"), ((*LEFT, "escape"), False), ((*W, "system"), "flush-70"), ((*W, "fixings"), {"corner": 150}),
    ((*W, "fixings"), {"bracket": {"reach": 200}}), ((*W, "wall"), {"material": "brick", "thickness": 215, "frame_at": 60}),
    ((*W, "storey"), "upper"), ((*W, "drop"), 2750), ((*W, "near"), ["door"]), ((*W, "guard"), 900), ((*W, "old_vent"), 0),
    ((*W, "air_leakage"), 0.02), ((*FIXED, "vent"), 0), ((*LEFT, "clear_opening"), {"width": 480, "height": 900}),
    ((*W, "glass"), "clear"), ((*FIXED, "glass"), "clear"), (("glass", "unused"), {"make_up": "4/16/4"}),
    ((*W, "frame", "width"), "1.81 m"), ((*W, "frame", "width"), 1810.0),
]


@pytest.mark.parametrize(("path", "value"), PRODUCT, ids=str)
def test_each_single_change_of_the_product_changes_the_fingerprint(path, value):
    assert print_of(changed(path, value)) != print_of(BASE)


def test_no_two_of_these_changes_share_a_fingerprint():
    prints = [print_of(changed(path, value)) for path, value in PRODUCT]
    assert len(set(prints)) == len(prints)


@pytest.mark.parametrize(("path", "value"), PAPER, ids=str)
def test_what_changes_only_the_paper_keeps_the_fingerprint(path, value):
    assert print_of(changed(path, value)) == print_of(BASE)


def test_comments_spacing_and_the_order_of_keys_keep_the_fingerprint():
    other = "# a comment\n\n" + BASE.replace("{light: side-hung, hinge: left}", "{ hinge:   left,  light: side-hung }   # left")
    assert print_of(other) == print_of(BASE)
    data = yaml.safe_load(BASE)
    assert print_of(yaml.safe_dump(data, sort_keys=True)) == print_of(BASE)


def test_the_name_of_a_make_up_and_where_it_is_chosen_keep_the_fingerprint():
    renamed = BASE.replace("clear:", "see-through:").replace("glass: clear", "glass: see-through")
    assert print_of(renamed) == print_of(BASE)
    by_default = BASE.replace("    glass: clear\n", "").replace(
        "windows:\n", "defaults: {glass: clear, finish: {outside: RAL 7038}}\nwindows:\n").replace("finish: {outside: RAL 7038, ins", "finish: {ins")
    assert by_default.count("RAL 7038") == 1
    assert print_of(by_default) == print_of(BASE)


def test_another_window_before_it_keeps_the_fingerprint():
    data = yaml.safe_load(BASE)
    extra = deepcopy(data["windows"][0]) | {"mark": "W0", "frame": {"width": 2000, "height": 1213}}
    loaded = parse_job(yaml.safe_dump({**data, "windows": [extra, data["windows"][0]]}), "job.yaml")
    spec = loaded.job.windows[1]
    assert fingerprint(product_facts(resolve_window(loaded.job, spec, ("windows", 1), find_system), spec)) == print_of(BASE)


def shuffled(data, value):
    """The same data with the keys of every block in another order."""
    if isinstance(value, dict):
        return {key: shuffled(data, value[key]) for key in data.draw(st.permutations(sorted(value)))}
    return [shuffled(data, item) for item in value] if isinstance(value, list) else value


@QUICK
@given(st.data(), windows())
def test_any_window_written_in_another_order_keeps_its_fingerprint(data, block):
    assert print_of(shuffled(data, job(block))) == print_of(job(block))


def leaves(value, here=()):
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, item in items:
        if isinstance(item, dict | list):
            yield from leaves(item, (*here, key))
        else:
            yield (*here, key), item


OTHER = {
    "hinge": {"left": "right", "right": "left"},
    "system": {"flush-70": "lipped-70", "lipped-70": "flush-70"},
    "sash": {"dummy": None},
}


@QUICK
@given(st.data(), windows())
def test_any_single_change_of_any_window_changes_its_fingerprint(data, block):
    """Walks every value that the block holds, and changes one of them to another that can be made."""
    path, value = data.draw(st.sampled_from([(p, v) for p, v in leaves(block) if p[-1] not in {"mark", "light", "swing"}]))
    other = OTHER.get(path[-1], {}).get(value) if isinstance(value, str) else value + data.draw(st.sampled_from([0.1, 1, 2.5]))
    made = deepcopy(block)
    holder = made
    for step in path[:-1]:
        holder = holder[step]
    if other is None:
        del holder[path[-1]]
    else:
        holder[path[-1]] = other
    assert print_of(job(made)) != print_of(job(block))


def test_a_changed_figure_or_outline_of_the_profile_system_changes_the_fingerprint(tmp_path):
    from elevations.catalogue.load import BUILT_IN
    text = (BUILT_IN / "flush-70.yaml").read_text("utf-8")

    def with_system(content):
        (tmp_path / "own.yaml").write_text(content, "utf-8")
        loaded = parse_job(BASE.replace("    frame:", "    system: own.yaml\n    frame:"), str(tmp_path / "job.yaml"))
        spec = loaded.job.windows[0]
        return fingerprint(product_facts(resolve_window(loaded.job, spec, ("windows", 0), lambda n: find_system(n, str(tmp_path))), spec))

    own = text.replace("system: flush-70", "system: own-70", 1)
    same = with_system(own + "\n# a comment\n")
    assert with_system(own) == same
    heavier = re.sub(r"kg_per_m: ([0-9.]+)", "kg_per_m: 9.9", own)
    assert heavier != own
    assert with_system(heavier) == same
    clearance = own.replace("edge_clearance: 5", "edge_clearance: 5.5")
    assert clearance != own
    assert with_system(clearance) != same


KNOWN = {
    model.Window: facts_module.ELSEWHERE_OF_A_WINDOW,
    model.Light: facts_module.ELSEWHERE_OF_A_LIGHT,
}


def test_every_key_held_back_from_the_facts_is_a_key_of_the_format_or_of_its_description():
    later = {"opening"}
    for block, held_back in KNOWN.items():
        assert held_back - later <= set(block.model_fields)


NO_FIGURES = {
    System: {"ways", "name", "title", "material", "depth", "swing", "thickness", "profiles", "bar_length", "demonstration", "origin", "u_f_w_m2k",
             "modulus_n_mm2", "glazing_bars", "frame_fixings", "strips", "bead_kg_per_m", "weeps"},
    Profile: {"name", "kg_per_m", "stock"},
}
"""Names, stock, weights, and what is a fact of its own."""


@pytest.mark.parametrize(("kind", "counted"), [
    (System, facts_module.FIGURES_OF_A_SYSTEM), (Profile, facts_module.FIGURES_OF_A_PROFILE),
])
def test_every_field_of_a_system_either_counts_or_is_known_not_to(kind, counted):
    """Whoever adds a field decides here, or in facts.py, whether another value of it makes another product."""
    assert {field.name for field in fields(kind)} == set(counted) | NO_FIGURES[kind]


KNOWN_OF_THE_WINDOW = {
    resolved.Window: {
        "mark", "path", "location", "system", "reversed", "finish", "width", "height", "frame", "frame_members", "bars", "lights", "fixed",
        "site_findings", "floor_to_opening", "notes", "site", "shape", "fixing_findings", "drained", "neighbours",
    },
    resolved.Light: {"number", "path", "spec", "region", "opening", "hinge", "swing", "fanlight", "words", "sashes", "panes"},
    resolved.Sash: {"tag", "light", "outer", "sight", "rails", "dummy", "hinge_edges", "leaf", "stile"},
    resolved.Pane: {"tag", "light", "make_up", "glass", "cut", "sight", "tight", "holder", "bars", "small_panes"},
}


@pytest.mark.parametrize("kind", list(KNOWN_OF_THE_WINDOW))
def test_every_field_of_a_resolved_window_has_been_thought_about(kind):
    """A new one: does another value of it make another product that no fact tells? Then facts.py needs it. List it here."""
    assert {field.name for field in fields(kind)} == KNOWN_OF_THE_WINDOW[kind]


def test_the_shape_of_the_head_changes_the_fingerprint():
    window = "  - {mark: W1, frame: {width: 900, height: 1200}, lights: [{light: fixed}]HEAD}\n"
    head = "glass: {clear: {make_up: 4/20/4}}\nwindows:\n"
    shapes = ["", ", head: {arched: {rise: 200}}", ", head: {arched: {rise: 210}}", ", head: {raked: {left: 900, right: 1200}}"]
    prints = {print_of(head + window.replace("HEAD", shape)) for shape in shapes}
    assert len(prints) == len(shapes)


def test_a_light_that_closes_against_another_is_not_what_it_was():
    """Facts carry their subject: the same values on another light are another product."""
    swapped = BASE.replace("hinge: left", "hinge: X").replace("hinge: right", "hinge: left").replace("hinge: X", "hinge: right")
    assert print_of(swapped) != print_of(BASE)


def test_a_wall_that_no_screw_holds_in_changes_the_frame_for_no_hole_is_drilled_then():
    """The frame 60 in a leaf of 103, its screws 95 from the face, 8 from the cavity: nearer than the 25 of the table of anchors."""
    cavity = {"material": "brick", "thickness": 103, "cavity": 100, "inner": 100, "frame_at": 60}
    assert print_of(changed((*W, "wall"), cavity)) != print_of(BASE)
    assert print_of(changed((*W, "wall"), {**cavity, "frame_at": 40, "lintel": {"kind": "concrete"}})) == print_of(BASE)
