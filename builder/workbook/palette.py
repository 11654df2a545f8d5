"""Colors, sizes and lines of the book: one place for each."""

FONT = "Arial"
TEXT, SECTION, BIG, PRICE = 11, 13, 16, 28  # points
INK, HEAD, QUIET, ALERT, PAPER = "#26221C", "#1F4A43", "#665D50", "#94291A", "#FFFFFF"
ANSWER, ENTRY, RULE, HAIR = "#F4EFE4", "#FCF3D6", "#8A7C60", "#CFC6B6"  # fills; lines under entries, between rows
TITLE_HEIGHT, ROW_HEIGHT, SECTION_HEIGHT = 30, 18, 27  # points
FROZEN = 14  # characters of the first column, which stays in sight: 120 pixels at most
DIGIT, PADDING = 8, 5  # pixels of a character of width (the widest digit of Arial at 11 points), and of both sides
DOTTED, THIN, MEDIUM = 4, 1, 2  # lines, as the file format numbers them
