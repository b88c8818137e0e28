"""Which of the job's sheets a drawing was made as: the one whose words it has most of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from elevations.geometry.window import Window
from elevations.sheets.readers import READERS, Standing
from elevations.spec.model import Job
from elevations.verify.annotation import Text
from elevations.verify.said import SheetSays, sheet_says
from elevations.verify.words import share_found

LEAST_SHARE = 0.5
"""A drawing with less than this share of a sheet's words is not that sheet."""


def sheet_of(window: Window, job: Job, standings: Sequence[Standing], found: Sequence[Text]) -> SheetSays | None:
    """What the sheet says today; None where the drawing is none of the job's sheets.

    `standings`: the ways in which the sheet may say how its approval stands.
    """
    shares = [(share_found(says, found), says) for says in _sheets(window, job, standings)]
    share, says = max(shares, key=lambda pair: pair[0])
    return says if share >= LEAST_SHARE else None


def _sheets(window: Window, job: Job, standings: Sequence[Standing]) -> Iterator[SheetSays]:
    """Every sheet that goes out as DXF, each page by itself."""
    for reader in READERS.values():
        if "model" in reader.styles:
            for standing in dict.fromkeys(standings):
                yield from (sheet_says(sheet) for sheet in reader.sheets(window, job, ("model",), standing)["model"])
