"""The checks of an estimate: what is counted, in words, and whether it stops the price."""
from dataclasses import dataclass

from builder.records.kinds import KINDS


@dataclass(frozen=True)
class Item:
    """One check. Its count is 0 when clear; `where`: the sheet to look on; `stops`: the price stays blank while it is not clear."""

    key: str
    words: str
    where: str
    stops: bool = False


ITEMS = (
    Item("no_lines", "No takeoff line is complete yet", "Takeoff", True),
    *(Item(f"faults_{kind.key}", f"Rows with a fault on the sheet {kind.sheet}", kind.sheet, True) for kind in KINDS.values()),
    Item("beyond", "Cells typed outside the rows that are worked out", "Checks", True),
    Item("too_open", "Lines with more opening than face", "Takeoff", True),
    Item("uncoated", "Systems that are measured but have no coat", "Coats", True),
    Item("film", "Coats whose choices do not go together", "Coats", True),
    Item("no_nozzle", "Sprayed coats that no nozzle fits", "Fit", True),
    Item("no_day", "Visits whose fixed work leaves no time for the job", "Days", True),
    Item("refused", "Margin and overhead that leave no price", "Price", True),
    Item("overhead", "Own overhead is a share, but Terms charge overhead by the labor hour", "Job", True),
    Item("too_high", "Lines higher than their ladder, lift or scaffold reaches", "Takeoff"),
    Item("misfit", "Own nozzles that do not fit", "Picks"),
    Item("sags", "Coats wetter than their coating can hold in one pass", "Film"),
    Item("overthinned", "Coats thinned beyond their coating's limit", "Coats"),
    Item("turbulent", "Coats whose hose flow is no longer laminar: the pump shows more than stated", "Picks"),
    Item("lead", "Old lead paint is likely: the lead-safe rules apply (40 CFR 745)", "Job"),
    Item("voc", "Coats above the job's VOC limit", "Film"),
    Item("old_prices", "Coatings and nozzles whose price is older than Terms allow", "Coatings"),
    Item("area_sum", "Area by line and by system differ", "Areas"),
    Item("gallons_sum", "Gallons by coat and by coating differ", "Purchases"),
    Item("cost_sum", "Cost by item and by kind differ", "Cost"),
)
CLEAR, LOOK, STOP = "clear", "look", "put right"
TABLES = tuple(kind for kind in KINDS.values() if not kind.upright)
ITEMS_OF_COST = ("paint", "thinner", "nozzles", "task_material", "sundries", "coat_wages", "task_wages", "change_wages",
                 "pump_rental", "access_rental", "tax", "overhead")
