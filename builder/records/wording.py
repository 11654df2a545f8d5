"""What a faulty entry is told: one wording for the sheets, the model and the command line."""

from builder.quantities import SHOWN, Units, Value
from builder.records.fields import Check, Field, Kind
from builder.records.rules import Between, Day, Length
from builder.values import is_number, to_date

FEET = ", or feet and inches as 14' 6 1/2\""


def limit_text(value: float, quantity: str, units: Units) -> str:
    """A limit in the book's unit: '5,000'."""
    shown = units.to_cell(value, quantity)
    return f"{float(f'{shown:.4g}'):,.12g}"


MARCH_1900 = 61  # the first day number that spreadsheet programs count alike


def entered(value: Value, one: Field, units: Units) -> str:
    """What was entered, as a person writes it: '30 ft'."""
    if one.quantity == "date" and is_number(value):
        return to_date(value).isoformat() if MARCH_1900 <= value <= Day().high else f"{value:.10g}"
    return units.to_text(value, one.quantity)


def _share_words(low: float, high: float) -> str:
    """Both ways to type a share: a cell shows %, a file may hold either."""
    return f"a share from {low * 100:g} % to {high * 100:g} %, that is {low:g} to {high:g}"


def allowed(kind: Kind, one: Field, units: Units) -> str:
    """What a field may hold, in words: 'a number from 0 to 5,000 ft'."""
    words = one.rule.words(units)
    if isinstance(one.rule, Between) and not isinstance(one.rule, Day):
        if one.quantity == "year":
            return words.format(low=int(one.rule.low), high=int(one.rule.high))
        if one.quantity == "share":
            return _share_words(*one.rule.limits())
        low, high = (limit_text(end, one.quantity, units) for end in one.rule.limits())
        unit = (
            ""
            if SHOWN[one.quantity][0] == "" and not one.quantity.startswith("money")
            else " " + units.shown(one.quantity)
        )
        words = words.format(low=low, high=high) + unit
    return words


def in_a_cell(kind: Kind, one: Field, units: Units) -> str:
    """What may be typed into its cell."""
    return allowed(kind, one, units) + (FEET if isinstance(one.rule, Length) else "")


def fault(kind: Kind, one: Field, units: Units) -> str:
    """The words beside a row whose field is missing or wrong."""
    return f"{kind.title}, {one.title.lower()}: enter {in_a_cell(kind, one, units)}"


def check_fault(kind: Kind, check: Check) -> str:
    """The words beside a row whose fields do not go together."""
    return f"{kind.title}: {check.words}"


def judged(kind: Kind) -> tuple[Field, ...]:
    """The fields of a kind that get a judging column: all but free text that may stay blank."""
    return tuple(one for one in kind.fields if one.required or type(one.rule).__name__ != "Rule")
