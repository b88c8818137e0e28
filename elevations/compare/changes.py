"""What is different between two states of a window, in terms of the product: from the same facts that make its fingerprint."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from elevations.approval.facts import Fact

FOLLOWS = ("cut length", "fixings at")
"""What follows from something else that changed: said last, in one line."""
ALWAYS = ("frame", "finish", "profiles", "window")
"""Subjects that every window has, even where nothing is said of them."""
ARROW = "→"


@dataclass(frozen=True, slots=True)
class Change:
    """One difference."""

    subject: str
    """As in the facts: 'light 2', 'glass G2'."""
    what: str
    """What of it; empty where the whole subject is new or gone."""
    old: str | None
    new: str | None
    words: str
    """'hinge of light 2: left → right', 'glass W1-G2 526 × 948 → 531 × 948'."""

    @property
    def follows(self) -> bool:
        """Whether it only follows from another change."""
        return self.what.endswith(FOLLOWS)


def changes(mark: str, old: Sequence[Fact], new: Sequence[Fact]) -> list[Change]:
    """Every difference, the asked-for ones first, what follows from them last; in the order of the new window's facts."""
    before, after = _by_subject(old), _by_subject(new)
    found: list[Change] = []
    for subject in [*after, *(s for s in before if s not in after)]:
        if (subject not in before or subject not in after) and subject not in ALWAYS:
            found.append(_whole(mark, subject, before.get(subject), after.get(subject)))
        else:
            found += _parts(mark, subject, before.get(subject, {}), after.get(subject, {}))
    return sorted(found, key=lambda change: change.follows)


def _by_subject(facts: Sequence[Fact]) -> dict[str, dict[str, Fact]]:
    held: dict[str, dict[str, Fact]] = {}
    for fact in facts:
        held.setdefault(fact.subject, {})[fact.what] = fact
    return held


def _whole(mark: str, subject: str, before: Mapping[str, Fact] | None, after: Mapping[str, Fact] | None) -> Change:
    """A subject that is new or gone, with what tells it best."""
    facts = after or before or {}
    best = next((facts[what].words for what in ("size", "opening", "centre line") if what in facts), "")
    told = f"{named(subject, mark)}{', ' if best else ''}{best}"
    if after is None:
        return Change(subject, "", best or "there", None, f"{told}: taken out")
    return Change(subject, "", None, best or "there", f"{told}: new")


def _parts(mark: str, subject: str, before: Mapping[str, Fact], after: Mapping[str, Fact]) -> Iterator[Change]:
    for what in [*after, *(w for w in before if w not in after)]:
        old, new = before.get(what), after.get(what)
        if old and new and old.value == new.value:
            continue
        values = _shown(old, new)
        yield Change(subject, what, old.value if old else None, new.value if new else None, _words(mark, subject, what, *values))


def _shown(old: Fact | None, new: Fact | None) -> tuple[str, str]:
    """Both values for people: as short as they may be while they still differ."""
    if old and new:
        return (old.words, new.words) if old.words != new.words else (old.value, new.value)
    return (old.words if old else "none", new.words if new else "none")


def _words(mark: str, subject: str, what: str, old: str, new: str) -> str:
    if what in ("figures", "shape"):
        return f"{'figures or outlines' if what == 'figures' else what} of {named(subject, mark)} changed"
    if what == "size":
        return f"{named(subject, mark)} {old} {ARROW} {new}"
    if subject == "finish":
        return f"finish {what}: {old} {ARROW} {new}"
    return f"{what} of {named(subject, mark)}: {old} {ARROW} {new}"


def named(subject: str, mark: str) -> str:
    """'glass W1-G2' for 'glass G2': panes and sashes are called with their window's mark. Others stay."""
    kind, _, tag = subject.partition(" ")
    if kind in ("glass", "sash"):
        return f"{kind} {mark}-{tag}"
    return f"the {subject}" if subject in ("profiles", "window") else subject


def said(found: Sequence[Change]) -> list[str]:
    """The changes as lines, those that only follow together in one: but fixings that moved while no member did are the change."""
    following = [change for change in found if change.follows]
    if not any(change.what.endswith("cut length") or change.subject.startswith(("mullion", "transom")) for change in found):
        following = []
    lines = [change.words for change in found if change not in following]
    if following:
        named_once = list(dict.fromkeys(change.subject for change in following))
        lines.append(f"cut lengths and fixings follow: {', '.join(named_once)}")
    return lines
