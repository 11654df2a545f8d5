"""Keys and words of older files, read as what they are called now, with a warning that names it."""
from builder.documents import Listing, Mapping
from builder.problems import WARNING
from builder.records.versions import OLD_KEYS, OLD_WORDS
from builder.values import same

STILL = "the old name is still read; write the new one"


def current(node, known, tell):
    """A record with the keys of now. known: a tree of dicts, {} at a single value; tell(mark, old, new) is called for each old key."""
    if isinstance(node, Listing) and known:
        return Listing(tuple(current(item, known.get(place, {}), tell) for place, item in enumerate(node.items)), node.mark)
    if not isinstance(node, Mapping) or not known:
        return node
    entries = {}
    for key, (mark, value) in node.entries.items():
        new = current_key(key, known, node.entries)
        if new != key:
            tell(mark, key, new)
        entries[new] = mark, current(value, known.get(new), tell)
    return Mapping(entries, node.mark)


def current_key(key, known, beside):
    """What a key is called now; itself where it is known, or where its new name stands beside it."""
    new = OLD_KEYS.get(key)
    return new if key not in known and new in known and new not in beside else key


def current_word(value):
    """What a word of a closed list is called now."""
    return OLD_WORDS.get(same(value), value) if isinstance(value, str) else value


class Told:
    """Warnings of old names, each told once a file, at its first place."""

    def __init__(self, problems):
        self.problems = problems
        self.names = set()

    def __call__(self, mark, old, new):
        if (mark.file, old) not in self.names:
            self.names.add((mark.file, old))
            self.problems.append(mark.problem(f"'{old}' is now called '{new}'", STILL, WARNING))
