"""`elevations cut`: which pieces come out of which bar."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import click

from elevations.commands.options import job_argument, json_option, window_option

if TYPE_CHECKING:
    from elevations.cutting.job import BarSet
    from elevations.spec.load import LoadedJob


@click.command(short_help="Which pieces come out of which bar.")
@job_argument
@window_option
@json_option
@click.option("--csv", "as_csv", is_flag=True, help="Answer as CSV, a row a bar.")
@click.option("--pdf", "file", metavar="FILE", help="Draw every bar into this PDF file as well.")
@click.option("--force", is_flag=True, help="Replace FILE even if it is of another job, or something else wrote or changed it.")
@click.option("--time-limit", type=click.FloatRange(0, 600), metavar="SECONDS", default=5.0, show_default=True, help="For planning the bars.")
def command(*, job: str, marks: tuple[str, ...], as_json: bool, as_csv: bool, file: str | None, force: bool, time_limit: float) -> None:
    """Plan which pieces of JOB come out of which bar, off-cuts first, and say whether fewer bars are possible.

    Each bar is cut from its left end, in the order of its pieces; 'ends 45/45' are degrees between the long edge and the cut,
    top or left end first, 90 is square. Bars are as long as the system's; the job's `workshop` block gives the saw's kerf and trims and the off-cuts in
    the rack. Lengths in mm.

    \b
    elevations cut job.yaml
    elevations cut job.yaml --pdf bars.pdf
    """  # noqa: D301 (click wants the character, not its name)
    from elevations import pipeline
    from elevations.answers import print_json
    from elevations.cutting.job import bar_sets
    from elevations.schedules.cutting import CUTTING
    from elevations.schedules.table import as_csv as rows_as_csv
    from elevations.sheets.bars import BARS, bar_rows, saw_notes
    from elevations.sheets.workshop import stock_of, unused_off_cuts

    if as_json and as_csv:
        raise click.UsageError("--json and --csv exclude each other")
    loaded = pipeline.read(job)
    rows = pipeline.rows(loaded, CUTTING, marks)
    sets = bar_sets(rows, lambda group: stock_of(loaded.job, group), time_limit)
    if as_json:
        print_json([_data(bars) for bars in sets])
    elif as_csv:
        click.echo(rows_as_csv(BARS, list(bar_rows(sets))).encode(), nl=False)
    else:
        heads = [bars.plan.stock.saw_words for bars in sets] + [bars.plan.stock.bend_words for bars in sets if bars.bends]
        click.echo("\n".join(dict.fromkeys(heads)) + "\n")
        click.echo("\n\n".join(_text(bars) for bars in sets))
        for said in BARS.totals(list(bar_rows(sets))):
            click.echo(f"\nAll profiles: {said}")
    for said in saw_notes(sets):
        click.echo(said, err=True)
    for said in unused_off_cuts(loaded.job, rows):
        click.echo(f"note: nothing in this job is cut from the off-cut {said}", err=True)
    if file is not None:
        click.echo(_drawn(loaded, sets, marks, file, force=force), err=True)


def _text(bars: BarSet) -> str:
    """One profile: how good its plan is, then each bar with its pieces in the order of the saw."""
    plan = bars.plan
    lines = [bars.title, f"  {'; '.join(filter(None, (bars.ends_words, plan.method)))}"]
    for number, bar in enumerate(plan.bars, 1):
        pieces = ", ".join(f"{_mm(length)} {name}" for length, name in zip(bar.pieces_mm, bars.named(number - 1), strict=True))
        kind = "off-cut" if bar.off_cut else "bar"
        kept = ", keep" if bar.kept else ""
        lines.append(f"  {number:>3}  {kind} {_mm(bar.stock_mm)}: {pieces}; rest {_mm(bar.rest_mm)}{kept}")
    lines.append(f"  waste {_mm(plan.waste_mm)} of {_mm(plan.stock_mm)} mm, {plan.waste_percent:.1f} %")
    return "\n".join(lines)


def _mm(length_mm: float) -> str:
    return f"{length_mm:.1f}".removesuffix(".0")


def _data(bars: BarSet) -> dict[str, Any]:
    plan = bars.plan
    return {
        "profile": bars.profile,
        "system": bars.system,
        "finish_outside": bars.finish_outside,
        "finish_inside": bars.finish_inside,
        "new_bars": plan.new_bars,
        "fewest_possible": plan.fewest_possible,
        "first_fit_bars": plan.first_fit_bars,
        "proven": plan.proven,
        "method": plan.method,
        "stock_mm": plan.stock_mm,
        "pieces_mm": plan.pieces_mm,
        "kept_mm": plan.kept_mm,
        "waste_mm": plan.waste_mm,
        "waste_percent": round(plan.waste_percent, 2),
        "saw_cut_mm": plan.stock.kerf_mm,
        "end_trim_mm": plan.stock.end_trim_mm,
        "assumed": list(plan.stock.assumed),
        "bars": [
            {
                "stock_mm": bar.stock_mm,
                "off_cut": bar.off_cut,
                "pieces": [
                    {"length_mm": length, "piece": name, "ends": ends, "form": form}
                    for length, name, ends, form in zip(bar.pieces_mm, names, cuts, bars.forms_of(number), strict=True)
                ],
                "kerf_mm": bar.kerf_mm,
                "trims_mm": bar.trims_mm,
                "rest_mm": bar.rest_mm,
                "kept": bar.kept,
            }
            for number, (bar, names, cuts) in enumerate(zip(plan.bars, bars.pieces, bars.ends, strict=True))
        ],
    }


def _drawn(loaded: LoadedJob, sets: Sequence[BarSet], marks: tuple[str, ...], file: str, *, force: bool) -> str:
    """Write the picture of every bar; gives the path."""
    from pathlib import Path

    from elevations import pipeline
    from elevations.export.extras import require
    from elevations.export.files import write_files
    from elevations.sheets.bars import bar_pages
    from elevations.sheets.page import sheets_of
    from elevations.spec.load import job_name

    require("reportlab", "pdf", "writing PDF")
    from elevations.export.pdf import write_pdf

    demonstration = any(window.system.demonstration for window in pipeline.windows(loaded, marks))
    data = write_pdf(sheets_of(bar_pages(sets), loaded.job.job, demonstration=demonstration))
    (path,) = write_files([(Path(file), data)], job_name(loaded), force=force)
    return str(path)
