"""How wide words, columns and a laptop's screen are, apart from what the program takes them for."""

# Widths of Helvetica, to which Arial is metrically equal, in thousandths of the font's size (Adobe's AFM of Helvetica,
# from memory).
GLYPHS = {
    **dict.fromkeys("0123456789abdeghnopquL", 556),
    **dict.fromkeys("fIt,. /:;", 278),
    **dict.fromkeys("ckvxyzsJ", 500),
    **dict.fromkeys("ijl", 222),
    **dict.fromkeys("-r()", 333),
    **dict.fromkeys("ABEKPSVXY", 667),
    **dict.fromkeys("CDHNRUw", 722),
    **dict.fromkeys("GOQ", 778),
    **dict.fromkeys("FTZ", 611),
    "m": 833,
    "M": 833,
    "W": 944,
    "%": 889,
    "+": 584,
}
PIXELS = 11 * 96 / 72 / 1000  # of an 11 point font
DIGIT = 8  # pixels of a character of width: the widest digit of Arial at 11 points
SEEN = 1366 - 62  # pixels of a laptop's screen beside row numbers and scroll bar
LARGER = 1.08  # LibreOffice draws columns so much wider than the file says
