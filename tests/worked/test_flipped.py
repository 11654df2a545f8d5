"""What drops and flips the terms of equations (`survivors.py`, run by hand), tried on what is known of it."""

from pathlib import Path

import pytest
from equivalent import explained
from support.flipping import changes
from survivors import CHOICES, book_of, choices, pages, survivors

MONEY = ("cost", "coat_cost", "task_cost", "line_cost", "counter", "openings")
CHOSEN = (
    "none on the van", "overhead by the hour", "travel that is not said", "wages at the trigger of an alternate",
)  # fmt: skip


def same(reference):
    """No other column."""


def test_terms_are_dropped_and_flipped():
    """a + 2 b: minus, each term alone, the product and its sides, and one more of the number."""
    found = [formula for _, formula in changes("{a}+2*{b}", same)]
    assert found == ["({a}-2*{b})", "{a}", "2*{b}", "{a}+(2/{b})", "{a}+2", "{a}+{b}", "{a}+3*{b}"]


def test_what_is_no_term_stays():
    """What keeps noise off a bound, makes a number of a blank, or asks whether a row is sound."""
    found = [formula for _, formula in changes("--(0+{a}>{b}*(1+{terms.slack}))*(N({row.live})=1)", same)]
    assert found == ["--(0+{a}<={b}*(1+{terms.slack}))*(N({row.live})=1)"]


def test_alike_branches_are_not_changed_for_each_other():
    """Of three branches, of which the second and the third are alike, the first and the last are put otherwise."""
    found = [formula for words, formula in changes("CHOOSE({k},{a},0,0)", same) if "CHOOSE" in words]
    assert found == ["CHOOSE({k},0,0,0)", "CHOOSE({k},{a},0,{a})"]


def test_a_sum_that_is_written_out_is_its_first_two_terms():
    """Of five, as of two: which sign, which term, what each is made of."""
    one, two, five = (
        [words for words, _ in changes("+".join(f"{{a@{no}}}*{{b}}" for no in range(1, most + 1)), same)]
        for most in (1, 2, 5)
    )
    assert len(one) == 3 and len(two) == 3 + 2 * 3 and len(five) == len(two)


@pytest.mark.slow
def test_a_dropped_term_is_missed_and_put_back(tmp_path):
    """Rental at nothing is seen by the page of rentals; the formula as it is stays."""
    folder = tmp_path / "rentals"
    folder.mkdir()
    _, book = book_of(folder, *next(one for one in pages() if one[0] == "rentals.yaml"))
    assert len(book.figures) == 5
    alive = {("machines.cost", "at nothing"): "IF({hired}=1,0,0)", ("machines.cost", "as it is"): ""}
    alive["machines.cost", "as it is"] = book.places["machines", "cost"].column.formula
    assert [words for _, words in book.survivors(alive)] == ["as it is"]


@pytest.mark.slow
def test_at_most_one_in_fifty_terms_of_costs_is_shown_by_nothing():
    """What `survivors.py` finds of some blocks: the pages and four choices show all, or it is proved that none can."""
    tried, left = survivors([*pages(), *choices(CHOSEN)], MONEY)
    unexplained = [change for change in left if not explained(*change)]
    assert len(tried) > 400 and len(unexplained) <= len(tried) / 50, unexplained


def test_all_choices_are_looked_at():
    """Each file of choices beside the pages is one of those that `survivors.py` takes."""
    found = {path.stem for path in Path(__file__).parent.glob("test_choices*.py")}
    assert found == {module.__name__ for module in CHOICES}
