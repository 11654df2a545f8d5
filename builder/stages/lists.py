"""The sheets that hold no record: closed lists of words, and the sources."""

from builder.records.lookups import BESIDE, LOOKUPS
from builder.records.sources import SOURCES
from builder.sheets.grammar import Block
from builder.sheets.grammar import Column as C


# fmt: off
def _listed(key, title, values, quantity):
    return C(key, title, quantity, label=lambda number: values[number - 1], rows=len(values))


TITLES = {
    "kind": "Kind of coating", "base": "Base", "finish": "Finish, coarse to fine", "face": "Face", "goal": "Aim",
    "method": "Method", "shape": "Shape",
    "where": "Meant for", "lead_test": "Test for lead",
    "answer": "Answer", "alternate": "Alternate", "basis": "Basis of a task", "building": "Kind of building",
    "overhead_basis": "Overhead is a share of", "spread_is": "What a spread is",
    "when": "When a task comes", "price_is": "What the price is", "bill_by": "What bills ask for",
    "tax_base": "Purchase tax is on",
    "reason": "Why a size does not fit", "reason_weight": "Weight of the reason",
    "amount_from": "Amount of a task from", "amount_is": "The amount is an area, a length, a number",
    "basis_is": "The basis counts an area, a length, a number",
    "fraction": "Fraction of a length", "fraction_worth": "Worth of the fraction",
    "pair": "Two digits", "pair_worth": "Their worth",
    "state": "State of what is found", "placeholder": "What stands in Terms until it is your own",
    "done": "What each method has done",
    "month": "Month", "weekday": "Weekday",
    "notch": "Notch of a wet-film gauge, mil", "shape_factor": "Factor of the shape",
    "method_sprays": "The method sprays",
    "method_rolls": "The method rolls", "shape_stands": "Its height is how high it reaches",
    "basis_rated": "The basis has a rate",
    "basis_visits": "The basis is each visit", "basis_loads": "The basis is each load of a pump",
    "basis_whole_job": "The basis is the whole job",
    "kind_kept": "Some of the kind is kept for touch-up",
    "basis_contained": "The basis is old paint disturbed",
}
WORD_LISTS = Block("words", "Words", (
    *(_listed(key, TITLES[key], words, "text") for key, words in LOOKUPS.items()),
    *(_listed(key, TITLES[key], figures, "number") for key, figures in BESIDE.items())))

SOURCE_LIST = Block("sources", "Sources", (
    _listed("topic", "What", [source.topic for source in SOURCES], "text"),
    _listed("says", "What it says", [source.says for source in SOURCES], "text"),
    _listed("kind", "Kind", [source.kind for source in SOURCES], "text"),
    _listed("source", "Source", [source.source for source in SOURCES], "text"),
    _listed("replace", "Your own instead", [source.replace for source in SOURCES], "text")))
# fmt: on
