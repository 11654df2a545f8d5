"""`wetfilm carry`: what it says of the examples holds against their estimates; jobs that cannot be reckoned are told."""

import re
from itertools import combinations

import pytest
from support.books import catalogs_of, room_of
from support.places import CATALOGS, EXAMPLES, GOLDEN, SHED

from builder.cli import main
from builder.jobs import open_job
from builder.season.carry import vans
from builder.season.gathering import Season, gathered

JOBS = [str(path) for path in (*EXAMPLES.values(), SHED)]
LINE = re.compile(r" +(\d+) +([\d,]+\.\d\d) +([\d,]+\.\d\d) +(\d+)  (.+?)( \(at most .+\))?")
STOCK = ("--catalogs", str(CATALOGS))


def money(text):
    return float(text.replace(",", ""))


def table(said):
    """(sizes, cost, saved by the last, trips, carried) of each line."""
    found = [match for match in map(LINE.fullmatch, said.splitlines()) if match]
    return [(int(one[1]), money(one[2]), money(one[3]), int(one[4]), one[5].split(", ")) for one in found]


def reckoned(paths):
    """(cost by size, cost of a trip) of each sprayed coat of the base, taken from the estimates."""
    coats = []
    for path in paths:
        est = open_job(path, [CATALOGS]).estimate
        names = [size.known for size in est.rows["nozzles"]]
        for coat, pick in zip(est.rows["film"], est.rows["picks"]):
            if coat.sprayed and coat.only == 0 and coat.surface_coats:
                costs = {
                    names[int(row.size_at) - 1]: row.cost * coat.surface_coats
                    for row in est.rows["trials"]
                    if row.coat == coat.no and row.against == 0
                    if est.row("nozzles", int(row.size_at)).orifice <= pick.coarsest
                }
                coats.append((costs, est.terms.trip_cost + est.terms.trip_time * coat.wage))
    return coats


def cost_with(coats, sizes):
    """Of all coats, and how many trips."""
    total = trips = 0
    for costs, trip in coats:
        with_trip = trip + min(costs.values())
        there = min((costs[size] for size in sizes if size in costs), default=with_trip)
        total += min(there, with_trip)
        trips += with_trip <= there
    return total, trips


def carry(capsys, *words):
    status = main(["carry", *map(str, words)])
    return status, *capsys.readouterr()


def changed(path, terms):
    """The shed with terms of its own."""
    path.write_text(SHED.read_text() + f"own:\n  terms: {{travel: {terms}}}\n")
    return path


@pytest.fixture(scope="module")
def coats():
    return reckoned(JOBS)


@pytest.fixture(scope="module")
def said(coats):
    """What the command says of the examples, for three sizes."""
    import contextlib
    import io

    with contextlib.redirect_stdout(io.StringIO()) as out, contextlib.redirect_stderr(io.StringIO()):
        assert main(["carry", *JOBS, "--sizes", "3", *STOCK]) == 0
    return out.getvalue()


# ---- the examples ----------------------------------------------------------------------------------------------------


@pytest.mark.slow
def test_each_line_of_the_table_is_what_the_estimates_come_to(said, coats):
    lines = table(said)
    assert [sizes for sizes, *_ in lines] == list(range(1, 7))  # three, and three further ones
    before, _ = cost_with(coats, ())
    for sizes, cost, saved, trips, carried in lines:
        total, needed = cost_with(coats, carried)
        assert len(carried) == sizes and trips == needed
        assert cost == pytest.approx(total, abs=0.006) and saved == pytest.approx(before - total, abs=0.006)
        assert total <= before
        before = total


@pytest.mark.slow
def test_no_other_two_sizes_cost_less(said, coats):
    names = {size for costs, _ in coats for size in costs}
    least = min(cost_with(coats, two)[0] for two in combinations(sorted(names), 2))
    assert table(said)[1][1] == pytest.approx(least, abs=0.006)


def test_the_first_lines_say_what_to_carry_and_what_it_costs(said, coats):
    first, carried, cost, *_ = said.splitlines()
    assert first.startswith(f"jobs: {len(JOBS)}; sprayed coats of their base: {len(coats)}; ")
    assert carried == "carry: " + ", ".join(table(said)[2][4])
    assert cost == f"coats and trips cost {table(said)[2][1]:,.2f} USD, the least possible"


