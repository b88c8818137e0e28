"""Windows joined to each other: what stands between them, what the whole measures, and the true plan of a bay.

The developed elevation lays all facets into one plane, at true size: mm with the origin at the bottom left outer corner
of the whole, x right, y up, seen from outside.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from elevations.catalogue.joining import Joining
from elevations.catalogue.system import System
from elevations.errors import Finding, Path, Problem, SpecError
from elevations.geometry.bay_plan import Bend, Plan, bay_plan
from elevations.geometry.neighbours import Connector, connectors, joined_sides
from elevations.geometry.window import Window
from elevations.plane import SAME_MM
from elevations.spec.joined import BAY, FLAT, JoinedFrames
from elevations.spec.model import Finish, Job
from elevations.spec.site import AddOns
from elevations.working import Source, Term, Working

LOAD_BEARING = (
    "A frame or bay post that carries a wall, floor or roof must be specified by a licensed practice. Nothing here is "
    "checked for load."
)
"""The frame in a bay is to be confirmed as carrying nothing, or posts that do are to be specified: a trade guide, read
second-hand. What carries is a matter of local codes and of somebody who may sign for it."""
NOT_LOOKED, CARRIES = "load-not-known", "carries-load"
ALIKE_MM = 0.05
"""Two edges that differ by less meet along their whole length: no saw can be set to it."""


class Facet(NamedTuple):
    """One window in its set."""

    window: Window
    x: float
    y: float
    """Of its frame's bottom left corner in the developed elevation, mm."""
    start: Working
    """From the left end of the whole to its frame's left edge, developed; of a stack from the top end to its frame's top edge."""


@dataclass(frozen=True, slots=True)
class Joint:
    """What stands between two neighbours."""

    what: Connector
    between: tuple[str, str]
    """Marks of its neighbours."""
    widths: tuple[Working, ...]
    """What it takes of the developed elevation: a coupler's width; of a post one face to each side of its edge."""
    length: Working
    """As cut, ends square: along the edges that meet."""
    depth: float
    kg_per_m: float | None
    system: System
    finish: Finish

    @property
    def tag(self) -> str:
        """See `Connector`, as the next three."""
        return self.what.tag

    @property
    def kind(self) -> str:
        return self.what.kind

    @property
    def angle(self) -> float:
        return self.what.angle

    @property
    def profile(self) -> str:
        return self.what.profile


@dataclass(frozen=True, slots=True)
class Joined:
    """A resolved set."""

    mark: str
    path: Path
    location: str
    spec: JoinedFrames
    facets: tuple[Facet, ...]
    """From the left seen from outside; of a stack from the top."""
    joints: tuple[Joint, ...]
    """joints[i] stands between facets[i] and facets[i + 1]."""
    width: Working
    """Developed: along the outer faces."""
    height: Working
    plan: Plan | None
    """None of a stack."""
    findings: tuple[Finding, ...]

    @property
    def windows(self) -> tuple[Window, ...]:
        """Its windows in the order of its facets."""
        return tuple(facet.window for facet in self.facets)

    @property
    def system(self) -> System:
        """The one system that all of it is made of."""
        return self.facets[0].window.system

    @property
    def stacked(self) -> bool:
        """True where one stands on the other."""
        return self.spec.way == "stacked"

    @property
    def bay(self) -> bool:
        """True where its facets stand at angles."""
        return self.spec.way == BAY


def members_of(job: Job, marks: Collection[str] | None = None) -> frozenset[str]:
    """The marks of all windows that are joined, or of those in the sets of these marks."""
    return frozenset(mark for spec in job.joined if marks is None or spec.mark in marks for mark in spec.windows)


def resolve_joined(job: Job, windows: Mapping[str, Window]) -> list[Joined]:
    """Every set of the job; `windows` holds at least its members by their marks. Raises SpecError with the problems of all."""
    check_joined(job, windows)
    return [_joined(spec, [windows[mark] for mark in spec.windows], ("joined", number)) for number, spec in enumerate(job.joined)]


def check_joined(job: Job, windows: Mapping[str, Window]) -> None:
    """Raise SpecError with all that stops the job's sets being made; `windows` as for `resolve_joined`."""
    problems = [
        problem for number, spec in enumerate(job.joined)
        for problem in _problems(spec, [windows[mark] for mark in spec.windows], ("joined", number), job)
    ]
    if problems:
        raise SpecError(problems)


