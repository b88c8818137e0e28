"""Machining at the bench: a piece under its own heading, each kind of work with its distances."""

from dataclasses import replace

from elevations.schedules.machining import machining_rows
from elevations.sheets.machining import PIECES, piece_rows, undrained
from tests.jobs import window_of
from tests.schedules.cut_windows import TWO_LIGHTS


def test_each_kind_of_work_on_a_piece_is_one_row_with_its_distances_in_order():
    rows = {(row.piece, row.kind): row for row in piece_rows(window_of(TWO_LIGHTS))}
    sill = "W1-sill, frame, 1206 long, from its left end"
    assert rows[sill, "bar joint"].along_mm == ("603 M1",)
    assert rows[sill, "fixing hole"].along_mm == ("153 F10", "453 F11", "1053 F12")
    assert (rows[sill, "drainage slot"].size, rows[sill, "drainage slot"].number) == ("30 x 5", 4)
    assert rows[sill, "drainage slot"].along_mm == ("109", "525", "681", "1097")


def test_nothing_of_the_list_is_left_out():
    window = window_of(TWO_LIGHTS)
    rows = list(piece_rows(window))
    assert sum(len(row.along_mm) for row in rows) == sum(row.number for row in rows) == len(list(machining_rows(window)))
    assert PIECES.totals(rows)[0].startswith(f"{len({row.piece for row in rows})} pieces; ")


def test_a_system_without_a_rule_for_drainage_is_named():
    window = window_of(TWO_LIGHTS)
    bare = replace(window, system=replace(window.system, name="bare-60", drainage=None))
    assert undrained([window, bare, bare]) == ("bare-60 gives no rule for drainage (`drainage` in its file): no slots are listed for it.",)
