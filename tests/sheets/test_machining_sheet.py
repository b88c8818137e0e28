"""Machining at the bench: a piece under its own heading, each kind of work with its distances."""

from dataclasses import replace

from elevations.schedules.machining import machining_rows
from elevations.sheets.machining import PIECES, piece_rows, undrained
from tests.jobs import window_of, windows_of
from tests.schedules.cut_windows import TWO_LIGHTS


def test_each_kind_of_work_on_a_piece_is_one_row_with_its_distances_in_order():
    rows = {(row.heading, row.kind): row for row in piece_rows(window_of(TWO_LIGHTS))}
    sill = "W1-sill, frame, 1206 long, from its left end"
    assert rows[sill, "bar joint"].along_mm == ("603 M1",)
    assert rows[sill, "fixing hole"].along_mm == ("153", "453", "1053")
    assert (rows[sill, "drainage slot"].size, rows[sill, "drainage slot"].number) == ("30 x 5", 4)
    assert rows[sill, "drainage slot"].along_mm == ("109", "525", "681", "1097")


def test_pieces_that_the_same_is_done_to_stand_together():
    text = "".join(f"- {{mark: W{n}, frame: {{width: 900, height: 800}}, lights: [{{light: fixed}}]}}\n" for n in (1, 2))
    rows = PIECES.joined([row for window in windows_of(text) for row in piece_rows(window)])
    (holes,) = [row for row in rows if row.kind == "fixing hole" and "W1-left jamb" in row.pieces]
    assert holes.pieces == ("W1-left jamb", "W2-left jamb")     # a right jamb is its mirror image on the bench
    assert holes.heading == "2 pieces alike, W1-left jamb, W2-left jamb: frame, 806 long, from their top end"
    (slots,) = [row for row in rows if row.kind == "drainage slot"]
    assert slots.pieces == ("W1-sill", "W2-sill")      # not with the heads, which have holes for air


def test_nothing_of_the_list_is_left_out():
    window = window_of(TWO_LIGHTS)
    rows = list(piece_rows(window))
    assert sum(len(row.along_mm) * len(row.pieces) for row in rows) == sum(row.number * len(row.pieces) for row in rows) == len(list(machining_rows(window)))
    assert PIECES.totals(rows) == [f"{len({row.piece for row in machining_rows(window)})} pieces"]


def test_a_system_without_a_rule_for_drainage_is_named():
    window = window_of(TWO_LIGHTS)
    bare = replace(window, system=replace(window.system, name="bare-60", drainage=None))
    assert undrained([window, bare, bare]) == ("bare-60 gives no rule for drainage (`drainage` in its file): no slots are listed for it.",)
