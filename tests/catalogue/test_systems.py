"""Systems by name and from a user's own file: what is read, and what is said about a faulty one."""

import copy
import json
import os
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from elevations.catalogue.load import BUILT_IN, builtin_names, find_system
from elevations.catalogue.reading import read_system
from elevations.catalogue.system import MEMBERS
from elevations.errors import SpecError
from elevations.yaml_source import read_document

LEAST = """\
material: timber
depth: 68
swing: in
sash_face: flush
members:
  frame:   {sight: 66, rebate: 46, sash: 43}
  mullion: {sight: 38, rebate: 18, sash: 15}
  transom: {sight: 38, rebate: 18, sash: 15}
  sash:    {sight: 76, rebate: 56}
glazing: {edge_clearance: 5, thickness: 28}
"""
SQUARE = "[[0, 0], [66, 0], [66, 68], [0, 68]]"


def written(folder, text, name="own.yaml"):
    (folder / name).write_text(text, "utf-8")
    return find_system(name, str(folder))


def problems(folder, text):
    with pytest.raises(SpecError) as caught:
        written(folder, text)
    return caught.value.problems


def only_problem(folder, text):
    (problem,) = problems(folder, text)
    return problem


def test_built_in_systems_are_demonstrations_and_say_so():
    assert builtin_names() == ("flush-70", "lipped-70", "pivot-68", "slider-112")
    for name in builtin_names():
        system = find_system(name)
        assert system.name == name
        assert system.demonstration
        assert "demonstration data" in system.title
        assert system.origin == "built in"
        assert tuple(system.profiles) == MEMBERS
        assert all(p.section and p.glass is not None and p.bead is not None for p in system.profiles.values())


def test_flush_70_has_the_figures_of_the_spec_format():
    system = find_system("flush-70")
    found = {n: (p.sight, p.rebate, p.sash, p.joint, p.kg_per_m) for n, p in system.profiles.items()}
    assert found == {   # the spec format's own table
        "frame": (66, 46, 43, 0, 1.15),
        "mullion": (38, 18, 15, 12, 1.25),
        "transom": (38, 18, 15, 12, 1.25),
        "sash": (76, 56, None, 0, 1.30),
    }
    assert (system.depth, system.bar_length, system.weld_allowance) == (70, 6000, 3)
    assert (system.edge_clearance, system.thickness) == (5, (28,))


def test_the_least_file_is_enough_and_the_rest_has_defaults(tmp_path):
    system = written(tmp_path, LEAST)
    assert (system.name, system.title, system.origin) == ("own", "own", "own.yaml")
    assert (system.depth, system.material, system.swing, system.sash_face) == (68, "timber", "in", "flush")
    assert (system.thickness, system.bar_length, system.weld_allowance) == ((28.0,), 6000, 0)
    assert (system.bead_side, system.demonstration) == ("inside", False)
    frame = system.profiles["frame"]
    assert (frame.sight, frame.glass, frame.bead, frame.joint, frame.section) == (66, None, None, 0, None)


def test_a_path_may_lead_into_another_folder_or_be_absolute(tmp_path):
    (tmp_path / "systems").mkdir()
    (tmp_path / "systems" / "own.yaml").write_text(LEAST, "utf-8")
    assert find_system("systems/own.yaml", str(tmp_path)).depth == 68
    assert find_system(str(tmp_path / "systems" / "own.yaml"), "elsewhere").depth == 68


def test_a_file_is_read_once_until_it_changes(tmp_path):
    first = written(tmp_path, LEAST)
    assert find_system("own.yaml", str(tmp_path)) is first
    second = written(tmp_path, LEAST.replace("depth: 68", "depth: 92.5"))
    assert second.depth == 92.5


@pytest.mark.parametrize(("name", "hint"), [("flush70", "'flush-70'"), ("Lipped-70", "'lipped-70'"), ("walnut", "")])
def test_an_unknown_system_names_the_known_ones(name, hint):
    with pytest.raises(SpecError) as caught:
        find_system(name)
    (problem,) = caught.value.problems
    assert problem.code == "unknown-system"
    assert problem.path == ()
    assert problem.place is None
    assert hint in problem.hint
    assert "flush-70, lipped-70" in problem.hint


