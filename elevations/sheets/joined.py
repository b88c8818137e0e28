"""The sheet of joined windows: developed elevation and true plan, sizes, couplers and posts, and the caution about load."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from elevations.drawing.entities import Entity, Group, Placed, Sheet
from elevations.drawing.entities import View as Picture
from elevations.geometry.joined import LOAD_BEARING, Joined, with_add_ons
from elevations.geometry.sill import cut_length, sill_ends
from elevations.plane import Box, Point
from elevations.schedules.table import tidy
from elevations.sheets import words
from elevations.sheets.approved import with_approval
from elevations.sheets.arrange import on_paper
from elevations.sheets.column import banner
from elevations.sheets.drawing_programs import without_tones
from elevations.sheets.factory import BINDING, INSIDE, LARGEST, LEGIBLE, MARGIN, PAPERS, border_of
from elevations.sheets.key import elevation_key
from elevations.sheets.readers import Sheets, Standing
from elevations.sheets.title_block import HEIGHT, WIDTH, Title, titled_block
from elevations.spec.model import Job
from elevations.views.developed import developed, title_words
from elevations.views.opening_symbol import symbol_lines
from elevations.views.plan import plan_view
from elevations.views.table import SMALL, TEXT, Block, heading, paragraph, stack, table

SCALES = (5.0, 10.0, 20.0, 50.0, 100.0)
"""ISO 5455 (from memory)."""
GAP, COLUMN_GAP = 10.0, 3.0
"""Between the two views, and between sections of the column, mm on paper."""
WAYS = {"side-by-side": "Coupled frames", "stacked": "Coupled frames", "bay": "Bay"}
"""What a set is called before its mark."""
JAMBS = "Fixings shown on the windows' own sheets for edges that meet go into the coupler or post, not into a wall."


def joined_sheets(joined: Joined, job: Job, standings: Sequence[Standing] = ()) -> Sheets:
    """The set's sheet in both styles; `standings` say how the approval of its windows stands, in their order."""
    made = {style: joined_sheet(joined, job, style) for style in ("paper", "model")}
    said = [f"{window.mark} {standing.words}" for window, standing in zip(joined.windows, standings, strict=False) if standing.words]
    if not said:
        return {style: (sheet,) for style, sheet in made.items()}
    warning = next((standing.warning for standing in standings if standing.warning), "")
    return {style: (with_approval(sheet, "; ".join(said), warning=warning),) for style, sheet in made.items()}


def joined_sheet(joined: Joined, job: Job, style: str = "paper") -> Sheet:
    """A set's sheet, everything at one scale; style 'model' leaves tones out, for a drawing program.

    A set that the job's paper can't show at a legible scale goes on A3.
    """
    paper: str = job.drawing.sheet
    views, scale, fits = placed_views(joined, job, _area(paper), LEGIBLE if paper != LARGEST else SCALES[-1])
    notes: tuple[str, ...] = ()
    apex = job.drawing.symbol_apex == "hinge"
    words_beside = _column(joined, paper, notes, apex_at_hinge=apex)
    if paper != LARGEST and (not fits or words_beside.height > _area(paper).height - HEIGHT):
        notes = (f"Set on {LARGEST}: it does not fit {paper} at a legible scale.",)
        paper = LARGEST
        views, scale, _ = placed_views(joined, job, _area(paper))
        words_beside = _column(joined, paper, notes, apex_at_hinge=apex)
    border = _border_box(paper)
    placed = tuple(without_tones(place) if style == "model" else place for place in views)
    items: tuple[Entity, ...] = words_beside.at(border.right - WIDTH + INSIDE, border.top - INSIDE)
    title = Title(f"{WAYS[joined.spec.way]} {joined.mark}", joined.location, len(job.windows) + int(joined.path[1]) + 1)
    groups = (
        border_of(border), Group("column", items, "tables and notes"),
        titled_block(title, job.job, f"1:{scale:g}", paper, border.right, border.bottom),
    )
    place = f", {joined.location}" if joined.location else ""
    return Sheet(f"{title.name}{place}", _said(joined), *PAPERS[paper], placed, groups, scale)


def _said(joined: Joined) -> str:
    marks = ", ".join(window.mark for window in joined.windows)
    order = "from the top" if joined.stacked else "from the left"
    seen = title_words(joined) + ("" if joined.plan is None else " and true plan")
    return (
        f"{WAYS[joined.spec.way]} {joined.mark}: windows {marks} {order}, {tidy(joined.width.value, 1):g} by "
        f"{tidy(joined.height.value, 1):g} mm{' developed' if joined.bay else ''}. {seen}, sizes, couplers and posts."
    )


def _border_box(paper: str) -> Box:
    width, height = PAPERS[paper]
    return Box(BINDING, MARGIN, width - MARGIN, height - MARGIN)


def _area(paper: str) -> Box:
    border = _border_box(paper)
    return Box(border.left, border.bottom, border.right - WIDTH, border.top).grown(-INSIDE)


def placed_views(
    joined: Joined, job: Job, area: Box, smallest: float = SCALES[-1], order: Mapping[str, int] | None = None
) -> tuple[list[Placed], float, bool]:
    """The elevation, and the plan below it in line, in the middle of the area at the largest scale at which both fit.

    `order`: when each frame and joint goes up, to be shown too. Gives the scale too, and whether they fit; at the smallest
    scale they are placed, fit or not.
    """
    placed: list[Placed] = []
    scale, fits = SCALES[0], False
    for scale in (scale for scale in SCALES if scale <= smallest):
        front = developed(joined, scale, apex_at_hinge=job.drawing.symbol_apex == "hinge", order=order)
        pictures = [(front, joined.width.value / 2)]
        pictures += [] if joined.plan is None else [(plan_view(joined, scale, order), joined.plan.width.value / 2)]
        placed, fits = _stacked(pictures, area, scale)
        if fits:
            break
    return placed, scale, fits


