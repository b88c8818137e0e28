"""Whether what is said of an opening, its sill and its wall fits together: what no single key shows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from elevations.errors import Path, Problem
from elevations.spec.lengths import NotALength, read_length
from elevations.spec.site import ARCHES, HEADS, UNSURVEYED_HEADS

MOST_BOW = (40.0, 0.03)
"""A middle that differs from the mean of its ends by more than the larger of these, mm and share of it, is a slip; our own limit."""
SIDES = {"width": ("top", "middle", "bottom"), "height": ("left", "centre", "right")}
SPRINGING_MM = 5.0
"""So much may a surveyed rise be over half the width, for a semicircle's springing can't be told to the mm."""
LEAST_RISE = 5.0
"""The least rise of an arch that a frame can have, mm."""


def problems_of_opening(window: dict[str, Any], path: Path) -> Iterator[Problem]:
    """What is wrong between a window's opening and its other keys."""
    opening = window.get("opening")
    if isinstance(opening, dict):
        yield from _shaped(window, opening, path)
        for key, places in SIDES.items():
            yield from _slips(opening.get(key), key, places, opening.get("head"), (*path, "opening", key))
    if "sill" in window and "circular" in window:
        yield Problem("not-wanted", "a round frame stands on no sill", "leave 'sill' out", (*path, "sill"))
    yield from problems_of_setting(window, path)


def problems_of_setting(window: dict[str, Any], path: Path) -> Iterator[Problem]:
    """What is wrong inside the `fit` and `wall` of a window or of the defaults."""
    fit = window.get("fit")
    reveal = fit.get("reveal") if isinstance(fit, dict) else None
    if isinstance(reveal, dict):
        yield from _reveal(reveal, (*path, "fit", "reveal"))
    joint = fit.get("joint") if isinstance(fit, dict) else None
    if isinstance(joint, dict):
        least, most = _mm(joint.get("least", 5)), _mm(joint.get("most", 15))
        if least is not None and most is not None and least >= most:
            yield Problem(
                "joint-range", f"a joint of at least {least:g} and at most {most:g} mm leaves no room between",
                "give `least` below `most`", (*path, "fit", "joint"),
            )
    wall = window.get("wall")
    if isinstance(wall, dict):
        yield from _wall(wall, (*path, "wall"))


def _shaped(window: dict[str, Any], opening: dict[str, Any], path: Path) -> Iterator[Problem]:
    """Whether the shape of the opening's head and that of the frame's go together, and an arch is one."""
    asked = window.get("head")
    wanted = "circular" if "circular" in window else next(iter(asked), None) if isinstance(asked, dict) else None
    kind = opening.get("head", "level")
    if wanted in UNSURVEYED_HEADS:
        yield Problem("opening-shaped", f"a hole for a {wanted} frame has no survey here", UNSURVEYED_HEADS[wanted], (*path, "opening"))
    elif wanted in HEADS and kind == "level":   # what is no shape is told of by itself
        places = "left springing, crown, right springing" if wanted in ARCHES else "left, centre, right"
        yield Problem(
            "opening-shaped", f"the frame has a {wanted} head, and nothing is said of the opening's",
            f"write `head: {wanted}` in 'opening', its heights as {places}; or give the frame's own size without 'opening'", (*path, "opening"),
        )
    elif kind not in (wanted, "level") and "frame" in window:
        said = "none" if wanted is None else f"a {wanted} one"
        yield Problem(
            "heads-differ", f"the opening has {_a(kind)} head and the frame {said}", f"give the frame's `head: {{{kind}: …}}`, or leave 'frame' out", (*path, "opening", "head"),
        )
    elif kind != "level" and wanted and "frame" not in window:
        yield Problem("not-wanted", "the frame's head follows from the opening's", "leave 'head' out, or give 'frame' too", (*path, "head"))
    if kind in ARCHES:
        yield from _arch(window, opening, kind, path)


def _a(kind: Any) -> str:
    return f"an {kind}" if str(kind)[:1] in "aeiou" else f"a {kind}"


