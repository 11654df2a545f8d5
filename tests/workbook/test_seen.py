"""What one stumbles over in pictures of the sheets and of the printed pages, each mended once."""

import pytest
from support.editing import LiveBook
from support.files import MAIN, File
from support.glyphs import DIGIT, GLYPHS, LARGER, PIXELS, SEEN
from support.places import EXAMPLES, SHED
from support.small import CATALOGS as FEW_SIZES

from builder.api import make
from builder.jobs import open_job
from builder.records.questions import QUESTIONS
from builder.records.rules import NAME_LENGTH
from builder.stages.bid import CHAIN
from builder.stages.summary import QUESTION_PLACES
from builder.workbook import measured, printed, summary_page

SMALL = {"takeoff": 9, "coats": 7, "nozzles": 14, "openings": 8, "tasks": 8, "kit": 4, "systems": 6}
LONG = "W" + "ide name of more than one word that is told whole, " * 2


def long(word):
    """The longest name that may be typed, and begins with a word."""
    return f"{word} {LONG}"[:NAME_LENGTH].strip()


@pytest.fixture(scope="module")
def shed():
    return open_job(SHED, [FEW_SIZES])


@pytest.fixture(scope="module")
def named(shed, tmp_path_factory):
    """The shed, whose coatings and colors have the longest names."""
    values = {block: [dict(row) for row in rows] for block, rows in shed.values.items()}
    for row in values["coatings"]:
        row["name"] = long(row["name"])
    for row in values["coats"]:
        row["coating"], row["color"] = long(row["coating"]), long(row["color"] or "White")
    book = File(LiveBook(values, shed.units, tmp_path_factory.mktemp("named"), **SMALL))
    book.estimate = book.estimate()
    return book


def text_width(text, points=11):
    return sum(GLYPHS.get(sign, 833) for sign in text) * PIXELS * points / 11


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda one: one.key)
def test_why_something_is_asked_is_seen_whole_on_a_laptop(question):
    """In nine points, from its column on, without scrolling sideways."""
    before = sum(summary_page.WIDTHS[: QUESTION_PLACES[-1]])
    assert (before + text_width(question.why, 9)) * LARGER <= SEEN


# Worked by hand from the widths of Helvetica: at 11 points a thousandth is 11 * 96 / 72 / 1000 = 0.01467 pixels, and
# 4 % is kept to spare. Ten m: 8,330 -> 127.1 pixels; ten i: 2,220 -> 33.9. A character of a column is 8 pixels.
@pytest.mark.parametrize(
    "text, room, told",
    [
        ("m" * 10, 16, 1),  # 128 pixels
        ("m" * 10, 15, 2),  # 120
        ("m" * 10, 7, 3),  # 56
        ("i" * 10, 5, 1),  # 40
        ("i" * 10 + " " + "i" * 10, 8, 2),  # 64 pixels, and 72.0 are wanted
        ("i" * 10 + " " + "i" * 10, 10, 1),
        ("", 5, 1),
    ],
)
def test_a_row_is_as_high_as_its_words_need(text, room, told):
    assert measured.lines(text, room) == told


def test_the_names_of_what_is_bought_are_seen_whole(named):
    """What begins in the first column and may run over the second; the color has one of its own."""
    widths, rows = named.widths("Shopping"), named.estimate.rows["shopping"]
    bought = [row for row in rows if row.which and len(row.which) > NAME_LENGTH / 2]
    assert bought
    for row in bought:
        assert text_width(row.what) <= (widths[1] + widths[2]) * DIGIT
        assert text_width(row.which) <= widths[3] * DIGIT


def test_a_strip_says_how_many_coats_before_names_that_the_paper_may_cut(named):
    cards = [row for row in named.estimate.rows["card_strip"] if row.head]
    assert cards
    for card, told in zip(cards, (row for row in named.estimate.rows["crew_card"] if row.coat_at)):
        assert card.head.startswith(f"{told.work}: ") and card.head.endswith(told.what)


