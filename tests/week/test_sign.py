"""Signing: the plan, the contract and the price are kept in the book, and stand whatever is typed since."""

import copy
import re
from math import floor
from types import SimpleNamespace

import pytest
from support.by_address import Addressed
from support.drafts import mailed, text
from support.places import SHED
from support.returning import inputs
from support.small import CATALOGS

from builder.cli import main
from builder.jobs import from_values, open_job
from builder.records.sentences import SIGNED_BID
from builder.returned.read import returned
from builder.returned.taken import as_job, taken
from builder.review.reissue import reissue
from builder.review.sign import sign
from builder.stages.sheet_list import SHEETS
from builder.values import day
from builder.workbook.make import make

pytestmark = [pytest.mark.slow, pytest.mark.usefixtures("small")]

ALL = "demo, inside, spots, too high, firm, license"  # accepted as it is: no question is open then
TERMS = {"sales_tax": 0.0725, "deposit": 0.25, "stages": 3, "rounding": 0.37, "show_parts": "yes"}
TAGS = ("c2", "Slate", None, None, "T1", None)  # of the coats as typed

HALF_CENT, HALF_HUNDREDTH = 0.005 + 1e-9, 0.005 + 1e-9  # by which a sum that is told in them may differ


def changed(book, terms=(), tags=(), **job):
    """The bytes of a book with other inputs."""
    values = copy.deepcopy(book.opened.values)
    values["job"][0].update(job)
    values["terms"][0].update(terms)
    for row, tag in zip(values["coats"], tags):
        row["tag"] = tag
    return make(from_values(values, book.opened.units, book.opened.settings))


def signing(folder, data, capsys, *options):
    """What the command says of a book of these bytes, and the book that it wrote."""
    path = folder / "shed.xlsx"
    path.write_bytes(data)
    status = main(["sign", str(path), *options])
    told = capsys.readouterr()
    return SimpleNamespace(status=status, said=told.out, warned=told.err, path=folder / "shed-signed.xlsx")


@pytest.fixture(scope="module")
def signed(books, small, tmp_path_factory):
    """The shed, taxed and paid in stages, signed with its alternate."""
    path = tmp_path_factory.mktemp("signed") / "shed.xlsx"
    path.write_bytes(changed(books["small shed"], TERMS, TAGS, accepted=ALL))
    found = sign(path, on=day("2026-05-20"), accepted=["a"])
    return SimpleNamespace(
        before=found.before, after=found.after, data=make(found.after), values=found.after.values, path=path
    )


def cents(amount):
    """Whole cents, which an amount must be."""
    whole = floor(amount * 100 + 0.5)
    assert abs(amount * 100 - whole) < 1e-6, amount
    return whole


def base(rows):
    return [row for row in rows if row.get("alternate") is None]


def test_parts_and_tax_and_payments_add_up_to_the_signed_price_to_the_cent(signed):
    job, rows, price = signed.values["job"][0], signed.values["contract"], signed.before.estimate.rows["price"]
    total = cents(job["signed_price"])
    assert total == cents(round(price[0].total, 2)) and job["signed_on"] == day("2026-05-20")
    assert job["signed_days"] == signed.before.estimate.rows["days"][0].days
    parts, paid = ([row for row in rows if row.get(key) is not None] for key in ("price", "payment"))
    assert sum(cents(row["price"]) for row in base(parts)) == total
    assert [row["what"] for row in base(parts)] == ["Boards", "Inside", "Rails", "Sales tax"]
    assert sum(cents(row["payment"]) for row in paid) == total
    assert [row["what"] for row in paid] == ["Deposit", "Payment 1", "Payment 2", "Payment 3"]
    (gate,) = [row for row in parts if row.get("alternate") == "A"]
    assert gate["what"] == "Alternate A: Gate"
    assert cents(gate["price"]) == cents(round(price[1].total, 2)) - total
    agreed = signed.after.estimate.rows["agreed"][0]
    assert cents(round(agreed.contract, 2)) == total + cents(gate["price"])


def test_hours_and_costs_of_the_plan_are_those_of_the_estimate(signed):
    """Hours are all that are paid; what no coat and no task costs in itself is in no row."""
    est, rows = signed.before.estimate, base(signed.values["signed"])
    hours = sum(row["hours"] for row in rows) / 3600
    assert hours == pytest.approx(est.rows["days"][0].labor / 3600, abs=HALF_HUNDREDTH)
    cost, own = est.rows["cost"][0], sum(row["cost"] for row in rows)
    nobodys = ("standing_wages", "travel_wages", "travel", "rental", "guards", "tax", "overhead")
    assert own == pytest.approx(cost.cost - sum(getattr(cost, key) for key in nobodys), abs=HALF_CENT)
    assert own <= cost.cost and all(row["cost"] >= 0 and row["hours"] >= 0 for row in rows)