def _arch(window: dict[str, Any], opening: dict[str, Any], kind: str, path: Path) -> Iterator[Problem]:
    """What is wrong with the heights under an arch."""
    where = (*path, "opening", "height")
    heights = opening.get("height")
    if heights is not None and not isinstance(heights, list):
        yield Problem(
            "arch-heights", f"one height does not say how high {_a(kind)} head rises", "give three: to the left springing, to the crown, to the right springing", where,
        )
    known = [_mm(value) for value in heights] if isinstance(heights, list) and len(heights) == 3 else []
    widths = opening.get("width")
    top = _mm(widths[0] if isinstance(widths, list) and widths else widths)
    if len(known) == 3 and None not in known and top is not None:
        left, crown, right = (mm or 0.0 for mm in known)
        rise = crown - (left + right) / 2
        if rise < LEAST_RISE:
            yield Problem(
                "arch-flat", f"the crown at {crown:g} is {rise:g} above the springings at {left:g} and {right:g}: that is no arch",
                "heights are left springing, crown, right springing, all from the sill; leave 'head' out under a level one", (*where, 1),
            )
        elif kind == "arched" and rise > top / 2 + SPRINGING_MM:
            yield Problem(
                "arch-high", f"the crown is {rise:g} above the springings, more than half the width at the springing, {top:g}: one arc can't do that",
                "measure the springing where the jambs end and the curve begins; `head: pointed` is two arcs", (*where, 1),
            )
        elif kind == "pointed" and rise <= top / 2:
            yield Problem(
                "arch-low", f"the point is {rise:g} above the springings, not more than half the width at the springing, {top:g}: two arcs make no point there",
                "write `head: arched`, or measure the springing again", (*where, 1),
            )
    fit = window.get("fit")
    add_ons = fit.get("add_ons") if isinstance(fit, dict) else None
    if isinstance(add_ons, dict) and _mm(add_ons.get("head")):
        yield Problem(
            "not-wanted", f"a frame extension can't follow {_a(kind)} head", "keep room with `head_allowance`, or leave it out", (*path, "fit", "add_ons", "head"),
        )


def _slips(values: Any, key: str, places: tuple[str, ...], head: Any, path: Path) -> Iterator[Problem]:
    """One of three lengths that no wall would give beside the other two; of a crown and of the ends of a slope that is not asked."""
    if not isinstance(values, list) or len(values) != 3:
        return
    first, middle, last = (_mm(value) for value in values)
    if first is None or middle is None or last is None:
        return
    mean = (first + last) / 2
    limit = max(MOST_BOW[0], MOST_BOW[1] * mean)
    arch, slope = (key == "height" and head in ARCHES), (key == "height" and head == "raked")
    if key == "height" and head is not None and head not in HEADS:
        return   # its head is told of, and what its heights are hangs on it
    if abs(middle - mean) > limit and not arch:
        more = "more" if middle > mean else "less"
        yield Problem(
            "middle-off", f"the {places[1]} {key} {middle:g} is {abs(middle - mean):g} {more} than the mean of the other two, {mean:g}: "
            "no wall bows that far", f"at most {limit:g} is believed; measure it again", (*path, 1),
        )
    elif abs(first - last) > 3 * limit and not slope:
        yield Problem(
            "ends-off", f"the {key} is {first:g} at the {places[0]} and {last:g} at the {places[2]}: no opening tapers that far",
            "measure both again", (*path, 2),
        )


def _reveal(reveal: dict[str, Any], path: Path) -> Iterator[Problem]:
    kind = reveal.get("kind", "square")
    if kind == "check" and reveal.get("lap") is None:
        yield Problem("lap-missing", "a check reveal needs 'lap'", "how much of the frame the outer leaf hides at each side: `lap: 25`", path)
    for key in ("lap", "sash_clear", "behind"):
        if kind != "check" and reveal.get(key) is not None:
            yield Problem("not-wanted", f"'{key}' belongs to a check reveal", f"write `kind: check`, or leave '{key}' out", (*path, key))
    if kind != "inner-leaf" and _mm(reveal.get("lining")):
        yield Problem("not-wanted", "'lining' belongs to an inner-leaf reveal", "write `kind: inner-leaf`, or leave it out", (*path, "lining"))


def _wall(wall: dict[str, Any], path: Path) -> Iterator[Problem]:
    cavity, inner = _mm(wall.get("cavity", 0)), _mm(wall.get("inner", 0))
    if cavity is not None and inner is not None and bool(cavity) != bool(inner):
        given, wanted = ("cavity", "inner") if cavity else ("inner", "cavity")
        yield Problem("wall-leaves", f"a wall with '{given}' needs '{wanted}' too", "a solid wall has neither", (*path, given))
    parts = [_mm(wall.get(key, default)) for key, default in (("render", 0), ("thickness", None), ("cavity", 0), ("inner", 0), ("plaster", 13))]
    at = _mm(wall.get("frame_at"))
    known = [part for part in parts if part is not None]
    if at is not None and len(known) == len(parts) and at >= sum(known):
        yield Problem(
            "frame-outside-wall", f"the frame's outer face is {at:g} from the wall's outer face, but the wall is {sum(known):g} thick",
            "'frame_at' is measured from the finished outer face inwards", (*path, "frame_at"),
        )
    if not cavity and wall.get("inner_material") is not None:
        yield Problem("not-wanted", "'inner_material' is of a cavity wall's inner leaf", "a solid wall has one 'material'", (*path, "inner_material"))
    lintel = wall.get("lintel")
    if isinstance(lintel, dict) and lintel.get("barred_by") is not None and lintel.get("drilling", True) is True:
        yield Problem(
            "not-wanted", "'barred_by' says what bars drilling, but the lintel may be drilled", "write `drilling: false` beside it, or leave it out",
            (*path, "lintel", "barred_by"),
        )


def _mm(value: Any) -> float | None:
    if value is None:
        return None
    mm = read_length(value)
    return None if isinstance(mm, NotALength) else mm