@pytest.mark.slow
def test_notes_side_by_side_on_a_strip_keep_apart(named):
    sheet, place = named.book["Crew card"], named.layout.places["card_strip", "hand_note"]
    assert sheet.cell(place.row, place.col + 1).alignment.indent == 1


@pytest.mark.slow
def test_what_is_put_together_beside_the_bid_is_folded_away_and_named(named):
    columns = named.book["Bid"].column_dimensions
    hidden = [col for col in columns.values() if col.hidden]
    # a hidden column next to what is printed comes out as '###' in the PDF of LibreOffice
    assert [col.min for col in hidden] == [CHAIN + 1] and len(printed.BID_WIDTHS) < CHAIN - 1
    folded = [row[0].value for row in named.book["Summary"].iter_rows() if "Folded away" in str(row[0].value)]
    text = " ".join(str(cell.value) for row in named.book["Summary"].iter_rows(max_col=1) for cell in row)
    assert folded and "Views, Bid, Schedule." in text


def test_no_link_of_checks_seems_to_belong_to_the_row_beside_it(named):
    """They stand apart, in the order of the tabs; none leads to a sheet that is hidden."""
    links = named.links("Checks")
    targets = [place.split("!")[0].strip("'") for place in links.values()]
    assert targets == sorted(targets, key=named.titles.index) and "Log" not in targets
    last = named.layout.places["check_lines", "short"].col
    assert {named.book["Checks"][cell].column for cell in links} == {last + 3}


def test_the_list_of_days_is_printed_below_its_own_headers(named):
    sheet, place = named.book["Schedule"], named.layout.places["day_list", "date"]
    assert [one.id for one in sheet.row_breaks.brk] == [place.row - 2]
    assert sheet.print_title_rows == "$1:$3"


def test_days_are_numbered_once(named):
    """The number above a header that says it too is hidden."""
    row = named.layout.numbers(named.layout.places["calendar", "day"].block)
    found = {int(one.get("r")): one.get("hidden") for one in named.sheets["Schedule"].iter(f"{MAIN}row")}
    assert found[row] == "1" and not found[row + 1]


@pytest.mark.slow
def test_a_blank_book_prints_few_lines_of_checks(files):
    area = files("small blank in metric").book["Checks"].print_area
    assert int(area.rpartition("$")[2]) <= 33


def test_the_summary_of_a_signed_job_says_the_contract_that_stands_in_the_banner(tmp_path):
    job = open_job(EXAMPLES["bandstand"], [FEW_SIZES])
    make(job)
    # signed at 6,130; the two boards that were agreed since are 234
    assert job.estimate.rows["summary"][0].moved.startswith("Contract with its changes: 6,364 USD. ")


def test_amounts_of_price_are_seen_on_a_phone(named):
    """360 pixels, where no part has a long name."""
    widths = named.widths("Price")
    assert sum(widths[col] * DIGIT for col in (1, 2, 3)) * LARGER <= 360


@pytest.mark.slow
@pytest.mark.parametrize("method, pages", [("spray", 2), ("brush", 1)])
def test_nozzles_prints_its_charts_whole_or_not_at_all(shed, method, pages, tmp_path):
    """The first coat is the chosen one; a chart ends 28 rows below the header of the sizes: 15, and 290 pixels more."""
    values = {block: [dict(row) for row in rows] for block, rows in shed.values.items()}
    for row in values["coats"]:
        row.update(method=method, nozzle=None)
    book = File(LiveBook(values, shed.units, tmp_path, **SMALL))
    sheet, sizes = book.book["Nozzles"], book.layout.places["size_list", "nozzle"]
    last = int(sheet.print_area.rpartition("$")[2])
    assert last >= sizes.row - 1 + 28 if pages == 2 else last < book.layout.places["chosen", "coat"].row
