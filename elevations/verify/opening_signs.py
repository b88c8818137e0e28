"""The opening signs of a drawing against the job's: a triangle turned round says another hinge side than the words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from elevations.plane import Point
from elevations.verify.difference import SAME_MM, Difference
from elevations.verify.loops import Edge
from elevations.verify.said import Sign


def changed_signs(signs: Sequence[Sign], there: Sequence[Edge]) -> Iterator[Difference]:
    """Lights whose sign has a line less than the job's, or one elsewhere; `there` lies as the window does."""
    lacking = [sign.title for sign in signs if not all(_drawn(a, b, there) for a, b in pairwise(sign.points))]
    for title in dict.fromkeys(lacking):
        light, of_one, words = title.partition(": ")
        opens = words.partition(", glass ")[0]
        said = f"the opening sign of {light} is not drawn as the job has it: {opens}" if of_one else "an opening sign is not drawn as the job has it"
        yield Difference("opening", light, said)


def _drawn(a: Point, b: Point, there: Sequence[Edge]) -> bool:
    return any(
        min(max(math.dist(a, edge.start), math.dist(b, edge.end)), max(math.dist(a, edge.end), math.dist(b, edge.start))) <= SAME_MM
        for edge in there
    )
