"""The installer's sheet of joined windows, front and back on A3: sizes to tape and what goes up when; how, who lifts it, what to check."""

from __future__ import annotations

import math
from collections.abc import Iterator

from elevations.drawing.entities import Entity, Group, Placed, Sheet
from elevations.geometry.assembly import Step, assembly, frame_kg, joint_kg
from elevations.geometry.fit_fixing import holds
from elevations.geometry.joined import LOAD_BEARING, Joined
from elevations.geometry.window import Window
from elevations.plane import Box, Point
from elevations.schedules.lifting import people_to_lift, people_words
from elevations.schedules.table import tidy
from elevations.sheets import installer_words as said
from elevations.sheets.column import banner
from elevations.sheets.drawing_programs import without_tones
from elevations.sheets.factory import BINDING, INSIDE, MARGIN, PAPERS
from elevations.sheets.installer import COLUMN, LARGE, PAPER, ROOM, border_lines, with_page
from elevations.sheets.installer_setting import cautions
from elevations.sheets.joined import WAYS, placed_views, set_key, sills_block, size_rows
from elevations.sheets.title_block import WIDTH, Title, titled_block
from elevations.sheets.words import DEMONSTRATION
from elevations.spec.model import Job
from elevations.spec.site import Fit
from elevations.views.marking_figures import RADIUS, order_sign
from elevations.views.table import TEXT, Block, heading, paragraph, stack, table

GAP = 3.0
CORNERS_OF_TWO_POSTS = 4
STRAIGHT = 180.0
CHECKLIST = (
    "Opening measured again over the whole set, all heights and diagonals",
    "Nothing above bears on it, or what carries is in place as specified; wall over it held",
    "Sill or base level and straight along the whole set; packers at every jamb, coupler and post",
    "Pieces up in the order of the figures in circles, each plumb both ways before the next",
    "Couplers and posts bedded in sealant along their whole length, inside and out, tops and feet sealed",
    "Screws from each frame into coupler and post as each window's own sheet marks them; no packers, no foam there",
    "Overall sizes and diagonals within the tolerances before the ends are fixed for good",
    "Ends fixed to the wall, packed and foamed as the windows' own sheets say",
    "Sashes open without touching a post, a neighbour's sash or a handle",
)
OF_A_BAY = "Angles and projection of the plan as drawn, taped outside and inside"
FITTED = (
    "Width, top", "Width, middle", "Width, bottom", "Height, left", "Height, middle", "Height, right", "Diagonal \\", "Diagonal /", "Out of level",
)
FITTED_BAY = ("Width outside", "Width inside", "Projection", "Height, left", "Height, middle", "Height, right", "Diagonal \\", "Diagonal /", "Out of level")


def installer_set_sheets(joined: Joined, job: Job, style: str = "paper") -> list[Sheet]:
    """Front and back, on A3 whatever the job's paper. style 'model': no tones."""
    return [_front(joined, job, style), _back(joined, job)]


def _border() -> Box:
    width, height = PAPERS[PAPER]
    return Box(BINDING, MARGIN, width - MARGIN, height - MARGIN)


def _title(joined: Joined, job: Job, page: int) -> Title:
    return Title(f"{WAYS[joined.spec.way]} {joined.mark}", with_page(joined.location, page), len(job.windows) + int(joined.path[1]) + 1)


def _front(joined: Joined, job: Job, style: str) -> Sheet:
    border, apex = _border(), job.drawing.symbol_apex == "hinge"
    left = border.right - WIDTH
    area = Box(border.left, border.bottom, left, border.top).grown(-INSIDE)
    order = {step.name: step.number for step in assembly(joined)}
    placed, scale, _ = placed_views(joined, job, area, order=order)
    shown: tuple[Placed, ...] = tuple(without_tones(place) if style == "model" else place for place in placed)
    groups = (
        border_lines(border, left), Group("column", _column(joined, apex_at_hinge=apex).at(left + INSIDE, border.top - INSIDE), "order, pieces, sizes"),
        titled_block(_title(joined, job, 1), job.job, f"1:{scale:g}", PAPER, border.right, border.bottom),
    )
    place = f", {joined.location}" if joined.location else ""
    description = (
        f"Installer's sheet of {WAYS[joined.spec.way].lower()} {joined.mark}{place}, front: elevation"
        f"{'' if joined.plan is None else ', plan with the order of assembly'}, couplers and posts, overall sizes and what to tape, masses."
    )
    return Sheet(f"Fitting {WAYS[joined.spec.way].lower()} {joined.mark}{place}", description, *PAPERS[PAPER], shown, groups, scale)


