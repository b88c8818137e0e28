"""Section outlines of a system file: written out point by point, or taken from a drawing.

    sections:
      frame:
        body:   [{part: profile, points: [[0, 0], [40, 0], …]}, {part: chamber, points: …}]
        glazed: [{part: bead, points: …}, {part: gasket, points: …}]      # where it holds glass itself
        hung:   [{part: gasket, points: …}]                              # where a sash closes against it
      transom: mullion                                                   # the same section as another member
      sash: {from: profiles.dxf, layers: {profile: SASH, chamber: SASH-HOLES}}

A point is [u, v] or [u, v, bulge], mm: u from the datum towards the glass, v from the frame's outer face towards the
room, bulge for the edge that leaves the point. An outline closes by itself and may run either way round. A bar's
`body` spans both sides of its centre line, its `glazed` and `hung` parts belong to the side of positive u. A sash has
no `hung`. Parts: profile, chamber (a hole in the profile), gasket, bead, reinforcement. The keys of a section taken
from a drawing are described in `elevations.catalogue.drawn`.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from elevations.catalogue.blocks import Block, Report, shown
from elevations.catalogue.system import BARS, MEMBERS, Part, PartKind, Profile, Section
from elevations.errors import Path as Where
from elevations.plane import SAME_MM, Corner, Outline, flatten
from elevations.spelling import did_you_mean

KINDS = tuple(str(kind) for kind in PartKind)
FARTHEST_MM = 1000.0
MOST_POINTS = 5000
STATION_TOLERANCE_MM = 1.0
"""How far an outline may reach past or short of its station: gasket lips and rounding, not another origin."""


def read_sections(
    top: Block, profiles: dict[str, Profile], depth: float | None, folder: Path, *, proved: bool
) -> tuple[dict[str, Section], tuple[Path, ...]]:
    """The sections that the file gives, by member, and the drawings they came from. Problems go to the report."""
    block = Block(top.report, ("sections",), top.data.get("sections"), "'sections'")
    block.only(MEMBERS)
    sections: dict[str, Section] = {}
    drawings: list[Path] = []
    for name in MEMBERS:
        value = block.data.get(name)
        if isinstance(value, dict):
            section = _section(block, name, value, folder, drawings)
            if section is not None:
                sections[name] = section
                if not proved and _sound(top.report, name, section):
                    _check_place(top.report, name, section, profiles.get(name), depth)
        elif value is not None and not isinstance(value, str):
            block.say(name, "not-a-section", f"'{name}' must be a block of parts, not {shown(value)}")
    for name in MEMBERS:
        value = block.data.get(name)
        if isinstance(value, str):
            if value in sections:
                sections[name] = sections[value]
                if not proved:
                    _check_place(top.report, name, sections[name], profiles.get(name), depth)
            elif not isinstance(block.data.get(value), dict):
                given = [m for m in MEMBERS if isinstance(block.data.get(m), dict)]
                hint = did_you_mean(value, given) or "name a member whose section is written out"
                block.say(name, "unknown-section", f"no section of {shown(value)} is given", hint)
    return sections, tuple(drawings)


def _section(
    block: Block, name: str, value: dict[str, Any], folder: Path, drawings: list[Path]
) -> Section | None:
    inner = Block(block.report, (*block.path, name), value, f"the section of '{name}'")
    if "from" in value:
        from elevations.catalogue.drawn import read_drawn_section

        return read_drawn_section(inner, name, folder, drawings)
    before = len(block.report.problems)
    lists = ("body", "glazed") if name == "sash" else ("body", "glazed", "hung")
    inner.only(lists)
    if not value.get("body"):
        inner.missing("body", "the list of parts that are always there")
    parts = {key: read_parts(inner, key) for key in lists}
    if len(block.report.problems) > before:
        return None
    return Section(parts["body"], parts["glazed"], parts.get("hung", ()))


def read_parts(section: Block, key: str) -> tuple[Part, ...]:
    """The parts that a key of a block lists; none where it is not there. Problems go to the report."""
    value = section.data.get(key)
    if value is None:
        return ()
    if not isinstance(value, list):
        section.say(key, "not-a-list", f"'{key}' must be a list of parts", "- {part: profile, points: [[0, 0], …]}")
        return ()
    parts = []
    for i, item in enumerate(value):
        path = (*section.path, key, i)
        block = Block(section.report, path, item, "a part")
        if item is None or not block.given:
            continue
        block.only(("part", "points"))
        kind = block.choice("part", KINDS)
        corners = _corners(block)
        if corners:
            outline = tidy(corners)
            if isinstance(outline, str):
                block.say("points", "bad-outline", f"this {kind} {outline}")
            else:
                parts.append(Part(PartKind(kind), outline))
    return tuple(parts)


def _corners(block: Block) -> list[Corner] | None:
    """The points as written, or None after a report."""
    value = block.data.get("points")
    if not isinstance(value, list) or not 1 <= len(value) <= MOST_POINTS:
        block.say("points", "bad-outline", f"a part needs a list of at most {MOST_POINTS:,} points", "[[0, 0], [40, 0], …]")
        return None
    corners = []
    for i, point in enumerate(value):
        if not (isinstance(point, list) and len(point) in (2, 3) and all(_is_coordinate(c) for c in point)):
            block.report.say(
                (*block.path, "points", i), "bad-point", "a point is [u, v] or [u, v, bulge], in mm",
                f"each at most {FARTHEST_MM:g} from the datum",
            )  # fmt: skip
            return None
        corners.append(Corner(*map(float, point)))
    return corners


def _is_coordinate(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= FARTHEST_MM


def tidy(corners: Iterable[Corner]) -> Outline | str:
    """An outline without repeated points, running counter-clockwise; or in words what is wrong with it."""
    kept: list[Corner] = []
    for corner in corners:
        if kept and abs(kept[-1].x - corner.x) < SAME_MM and abs(kept[-1].y - corner.y) < SAME_MM:
            kept[-1] = corner
        else:
            kept.append(corner)
    if len(kept) > 1 and abs(kept[0].x - kept[-1].x) < SAME_MM and abs(kept[0].y - kept[-1].y) < SAME_MM:
        kept.pop()
    if len(kept) < 2 or (len(kept) == 2 and not any(c.bulge for c in kept)):
        return "has too few points to enclose anything"
    outline = Outline(tuple(kept))
    if abs(outline.area) < SAME_MM:
        return "encloses nothing"
    return outline if outline.area > 0 else turned(outline)


def turned(outline: Outline) -> Outline:
    """The same outline run the other way round."""
    return Outline(tuple(reversed([Corner(b.x, b.y, -a.bulge) for a, b in outline.edges()])))


def _sound(report: Report, name: str, section: Section) -> bool:
    """Whether there is a profile and no outline crosses itself; else it is reported."""
    path = ("sections", name)
    if not any(part.kind is PartKind.PROFILE for part in section.body):
        report.say(path, "no-profile", f"the section of '{name}' has no profile", "give its 'body' a part of that kind")
        return False
    parts = (*section.body, *section.glazed, *section.hung)
    faults = [f"the {part.kind} {fault}" for part in parts if (fault := crossing(part.outline))]
    for fault in faults:
        report.say(path, "outline-crosses", f"in the section of '{name}' {fault}", "draw it as one simple loop")
    return not faults


def _check_place(report: Report, name: str, section: Section, profile: Profile | None, depth: float | None) -> None:
    """Report a section that does not lie where the stations say."""
    path = ("sections", name)
    parts = (*section.body, *section.glazed)
    solid = [part.outline.bounds for part in parts if part.kind in (PartKind.PROFILE, PartKind.BEAD)]
    if not solid:
        return
    reach = max(box.right for box in solid)
    if profile is not None and abs(reach - profile.sight) > STATION_TOLERANCE_MM:
        _misplaced(report, path, f"'{name}' reaches {reach:g} from its datum, but its sight is {profile.sight:g}")
    back = min(box.left for box in solid)
    alone = name in BARS and not section.glazed   # a bead may reach farther than the body, and is drawn on one side only
    if alone and profile is not None and abs(back + profile.sight) > STATION_TOLERANCE_MM:
        _misplaced(report, path, f"'{name}' reaches {-back:g} to the other side, but its sight is {profile.sight:g}")
    if name == "frame" and depth is not None:
        low, high = min(box.bottom for box in solid), max(box.top for box in solid)
        if abs(low) > STATION_TOLERANCE_MM or abs(high - depth) > STATION_TOLERANCE_MM:
            _misplaced(report, path, f"the frame lies from {low:g} to {high:g} in depth, but should from 0 to {depth:g}")


def _misplaced(report: Report, path: Where, message: str) -> None:
    report.say(path, "outline-off-station", message, "check the outline's origin and unit, or the figure in 'members'")


def crossing(outline: Outline) -> str:
    """Where an outline crosses or touches itself, in words; empty if it does not. Arcs count to 0.01 mm."""
    from shapely import Polygon
    from shapely.validation import explain_validity

    shape = Polygon(flatten(outline))
    if shape.is_valid:
        return ""
    at = explain_validity(shape).partition("[")[2].rstrip("]").split()
    return f"crosses itself at ({float(at[0]):.1f}, {float(at[1]):.1f})" if len(at) == 2 else "crosses itself"
