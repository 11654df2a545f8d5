"""Two things never stand in one cell: what does not fit fails at once, in words that name both and the cell."""

import io
import re
import subprocess
import sys

import openpyxl
import pytest
from support.parcels import parts, sheet_part

from builder.jobs import open_job
from builder.sheets.grammar import At, Block, Column
from builder.stages import bid
from builder.stages.order import blocks, capacities
from builder.workbook import printed, summary_page
from builder.workbook.braces import at_record
from builder.workbook.layout import Layout
from builder.workbook.make import make

ROOM = capacities()


def columns(*keys, **more):
    return tuple(Column(key, key.title(), **more) for key in keys)


UP = Block("job", "Page", columns("a", "b"), form="upright", top=5)  # A5:C6: labels, values, units


@pytest.mark.parametrize(
    "other, words",
    [
        (
            Block("terms", "Page", columns("c"), form="upright", top=6),
            "Page A6: the label of terms.c would stand over the label of job.b",
        ),
        (Block("bid", "Page", columns("c", "d"), form="page", top=4, place=1), "Page B5: job.a would stand over bid.d"),
        (
            Block("bid", "Page", columns("c"), form="page", top=6, place=2),
            "Page C6: the unit of job.b would stand over bid.c",
        ),
        (
            Block("scope", "Page", columns("c"), form="list", top=7, place=1),  # its header is in row 6
            "Page B6: scope.c would stand over job.b",
        ),
        (
            Block("crew_card", "Page", columns("c"), form="card", top=6),
            "Page A6: the label of job.b would stand over the label of crew_card.c",
        ),
        (Block("takeoff", "Page", columns("c")), "Page A5: the label of job.a would stand over takeoff.c"),
        (Block("takeoff", "Page", columns("c", repeat=3)), "Page A5: the label of job.a would stand over takeoff.c"),
    ],
    ids=lambda one: getattr(one, "form", ""),
)
def test_two_places_in_one_cell_are_refused(other, words):
    with pytest.raises(ValueError) as raised:
        Layout((UP, other), ROOM)
    assert str(raised.value) == words


@pytest.mark.parametrize(
    "other",
    [
        Block("terms", "Page", columns("c"), form="upright", top=7),
        Block("bid", "Page", columns("c", "d"), form="page", top=5, place=3),
        Block("scope", "Page", columns("c"), form="list", top=8, place=1),
        Block("takeoff", "Other", columns("c")),
    ],
    ids=lambda one: one.form,
)
def test_what_stands_beside_or_below_is_not(other):
    assert len(Layout((UP, other), ROOM).places) == 2 + len(other.columns)


@pytest.mark.parametrize(
    "block, room, words",
    [
        (
            Block("fit", "Page", columns("c", repeat=16_385)),
            ROOM,
            "fit.c ends in XFE54: the sheet Page has no such cell",
        ),
        (
            Block("fit", "Page", columns("c")),
            {"fit": 1_048_573},
            "fit.c ends in A1048577: the sheet Page has no such cell",
        ),
        (
            Block("bid", "Page", columns("c"), form="page", top=1_048_577),
            ROOM,
            "bid.c ends in B1048577: the sheet Page has no such cell",
        ),
    ],
    ids=["column", "row", "line"],
)
def test_a_table_beyond_the_last_cell_of_a_sheet_is_refused(block, room, words):
    """ECMA-376 programs end a sheet at XFD1048576; 50 sizes below four rows end in row 54."""
    with pytest.raises(ValueError) as raised:
        Layout((block,), room)
    assert str(raised.value) == words


def more(number, key="more"):
    return tuple((f"{key}_{place}", "More", '"more"') for place in range(number))


def test_more_facts_of_the_bid_than_it_has_rows_are_refused(monkeypatch):
    monkeypatch.setattr(bid, "FACT_LINES", bid.FACT_LINES + more(3))
    opened = open_job(None)
    with pytest.raises(ValueError, match="^Bid A29: scope.system would stand over bid.name_more_2$"):
        Layout(blocks(opened.units, ROOM), ROOM)


def test_a_step_of_summary_over_other_words_is_refused(monkeypatch):
    monkeypatch.setattr(summary_page, "STEPS", (*summary_page.STEPS, (0, "Job", "one more")))
    with pytest.raises(ValueError, match=r"^Summary A16: 'one more' would stand over 'Three steps'$"):
        make(open_job(None))


STRIP = Block("crew_card", "Page", (Column("a", "A", at=(0, 0)), Column("b", "B", at=(1, 1))), form="strip", place=0,
              top=7, pitch=3, each=2, gap=1)  # fmt: skip


