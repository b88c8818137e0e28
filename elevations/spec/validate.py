"""What is wrong with a job that no single key shows: names that nothing has, bars that do not fit their lights.

Works on the data as read, before the model is built, so that these problems and those of single keys come together.
What has the wrong shape is passed over here: the model tells of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from elevations.errors import Path, Problem
from elevations.spec.division import lights_of, problems_of_division
from elevations.spec.fields import short
from elevations.spec.glass import problems_of_make_ups
from elevations.spec.joined import problems_of_joined
from elevations.spec.light import problems_of_light
from elevations.spec.marks import file_name, folded
from elevations.spec.opening import problems_of_opening, problems_of_setting
from elevations.spec.shape import problems_of_shape
from elevations.spelling import did_you_mean
from elevations.yaml_source import raw_text

MOST_WINDOWS = 2_000
MOST_LIGHTS = 400


def problems_in(data: dict[str, Any]) -> Iterator[Problem]:
    """Every such problem of a job's data, with its path."""
    yield from problems_of_make_ups(data.get("glass"))
    if isinstance(data.get("defaults"), dict):
        yield from problems_of_setting(data["defaults"], ("defaults",))
    windows = data.get("windows")
    if not isinstance(windows, list):
        return
    if not windows:
        yield Problem("no-windows", "the job has no windows", "list at least one", ("windows",))
    if len(windows) > MOST_WINDOWS:
        message = f"the job has {len(windows):,} windows; at most {MOST_WINDOWS:,} are read"
        yield Problem("too-many-windows", message, "split it into several jobs", ("windows",))
        return
    yield from _problems_of_marks(windows)
    for number, window in enumerate(windows):
        if isinstance(window, dict):
            yield from _problems_of_window(window, ("windows", number))
    yield from _problems_of_glass_names(data, windows)
    yield from problems_of_joined(data)


def _problems_of_window(window: dict[str, Any], path: Path) -> Iterator[Problem]:
    yield from problems_of_shape(window, path)
    yield from problems_of_opening(window, path)
    yield from problems_of_division(window, path)
    count = 0
    for light, where in lights_of(window, path):
        yield from problems_of_light(light, where)
        count += 1
    if count > MOST_LIGHTS:
        message = f"the window has {count} lights; at most {MOST_LIGHTS} are drawn"
        yield Problem("too-many-lights", message, "split it into several windows", (*path, "lights"))


def _problems_of_marks(windows: list[Any]) -> Iterator[Problem]:
    first: dict[str, tuple[int, str]] = {}
    for number, window in enumerate(windows):
        raw = raw_text(window.get("mark")) if isinstance(window, dict) else None
        if not raw:
            continue
        mark = " ".join(raw.split())
        other, other_mark = first.setdefault(folded(file_name(mark)), (number, mark))
        path: Path = ("windows", number, "mark")
        if other == number:
            continue
        hint = f"window {other + 1} of the file has it already; give each window its own"
        if mark == other_mark:
            yield Problem("duplicate-mark", f"the mark '{short(mark)}' is given twice", hint, path)
        else:
            message = f"the marks '{short(other_mark)}' and '{short(mark)}' would give files of the same name"
            yield Problem("duplicate-mark", message, "make them differ in more than capitals", path)


def _problems_of_glass_names(data: dict[str, Any], windows: list[Any]) -> Iterator[Problem]:
    make_ups = data.get("glass")
    if not isinstance(make_ups, dict) or not make_ups:
        return
    defaults = data.get("defaults")
    general = defaults.get("glass") if isinstance(defaults, dict) else None
    yield from _unknown_glass(general, ("defaults", "glass"), make_ups)
    without: list[str] = []
    first: Path = ("defaults", "glass")
    for number, window in enumerate(windows):
        if not isinstance(window, dict):
            continue
        own = window.get("glass")
        yield from _unknown_glass(own, ("windows", number, "glass"), make_ups)
        chosen = own is not None or general is not None or len(make_ups) == 1
        for light, where in lights_of(window, ("windows", number)):
            yield from _unknown_glass(light.get("glass"), (*where, "glass"), make_ups)
            if not chosen and light.get("glass") is None:
                first = first if without or isinstance(defaults, dict) else (*where, "glass")
                without.append(short(window.get("mark", f"window {number + 1}")))
                chosen = True
    if without:
        more = f" and {len(without) - 3} more" if len(without) > 3 else ""
        message = f"no glass is chosen for {', '.join(without[:3])}{more}, and the job has {len(make_ups)} make-ups"
        name = short(next(iter(make_ups)))
        hint = f"name one under `defaults`, for example `glass: {name}`"
        if not isinstance(defaults, dict):
            hint = f"for all windows that name none: `defaults: {{glass: {name}}}`, a block beside `windows`"
        yield Problem("no-glass", message, hint, first)


def _unknown_glass(name: Any, path: Path, make_ups: dict[str, Any]) -> Iterator[Problem]:
    text = raw_text(name)
    if text is None or " ".join(text.split()) in make_ups:
        return
    known = ", ".join(short(make_up) for make_up in list(make_ups)[:8])
    hint = did_you_mean(text, make_ups) or f"the job's make-ups are {known}"
    yield Problem("unknown-glass", f"there is no glass make-up '{short(name)}'", hint, path)