def _problems(spec: JoinedFrames, windows: Sequence[Window], path: Path, job: Job) -> Iterator[Problem]:
    first, where = windows[0], (*path, "windows")
    for number, window in enumerate(windows):
        if window.system != first.system:
            message = f"{window.mark} is of {window.system.name} and {first.mark} of {first.system.name}: frames of two systems are not joined"
            yield Problem("systems-differ", message, "give them one system", (*where, number))
        elif window.finish != first.finish:
            message = f"{window.mark} and {first.mark} differ in their finish, and what joins them has one"
            yield Problem("finishes-differ", message, "give them one finish", (*where, number))
        if job.windows[int(window.path[1])].opening is not None:
            message = f"{window.mark} has an opening of its own, but in {spec.mark} it has a neighbour where the wall would be"
            yield Problem("joined-opening", message, "give its `frame` and leave `opening` out", (*where, number))
        yield from _stands_between(window, (*where, number))
    if all(window.system == first.system for window in windows):
        yield from _joining_problems(spec, first.system, path)
    for number in range(len(windows) - 1):
        yield from _meeting_problems(spec, windows[number], windows[number + 1], (*where, number + 1))


def _stands_between(window: Window, path: Path) -> Iterator[Problem]:
    """What the window has on a joined side of its frame, where the coupler or the post goes."""
    site = window.site
    if site is None:
        return
    joined, add_ons = joined_sides(window.neighbours), site.fit.add_ons
    for side, key in (("left jamb", "left"), ("right jamb", "right"), ("head", "head"), ("sill", "sill")):
        if side in joined and (wide := getattr(add_ons, key)):
            message = f"{window.mark} has an add-on of {wide:g} at its {side}, where it is joined to the next frame"
            yield Problem("joined-add-on", message, f"leave `fit: add_ons: {key}` out, and make the frame larger by it if need be", path)
    if site.sill is not None and "sill" in joined:
        message = f"{window.mark} has a sill, but stands on another frame of its set"
        yield Problem("joined-sill", message, "leave its `sill` out: of a stack the lowest frame has one", path)


def with_add_ons(joined: Joined) -> tuple[float, float]:
    """The whole's width, developed, and height together with the add-ons at its free ends, mm: what a tape over it reads."""
    add_ons = [window.site.fit.add_ons if window.site else AddOns() for window in joined.windows]
    if joined.stacked:
        widest = max(w.width.value + a.left + a.right for w, a in zip(joined.windows, add_ons, strict=True))
        return max(widest, joined.width.value), joined.height.value + add_ons[0].head + add_ons[-1].sill
    tallest = max(w.height.value + a.head + a.sill for w, a in zip(joined.windows, add_ons, strict=True))
    return joined.width.value + add_ons[0].left + add_ons[-1].right, max(tallest, joined.height.value)


def _joining_problems(spec: JoinedFrames, system: System, path: Path) -> Iterator[Problem]:
    """What the system has nothing for."""
    joining = system.joining
    if joining.coupler is None and (spec.way != BAY or FLAT in spec.angles):
        hint = "add `joining: {coupler: {width: 20}}` to its file, or choose another system"
        yield Problem("no-coupler", f"{system.name} has no coupler to join frames with", hint, (*path, "way"))
    for number, angle in enumerate(spec.angles):
        if angle != FLAT and joining.post_for(angle) is None:
            yield Problem("no-bay-post", f"{system.name} has no bay post for {angle:g} degrees", _posts_words(joining), (*path, "angles", number))


def _posts_words(joining: Joining) -> str:
    made = [f"{p.sharpest:g}" if p.sharpest == p.flattest else f"{p.sharpest:g} to {p.flattest:g}" for p in joining.bay_posts]
    return f"it has posts for {', '.join(made)} degrees" if made else "add `joining: {bay_posts: [{angle: 135, face: 40}]}` to its file"


def _meeting_problems(spec: JoinedFrames, first: Window, second: Window, path: Path) -> Iterator[Problem]:
    """Edges that meet must be straight, in line and of one length, for what stands between them is."""
    names = ("sill", "head") if spec.way == "stacked" else ("right jamb", "left jamb")
    lengths = [_straight_mm(window, name) for window, name in zip((first, second), names, strict=True)]
    for window, name, length in zip((first, second), names, lengths, strict=True):
        if length is None:
            message = f"{window.mark} has no straight {name} from corner to corner, and a {'bay post' if spec.way == BAY else 'coupler'} needs one"
            yield Problem("edge-not-straight", message, "join it at a straight side, or leave it out of the set", path)
    if lengths[0] is not None and lengths[1] is not None and abs(lengths[0] - lengths[1]) > ALIKE_MM:
        message = f"the {names[0]} of {first.mark} is {lengths[0]:g} mm and the {names[1]} of {second.mark} {lengths[1]:g} mm, but they meet along their whole length"
        yield Problem("edges-differ", message, "make them equal; frames of other sizes stand in sets of their own", path)


