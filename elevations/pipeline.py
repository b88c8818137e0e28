"""The whole flow on one screen: a job file in, its windows, schedules and drawings out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import nullcontext
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from elevations.catalogue.load import find_system
from elevations.catalogue.system import System
from elevations.errors import Finding, SpecError
from elevations.geometry.joined import Joined, check_joined, members_of, resolve_joined
from elevations.geometry.resolve import each_window, resolve_window
from elevations.geometry.window import Window
from elevations.schedules.explain import UnknownNameError
from elevations.schedules.hardware import all_findings
from elevations.schedules.table import Schedule
from elevations.sheets.readers import Sheets, Standing
from elevations.spec.load import LoadedJob, job_name, load_job, locate
from elevations.spec.marks import file_name
from elevations.spec.model import Job
from elevations.spec.model import Window as WindowSpec
from elevations.spelling import did_you_mean

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from elevations.export import Format

Row = TypeVar("Row")
OnFindings = Callable[[Sequence[Finding]], None]

CHUNK = 8
"""Windows handed to a worker at a time: about half a second of work."""
DEFAULT_READER = "factory"
ALONE = 24
"""Up to this many windows are drawn in this process: starting others takes longer."""


@dataclass(frozen=True, slots=True)
class Order:
    """What is to be drawn."""

    marks: tuple[str, ...]
    """Of windows and of sets of joined ones; empty for all."""
    formats: tuple[str, ...]
    """Keys of `export.FORMATS`."""
    folder: Path
    force: bool = False
    """Replace files that are another job's, or not as this program wrote them."""
    reader: str = ""
    """A key of `sheets.readers.READERS`; empty: the factory's sheet, approved or not."""
    unapproved: bool = False
    """Draw for a reader who needs approval what is not approved as it now is, and say so on the sheet."""
    paper_space: bool = False
    """DXF files with the sheet in a layout, only the views in the model."""

    def kinds(self) -> list[Format]:
        """The formats, as this order wants them written."""
        from elevations.export import FORMATS, WITH_LAYOUT

        known = WITH_LAYOUT if self.paper_space else FORMATS
        return [known[key] for key in self.formats]


@dataclass(frozen=True, slots=True)
class Piece:
    """A few windows for one worker: as they were asked for, because that is small to send and quick to resolve."""

    order: Order
    job: Job
    """Without its windows."""
    specs: tuple[tuple[int, WindowSpec, Standing], ...]
    """Number in the job, window, and how its approval stands."""
    beside: str
    name: str
    """Of the job, for the stamps of its files."""


def read(source: str) -> LoadedJob:
    """The job of a file, or of standard input for '-'. Raises SpecError with every problem of the spec."""
    return load_job(source)


def windows(loaded: LoadedJob, marks: Sequence[str] = ()) -> Iterator[Window]:
    """The resolved windows, one at a time. Raises SpecError with the problems of all of them and of their sets, after the last one."""
    wanted, members = set(known_marks(loaded, marks)), members_of(loaded.job)
    kept: dict[str, Window] = {}
    try:
        for window in each_window(loaded.job, _systems(folder_of(loaded))):
            if window.mark in members:
                kept[window.mark] = window
            if window.mark in wanted:
                yield window
        check_joined(loaded.job, kept)
    except SpecError as error:
        raise SpecError(locate(loaded.document, error.problems)) from None


def sets(loaded: LoadedJob, marks: Sequence[str] = (), there: Sequence[Window] = ()) -> list[Joined]:
    """The resolved sets of joined windows: all, or those of these marks. `there`: windows that are resolved already.

    Raises SpecError with the problems of all sets together.
    """
    members = members_of(loaded.job)
    if not members:
        return []
    found = {window.mark: window for window in there if window.mark in members}
    if len(found) < len(members):
        found = {window.mark: window for window in windows(loaded, tuple(members))}
    try:
        made = resolve_joined(loaded.job, found)
    except SpecError as error:
        raise SpecError(locate(loaded.document, error.problems)) from None
    return [joined for joined in made if not marks or joined.mark in marks]


