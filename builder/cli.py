"""The `wetfilm` command: parse, call, print. Exit status 0 done, 1 problems or differences found, 2 the command itself
is wrong.
"""

import codecs
import sys
from pathlib import Path

from builder.files import apart, put, put_all, words
from builder.options import parser
from builder.problems import ERROR, Misused, Problem, Refused, as_json, on_one_line


def _say(*lines, file=None):
    """Print lines, each as one, whatever foreign text is in them."""
    for line in lines:
        print(on_one_line(str(line)), file=file)


def _warn(*lines):
    _say(*lines, file=sys.stderr)


def _plain_text():
    """Whether what is printed must keep to ASCII: another program would not read it as UTF-8."""
    return codecs.lookup(getattr(sys.stdout, "encoding", None) or "utf-8").name != "utf-8"


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
        _warn(*opened.problems)
        put(options.output or path, data, options.force)
        _say(f"{path}: {opened.summary()}", *(f"    {number}  {question}" for number, question in _open(opened)))
    return 0


def _check(options):
    from builder.checking import open_all, problems, questions

    opened = open_all([Path(path) for path in options.paths], options.catalogs)
    found = problems(opened)
    if options.format == "json":
        print(as_json(found, _plain_text()))
    else:
        _say(*found or ["no problems"], *questions(opened))
    return 1 if any(problem.severity == ERROR for problem in found) else 0


def _schema(options):
    from builder.schema import FILES, as_text

    if options.kind:
        print(as_text(options.kind, _plain_text()), end="")
    else:
        written = put_all(options.all, {f"{name}.json": as_text(name).encode() for name in FILES}, options.force)
        _say(*written or [f"{options.all}: nothing to write, all schemas are as they should be"])
    return 0


def _new(options):
    import shlex

    from builder.starter import new

    _say(*new(options.folder), f"next: cd {shlex.quote(options.folder)} && wetfilm build boathouse.yaml")
    return 0


def _impact(options):
    from builder.jobs import in_force
    from builder.review.impact import impact, report

    found, today = [], in_force()
    for number, path in enumerate(options.jobs, start=1):
        if len(options.jobs) > 4:
            _warn(f"{number} of {len(options.jobs)}: {path}")
        found.append(impact(path, today, options.catalogs))
    for one in sorted(found, key=lambda one: -abs(one.moved())):
        _say(*report(one))
    return 1 if any(one.changes for one in found) else 0


def _carry(options):
    from builder.season.carry import report
    from builder.season.gathering import Season

    season = Season()
    for number, path in enumerate(options.jobs, start=1):
        if len(options.jobs) > 4:
            _warn(f"{number} of {len(options.jobs)}: {path}")
        season.take(path, options.catalogs)
    _warn(*season.told)
    _say(*report(season, options.sizes))
    return 1 if season.failed else 0


def _read(options):
    from builder.api import inspect
    from builder.returned.taken import as_job

    if options.output:
        apart([(options.output, options.book)], [options.book, *_files(options)])
    look = inspect(options.book, options.catalogs)
    one = look.taken
    _warn(*(f"{options.book}: {finding}" for finding in look.touched))
    text = as_job(one, options.catalogs)
    if options.output:
        put(options.output, text.encode(), options.force)
        _say(f"{options.output}: {one.opened.summary()}")
    else:  # what is not ASCII stands in quotes, where YAML has the same escapes
        print(text.encode("ascii", "backslashreplace").decode() if _plain_text() else text, end="")
    return 1 if one.unfinished or look.touched else 0


def _inspect(options):
    import json

    from builder.api import inspect

    found = inspect(options.book, options.catalogs)
    if options.format == "json":
        told = {"facts": found.facts, "findings": [finding.as_dict() for finding in found.findings]}
        print(json.dumps(told, indent=2, ensure_ascii=_plain_text()))
    else:
        _say(*(f"{options.book}: {fact}" for fact in found.facts), *(f"  {finding}" for finding in found.findings))
    return 1 if found.findings else 0


