"""The letter: what it says, and what it must not say."""

import datetime
import html.parser
import re

import pytest
from support.drafts import mailed, page, text, with_values

from builder.records.questions import DEMO

pytestmark = pytest.mark.slow

ALL = "demo, inside, spots, too high, firm, license"  # accepted as it is: no question is open then
WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


@pytest.fixture(scope="module")
def letter(books, small, tmp_path_factory):
    """That of the boathouse, to two people."""
    return mailed(
        tmp_path_factory.mktemp("letter"),
        with_values(books["small boathouse"], accepted=ALL),
        "--to",
        "Łukasz Ó <l@club.example>, office@club.example",
    )


@pytest.fixture(scope="module")
def other(books, small, tmp_path_factory):
    """That of the boathouse as an old home, taxed, its name and place made of markup."""
    data = with_values(
        books["small boathouse"],
        name="<b>Boat</b> & <img src='http://a.example/x.png'>",
        site='"><script>',
        sales_tax=0.07,
        built=1950.0,
        building="home",
        accepted=f"{ALL}, lead test",
    )
    return mailed(tmp_path_factory.mktemp("other"), data).message


def test_the_draft_opens_unsent_with_both_bodies_and_the_workbook(books, letter):
    book, message = books["small boathouse"], letter.message
    assert letter.status == 0 and "the attached workbook shows costs, wages and margin" in letter.said
    assert message["X-Unsent"] == "1" and message["Subject"] == "Estimate: Ferrymoor boathouse"
    assert [str(one) for one in message["To"].addresses] == ["Łukasz Ó <l@club.example>", "office@club.example"]
    assert message["Date"].datetime == datetime.datetime(2026, 4, 20)
    assert message["From"] is None
    assert [part.get_content_type() for part in message.walk()] == [
        "multipart/mixed",
        "multipart/alternative",
        "text/plain",
        "text/html",
        WORKBOOK,
    ]
    (attached,) = message.iter_attachments()
    assert attached.get_filename() == "book.xlsx" and attached.get_content() == with_values(book, accepted=ALL)


def test_the_letter_says_what_a_customer_asks(books, letter):
    book = books["small boathouse"]
    price = book.estimate.rows["price"]
    said = text(letter.message)
    for part in (
        "Ferrymoor boathouse at Towpath, Ferrymoor",
        "as of 20 April 2026",
        "no sales tax added",
        f"{price[0].total:,.2f} USD",
        f"{price[1].net - price[0].net:,.2f} USD",
        "Alternate A (Club room), more",
        f"{book.estimate.rows['brief'][0].told_days} with 2 people",
        "18 May 2026",
        "Cladding lower",
        "2 coats of Exterior acrylic satin, Slate",
        "Not included: Rotten boards",
        "The price is valid for 30 days, until 20 May 2026",
        "an estimate",
        "book.xlsx is attached",
    ):
        assert part in " ".join(said.split()), part
    assert price[0].deposit + price[0].stage + price[0].last == price[0].total
    for amount in (price[0].deposit, price[0].stage, price[0].last):
        assert f"{amount:,.2f} USD" in said
    assert [line for line in said.splitlines() if len(line) > 76] == []


def test_the_letter_says_the_price_of_each_part_where_terms_show_them(books, small, tmp_path, monkeypatch):
    """In whole cents, with the tax, so that its reader can add them up; to a customer too."""
    monkeypatch.setenv("PATH", str(tmp_path))  # without the page, which takes LibreOffice
    data = with_values(books["small boathouse"], {"show_parts": "yes"}, accepted=ALL, sales_tax=0.07)
    for options in ((), ("--customer",)):
        said = text(mailed(tmp_path, data, *options, "--force").message)
        told = re.findall(
            r"(\S.*?)[ :.]+([\d,]+\.\d\d) USD", said.partition("Price by part")[2].partition("Payments")[0]
        )
        names, amounts = zip(*((name, round(100 * float(amount.replace(",", "")))) for name, amount in told))
        assert names[0] == "Cladding lower" and names[-2:] == ("Sales tax", "Price")
        assert sum(amounts[:-1]) == amounts[-1] > 0


@pytest.mark.parametrize("said", ["no", None])
def test_the_letter_says_nothing_of_parts_where_terms_show_none(books, small, tmp_path, said):
    data = with_values(books["small boathouse"], {"show_parts": said}, accepted=ALL)
    assert "by part" not in text(mailed(tmp_path, data).message)


def test_costs_margins_and_wages_stay_out_of_the_letter(books, letter):
    book = books["small boathouse"]
    price, cost = book.estimate.rows["price"][0], book.estimate.rows["cost"][0]
    for body in (text(letter.message), re.sub(' style="[^"]*"', "", page(letter.message))):
        assert not re.search(r"cost|margin|wage|overhead|contingency|profit|markup", body.lower())
        for amount in (
            price.cost,
            price.contingency,
            price.protected,
            price.break_even,
            cost.wages,
            cost.paint,
            cost.direct,
            cost.overhead,
        ):
            assert f"{amount:,.2f}" not in body


