"""The letter: what it says, what it must not say, and that nothing typed into a workbook reaches its headers."""
import copy
import datetime
import email
import email.policy
import html.parser
import re

import pytest
from support.parcels import packed, parts
from support.places import ROOT

from builder.cli import main
from builder.jobs import from_values, open_job
from builder.letter.draft import addresses, file_name, one_line
from builder.stages.order import SHEETS
from builder.workbook.make import make

WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


@pytest.fixture
def write(tmp_path, capsys):
    """write(book bytes, *options) -> exit status, what was said, the draft parsed back (None: nothing written)."""
    def run(data, *options, name="book.xlsx"):
        path, target = tmp_path / name, tmp_path / "letter.eml"
        path.write_bytes(data)
        status = main(["letter", str(path), "-o", str(target), *options])
        said = capsys.readouterr()
        return status, (said.out + said.err).replace(str(path), "book.xlsx"), parsed(target) if target.exists() else None
    return run


def parsed(path):
    message = email.message_from_bytes(path.read_bytes(), policy=email.policy.default)
    assert not any(part.defects for part in message.walk())
    return message


def text(message):
    return message.get_body(("plain",)).get_content().replace("\r\n", "\n")


def page(message):
    return message.get_body(("html",)).get_content().replace("\r\n", "\n")


def with_values(book, block="job", row=0, **values):
    """The bytes of a book in which some inputs are others."""
    changed = copy.deepcopy(book.opened.values)
    changed[block][row].update(values)
    return make(from_values(changed, book.opened.units, book.opened.settings))


def shown_instead(book, value):
    """The bytes of a book whose cell of the price shows another value, its inputs as they were."""
    contents, place = parts(book.data), book.layout.places["price", "total"]
    name = f"xl/worksheets/sheet{[sheet.title for sheet in SHEETS].index('Price') + 1}.xml"
    new = re.sub(rf'(<c [^>]*r="B{place.row}"[^>]*>(?:<f[^>]*>[^<]*</f>)<v>)[^<]*'.encode(), rf"\g<1>{value}".encode(), contents[name])
    assert new != contents[name]
    return packed(contents | {name: new})


def test_the_draft_opens_unsent_with_both_bodies_and_the_workbook(books, write):
    book = books["boathouse"]
    status, said, message = write(book.data, "--to", "Łukasz Ó <l@club.example>, office@club.example")
    assert status == 0 and "the attached workbook shows costs, wages and margin" in said
    assert message["X-Unsent"] == "1" and message["Subject"] == "Estimate: Ferrymoor boathouse"
    assert [str(one) for one in message["To"].addresses] == ["Łukasz Ó <l@club.example>", "office@club.example"]
    assert message["Date"].datetime == datetime.datetime(2026, 4, 20)
    assert message["From"] is None
    assert [part.get_content_type() for part in message.walk()] == ["multipart/mixed", "multipart/alternative", "text/plain", "text/html", WORKBOOK]
    attached, = message.iter_attachments()
    assert attached.get_filename() == "book.xlsx" and attached.get_content() == book.data


def test_the_letter_says_what_a_customer_asks(books, write):
    book = books["boathouse"]
    price = book.estimate.rows["price"]
    _, _, message = write(book.data)
    said = text(message)
    for part in ("Ferrymoor boathouse at Towpath, Ferrymoor", "as of 20 April 2026", "no sales tax added", f"{price[0].total:,.2f} USD",
                 f"{price[1].net - price[0].net:,.2f} USD", "Alternate A (Club room), more", "9 days with 2 people", "18 May 2026",
                 "Cladding lower", "2 coats of Exterior acrylic satin, Slate", "Not included: Rotten boards", "The price is valid for 30 days, until 20 May 2026", "an estimate",
                 "book.xlsx is attached"):
        assert part in " ".join(said.split()), part
    assert price[0].deposit + price[0].stage + price[0].last == price[0].total
    for amount in (price[0].deposit, price[0].stage, price[0].last):
        assert f"{amount:,.2f} USD" in said
    assert all(len(line) <= 76 for line in said.splitlines())


