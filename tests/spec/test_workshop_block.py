"""The job's workshop block: what is read, and what is said of faulty values."""

from __future__ import annotations

import math

import pytest

from elevations.errors import SpecError
from elevations.spec.load import parse_job

HEAD = "glass: {clear: {make_up: 4/20/4}}\nwindows: [{mark: W1, frame: {width: 900, height: 900}, lights: [{light: fixed}]}]\n"


def workshop(text):
    return parse_job(HEAD + text, "job.yaml").job.workshop


def test_without_it_only_the_saw_is_assumed_and_says_so():
    found = workshop("")
    assert (found.saw.keep_from, found.off_cuts, found.seal) == (None, (), None)
    assert 5.6 < 4 / math.sin(math.radians(45)) < found.saw.kerf == 6   # a 4 mm blade takes 5.66 across a mitre
    assert found.bending.grip == 250   # common practice, no source
    assert (found.saw.end_trim, found.saw.assumed) == (15, ("saw cut", "end trim"))   # common practice, no source
    assert workshop("workshop: {saw: {kerf: 6}}\n").saw.assumed == ("end trim",)
    assert workshop("workshop: {saw: {kerf: 0, end_trim: 0}}\n").saw.assumed == ()


def test_its_figures_are_read_with_their_units():
    found = workshop(
        "workshop:\n  saw: {kerf: 4 mm, end_trim: 1.5 cm, keep_from: 600}\n"
        "  off_cuts: [{system: flush-70, profile: frame, outside: RAL 7038, length: 2.15 m, count: 2}]\n  seal: {gap: 10, foam_depth: 40}\n"
    )
    assert (found.saw.kerf, found.saw.end_trim, found.saw.keep_from) == (4, 15, 600)
    (off_cut,) = found.off_cuts
    assert (off_cut.system, off_cut.profile, off_cut.outside, off_cut.length, off_cut.count) == ("flush-70", "frame", "RAL 7038", 2150, 2)
    assert (found.seal.gap, found.seal.sealant_depth, found.seal.foam_depth, found.seal.cartridge) == (10, 6, 40, 310)


@pytest.mark.parametrize(("text", "words"), [
    ("workshop: {saw: {kerf: 40}}\n", "kerf"),
    ("workshop: {saw: {kerf: -1}}\n", "kerf"),
    ("workshop: {saw: {keref: 4}}\n", "'keref' is not a known key here"),
    ("workshop: {sew: {kerf: 4}}\n", "'sew' is not a known key here"),
    ("workshop: {off_cuts: [{system: flush-70, length: 2000}]}\n", "profile"),
    ("workshop: {off_cuts: [{system: flush-70, profile: frame, length: 20}]}\n", "length"),
    ("workshop: {off_cuts: [{system: flush-70, profile: frame, length: 2000, count: 0}]}\n", "count"),
    ("workshop: {off_cuts: {system: flush-70}}\n", "off_cuts"),
    ("workshop: {seal: {gap: 0}}\n", "gap"),
    ("workshop: {seal: {gap: ten}}\n", "'ten' is not a length"),
    ("workshop: {unit_tolerance: {thickness: 1}}\n", "size"),
    ("workshop: {unit_tolerance: {size: 0}}\n", "size"),
    ("workshop: {unit_tolerance: {size: 12}}\n", "size"),
    ("workshop: {unit_tolerance: {size: two}}\n", "'two' is not a length"),
    ("workshop: {unit_tolerance: 2}\n", "unit_tolerance"),
    ("workshop: {bending: {grip: -5}}\n", "grip"),
    ("workshop: {bending: {grips: 200}}\n", "'grips' is not a known key here"),
    ("workshop: 4\n", "workshop"),
])
def test_each_fault_is_told_at_its_line(text, words):
    with pytest.raises(SpecError) as caught:
        workshop(text)
    (problem,) = caught.value.problems
    assert words in problem.message
    assert problem.place.line == HEAD.count("\n") + 1


def test_the_schema_explains_every_key():
    from elevations.spec.schema import job_schema

    text = str(job_schema())
    for words in ("What a saw cut takes from the length of the bar, mm", "A rest at least this long goes back into the rack", "Gap between frame and wall where no opening was surveyed, mm"):
        assert words in text
