"""Pages of words that go with the customer's sheets: every window in words, what each choice means, and cautions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from elevations.checks.on_sheets import for_customer
from elevations.checks.said import ESTIMATES
from elevations.drawing.entities import Entity, Group, Sheet
from elevations.drawing.lettering import fit
from elevations.geometry.window import Window
from elevations.sheets import customer_words as words
from elevations.sheets.customer import Page, header
from elevations.sheets.customer_choices import choices
from elevations.sheets.factory import PAPERS
from elevations.spec.model import Job
from elevations.views.table import Block, heading, paragraph, stack

COLUMNS = 3
GUTTER, AFTER = 8.0, 2.2
"""Between columns, and under each entry, mm."""


def notes_sheets(windows: Sequence[Window], job: Job, design: Mapping[str, str]) -> list[Sheet]:
    """As many pages as the words take. `design`: each window's design number, by its mark."""
    page = Page(*PAPERS[job.drawing.sheet])
    inner, top = page.inner, page.inner.top - 21 * page.k
    width = (inner.width - GUTTER * (COLUMNS - 1)) / COLUMNS
    columns = _columns(list(_blocks(windows, job, design, width, page.text(2.5))), top - inner.bottom)
    sheets = []
    for first in range(0, len(columns), COLUMNS):
        items: list[Entity] = []
        for place, column in enumerate(columns[first : first + COLUMNS]):
            items += stack(column, AFTER).at(inner.left + place * (width + GUTTER), top)
        title = fit(job.job.site or "Your windows", inner.width * 0.6, page.text(7.0), bold=True)
        groups = (header(page, title, "In words", job.job), Group("words", tuple(items), "the windows in words"))
        said = "Every window in words, what each choice means, and cautions."
        sheets.append(Sheet("The windows in words", said, page.width, page.height, (), groups, 1.0))
    return sheets


def _blocks(windows: Sequence[Window], job: Job, design: Mapping[str, str], width: float, text: float) -> Iterator[Block]:
    yield heading("The windows", width)
    for window in windows:
        several = len(window.lights) > 1
        lines = [", ".join(part for part in (words.size_words(window), words.sill_words(window)) if part)]
        lines += [f"{joined}." for joined in (words.joined_words(window),) if joined]
        lines += [
            f"{words.numbers(lights)}: {said}." if several else f"{said[0].upper()}{said[1:]}." for said, lights in words.grouped(window.lights)
        ]
        lines += [f"{parts}: {said[0].lower()}{said[1:]}." if parts else f"{said}." for parts, said in words.glasses(window)]
        lines.append(f"Outside {words.finish_words(window.finish.outside)}, inside {words.finish_words(window.finish.inside)}.")
        lines += for_customer(window, job)
        name = f"{words.name_of(window)} ({window.mark})" if window.location else words.name_of(window)
        yield _entry(f"{name}, design {design[window.mark]}", lines, width, text)
    yield heading("What each choice means", width)
    for term, meaning in choices(windows):
        yield _entry(term, [meaning], width, text)
    yield heading("Please note", width)
    demonstration = any(window.system.demonstration for window in windows)
    for said in (words.FROM_OUTSIDE, words.CONFIRM, *words.CAUTIONS, ESTIMATES, *((words.DEMONSTRATION,) if demonstration else ())):
        yield paragraph(said, width, height=text)


def _entry(title: str, lines: Sequence[str], width: float, text: float) -> Block:
    return stack([paragraph(title, width, height=text, bold=True), *(paragraph(line, width, height=text) for line in lines)])


def _columns(blocks: Sequence[Block], height: float) -> list[list[Block]]:
    """Blocks one under the other in columns of that height; a heading never ends one."""
    columns: list[list[Block]] = [[]]
    used = 0.0
    for block, after in zip(blocks, [*blocks[1:], None], strict=True):
        is_heading = len(block.items) > 1 and block.height < 6.0 and after is not None
        needs = block.height + AFTER + (after.height if is_heading and after is not None else 0.0)
        if columns[-1] and used + needs > height:
            columns.append([])
            used = 0.0
        columns[-1].append(block)
        used += block.height + AFTER
    return columns