def test_a_strip_stands_where_its_pitch_and_the_gaps_between_its_pages_put_it():
    """Two records of three rows, a gap of one: from row 7 on at 7, 10, 14, 17; B a row below A."""
    layout = Layout((UP, STRIP), {**ROOM, "crew_card": 4})
    assert [layout.places["crew_card", "a"].line(record) for record in range(4)] == [7, 10, 14, 17]
    assert [layout.places["crew_card", "b"].line(record) for record in range(4)] == [8, 11, 15, 18]


def test_a_cell_of_a_strip_that_another_block_has_is_refused_and_the_rows_between_are_free():
    """The third record begins in row 14; row 13 is the gap before it."""
    other = Block("bid", "Page", columns("c"), form="page", top=13, place=0)
    assert len(Layout((STRIP, other), {**ROOM, "crew_card": 4}).places) == 3
    with pytest.raises(ValueError, match="^Page A14: crew_card.a would stand over bid.c$"):
        Layout((STRIP, Block("bid", "Page", columns("c"), form="page", top=14, place=0)), {**ROOM, "crew_card": 4})


def test_what_stands_on_a_strip_feeds_nothing():
    asks = Block("bid", "Other", (Column("c", "C", formula="{crew_card.a}"),), form="page")
    layout = Layout((STRIP, asks), {**ROOM, "crew_card": 4})
    with pytest.raises(ValueError, match="{crew_card.a} stands on a strip, which has no names"):
        layout.template(asks, asks.columns[0])


def test_a_cell_of_a_strip_speaks_of_the_others_of_its_record():
    block = Block("crew_card", "Page", (Column("a", "A", at=(0, 0)), Column("b", "B", at=(2, 1), formula="{a}&{b}")),
                  form="strip", place=0, top=7, pitch=3)  # fmt: skip
    template = Layout((block,), {**ROOM, "crew_card": 4}).template(block, block.columns[1])
    assert [at_record(template, row, 1) for row in (9, 12)] == ["=$A7&$B9", "=$A10&$B12"]


def column_a(data, title):
    """The texts of the first column of a sheet, from the top."""
    rows = openpyxl.load_workbook(io.BytesIO(data), read_only=True)[title].iter_rows(max_col=1, values_only=True)
    return [row[0] for row in rows if row[0] is not None and not str(row[0]).startswith("=")]


def made_with(change):
    """The starter's workbook of a program in which one thing was changed before the rest was put together."""
    return subprocess.run([sys.executable, "-c", change + BUILD], capture_output=True, check=False)


BUILD = """
import sys
from builder.jobs import open_job
from builder.workbook.make import make
sys.stdout.buffer.write(make(open_job(None)))
"""
ON_SUMMARY = """
from builder.records import sentences
sentences.BELOW = (*[("label", "More")] * 6, *sentences.BELOW)
"""
ON_BID = """
from builder.stages import bid
bid.TERM_LINES += tuple((f"more_{place}", "More", '"more"') for place in range(%d))
"""


@pytest.mark.slow
def test_six_lines_more_on_summary_move_all_that_is_below_them(books):
    was, now = column_a(books["blank"].data, "Summary"), column_a(made_with(ON_SUMMARY).stdout, "Summary")
    place = was.index("Key")
    assert now == was[:place] + ["More"] * 6 + was[place:]


@pytest.mark.slow
def test_a_line_more_on_the_bid_moves_the_signatures_and_is_printed(books):
    ends = []
    for data in (books["blank"].data, made_with(ON_BID % 1).stdout):
        contents = parts(data)
        ends.append(int(re.search(r"Print_Area\"[^>]*>'?Bid'?![^<]*\$(\d+)<", contents["xl/workbook.xml"].decode())[1]))
    assert ends[1] == ends[0] + 1
    sheet = contents[sheet_part(data, "Bid")].decode()
    # of the two lines that are signed
    heights = [float(re.search(rf'<row r="{ends[1] - up}"[^>]* ht="([\d.]+)"', sheet)[1]) for up in (0, 1)]
    assert heights == pytest.approx([printed.SIGNED_HEIGHT] * 2, abs=0.75)  # a pixel


@pytest.mark.slow
def test_a_bid_of_more_lines_than_a_sheet_of_paper_is_refused():
    """52 lines of today and 40 more; 77 of 15 points go on letter paper at 60 %."""
    told = made_with(ON_BID % 40).stderr.decode()
    assert told.rstrip().endswith("Bid: 92 lines do not go on one sheet of paper, which has room for 77")


def test_a_link_that_hides_a_block_is_refused():
    rows = Block("fit", "Other", columns("c"), {"job": At("fit", "1")})
    with pytest.raises(ValueError, match="^fit: the link 'job' hides the block of that name$"):
        Layout((UP, rows), ROOM)
