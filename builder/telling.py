"""What a command says, a line at a time: printed, or warned of; of many files as each of them is done."""

import codecs
import sys
from functools import partial

from builder.problems import on_one_line
from builder.side_by_side import each

QUICK = 4  # files that are done before anybody asks how far it is, but at a terminal


def say(*lines, file=None):
    """Print lines, each as one, whatever foreign text is in them."""
    for line in lines:
        print(on_one_line(str(line)), file=file)


def warn(*lines):
    say(*lines, file=sys.stderr)


def plain_text():
    """Whether what is printed must keep to ASCII: another program would not read it as UTF-8."""
    return codecs.lookup(getattr(sys.stdout, "encoding", None) or "utf-8").name != "utf-8"


def each_of(work, paths):
    """What `work` makes of each path, side by side, in their order; where it takes long, how far it is."""
    step = max(1, len(paths) // 20)
    told = len(paths) > QUICK or len(paths) > 1 and sys.stderr and sys.stderr.isatty()
    for number, one in enumerate(each(work, paths), start=1):
        yield one
        if told and number % step == 0:
            warn(f"{number} of {len(paths)} read")


def done(work, paths, head=False):
    """What is Told of each file as it is done, printed; what all of them are warned of is told once. A single file that
    cannot be done is refused, one of many is told, and the others go on. head: whether lines of several are headed by
    their file.
    """
    from builder.one_file import guarded

    warned = set()
    for one in each_of(partial(guarded, work) if len(paths) > 1 else work, paths):
        warn(*(line for line in one.warned if line not in warned))
        warned.update(one.warned)
        say(*([f"{one.path}:"] if head and one.lines and len(paths) > 1 else []), *one.lines)
        yield one


def worst(statuses):
    """The exit status of many files."""
    return max(statuses, default=0)
