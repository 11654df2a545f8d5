"""The `wetfilm` command: parse, call, print. Exit status 0 done, 1 problems or differences found, 2 the command itself is wrong."""
import argparse
import codecs
import sys
from pathlib import Path

from builder import __version__
from builder.files import apart, put, put_all, words
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


def _files(options):
    """The catalogs that a command reads."""
    return [path for folder in options.catalogs for path in folder.glob("*.yaml")]


def _build(options):
    from builder.api import make, open_job

    jobs = options.jobs or [None]
    if options.output and len(jobs) > 1:
        hint = "leave -o out, or build the jobs one by one"
        raise Misused([Problem(options.output, 0, 0, "-o names one file, but there are several jobs", hint)])
    paths = [Path(options.output or Path("out", f"{Path(job).stem if job else 'blank'}.xlsx")) for job in jobs]
    apart(zip(paths, jobs), [*options.jobs, *_files(options)])
    for job, path in zip(jobs, paths):
        opened = open_job(job, options.catalogs, units=options.units, paper=options.paper, lines=options.lines)
        data = make(opened)
        _warn(*opened.problems)
        put(options.output or path, data, options.force)
        _say(f"{path}: {opened.summary()}")
    return 0


def _check(options):
    from builder.checking import check

    problems = check([Path(path) for path in options.paths], options.catalogs)
    if options.format == "json":
        print(as_json(problems, _plain_text()))
    else:
        _say(*problems or ["no problems"])
    return 1 if any(problem.severity == ERROR for problem in problems) else 0


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
    else:                                        # what is not ASCII stands in quotes, where YAML has the same escapes
        print(text.encode("ascii", "backslashreplace").decode() if _plain_text() else text, end="")
    return 1 if one.draft or look.touched else 0


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
    found = reissue(returned(options.book), options.catalogs, options.instead, options.keep)
    _say(*report(found))
    if not options.dry_run:
        put(options.output or path, make(found.after), options.force)
        _say(f"{path}: {found.after.summary()}")
    return 0


def _letter(options):
    from builder.letter.letter import letter

    path = Path(options.output or Path(options.book).parent / f"{Path(options.book).stem}.eml")
    apart([(path, options.book)], [options.book])
    data, opened = letter(options.book, options.to, not options.without_book, options.anyway)
    put(options.output or path, data, options.force)
    _say(f"{path}: {opened.summary()}")
    if not options.without_book:
        _say("the attached workbook shows costs, wages and margin; --without-book leaves it out")
    return 0


