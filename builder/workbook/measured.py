"""How wide words are in the font of the book, so that a row is as high as its words need and no higher.

Widths of Helvetica, to which Arial is metrically equal, in thousandths of the size of the font (Adobe's AFM of
Helvetica, from memory). A letter that is not listed is taken for a wide one.
"""

import functools

from builder.workbook.palette import DIGIT, TEXT

# fmt: off
_LETTERS = {"ijl'": 222, "fIt,./:; ": 278, "-r()": 333, "ckvxyzsJ": 500, "abdeghnopquL0123456789": 556, "FTZ": 611,
            "ABEKPSVXY": 667, "CDHNRUw": 722}
# fmt: on
WIDE = 833  # of 'm', 'M', and of what is not listed
GLYPHS = {letter: width for letters, width in _LETTERS.items() for letter in letters}
PIXELS = TEXT * 96 / 72 / 1000  # of a thousandth of the size of the font
SPARE = 1.04  # other programs' columns are a little narrower


@functools.cache
def width(text):
    """Pixels that a text takes on one line, with some to spare."""
    return sum(GLYPHS.get(letter, WIDE) for letter in text) * PIXELS * SPARE


def lines(text, room):
    """Lines that a text takes in a column of so many characters, broken between words; a word that is longer than
    the column is broken too.
    """
    most = max(room * DIGIT, DIGIT)
    if len(text) * WIDE * PIXELS * SPARE <= most:  # however wide its letters are
        return 1
    count, filled = 1, 0.0
    for word in text.split():
        need = width(word)
        space = width(" ") if filled else 0.0
        if filled and filled + space + need > most:
            count, filled, space = count + 1, 0.0, 0.0
        filled += space + need
        while filled > most:
            count, filled = count + 1, filled - most
    return count
