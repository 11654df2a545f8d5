"""Crew card: a strip a coat, so many to a sheet of paper, and on each sheet what to try and what to beware of."""

from builder.sheets.grammar import At, Block
from builder.sheets.grammar import Column as C
from builder.stages.choice import stroke
from builder.stages.paging import EACH, GAP, NOTES, PAGE, PITCH

# fmt: off
HEAD, TOP = 4, 5                                       # the row of the job, of the first strip
NOTES_TOP = TOP + EACH * PITCH
EMPTY = "Crew card: no coat is worked out yet; type lines on Takeoff"
SPRAYED = ("nozzle", "set_to", "hand", "change")
# The rows of a strip: what stands there comes from the column of that name on Coat words.
TITLE, WORK, LABEL, FIGURE, NOTE, LINES = 0, 1, 2, 3, 4, 5
LINE = ("line_work", "line_film", "line_weather", "line_care")


def figures(units):
    """What is read at arm's length, from left to right: column of Coat words -> what stands above it."""
    return {"nozzle": "Nozzle", "set_to": f"Set to ({units.shown('pressure')})", "hand": f"Hand: {stroke(units)} in",
            "film": f"Gauge ({units.shown('film')})", "change": "Change after", "next": "Next coat"}


def pages(coats):
    """Sheets of paper for so many coats."""
    return -(-coats // EACH)


def strip_blocks(units):
    """The Crew card, in these units."""
    row = "ROW()-ROW({#number})-1"
    number = (f"INT(({row})/{{constants.page_rows}})*{{constants.page_coats}}"
              f"+INT(MOD({row},{{constants.page_rows}})/{{constants.strip_rows}})+1")
    columns = [C("number", "", "count", f"INDEX({{crew_card.shown_no}},{number})", "", at=(TITLE, 0)),
               C("title", "", "text", "{told.title}", at=(TITLE, 1)),
               C("head", "", "text", "{told.head}", at=(WORK, 0))]
    for col, (key, words) in enumerate(figures(units).items()):
        label, note = (f'REPT("{words}",N({{told.sprayed}}))', f"{{told.{key}_note}}")
        if key not in SPRAYED:
            label = f'"{words}"'
        if key == "next":
            note = '"at the earliest"'
        quantity = "pressure" if key == "set_to" else "text"
        columns += [C(f"name_{key}", "", "text", label, at=(LABEL, col)),
                    C(key, "", quantity, f"{{told.{key}}}", at=(FIGURE, col)),
                    C(f"{key}_note", "", "text", note, at=(NOTE, col))]
    columns += [C(key, "", "text", f"{{told.{key}}}", at=(LINES + place, 0)) for place, key in enumerate(LINE)]
    page = "INT((ROW()-ROW({#note_0})-1)/{constants.page_rows})*{constants.page_coats}+1"
    first, *others = (f'"{text}"' for text in NOTES)
    return (
        Block("card_page", "Crew card", (
            C("heading", "", "text",
              f'IF(COUNT({{gallons.place}})=0,"{EMPTY}","Crew card"'
              f'&REPT(": "&{{bid.job_told}},--({{bid.job_told}}<>"")))'),
        ), form="page", place=0, top=HEAD),
        Block("card_strip", "Crew card", tuple(columns), {"told": At("crew_card", "{number}")}, "number", "strip", 0,
              TOP,
              pitch=PITCH, each=EACH, gap=GAP),
        Block("card_note", "Crew card", (
            C("note_0", "", "text", f'IF({page}>COUNT({{gallons.place}}),"",{first})', "", at=(0, 0)),
            *(C(f"note_{place}", "", "text", text, at=(place, 0)) for place, text in enumerate(others, start=1)),
        ), when="note_0", form="strip", place=0, top=NOTES_TOP, pitch=PAGE),
    )
# fmt: on


def strips(est):
    used = [row for row in est.rows["crew_card"] if row.coat_at]
    job = est.rows["bid"][0].job_told
    est.rows["card_page"][0].heading = "Crew card" + (f": {job}" if job else "") if used else EMPTY
    for row, told in zip(est.rows["card_strip"], used):
        row.number, row.title, row.head = told.shown_no, told.title, told.head
        for key, words in figures(est.units).items():
            setattr(row, key, getattr(told, key))
            if told.sprayed or key not in SPRAYED:
                setattr(row, f"name_{key}", words)
            setattr(row, f"{key}_note", "at the earliest" if key == "next" else getattr(told, f"{key}_note"))
        row.set(**{key: getattr(told, key) for key in LINE})
    for row in est.rows["card_note"][: pages(len(used))]:
        row.set(**{f"note_{place}": text for place, text in enumerate(NOTES)})
