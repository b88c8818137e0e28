"""What every block of a job file is."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class Block(BaseModel):
    """A block of the file; unknown keys are errors."""

    model_config = ConfigDict(extra="forbid", frozen=True)
