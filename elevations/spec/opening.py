"""Whether what is said of an opening, its sill and its wall fits together: what no single key shows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from elevations.errors import Path, Problem
from elevations.spec.lengths import NotALength, read_length

MOST_BOW = (40.0, 0.03)
"""A middle that differs from the mean of its ends by more than the larger of these, mm and share of it, is a slip; our own limit."""
SIDES = {"width": ("top", "middle", "bottom"), "height": ("left", "centre", "right")}


def problems_of_opening(window: dict[str, Any], path: Path) -> Iterator[Problem]:
    """What is wrong between a window's opening and its other keys."""
    opening = window.get("opening")
    if isinstance(opening, dict):
        yield from _shaped(window, path)
        for key, places in SIDES.items():
            yield from _slips(opening.get(key), key, places, (*path, "opening", key))
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


def _shaped(window: dict[str, Any], path: Path) -> Iterator[Problem]:
    for key in ("head", "circular"):
        if key in window:
            yield Problem(
                "opening-shaped", f"'opening' measures a hole with four sides, and '{key}' asks for another shape",
                "give the frame's own size instead of 'opening'", (*path, "opening"),
            )


def _slips(values: Any, key: str, places: tuple[str, ...], path: Path) -> Iterator[Problem]:
    """One of three lengths that no wall would give beside the other two."""
    if not isinstance(values, list) or len(values) != 3:
        return
    first, middle, last = (_mm(value) for value in values)
    if first is None or middle is None or last is None:
        return
    mean = (first + last) / 2
    limit = max(MOST_BOW[0], MOST_BOW[1] * mean)
    if abs(middle - mean) > limit:
        more = "more" if middle > mean else "less"
        yield Problem(
            "middle-off", f"the {places[1]} {key} {middle:g} is {abs(middle - mean):g} {more} than the mean of the other two, {mean:g}: "
            "no wall bows that far", f"at most {limit:g} is believed; measure it again", (*path, 1),
        )
    elif abs(first - last) > 3 * limit:
        yield Problem(
            "ends-off", f"the {key} is {first:g} at the {places[0]} and {last:g} at the {places[2]}: no opening tapers that far",
            "measure both again", (*path, 2),
        )


def _reveal(reveal: dict[str, Any], path: Path) -> Iterator[Problem]:
    kind = reveal.get("kind", "square")
    if kind == "check" and reveal.get("lap") is None:
        yield Problem("lap-missing", "a check reveal needs 'lap'", "how much of the frame the outer leaf hides at each side: `lap: 25`", path)
    if kind != "check" and reveal.get("lap") is not None:
        yield Problem("not-wanted", "'lap' belongs to a check reveal", "write `kind: check`, or leave 'lap' out", (*path, "lap"))
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
