"""A frame's shape in the spec: its keys as each shape gives them, and whether its sizes can be made.

`head` holds one shape by its name; a shape that replaces the frame's size, such as a circle, is a key of the window.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import MISSING, dataclass, fields
from typing import Annotated, Any, cast

from pydantic import Field, GetCoreSchemaHandler, ValidationError, create_model
from pydantic_core import CoreSchema, core_schema

from elevations.errors import Path, Problem
from elevations.shapes import SHAPES, Shape
from elevations.spec.block import Block
from elevations.spec.fields import length, refuse
from elevations.spec.lengths import NotALength, read_length

HEADS = {key: shape for key, shape in SHAPES.items() if not shape.replaces_frame}


@dataclass(frozen=True, eq=False)
class ReadsShape:
    """Reads a block of the spec into a shape: goes into Annotated beside `Shape`."""

    block: type[Block]
    make: Callable[[Any], Shape]

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """The block's own keys and words, then the shape from them."""
        return core_schema.no_info_after_validator_function(self.make, handler.generate_schema(self.block))


def _block_of(shape: type[Shape]) -> type[Block]:
    """The shape's keys as a block of the file."""
    keys: dict[str, Any] = {}
    for key in fields(shape):
        given = key.metadata
        kind: Any = Annotated[float, length(given["low"], given["high"])]
        needed = key.default is MISSING
        keys[key.name] = (
            kind if needed else kind | None,
            Field(... if needed else None, description=given["help"], examples=[given["example"]]),
        )
    return cast("type[Block]", create_model(shape.__name__, __base__=Block, __doc__=shape.help, **keys))


BLOCKS = {key: _block_of(shape) for key, shape in SHAPES.items()}


def _head_block() -> type[Block]:
    keys: dict[str, Any] = {
        key: (BLOCKS[key] | None, Field(None, description=shape.help, examples=[shape.example]))
        for key, shape in HEADS.items()
    }
    return cast("type[Block]", create_model("Head", __base__=Block, __doc__="The shape of a frame's head.", **keys))


def _head_of(block: Block) -> Shape:
    given = [key for key in HEADS if getattr(block, key) is not None]
    if len(given) != 1:
        count = "no shape" if not given else " and ".join(given)
        refuse("one-head", f"{{key}} holds {count}; a head has one shape", f"give one of {', '.join(HEADS)}")
    return SHAPES[given[0]](**dict(getattr(block, given[0])))


HEAD = ReadsShape(_head_block(), _head_of)
CIRCULAR = ReadsShape(BLOCKS["circular"], lambda block: SHAPES["circular"](**dict(block)))


def with_frame(window: dict[str, Any]) -> dict[str, Any]:
    """A window's data with the overall size filled in where its shape gives it: a circle's, a raked head's height."""
    shape = _shape_of(window)
    own = shape.own_height() if shape else None
    frame = window.get("frame", {})
    if shape is None or own is None or not isinstance(frame, dict) or ("frame" not in window and not shape.replaces_frame):
        return window
    width = {"width": own[0]} if shape.replaces_frame else {}
    return {**window, "frame": {"height": own[0], **width, **frame}}


def _shape_of(window: dict[str, Any]) -> Shape | None:
    """The shape that a window's data asks for; None where it asks for none, or not in a way that can be read."""
    for key, reads in (("circular", CIRCULAR), ("head", HEAD)):
        if isinstance(window.get(key), dict):
            try:
                return reads.make(reads.block.model_validate(window[key]))
            except (ValidationError, ValueError):
                return None  # the model tells of it
    return None


def problems_of_shape(window: dict[str, Any], path: Path) -> Iterator[Problem]:
    """What is wrong between a window's shape and its size."""
    if "circular" in window:
        for key in ("frame", "head"):
            if key in window:
                yield Problem(
                    "not-wanted",
                    f"'{key}' cannot stand beside 'circular'",
                    f"leave '{key}' out, or 'circular'",
                    (*path, key),
                )
    shape = _shape_of(window)
    frame = with_frame(window).get("frame")
    sizes = frame if isinstance(frame, dict) else {}
    width, height = _mm(sizes.get("width")), _mm(sizes.get("height"))
    if shape is None or width is None or height is None:
        return
    for wrong in shape.wrong(width, height):
        inside: Path = ("circular",) if shape.replaces_frame else ("head", shape.key)
        where: Path = tuple(wrong.key.split(".")) if "." in wrong.key else (*inside, wrong.key)
        yield Problem(wrong.code, wrong.message, wrong.hint, (*path, *where))


def _mm(value: Any) -> float | None:
    if value is None:
        return None
    mm = read_length(value)
    return None if isinstance(mm, NotALength) else mm