def test_what_is_bought_is_all_packs_of_the_base_and_of_the_base_with_its_alternate(signed):
    est, rows, gallon = signed.before.estimate, signed.values["signed"], 231 * 0.0254**3
    for scenario, own in ((1, base(rows)), (2, rows)):
        bought = sum(row.get("bought") or 0.0 for row in own) / gallon
        packs = sum(one.bought for one in est.rows["purchases"] if one.live and one.scenario == scenario) / gallon
        assert bought == pytest.approx(packs, abs=0.005 * len(rows)) and packs > 0
    coats = [row for row in rows if row.get("coating")]
    assert sum(row["area"] for row in coats) == pytest.approx(
        sum(one.surface_coats for one in est.rows["film"] if one.live), rel=1e-4
    )


def test_tags_are_those_of_paint_and_stand_there(signed):
    rows, coats = signed.values["signed"], signed.values["coats"]
    order = [1, 2, 3, 6, 4, 5]  # row of Paint: Boards, Boards, Inside, Inside, Rails, Gate
    numbered = iter(["C1", "C3", "C4"])
    kept = {1: "c2", 2: "Slate", 5: "T1"}
    want = [kept.get(no) or next(numbered) for no in order]
    assert [row["tag"] for row in rows if row.get("coating")] == want
    assert [row["tag"] for row in coats] == ["c2", "Slate", want[2], want[4], "T1", want[3]]
    tasks = [row["tag"] for row in rows if not row.get("coating")]
    assert tasks == [f"T{number}" for number in range(2, 2 + len(tasks))]  # T1 is a coat's
    assert len({str(row["tag"]).casefold() for row in rows}) == len(rows)
    assert rows[1]["what"] == "Boards, Exterior acrylic satin, 2 coats"
    assert all(row.sound for row in signed.after.estimate.rows["signed"][: len(rows)])


def test_the_alternate_is_the_first_change(signed):
    (change,) = signed.values["changes"]
    assert (change["date"], change["alternate"], change["what"]) == (
        day("2026-05-20"),
        "A",
        "Alternate A, accepted with the bid",
    )


def test_it_reads_back_and_reissues_as_it_is(signed, tmp_path):
    path, job = tmp_path / "signed.xlsx", tmp_path / "job.yaml"
    path.write_bytes(signed.data)
    one = taken(returned(path))
    assert not one.findings and inputs(one.opened.values) == inputs(signed.values)
    job.write_text(as_job(one, [CATALOGS]))
    again = open_job(job, [CATALOGS])
    assert inputs(again.values) == inputs(signed.values) and make(again) == signed.data
    assert inputs(reissue(returned(path), [CATALOGS]).after.values) == inputs(signed.values)


def test_a_changed_input_moves_the_estimate_and_not_the_contract(signed, tmp_path):
    path = tmp_path / "signed.xlsx"
    path.write_bytes(signed.data)
    engine, places = Addressed(path), taken(returned(path)).opened
    values = copy.deepcopy(signed.values)
    values["takeoff"][0]["length"] *= 2
    after = from_values(values, places.units, signed.after.settings).estimate
    brief, old = after.rows["brief"][0], signed.after.estimate.rows["brief"][0]
    assert brief.stands == old.stands and brief.shown_price == old.shown_price and brief.state == "SIGNED"
    assert old.moved == pytest.approx(0, abs=1e-6) and brief.moved == pytest.approx(brief.price - old.price) != 0
    assert old.told_moved == "By today's inputs the price is what was signed."
    more = f"{brief.price - old.price:,.2f}"
    assert brief.told_moved == f"By today's inputs the price is {more} USD more than was signed."
    area = returned(path).area("takeoff", "length")
    engine.put(area.sheet, area.top, area.left, values["takeoff"][0]["length"] / 0.3048)
    for sheet in SHEETS:
        assert [engine.get(sheet.title, row, 1) for row in (2, 3)] == ["SIGNED", old.shown_price], sheet.title
    assert engine.get("Summary", 8, 1) == f"Contract with its changes: {old.shown_price}. {brief.told_moved}"
    assert engine.get("Summary", 7, 3) == "by today's inputs"
    assert "tax" in signed.before.estimate.rows["summary"][0].more_price


