"""Whether a window is approved as it now is, and the making of an approval."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from elevations.approval.facts import Fact, fingerprint, product_facts, short
from elevations.approval.record import Approval, Record, approvals_file, latest, read_record, write_record
from elevations.errors import Problem, SpecError
from elevations.geometry.window import Window
from elevations.spec.load import LoadedJob
from elevations.spec.model import Window as WindowSpec

APPROVED, CHANGED, NOT_APPROVED = "approved", "changed", "not approved"


@dataclass(frozen=True, slots=True)
class State:
    """How a window stands."""

    kind: str
    """approved, changed (it is not what was approved any more) or 'not approved'."""
    fingerprint: str
    """Of the window as it now is."""
    approval: Approval | None
    """The one that counts, where there is one."""
    facts: tuple[Fact, ...]

    @property
    def holds(self) -> bool:
        """Whether what was approved is what will be made."""
        return self.kind == APPROVED

    @property
    def words(self) -> str:
        """For title blocks and schedules: 'approved 2026-10-20 by A. Name (3f9a-1c2e)'."""
        if self.approval is None:
            return "not approved"
        if self.kind == APPROVED:
            return f"approved {self.approval.date} by {self.approval.by} ({short(self.fingerprint)})"
        return f"changed since approval {self.approval.date} ({short(self.approval.fingerprint)})"


def spec_of(loaded: LoadedJob, window: Window) -> WindowSpec:
    """What the job asks for this window."""
    number = window.path[1]
    assert isinstance(number, int)
    return loaded.job.windows[number]


def facts_of(loaded: LoadedJob, window: Window) -> tuple[Fact, ...]:
    """The facts of a window of the job."""
    return product_facts(window, spec_of(loaded, window), loaded.job.joined)


def record_of(loaded: LoadedJob) -> Record:
    """The job's approvals; none for a job from standard input. Raises SpecError where the file is damaged."""
    return Record((), None) if loaded.document.file == "<stdin>" else read_record(approvals_file(loaded.document.file))


def approval_state(loaded: LoadedJob, window: Window, record: Record | None = None) -> State:
    """How a window of the job stands. `record`: the job's approvals, where they are read already.

    Raises SpecError where the approvals file is damaged.
    """
    record = record_of(loaded) if record is None else record
    facts = facts_of(loaded, window)
    now = fingerprint(facts)
    approval = latest(record.approvals, window.mark)
    kind = NOT_APPROVED if approval is None else APPROVED if approval.fingerprint == now else CHANGED
    return State(kind, now, approval, facts)


def approve(loaded: LoadedJob, windows: Sequence[Window], by: str, on: str, expected: Iterable[str] = ()) -> list[State]:
    """Write that these windows, as they now are, were approved; gives how they stand then.

    `by` and `on` as `record.checked_name` and `checked_date` give them. `expected`: fingerprints, whole or short, that
    the signed paper shows; each window must have one of them. Raises SpecError with all that stands against it (or a
    damaged file), or OSError; then nothing is written.
    """
    if loaded.document.file == "<stdin>":
        raise SpecError([_against("a job from standard input has no place for its approvals", "name the job's file")])
    path = approvals_file(loaded.document.file)
    record = read_record(path)
    signed = [text.strip().casefold() for text in expected]
    problems: list[Problem] = []
    made: list[Approval] = []
    for window in windows:
        facts = facts_of(loaded, window)
        approval = Approval(window.mark, loaded.job.job.revision, by, on, fingerprint(facts), facts)
        problems += [*_unsigned(approval, signed), *_second(record, approval)]
        made.append(approval)
    if problems:
        raise SpecError(problems)
    write_record(path, record, [*record.approvals, *made])
    written = read_record(path)
    return [approval_state(loaded, window, written) for window in windows]


def _against(message: str, hint: str) -> Problem:
    return Problem("not-approvable", message, hint)


def _unsigned(approval: Approval, signed: Sequence[str]) -> Iterator[Problem]:
    """Something else was signed than what would be approved."""
    now = approval.fingerprint
    if signed and now not in signed and short(now) not in signed:
        message = f"window {approval.window} now has the fingerprint {short(now)}, which is not among those that were signed"
        yield _against(message, "it has changed since: send the pack again, or take the change back")


def _second(record: Record, approval: Approval) -> Iterator[Problem]:
    """One revision of a window is approved once."""
    for earlier in record.approvals:
        if (earlier.window, earlier.revision) != (approval.window, approval.revision):
            continue
        named = f"revision {approval.revision} of window {approval.window}" if approval.revision else f"window {approval.window}"
        said = f"{named} was approved already, on {earlier.date} by {earlier.by}"
        if earlier.fingerprint == approval.fingerprint:
            yield _against(said, "it has not changed since: there is nothing to do")
        else:
            yield _against(f"{said}, and has changed since", "give the job a new 'revision', then approve that")
