"""Frames that are joined to each other: side by side, one above the other, or as the facets of a bay."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, Literal

from pydantic import Field

from elevations.errors import Path, Problem
from elevations.spec.block import Block
from elevations.spec.fields import Mark, Switch, Text, number, short
from elevations.spec.marks import file_name, folded
from elevations.spelling import counted, did_you_mean
from elevations.yaml_source import raw_text

MOST_FACETS = 12
BAY = "bay"
FLAT = HALF_TURN = 180
TURN = "the angle is the one between two facets, not the turn: a bay that turns by 45 has 135, one that turns by 30 has 150"
InsideAngle = Annotated[float, number(90, 180, "degrees", TURN)]
"""180: two facets in one plane, with a coupler between them."""


class JoinedFrames(Block):
    """Some of the job's windows joined to one thing; each stays a window with drawings and schedules of its own."""

    mark: Mark = Field(description="The set's mark; no window and no other set may have it.", examples=["B1"])
    location: Text = Field("", description="Where it goes.", examples=["Parlour bay"])
    way: Literal["side-by-side", "stacked", "bay"] = Field(
        description="side-by-side and stacked: in one plane, with couplers. bay: facets at angles, with bay posts.", examples=["bay"]
    )
    windows: tuple[Text, ...] = Field(
        description="Marks of the windows, from the left seen from outside; of a stack from the top.", examples=["[W1, W2, W3]"]
    )
    angles: tuple[InsideAngle, ...] = Field(
        (), description="Of a bay: angle between each facet and the next, seen from the room, degrees; 180 where two lie in one plane.", examples=["[135, 135]"]
    )
    assembly: tuple[Text, ...] = Field(
        (), description="Order in which the windows go up on site, by their marks, each beside one that stands; left out, a bay from its middle "
        "facet outwards, a row from the left, a stack from the bottom.", examples=["[W2, W1, W3]"]
    )
    carries_load: Switch | None = Field(
        None, description="Whether a wall, floor or roof above bears on it, as found on site; left out, nobody has looked.", examples=[False]
    )


def problems_of_joined(data: dict[str, Any]) -> Iterator[Problem]:
    """What is wrong with a job's joined frames as read, that no single key shows."""
    sets, windows = data.get("joined"), data.get("windows")
    if not isinstance(sets, list) or not isinstance(windows, list):
        return
    marks = [mark for window in windows if (mark := _mark_of(window))]
    files = {folded(file_name(mark)): f"the window '{short(mark)}'" for mark in marks}
    members: dict[str, str] = {}
    for count, entry in enumerate(sets):
        if not isinstance(entry, dict):
            continue
        path: Path = ("joined", count)
        yield from _problems_of_mark(_mark_of(entry), files, path)
        yield from _problems_of_members(entry, marks, members, path)
        yield from _problems_of_angles(entry, path)
        yield from _problems_of_assembly(entry, path)


def _mark_of(block: Any) -> str:
    return " ".join((raw_text(block.get("mark")) or "").split()) if isinstance(block, dict) else ""


def _problems_of_mark(mark: str, files: dict[str, str], path: Path) -> Iterator[Problem]:
    """Drawings are files named by marks: sets and windows share one list of them."""
    if not mark:
        return
    name = folded(file_name(mark))
    if name in files:
        yield Problem("duplicate-mark", f"the mark '{short(mark)}' is taken by {files[name]}", "give the set a mark of its own", (*path, "mark"))
    files.setdefault(name, f"the set '{short(mark)}'")