def test_what_still_needs_a_trip_is_named_with_what_to_fetch(said, coats):
    carried = table(said)[2][4]
    lines = said.splitlines()
    (head,) = [place for place, line in enumerate(lines) if line.startswith("trips to the store: ")]
    assert int(lines[head].split(": ")[1].split(",")[0]) == len(lines) - head - 1 == cost_with(coats, carried)[1] > 0
    for line in lines[head + 1 :]:
        job, words, fetched = line.strip().split(": ")
        count, size = fetched.split(" for ")
        assert job in JOBS and count == "1" and size not in carried
        tag, system, coating = words.split(", ")
        values = open_job(job, [CATALOGS]).values
        assert (system, coating) in {(row["system"], row["coating"]) for row in values["coats"]}
        assert tag in {row["tag"] or f"coat {no}" for no, row in enumerate(values["coats"], start=1)}


def test_coats_of_alternates_are_left_out_and_told(said):
    opened = [open_job(path, [CATALOGS]).estimate for path in JOBS]
    apart = sum(coat.only > 0 for est in opened for coat in est.rows["film"] if coat.sprayed)
    assert apart > 0 and f"; {apart} of alternates are left out" in said


def test_more_sizes_than_are_needed(capsys, coats):
    """Every coat has the size that suits it best, no trip is left, and no size is carried for nothing."""
    status, out, _ = carry(capsys, SHED, "--sizes", "50", *STOCK)
    own = reckoned([SHED])
    lines = table(out)
    carried, saved = lines[-1][4], lines[-1][2]
    assert status == 0 and len(lines) == len(carried) <= len(own) and saved > 0
    assert cost_with(own, carried)[0] == pytest.approx(sum(min(costs.values()) for costs, _ in own))
    assert "no further size saves anything" in out and "no coat needs a trip to the store" in out


def test_beyond_four_sizes_the_distance_is_no_less_than_it_is(coats):
    """The cost, less what it says it is above the least, is no more than any sizes cost that are tried at random."""
    import random

    season = Season()
    for path in JOBS:
        season.take(gathered(path, [CATALOGS]))
    luck, names = random.Random(1), sorted({size for costs, _ in coats for size in costs})
    for van in vans(season, 7)[5:]:
        assert van.above >= 0
        for _ in range(2000):
            assert cost_with(coats, luck.sample(names, len(van.sizes)))[0] >= van.cost - van.above - 1e-6


# ---- jobs that are told ----------------------------------------------------------------------------------------------


@pytest.mark.slow
def test_a_broken_job_is_told_and_skipped(capsys, tmp_path):
    broken = tmp_path / "broken.yaml"
    broken.write_text("job: [")
    misspelt = tmp_path / "misspelt.yaml"
    misspelt.write_text(SHED.read_text().replace("job:", "job:\n  pepole: 3", 1))
    _, alone, _ = carry(capsys, SHED, "--sizes", "2", *STOCK)
    status, out, err = carry(capsys, broken, tmp_path / "none.yaml", misspelt, SHED, "--sizes", "2", *STOCK)
    assert status == 1 and out == alone
    assert all(name in err for name in ("broken.yaml", "none.yaml", "misspelt.yaml")) and "'pepole'" in err


def test_a_job_without_a_price_is_told_and_skipped(capsys, tmp_path):
    path = tmp_path / "open.yaml"
    path.write_text("unfinished: yes\n" + SHED.read_text().replace("system: Inside", "system: Insde", 1))
    status, out, err = carry(capsys, path, SHED, "--sizes", "1", *STOCK)
    assert status == 1 and out.startswith("jobs: 1;")
    assert re.search(r"open\.yaml: NO PRICE: .+ \(left out; make it ready first\)", err)


def test_a_job_named_twice_counts_once(capsys):
    _, alone, _ = carry(capsys, SHED, "--sizes", "1", *STOCK)
    status, out, err = carry(capsys, SHED, SHED.parent / "." / "shed.yaml", "--sizes", "1", *STOCK)
    assert (status, out) == (0, alone) and "named twice: it counts once" in err


def test_nothing_left_to_reckon_with(capsys, tmp_path):
    status, out, err = carry(capsys, tmp_path / "none.yaml", "--sizes", "1", *STOCK)
    assert (status, out) == (1, "") and "no job has a sprayed coat to choose sizes for (name other jobs)" in err