def _straight_mm(window: Window, tag: str) -> float | None:
    """Length of a frame's upright jamb or level head or sill over its whole width, mm; None where it is not so."""
    across = tag in ("head", "sill")
    box = window.frame.outline.bounds
    for (a, b), side in zip(window.frame.outline.edges(), window.frame.sides, strict=True):
        if side.tag == tag and not a.bulge and abs((a.y - b.y) if across else (a.x - b.x)) < SAME_MM:
            length = abs((b.x - a.x) if across else (b.y - a.y))
            return None if across and abs(length - box.width) > SAME_MM else length
    return None


def _joined(spec: JoinedFrames, windows: Sequence[Window], path: Path) -> Joined:
    joints = _joints(spec, windows)
    along = [_size_of(window, "height" if spec.way == "stacked" else "width") for window in windows]
    starts, total = [], Working(())
    for number, size in enumerate(along):
        starts.append(total)
        total = total.plus(size, *(term for part in (joints[number].widths if number < len(joints) else ()) for term in part.terms))
    if spec.way == "stacked":
        widest, tops = max(windows, key=lambda window: window.width.value), [total.value - start.value for start in starts]
        facets = [Facet(w, 0.0, top - w.height.value, start) for w, top, start in zip(windows, tops, starts, strict=True)]
        width, height = Working((_size_of(widest, "width"),)), total
    else:
        tallest = max(windows, key=lambda window: window.height.value)
        facets = [Facet(w, start.value, 0.0, start) for w, start in zip(windows, starts, strict=True)]
        width, height = total, Working((_size_of(tallest, "height"),))
    plan = None
    if spec.way != "stacked":
        bends = [Bend(180.0 - joint.angle, tuple(part.terms[0] for part in joint.widths), joint.depth) for joint in joints]
        plan = bay_plan(along, bends, windows[0].system.depth)
    return Joined(spec.mark, path, spec.location, spec, tuple(facets), tuple(joints), width, height, plan, tuple(_findings(spec)))


def _size_of(window: Window, what: str) -> Term:
    """A window's overall width or height as one term of a set's."""
    size: Working = window.width if what == "width" else window.height
    source = size.terms[0].source if len(size.terms) == 1 else Source("rule", f"as `explain` says of window {window.mark}")
    return Term(size.value, f"{window.mark} overall frame {what}", source)


def _joints(spec: JoinedFrames, windows: Sequence[Window]) -> list[Joint]:
    made: list[Joint] = []
    for connector, (first, second) in zip(connectors(spec), pairwise(windows), strict=True):
        widths, depth, mass = _figures(connector.tag, first.system, connector.angle)
        edge = "sill" if spec.way == "stacked" else "right jamb"
        length = _straight_mm(first, edge)
        assert length is not None
        rule = Source("rule", f"as long as the edges that meet, {edge} of {first.mark} (common practice, no source)")
        cut = Working((Term(length, f"{edge} of {first.mark}", rule),))
        made.append(Joint(connector, (first.mark, second.mark), widths, cut, depth, mass, first.system, first.finish))
    return made


def _figures(tag: str, system: System, angle: float) -> tuple[tuple[Working, ...], float, float | None]:
    """What a joint takes of the developed elevation, its depth, and its mass a metre."""
    joining = system.joining
    if angle == FLAT:
        coupler = joining.coupler
        assert coupler is not None
        width = Term(coupler.width, f"coupler {tag}", Source("system", "joining.coupler.width"))
        return (Working((width,)),), coupler.depth, coupler.kg_per_m
    post = joining.post_for(angle)
    assert post is not None
    source = Source("system", f"joining.bay_posts.{post.number}.face")
    faces = tuple(Working((Term(post.face, f"bay post {tag}, {side} face", source),)) for side in ("left", "right"))
    return faces, system.depth, post.kg_per_m


def _findings(spec: JoinedFrames) -> Iterator[Finding]:
    """Whether anything rests on the whole: asked of every set, settled by saying that nothing does."""
    rule = "trade guide, read second-hand: a bay's frame is confirmed as carrying nothing, or its posts are specified"
    if spec.carries_load is None:
        yield Finding(
            NOT_LOOKED, spec.mark, "whole", "nobody has said whether a wall, floor or roof above bears on it",
            "find out on site before the old frame comes out, then write `carries_load: false`, or true", rule=rule,
        )
    elif spec.carries_load:
        yield Finding(
            CARRIES, spec.mark, "whole", "it carries load: its posts and couplers here are not made for that",
            "have posts, jacks and support during the work specified by a licensed practice", rule=rule,
        )
