"""Records laid over others: whole ones in their place, and those that state only what differs."""

import json
from textwrap import dedent

import jsonschema
import pytest
from support.places import ROOT
from support.schemas import as_editors_read
from support.slow import some

from builder.cli import main
from builder.jobs import open_job
from builder.problems import ERROR, NOTE
from builder.quantities import Units
from builder.records.kinds import CATALOGS as KINDS
from builder.records.misplaced import INSIDE
from builder.records.overlay import label
from builder.records.store import field_text, record_text
from builder.returned.read import returned
from builder.returned.taken import as_job, taken
from builder.schema import schema
from builder.workbook.make import make

CATALOGS, JOB = ROOT / "catalogs", ROOT / "examples/boathouse.yaml"
US = Units("us", "USD")
SATIN = "Exterior acrylic satin"
KEEP = "; of sizes that are not, such as 4 and 15, keep the one you buy"


@pytest.fixture(scope="module")
def stock():
    """The shipped catalogs, alone."""
    return open_job(JOB, [CATALOGS])


@pytest.fixture
def laid(tmp_path):
    """laid(text, ...) -> the boathouse on the shipped catalogs with folders of these texts over them."""

    def laid(*texts):
        folders = [CATALOGS]
        for number, text in enumerate(texts):
            folders.append(tmp_path / f"over{number}")
            folders[-1].mkdir(exist_ok=True)
            (folders[-1] / "own.yaml").write_text(text, encoding="utf-8")
        return open_job(JOB, folders)

    return laid


@pytest.fixture
def owned(tmp_path):
    """owned(text) -> the boathouse with these records of its own; a line of the text is a line of the file less 1."""

    def owned(text):
        path = tmp_path / "job.yaml"
        path.write_text("own:\n" + "".join(f"  {line}\n" for line in text.splitlines()) + JOB.read_text())
        return open_job(path, [CATALOGS])

    return owned


def row(opened, kind, name):
    return next(row for row in opened.values[kind] if label(next(one for one in KINDS if one.key == kind), row) == name)


def said(opened, severity=ERROR):
    """The problems of a severity with their line and column, without their file."""
    return [
        f"{problem.line}:{problem.column}: {problem.message}" + (f" ({problem.hint})" if problem.hint else "")
        for problem in opened.problems
        if problem.severity == severity
    ]


# ---- whole records
# -----------------------------------------------------------------------------------------------------------

RECORDS = [
    (kind, one)
    for kind in KINDS
    if not kind.upright and kind.named
    for one in kind.fields
    if one.required and one.key not in ("name", "family", "size")
]


@pytest.mark.parametrize("kind, one", some(RECORDS, 6), ids=[f"{kind.key} {one.key}" for kind, one in RECORDS])
def test_what_a_replacing_record_lacks_is_an_error(stock, laid, kind, one):
    """The note that it replaces another stands at the same place, and does not hide it."""
    record = {key: value for key, value in stock.values[kind.key][0].items() if key != one.key}
    opened = laid(f"{kind.key}:\n  - {record_text(kind, record, US)}\n")
    assert [
        words
        for words in said(opened)
        if words.startswith("2:5: ") and one.title.lower() in words.lower() and "blank; enter" in words
    ]
    assert [words for words in said(opened, NOTE) if words.startswith("2:5: ") and "replaces the record in" in words]
    assert opened.price() is None


def test_what_a_replacing_record_leaves_out_is_told(laid):
    """A clerk who writes `name:` where `change:` is meant loses what stood below, which may be left out and so is no
    fault.
    """
    opened = laid(
        "surfaces:\n  - {name: Trim, loss: 20 %, hand_loss: 4 %, clear_width: 60 in, solid: 1, uptake: 1.1, fan: {min: 4 in, max: 8 in},"
        " gun_speed: {min: 1 ft/s, max: 3 ft/s}, handling: 6 s/ft2, finish: good, source: ours}\n"
    )
    (note,) = said(opened, NOTE)
    assert not opened.errors and note.endswith(
        " and drops its profile, brush_rate (write 'change:' instead of 'name:' to keep what is not stated)"
    )


def test_what_a_record_of_a_jobs_own_lacks_is_an_error_and_check_fails(owned, tmp_path, capsys):
    opened = owned(
        "crews:\n  - {name: steady, guns: 1, rollers: 0, tenders: 0, flow_max: 1 gal/min, gun_speed_factor: 1, handling_factor: 1, source: ours}"
    )
    assert said(opened) == ["3:7: Crews, wage: blank; enter a number from 0 to 100,000 USD/h"]
    assert main(["check", str(tmp_path / "job.yaml"), "--catalogs", str(CATALOGS)]) == 1
    assert (
        main(["build", str(tmp_path / "job.yaml"), "--catalogs", str(CATALOGS), "-o", str(tmp_path / "book.xlsx")]) == 1
    )