def _parser():
    parser = argparse.ArgumentParser(prog="wetfilm", description="Estimate workbooks for spray-painting contractors.")
    parser.add_argument("--version", action="version", version=f"wetfilm {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    build = commands.add_parser("build", help="write the workbook of each job, or a blank one")
    build.add_argument("jobs", nargs="*", type=_file, metavar="JOB.yaml", help="job files; none for a blank workbook")
    build.add_argument("-o", "--output", type=_file, metavar="FILE", help="the workbook to write (out/JOB.xlsx)")
    build.add_argument("--units", choices=("us", "metric"), help="units of the workbook (the job's)")
    build.add_argument("--paper", choices=("letter", "a4"), help="paper of the workbook (letter for us, a4 for metric)")
    build.add_argument("--lines", type=_lines, metavar="N", help="rows of takeoff (100)")
    build.add_argument("--force", action="store_true", help="overwrite a workbook that somebody changed")
    build.set_defaults(run=_build)
    check = commands.add_parser("check", help="what is wrong with catalogs and jobs, and where")
    check.add_argument("paths", nargs="+", type=_file, metavar="PATH", help="a folder of catalogs, or a job file")
    check.add_argument("--format", choices=("text", "json"), default="text", help="form of the answer (text)")
    check.set_defaults(run=_check)
    schema = commands.add_parser("schema", help="JSON Schema of a kind of file, for editors")
    one_or_all = schema.add_mutually_exclusive_group(required=True)
    one_or_all.add_argument("kind", nargs="?", help="printed",
                            choices=("coatings", "nozzles", "pumps", "surfaces", "profiles", "tasks", "terms", "job"))
    one_or_all.add_argument("--all", type=_file, metavar="DIR",
                            help="write every schema as KIND.json into this folder; none where one there differs")
    schema.add_argument("--force", action="store_true", help="write those anew that differ")
    schema.set_defaults(run=_schema)
    new = commands.add_parser("new", help="a starter folder: catalogs and an example job")
    new.add_argument("folder", type=_file, metavar="DIR")
    new.set_defaults(run=_new)
    impact = commands.add_parser("impact", help="what a change of the catalogs does to jobs")
    impact.add_argument("jobs", nargs="+", type=_file, metavar="JOB_OR_BOOK",
                        help="job files, or workbooks with the catalogs they were built on")
    impact.set_defaults(run=_impact)
    read = commands.add_parser("read", help="the inputs of a returned workbook as a job file")
    read.add_argument("book", type=_file, metavar="BOOK", help="a workbook of wetfilm, saved by any program")
    read.add_argument("-o", "--output", type=_file, metavar="JOB.yaml", help="the job file to write (printed)")
    read.add_argument("--force", action="store_true",
                      help="overwrite a job file of that name, but never BOOK itself")
    read.set_defaults(run=_read)
    inspect = commands.add_parser("inspect", help="what was touched in a returned workbook, and what is out of date")
    inspect.add_argument("book", type=_file, metavar="BOOK")
    inspect.add_argument("--format", choices=("text", "json"), default="text", help="form of the answer (text)")
    inspect.set_defaults(run=_inspect)
    compare = commands.add_parser("compare", help="what the other side changed, and what that did to the results")
    compare.add_argument("before", type=_file, metavar="BOOK")
    compare.add_argument("after", type=_file, metavar="BOOK")
    compare.add_argument("-o", "--output", type=_file, metavar="FILE.xlsx", help="write the comparison as a workbook too")
    compare.add_argument("--force", action="store_true",
                         help="overwrite a workbook that somebody changed, but never either BOOK")
    compare.set_defaults(run=_compare)
    reissue = commands.add_parser("reissue", help="the same inputs on today's catalogs, and what moved the price")
    reissue.add_argument("book", type=_file, metavar="BOOK")
    reissue.add_argument("-o", "--output", type=_file, metavar="FILE", help="the workbook to write (out/BOOK-reissued.xlsx)")
    reissue.add_argument("--instead", metavar="OLD=NEW", type=_renaming, action="append", default=[], help="a catalog record that has a new name today")
    reissue.add_argument("--keep", metavar="NAME", action="append", default=[], help="a catalog record that is gone today: use the workbook's own")
    reissue.add_argument("--dry-run", action="store_true", help="tell what would change, and write nothing")
    reissue.add_argument("--force", action="store_true",
                         help="overwrite a workbook that somebody changed, but never BOOK itself")
    reissue.set_defaults(run=_reissue)
    letter = commands.add_parser("letter", help="a draft e-mail: the estimate in words, with the workbook attached")
    letter.add_argument("book", type=_file, metavar="BOOK", help="a workbook of wetfilm, saved by any program")
    letter.add_argument("--to", metavar="ADDRESS", help="who gets it; several with commas between")
    letter.add_argument("-o", "--output", type=_file, metavar="FILE", help="the draft to write (BOOK.eml, beside the workbook)")
    letter.add_argument("--without-book", action="store_true", help="do not attach the workbook, which shows costs")
    letter.add_argument("--anyway", action="store_true", help="write it even if the price is not complete, or may be wrong")
    letter.add_argument("--force", action="store_true",
                        help="overwrite a draft that somebody changed, but never BOOK itself")
    letter.set_defaults(run=_letter)
    for command in (build, check, impact, read, inspect, compare, reissue):
        command.add_argument("--catalogs", type=_file, metavar="DIR", action="append",
                             help="a folder of catalogs (catalogs); given again, its records replace or change those before, by name")
    return parser


def _renaming(text):
    old, equals, new = text.partition("=")
    if not (old and equals and new):
        raise argparse.ArgumentTypeError(f"{text!r} is not a pair of names: write OLD=NEW")
    return old.strip(), new.strip()


def _lines(text):
    if not (text.isdecimal() and len(text) < 6 and 1 <= int(text) <= 1000):
        raise argparse.ArgumentTypeError(f"{text!r} is not a whole number from 1 to 1,000")
    return int(text)


def _file(text):
    if not text.strip():
        raise argparse.ArgumentTypeError("blank: enter a name")
    return text


def main(arguments=None):
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):       # a console that cannot show a letter shows its escape
            stream.reconfigure(errors="backslashreplace")
    options = _parser().parse_args(arguments)
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
    except BrokenPipeError:                      # the reader of our output has seen enough
        sys.stdout = None
        return 1
    except OSError as error:
        sys.stdout = None                        # it may be what cannot be written
        _warn(f"{error.filename or 'wetfilm'}: {words(error)}")
        return 1