@pytest.mark.parametrize("name", ["nowhere.yaml", "a\0b.yaml", "x" * 5000, "../" * 900 + "x.yaml", ".", ""])
def test_a_file_that_is_not_there_is_said_in_words(tmp_path, name):
    with pytest.raises(SpecError) as caught:
        find_system(name, str(tmp_path))
    (problem,) = caught.value.problems
    assert problem.code in ("unknown-system", "unreadable-system")
    assert len(problem.message) < 150


def test_a_file_that_is_not_text_is_said_in_words(tmp_path):
    (tmp_path / "own.yaml").write_bytes(b"depth: 70 \xff\xfe")
    with pytest.raises(SpecError) as caught:
        find_system("own.yaml", str(tmp_path))
    assert "UTF-8" in caught.value.problems[0].message


FAULTS = [
    ("depth: 68\n", "", "missing-key", "'depth'"),
    ("depth: 68", "depth: -68", "out-of-range", "-68"),
    ("depth: 68", "depth: 68 mm", "not-a-number", "'68 mm'"),
    ("depth: 68", "depth: 6800", "out-of-range", "6800"),
    ("material: timber", "material: timbre", "unknown-word", "'timbre'"),
    ("swing: in", "swing: inward", "unknown-word", "'inward'"),
    ("sash_face: flush\n", "", "missing-key", "'sash_face'"),
    ("sash_face: flush", "sash_fase: flush", "unknown-key", "'sash_fase'"),
    ("  transom: {sight: 38, rebate: 18, sash: 15}\n", "", "missing-key", "'transom'"),
    ("{sight: 76, rebate: 56}", "{sight: 76}", "missing-key", "'rebate'"),
    ("{sight: 76, rebate: 56}", "{sight: 76, rebate: 76}", "rebate-past-sight", "76"),
    ("{sight: 76, rebate: 56}", "{sight: 76, rebate: 56, sash: 3}", "unknown-key", "'sash'"),
    ("{sight: 76, rebate: 56}", "{sight: 76, rebate: 56, kg_per_m: heavy}", "not-a-number", "'heavy'"),
    ("{sight: 76, rebate: 56}", "{sight: 76, rebate: 73}", "glass-not-covered", "'sash' covers 3"),
    ("{sight: 76, rebate: 56}", "[76, 56]", "not-a-block", "a list"),
    ("rebate: 46, sash: 43", "rebate: 46", "missing-key", "'sash'"),
    ("rebate: 46, sash: 43", "rebate: 46, sash: 66", "sash-past-sight", "66"),
    ("rebate: 46, sash: 43", "rebate: 46, sash: 43, bead: 70", "bead-past-sight", "70"),
    ("rebate: 46, sash: 43", "rebate: 0, sash: 43", "out-of-range", "0"),
    ("thickness: 28", "thickness: []", "no-thickness", "empty"),
    ("thickness: 28", "thickness: [24, 0]", "out-of-range", "more than 0"),
    ("thickness: 28", "thickness: 4/20/4", "not-a-number", "'4/20/4'"),
    (", thickness: 28", "", "missing-key", "'thickness'"),
    ("edge_clearance: 5", "edge_clearance: -5", "out-of-range", "-5"),
    ("edge_clearance: 5", "edge_clearance: .nan", "not-a-number", ".nan"),
    ("glazing: {edge_clearance: 5, thickness: 28}\n", "", "missing-key", "'glazing'"),
    ("depth: 68", "depth: 68\ndemonstration: perhaps", "not-true-or-false", "'perhaps'"),
]


