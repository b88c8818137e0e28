"""How the sizes of joined windows came about: of the whole, or of one coupler or bay post."""

from __future__ import annotations

from elevations.geometry.joined import LOAD_BEARING, Joined, Joint
from elevations.schedules.explain import Explanation, Size, UnknownNameError
from elevations.schedules.table import tidy
from elevations.spelling import did_you_mean
from elevations.working import Working

WHOLE = "whole"


def explain_joined(joined: Joined, thing: str) -> Explanation:
    """The explanation of 'whole' or of a coupler or post by its tag, capitals not counting. Raises UnknownNameError."""
    wanted = thing.removeprefix(f"{joined.mark}-").casefold()
    if wanted in (WHOLE, joined.mark.casefold()):
        return _of_whole(joined)
    for joint in joined.joints:
        if wanted in (joint.tag.casefold(), f"{joint.kind} {joint.tag}".casefold()):
            return _of_joint(joined, joint)
    there = [WHOLE, *(joint.tag for joint in joined.joints)]
    guess = did_you_mean(thing, there)
    raise UnknownNameError(f"{joined.mark} has nothing called '{thing[:60]}'", f"{guess} ask for {', '.join(there)}".strip())


def _of_whole(joined: Joined) -> Explanation:
    marks = ", ".join(window.mark for window in joined.windows)
    order = "from the top" if joined.stacked else "from the left, seen from outside"
    facts = [text for text in (joined.location, f"windows {marks}, {order}", LOAD_BEARING) if text]
    along = "developed width, along the outer faces" if joined.bay else "overall width"
    sizes = [_size(along, joined.width), _size("overall height", joined.height)]
    plan = joined.plan
    if joined.bay and plan is not None:
        facts.append("angles below are those of each part to the line through both ends of the outer face")
        sizes += [
            _size("overall width of the outer face, end to end", plan.width), _size("projection of the outer face", plan.projection),
            _size("overall width of the inner face, end to end", plan.inner_width),
            _size("projection of the inner face", plan.inner_projection),
        ]
    return Explanation(joined.mark, tuple(facts), tuple(sizes))


def _of_joint(joined: Joined, joint: Joint) -> Explanation:
    first, second = joint.between
    sides = ("width",) if len(joint.widths) == 1 else (f"face towards {first}", f"face towards {second}")
    sizes = [_size(name, part) for name, part in zip(sides, joint.widths, strict=True)]
    return Explanation(
        f"{joined.mark}-{joint.tag}", (f"{joint.profile} between {first} and {second}; ends square",), (*sizes, _size("cut length", joint.length)),
    )


def _size(name: str, working: Working) -> Size:
    return Size(name, working, tidy(working.value, 1), "rounded to 0.1 mm")