class Cells(html.parser.HTMLParser):
    """The text of table cells, and every address a page would load from."""

    def __init__(self):
        super().__init__()
        self.cells, self.loads, self.inside = [], [], False

    def handle_starttag(self, tag, attributes):
        self.loads += [value for key, value in attributes if key in ("src", "href", "background")] + [tag] * (
            tag in ("script", "link", "img", "style")
        )
        if tag in ("th", "td"):
            self.cells.append("")
        self.inside = tag in ("th", "td")

    def handle_data(self, data):
        if self.inside:
            self.cells[-1] += data

    def handle_endtag(self, tag):
        self.inside = False


def test_the_html_has_the_same_table_and_loads_nothing(other):
    seen = Cells()
    seen.feed(page(other))
    assert seen.loads == []
    plain = " ".join(text(other).split())
    assert len(seen.cells) >= 20 and [cell for cell in seen.cells if " ".join(cell.split()) not in plain] == []
    assert "<b>Boat</b> & <img src='http://a.example/x.png'>" in plain


def test_tax_is_named_and_added(other):
    said = text(other)
    net, tax, total = (
        float(re.search(rf"{label} +([\d,.]+) USD", said)[1].replace(",", ""))
        for label in ("Price before tax", "Sales tax, 7\u00a0%", "Price, tax included")
    )
    assert tax == pytest.approx(0.07 * net, abs=0.005) and total == pytest.approx(net + tax, abs=0.005)
    assert "Alternate A (Club room), more, before tax" in said


def test_the_letter_speaks_of_lead_where_old_paint_is_disturbed(letter, other):
    said = " ".join(text(other).replace("-\n", "-").split())  # a line may end behind a hyphen
    assert "Old paint here may hold lead. It is tested before it is disturbed" in said and "(40 CFR 745)" in said
    assert "lead" not in text(letter.message)


def test_a_draft_is_refused_and_says_what_it_is_where_it_is_written_anyway(books, small, tmp_path, letter):
    """With the figures of the demo alone to answer, and with one question more."""
    book = books["small boathouse"]
    refused = mailed(tmp_path, book.data)
    assert (refused.status, refused.message) == (1, None)
    assert refused.said == (
        "book.xlsx: its price is a draft: Prices, wages and rates are those of the demo (Terms: Figures of the demo) "
        "(answer it in the workbook, or accept it on Job, or use --anyway)\n"
    )
    two = mailed(tmp_path, with_values(book, client=None))
    assert "those of the demo (Terms: Figures of the demo), and 1 more, which Checks lists (" in two.said
    anyway = mailed(tmp_path, book.data, "--anyway")
    draft = "It is a draft: questions are still open, and the price may change."
    assert anyway.status == 0 and draft in " ".join(text(anyway.message).split())
    assert anyway.said.splitlines()[0].endswith("; DRAFT: 1 OPEN")
    for message in (anyway.message, letter.message):
        assert DEMO in " ".join(text(message).split())
    assert draft not in " ".join(text(letter.message).split())


@pytest.fixture(scope="module")
def bid(books, small, libreoffice_here, tmp_path_factory):
    """The boathouse's letter to its customer."""
    return mailed(tmp_path_factory.mktemp("customer"), books["small boathouse"].data, "--customer", "--anyway")


def test_a_customer_gets_the_bid_as_a_page_and_never_the_workbook(books, bid):
    message, job = bid.message, books["small boathouse"].opened
    assert bid.status == 0 and "costs" not in bid.said and message["Subject"] == "Bid: Ferrymoor boathouse"
    (attached,) = message.iter_attachments()
    assert (attached.get_content_type(), attached.get_filename()) == ("application/pdf", "Bid Ferrymoor boathouse.pdf")
    assert re.findall(rb"/Type/Pages[^>]*/Count (\d+)", attached.get_content().replace(b"\n", b"")) == [b"1"]
    said = " ".join(text(message).split())
    assert f"{job.price():,.2f} USD" in said and "Bid Ferrymoor boathouse.pdf: a page to print, sign and" in said
    assert job.estimate.rows["brief"][0].told_days in said and not re.search(
        r"people|to be bought|workbook|reviewed", said
    )


def test_without_libreoffice_a_customer_gets_the_bid_in_words(books, small, tmp_path, monkeypatch):
    monkeypatch.setenv("PATH", str(tmp_path))
    found = mailed(tmp_path, books["small boathouse"].data, "--customer", "--anyway")
    assert found.status == 0 and "LibreOffice (soffice), which prints it, is not installed" in found.said
    assert list(found.message.iter_attachments()) == [] and "attached" not in text(found.message)
