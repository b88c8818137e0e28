"""What the installer's sheet says in words: how the frame is held, set true, glazed, checked and signed for."""

from __future__ import annotations

from collections.abc import Sequence

from elevations.drawing.entities import Entity, Label, Stroke
from elevations.drawing.layers import FINE, Layer
from elevations.geometry.assembly import frame_kg
from elevations.geometry.fit_fixing import Hold, holds, kind_of_side, packer_at
from elevations.geometry.setting_blocks import LEAST_LENGTH_MM, setting_blocks
from elevations.geometry.window import Window, whole_mm
from elevations.plane import Corner, Point
from elevations.schedules.glass_order import special_words
from elevations.schedules.lifting import MORE, people_to_lift, people_words
from elevations.views.marking_lights import how_it_opens
from elevations.views.table import TEXT, Block, heading, line, paragraph, stack, table

CHECKLIST = (
    "Opening measured again, all sides and both diagonals; wall over it is held while the old frame is out",
    "Frame, mark, hand and glass as drawn; nothing damaged",
    "Damp-proof course and cavity closer in place; loose stuff out of the opening",
    "Sill level, ends capped and sealed, drip clear of the wall",
    "Packers at every fixing, and at hinges and locks where they ask for it; none standing proud",
    "Frame level, plumb, square and out of twist before anything is pulled up",
    "Screws tightened in the order shown, each only until it bears; members still straight",
    "Screw heads at the bottom sealed; brackets used where the head can't be drilled; foam never alone",
    "Glass on its blocks as drawn, diagonals of sashes equal, beads fully home",
    "Sashes open, close and lock without force; restrictors and vents work; drainage open",
    "Gap filled, backer in, sealant unbroken inside and out; trims on",
    "Protection off, glass cleaned, way to open and to escape shown to the customer",
)
FEW, PAIR = 6, 2
"""Tags that are named, in a line and in a cell of a table; more are counted."""


def holding(window: Window, width: float) -> Block:
    """A row for each side: how many, what, how long; then the drills."""
    held = holds(window)
    blocks = [heading("Fixing", width)]
    alike: dict[str, dict[int, list[str]]] = {}
    for side, hold in held.items():
        count = sum(1 for point in window.fixings if kind_of_side(point.side) == side)
        alike.setdefault(hold.words(), {}).setdefault(count, []).append(side)
    for said, counts in alike.items():
        named = "; ".join(f"{_and(sides)}, {count}{' each' if len(sides) > 1 else ''}" for count, sides in counts.items())
        blocks.append(paragraph(f"{named[:1].upper()}{named[1:]}: {said}", width))
    if any(hold.how != "joint" for hold in held.values()):
        surveyed = window.site is not None and window.site.fitted is not None
        under = ' Those under it carry: as thick as "Setting true" says.' if surveyed else ""
        blocks.append(paragraph(f"Packers where drawn, outside the frame at every fixing into the wall{_packers(window)}.{under}", width))
    blocks.append(paragraph(_drills(list(held.values())), width, bold=True))
    return stack(blocks, 0.6)


def _packers(window: Window) -> str:
    """What fills the surveyed gap at each fixing of jambs and head; empty where no gap is known. Under the sill `packing_words` tells it."""
    alike: dict[str, list[str]] = {}
    for side in dict.fromkeys(kind_of_side(point.side) for point in window.fixings):
        thick = [mm for point in window.fixings if kind_of_side(point.side) == side and (mm := packer_at(window, point)) is not None]
        if thick and side != "sill":
            alike.setdefault(" · ".join(f"{mm:g}" for mm in thick), []).append(side)
    said = "; ".join(f"{_and(sides)} {each}" for each, sides in alike.items())
    return f": as the gap is there, jambs from the top, head from the left, {said}" if said else ""


def _and(names: Sequence[str]) -> str:
    return " and ".join(part for part in (", ".join(names[:-1]), names[-1]) if part)


def _drills(held: Sequence[Hold]) -> str:
    """Through the frame where something holds, and in the wall side by side: materials and so drills differ round a frame."""
    if not held:
        return "No fixings are asked for: foam alone never holds a frame."
    drilled = [hold for hold in held if hold.drilled]
    steel = ", steel and all, before: coloured profiles carry reinforcement" if any(hold.steel for hold in drilled) else ""
    said = [f"Drill {drilled[0].frame_drill:g} through the frame{'' if len(drilled) == len(held) else f' at {sides_words(drilled)} only'}{steel}"] if drilled else []
    unsettled = [hold for hold in held if hold.how == "screw" and hold.fails]
    if unsettled:
        said.append(f"{'drill' if said else 'Drill'} nothing at {sides_words(unsettled)} before it is settled what holds there")
    elif not said:
        said.append("Brackets all round: no hole through the frame")
    walls: dict[float, list[Hold]] = {}
    for hold in held:
        if hold.wall_drill is not None and not hold.fails:
            walls.setdefault(hold.wall_drill, []).append(hold)
    alike = len(walls) == 1 and len(next(iter(walls.values()))) == len(held)
    said += [f"{f'{mm:g}' if mm else 'no drill'} in the wall{'' if alike else f' at {sides_words(walls[mm])}'}" for mm in sorted(walls, reverse=True)]
    return "; ".join(said) + ". The fixing maker's figures go before these."


def sides_words(held: Sequence[Hold]) -> str:
    """'jambs and head'."""
    names = [hold.side for hold in held]
    if {"left jamb", "right jamb"} <= set(names):
        names = ["jambs", *(name for name in names if not name.endswith("jamb"))]
    return _and(names)