def test_costs_margins_and_wages_stay_out_of_the_letter(books, write):
    book = books["boathouse"]
    _, _, message = write(book.data)
    price, cost = book.estimate.rows["price"][0], book.estimate.rows["cost"][0]
    for body in (text(message), re.sub(' style="[^"]*"', "", page(message))):
        assert not re.search(r"cost|margin|wage|overhead|contingency|profit|markup", body.lower())
        for amount in (price.cost, price.contingency, price.protected, price.break_even, cost.wages, cost.paint, cost.direct, cost.overhead):
            assert f"{amount:,.2f}" not in body


class Cells(html.parser.HTMLParser):
    """The text of table cells, and every address a page would load from."""

    def __init__(self):
        super().__init__()
        self.cells, self.loads, self.inside = [], [], False

    def handle_starttag(self, tag, attributes):
        self.loads += [value for key, value in attributes if key in ("src", "href", "background")] + [tag] * (tag in ("script", "link", "img", "style"))
        if tag in ("th", "td"):
            self.cells.append("")
        self.inside = tag in ("th", "td")

    def handle_data(self, data):
        if self.inside:
            self.cells[-1] += data

    def handle_endtag(self, tag):
        self.inside = False


def test_the_html_has_the_same_table_and_loads_nothing(books, write):
    _, _, message = write(with_values(books["boathouse"], name="<b>Boat</b> & <img src='http://a.example/x.png'>", site='"><script>'))
    seen = Cells()
    seen.feed(page(message))
    assert seen.loads == []
    plain = " ".join(text(message).split())
    assert len(seen.cells) >= 20 and all(" ".join(cell.split()) in plain for cell in seen.cells)
    assert "<b>Boat</b> & <img src='http://a.example/x.png'>" in plain


def test_tax_is_named_and_added(books, write):
    _, _, message = write(with_values(books["boathouse"], sales_tax=0.07))
    said = text(message)
    net, tax, total = (float(re.search(rf"{label} +([\d,.]+) USD", said)[1].replace(",", "")) for label in (
        "Price before tax", "Sales tax, 7\u00a0%", "Price, tax included"))
    assert tax == pytest.approx(0.07 * net, abs=0.005) and total == pytest.approx(net + tax, abs=0.005)
    assert "Alternate A (Club room), more, before tax" in said


def test_another_currency_and_metric(books, write):
    book = books["corridor"]
    _, _, message = write(book.data)
    assert f"{book.opened.price():,.2f} EUR" in text(message) and " m2: " in text(message) and " L\n" in text(message)


def test_what_is_still_to_be_looked_at_is_said(books, write):
    _, _, message = write(with_values(books["boathouse"], built=1950.0, building="home"))
    assert "Still to be reviewed before work begins: old lead paint is likely: the lead-safe rules apply (40 CFR 745)." in " ".join(text(message).split())


def test_without_the_workbook(books, write):
    status, said, message = write(books["shed"].data, "--without-book")
    assert status == 0 and "costs" not in said
    assert [part.get_content_type() for part in message.walk()] == ["multipart/alternative", "text/plain", "text/html"]
    assert "attached" not in text(message)


def test_a_book_that_is_not_complete_is_refused(books, write):
    data = with_values(books["boathouse"], people=0.0)
    assert write(data) == (1, "book.xlsx: its price is not complete: rows with an error on the sheet Job "
                              "(fix it on the sheets named, or use --anyway)\n", None)
    status, _, message = write(data, "--anyway")
    assert status == 0 and "The price is not complete yet: " in text(message) and "USD" not in text(message)


@pytest.mark.parametrize("value, was", [("123", "shows 123.00"), ("", "is blank")])
def test_a_book_that_shows_another_price_than_its_inputs_give_is_refused(books, write, value, was):
    book = books["shed"]
    price, data = f"{book.opened.price():,.2f} USD", shown_instead(book, value)
    assert write(data) == (1, f"book.xlsx: its price cell {was}, but its inputs give {price} (recalculate and save it; "
                              "look for overwritten formulas, or use --anyway)\n", None)
    status, _, message = write(data, "--anyway")
    assert status == 0 and price in text(message)


