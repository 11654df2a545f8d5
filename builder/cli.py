"""The `wetfilm` command: parse, call, print. Exit status 0 done, 1 problems or differences found, 2 the command itself
is wrong.
"""

import sys
from functools import partial
from pathlib import Path

from builder.files import apart, put, put_all, words
from builder.options import parser
from builder.problems import Misused, Problem, Refused, as_json
from builder.side_by_side import collect_seldom
from builder.telling import done, each_of, plain_text, say, warn, worst


def _places(command, options):
    """Where what is made of each book is written, which is read by nothing and by none of the others."""
    books, ending = options.books, ".yaml" if command == "read" else "-reissued.xlsx"
    if options.output and len(books) > 1:
        hint = f"leave -o out, or {command} the workbooks one by one"
        raise Misused([Problem(options.output, 0, 0, "-o names one file, but there are several workbooks", hint)])
    usual = [str(Path("out", f"{Path(book).stem}{ending}")) for book in books]
    places = [options.output] if options.output else usual
    apart(zip(places, books), [*books, *_files(options)])
    return dict(zip(books, places))


def _open(opened):
    """The open questions of an estimate, counted."""
    return enumerate(opened.questions(), start=1)


def _files(options):
    """The catalogs that a command reads."""
    from builder.records.folders import yaml_files

    return [path for folder in options.catalogs for path in yaml_files(folder)]


def _build(options):
    from builder.api import make, open_job

    jobs = options.jobs or [None]
    if options.output and len(jobs) > 1:
        hint = "leave -o out, or build the jobs one by one"
        raise Misused([Problem(options.output, 0, 0, "-o names one file, but there are several jobs", hint)])
    paths = [Path(options.output or Path("out", f"{Path(job).stem if job else 'blank'}.xlsx")) for job in jobs]
    apart(zip(paths, jobs), [*options.jobs, *_files(options)])
    for job, path in zip(jobs, paths):
        opened = open_job(job, options.catalogs, units=options.units, paper=options.paper, rows=dict(options.rows))
        data = make(opened, workings=options.workings)
        warn(*opened.problems)
        put(options.output or path, data, options.force)
        say(f"{path}: {opened.summary()}", *(f"    {number}  {question}" for number, question in _open(opened)))
    return 0


def _check(options):
    from builder.checking import inside
    from builder.one_file import checked

    json, told, questions, statuses = options.format == "json", {}, [], []
    work = partial(checked, catalogs=options.catalogs, json=json)
    for one in done(work, [path for given in options.paths for path in inside(given)]):
        statuses.append(one.status)
        problems, asked = one.result or ((), ())
        new = [problem for problem in problems if problem not in told]
        told.update(dict.fromkeys(new))
        questions += asked
        if not json:
            say(*new)
    if json:
        print(as_json(told, plain_text()))
    else:
        say(*([] if told or worst(statuses) else ["no problems"]), *questions)
    return worst(statuses)


def _schema(options):
    from builder.schema import FILES, as_text

    if options.kind:
        print(as_text(options.kind, plain_text()), end="")
    else:
        written = put_all(options.all, {f"{name}.json": as_text(name).encode() for name in FILES}, options.force)
        say(*written or [f"{options.all}: nothing to write, all schemas are as they should be"])
    return 0


def _new(options):
    import shlex

    from builder.starter import new

    say(*new(options.folder), f"next: cd {shlex.quote(options.folder)} && wetfilm build boathouse.yaml")
    return 0


def _impact(options):
    from builder.jobs import in_force
    from builder.one_file import moved

    work = partial(moved, today=in_force(), catalogs=options.catalogs)
    found = [(one.status, one.result) for one in done(work, options.jobs)]
    if len(found) > 1:
        results = [result for _, result in found]
        counts = f"{results.count(True)} moved, {results.count(False)} not, {results.count(None)} could not be read"
        say(f"{len(found)} jobs: {counts}")
    return worst(status for status, _ in found)


def _carry(options):
    from builder.season.carry import report
    from builder.season.gathering import Season, gathered

    season = Season()
    for one in each_of(partial(gathered, catalogs=options.catalogs), options.jobs):
        season.take(one)
    warn(*season.told)
    say(*report(season, options.sizes))
    return 1 if season.failed else 0


def _read(options):
    from builder.one_file import read

    several = len(options.books) > 1
    places = _places("read", options) if options.output or several else {}
    statuses = []
    for one in done(partial(read, catalogs=options.catalogs, outputs=places, force=options.force), options.books):
        statuses.append(one.status)
        if one.result:  # what is not ASCII stands in quotes, where YAML has the same escapes
            print(one.result.encode("ascii", "backslashreplace").decode() if plain_text() else one.result, end="")
    return worst(statuses)


