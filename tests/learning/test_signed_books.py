"""The rows of a plan as `sign` writes it lead back to the coats and tasks that they were made of."""

import copy

import pytest
from support.places import SHED
from support.small import CATALOGS

from builder.jobs import from_values, open_job
from builder.learning.closed import log_of
from builder.review.sign import sign
from builder.values import day, same

TAGS = ("c2", "Slate", None, None, "T1", None)  # of the coats: one like a task's, one like another coat's


@pytest.fixture(scope="module", params=(True, False), ids=("own tags", "no tags"))
def logged(request, small, tmp_path_factory):
    """The shed with two more tasks of one name, signed, an hour of two people logged for each row of its plan."""
    text = SHED.read_text(encoding="utf-8")
    if request.param:
        for line, tag in zip([line for line in text.splitlines() if "coating: " in line], TAGS):
            text = text.replace(line, line.replace("{", f"{{tag: {tag}, ", 1) if tag else line)
    text = text.replace(
        "tasks:\n", "tasks:\n  - {task: Sand, system: Gate}\n  - {task: Sand, system: Boards, area: 9 ft2}\n"
    )
    path = tmp_path_factory.mktemp("signed") / "shed.yaml"
    path.write_text(text, encoding="utf-8")
    assert not open_job(path, [CATALOGS]).errors
    after = sign(path, [CATALOGS], accepted=["a"], anyway=True).after
    values = copy.deepcopy(after.values)
    plan = values["signed"]
    values["log"] = [{"date": day("2026-06-01"), "tag": row["tag"], "people": 2.0, "hours": 3600.0} for row in plan]
    values["log"].append({"date": day("2026-06-02"), "tag": "Waiting", "people": 2.0, "hours": 1800.0})
    opened = from_values(values, after.units, {**after.settings, "log_lines": float(len(values["log"]))})
    return plan, opened.estimate, log_of(opened.estimate)


def test_each_row_of_the_plan_leads_to_its_coat_or_task(logged):
    plan, est, log = logged
    assert len(log) == len(plan) + 1
    for planned, row in zip(plan, log):
        assert row.paid == 2 * 3600.0 and row.step.what == planned["what"]
        if planned.get("coating"):
            coat = est.row("coats", row.coat)
            assert planned["what"].startswith(f"{coat.system}, {coat.coating}, ") and not row.task
            assert same(coat.color) == same(planned["color"])
        elif planned["what"] != "Flushing pumps":
            task = est.row("tasks", row.task)
            assert planned["what"] == (f"{task.task}, {task.system}" if task.system else task.task) and not row.coat
        else:
            assert not row.coat and not row.task
    assert len({row.coat for row in log if row.coat}) == sum(bool(row.get("coating")) for row in plan) > 4
    tasks = [row.task for row in log if row.task]
    assert len(set(tasks)) == len(tasks) > 5


def test_what_was_not_planned_leads_nowhere(logged):
    _, _, log = logged
    assert (log[-1].step, log[-1].words, log[-1].coat, log[-1].task) == (None, "waiting", 0, 0)
