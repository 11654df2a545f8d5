"""The input sheets: one table a kind, the key result and the first fault in words beside each row."""
from builder.records.kinds import KINDS
from builder.sheets.grammar import At, Block, inputs
from builder.sheets.grammar import Column as C

BESIDE = "ROW()-ROW({%s.head})"


def _shown(kind, block, *columns):
    """A table of inputs with columns of results beside them."""
    return Block(kind, KINDS[kind].sheet, (*inputs(KINDS[kind]), *columns), {"here": At(block, BESIDE % kind)}, entered=True)


def _fault(block="here"):
    return C("shown_fault", "To put right", "text", f'{{{block}.fault}}&""', "")


TABLES = (
    _shown("takeoff", "areas", C("shown_area", "Coated area", "area", "{here.coated}", ""), _fault()),
    _shown("openings", "openings", C("shown_deducted", "Deducted", "area", "{here.deducted}", ""), _fault()),
    _shown("systems", "systems", C("shown_area", "Coated area", "area", "{here.coated}", ""), _fault()),
    Block("coats", "Coats", (*inputs(KINDS["coats"]), C("shown_nozzle", "Nozzle", "text", "{used.nozzle}", ""),
                             C("shown_need", "Needed", "volume", "{amount.need}", ""), _fault()),
          {"here": At("films", BESIDE % "coats"), "used": At("picks", BESIDE % "coats"), "amount": At("gallons", BESIDE % "coats")}, entered=True),
    _shown("kit", "kit", C("shown_worn", "Worn", "share", "{here.worn}", ""), _fault()),
    Block("tasks", "Tasks", (*inputs(KINDS["tasks"]), C("shown_hours", "Hours, base", "time", "INDEX({task_hours.hours},ROW()-ROW({tasks.head}),1)", ""), _fault()),
          {"here": At("tasks", BESIDE % "tasks")}, entered=True),
    *(_shown(key, key, _fault()) for key in ("coatings", "families", "nozzles", "pumps", "surfaces", "profiles", "rates", "crews",
                                              "exposures", "reaches", "holidays")),
)
