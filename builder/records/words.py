"""The closed lists of words of the fields. A word's place in its list is its meaning to the formulas."""

from types import MappingProxyType

# fmt: off
WORDS = MappingProxyType({
    "kind": ("primer", "finish", "filler", "stain"),
    "base": ("water", "solvent"),
    "finish": ("plain", "good", "fine"),              # ranked: a later word is a finer finish
    "face": ("bare", "sealed"),
    "goal": ("least cost", "smoothest"),
    "method": ("spray", "spray and back-roll", "roll", "brush"),
    "shape": ("rectangle", "triangle", "cylinder", "strip"),
    "answer": ("yes", "no"),
    "alternate": ("A", "B", "C"),
    "basis": ("area", "perimeter", "length", "count", "hours", "visit", "color", "disturbed"),
    "amount_from": ("measured area", "coated area", "opening perimeter", "line length", "openings"),
    "where": ("inside", "outside", "both"),
    "lead_test": ("not done", "no lead found", "lead found"),
    "building": ("home", "child-occupied", "other"),
    "overhead_basis": ("direct cost", "labor hours", "sales"),
    "tax_base": ("materials", "materials and rental"),
    "spread_is": ("theoretical", "practical"),
    "when": ("first", "last", "alongside"),
    "price_is": ("fixed price", "estimate"),
    "bill_by": ("stages", "work done"),
})
