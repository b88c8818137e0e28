"""What the site gives: the surveyed opening, how a frame is set in it, its sill, and the wall round it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Any, Literal, NoReturn

from pydantic import Field

from elevations.spec.block import Block
from elevations.spec.fields import Reads, Switch, Text, length, refuse, short
from elevations.spec.lengths import LENGTH_PATTERN, NotALength, range_fault, read_length
from elevations.spelling import nearest
from elevations.yaml_source import raw_text

OPENING_WIDTH_MM = (250, 6100)
OPENING_HEIGHT_MM = (100, 4200)   # springings of an arch are low; a frame is at least 200
DIAGONAL_MM = (350, 7400)
Pair = tuple[float, float]
Triple = tuple[float, float, float]
FrameSide = Literal["left", "right", "head", "sill"]
Masonry = Literal["brick", "stone", "block", "concrete", "timber"]


def _measured(low: float, high: float, places: Sequence[str], least: int) -> Reads:
    """One length, or a list of at least `least` and at most one for each place; a single length holds for all places."""
    most = len(places)

    def read(value: Any) -> tuple[float, ...]:
        if not isinstance(value, list | tuple):
            return (_one(value, low, high, ""),) * least
        if not least <= len(value) <= most:
            refuse("measure-count", f"{{key}} has {len(value)} lengths; give {', '.join(places)}, or one length")
        return tuple(_one(item, low, high, f", {place}") for item, place in zip(value, places, strict=False))

    one = {"type": ["number", "string"], "minimum": low, "maximum": high, "pattern": LENGTH_PATTERN}
    return Reads(read, {"oneOf": [one, {"type": "array", "items": one, "minItems": least, "maxItems": most}]})


def _one(value: Any, low: float, high: float, place: str) -> float:
    mm = read_length(value)
    if isinstance(mm, NotALength):
        refuse("not-a-length", f"{{key}}{place}: {mm.message}", mm.hint)
    fault = range_fault(value, mm, low, high)
    if fault is not None:
        refuse("out-of-range", f"{{key}}{place} {fault.message}", fault.hint)
    return mm   # no opening is so small that metres would pass its range


HEADS = ("level", "raked", "arched", "pointed")
ARCHES = ("arched", "pointed")
"""Heads whose middle height is to a crown, and whose outer heights are to springings."""
OpeningHead = Literal["level", "raked", "arched", "pointed"]
OTHER_HEADS = {
    "segmental": "arched", "semicircular": "arched", "arch": "arched", "curved": "arched", "round": "arched", "gothic": "pointed", "lancet": "pointed",
    "sloped": "raked", "sloping": "raked", "slanted": "raked", "flat": "level", "square": "level", "straight": "level", "rectangular": "level",
}
"""Other words for them; common practice, no source."""
UNSURVEYED_HEADS = {
    "elliptical": "no frame is made with such a head here; a template taken on site is what its maker needs",
    "gable": "measure eaves and apex, and give the frame's own size with `head: {gable: …}`, less the clearance",
    "circular": "measure its diameter level, plumb and both ways between; `circular: {diameter: …}` is the smallest less the clearance",
}
"""Shapes whose opening has no survey here, and what would do."""


def _head(value: Any) -> str:
    if not isinstance(value, str) or value not in HEADS:
        _no_head(value)
    return str(value)


def _no_head(value: Any) -> NoReturn:
    if isinstance(value, dict):
        kind = next(iter(value), "arched")
        refuse(
            "unknown-choice", "{key} of an opening is one word; how far it rises stands in its heights",
            f"write `head: {kind if kind in HEADS else 'arched'}`, and `height: [left springing, crown, right springing]`",
        )
    word = str(raw_text(value) or "").strip().casefold()
    meant = OTHER_HEADS.get(word) or nearest(word, HEADS)
    hint = UNSURVEYED_HEADS.get(word) or (f"did you mean '{meant}'?" if meant else "")
    refuse("unknown-choice", f"'{short(value)}' is not one of the choices for {{key}}: {', '.join(HEADS)}", hint)


Widths = Annotated[Triple, _measured(*OPENING_WIDTH_MM, ("top", "middle", "bottom"), 3)]
Heights = Annotated[Triple, _measured(*OPENING_HEIGHT_MM, ("left", "centre", "right"), 3)]
Diagonals = Annotated[
    tuple[float, ...], _measured(*DIAGONAL_MM, ("top left to bottom right", "top right to bottom left"), 1)
]


class Opening(Block):
    """The hole in the wall as surveyed, seen from outside, at the plane where the frame will sit."""

    head: Annotated[OpeningHead, Reads(_head, {"enum": list(HEADS)})] = Field(
        "level", description="The shape of its head, which the frame's head follows: one slope, one circular arc, or two arcs that meet "
        "in a point. Under an arch 'top' is at the springing, where the jambs end and the curve begins.", examples=["arched"],
    )
    width: Widths = Field(
        description="Level width at the top, the middle and the bottom, mm; or one width. The top: at the springing of an arch, at the "
        "lower jamb's top under a slope.", examples=["[1811, 1808, 1810]"],
    )
    height: Heights = Field(
        description="Height at the left, the centre and the right, mm; or one height. Under an arch: to the left springing, to the crown, "
        "to the right springing.", examples=["[1213, 1211, 1214]"],
    )
    diagonals: Diagonals | None = Field(
        None, description="Top left to bottom right, then top right to bottom left, mm. The first gives the shape, the second checks it. "
        "Under an arch or a slope from the ends of the jambs.", examples=["[2178, 2176]"],
    )
    out_of_level: Annotated[float, length(-150, 150)] = Field(
        0, description="How much higher the right end of the sill is than the left; negative where it is lower, mm.", examples=[2]
    )


class AddOns(Block):
    """Profiles that make the frame larger, by their face width on each side."""

    left: Annotated[float, length(0, 300)] = Field(0, description="On the left, mm.", examples=[20])
    right: Annotated[float, length(0, 300)] = Field(0, description="On the right, mm.", examples=[20])
    head: Annotated[float, length(0, 300)] = Field(0, description="On the head, mm.", examples=[40])
    sill: Annotated[float, length(0, 300)] = Field(0, description="Under the frame, above a sill, mm.", examples=[20])


class Reveal(Block):
    """How the wall meets the frame."""

    kind: Literal["square", "check", "inner-leaf"] = Field(
        "square",
        description="square: the frame stands in the opening. check: the outer leaf laps the frame at jambs and head. "
        "inner-leaf: the frame stands in the inner leaf's opening.",
        examples=["check"],
    )
    lap: Annotated[float, length(5, 150)] | None = Field(
        None, description="How much of the frame a check hides at each jamb and the head, mm.", examples=[25]
    )
    behind: Annotated[float, length(0, 100)] | None = Field(
        None, description="Between frame and wall behind a check, at each jamb and the head, mm: half of what the hole measured there is wider than the frame; "
        "left out, 10 is taken, and said to be.", examples=[12],
    )
    sash_clear: Annotated[float, length(0, 50)] = Field(
        5, description="Least distance between a check's edge and a sash that opens out beside it, mm.", examples=[8]
    )
    lining: Annotated[float, length(0, 100)] = Field(
        0, description="Board or plaster still to come on each jamb and the head of an inner leaf's opening, mm.", examples=[13]
    )


class Joint(Block):
    """Which gaps a sealant joint can bridge, and how deep it is."""

    least: Annotated[float, length(2, 30)] = Field(5, description="Narrowest joint, mm.", examples=[5])
    most: Annotated[float, length(3, 60)] = Field(15, description="Widest joint; beyond it a trim is needed, mm.", examples=[15])
    sealant_depth: Annotated[float, length(0, 40)] | None = Field(
        None, description="Depth of the sealant, mm; left out, the workshop's (workshop: seal).", examples=[8]
    )
    foam_depth: Annotated[float, length(0, 200)] | None = Field(
        None, description="Depth of the foam, mm; left out, the workshop's (workshop: seal).", examples=[60]
    )


class Tolerances(Block):
    """How true a frame must stand before it is sealed; common practice, no source."""

    plumb: Annotated[float, length(0.5, 20)] = Field(3, description="Out of level or plumb over any member, mm.", examples=[3])
    diagonals: Annotated[float, length(0.5, 30)] = Field(5, description="Difference of the frame's two diagonals, mm.", examples=[4])
    bow: Annotated[float, length(0.5, 20)] = Field(2, description="Bow of any member, mm.", examples=[2])


class Fit(Block):
    """How a frame is sized from its opening."""

    clearance: Annotated[float, length(0, 80)] | None = Field(
        None, description="Taken off the width and off the height, both sides together, mm; left out, from the table of clearances.",
        examples=[10],
    )
    round_to: Annotated[float, length(1, 10)] = Field(1, description="Frame sizes are rounded down to a multiple of this, mm.", examples=[5])
    head_allowance: Annotated[float, length(0, 200)] = Field(
        0, description="Kept free over the frame besides the clearance, mm: for a vent, or a lintel that sags.", examples=[10]
    )
    add_ons: AddOns = Field(AddOns(), description="Frame extensions; their widths come off the frame.", examples=["{head: 40}"])
    closing_limit: Annotated[float, length(0.5, 50)] = Field(
        5, description="Largest closing error of the diagonals before the opening must be measured again, mm.", examples=[5]
    )
    trim_diagonals: Annotated[float, length(0.5, 100)] = Field(
        10, description="Diagonals that differ by more ask for cover trims, mm.", examples=[10]
    )
    reveal: Reveal = Field(Reveal(), description="How the wall meets the frame.", examples=["{kind: check, lap: 25}"])
    tolerances: Tolerances = Field(Tolerances(), description="How true the frame must stand.", examples=["{plumb: 3, diagonals: 5}"])
    joint: Joint = Field(Joint(), description="Which gaps a sealant joint can bridge, and its depths.", examples=["{least: 5, most: 15}"])


class Screw(Block):
    """A frame fixing; what is left out comes from the table of anchors."""

    embedment: Annotated[float, length(8, 250)] | None = Field(None, description="Least depth in the wall, mm.", examples=[60])
    frame_drill: Annotated[float, length(2, 20)] = Field(6.2, description="Drill through the frame and its steel, mm.", examples=[6.2])
    wall_drill: Annotated[float, length(0, 20)] | None = Field(None, description="Drill in the wall, mm; 0 for none.", examples=[6])
    packer: Annotated[float, length(0, 60)] | None = Field(
        None, description="Packer between frame and wall, mm, where no opening was surveyed; a surveyed gap is packed as wide as it is. Left out: the clearance.",
        examples=[5],
    )
    edge: Annotated[float, length(0, 200)] | None = Field(
        None, description="Least distance from the edge of the wall, the leaf or the lintel that it goes into, and of its tip from a lintel's top, mm.",
        examples=[30],
    )


class Bracket(Block):
    """Brackets and straps: on the frame's edge, screwed to the wall further in; what is left out comes from the system, else from the table of anchors."""

    sides: tuple[FrameSide, ...] = Field(
        (), description="Sides held by brackets rather than by screws through the frame. Over a sill, and under a lintel that may not be "
        "drilled, there are brackets anyway.", examples=["[left, right]"],
    )
    reach: Annotated[float, length(20, 600)] | None = Field(
        None, description="From the frame's inner face to the furthest hole that takes a screw into the wall, mm.", examples=[120]
    )