def test_in_an_unfinished_job_each_fault_is_told_once(tmp_path):
    path = tmp_path / "job.yaml"
    text = JOB.read_text()
    path.write_text("unfinished: yes\n" + text.replace("length: 60 ft", "length: 60 psi", 1))
    assert path.read_text().count("60 psi") == 1
    problems = open_job(path, [CATALOGS]).problems
    assert [problem.message for problem in problems] == ["Length: 'psi' is not a unit of length"]


# ---- records that change one below
# -----------------------------------------------------------------------------------------------

EACH = [
    (kind, one)
    for kind in KINDS
    if not kind.upright
    for one in kind.fields
    if one.key not in ("family", "size", "date", *(("name",) if kind.named else ()))
    and not one.path.startswith("packs")
]


@pytest.mark.parametrize("kind, one", some(EACH, 6), ids=[f"{kind.key} {one.key}" for kind, one in EACH])
def test_every_field_of_every_kind_can_be_changed_alone(stock, laid, kind, one):
    """The last record's value laid over the first record: that is the only difference."""
    first, name = stock.values[kind.key][0], label(kind, stock.values[kind.key][0])
    given = next((row[one.key] for row in reversed(stock.values[kind.key]) if row.get(one.key) is not None), None)
    text = field_text(one, given, US) if given is not None else ""
    for step in reversed(one.steps[1:]):
        text = f"{{{step}: {text}}}"
    opened = laid(f"{kind.key}:\n  - change: {name}\n    {one.steps[0]}: {text}\n")
    assert {**first, one.key: given} == row(opened, kind.key, name)
    assert [other for other in opened.values[kind.key] if label(kind, other) != name] == stock.values[kind.key][1:]
    assert said(opened, NOTE)[0].startswith(f"2:5: {kind.title} '{name}': changes {'.'.join(one.steps)} of {CATALOGS}/")


def test_a_price_alone_is_a_record_of_two_lines(stock, laid, owned):
    for opened in (
        laid(f"coatings:\n  - change: {SATIN}\n    packs: [{{volume: 5 gal, pack_price: 215.00}}]\n"),
        owned(f"coatings:\n  - change: {SATIN}\n    packs: [{{volume: 5 gal, pack_price: 215.00}}]"),
    ):
        assert row(opened, "coatings", SATIN) == {**row(stock, "coatings", SATIN), "pack2_price": 215.0}
        assert opened.price() > stock.price() and not opened.errors
        (note,) = said(opened, NOTE)
        assert f"Coatings '{SATIN}': changes packs of {CATALOGS}/coatings.yaml:" in note and note.endswith(
            "; priced_on stays as it was"
        )


def test_packs_are_found_by_size_and_new_ones_stand_in_their_order(stock, laid):
    before = row(stock, "coatings", SATIN)
    text = f"coatings:\n  - change: {SATIN}\n    priced_on: 2026-04-01\n    packs: [{{volume: 20 qt, pack_price: 215}}, {{volume: 1 qt, pack_price: 14}}]\n"
    opened = laid(text)
    after = row(opened, "coatings", SATIN)
    gallon = Units().parse("1 gal", "volume")
    assert [after[f"pack{number}_volume"] / gallon for number in (1, 2, 3)] == pytest.approx([0.25, 1, 5])
    assert [after[f"pack{number}_price"] for number in (1, 2, 3)] == [14, before["pack1_price"], 215]
    assert not opened.errors and not said(opened, NOTE)[0].endswith("as it is there")