def glass_table(window: Window, width: float, most: int) -> Block:
    """Each unit with its size, mass and the people who lift it, the heaviest `most` of them; what is too heavy for two; how blocks are set."""
    alike: dict[tuple[str, ...], list[str]] = {}
    shown = sorted(sorted(window.panes, key=lambda pane: -pane.mass_kg)[:most], key=lambda pane: int(pane.tag[1:]))
    for pane in shown:
        made = "; ".join(part for part in (pane.make_up.make_up, special_words(pane.make_up)) if part)
        size = f"{whole_mm(pane.width.value)} × {whole_mm(pane.height.value)}"
        alike.setdefault((size, made, f"{pane.mass_kg:.0f}", people_words(people_to_lift(pane.mass_kg))), []).append(pane.tag)
    rows = [(", ".join(tags) if len(tags) <= PAIR else f"{tags[0]}, {len(tags) - 1} alike", *row) for row, tags in alike.items()]
    blocks = [heading("Glass", width), table(("Unit", "Size", "Make-up", "kg", "People"), rows, width, wide=2)]
    heavy = [pane.tag for pane in window.panes if people_to_lift(pane.mass_kg) == MORE]
    if heavy:
        blocks.append(paragraph(f"{_few(heavy)}: more than two people, or lifting gear", width, bold=True))
    said = [part for part in (_frame_words(window), _blocks_words(window)) if part]
    if len(shown) < len(window.panes):
        said.insert(0, f"The {len(shown)} heaviest of {len(window.panes)} units; the others are in the glass schedule.")
    return stack([*blocks, paragraph(" ".join(said), width)], 0.8)


def _frame_words(window: Window) -> str:
    """What the frame weighs before it is glazed; empty where the system gives no masses."""
    kg = frame_kg(window)
    if kg is None:
        return ""
    people = people_to_lift(kg)
    return f"Frame{' with sashes' if window.sashes else ''}, unglazed: {kg:.0f} kg" + (f", {people_words(people)} people." if people > 1 else ".")


def _blocks_words(window: Window) -> str:
    """How long blocks are, and which carry, of the ways in which this window's lights open."""
    length = max((block.length for block in setting_blocks(window)), default=LEAST_LENGTH_MM)
    said = f"Blocks {length:.0f} long, as wide as the unit and its back clearance."
    edges = {edge for sash in window.sashes if not sash.dummy for edge in sash.hinge_edges}
    if edges & {"left", "right"}:
        said += " Hung at a side: carried at the bottom by the hinges and at the top by the lock."
    if "top" in edges:
        said += " Hung at the top: carried near both lower corners."
    shaped = [pane.tag for pane in window.panes if pane.shaped]
    return said + (f" {_few(shaped)}: shaped, blocks as its maker says." if shaped else "")


def _few(tags: Sequence[str]) -> str:
    """'G1, G2', 'G1, G2, G3 and 4 more'."""
    return ", ".join(tags) if len(tags) <= FEW else f"{', '.join(tags[: FEW - 1])} and {len(tags) - FEW + 1} more"


def opening_list(window: Window, width: float, most: int) -> Block:
    """How each light opens, with its handle and restrictor; like ones together, at most so many kinds."""
    kinds: dict[str, list[str]] = {}
    for light in window.lights:
        kinds.setdefault(how_it_opens(light), []).append(" and ".join(pane.tag for pane in light.panes))
    lines = [paragraph(f"{_few(tags)}: {said}", width) for said, tags in list(kinds.items())[:most]]
    if len(kinds) > most:
        lines.append(paragraph(f"and {len(kinds) - most} more ways: see the lights in the drawing", width, bold=True))
    return stack([heading("How it opens, left and right from outside", width), *lines], 0.4)


def checklist(width: float, columns: int, text: float = TEXT) -> Block:
    """What to be sure of of one window."""
    return ticked(CHECKLIST, width, columns, text)


def ticked(entries: Sequence[str], width: float, columns: int, text: float = TEXT) -> Block:
    """A box to tick before each thing to be sure of, in columns."""
    gap, box = 5.0, text
    room = (width - gap * (columns - 1)) / columns
    rows = -(-len(entries) // columns)
    items: list[Entity] = []
    deepest = 0.0
    for column in range(columns):
        top, left = 0.0, column * (room + gap)
        for said in entries[column * rows : (column + 1) * rows]:
            items.append(square(left, top, box))
            words = paragraph(said, room - box - 2.0, height=text)
            items += words.at(left + box + 2.0, top)
            top -= words.height + text * 0.6
        deepest = max(deepest, -top)
    return stack([heading("Checklist", width), Block(tuple(items), width, deepest)])


def square(left: float, top: float, side: float) -> Stroke:
    """An empty box to tick."""
    corners = (Corner(left, top), Corner(left + side, top), Corner(left + side, top - side), Corner(left, top - side))
    return Stroke(corners, Layer.SHEET, closed=True, weight=FINE)


def blanks(title: str, names: Sequence[str], width: float, columns: int, *, high: float = 11.0) -> Block:
    """Boxes with small captions to write in."""
    room = width / columns
    items: list[Entity] = []
    for number, name in enumerate(names):
        row, column = divmod(number, columns)
        left, top = column * room, -row * high
        items += [
            line(left, top, left + room, top), line(left, top, left, top - high), line(left, top - high, left + room, top - high),
            line(left + room, top, left + room, top - high),
        ]
        items += [Label(name, Point(left + 1.2, top - 1.2), TEXT, level="top")] if name else []
    rows = -(-len(names) // columns)
    return stack([heading(title, width), Block(tuple(items), width, rows * high)])


AS_FITTED = (
    "Width, top", "Width, middle", "Width, bottom", "Height, left", "Height, centre", "Height, right", "Diagonal \\", "Diagonal /",
    "Gap, widest", "Gap, narrowest", "Out of level", "Out of plumb",
)
SIGNED = ("Fitted by", "Date", "Checked by", "Date", "Customer", "Date")
