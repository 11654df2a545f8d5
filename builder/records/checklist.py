"""The checks of an estimate: what is counted, in words, and whether it stops the price."""

from dataclasses import dataclass

from builder.records.kinds import KINDS


# fmt: off
@dataclass(frozen=True)
class Item:
    """One check. Its count is 0 when clear; `where`: the sheet to look on; `stops`: the price stays blank while it is
    not clear.
    """

    key: str
    words: str
    where: str
    stops: bool = False


ITEMS = (
    Item("no_lines", "No takeoff line is complete yet", "Takeoff", True),
    *(Item(f"faults_{kind.key}", f"Rows with an error in {kind.title}", kind.sheet,
           True) for kind in KINDS.values()),
    Item("beyond", "Cells typed above or below the rows of a table", "Checks", True),
    Item("too_open", "Takeoff lines whose openings are larger than the face", "Takeoff", True),
    Item("uncoated", "Systems with takeoff lines but no coat", "Paint", True),
    Item("film", "Coats with entries that do not go together", "Paint", True),
    Item("no_nozzle", "Sprayed coats that no nozzle fits", "Nozzles", True),
    Item("no_day", "Visits filled by their fixed work: no time is left for the job", "Tasks", True),
    Item("refused", "Margin and overhead add up to 100 % of the price or more", "Job", True),
    Item("overhead", "Overhead for this job is a share, but Terms charge it by the labor hour", "Job", True),
    Item("too_high", "Takeoff lines higher than their ladder, lift or scaffold reaches", "Takeoff"),
    Item("misfit", "Nozzles chosen on Coats that do not fit", "Nozzles"),
    Item("sags", "Coats too wet for one pass: they run or sag", "Paint"),
    Item("overthinned", "Coats thinned beyond their coating's limit", "Paint"),
    Item("turbulent", "Coats whose flow in the hose may be turbulent: the pump shows more than stated", "Nozzles"),
    Item("lead", "Old lead paint is likely: the lead-safe rules apply (40 CFR 745)", "Job"),
    Item("voc", "Coats above the job's VOC limit", "Paint"),
    Item("old_prices", "Coatings and nozzles whose price is older than Terms allow", "Coatings"),
    Item("area_sum", "Area added up by line and by system differs", "Checks"),
    Item("gallons_sum", "Gallons added up by coat and by coating differ", "Checks"),
    Item("cost_sum", "Cost added up by item and by kind differs", "Checks"),
)
CLEAR, LOOK, STOP = "clear", "review", "fix"
TABLES = tuple(kind for kind in KINDS.values() if not kind.upright)
ITEMS_OF_COST = ("paint", "thinner", "nozzles", "task_material", "sundries", "coat_wages", "task_wages", "change_wages",
                 "pump_rental", "access_rental", "tax", "overhead")
