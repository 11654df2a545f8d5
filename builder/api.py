"""What programs may call: the commands `build`, `inspect` and `read` in steps, under the same words.

    open_job    a job file and catalogs -> its estimate: price, volumes, problems
    estimate    that job with other values, as a what-if -> its estimate
    make        an estimate -> the bytes of its workbook
    inspect     a workbook that came back -> what in it is not as it was made, and the estimate of its inputs
    read        a workbook that came back -> the text of a job file that builds to the same estimate
    learn       workbooks of closed jobs -> what they teach the catalogs, proposed and not written

`catalogs` is one folder or several, a later one laid over those before; None: `catalogs` in the folder where the
program runs, else those that came with Wetfilm. A book is a path, or an open binary stream.

What cannot be done for a reason that lies in a file raises Refused: its `problems` say file, line, what is wrong and
what to do, one to a line in its text. Nothing is written: bytes and text are the caller's to keep.
"""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO, Literal, TypeAlias, get_args

from builder import jobs
from builder.problems import Refused
from builder.records.fields import Values
from builder.records.folders import Folders
from builder.records.kinds import TABLES
from builder.stages.book import room_facts, room_of

if TYPE_CHECKING:  # what is read of a workbook takes a library that building one does not need
    from builder.learning.lessons import Taught
    from builder.review.inspect import Inspection

Catalogs: TypeAlias = str | Path | Iterable[str | Path] | None
Book: TypeAlias = str | Path | BinaryIO
System: TypeAlias = Literal["us", "metric"]
Paper: TypeAlias = Literal["letter", "a4"]


def open_job(
    path: str | Path | None = None,
    catalogs: Catalogs = None,
    *,
    units: System | None = None,
    paper: Paper | None = None,
    rows: Mapping[str, int] | None = None,
) -> jobs.Opened:
    """A job file, loaded with its catalogs, judged and estimated; None: a blank one.

    units, paper: of its workbook; None: the job's own units, and the paper usual with them. rows: of tables by
    their keys in files, as {'takeoff': 200}; others have those of a usual book, or more where the job has more.
    ValueError for any others.

    Of what is returned: `price()` is in `units.currency`, None while something is missing; `gallons()` and
    `from_owner()` are volumes in `units.shown("volume")`, gallons or liters; `state()` is 'NO PRICE',
    'DRAFT: 2 OPEN', 'READY' or 'SIGNED', `questions()` those that are open; `summary()` says all in a line; `problems`
    are those of the files, sorted, `errors` those of them that `make` refuses. Refused where the job cannot be read.
    """
    for word, known in ((units, get_args(System)), (paper, get_args(Paper))):
        if word not in (None, *known):
            raise ValueError(f"{word!r} is none of {', '.join(known)}")
    for table, count in (rows or {}).items():
        if table not in TABLES:
            raise ValueError(f"no table is called {table!r}: {', '.join(TABLES)}")
        if not 1 <= count <= TABLES[table].most:
            raise ValueError(f"{count} rows of {table}: from 1 to {TABLES[table].most} are possible")
    return jobs.open_job(path, _folders(catalogs), units, paper, rows)


def estimate(opened: jobs.Opened, values: Values) -> jobs.Opened:
    """An opened job estimated with other values, for a what-if. values: block -> records, as in `opened.values`, of the
    blocks that change; amounts in SI. What is wrong in them is judged as in a workbook: `price()` is None.
    """
    unknown = values.keys() - opened.values.keys()
    if unknown:
        raise ValueError(f"no block is called {', '.join(sorted(unknown))}")
    changed = {**opened.values, **values}
    room = room_facts(jobs.room_for(changed, room_of(opened.settings)))
    return jobs.from_values(changed, opened.units, opened.settings | room)


def make(opened: jobs.Opened, *, workings: bool = False) -> bytes:
    """The workbook (.xlsx) of an opened job; the same job gives the same bytes. workings: whether the sheets of
    workings are shown. Refused where it has errors.
    """
    if opened.errors:
        raise Refused(opened.problems)
    from builder.workbook.make import make as made

    return made(opened, workings)


def inspect(book: Book, catalogs: Catalogs = None) -> "Inspection":
    """A look at a workbook of Wetfilm, whatever program has saved it since. Refused where it is none.

    Of what is returned: `findings` are what is not as it was made, each with sheet, cell and words; `facts` say of what
    it was made; `opened` is the estimate that its inputs give, as of `open_job`.
    """
    from builder.returned.read import returned
    from builder.review.inspect import inspect as look

    return look(returned(book), _folders(catalogs))


def read(book: Book, catalogs: Catalogs = None) -> str:
    """Its inputs as the text of a job file that builds, with these catalogs, to the same estimate.

    Catalog records that differ stand in it as the job's own. Refused as by `inspect`, which tells what was touched.
    """
    from builder.returned.taken import as_job

    folders = _folders(catalogs)
    return as_job(inspect(book, folders).taken, folders)


def learn(books: Iterable[str | Path], catalogs: Catalogs = None, *, processes: int = 1) -> "Taught":
    """What workbooks of closed jobs, or folders of them, teach the catalogs; nothing is written.

    processes: how many read at a time. Each of them starts the program that calls anew, so more than 1 asks for
    `if __name__ == "__main__":` there.

    Of what is returned: `proposals` say of each value where it stands, its text and the `new` one, the ends of 90 %
    (`low`, `high`) and the `jobs` behind it; `drivers` how closed jobs came out against their estimates; `readings`
    what each book is, `broken` those that cannot be read. Refused where there is no book, or the catalogs have errors.
    """
    from builder.learning.books import books_in, each_once, readings
    from builder.learning.lessons import taught

    return taught(list(each_once(readings(books_in(books), processes))), _folders(catalogs))


def _folders(catalogs: Catalogs) -> Folders:
    return jobs.in_force([catalogs] if isinstance(catalogs, (str, Path)) else catalogs)
