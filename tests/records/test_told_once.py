"""One mistake is one problem: at the line where it was made, with what it leads to in the same sentence."""

import pytest
from support.places import EXAMPLES, ROOT

from builder.checking import check
from builder.jobs import open_job
from builder.problems import ERROR, Problem, Refused, together

CATALOGS = ROOT / "catalogs"
JOB = EXAMPLES["boathouse"].read_text()
COAT = "  - {tag: C2, system: Cladding lower"
CLIENT = "  client: Ferrymoor Rowing Club (invented)\n"


def line_of(text, piece):
    """The number of the first line that holds a piece of text, and is no comment."""
    lines = text.split("\n")
    return next(no for no, line in enumerate(lines, start=1) if piece in line and not line.lstrip().startswith("#"))


def found(path, catalogs=CATALOGS):
    try:
        return [problem for problem in check([path], [catalogs]) if problem.severity == ERROR]
    except Refused as refused:
        return refused.problems


def of_job(tmp_path, text):
    """What is told of a job, each as 'line:column: message (hint)'."""
    path = tmp_path / "job.yaml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return [str(problem).removeprefix(f"{path}:") for problem in found(path)]


def of_catalog(tmp_path, file, change, job=JOB):
    """What is told of a job whose catalogs have one file changed: 'file:line:column: message (hint)'."""
    folder, path = tmp_path / "catalogs", tmp_path / "job.yaml"
    folder.mkdir()
    for one in CATALOGS.glob("*.yaml"):
        text = change(one.read_text()) if one.name == file else one.read_text()
        if text is not None:
            (folder / one.name).write_text(text)
    path.write_text(job)
    return [str(problem).removeprefix(f"{tmp_path}/").removeprefix("catalogs/") for problem in found(path, folder)]


def replaced(old, new):
    def change(text):
        assert text.count(old) == 1, old
        return text.replace(old, new)

    return change


UNREADABLE = [  # what is replaced by what, what the true line holds, its column, what is told
    (COAT, COAT.replace("  ", "\t", 1), "tag: C2", 1, "a tab (indent with spaces)"),
    (
        CLIENT,
        CLIENT.replace("  ", "\u00a0 ", 1),
        "client:",
        1,
        "a space pasted from a page or a letter, which is no plain space (type the space anew)",
    ),
    (
        CLIENT,
        CLIENT.replace(": ", ":\u00a0", 1),
        "client:",
        10,
        "a space pasted from a page or a letter, which is no plain space (type the space anew)",
    ),
    (
        CLIENT,
        CLIENT[1:],
        "client:",
        2,
        "this line is indented by 1, line 10 by 2 (indent lines of one level alike, here by 2 spaces)",
    ),
    (
        CLIENT,
        " " + CLIENT,
        "client:",
        4,
        "this line is indented by 3, line 10 by 2 (indent lines of one level alike, here by 2 spaces)",
    ),
    (
        COAT,
        " " + COAT,
        "tag: C2",
        4,
        "this line is indented by 3, line 43 by 2 (indent lines of one level alike, here by 2 spaces)",
    ),
    (
        COAT,
        COAT[2:],
        "tag: C2",
        1,
        "this line is indented by 0, line 43 by 2 (indent lines of one level alike, here by 2 spaces)",
    ),
    (
        COAT,
        COAT.replace("- ", "  "),
        "tag: C2",
        5,
        "this line neither begins a record nor goes on with the one above (begin a record with a dash, as in '- name: ...')",
    ),
    ("  name: Ferry", "  name Ferry", "name Ferry", 3, "this line has no colon (write 'key: value')"),
    (
        "  name: Ferry",
        "  name: Ferry: ",
        "name: Ferry",
        14,
        "a second colon in this line (put text with a colon in quotes; put { } around several keys in one line)",
    ),
    (
        "coats: 2, face: sealed}\n  - {tag: C3",
        "coats: 2, face: sealed\n  - {tag: C3",
        "tag: C2",
        5,
        "the { that begins here is not closed (add })",
    ),
    (
        "coats: 2, face: sealed}\n  - {tag: C3",
        "coats: 2 face: sealed}\n  - {tag: C3",
        "tag: C2",
        99,
        "a comma is missing before this (write {key: value, key: value}; text with a comma, a colon or a bracket stands "
        "in quotes)",
    ),
]


