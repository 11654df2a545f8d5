"""The schema number of a workbook, and what older files and books called things.

The number goes up whenever an input is added, renamed or taken away. Inputs that a schema did not have yet are blank
when a book of it is read; tests/golden keeps one book of each. A file's old keys and words are read with a warning that
names the new one.
"""

from types import MappingProxyType

# fmt: off
# 2: every sheet has a name of its own, and the book holds its catalogs as issued; 3: inputs by the trade's American
# names; 4: what is asked before a price is ready, rooms, counted windows and doors; 5: the whole cost: travel, rentals
# by the week, lines of burden, what a working day loses, weather by month, parts; 6: the week: what was signed, log,
# changes, bills; trips to the store; guards of nozzles; 7: overtime
SCHEMA = 7

# What a file called a key, and a closed list a word, before.
OLD_KEYS = MappingProxyType({
    "colour": "color", "labour": "labor", "licence": "license", "hire": "rental", "reach": "access",
    "reaches": "access", "aim": "goal",
    "range": "risk", "size": "volume", "draft": "unfinished"})
OLD_WORDS = MappingProxyType({"colour": "color", "labour hours": "labor hours",
                              "materials and hire": "materials and rental"})

# schema -> what a book of it calls a name -> what that is called since
RENAMED: MappingProxyType[int, dict[str, str]] = MappingProxyType({
    1: {},
    2: {
        "book_catalogues": "book_catalogs",
        "coats_colour": "coats_color",
        "systems_aim": "systems_goal",
        "takeoff_reach": "takeoff_access",
        "pumps_hire": "pumps_rental",
        "terms_licence": "terms_license",
        "reaches_hire": "access_rental",
        **{f"reaches_{key}": f"access_{key}" for key in ("name", "factor", "height_limit", "source", "around",
                                                         "headed")},
        **{f"coatings_pack{number}_size": f"coatings_pack{number}_volume" for number in (1, 2, 3)},
    },
})
# fmt: on


def new_name(schema: int, name: str) -> str:
    """What is called `name` in a book of a schema, as it is called now."""
    for number in range(schema, SCHEMA):
        name = RENAMED.get(number, {}).get(name, name)
    return name
