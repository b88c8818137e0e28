"""What only some installations have: asked for before it is used, so that its lack is said in words."""

from __future__ import annotations

from importlib.util import find_spec

from elevations.errors import Problem, SpecError


def require(package: str, extra: str, purpose: str, without: str = "") -> None:
    """Raise SpecError unless the package is installed; `extra` is the group of pyproject that brings it.

    `without`: what can be had without it, as an option to type.
    """
    if find_spec(package) is None:
        hint = f"in this program's source folder: pip install '.[{extra}]'" + (f"; or do without: {without}" if without else "")
        raise SpecError([Problem("not-installed", f"{purpose} needs the package {package}, which is not installed", hint)])