def asked_for(loaded: LoadedJob, order: Order) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The marks of the windows that the order draws, and of the sets. Raises UnknownNameError for one that it can't."""
    from elevations.sheets.readers import READERS

    there = [spec.mark for spec in loaded.job.joined]
    wanted = tuple(mark for mark in there if mark in order.marks)
    drawn = READERS[order.reader or DEFAULT_READER].of_set is not None
    if wanted and not drawn:
        raise UnknownNameError(f"the {order.reader} has no sheet of joined windows such as '{wanted[0]}'", "leave it out, or draw it for the factory")
    if order.marks:
        own = [mark for mark in order.marks if mark not in there]
        return known_marks(loaded, own) if own else (), wanted
    return known_marks(loaded, ()), tuple(there) if drawn else ()


def known_marks(loaded: LoadedJob, marks: Sequence[str]) -> tuple[str, ...]:
    """These marks in the job's order, or all where none are given. Raises UnknownNameError for one that it does not have."""
    there = [window.mark for window in loaded.job.windows]
    for mark in marks:
        if mark not in there:
            guess = did_you_mean(mark, there)
            listed = ", ".join(there[:20]) + (", …" if len(there) > 20 else "")
            raise UnknownNameError(f"the job has no window '{mark[:60]}'", guess or f"it has {listed}")
    return tuple(mark for mark in there if mark in marks) if marks else tuple(there)


def folder_of(loaded: LoadedJob) -> str:
    """The folder that the job's own system files are named from: the job file's, the current one for '-'."""
    return str(Path(loaded.document.file).parent)


def _systems(beside: str) -> Callable[[str], System]:
    return partial(find_system, beside=beside)


def rows(loaded: LoadedJob, schedule: Schedule[Row], marks: Sequence[str] = ()) -> list[Row]:
    """Every row of a schedule, like ones joined; a set's own too, where all its windows are asked for.

    Raises SpecError with all problems.
    """
    chosen, members = set(known_marks(loaded, marks)), members_of(loaded.job)
    found: list[Row] = []
    kept: list[Window] = []
    for window in windows(loaded, marks):
        found += schedule.rows(window)
        kept += [window] if window.mark in members else []
    if schedule.of_joined is not None:
        for joined in sets(loaded, (), kept):
            if chosen.issuperset(window.mark for window in joined.windows):
                found += schedule.of_joined(joined)
    return list(schedule.joined(found))


def targets(loaded: LoadedJob, order: Order, pages: Mapping[str, int] | None = None) -> list[Path]:
    """The files that the order writes: windows, then sets of joined ones, each in its formats.

    `pages`: how many sheets each window takes, by its mark, where that is known; else windows of a reader whose sheets go by
    what is on them are resolved here (SpecError has all problems).
    """
    from elevations.sheets.readers import READERS

    marks, set_marks = asked_for(loaded, order)
    reader = READERS[order.reader or DEFAULT_READER]
    counts = pages
    if counts is None:
        counts = {window.mark: reader.pages(window, loaded.job) for window in windows(loaded) if window.mark in marks} if reader.pages else {}
    whole = [(mark, counts.get(mark, 1)) for mark in marks] + [(mark, reader.set_pages) for mark in set_marks]
    return [path for mark, count in whole for kind in order.kinds() for path in _targets(order, mark, kind, count)]


def _targets(order: Order, mark: str, kind: Format, count: int) -> list[Path]:
    """W1.svg; for another reader than the factory W1-customer.svg; of several pages W1-installer-1.svg and so on."""
    whose = f"-{order.reader}" if order.reader not in ("", DEFAULT_READER) else ""
    return [order.folder / name for name in kind.names(file_name(mark) + whose, count)]