def _column(joined: Joined, *, apex_at_hinge: bool) -> Block:
    """Pieces in their order, sizes, the key: the last two where there is room."""
    pieces, sizes = _pieces(joined), stack([heading("Sizes to tape, mm", COLUMN), table(("", "mm"), [*size_rows(joined), *_taped(joined)], COLUMN)])
    sills = sills_block(joined, COLUMN, TEXT)
    sizes = sizes if sills is None else stack([sizes, sills], GAP)
    more = [set_key(joined, COLUMN, TEXT, apex_at_hinge=apex_at_hinge)]
    more += [banner(DEMONSTRATION, COLUMN)] if joined.system.demonstration else []
    whole = stack([pieces, sizes, *more], GAP)
    return whole if whole.height <= ROOM else stack([pieces, sizes, *more[1:]], GAP)


def _pieces(joined: Joined) -> Block:
    """Each frame, coupler and post in the order in which it goes up, with its size, mass and who lifts it."""
    rows: list[tuple[str, ...]] = []
    for step in assembly(joined):
        if step.window is not None:
            kg, size = frame_kg(step.window), f"{_mm(step.window.width.value)} × {_mm(step.window.height.value)}"
            what = step.window.mark
        else:
            assert step.joint is not None
            kg, size, what = joint_kg(step.joint), _mm(step.joint.length.value), f"{step.joint.tag}, {step.joint.kind}"
        rows.append((str(step.number), what, size, "–" if kg is None else f"{kg:.0f}", "–" if kg is None else people_words(people_to_lift(kg))))
    note = "Frames with their sashes, without glass, hardware and steel: lift them unglazed. Glass is on each window's own sheet."
    return stack([heading("Pieces in the order of assembly", COLUMN), table(("No.", "Piece", "Size", "kg", "People"), rows, COLUMN, wide=1), paragraph(note, COLUMN)], 0.8)


def _taped(joined: Joined) -> Iterator[tuple[str, str]]:
    """The diagonals of a set in one plane; of a bay from each end to the corner of the furthest post, outside and inside."""
    plan = joined.plan
    if not joined.bay and all(w.frame.outline.is_box for w in joined.windows) and len({w.height.value for w in joined.windows if not joined.stacked}) <= 1:
        yield "Both diagonals, each", _mm(math.hypot(joined.width.value, joined.height.value))
    if plan is None or not joined.bay or len(plan.outer) < CORNERS_OF_TWO_POSTS:
        return
    posts = [joint.tag for joint in joined.joints if len(joint.widths) > 1]
    for end, tag, number in (("left", posts[-1], -2), ("right", posts[0], 1)):
        start = 0 if end == "left" else -1
        outer, inner = (_mm(math.dist(face[start], face[number])) for face in (plan.outer, plan.inner))
        yield f"Diagonal, {end} end to {tag}, outside", outer
        yield f"Diagonal, {end} end to {tag}, inside", inner


def _back(joined: Joined, job: Job) -> Sheet:
    """Steps in large text, what bears on it, what to tick off, boxes to write in."""
    border = _border()
    wide = (border.width - WIDTH) / 2 - 2 * INSIDE
    top, room = border.top - INSIDE, border.height - 2 * INSIDE
    lefts = [border.left + INSIDE, border.left + wide + 3 * INSIDE, border.right - WIDTH + INSIDE]
    steps = next((block for text in (LARGE, TEXT) if (block := _steps(joined, wide, text)).height <= room), _steps(joined, wide, TEXT))
    middle = [said.ticked((*CHECKLIST, OF_A_BAY) if joined.bay else CHECKLIST, wide, 1, LARGE), _load(joined, wide), cautions(wide, TEXT)]
    middle += [banner(DEMONSTRATION, wide)] if joined.system.demonstration else []
    boxes = stack([
        said.blanks("As fitted, mm", FITTED_BAY if joined.bay else FITTED, COLUMN, 3, high=15.0), said.blanks("Signed", said.SIGNED, COLUMN, 2, high=15.0),
        said.blanks("Notes, changes agreed", ("",), COLUMN, 1, high=60.0),
    ], 5.0)
    groups = (
        border_lines(border, lefts[1] - INSIDE, lefts[2] - INSIDE),
        *(Group(name, block.at(left, top), name) for name, block, left in zip(("steps", "checklist", "boxes"), (steps, stack(middle, 5.0), boxes), lefts, strict=True)),
        titled_block(_title(joined, job, 2), job.job, "", PAPER, border.right, border.bottom),
    )
    description = f"Installer's sheet of {WAYS[joined.spec.way].lower()} {joined.mark}, back: how it is put together, what bears on it, checklist, boxes, cautions."
    return Sheet(f"Fitting {WAYS[joined.spec.way].lower()} {joined.mark}: assembly", description, *PAPERS[PAPER], (), groups, 1.0)