@pytest.mark.parametrize(
    "packs, answers",
    [
        (
            "[{pack_price: 46.00}]",
            ["3:26: the size of the pack to change is missing (as in '{volume: 5 gal, pack_price: 215.00}')"],
        ),
        (
            "[{}, {pack_price: 46.00}]",
            ["3:30: the size of the pack to change is missing (as in '{volume: 5 gal, pack_price: 215.00}')"],
        ),
        (
            "[{volume: 5 gall, pack_price: 46.00}]",
            ["3:22: Pack 1: unknown unit 'gall' (use gal, L, qt, pt, fl oz, mL)"],
        ),
        (
            "[{volume: 5 gal, pack_price: }]",
            ["3:41: Coatings: enter both size and price of pack 2, a whole multiple of pack 1" + KEEP],
        ),
        (
            "[{volume: 7 gal, pack_price: 300}]",
            ["3:22: Coatings: enter both size and price of pack 3, a whole multiple of pack 2" + KEEP],
        ),
        (
            "[{volume: 10 gal, pack_price: 400}, {volume: 20 gal, pack_price: 790}]",
            ["3:57: a coating has at most 3 packs (write the record whole, with 'name:' and the packs it is to have)"],
        ),
        (
            "",
            [
                "3:11: Coatings, pack 1: blank; enter a number from 0.01 to 500 gal",
                "3:11: Coatings, price of pack 1: blank; enter a number from 0 to 10,000,000 USD",
            ],
        ),
    ],
)
def test_packs_that_do_not_fit_are_answered(laid, packs, answers):
    opened = laid(f"coatings:\n  - change: {SATIN}\n    packs: {packs}\n")
    assert [words for words in said(opened) if words.startswith("3:")] == answers


def test_a_blank_value_clears_what_may_be_blank_and_is_refused_where_it_may_not(stock, laid):
    opened = laid(
        f"coatings:\n  - {{change: {SATIN}, priced_on: , surface_temperature: , viscosity: }}\npumps:\n  - change: Mid electric\n    whip:\n"
    )
    cleared = {"priced_on", "surface_temperature_min", "surface_temperature_max", "viscosity"}
    before = row(stock, "coatings", SATIN)
    assert all(before[key] is not None for key in cleared)
    assert row(opened, "coatings", SATIN) == {**before, **dict.fromkeys(cleared)}
    assert row(opened, "pumps", "Mid electric") == {
        **row(stock, "pumps", "Mid electric"),
        **dict.fromkeys(("whip_length", "whip_bore", "whip_pressure_max")),
    }
    assert [words for words in said(opened) if words.startswith("2:")] == [
        "2:85: Coatings, viscosity: blank; enter a number from 1 to 20,000 cP"
    ]


def test_sizes_of_a_changed_family_are_changed_or_added(stock, laid, owned):
    text = 'families:\n  - change: standard\n    sizes:\n      - {size: "515", nozzle_price: 30}\n      - {size: "915", nozzle_price: 31, priced_on: 2026-03-02}\n'
    for opened, down in ((laid(text), 0), (owned(text), 1)):
        assert row(opened, "nozzles", "standard 515") == {**row(stock, "nozzles", "standard 515"), "nozzle_price": 30.0}
        assert row(opened, "nozzles", "standard 915") == {
            "family": "standard",
            "size": "915",
            "nozzle_price": 31.0,
            "stocked": None,
            "priced_on": 46083.0,
        }
        assert (
            len(opened.values["nozzles"]) == len(stock.values["nozzles"]) + 1
            and opened.values["families"] == stock.values["families"]
        )
        assert not opened.errors
        changed, added = said(opened, NOTE)
        assert f"Nozzles 'standard 515': changes nozzle_price of {CATALOGS}/nozzles.yaml:" in changed
        assert added.endswith(
            "Nozzles 'standard 915': is added: no catalog before this one has that size"
        ) and added.startswith(f"{5 + down}:")


def test_a_nozzle_of_its_own_list_is_changed_by_family_and_size(stock, owned):
    opened = owned("nozzles:\n  - {change: standard 515, nozzle_price: 30}")
    assert (
        row(opened, "nozzles", "standard 515") == {**row(stock, "nozzles", "standard 515"), "nozzle_price": 30.0}
        and not opened.errors
    )


def test_a_later_folder_changes_what_an_earlier_one_changed(stock, laid):
    opened = laid(
        f"coatings:\n  - {{change: {SATIN}, viscosity: 300 cP, density: 10 lb/gal}}\n",
        f"coatings:\n  - {{change: {SATIN.upper()}, viscosity: 320 mPa.s}}\n",
    )
    before, after = row(stock, "coatings", SATIN), row(opened, "coatings", SATIN)
    assert after["viscosity"] == pytest.approx(0.32) and after["density"] == pytest.approx(
        before["density"] * 10 / 10.6
    )
    assert not opened.errors and after["name"] == SATIN


@pytest.mark.slow
def test_a_job_with_changes_of_its_own_comes_back_to_the_same_bytes(owned, tmp_path):
    opened = owned(
        f"coatings:\n  - change: {SATIN}\n    packs: [{{volume: 5 gal, pack_price: 215}}]\nholidays:\n  - {{change: 2026-07-03, name: Long weekend}}\n"
        "without: {holidays: [2026-05-25]}"
    )
    assert not opened.errors
    book, back = tmp_path / "book.xlsx", tmp_path / "back.yaml"
    book.write_bytes(make(opened))
    back.write_text(as_job(taken(returned(book)), [CATALOGS]))
    assert make(open_job(back, [CATALOGS])) == book.read_bytes()


