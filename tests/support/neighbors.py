"""Which columns speak of which, and another column in place of one that a formula speaks of."""

import re

_REFERENCE = re.compile(r"\{([^{}]+)\}")
_PLAIN = re.compile(r"(\*?)((?:\w+\.)?)(\w+)((?:@\w*)?\^?)")  # of all cells, block or link, key, copy or row above


class Neighbors:
    """For a reference of a column's formula the nearest other column of its block that is of the same quantity and does
    not rest on the column itself.
    """

    def __init__(self, layout, name):
        self.layout, self.place = layout, layout.places[tuple(name.split("."))]
        self.resting = resting_on(layout, name)

    def __call__(self, reference):
        parts = _PLAIN.fullmatch(reference)
        if not parts:
            return None
        every, word, key, tail = parts.groups()
        block = _owner(self.place.block, word[:-1])
        if (block, key) not in self.layout.places:
            return None
        keys = [other for at, other in self.layout.places if at == block]
        at = keys.index(key)
        nearest = sorted(range(len(keys)), key=lambda other: (abs(other - at), other > at))
        fitting = (keys[other] for other in nearest if other != at and self._fits(block, key, keys[other], not word))
        return next((f"{every}{word}{other}{tail}" for other in fitting), None)

    def _fits(self, block, key, other, own):
        before, place = (self.layout.places[block, one] for one in (key, other))
        column = place.column
        shape = ("quantity", "repeat", "rows")
        if any(getattr(before.column, what) != getattr(column, what) for what in shape) or column.view:
            return False
        reached = place.sheet == self.place.sheet if own else column.field or f"{block}_{other}" in self.layout.used
        return bool(reached) and f"{block}.{other}" not in self.resting


def _owner(block, word):
    """The block that a word of a formula means."""
    link = block.links.get(word)
    return link.block if link else word or block.key


def resting_on(layout, name):
    """The columns that rest on one, itself too."""
    if not hasattr(layout, "users"):
        layout.users = {}
        for (block, key), place in layout.places.items():
            for other in called(layout, place) if place.column.formula else ():
                layout.users.setdefault(other, set()).add(f"{block}.{key}")
    found, ahead = set(), {name}
    while ahead:
        found |= ahead
        ahead = {user for one in ahead for user in layout.users.get(one, ())} - found
    return found


def called(layout, place):
    """'block.key' of every column that a formula speaks of, by way of its links and of its blanks too."""
    block, column = place.block, place.column
    when = block.when if column.when is None else column.when
    ahead, seen = _REFERENCE.findall(column.formula) + [when] * bool(when), set()
    while ahead:
        reference = ahead.pop()
        if reference in seen:
            continue
        seen.add(reference)
        word, dot, keys = reference.lstrip("#*").replace("^", "").rpartition(".")
        if dot and word in block.links:
            ahead += _REFERENCE.findall(block.links[word].number)
        owner = _owner(block, word)
        every = [key for at, key in layout.places if at == owner]
        ends = [end.partition("@") for end in keys.split(":")]
        ahead += [copy for _, _, copy in ends if copy and not copy.isdigit()]
        names = [key for key, _, _ in ends]
        if (owner, names[0]) in layout.runs:
            names = every
        elif len(names) > 1:
            names = every[every.index(names[0]) : every.index(names[1]) + 1]
        yield from (f"{owner}.{key}" for key in names if key in every)