def draw(
    loaded: LoadedJob, order: Order, workers: int, executor: Executor | None = None, on_findings: OnFindings | None = None
) -> Iterator[Path]:
    """Write the drawings, one file a window or set and format, and give each file's path when it is whole.

    Before the first file is written every window and set of the job is resolved (SpecError has all problems, and every window
    that is not approved where the reader needs it) and every file in the way is looked at (OthersFilesError names them
    all); `on_findings` hears what each window does not meet. `executor` takes the place of this machine's processes.
    """
    from elevations.approval.standing import Approvals
    from elevations.batch import chunks, in_order, process_pool
    from elevations.export.files import refuse_obstacles
    from elevations.sheets.readers import READERS

    for kind in order.kinds():
        kind.ready()
    marks, set_marks = asked_for(loaded, order)
    shown, members = members_of(loaded.job, set_marks), members_of(loaded.job)
    standings, pages = {}, {}
    pages_of = READERS[order.reader or DEFAULT_READER].pages
    approvals = Approvals(loaded, order.reader, unapproved=order.unapproved)
    kept: list[Window] = []
    for window in windows(loaded):
        kept += [window] if window.mark in members else []
        if window.mark not in marks and window.mark not in shown:
            continue
        standings[window.mark] = approvals.standing(window)
        pages[window.mark] = pages_of(window, loaded.job) if pages_of and window.mark in marks else 1
        if on_findings is not None:
            on_findings(all_findings(window) if window.mark in marks else ())
    joined = [one for one in sets(loaded, (), kept) if one.mark in set_marks]
    if on_findings is not None:
        on_findings([finding for one in joined for finding in one.findings])
    if approvals.problems:
        raise SpecError(locate(loaded.document, approvals.problems))
    name = job_name(loaded)
    refuse_obstacles([(path, b"") for path in targets(loaded, order, pages)], name, force=order.force)
    specs = [(number, spec, standings[spec.mark]) for number, spec in enumerate(loaded.job.windows) if spec.mark in marks]
    header = loaded.job.model_copy(update={"windows": ()})
    pieces = (Piece(order, header, chunk, folder_of(loaded), name) for chunk in chunks(specs, CHUNK))
    if executor is None and (workers == 1 or len(specs) <= ALONE):
        yield from (path for piece in pieces for path in _draw_piece(piece))
    else:
        with nullcontext(executor) if executor is not None else process_pool(workers) as pool:
            for paths in in_order(draw_piece, pieces, pool, workers):
                yield from paths
    of_set, styles = READERS[order.reader or DEFAULT_READER].of_set, sorted({kind.layout for kind in order.kinds()})
    for one in joined:
        assert of_set is not None   # `asked_for` gives sets only to a reader who has a sheet of them
        sheets = of_set(one, loaded.job, styles, [standings[window.mark] for window in one.windows])
        yield from _written(one.mark, sheets, order, name)


def draw_piece(piece: Piece) -> list[Path]:
    """What a worker does: draw its windows, and say which files it wrote."""
    return list(_draw_piece(piece))


def _draw_piece(piece: Piece) -> Iterator[Path]:
    from elevations.sheets.readers import READERS

    reader = READERS[piece.order.reader or DEFAULT_READER]
    for number, spec, standing in piece.specs:
        window = resolve_window(piece.job, spec, ("windows", number), _systems(piece.beside))
        job = piece.job.model_copy(update={"windows": (spec,)})
        sheets = reader.sheets(window, job, sorted({kind.layout for kind in piece.order.kinds()}), standing)
        yield from _written(spec.mark, sheets, piece.order, piece.name)


def _written(mark: str, sheets: Sheets, order: Order, job: str) -> Iterator[Path]:
    """Write the sheets of a window or set, given by layout, in every format of the order, for the job of this name."""
    from elevations.export.files import write_file

    for kind in order.kinds():
        pages = sheets[kind.layout]
        for path, data in zip(_targets(order, mark, kind, len(pages)), kind.files(pages), strict=True):
            write_file(path, data, job, force=order.force)
            yield path