@pytest.mark.slow
@pytest.mark.parametrize(
    "text, answers",
    [
        (
            "coatings:\n  - {change: Exterior acrylic satn, viscosity: 300 cP}",
            [
                "2:14: Coatings: 'Exterior acrylic satn' is not in the catalogs before this one (did you mean 'Exterior acrylic satin' or 'Exterior acrylic heavy coat'?)"
            ],
        ),
        (
            'families:\n  - change: standrd\n    sizes: [{size: "515", nozzle_price: 30}]',
            ["2:13: Nozzle families: 'standrd' is not in the catalogs before this one (did you mean 'standard'?)"],
        ),
        (
            "nozzles:\n  - {change: standard 516, nozzle_price: 30}",
            ["2:14: Nozzles: 'standard 516' is not in the catalogs before this one (did you mean "],
        ),
        (
            f"coatings:\n  - {{change: {SATIN}, viscosity: 300 cP}}\n  - {{change: {SATIN}, density: 10 lb/gal}}",
            [f"3:14: Coatings '{SATIN}': is changed twice (combine both; the first is in OVER:2)"],
        ),
        (
            "crews:\n  - {change: steady, wage: 31}\n  - {name: steady, wage: 40}",
            ["3:5: Crews 'steady': is changed twice (combine both; the first is in OVER:2)"],
        ),
        (f"coatings:\n  - {{Change: {SATIN}}}", ["2:6: Coatings: unknown key 'Change' (did you mean 'change'?)"]),
        (
            f"coatings:\n  - change: {SATIN}\n  - viscosity: 300 cP",
            [
                "3:5: Coatings: a record without 'name:' (begin each record with '- name: ...'; indent its other lines alike"
            ],
        ),
        (
            f"coatings:\n  - change: {SATIN}\n    pack_price: 215",
            [f"3:5: Coatings '{SATIN}': unknown key 'pack_price' (it belongs under 'packs')"],
        ),
        (
            f"coatings:\n  - change: {SATIN}\n    packs: {{volume: 5 gal, pack_price: 215}}",
            [f"3:12: Coatings '{SATIN}', packs must be a list (put [ ] around it"],
        ),
        ("terms:\n  margin: 30 %", ["2:3: Terms: unknown key 'margin' (it belongs under 'price')"]),
        (
            "coatings:\n  – change: Block filler\n    viscosity: 300 cP",
            ["2:3: '–' is not a plain hyphen (begin a record with -)"],
        ),
        (
            "coatings:\n  -change: Block filler\n   viscosity: 300 cP",
            ["2:3: '-' needs a space after it (write '- name: ...')"],
        ),
        (
            "coatings:\n  - change: Block filler\n    viscosity:300 cP",
            ["3:14: ':' needs a space after it (write 'key: value')"],
        ),
        (
            'coatings:\n  - change: "Block filler\n    viscosity: 300 cP',
            ["2:13: the quote that begins here is not closed (add the closing quote)"],
        ),
        (
            f"coatings:\n  - {{change: {SATIN}, name: House white, viscosity: 300 cP}}",
            [
                f"2:44: Coatings '{SATIN}': 'change:' cannot change the name (leave 'name:' out, or write a whole record under the new name)"
            ],
        ),
        (
            "holidays:\n  - {change: 2026-07-03, date: 2026-07-06}",
            [
                "2:32: Holidays '2026-07-03': 'change:' cannot change the date (leave 'date:' out, or write a whole record under the new date)"
            ],
        ),
        (
            "coatings:\n  - {change: , viscosity: 300 cP}",
            ["2:14: change: the name of the record to change is missing (as in 'change: Exterior acrylic satin')"],
        ),
        (
            "coatings:\n  - {change: [a], viscosity: 300 cP}",
            ["2:14: change: the name of the record to change is missing (as in 'change: Exterior acrylic satin')"],
        ),
        (
            f"coatings:\n  - {{change: {SATIN}, viscosty: 300 cP}}",
            [f"2:38: Coatings '{SATIN}': unknown key 'viscosty' (did you mean 'viscosity'?)"],
        ),
        (
            f"coatings:\n  - {{change: {SATIN}, orifice: {{max: 5 thou}}}}",
            ["2:53: Coatings: the smallest orifice is above the largest"],
        ),
        (
            "terms: {change: Terms, price: {margin: 20 %}}",
            [
                "1:9: Terms: unknown key 'change' (remove this line: in terms, each figure replaces that of the folder before by itself)"
            ],
        ),
    ],
)
def test_a_change_that_cannot_be_made_is_answered(laid, text, answers):
    opened = laid(text)
    found = [words.replace(opened.errors[0].file, "OVER") for words in said(opened)]
    assert len(found) == len(answers) and all(map(str.startswith, found, answers)), found


