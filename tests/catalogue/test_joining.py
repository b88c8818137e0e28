"""Couplers and bay posts of a system file: what is read, and what is said about faulty ones."""

import math

import pytest

from elevations.catalogue.joining import BayPost, clear_face_mm
from elevations.catalogue.load import builtin_names, find_system
from elevations.catalogue.reading import read_system
from tests.catalogue.test_systems import LEAST


def read(more, folder):
    return read_system(LEAST + more, "own.yaml", folder)


def test_a_system_without_them_is_whole(tmp_path):
    joining = read("", tmp_path).system.joining
    assert (joining.coupler, joining.bay_posts, joining.post_for(135)) == (None, (), None)


def test_every_figure_is_read(tmp_path):
    text = "joining:\n  coupler: {width: 12, depth: 50, kg_per_m: 0.5, screw: 51}\n  bay_posts: [{angle: 135, face: 40}]\n"
    joining = read(text, tmp_path).system.joining
    assert (joining.coupler.width, joining.coupler.depth, joining.coupler.kg_per_m, joining.coupler.screw) == (12, 50, 0.5, 51)
    assert joining.bay_posts == (BayPost(135, 135, 40, None, 0),)


def test_a_coupler_is_as_deep_as_the_frame_unless_it_says_otherwise(tmp_path):
    system = read("joining: {coupler: {width: 12}}\n", tmp_path).system
    assert system.joining.coupler.depth == system.depth


def test_a_post_for_one_angle_goes_before_one_for_many(tmp_path):
    joining = read("joining: {bay_posts: [{angle: [120, 170], face: 66}, {angle: 135, face: 42}]}\n", tmp_path).system.joining
    assert [joining.post_for(angle).face for angle in (120, 135, 170)] == [66, 42, 66]
    assert joining.post_for(119.9) is joining.post_for(170.1) is None


@pytest.mark.parametrize("angle", [90, 100, 120, 135, 150, 170])
def test_frames_clear_each_other_by_the_law_of_cosines(angle):
    # Two frames 70 deep stand off the corner O of their outer faces by f each, and their inner edges touch at one point T.
    # O, the foot of one frame and T make a right triangle with legs f and 70 and half the angle at O: f = 70 / tan(angle / 2).
    assert clear_face_mm(70, angle) == pytest.approx(70 / math.tan(math.radians(angle / 2)))


@pytest.mark.parametrize("name", ["flush-70", "lipped-70"])
def test_the_casement_systems_join_frames_in_a_row_and_at_135(name):
    joining = find_system(name).joining
    assert joining.coupler is not None
    assert joining.post_for(135) is not None


@pytest.mark.parametrize("name", builtin_names())
def test_the_demonstration_posts_keep_the_frames_apart(name):
    system = find_system(name)
    for post in system.joining.bay_posts:
        assert post.face > clear_face_mm(system.depth, post.sharpest)


@pytest.mark.parametrize(("more", "code", "words"), [
    ("joining: couplers\n", "not-a-block", "'joining' must be a block of keys, not 'couplers'"),
    ("joining: {couplers: {width: 20}}\n", "unknown-key", "'couplers' has no meaning in 'joining'"),
    ("joining: {coupler: 20}\n", "not-a-block", "'coupler' must be a block of keys"),
    ("joining: {coupler: {depth: 20}}\n", "missing-key", "'coupler' needs 'width'"),
    ("joining: {coupler: {width: 0}}\n", "out-of-range", "'width' is 0"),
    ("joining: {coupler: {width: 20, kg_per_m: 600}}\n", "out-of-range", "'kg_per_m' is 600"),
    ("joining: {bay_posts: 135}\n", "not-a-list", "'bay_posts' is '135', not a list"),
    ("joining: {bay_posts: [135]}\n", "not-a-block", "a bay post must be a block"),
    ("joining: {bay_posts: [{face: 40}]}\n", "missing-key", "a bay post needs 'angle'"),
    ("joining: {bay_posts: [{angle: 135}]}\n", "missing-key", "a bay post needs 'face'"),
    ("joining: {bay_posts: [{angle: flat, face: 40}]}\n", "not-a-number", "'angle' is 'flat'"),
    ("joining: {bay_posts: [{angle: [120, wide], face: 60}]}\n", "not-a-number", "'angle' is 'wide'"),
    ("joining: {bay_posts: [{angle: 45, face: 300}]}\n", "out-of-range", "angles run from 90 to 179"),
    ("joining: {bay_posts: [{angle: [150, 120], face: 60}]}\n", "out-of-range", "the sharper first"),
    # 70 x tan 22.5 = 28.995, and 1 mm to spare: 30 is the least whole one
    ("joining: {bay_posts: [{angle: 135, face: 29}]}\n", "post-too-narrow", "would meet behind it"),
    ("joining: {bay_posts: [{angle: 135, face: 29}]}\n", "post-too-narrow", "at least 30 mm"),
    # LEAST: 46 through the frame. A coupler of 20 has 10 for each frame's screws; a post of 40 at 135 degrees 40 - 34 x tan 22.5 = 25.9.
    ("joining: {coupler: {width: 20, screw: 56}}\n", "screws-meet", "shorter than 56 mm"),
    ("joining: {coupler: {width: 20, screw: 46}}\n", "out-of-range", "more than 46"),
    ("joining: {bay_posts: [{angle: 135, face: 40, screw: 72}]}\n", "screws-meet", "shorter than 71.9 mm"),
])
def test_a_fault_is_told_in_words(more, code, words, tmp_path):
    read_ = read(more, tmp_path)
    assert read_.system is None
    assert any(p.code == code and words in f"{p.message} | {p.hint}" for p in read_.problems), read_.problems
