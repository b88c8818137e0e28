"""Pages in, files out: one file a format.

`FORMATS` lists them; what a format needs (ezdxf, svgwrite, reportlab) is imported when it first writes, not before.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from elevations.drawing.entities import Sheet


@dataclass(frozen=True, slots=True)
class Format:
    """A kind of file that a sheet can be written as."""

    key: str
    """As the user names it."""
    suffix: str
    write: Callable[[Sheet], bytes]
    """The whole file. The same sheet gives the same bytes."""
    ready: Callable[[], None] = field(repr=False)
    """Raises SpecError where what it needs is not installed; asked before the first file is written."""
    layout: str
    """paper: views on a page, each at its own scale. model: everything at the one scale of the sheet, true size."""
    pages: Callable[[Sequence[Sheet]], bytes] | None = field(default=None, repr=False)
    """Several sheets in one file; None where each takes a file of its own."""

    def names(self, stem: str, count: int) -> list[str]:
        """The files that so many sheets take: W1.svg; of several W1-1.svg and so on, or one that holds them all."""
        numbers = [""] if count == 1 or self.pages else [f"-{number}" for number in range(1, count + 1)]
        return [f"{stem}{number}{self.suffix}" for number in numbers]

    def files(self, sheets: Sequence[Sheet]) -> list[bytes]:
        """What stands in each of them."""
        return [self.pages(sheets)] if self.pages else [self.write(sheet) for sheet in sheets]


def _svg(sheet: Sheet) -> bytes:
    from elevations.export.svg import write_svg

    return write_svg(sheet).encode()


def _dxf(sheet: Sheet) -> bytes:
    from elevations.export.dxf import write_dxf

    return write_dxf(sheet)


def _dxf_with_layout(sheet: Sheet) -> bytes:
    from elevations.export.dxf import write_dxf

    return write_dxf(sheet, paper_space=True)


def _always() -> None:
    """What comes with the program itself."""


def _pdf_ready() -> None:
    from elevations.export.extras import require

    require("reportlab", "pdf", "writing PDF", "--format svg")


def _pdf(sheet: Sheet) -> bytes:
    return _pdf_pages([sheet])


def _pdf_pages(sheets: Sequence[Sheet]) -> bytes:
    _pdf_ready()
    from elevations.export.pdf import write_pdf

    return write_pdf(sheets)


FORMATS: dict[str, Format] = {
    "dxf": Format("dxf", ".dxf", _dxf, _always, "model"),
    "svg": Format("svg", ".svg", _svg, _always, "paper"),
    "pdf": Format("pdf", ".pdf", _pdf, _pdf_ready, "paper", _pdf_pages),
}

WITH_LAYOUT = {**FORMATS, "dxf": Format("dxf", ".dxf", _dxf_with_layout, _always, "model")}
"""The same, with the sheet of a DXF file in paper space: some readers lay that over the model, so it is for the asking."""