def _stacked(pictures: Sequence[tuple[Picture, float]], area: Box, scale: float) -> tuple[list[Placed], bool]:
    """One below the other, the middles of what they show in line, and whether all fit. A picture comes with the x of that middle."""
    boxes = [on_paper(picture, scale) for picture, _ in pictures]
    left = min(box.left - middle / scale for box, (_, middle) in zip(boxes, pictures, strict=True))
    right = max(box.right - middle / scale for box, (_, middle) in zip(boxes, pictures, strict=True))
    height = sum(box.height for box in boxes) + GAP * (len(boxes) - 1)
    top, line = area.centre.y + height / 2, area.centre.x - (left + right) / 2
    placed = []
    for (picture, middle), box in zip(pictures, boxes, strict=True):
        placed.append(Placed(picture, scale, Point(line - middle / scale, top - box.top)))
        top -= box.height + GAP
    return placed, right - left <= area.width and height <= area.height


def _column(joined: Joined, paper: str, notes: Sequence[str], *, apex_at_hinge: bool) -> Block:
    """Everything in words, in smaller text where it would not fit above the title block."""
    room = _area(paper).height - HEIGHT
    block = _words(joined, TEXT, notes, apex_at_hinge=apex_at_hinge)
    return block if block.height <= room else _words(joined, SMALL, notes, apex_at_hinge=apex_at_hinge)


def _words(joined: Joined, text: float, notes: Sequence[str], *, apex_at_hinge: bool) -> Block:
    width = WIDTH - 2 * INSIDE
    facets = [(w.mark, w.location, f"{_mm(w.width.value)} × {_mm(w.height.value)}") for w in joined.windows]
    joints = [(j.tag, j.profile, f"{j.between[0]}–{j.between[1]}", _mm(j.length.value)) for j in joined.joints]
    order = "from the top" if joined.stacked else "from the left, seen from outside"
    system, finish = joined.system, joined.windows[0].finish
    codes = ", ".join(f"{code} {face}" for code, face in ((finish.outside, "outside"), (finish.inside, "inside")) if code)
    blocks = [
        stack([heading(f"Windows {order}", width), table(("Mark", "Location", "Frame"), facets, width, height=text, wide=1)]),
        stack([heading("Between them", width), table(("No.", "What", "Windows", "Cut length"), joints, width, height=text, wide=1),
               paragraph(f"Ends square; {system.name}{f', {codes}' if codes else ''}", width, height=text, lines=2)]),
        stack([heading("Sizes", width), table(("", "mm"), size_rows(joined), width, height=text)]),
    ]
    sills = sills_block(joined, width, text)
    blocks += [sills] if sills is not None else []
    if joined.findings:
        found = [paragraph(f"{f.subject}: {f.message}", width, height=text, lines=3) for f in joined.findings]
        blocks.append(stack([heading("To be settled", width), *found]))
    blocks.append(set_key(joined, width, text, apex_at_hinge=apex_at_hinge))
    blocks.append(stack([
        heading("Notes", width), *(paragraph(note, width, height=text) for note in notes),
        paragraph(LOAD_BEARING, width, height=text, bold=True), paragraph(JAMBS, width, height=text),
        paragraph(words.CONFIRM, width, height=text, bold=True), paragraph(words.CAUTIONS, width, height=SMALL),
    ]))
    if system.demonstration:
        blocks.append(banner(words.DEMONSTRATION, width))
    return stack(blocks, COLUMN_GAP)


def set_key(joined: Joined, width: float, text: float, *, apex_at_hinge: bool) -> Block:
    """The key to a set's elevation: the ways of opening that it has, and no others."""
    sashes = [sash for window in joined.windows for sash in window.sashes]
    kinds = {line.kind for window in joined.windows for light in window.lights for line in symbol_lines(light)}
    return elevation_key(sashes, width, text, apex_at_hinge=apex_at_hinge, kinds=kinds)


def size_rows(joined: Joined) -> list[tuple[str, str]]:
    """What the whole measures, in words and mm."""
    plan = joined.plan
    rows = [("Developed width, along the outer faces" if joined.bay else "Overall width", _mm(joined.width.value)),
            ("Overall height", _mm(joined.height.value))]
    with_ends = zip(rows, (joined.width.value, joined.height.value), with_add_ons(joined), strict=True)
    rows = [row for own, size, whole in with_ends for row in (own, *([("the same with add-ons", _mm(whole))] if whole > size else []))]
    if joined.bay and plan is not None:
        rows += [
            ("Overall width of the outer face, end to end", _mm(plan.width.value)),
            ("Projection of the outer face", _mm(plan.projection.value)),
            ("Overall width of the inner face, end to end", _mm(plan.inner_width.value)),
            ("Projection of the inner face", _mm(plan.inner_projection.value)),
        ]
    return rows


def sills_block(joined: Joined, width: float, text: float) -> Block | None:
    """The sills under the whole, each as it is cut; None without one."""
    rows = []
    for window in joined.windows:
        if window.site is None or window.site.sill is None:
            continue
        left, right = (end.words(caps=window.site.sill.end_caps) for end in sill_ends(window))
        rows.append((window.mark, _mm(cut_length(window)), f"left {left}; right {right}"))
    if not rows:
        return None
    return stack([heading("Sills", width), table(("Of", "Cut", "Ends"), rows, width, height=text, wide=2)])


def _mm(value: float) -> str:
    return f"{tidy(value, 1)}"