def _steps(joined: Joined, width: float, text: float) -> Block:
    """A numbered paragraph a piece, and what is taped at the end."""
    blocks = [heading("Assembly, in the order of the figures", width)]
    indent = 2 * RADIUS + 3.0
    for step in assembly(joined):
        words = paragraph(_step_words(joined, step), width - indent, height=text)
        sign: tuple[Entity, ...] = tuple(order_sign(step.number, Point(RADIUS, -max(RADIUS, text / 2)), 1.0))
        blocks.append(Block((*sign, *words.at(indent, 0.0)), width, max(words.height, 2 * RADIUS + 0.4)))
    blocks.append(paragraph(_last_words(joined), width, height=text, bold=True))
    blocks.append(paragraph("These steps are common practice, no source; the system supplier's go before them.", width))
    return stack(blocks, 1.6)


def _step_words(joined: Joined, step: Step) -> str:
    if step.joint is not None:
        side = next(one.side for one in _window(joined, step.beside).neighbours if one.connector.tag == step.joint.tag)
        hold = holds(_window(joined, step.beside)).get(side)
        screws = f" with screws of {hold.length:g}" if hold is not None and hold.length else ""
        return f"{step.joint.tag}, {step.joint.profile}: bed it in sealant on the {side} of {step.beside} and screw it from that frame{screws}."
    assert step.window is not None
    free = [side for side in ("left jamb", "right jamb", "head", "sill") if side not in {one.side for one in step.window.neighbours}]
    walls = " and ".join(part for part in (", ".join(free[:-1]), free[-1]) if part)
    if not step.beside:
        return f"{step.window.mark}: stand it on its packers, level, plumb and in its place. Hold it at its {walls}, and don't fix it for good yet."
    angle = next(joint.angle for joint in joined.joints if joint.tag == step.beside)
    turned = f", at {angle:g} degrees to its neighbour, seen from the room" if angle != STRAIGHT else ""
    return f"{step.window.mark}: bring it against {step.beside}, sealed, plumb and flush{turned}; screw it into {step.beside}, then hold it at its {walls}."


def _last_words(joined: Joined) -> str:
    tolerances = joined.windows[0].site.fit.tolerances if joined.windows[0].site else Fit().tolerances
    sizes = "overall sizes, projection and both diagonals of the plan" if joined.bay else "overall width, height and both diagonals"
    return f"Tape {sizes}: equal within {tolerances.diagonals:g}, plumb within {tolerances.plumb:g}. Then fix the ends for good, fill and seal."


def _window(joined: Joined, mark: str) -> Window:
    return next(window for window in joined.windows if window.mark == mark)


def _load(joined: Joined, width: float) -> Block:
    """What bears on the set, and of a stack which frame stands on which."""
    spec = joined.spec
    found = {None: "Nobody has said whether a wall, floor or roof bears on it: find out before the old frame comes out.",
             True: "It carries load from above: not before posts, jacks and support during the work are specified by a licensed practice.",
             False: "Found on site: nothing above bears on it. Stop if that turns out otherwise."}[spec.carries_load]
    lines = [paragraph(found, width, height=LARGE, bold=spec.carries_load is not False)]
    if joined.stacked:
        for lower, upper in zip(joined.windows[1:], joined.windows, strict=False):
            glass = sum(pane.mass_kg for pane in upper.panes)
            kg = frame_kg(upper)
            mass = f", {kg + glass:.0f} kg with its glass" if kg is not None else f", {glass:.0f} kg of glass and its frame"
            lines.append(paragraph(f"{upper.mark}{mass}, stands on {lower.mark}.", width, height=LARGE))
    lines.append(paragraph(LOAD_BEARING, width, bold=True))
    return stack([heading("Who carries what", width), *lines], 0.8)


def _mm(value: float) -> str:
    return f"{tidy(value, 1)}"
