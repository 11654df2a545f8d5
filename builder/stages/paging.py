"""What stands on each printed sheet of the Crew card beside its coats, line by line, and how many rows that makes."""

from textwrap import wrap

from builder.records.cautions import CAUTIONS

PITCH, EACH = 10, 4  # rows of a coat, coats on a sheet of paper
LETTERS = 160  # of a line of notes, in small print across the sheet

TAILS = "Tails, heavy edges in the pattern? In this order (common practice, no source):"
REMEDIES = (
    "1  Pressure: raise it in small steps, never above the figure on the card.",
    "2  Relieve the pressure, lock the trigger: clean or change filters of pump and gun, strainer in the pail.",
    "3  Relieve the pressure, lock the trigger: put in the spare; a fan a quarter narrower than new is worn out.",
    "4  Material: stir and strain it; use paint kept at the temperature its data sheet names; thin as it allows.",
)
BEFORE = "Before anyone sprays"
HEADINGS = (TAILS, BEFORE)
NOTES = (
    TAILS,
    *REMEDIES,
    BEFORE,
    *(
        line
        for one in CAUTIONS
        for line in wrap(f"{one.topic}: {one.words} [{one.source}]", LETTERS, subsequent_indent="   ")
    ),
)
GAP = len(NOTES) + 1
PAGE = EACH * PITCH + GAP