@pytest.mark.parametrize(("old", "new", "code", "word"), FAULTS, ids=[f"{f[2]}-{i}" for i, f in enumerate(FAULTS)])
def test_one_fault_is_one_problem_placed_in_the_system_file(tmp_path, old, new, code, word):
    assert LEAST.count(old) == 1 or old.startswith(("{sight", "rebate"))
    problem = only_problem(tmp_path, LEAST.replace(old, new, 1))
    assert problem.code == code
    assert word in problem.message
    assert problem.place.file == "own.yaml"
    assert problem.place.line >= 1


def test_a_problem_points_at_the_line_and_column_of_the_value(tmp_path):
    place = only_problem(tmp_path, LEAST.replace("edge_clearance: 5", "edge_clearance: five")).place
    line = next(n for n, text in enumerate(LEAST.splitlines(), 1) if "edge_clearance" in text)
    assert (place.line, place.column, place.end_column) == (line, 27, 31)   # counted by hand in the file


def test_all_problems_come_at_once(tmp_path):
    text = LEAST.replace("depth: 68", "depth: x").replace("swing: in", "swing: up").replace("sash: 43", "sash: 99")
    found = problems(tmp_path, text)
    assert {p.code for p in found} == {"not-a-number", "unknown-word", "sash-past-sight"}
    assert [p.place.line for p in found] == [2, 3, 6]   # in the order of the file


@pytest.mark.parametrize(("typed", "hint"), [
    ("{sight: 76,5, rebate: 56}", "write 66.5 for 66,5"), ("{sight:76, rebate: 56}", "write 'sight: 76', with a space behind the colon"),
])
def test_slips_of_the_key_in_brackets_are_told_with_what_would_do(tmp_path, typed, hint):
    (tmp_path / "own.yaml").write_text(LEAST.replace("{sight: 76, rebate: 56}", typed), "utf-8")
    with pytest.raises(SpecError) as caught:
        find_system("own.yaml", str(tmp_path))
    assert hint in " ".join(problem.hint for problem in caught.value.problems)


@pytest.mark.parametrize("text", ["", "# only a comment\n", "- 1\n", "just words\n", "members: [1]\n", "members: {sash: }"])
def test_a_file_that_is_no_system_is_said_in_words(tmp_path, text):
    assert problems(tmp_path, text)


def test_broken_yaml_points_into_the_system_file(tmp_path):
    problem = only_problem(tmp_path, LEAST + "title: 'never closed\n")
    assert problem.place.file == "own.yaml"


def section(points, part="profile"):
    return LEAST + f"sections:\n  frame:\n    body:\n      - {{part: {part}, points: {points}}}\n"


def test_a_clockwise_outline_is_turned_and_a_repeated_last_point_dropped(tmp_path):
    system = written(tmp_path, section("[[0, 0], [0, 68, -0.02], [66, 68], [66, 0], [0, 0]]"))
    outline = system.profiles["frame"].section.body[0].outline
    assert outline.area > 66 * 68   # the edge along v = 68 bulges outwards: to the left of a clockwise run
    assert len(outline.corners) == 4
    assert [c.bulge for c in outline.corners if c.bulge] == [0.02]


OUTLINE_FAULTS = [
    (section("[[0, 0], [66, 66], [66, 0], [33, 50]]"), "outline-crosses", "(39.8, 39.8)"),
    (section("[[0, 0], [66, 0]]"), "bad-outline", "too few"),
    (section("[[0, 0], [33, 0], [66, 0]]"), "bad-outline", "nothing"),
    (section("[[0, 0], [66, x], [66, 68]]"), "bad-point", "[u, v]"),
    (section("[[0, 0], [66, 0, 0, 1], [66, 68]]"), "bad-point", "[u, v]"),
    (section("[[0, 0], [66, 1e9], [66, 68]]"), "bad-point", "[u, v]"),
    (section("[[0, 0], [66, true], [66, 68]]"), "bad-point", "[u, v]"),
    (section("12"), "bad-outline", "list"),
    (section(SQUARE, "proffile"), "unknown-word", "'proffile'"),
    (section(SQUARE, "bead"), "no-profile", "no profile"),
    (section("[[0, 0], [60, 0], [60, 68], [0, 68]]"), "outline-off-station", "sight is 66"),
    (section("[[0, 10], [66, 10], [66, 78], [0, 78]]"), "outline-off-station", "from 10 to 78"),
    (LEAST + "sections: {mullion: frame}\n", "unknown-section", "'frame'"),
    (LEAST + "sections: {mullion: 12}\n", "not-a-section", "'12'"),
    (LEAST + "sections: {frame: {}}\n", "missing-key", "'body'"),
    (LEAST + "sections: {frame: {body: 1}}\n", "not-a-list", "'body'"),
    (LEAST + "sections: {sill: {body: []}}\n", "unknown-key", "'sill'"),
]


