"""When a letter is written and when not, and that nothing typed into a workbook reaches its headers."""

import re

import pytest
from support.drafts import mailed, text, with_values
from support.parcels import packed, parts

from builder.cli import main
from builder.letter.draft import addresses, file_name, one_line
from builder.stages.sheet_list import SHEETS

pytestmark = [pytest.mark.slow, pytest.mark.usefixtures("small")]


@pytest.fixture
def write(tmp_path):
    """write(book bytes, *options) -> exit status, what was said, the draft parsed back (None: nothing written)."""

    def run(data, *options, **name):
        found = mailed(tmp_path, data, *options, **name)
        return found.status, found.said, found.message

    return run


@pytest.fixture(scope="module")
def first(books, small, tmp_path_factory):
    """The shed's letter."""
    return mailed(tmp_path_factory.mktemp("first"), books["small shed"].data)


def shown_instead(book, value):
    """The bytes of a book whose cell of the price shows another value, its inputs as they were."""
    contents, place = parts(book.data), book.layout.places["price", "total"]
    name = f"xl/worksheets/sheet{[sheet.title for sheet in SHEETS].index(place.sheet) + 1}.xml"
    new = re.sub(
        rf'(<c [^>]*r="B{place.row}"[^>]*>(?:<f[^>]*>[^<]*</f>)<v>)[^<]*'.encode(),
        rf"\g<1>{value}".encode(),
        contents[name],
    )
    assert new != contents[name]
    return packed(contents | {name: new})


def test_another_currency_and_metric(books, write):
    book = books["small corridor"]
    _, _, message = write(book.data, "--anyway")
    assert f"{book.opened.price():,.2f} EUR" in text(message) and " m2: " in text(message) and " L\n" in text(message)


def test_without_the_workbook(books, write, first):
    status, said, message = write(books["small shed"].data, "--without-book")
    assert status == 0 and "costs" not in said
    assert [part.get_content_type() for part in message.walk()] == ["multipart/alternative", "text/plain", "text/html"]
    assert "attached" not in text(message) and "attached" in text(first.message)


def test_a_book_that_is_not_complete_is_refused(books, write):
    data = with_values(books["small shed"], people=0.0)
    assert write(data) == (
        1,
        "book.xlsx: it has no price: Job, people on the job: enter a whole number from 1 to 50 "
        "(fix it in the workbook; Checks lists all, or use --anyway)\n",
        None,
    )
    status, _, message = write(data, "--anyway")
    assert status == 0 and "There is no price yet: " in text(message) and "USD" not in text(message)


def test_a_book_that_shows_another_price_than_its_inputs_give_is_refused(books, write):
    book = books["small shed"]
    price = f"{book.opened.price():,.2f} USD"
    for value, was in (("123", "shows 123.00"), ("", "is blank")):
        assert write(shown_instead(book, value)) == (
            1,
            f"book.xlsx: its price cell {was}, but its inputs give {price} (recalculate and save it; "
            "look for overwritten formulas, or use --anyway)\n",
            None,
        )
    status, _, message = write(shown_instead(book, value), "--anyway")
    assert status == 0 and price in text(message)


def test_what_is_typed_in_a_book_reaches_no_header(books, write):
    name = "Boathouse\nBcc: all@club.example\n\nHello \u202egnp.exe" + " and more" * 60
    _, _, message = write(with_values(books["small shed"], name=name, client="A\nB", site="x\x0by"))
    assert message["Bcc"] is None and set(message.keys()) == {
        "X-Unsent",
        "Subject",
        "Date",
        "MIME-Version",
        "Content-Type",
    }
    assert (
        message["Subject"].startswith("Estimate: Boathouse Bcc: all@club.example Hello gnp.exe and")
        and len(message["Subject"]) <= 160
    )
    assert "\u202e" not in text(message) and "for A B" in text(message)


@pytest.mark.parametrize(
    "to",
    [
        "",
        " ",
        "a@b.example\nBcc: c@d.example",
        "a@b.example\r\n",
        "Ann",
        "a b@c.example",
        "Doe, Ann <a@b.example>",
        "a@b.example, ",
        "a@b",
        "a@b.example <c@d.example",
        "ann@b\u00fccher.example",
        "<a@b.example> <c@d.example>",
        "a@b.example\0",
    ],
)
def test_what_is_no_address_is_refused(books, write, to):
    status, said, message = write(books["small shed"].data, "--to", to)
    assert status == 1 and message is None and len(said.splitlines()) == 1
    assert said.startswith("--to: ") and "write it as in office@club.example" in said


def test_addresses():
    found = addresses('"Doe, Ann" <ann@club.example>; Bo <bo@club.example>,office@club.example')
    assert [(one.display_name, one.addr_spec) for one in found] == [
        ("Doe, Ann", "ann@club.example"),
        ("Bo", "bo@club.example"),
        ("", "office@club.example"),
    ]


def test_one_line():
    assert one_line(" a\r\n\r\nb\u2028c\u202ed\x00e\tf ") == "a b c d e f"
    assert one_line("ab cd ef", 6) == "ab cd…"


def test_the_name_of_the_attachment(books, write):
    assert file_name('a"b\r\n/..\\c:d.xlsx', ".xlsx") == "a_b _.._c_d.xlsx"
    assert file_name("....xlsx", ".xlsx") == "estimate.xlsx"
    _, _, message = write(books["small shed"].data, name="Größe 50%; x=y.xlsx")
    assert next(message.iter_attachments()).get_filename() == "Größe 50__ x_y.xlsx"


def test_the_same_book_gives_the_same_bytes_and_a_draft_of_its_own_is_written_over(books, tmp_path, first):
    book, target = tmp_path / "book.xlsx", tmp_path / "book.eml"
    book.write_bytes(books["small shed"].data)
    target.write_bytes(first.path.read_bytes())
    assert main(["letter", str(book)]) == 0 and target.read_bytes() == first.path.read_bytes()
    assert main(["letter", str(book), "--without-book"]) == 0 and target.read_bytes() != first.path.read_bytes()


def test_a_draft_that_somebody_changed_is_not_overwritten(books, tmp_path, capsys, first):
    book, target = tmp_path / "book.xlsx", tmp_path / "book.eml"
    book.write_bytes(books["small shed"].data)
    mine = first.path.read_bytes().replace(b"Kind regards", b"See you on Monday")
    assert mine != first.path.read_bytes()
    target.write_bytes(mine)
    assert main(["letter", str(book)]) == 1 and "or somebody changed it since" in capsys.readouterr().err
    assert target.read_bytes() == mine
    assert main(["letter", str(book), "--force"]) == 0 and target.read_bytes() == first.path.read_bytes()


def test_a_job_without_names_and_dates(books, write):
    book = books["small shed"]
    blank = dict.fromkeys(("name", "client", "site", "date", "start", "exclusions"))
    accepted = "demo, inside, spots, too high, firm, license, client, date, start"
    _, _, message = write(with_values(book, accepted=accepted, **blank))
    assert message["Subject"] == "Estimate: painting" and message["Date"] is None
    assert "here is our estimate for the painting." in text(message) and "is valid for" not in text(message)