def test_jobs_of_another_currency_are_told_and_skipped(tmp_path):
    for path in CATALOGS.glob("*.yaml"):
        text = path.read_text()
        (tmp_path / path.name).write_text(text.replace("currency: USD", "currency: EUR"))
    season, other = Season(), tmp_path / "other job"
    other.write_text(SHED.read_text().replace("currency: USD", "currency: EUR"))
    season.take(gathered(str(SHED), [CATALOGS]))
    season.take(gathered(str(other), [tmp_path]))
    assert (season.jobs, season.failed) == (1, 1)
    assert "its catalogs are in EUR, those of the jobs before in USD" in str(season.told[0])


@pytest.mark.parametrize("wrong", ["0", "51", "three", "-1"])
def test_sizes_that_no_van_has(capsys, wrong):
    with pytest.raises(SystemExit) as ended:
        main(["carry", str(SHED), f"--sizes={wrong}", *STOCK])
    assert ended.value.code == 2 and "is not a whole number from 1 to 50" in capsys.readouterr().err


# ---- what a trip costs -----------------------------------------------------------------------------------------------


@pytest.mark.slow
def test_terms_that_say_nothing_of_trips(capsys, tmp_path):
    blank = changed(tmp_path / "blank.yaml", "{trip_time: '', trip_cost: ''}")
    old = GOLDEN / "schema_5.xlsx"  # of before there were trips
    status, _, err = carry(capsys, blank, old, "--sizes", "1", *STOCK)
    lines = [line for line in err.splitlines() if "do not say what a trip to the store costs" in line]
    assert status == 1 and [line.split(": ")[0] for line in lines] == [str(blank), str(old)]
    assert all("trip_time and trip_cost" in line for line in lines)
    assert "under 'travel:' of the terms" in lines[0] and "on its sheet Terms" in lines[1]


def test_either_part_of_a_trip_may_be_blank(tmp_path):
    """Half an hour of one person at the wage of the coat, or 50."""
    paths = (
        changed(tmp_path / "time.yaml", "{trip_time: 30 min, trip_cost: ''}"),
        changed(tmp_path / "money.yaml", "{trip_time: '', trip_cost: 50}"),
    )
    seasons = []
    for path in paths:
        seasons.append(Season())
        seasons[-1].take(gathered(str(path), [CATALOGS]))
    wages = [row.wage for row in open_job(SHED, [CATALOGS]).estimate.rows["film"] if row.sprayed and row.only == 0]
    assert [coat.fetch for coat in seasons[0].coats] == pytest.approx([1800 * wage for wage in wages])
    assert [coat.fetch for coat in seasons[1].coats] == [50.0] * len(wages)


def test_where_a_trip_costs_nothing_no_size_is_carried(capsys, tmp_path):
    free = changed(tmp_path / "free.yaml", "{trip_time: 0 min, trip_cost: 0}")
    status, out, _ = carry(capsys, free, "--sizes", "3", *STOCK)
    assert status == 0 and table(out) == []
    assert "carry: nothing, no size saves more than a trip costs" in out


def test_a_size_that_costs_more_than_a_trip_is_left_on_the_van(tmp_path):
    """Trips that cost next to nothing: each coat takes a trip, or the very size that suits it best."""
    cheap = changed(tmp_path / "cheap.yaml", "{trip_time: 0 min, trip_cost: 0.01}")
    season = Season()
    season.take(gathered(str(cheap), [CATALOGS]))
    van = vans(season, 1)[1]
    for coat in season.coats:
        assert coat in van.trips or coat.cost(van.sizes) <= min(coat.costs.values()) + 0.01


# ---- workbooks -------------------------------------------------------------------------------------------------------


def test_a_workbook_counts_as_the_job_it_was_built_of(books, capsys):
    with room_of("small shed"):
        (stock,) = [catalogs_of("small shed")]
        said = [carry(capsys, path, "--sizes", "3", "--catalogs", stock) for path in (SHED, books["small shed"].path)]
    (status, out, _), (same, again, _) = said
    assert (
        status == same == 0
        and table(out)
        and out.replace(str(SHED), "") == again.replace(str(books["small shed"].path), "")
    )