class Sill(Block):
    """The sill under the frame."""

    projection: Annotated[float, length(20, 400)] = Field(
        description="From the frame's outer face to the sill's front edge, mm.", examples=[150]
    )
    horns: Annotated[float, length(0, 300)] = Field(0, description="What it runs past the frame on each side, mm.", examples=[40])
    height: Annotated[float, length(5, 200)] = Field(30, description="Height under the frame; comes off the frame's height, mm.", examples=[30])
    packers: Annotated[float, length(0, 60)] = Field(0, description="Packers under it; come off the frame's height, mm.", examples=[5])
    upstand: Annotated[float, length(0, 60)] = Field(0, description="Its upstand behind the frame's inner face, mm.", examples=[20])
    end_caps: Switch = Field(default=True, description="Whether its ends are capped.", examples=[True])
    fall: Annotated[float, length(0, 60)] = Field(8, description="How much lower its front edge is than its top at the frame, mm.", examples=[8])
    drip: Annotated[float, length(2, 60)] = Field(6, description="From its front edge back to the drip groove, mm.", examples=[6])
    drip_clear: Annotated[float, length(0, 100)] = Field(
        25, description="Least distance of the drip before the wall's finished face, mm.", examples=[25]
    )


class Lintel(Block):
    """What carries the wall over the opening."""

    kind: Literal["concrete", "steel", "stone", "brick", "timber"] | None = Field(
        None, description="Its material; left out, taken as steel over a cavity wall and as concrete over a solid one, and said to be.",
        examples=["steel"],
    )
    height: Annotated[float, length(50, 600)] = Field(215, description="Its height, mm.", examples=[215])
    drilling: Switch = Field(default=True, description="false where it may not be drilled: no screw and no bracket then holds in it.", examples=[False])
    barred_by: Text = Field("", description="What bars drilling, where `drilling` is false.", examples=["prestressed wires"])