def _compare(options):
    from builder.returned.read import returned
    from builder.review.compare import as_workbook, compare, report

    if options.output:
        apart([(options.output, options.before)], [options.before, options.after, *_files(options)])
    found = compare(returned(options.before), returned(options.after), options.catalogs)
    _say(*report(found))
    if options.output:
        put(options.output, as_workbook(found, (Path(options.before).name, Path(options.after).name)), options.force)
        _say(options.output)
    return 1 if found.differ else 0


def _reissue(options):
    from builder.returned.read import returned
    from builder.review.reissue import reissue, report
    from builder.workbook.make import make

    path = Path(options.output or Path("out", f"{Path(options.book).stem}-reissued.xlsx"))
    if not options.dry_run:
        apart([(path, options.book)], [options.book, *_files(options)])
    found = reissue(returned(options.book), options.catalogs, options.instead, options.keep, dict(options.rows))
    _say(*report(found))
    if not options.dry_run:
        put(options.output or path, make(found.after), options.force)
        _say(f"{path}: {found.after.summary()}")
    return 0


def _sign(options):
    from builder.review.sign import report, sign
    from builder.workbook.make import make

    path = Path(options.output or Path(options.job).parent / f"{Path(options.job).stem}-signed.xlsx")
    apart([(path, options.job)], [options.job, *_files(options)])
    found = sign(options.job, options.catalogs, options.on, options.accepted, options.anyway)
    _warn(*found.before.problems, *(f"{options.job}: {finding}" for finding in found.findings))
    put(options.output or path, make(found.after), options.force)
    _say(f"{path}: {found.after.summary()}", *report(found))
    return 0


def _letter(options):
    from builder.letter.letter import letter
    from builder.records.questions import SIGNED

    path = Path(options.output or Path(options.book).parent / f"{Path(options.book).stem}.eml")
    apart([(path, options.book)], [options.book])
    with_book = not options.without_book
    data, opened = letter(options.book, options.to, with_book, options.anyway, options.customer, options.bill)
    put(options.output or path, data, options.force)
    _say(f"{path}: {opened.summary()}")
    if options.customer and opened.state() == SIGNED:
        _say("it says the contract as it stands: a bid that is signed needs no page to sign")
    elif options.customer or options.bill:
        if b"application/pdf" not in data:
            page = "Bill" if options.bill else "Bid"
            _say(f"the letter goes without the {page} page: LibreOffice (soffice), which prints it, is not installed")
    elif not options.without_book:
        _say("the attached workbook shows costs, wages and margin; --without-book leaves it out")
    return 0


def _learn(options):
    import datetime

    from builder.jobs import SHIPPED
    from builder.learning.books import books_in, each_once, readings
    from builder.learning.lessons import report, taught, write
    from builder.learning.report import as_workbook

    books, found = books_in(options.books), []
    if options.write and tuple(options.catalogs) == SHIPPED:
        hint = "make your own with 'wetfilm new DIR', and name them with --catalogs"
        raise Misused([Problem(str(SHIPPED[0]), 0, 0, "the catalogs that came with the program do not learn", hint)])
    if options.report:
        apart([(options.report, "the report")], [*books, *_files(options)])
    step = max(1, len(books) // 20)
    for number, one in enumerate(each_once(readings(books)), start=1):
        found.append(one)
        if len(books) > 4 and number % step == 0:
            _warn(f"{number} of {len(books)} read")
    lessons = taught(found, options.catalogs)
    _say(*report(lessons))
    if options.report:
        put(options.report, as_workbook(lessons), options.force)
        _say(options.report)
    if options.write:
        _say(*write(lessons, options.catalogs, datetime.date.today().isoformat()))
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
        _warn(*refused.problems)
        return refused.status
    except KeyboardInterrupt:
        _warn("wetfilm: stopped")
        return 130
    except BrokenPipeError:  # the reader of our output has seen enough
        sys.stdout = None
        return 1
    except OSError as error:
        sys.stdout = None  # it may be what cannot be written
        _warn(f"{error.filename or 'wetfilm'}: {words(error)}")
        return 1