@pytest.mark.parametrize("old, new, at, column, words", UNREADABLE, ids=[one[4][:40] for one in UNREADABLE])
def test_what_is_no_yaml_is_told_in_its_true_line(tmp_path, old, new, at, column, words):
    text = replaced(old, new)(JOB)
    assert of_job(tmp_path, text) == [f"{line_of(text, at)}:{column}: {words}"]


def test_tabs_all_over_a_file_are_one_problem(tmp_path):
    text = JOB.replace("\n  ", "\n\t")
    begun = [no for no, line in enumerate(text.split("\n"), start=1) if line.startswith("\t")]
    words = f"a tab; the same in {len(begun) - 1} more places, to line {begun[-1]} (indent with spaces)"
    assert of_job(tmp_path, text) == [f"{begun[0]}:1: {words}"]


def test_the_marks_of_a_merge_are_one_problem(tmp_path):
    text = replaced(CLIENT, f"<<<<<<< mine\n{CLIENT}=======\n  client: Another\n>>>>>>> theirs\n")(JOB)
    at = line_of(text, "<<<<<<<")
    assert of_job(tmp_path, text) == [
        f"{at}:1: '<<<<<<<': two versions of the file were merged and differ here; the same in lines {at + 2} and "
        f"{at + 4} (keep one version of each place, and delete these lines)"
    ]


def test_another_encoding_is_one_problem_where_it_first_shows(tmp_path):
    """In Latin-1 'ü' is the byte FC, which no UTF-8 text holds."""
    text = replaced("  client: Ferrymoor Rowing Club", "  client: Rüderclüb")(JOB).replace("Towpath", "Trüb")
    at = line_of(text, "Rüderclüb")
    assert of_job(tmp_path, text.encode("latin-1")) == [
        f"{at}:12: the file is not saved as UTF-8: 'ü' is stored as one byte here; the same in line {at + 1} "
        "(save it as UTF-8)"
    ]
    assert of_job(tmp_path, JOB.encode("utf-16")) == [
        "1:1: the file is saved as UTF-16, not as UTF-8 (save it as UTF-8)"
    ]


@pytest.mark.parametrize("dash", ["    name: Exterior acrylic satin\n", "  name: Exterior acrylic satin\n"])
def test_a_dash_left_out_of_a_catalog_is_one_problem(tmp_path, dash):
    """Eleven coats name coatings of the file that cannot be read: they are no mistakes."""
    said = of_catalog(tmp_path, "coatings.yaml", replaced("  - name: Exterior acrylic satin\n", dash))
    text = (CATALOGS / "coatings.yaml").read_text()
    at = line_of(text, "- name: Exterior acrylic satin")
    assert len(said) == 1 and said[0].startswith(f"coatings.yaml:{at}:"), said
    assert "dash" in said[0]


def test_hundreds_of_lines_pasted_into_the_wrong_place_are_one_problem(tmp_path):
    end = JOB.count("\n")
    rows = "".join(f"  - {{tag: S{no}, place: Yard, item: Wall, sytem: Doors, length: 5}}\n" for no in range(400))
    assert of_job(tmp_path, JOB + rows) == [
        f"{end + 1}:5: Tasks: this is a row of 'takeoff'; the same in 399 more places, to line {end + 400} "
        "(move it under 'takeoff:')"
    ]
    assert of_job(tmp_path, JOB + "  - S1, Yard, Wall\n" * 400) == [
        f"{end + 1}:5: a record of 'tasks' needs keys and values; the same in 399 more places, to line {end + 400} "
        "(as in '- name: ...')"
    ]


def test_a_file_pasted_twice_is_one_problem(tmp_path):
    end = JOB.count("\n")
    last = end + line_of(JOB, "tasks:")
    assert of_job(tmp_path, JOB + JOB) == [
        f"{end + line_of(JOB, 'job:')}:1: duplicate key 'job', and 6 more to line {last} (the first is in line 9)"
    ]


