"""The sheets that hold no record: closed lists of words, limits, constants, and what this book is."""
from builder.records.reasons import REASONS
from builder.records.sources import SOURCES
from builder.records.words import BESIDE, WORDS
from builder.sheets.grammar import Block
from builder.sheets.grammar import Column as C


def _listed(key, title, values, quantity):
    return C(key, title, quantity, label=lambda number: values[number - 1], rows=len(values))


TITLES = {
    "kind": "Kind of coating", "base": "Base", "finish": "Finish, coarse to fine", "face": "Face", "aim": "Aim", "method": "Method", "shape": "Shape",
    "answer": "Answer", "alternate": "Alternate", "basis": "Basis of a task", "building": "Kind of building", "overhead_basis": "Overhead is a share of",
    "tax_base": "Purchase tax is on", "pattern": "Signs no name may hold",
    "reason": "Why a size does not fit", "reason_weight": "Weight of the reason", "to_put_right": "What stops the price", "done": "What each method has done",
    "month": "Month", "notch": "Notch of a wet-film gauge, mil", "shape_factor": "Factor of the shape", "method_sprays": "The method sprays",
    "method_rolls": "The method rolls", "shape_stands": "Its height is how high it reaches", "basis_rated": "The basis has a rate",
    "basis_visits": "The basis is each visit", "basis_whole_job": "The basis is the whole job",
}
WORD_LISTS = Block("words", "Words", (
    *(_listed(key, TITLES[key], words, "text") for key, words in WORDS.items()),
    *(_listed(key, TITLES[key], figures, "number") for key, figures in BESIDE.items())))

CONSTANTS = Block("constants", "Constants", (
    C("cover", "Film and area of one volume", note="K of the film equations: area that one volume covers at a film of 1"),
    C("jet", "Flow of an orifice of 1 at pressure 1 and density 1", note="pi/4 * d^2 * sqrt(2 p / rho), before the discharge coefficient"),
    C("hose", "Hose loss per flow", note="128 / pi, Hagen-Poiseuille"),
    C("run", "Length over bore^4"), C("reynolds", "Reynolds number", note="4 / pi"), C("bore", "Content of a hose", note="pi / 4"),
    C("pace", "Hand speed of a flow on a film and step"), C("hour", "Flow times an hour, as a volume"), C("seconds", "Seconds of an hour"),
    C("inch", "An inch in widths of this book"), C("water", "Density of water at 20 C", "density", note="998.2067 kg/m3"),
    C("money_step", "Least amount that can be paid", note="a cent, a yen: the currency's minor unit, ISO 4217, from memory"),
    C("money_decimals", "Decimals of it", "count"),
    C("clock", "Hours of a day on the clock", "time"), C("tenth", "A tenth, to which per cent are said in words"),
    C("voc", "VOC of a volume, as a mass"),
    C("lead_year", "Old lead paint is likely before", "year", note="40 CFR 745.83"),
    C("lead_inside", "Minor work in a room, up to", "area", note="6 ft2, 40 CFR 745.83"),
    C("lead_outside", "Minor work outside, up to", "area", note="20 ft2, 40 CFR 745.83"),
    C("deciles", "Standard deviations from P10 to P90", note="of the normal distribution"),
    C("score_10", "Standard score of P10"), C("score_50", "Standard score of P50"),
    C("score_80", "Standard score of P80"), C("score_90", "Standard score of P90"),
    C("freezing", "Freezing point of water", note="in the degrees of this book"), C("degree", "A degree of this book in degrees Celsius"),
    *(C(f"reason_{key}", f"Weight of the reason: {words}", "count") for key, words in REASONS.items()),
    C("notch", "A notch of 1 mil on a gauge of this book", note="1 mil: ASTM D4414; 25 um: common practice"),
    C("hand", "Hand in a second, of a speed of 1"), C("hand_unit", "Unit of it", "text"), C("film_unit", "Unit of film", "text"),
    C("volume_unit", "Unit of volume", "text"),
    C("sizes", "Rows of the nozzle catalogue", "count"), C("size_least", "Least nozzle size", "count"), C("size_most", "Largest nozzle size", "count"),
    C("orifice_least", "Least orifice of a size", "count"), C("name_length", "Letters of a name, at most", "count"),
    C("whole", "How far from whole a multiple of packs may be")), form="upright")

SOURCE_LIST = Block("sources", "Sources", (
    _listed("topic", "What", [source.topic for source in SOURCES], "text"),
    _listed("says", "What it says", [source.says for source in SOURCES], "text"),
    _listed("kind", "Kind", [source.kind for source in SOURCES], "text"), _listed("source", "Source", [source.source for source in SOURCES], "text"),
    _listed("replace", "Your own instead", [source.replace for source in SOURCES], "text")))

ISSUED = Block("issued", "As issued", (C("kind", "Kind", "text"), C("record", "Record", "text"), C("text", "As it stood when this book was made", "text")))
