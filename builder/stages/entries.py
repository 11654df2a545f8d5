"""The input sheets: one table a kind, the key result and the first fault in words beside each row.

What stands beside a row finds its own row by place, counted from the top of the table whatever row is there by now; on
a
row that a person inserted it is missing, which does no harm: the workings reach inputs by number.
"""

from builder.records.kinds import KINDS
from builder.records.reasons import TOO_HIGH
from builder.records.sentences import NO_ROOM
from builder.sheets.grammar import At, Block, inputs
from builder.sheets.grammar import Column as C

# fmt: off
# Of a kind whose results stand between its inputs: the first input to their right.
ASIDE = {"takeoff": "shape", "rooms": "part", "systems": "goal", "coats": "tag", "tasks": "area", "log": "kit"}


def _said_twice(key):
    """What a fault begins with, and its table says already."""
    return f"{KINDS[key].title}, "


def _table(key, *columns, after=(), under="", links=(), **blocks):
    """A kind's inputs with results beside them, and what is seldom typed to their right; each word of `blocks` finds
    the same row of another block, `here` the faults; `after`: results behind those.

    A row that insertions have pushed out of the table is judged nowhere and says so.
    """
    place, room = "{^}", f"{{checks.room_{key}}}"
    found = {word: At(block, f"MIN({place},{room})") for word, block in {"here": key, **blocks}.items()} | dict(links)
    told = f'SUBSTITUTE({{here.fault}},"{_said_twice(key)}","")'
    fault = C("shown_fault", "To fix", "text", f'{told}&REPT("{NO_ROOM}",--({place}>{room}))', "")
    section = KINDS[key].title if under else ""
    own = inputs(KINDS[key])
    right = [column.key for column in own].index(ASIDE[key]) if key in ASIDE else len(own)
    return Block(key, KINDS[key].sheet, (*own[:right], *columns, fault, *after, *own[right:]), found,
                 entered=True, under=under, section=section)


AREA = C("shown_area", "Coated area", "area", "{here.coated}", "")

TABLES = (
    _table("takeoff", AREA, here="areas",
           after=(C("shown_look", "To review", "text", f'REPT("{TOO_HIGH}",N({{here.too_high}}))', ""),)),
    _table("rooms", C("shown_area", "Coated area", "area", "{room.coated}", ""), room="rooms",
           links={"here": At("areas", "{checks.room_takeoff}+MIN({^},{checks.room_rooms})")}),
    _table("openings", C("shown_deducted", "Deducted", "area", "{here.deducted}", "")),
    _table("systems", AREA),
    _table("coats", C("shown_nozzle", "Nozzle", "text", "{used.nozzle}", ""),
           C("shown_need", "Needed", "volume", "{amount.need}", ""),
           under="systems", here="film", used="picks", amount="gallons"),
    _table("tasks", C("shown_hours", "Hours, base", "time", "{work.hours@1}", ""), work="task_hours"),
    _table("kit", C("shown_worn", "Worn before", "share", "{here.worn}", ""),
           C("shown_now", "Worn by now", "share", "{by_now.worn}", ""),
           C("shown_verdict", "By the log", "text", '{by_now.verdict}&""', ""), by_now="kit_now"),
    _table("guards", under="kit"),
    _table("log", C("shown_paid", "Paid hours", "time", "{line.paid}", ""),
           C("shown_said", "Said of it", "text", '{line.said}&""', ""), line="log_lines"),
    _table("changes", C("shown_worth", "Counts", "money", "{line.worth}", ""), line="change_lines"),
    _table("bills", C("shown_due", "Due", "money", "{line.due_now}", ""), under="changes", line="bill_lines"),
    _table("contract", under="bills"),
    _table("signed", under="contract"),
    _table("coatings"),
    _table("families"),
    _table("nozzles", under="families"),
    _table("pumps"),
    _table("surfaces"),
    _table("profiles", under="surfaces"),
    _table("rates"),
    _table("crews"),
    _table("exposures", under="crews"),
    _table("access", under="exposures"),
    _table("holidays", under="access"),
)
# Tables of the week, their workings, and what of those stands beside the entries.
WEEK = (("log", "log_lines", {"paid": "paid", "said": "said"}), ("changes", "change_lines", {"worth": "worth"}),
        ("bills", "bill_lines", {"due": "due_now"}))
# fmt: on


def beside(est):
    rows = est.rows
    for entry, area in zip(rows["takeoff"], rows["areas"]):
        entry.set(shown_area=area.coated, shown_look=TOO_HIGH if area.too_high else None)
        _fault(entry, "takeoff", area)
    for entry in rows["openings"]:
        entry.set(shown_deducted=entry.deducted)
    for entry in rows["rooms"]:
        entry.set(shown_area=entry.coated)
        _fault(entry, "rooms", rows["areas"][len(rows["takeoff"]) + entry.no - 1])
    for entry in rows["systems"]:
        entry.set(shown_area=entry.coated)
    for entry, film, pick, amount in zip(rows["coats"], rows["film"], rows["picks"], rows["gallons"]):
        entry.set(shown_nozzle=pick.nozzle, shown_need=amount.need)
        _fault(entry, "coats", film)
    for entry, now in zip(rows["kit"], rows["kit_now"]):
        entry.set(shown_worn=entry.worn, shown_now=now.worn, shown_verdict=now.verdict)
    for entry, hours in zip(rows["tasks"], rows["task_hours"]):
        entry.set(shown_hours=hours.hours and hours.hours[0])
    for block, working, shown in WEEK:
        for entry, line in zip(rows[block], rows[working]):
            entry.set(**{f"shown_{key}": getattr(line, of) for key, of in shown.items()})
    for block in (
        "openings",
        "systems",
        "kit",
        "guards",
        "tasks",
        "log",
        "changes",
        "bills",
        "contract",
        "signed",
        "coatings",
        "families",
        "nozzles",
        "pumps",
        "surfaces",
        "profiles",
        "rates",
        "crews",
        "exposures",
        "access",
        "holidays",
    ):
        for entry in rows[block]:
            _fault(entry, block, entry)


def _fault(entry, key, judged):
    entry.shown_fault = judged.fault and judged.fault.replace(_said_twice(key), "")
