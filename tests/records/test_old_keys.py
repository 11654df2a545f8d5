"""Files that say what keys and words were called before: read as ever, each old name told once a file."""

import re
from pathlib import Path

import pytest
from support.places import ROOT

from builder.jobs import open_job
from builder.problems import WARNING
from builder.records.versions import OLD_KEYS, OLD_WORDS

JOB = (ROOT / "tests/data/shed.yaml").read_text(encoding="utf-8")
TERMS = (ROOT / "catalogs/terms.yaml").read_text(encoding="utf-8")


def _opened(tmp_path, job=JOB, **catalogs):
    folder = tmp_path / "catalogs"
    folder.mkdir(exist_ok=True)
    (tmp_path / "job.yaml").write_text(job, encoding="utf-8")
    for name, text in catalogs.items():
        (folder / f"{name}.yaml").write_text(text, encoding="utf-8")
    return open_job(tmp_path / "job.yaml", (ROOT / "catalogs", folder) if catalogs else (ROOT / "catalogs",))


def _told(opened):
    return [
        f"{Path(problem.file).name}:{problem.line}:{problem.column}: {problem.message}"
        for problem in opened.problems
        if problem.severity == WARNING
    ]


def test_old_keys_of_a_job_are_read(tmp_path):
    new = _opened(tmp_path)
    old = _opened(tmp_path, JOB.replace("color:", "colour:").replace("access:", "reach:"))
    first = {
        word: next((number, line.index(word) + 1) for number, line in enumerate(JOB.splitlines(), 1) if word in line)
        for word in ("color:", "access:")
    }
    assert old.values == new.values and not old.errors
    assert _told(old) == sorted(
        [
            f"job.yaml:{first['color:'][0]}:{first['color:'][1]}: 'colour' is now called 'color'",
            f"job.yaml:{first['access:'][0]}:{first['access:'][1]}: 'reach' is now called 'access'",
        ],
        key=lambda line: int(line.split(":")[1]),
    )


@pytest.mark.parametrize(
    "name, before, told",
    [
        ("pumps", "pumps:\n  - {change: Mid electric, hire: 65}\n", "2:28: 'hire' is now called 'rental'"),
        (
            "coatings",
            "coatings:\n  - {change: Exterior primer, packs: [{size: 1 gal, pack_price: 40}]}\n",
            "2:40: 'size' is now called 'volume'",
        ),
        ("terms", "terms:\n  labour: {burden: 30 %}\n", "2:3: 'labour' is now called 'labor'"),
        (
            "terms",
            "terms:\n  price: {overhead_basis: labour hours}\n",
            "2:27: 'labour hours' is now called 'labor hours'",
        ),
        ("terms", "terms:\n  range: {percentile: 80 %}\n", "2:3: 'range' is now called 'risk'"),
        ("terms", "reaches:\n  - {change: lift, hire: 250}\n", "1:1: 'reaches' is now called 'access'"),
        ("tasks", "rates:\n  - {change: Clean pump, basis: colour}\n", "2:33: 'colour' is now called 'color'"),
    ],
)
def test_old_keys_and_words_of_a_catalog_are_read(tmp_path, name, before, told):
    now = before
    for old, new in {**OLD_KEYS, **OLD_WORDS}.items():
        now = re.sub(rf"\b{old}\b", new, now)
    assert now != before
    opened = _opened(tmp_path, **{name: before})
    assert not opened.errors and f"{name}.yaml:{told}" in _told(opened)
    assert opened.values == _opened(tmp_path, **{name: now}).values


def test_both_names_at_once_are_a_fault(tmp_path):
    opened = _opened(tmp_path, JOB.replace("color: ", "color: Sand, colour: ", 1))
    assert [problem.message for problem in opened.errors] == ["Coats: unknown key 'colour'"]


def test_shipped_catalogs_say_no_old_name():
    assert not [problem for problem in open_job(None).problems if "is now called" in problem.message]


def test_a_job_that_says_draft_is_read_as_unfinished(tmp_path):
    """With a fault that it carries; both names at once are a fault, and so is a word that is neither yes nor no."""
    wrong = JOB.replace("people: 2", "people: 0", 1)
    assert _opened(tmp_path, wrong).errors
    new, old = (_opened(tmp_path, f"{key}: yes\n{wrong}") for key in ("unfinished", "draft"))
    assert not new.errors and not old.errors and old.values == new.values and old.price() is None
    assert [words for words in _told(old) if words not in _told(new)] == [
        "job.yaml:1:1: 'draft' is now called 'unfinished'"
    ]
    both = _opened(tmp_path, f"unfinished: yes\ndraft: yes\n{JOB}")
    assert [problem.message for problem in both.errors] == ["unknown key 'draft'"]
    neither = _opened(tmp_path, f"unfinished: maybe\n{JOB}")
    assert [problem.message for problem in neither.errors] == ["unfinished must be yes or no"]