def test_the_command_says_what_is_signed_and_what_today_comes_to(books, signed, tmp_path, capsys):
    one = signing(tmp_path, signed.path.read_bytes(), capsys, "--with", "a", "--on", "2026-05-20")
    agreed = signed.after.estimate.rows["agreed"][0]
    total = f"{agreed.signed:,.2f}"
    assert one.status == 0 and one.path.read_bytes() == signed.data
    assert (
        f"signed at {total} USD, contract with changes {agreed.contract:,.2f}; today's inputs come to {total}\n"
        in one.said
    )
    assert "kept: " in one.said and "no row has them" in one.said
    values = copy.deepcopy(signed.values)
    values["takeoff"][0]["system"] = "nobody"
    values["changes"] = []
    broken = from_values(values, signed.after.units, signed.after.settings)
    first = broken.estimate.checks.first
    assert broken.state() == "SIGNED" and broken.price() is None
    assert broken.summary().startswith(f"signed at {total} USD; today's inputs give no price: {first}")
    brief = broken.estimate.rows["brief"][0]
    assert brief.words == f"SIGNED · contract {total} USD · {first}" and brief.next == first


def test_a_signed_price_needs_its_day(signed):
    values = copy.deepcopy(signed.values)
    values["job"][0]["signed_on"] = None
    assert from_values(values, signed.after.units, signed.after.settings).state() == "READY"


@pytest.mark.parametrize(
    "options, told",
    [
        ((), "it is signed already: its plan and its price are kept (type what was agreed since on Changes)"),
        (("-o", "shed.xlsx"), "the command reads this file, so it does not write it"),
    ],
)
def test_what_is_signed_is_not_signed_again_nor_written_over(signed, tmp_path, capsys, monkeypatch, options, told):
    monkeypatch.chdir(tmp_path)
    one = signing(tmp_path, signed.data, capsys, *options)
    assert one.status != 0 and told in one.warned and not one.path.exists()


def test_a_contract_is_not_written_over_unasked(signed, tmp_path, capsys):
    """The same once more is the same file; signed on another day, or without its alternate, it would be lost."""
    data = signed.path.read_bytes()
    options = ("--with", "a", "--on", "2026-05-20")
    assert [signing(tmp_path, data, capsys, *options).status for _ in range(2)] == [0, 0]
    one = signing(tmp_path, data, capsys, "--on", "2026-05-20")
    assert one.status == 1 and one.path.read_bytes() == signed.data
    assert "this workbook is signed: the contract is in it (choose another file name with -o, " in one.warned
    assert signing(tmp_path, data, capsys, "--on", "2026-05-20", "--force").status == 0


@pytest.mark.parametrize(
    "job, options, told",
    [
        ({"crew": "nobody", "accepted": ALL}, (), "it has no price to sign: "),
        ({"accepted": None}, (), "its price is a draft: "),
        (
            {"accepted": f"{ALL}, date", "date": None},
            (),
            "so the day of signing is not known (say it: --on 2026-05-20)",
        ),
        ({"accepted": ALL}, ("--with", "B"), "alternate B has no price in this job (priced are: A)"),
    ],
)
def test_it_refuses_in_a_sentence(books, tmp_path, capsys, job, options, told):
    one = signing(tmp_path, changed(books["small shed"], **job), capsys, *options)
    assert one.status == 1 and told in one.warned and not one.path.exists() and not one.said


def test_a_draft_is_signed_anyway_on_the_day_of_its_estimate_and_a_job_file_too(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.yaml").write_text(re.sub("  accepted: .*\n", "", SHED.read_text()))
    assert open_job("job.yaml", [CATALOGS]).state().startswith("DRAFT")
    assert main(["sign", "job.yaml", "--anyway", "--catalogs", str(CATALOGS)]) == 0
    values = taken(returned("job-signed.xlsx")).opened.values
    assert values["job"][0]["signed_on"] == values["job"][0]["date"] == day("2026-05-04")
    assert not values["changes"] and values["signed"]


def test_a_letter_of_what_is_signed_says_the_contract_and_no_bid(signed, tmp_path):
    one, agreed = mailed(tmp_path, signed.data, "--customer"), signed.after.estimate.rows["agreed"][0]
    said = " ".join(text(one.message).split())
    assert one.status == 0 and one.message["Subject"].startswith("Contract: ")
    assert "It was signed on 20 May 2026." in said and "The price is valid" not in said and "draft" not in said
    for amount in (
        agreed.signed,
        agreed.contract,
        *(row["price"] for row in base(signed.values["contract"]) if row.get("price")),
    ):
        assert f"{amount:,.2f} USD" in said
    assert list(one.message.iter_attachments()) == [] and "needs no page to sign" in one.said
    assert signed.after.estimate.rows["bid"][0].state == SIGNED_BID