def _problems_of_members(entry: dict[str, Any], marks: list[str], members: dict[str, str], path: Path) -> Iterator[Problem]:
    listed = entry.get("windows")
    if not isinstance(listed, list):
        return
    where: Path = (*path, "windows")
    if len(listed) < 2:
        yield Problem("too-few-joined", f"{len(listed) or 'no'} window{'' if len(listed) == 1 else 's'} cannot be joined to anything",
                      "name two or more, or leave the set out", where)
    elif len(listed) > MOST_FACETS:
        yield Problem("too-many-joined", f"{len(listed)} windows are more than one set is drawn with; at most {MOST_FACETS}",
                      "make several sets", where)
    own = _mark_of(entry) or f"entry {int(path[1]) + 1} of 'joined'"
    for count, item in enumerate(listed):
        mark = " ".join((raw_text(item) or "").split())
        if not mark:
            continue
        if mark not in marks:
            known = ", ".join(short(known) for known in marks[:8]) + (", …" if len(marks) > 8 else "")
            yield Problem("unknown-window", f"the job has no window '{short(mark)}'", did_you_mean(mark, marks) or f"it has {known}", (*where, count))
        elif mark in members:
            other = "this set" if members[mark] == own else f"the set '{short(members[mark])}'"
            yield Problem("joined-twice", f"the window '{short(mark)}' is in {other} already", "one frame can be joined once", (*where, count))
        members.setdefault(mark, own)


def _problems_of_angles(entry: dict[str, Any], path: Path) -> Iterator[Problem]:
    way, angles, listed = raw_text(entry.get("way")), entry.get("angles"), entry.get("windows")
    if way == BAY and isinstance(listed, list) and len(listed) > 1:
        needed = len(listed) - 1
        example = f"for example `angles: [{', '.join(['135'] * min(needed, 3))}{', …' if needed > 3 else ''}]`"
        if angles is None:
            yield Problem("missing-key", f"a bay of {len(listed)} facets needs 'angles'", example, path)
        elif isinstance(angles, list) and len(angles) != needed:
            message = f"{len(listed)} facets meet at {counted(needed, 'angle')}; {len(angles)} are given"
            yield Problem("wrong-count", message, example, (*path, "angles"))
        elif isinstance(angles, list) and all(angle == FLAT for angle in angles):
            message = "a bay whose facets all lie in one plane is no bay"
            yield Problem("not-a-bay", message, "write `way: side-by-side` and leave 'angles' out", (*path, "angles"))
        elif isinstance(angles, list) and (turn := _turn(angles)) > HALF_TURN:
            message = f"these angles turn the bay round by {turn:g} degrees, so that it runs back into itself"
            yield Problem("turns-back", message, "each turns it by 180 less the angle; together they may turn it by 180", (*path, "angles"))
    elif way in ("side-by-side", "stacked") and angles is not None:
        hint = "leave 'angles' out, or make it a bay: `way: bay`"
        yield Problem("not-wanted", f"frames joined {way.replace('-', ' ')} lie in one plane and have no angles", hint, (*path, "angles"))


def _problems_of_assembly(entry: dict[str, Any], path: Path) -> Iterator[Problem]:
    """Each window goes up once, and beside one that stands."""
    listed, order = entry.get("windows"), entry.get("assembly")
    if not isinstance(listed, list) or not isinstance(order, list) or not order:
        return
    marks, asked = ([" ".join((raw_text(item) or "").split()) for item in items] for items in (listed, order))
    where: Path = (*path, "assembly")
    if sorted(marks) != sorted(asked):
        yield Problem("wrong-assembly", "'assembly' does not name each window of the set once", f"for example [{', '.join(short(mark) for mark in marks)}]", where)
        return
    for count, mark in enumerate(asked[1:], 1):
        place = marks.index(mark)
        if not {place - 1, place + 1} & {marks.index(before) for before in asked[:count]}:
            message = f"the window '{short(mark)}' would go up beside none that stands"
            yield Problem("wrong-assembly", message, "put it after one of its neighbours: a frame can't be pushed in between two", (*where, count))


def _turn(angles: list[Any]) -> float:
    """How far a bay turns from its first facet to its last, degrees; what is no angle counts nothing."""
    return sum(FLAT - angle for angle in angles if isinstance(angle, int | float) and not isinstance(angle, bool) and angle > 0)
