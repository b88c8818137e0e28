"""A place on a member: where something is drilled, notched or screwed on."""

from __future__ import annotations

import math
from typing import NamedTuple

from elevations.geometry.window import Bar, Member
from elevations.plane import Corner, Point, arc_centre, arc_radius


class Place(NamedTuple):
    """A place on a member: on its outer edge, or on the centre line of a bar."""

    member: Member
    at: Point
    kind: str
    what: str
    size: str = ""


def foot_on(member: Member, at: Point) -> Point:
    """Where the square across from a point meets the outer edge of a member, or the centre line of a bar."""
    a, b = member.outer
    if not isinstance(member, Bar) and member.face.corners[0].bulge:
        start, end = member.face.corners[0], member.face.corners[1]
        centre, radius = arc_centre(start, Corner(end.x, end.y)), arc_radius(start, Corner(end.x, end.y))
        away = math.dist(centre, at)
        return Point(centre.x + (at.x - centre.x) * radius / away, centre.y + (at.y - centre.y) * radius / away)
    length = math.dist(a, b)
    ux, uy = (b.x - a.x) / length, (b.y - a.y) / length
    along = (at.x - a.x) * ux + (at.y - a.y) * uy
    return Point(a.x + along * ux, a.y + along * uy)
