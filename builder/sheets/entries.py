"""The input sheets: one table a kind, the key result and the first fault in words beside each row.

What stands beside a row finds its own row by place, counted from the top of the table whatever row is there by now; on a
row that a person inserted it is missing, which does no harm: the workings reach inputs by number.
"""
from builder.records.kinds import KINDS
from builder.sheets.grammar import At, Block, inputs
from builder.sheets.grammar import Column as C

NO_ROOM = "no room for this row: delete a blank one above it"


def _table(key, *columns, **blocks):
    """A kind's inputs with results beside them; each word of `blocks` finds the same row of another block, `here` the faults.

    A row that insertions have pushed out of the table is judged nowhere and says so.
    """
    place, room = "{^}", f"{{checks.room_{key}}}"
    links = {word: At(block, f"MIN({place},{room})") for word, block in {"here": key, **blocks}.items()}
    fault = C("shown_fault", "To put right", "text", f'{{here.fault}}&REPT("{NO_ROOM}",--({place}>{room}))', "")
    return Block(key, KINDS[key].sheet, (*inputs(KINDS[key]), *columns, fault), links, entered=True)


AREA = C("shown_area", "Coated area", "area", "{here.coated}", "")

TABLES = (
    _table("takeoff", AREA, C("shown_look", "To look at", "text", '{here.look}&""', ""), here="areas"),
    _table("openings", C("shown_deducted", "Deducted", "area", "{here.deducted}", "")),
    _table("systems", AREA),
    _table("coats", C("shown_nozzle", "Nozzle", "text", "{used.nozzle}", ""), C("shown_need", "Needed", "volume", "{amount.need}", ""),
           here="films", used="picks", amount="gallons"),
    _table("kit", C("shown_worn", "Worn", "share", "{here.worn}", "")),
    _table("tasks", C("shown_hours", "Hours, base", "time", "{work.hours@1}", ""), work="task_hours"),
    *map(_table, ("coatings", "families", "nozzles", "pumps", "surfaces", "profiles", "rates", "crews", "exposures", "reaches", "holidays")),
)