class WindowBoard(Block):
    """The board inside, on the wall under the frame."""

    thickness: Annotated[float, length(6, 80)] = Field(22, description="Thickness, mm.", examples=[22])
    nosing: Annotated[float, length(0, 200)] = Field(30, description="What it runs past the inner face of the wall, mm.", examples=[30])


class Wall(Block):
    """The wall round the opening, from outside in."""

    material: Masonry = Field(description="Of a solid wall, or of a cavity wall's outer leaf.", examples=["brick"])
    thickness: Annotated[float, length(50, 1200)] = Field(description="Of a solid wall, or of a cavity wall's outer leaf, mm.", examples=[215])
    cavity: Annotated[float, length(0, 300)] = Field(0, description="Cavity, mm; 0 for a solid wall. It is drawn with a closer.", examples=[100])
    inner: Annotated[float, length(0, 400)] = Field(0, description="Inner leaf of a cavity wall, mm.", examples=[100])
    inner_material: Masonry = Field("block", description="Of a cavity wall's inner leaf.", examples=["block"])
    cavity_overlap: Annotated[float, length(0, 200)] = Field(
        30, description="Least length of the cavity that the frame stands across, mm; 0 where that need not be.", examples=[30]
    )
    render: Annotated[float, length(0, 60)] = Field(0, description="Render outside, mm.", examples=[20])
    plaster: Annotated[float, length(0, 60)] = Field(13, description="Plaster inside, mm.", examples=[13])
    frame_at: Annotated[float, length(0, 900)] = Field(
        description="From the wall's finished outer face to the frame's outer face, mm.", examples=[90]
    )
    lintel: Lintel = Field(Lintel(), description="What carries the wall over the opening.", examples=["{kind: steel, drilling: false}"])
    window_board: WindowBoard | None = Field(None, description="Board inside, under the frame.", examples=["{thickness: 22, nosing: 30}"])

    @property
    def whole(self) -> float:
        """From finished face to finished face, mm."""
        return self.render + self.thickness + self.cavity + self.inner + self.plaster

    @property
    def carried_by(self) -> str:
        """The lintel's material: as given, else steel over a cavity wall and concrete over a solid one; common practice, no source."""
        return self.lintel.kind or ("steel" if self.cavity else "concrete")