def test_what_is_typed_in_a_book_reaches_no_header(books, write):
    name = "Boathouse\nBcc: all@club.example\n\nHello \u202egnp.exe" + " and more" * 60
    _, _, message = write(with_values(books["shed"], name=name, client="A\nB", site="x\x0by"))
    assert message["Bcc"] is None and set(message.keys()) == {"X-Unsent", "Subject", "Date", "MIME-Version", "Content-Type"}
    assert message["Subject"].startswith("Estimate: Boathouse Bcc: all@club.example Hello gnp.exe and") and len(message["Subject"]) <= 160
    assert "\u202e" not in text(message) and "for A B" in text(message)


@pytest.mark.parametrize("to", ["", " ", "a@b.example\nBcc: c@d.example", "a@b.example\r\n", "Ann", "a b@c.example", "Doe, Ann <a@b.example>", "a@b.example, ",
                                "a@b", "a@b.example <c@d.example", "ann@b\u00fccher.example", "<a@b.example> <c@d.example>", "a@b.example\0"])
def test_what_is_no_address_is_refused(books, write, to):
    status, said, message = write(books["shed"].data, "--to", to)
    assert status == 1 and message is None and len(said.splitlines()) == 1
    assert said.startswith("--to: ") and "write it as in office@club.example" in said


def test_addresses():
    found = addresses('"Doe, Ann" <ann@club.example>; Bo <bo@club.example>,office@club.example')
    assert [(one.display_name, one.addr_spec) for one in found] == [("Doe, Ann", "ann@club.example"), ("Bo", "bo@club.example"), ("", "office@club.example")]


def test_one_line():
    assert one_line(" a\r\n\r\nb\u2028c\u202ed\x00e\tf ") == "a b c d e f"
    assert one_line("ab cd ef", 6) == "ab cd…"


def test_the_name_of_the_attachment(books, write):
    assert file_name('a"b\r\n/..\\c:d.xlsx', ".xlsx") == "a_b _.._c_d.xlsx"
    assert file_name("....xlsx", ".xlsx") == "estimate.xlsx"
    _, _, message = write(books["shed"].data, name="Größe 50%; x=y.xlsx")
    assert next(message.iter_attachments()).get_filename() == "Größe 50__ x_y.xlsx"


def test_the_same_book_gives_the_same_bytes_and_another_others(books, tmp_path):
    book, target = tmp_path / "book.xlsx", tmp_path / "book.eml"
    book.write_bytes(books["shed"].data)
    first = second = None
    for _ in range(2):                          # its own draft is written over
        assert main(["letter", str(book)]) == 0
        first, second = second, target.read_bytes()
    assert first == second
    assert main(["letter", str(book), "--without-book"]) == 0 and target.read_bytes() != first


def test_a_draft_that_somebody_changed_is_not_overwritten(books, tmp_path, capsys):
    book, target = tmp_path / "book.xlsx", tmp_path / "book.eml"
    book.write_bytes(books["shed"].data)
    assert main(["letter", str(book)]) == 0
    mine = target.read_bytes().replace(b"Kind regards", b"See you on Monday")
    target.write_bytes(mine)
    assert main(["letter", str(book)]) == 1 and "or somebody changed it since" in capsys.readouterr().err
    assert target.read_bytes() == mine
    assert main(["letter", str(book), "--force"]) == 0 and b"Monday" not in target.read_bytes()


def test_a_job_without_names_and_dates(tmp_path, write):
    opened = open_job(ROOT / "tests/data/shed.yaml", [ROOT / "catalogs"])
    opened.values["job"][0].update(name=None, client=None, site=None, date=None, start=None, exclusions=None)
    _, _, message = write(make(from_values(opened.values, opened.units, opened.settings)))
    assert message["Subject"] == "Estimate: painting" and message["Date"] is None
    assert "here is our estimate for the painting." in text(message) and "is valid for" not in text(message)