def test_a_renamed_record_is_one_problem_whatever_names_it(tmp_path):
    """Cladding upper is named by a coat, eight takeoff lines and two tasks of the boathouse."""
    text = JOB.replace("{name: Cladding upper", "{name: Cladding top")
    users = [no for no, line in enumerate(text.split("\n"), start=1) if "system: Cladding upper" in line]
    assert len(users) == 11
    (said,) = of_job(tmp_path, text)
    assert said.startswith(f"{users[0]}:")
    assert f"is not in Systems on the sheet Paint; the same in 10 more places, to line {users[-1]}" in said
    assert "did you mean 'Cladding lower' or 'Cladding top'?" in said


def test_a_nozzle_family_that_is_gone_is_one_problem(tmp_path):
    said = of_catalog(tmp_path, "nozzles.yaml", replaced("  - name: standard\n    loss", "  - name: usual\n    loss"))
    assert len(said) == 1 and "'standard 515': the family 'standard' is not in Nozzle families" in said[0]
    said = of_job(tmp_path, JOB + "\nown: {without: {families: [smooth]}}\n")  # its sizes go with it
    assert len(said) == 1 and "'smooth 412': the family 'smooth' is not in Nozzle families" in said[0]


def test_a_file_that_is_gone_is_one_problem(tmp_path):
    said = of_catalog(tmp_path, "nozzles.yaml", lambda text: None)
    assert said == ["catalogs:1:1: no 'families:' or 'nozzles:' in any catalog of this folder (add a file that has it)"]


def test_a_twin_is_told_once_with_the_line_of_the_other(tmp_path):
    text = JOB.replace(
        "  - {name: Trim, surface: Trim, finish: good}\n",
        "  - {name: Trim, surface: Trim, finish: good}\n  - {name: Trim, surface: Doors}\n",
    )
    at = line_of(text, "{name: Trim, surface: Trim")
    assert of_job(tmp_path, text) == [
        f"{at + 1}:12: Systems, system: 'Trim' is in line {at} too (give each row its own name)"
    ]


def test_different_mistakes_stay_apart(tmp_path):
    text = JOB.replace("coating: Metal primer", "coating: Metal prime").replace("surface: Railings", "surface: Rails")
    assert len(of_job(tmp_path, text)) == 2


def test_few_lines_are_named_and_many_counted():
    def told(lines):
        return [one.message for one in together(Problem("f", line, 1, "wrong") for line in lines)]

    assert told([4]) == ["wrong"]
    assert told([4, 9]) == ["wrong; the same in line 9"]
    assert told([9, 4, 12, 15]) == ["wrong; the same in lines 9, 12 and 15"]
    assert told([4, 5, 6, 7, 9]) == ["wrong; the same in 4 more places, to line 9"]
    assert len(together([Problem("f", 1, 1, "wrong"), Problem("g", 1, 1, "wrong")])) == 2


@pytest.mark.slow
@pytest.mark.parametrize(
    "old, new",
    [
        ("travel_time: 25 min", "travel_time: 25"),
        ("distance: 12 mi", "distance: 12 psi"),
        ("travel_time: 25 min", "travel_tyme: 25 min"),
        ("date: 2026-04-20", "date: 20 April"),
        ("building: other", "bilding: other"),
    ],
)
def test_no_question_asks_for_what_a_problem_tells(tmp_path, old, new):
    """Each blank alone would be asked about; a value that cannot be read is blank as well."""
    path = tmp_path / "job.yaml"
    path.write_text(replaced(f"  {old}\n", f"  {new}\n")(JOB))
    opened = open_job(path, [CATALOGS])
    assert len(opened.errors) == 1
    asked = open_job(EXAMPLES["boathouse"], [CATALOGS]).questions()
    assert opened.questions() == asked
    path.write_text(replaced(f"  {old}\n", "")(JOB))
    left = open_job(path, [CATALOGS])
    assert not left.errors
    if old.startswith(("travel_time", "date")):
        assert len(left.questions()) == len(asked) + 1


@pytest.mark.parametrize("text, place", [("job: [", "1:6"), ("a: {b: 1}\nc: [\n\n\n", "2:4"), ("[", "1:1")])
def test_a_bracket_that_stays_open_until_the_end_of_the_file(tmp_path, text, place):
    (said,) = of_job(tmp_path, text)
    assert said.startswith(f"{place}: the [ that begins here is not closed (add ])")