def test_a_change_with_nothing_below_it_is_an_error(tmp_path, capsys):
    for path in CATALOGS.glob("*.yaml"):
        (tmp_path / path.name).write_text(path.read_text())
    with (tmp_path / "coatings.yaml").open("a") as file:
        file.write(f"\n  - change: {SATIN}\n    viscosity: 300 cP\n")
    assert main(["check", str(tmp_path)]) == 1
    line = (tmp_path / "coatings.yaml").read_text().count("\n") - 1
    assert capsys.readouterr().out == (
        f"{tmp_path}/coatings.yaml:{line}:13: Coatings '{SATIN}': nothing to change: no catalog before this one has coatings "
        "(name the folder it changes first: --catalogs catalogs --catalogs THIS)\n"
    )


def test_a_change_of_nothing_says_so(laid):
    assert said(laid(f"coatings:\n  - change: {SATIN}\n"), NOTE)[0].startswith(
        f"2:5: Coatings '{SATIN}': changes nothing of {CATALOGS}/coatings.yaml:"
    )


def test_figures_of_terms_are_noted_one_by_one(laid):
    (note,) = said(laid("terms:\n  price: {margin: 30 %}\n  spray: {overlap: 40 %}\n"), NOTE)
    assert note.startswith(f"2:3: Terms: changes price.margin, spray.overlap of {CATALOGS}/terms.yaml:")


# ---- editors
# -------------------------------------------------------------------------------------------------------------------


@pytest.mark.slow
@pytest.mark.parametrize(
    "name, text, right",
    [
        (
            "coatings",
            "coatings:\n  - {change: A, packs: [{volume: 5 gal, pack_price: 215}], orifice: {min: 11 thou}}",
            True,
        ),
        ("coatings", "coatings:\n  - {change: A, priced_on: , source: }", True),
        ("coatings", "coatings:\n  - {change: A, viscosty: 300 cP}", False),
        ("coatings", "coatings:\n  - {viscosity: 300 cP}", False),
        ("coatings", "coatings:\n  - {change: A, packs: [{pack_price: 215}]}", False),
        ("coatings", "coatings:\n  - {change: A, viscosity: 300}", False),
        ("nozzles", 'families:\n  - {change: standard, sizes: [{size: "515", nozzle_price: 30}]}', True),
        ("nozzles", "families:\n  - {change: standard, sizes: [{nozzle_price: 30}]}", False),
        ("terms", "crews:\n  - {change: steady, wage: 31}", True),
        ("terms", "terms: {change: A}", False),
        ("job", "own:\n  coatings:\n    - {change: A, viscosity: 300 cP}", True),
        ("job", "own:\n  nozzles:\n    - {change: standard 515, nozzle_price: 30}", True),
        ("job", "systems:\n  - {change: A, surface: B}", False),
    ],
)
def test_a_schema_takes_a_record_that_changes_another(name, text, right):
    try:
        jsonschema.validate(as_editors_read(text), schema(name))
        assert right
    except jsonschema.ValidationError:
        assert not right


def test_every_list_inside_a_catalog_record_can_be_changed():
    """Whoever adds such a list looks after its changes."""
    assert [inside for inside in INSIDE if inside[0] in {kind.key for kind in KINDS}] == [("families", "sizes")]
    assert json.dumps(schema("nozzles")).count('"sizes"') == 2


TOPS = {
    "coatings": "coatings:",
    "nozzles": "families:",
    "pumps": "pumps:",
    "surfaces": "surfaces:",
    "profiles": "profiles:",
    "tasks": "rates:",
    "terms": "",
}


@pytest.mark.parametrize("file", TOPS)
def test_the_example_in_a_catalogs_header_changes_what_it_says(file, laid):
    _, _, after = (CATALOGS / f"{file}.yaml").read_text().partition("# TO CHANGE A ")
    example = [
        line.removeprefix("#")
        for line in after.split("\n\n")[0].split("\n#\n")[1].splitlines()
        if line.startswith("# ")
    ]
    opened = laid(TOPS[file] + "\n" + dedent("\n".join(example)))
    assert not opened.errors and said(opened, NOTE)
