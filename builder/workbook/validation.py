"""Data validation of an input cell, made from its field's rule: what may be typed, a prompt that teaches, an alert that
says what is needed.
"""

from builder.records.rules import NAME_LENGTH, Between, Day, Length, Name, Offered, OneOf, Word
from builder.records.wording import fault, in_a_cell

# of a result beside entries, whose cell is open: nothing may be typed over it
WORKED_OUT = {
    "validate": "custom",
    "value": "=FALSE",
    "error_title": "This cell is worked out",
    "error_message": "It follows from what is typed beside it. Type there; this cell keeps its formula.",
}

PROMPT_TITLE, PROMPT_TEXT, ALERT_TITLE, ALERT_TEXT = 32, 255, 32, 255  # the file format's own limits


def _test(kind, field, cell):
    rule, limit = field.rule, f"{kind.key}_{field.key}"
    if isinstance(rule, Length):  # text is judged beside the row, which says how to write it
        inside = f"({cell}>=least_{limit})*({cell}<=most_{limit})"
        return {"validate": "custom", "value": f"=ISTEXT({cell})+{inside}>0"}
    if isinstance(rule, Between):
        kind_of = "date" if isinstance(rule, Day) else "integer" if rule.whole else "decimal"
        return {"validate": kind_of, "criteria": "between", "minimum": f"=least_{limit}", "maximum": f"=most_{limit}"}
    if isinstance(rule, OneOf):
        return {"validate": "list", "source": f"={rule.block}_known"}
    if isinstance(rule, Offered):  # what else is typed is taken too
        return {"validate": "list", "source": f"={rule.block}_known", "error_type": "information"}
    if isinstance(rule, Word):
        return {"validate": "list", "source": f"=words_{rule.list}"}
    if isinstance(rule, Name):
        return {"validate": "length", "criteria": "<=", "value": NAME_LENGTH}
    return {"validate": "any"}


def validation(kind, field, units, cell=""):
    """The options of the writing library's data_validation for one field; `cell`: the first it stands in."""
    needs = in_a_cell(kind, field, units)
    prompt = f"{field.help} {needs[0].upper()}{needs[1:]}.".strip()
    return {
        **_test(kind, field, cell),
        "input_title": field.title[:PROMPT_TITLE],
        "input_message": prompt[:PROMPT_TEXT],
        "error_title": field.title[:ALERT_TITLE],
        "error_message": fault(kind, field, units)[:ALERT_TEXT],
    }


def choosing(column):
    """The same for a cell in which a person chooses what a sheet shows."""
    return {
        "validate": "list",
        "source": "=" + "_".join(column.view.split(".")),
        "input_title": column.title,
        "input_message": "What is shown here follows. The price does not change.",
        "error_title": column.title,
        "error_message": "Choose one from the list, or leave blank for the first.",
    }
