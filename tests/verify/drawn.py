"""The factory's or another reader's drawing of a job's first window, to be changed and held against the job."""

from __future__ import annotations

import ezdxf

from elevations.catalogue.load import find_system
from elevations.export.dxf import write_dxf
from elevations.geometry.resolve import resolve_job
from elevations.sheets.readers import READERS, Standing
from elevations.spec.load import parse_job
from elevations.verify.compare import differences
from elevations.verify.measured import measured
from elevations.verify.which_sheet import sheet_of
from tests.commands.typed import JOB


class Drawn:
    """The factory's drawing of a job's first window."""

    def __init__(self, folder, text=JOB, reader="factory", page=0):
        self.job = parse_job(text, "job.yaml").job
        self.window = resolve_job(self.job, find_system)[0]
        self.file = folder / "W1.dxf"
        self.file.write_bytes(write_dxf(READERS[reader].sheets(self.window, self.job, ("model",), Standing())["model"][page]))
        self.folder = folder

    def told(self, change=None, version="R2010"):
        document = ezdxf.readfile(self.file)
        document.dxfversion = version
        if change:
            change(document.modelspace())
        file = self.folder / "changed.dxf"
        document.saveas(file)
        return self.of(file)

    def of(self, file):
        found = measured(str(file))
        says = sheet_of(self.window, self.job, [Standing()], found.texts)
        assert says is not None
        return [(d.kind, d.subject, d.message) for d in differences(self.window, found, says)]

    def said(self, change):
        return [message for _, _, message in self.told(change)]
