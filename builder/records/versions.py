"""The schema number of a workbook, and what older ones called things.

The number goes up whenever an input is added, renamed or taken away. Inputs that a schema did not have yet are blank when a
book of it is read; tests/golden keeps one book of each.
"""
from types import MappingProxyType

SCHEMA = 2           # 2: every sheet has a name of its own, and the book holds its catalogues as issued

# schema -> what a book of it calls an input -> what that is called since
RENAMED = MappingProxyType({1: {}})


def old_name(schema, name):
    """What a book of a schema calls the input that is now called `name`."""
    for number in range(SCHEMA - 1, schema - 1, -1):
        name = next((old for old, new in RENAMED.get(number, {}).items() if new == name), name)
    return name
