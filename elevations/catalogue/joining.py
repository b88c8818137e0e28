"""What a system joins its frames with, from its file.

    joining:
      coupler: {width: 20, depth: 60, kg_per_m: 0.7, screw: 55}    # between frames in one plane
      bay_posts:                                        # between facets of a bay
        - {angle: 135, face: 40, kg_per_m: 1.6, screw: 72}         # for one angle
        - {angle: [100, 170], face: 65}                 # or for all from one to another

`face` runs along the outer face of each facet, from the edge of its frame to where the outer faces of both facets would
meet. The frames must clear each other behind it: at an angle a and a frame depth d that takes more than
d x tan((180 - a) / 2). `screw` is the length of the screws from each frame into the coupler or post; those of the two
frames, which stand at equal heights, must not meet in a coupler. All is optional; a system without it joins nothing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from elevations.catalogue.blocks import Block, shown

WIDEST_MM = 300.0
"""More is a slip of the decimal point; our own limit, as the next one is."""
LEAST_CLEAR_MM = 1.0
"""Between the inner edges of two frames and the corner behind their post."""
HEAVIEST_KG_PER_M = 60.0
LONGEST_SCREW_MM = 400.0
SHARPEST, FLATTEST = 90.0, 179.0


@dataclass(frozen=True, slots=True)
class Coupler:
    """The profile between two frames in one plane, mm."""

    width: float
    """Between the two frames, as it is seen."""
    depth: float
    """Square to the frames' faces; it stands in the middle of their depth."""
    kg_per_m: float | None = None
    screw: float | None = None
    """Length of the screws from each frame into it."""


@dataclass(frozen=True, slots=True)
class BayPost:
    """The profile between two facets of a bay."""

    sharpest: float
    flattest: float
    """The angles between two facets, seen from the room, that it is for, degrees; equal where it is for one only."""
    face: float
    """From the frame's edge to where the facets' outer faces would meet, along each of them, mm."""
    kg_per_m: float | None = None
    number: int = 0
    """Its place in the system's list, from 0."""
    screw: float | None = None
    """Length of the screws from each frame into it."""


@dataclass(frozen=True, slots=True)
class Joining:
    """What a system joins frames with."""

    coupler: Coupler | None = None
    bay_posts: tuple[BayPost, ...] = ()

    def post_for(self, angle: float) -> BayPost | None:
        """The post made for that angle: one for it alone before one that takes it too."""
        fitting = [post for post in self.bay_posts if post.sharpest <= angle <= post.flattest]
        return min(fitting, key=lambda post: (post.flattest - post.sharpest, post.number), default=None)


def clear_face_mm(depth: float, angle: float) -> float:
    """How far two frames of that depth must stand off the corner of their outer faces for their inner edges to touch there, mm."""
    return depth * math.tan(math.radians(180.0 - angle) / 2)


def read_joining(top: Block, depth: float | None, through: float | None = None) -> Joining:
    """The block `joining`, as far as the file gives it; `through`: what a screw crosses of a frame, mm. Problems go to the report."""
    block = Block(top.report, ("joining",), top.data.get("joining"), "'joining'")
    block.only(("coupler", "bay_posts"))
    return Joining(_coupler(block, depth, through), _posts(block, depth, through))


def _coupler(block: Block, depth: float | None, through: float | None) -> Coupler | None:
    if block.data.get("coupler") is None:
        return None
    inner = Block(block.report, (*block.path, "coupler"), block.data["coupler"], "'coupler'")
    if not inner.given:
        return None
    inner.only(("width", "depth", "kg_per_m", "screw"))
    width = inner.required("width", low=0, high=WIDEST_MM, hint="mm between the two frames: {width: 20}")
    across = inner.number("depth", low=0, high=WIDEST_MM, above=True, hint="mm, square to the frames' faces")
    mass, screw = _mass(inner), _screw(inner, through)
    if width is not None:
        _apart(inner, screw, through, width / 2)
    return None if width is None else Coupler(width, across or depth or 0.0, mass, screw)


def _mass(block: Block) -> float | None:
    return block.number("kg_per_m", low=0, high=HEAVIEST_KG_PER_M, above=True)


def _screw(block: Block, through: float | None) -> float | None:
    """The length of its screws: longer than what they cross of the frame."""
    hint = f"mm, more than the {through:g} that it crosses of the frame" if through else "mm, with its head in the frame's rebate"
    return block.number("screw", low=through or 0.0, high=LONGEST_SCREW_MM, above=True, hint=hint)


def _apart(block: Block, screw: float | None, through: float | None, room: float) -> None:
    """Screws from both frames stand at equal heights: each has the room up to the middle of what they go into."""
    if screw is not None and through is not None and screw - through >= room:
        message = f"screws of {screw:g} mm go {screw - through:g} mm into it from each frame, so that those of its two frames meet"
        block.say("screw", "screws-meet", message, f"they must be shorter than {through + room:g} mm")


def _posts(block: Block, depth: float | None, through: float | None) -> tuple[BayPost, ...]:
    given = block.data.get("bay_posts")
    if given is None:
        return ()
    if not isinstance(given, list):
        block.say("bay_posts", "not-a-list", f"'bay_posts' is {shown(given)}, not a list", "for example [{angle: 135, face: 40}]")
        return ()
    posts = (_post(Block(block.report, (*block.path, "bay_posts", n), item, "a bay post"), n, depth, through) for n, item in enumerate(given))
    return tuple(post for post in posts if post is not None)


def _post(block: Block, number: int, depth: float | None, through: float | None) -> BayPost | None:
    if not block.given:
        return None
    block.only(("angle", "face", "kg_per_m", "screw"))
    angles = _angles(block)
    face = block.required("face", low=0, high=WIDEST_MM, hint="mm along the outer face of each facet: {angle: 135, face: 40}")
    mass, screw = _mass(block), _screw(block, through)
    if angles is None or face is None:
        return None
    least = clear_face_mm(depth or 0.0, angles[0]) + LEAST_CLEAR_MM
    if face < least:
        message = f"a face of {face:g} mm is too narrow: at {angles[0]:g} degrees frames {depth or 0:g} mm deep would meet behind it"
        block.say("face", "post-too-narrow", message, f"it must be at least {math.ceil(least)} mm")
        return None
    _apart(block, screw, through, round(face - clear_face_mm((depth or 0.0) / 2, angles[0]), 1))   # they run in the middle of the depth
    return BayPost(*angles, face, mass, number, screw)


def _angles(block: Block) -> tuple[float, float] | None:
    """One angle, or the first and last of a range."""
    value = block.data.get("angle")
    if value is None:
        block.missing("angle", "degrees between two facets, seen from the room: {angle: 135, face: 40}")
        return None
    ends = value if isinstance(value, list) and len(value) == 2 else [value, value]
    found = [block.as_number((*block.path, "angle"), end, "angle", "degrees, 135, or two, [120, 165]") for end in ends[: 2 if ends is value else 1]]
    numbers = [number for number in found if number is not None]
    if len(numbers) < len(found):
        return None
    sharpest, flattest = numbers[0], numbers[-1]
    if not SHARPEST <= sharpest <= flattest <= FLATTEST:
        message = f"'angle' is {shown(value) if isinstance(value, str) else value}; angles run from {SHARPEST:g} to {FLATTEST:g} degrees, the sharper first"
        block.say("angle", "out-of-range", message, "for example 135, or [120, 165]")
        return None
    return sharpest, flattest