def _inspect(options):
    from builder.one_file import guarded, inspected

    work = partial(inspected, catalogs=options.catalogs, lines=options.format == "text")
    if options.format == "text":
        return worst([one.status for one in done(work, options.books)])
    import json

    work = partial(guarded, work)  # why a book is refused stands in what another program reads, too

    def text(told):
        return json.dumps(told, indent=2, ensure_ascii=plain_text())

    if len(options.books) == 1:
        (one,) = done(work, options.books)
        print(text(one.result or {"refused": one.warned}))
        return one.status
    statuses = []
    for one in done(work, options.books):
        told = {"book": one.path, **(one.result or {"refused": one.warned})}
        print("," if statuses else "[", text(told), sep="\n")
        statuses.append(one.status)
    print("]")
    return worst(statuses)


def _compare(options):
    from builder.returned.read import returned
    from builder.review.compare import as_workbook, compare, report

    if options.output:
        apart([(options.output, options.before)], [options.before, options.after, *_files(options)])
    found = compare(returned(options.before), returned(options.after), options.catalogs)
    say(*report(found))
    if options.output:
        put(options.output, as_workbook(found, (Path(options.before).name, Path(options.after).name)), options.force)
        say(options.output)
    return 1 if found.differ else 0


def _reissue(options):
    from builder.one_file import reissued

    work = partial(
        reissued,
        catalogs=options.catalogs,
        outputs={} if options.dry_run else _places("reissue", options),
        force=options.force,
        instead=options.instead,
        keep=options.keep,
        rows=dict(options.rows),
    )
    return worst([one.status for one in done(work, options.books, head=True)])


def _sign(options):
    from builder.review.sign import report, sign
    from builder.workbook.make import make

    path = Path(options.output or Path(options.job).parent / f"{Path(options.job).stem}-signed.xlsx")
    apart([(path, options.job)], [options.job, *_files(options)])
    found = sign(options.job, options.catalogs, options.on, options.accepted, options.anyway)
    warn(*found.before.problems, *(f"{options.job}: {finding}" for finding in found.findings))
    put(options.output or path, make(found.after), options.force)
    say(f"{path}: {found.after.summary()}", *report(found))
    return 0


def _letter(options):
    from builder.letter.letter import letter
    from builder.records.questions import SIGNED

    path = Path(options.output or Path(options.book).parent / f"{Path(options.book).stem}.eml")
    apart([(path, options.book)], [options.book])
    with_book = not options.without_book
    data, opened = letter(options.book, options.to, with_book, options.anyway, options.customer, options.bill)
    put(options.output or path, data, options.force)
    say(f"{path}: {opened.summary()}")
    if options.customer and opened.state() == SIGNED:
        say("it says the contract as it stands: a bid that is signed needs no page to sign")
    elif options.customer or options.bill:
        if b"application/pdf" not in data:
            page = "Bill" if options.bill else "Bid"
            say(f"the letter goes without the {page} page: LibreOffice (soffice), which prints it, is not installed")
    elif not options.without_book:
        say("the attached workbook shows costs, wages and margin; --without-book leaves it out")
    return 0


def _learn(options):
    import datetime

    from builder.jobs import SHIPPED
    from builder.learning.books import books_in, each_once, reading
    from builder.learning.lessons import report, taught, write
    from builder.learning.report import as_workbook

    books = books_in(options.books)
    if options.write and tuple(options.catalogs) == SHIPPED:
        hint = "make your own with 'wetfilm new DIR', and name them with --catalogs"
        raise Misused([Problem(str(SHIPPED[0]), 0, 0, "the catalogs that came with the program do not learn", hint)])
    if options.report:
        apart([(options.report, "the report")], [*books, *_files(options)])
    lessons = taught(list(each_once(each_of(reading, books))), options.catalogs)
    say(*report(lessons))
    if options.report:
        put(options.report, as_workbook(lessons), options.force)
        say(options.report)
    if options.write:
        say(*write(lessons, options.catalogs, datetime.date.today().isoformat()))
    return 1 if lessons.broken else 0


RUN = {
    "build": _build,
    "carry": _carry,
    "check": _check,
    "compare": _compare,
    "impact": _impact,
    "inspect": _inspect,
    "learn": _learn,
    "letter": _letter,
    "new": _new,
    "read": _read,
    "reissue": _reissue,
    "schema": _schema,
    "sign": _sign,
}


def main(arguments=None):
    collect_seldom()
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):  # a console that cannot show a letter shows its escape
            stream.reconfigure(errors="backslashreplace")
    options = parser(RUN).parse_args(arguments)
    try:
        if "catalogs" in options:
            from builder.jobs import in_force

            options.catalogs = in_force(options.catalogs)
        status = options.run(options)
        if sys.stdout:
            sys.stdout.flush()
        return status
    except Refused as refused:
        warn(*refused.problems)
        return refused.status
    except KeyboardInterrupt:
        warn("wetfilm: stopped")
        return 130
    except BrokenPipeError:  # the reader of our output has seen enough
        sys.stdout = None
        return 1
    except OSError as error:
        sys.stdout = None  # it may be what cannot be written
        warn(f"{error.filename or 'wetfilm'}: {words(error)}")
        return 1
