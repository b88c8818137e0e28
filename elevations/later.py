"""A value that is made when it is first asked for: a glass schedule need not wait for mitres and fixings."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

Made = TypeVar("Made")


class Later(Generic[Made]):
    """Calls `make` with its arguments once, when first called, and keeps what it gave. Pickles as what it is."""

    __slots__ = ("_arguments", "_made", "_make")

    def __init__(self, make: Callable[..., Made], *arguments: object) -> None:
        self._make: Callable[..., Made] | None = make
        self._arguments = arguments
        self._made: Made | None = None

    def __call__(self) -> Made:
        if self._make is not None:
            self._made = self._make(*self._arguments)
            self._make, self._arguments = None, ()
        return self._made  # type: ignore[return-value]  # made above, or earlier

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Later) and self() == other()

    def __hash__(self) -> int:
        return hash(self())