@pytest.mark.parametrize(("text", "code", "word"), OUTLINE_FAULTS, ids=[f"{f[1]}-{i}" for i, f in enumerate(OUTLINE_FAULTS)])
def test_a_faulty_outline_is_refused_in_words(tmp_path, text, code, word):
    problem = only_problem(tmp_path, text)
    assert problem.code == code
    assert word in problem.message
    assert problem.place.file == "own.yaml"


def test_one_member_may_share_another_ones_section(tmp_path):
    bar = "[[-38, 0], [38, 0], [38, 68], [-38, 68]]"
    text = f"sections:\n  transom: mullion\n  mullion:\n    body: [{{part: profile, points: {bar}}}]\n"
    system = written(tmp_path, LEAST + text)
    assert system.profiles["transom"].section is system.profiles["mullion"].section is not None
    assert system.profiles["frame"].section is None


def test_a_shared_section_must_lie_where_both_members_say(tmp_path):
    body = "body: [{part: profile, points: [[0, 0], [66, 0], [66, 68], [0, 68]]}]"
    problem = only_problem(tmp_path, LEAST + f"sections:\n  frame: {{{body}}}\n  sash: frame\n")
    assert problem.code == "outline-off-station"
    assert "'sash' reaches 66" in problem.message


def test_a_faulty_file_is_told_about_again_until_it_is_put_right(tmp_path):
    faulty = LEAST.replace("depth: 68", "depth: x")
    assert problems(tmp_path, faulty) == problems(tmp_path, faulty)
    assert written(tmp_path, LEAST).depth == 68


def test_a_copy_of_a_built_in_file_reads_the_same_with_its_outlines_checked(tmp_path):
    for name in builtin_names():
        own = written(tmp_path, (BUILT_IN / f"{name}.yaml").read_text("utf-8"))
        assert own.profiles == find_system(name).profiles
        assert own.demonstration   # copied figures stay demonstration data until their owner says otherwise


def test_a_built_in_system_loads_without_the_heavy_libraries():
    code = (
        "import sys; from elevations.catalogue.load import find_system; find_system('flush-70');"
        "print(sorted({'shapely', 'ezdxf', 'pydantic', 'numpy'} & set(sys.modules)))"
    )
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in sys.path if p)}
    out = subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "[]"


FULL = read_document((BUILT_IN / "flush-70.yaml").read_text("utf-8"), "flush-70.yaml").data
JUNK = [None, "x", -1, 0, 1e308, True, [], {}, [1], {"a": 1}, [[]], [None], {"from": 1}, {"from": "a.dxf", "layers": []}]


def places_in(value, path=()):
    pairs = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(found for key, inner in pairs for found in places_in(inner, (*path, key)))]


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(places_in(FULL)[1:]), st.sampled_from(JUNK))
def test_junk_anywhere_is_a_placed_problem_and_never_a_crash(path, junk):
    data = copy.deepcopy(FULL)
    inner = data
    for key in path[:-1]:
        inner = inner[key]
    inner[path[-1]] = junk
    read = read_system(json.dumps(data), "own.yaml", BUILT_IN)
    assert (read.system is None) == bool(read.problems)
    assert all(problem.place.file == "own.yaml" and problem.message for problem in read.problems)
