"""The `wetfilm` command: parse, call, print. Exit status 0 done, 1 problems or differences found, 2 the command itself is wrong."""
import argparse
import json
import sys
from pathlib import Path

from builder import __version__
from builder.problems import ERROR, Refused, as_json


def _build(options):
    from builder.files import put
    from builder.jobs import open_job
    from builder.workbook.make import make

    jobs = options.jobs or [None]
    if options.output and len(jobs) > 1:
        raise SystemExit("wetfilm: -o names one file, but there are several jobs")
    for job in jobs:
        opened = open_job(job, options.catalogs, options.units, options.paper, options.lines)
        if opened.errors:
            raise Refused(opened.problems)
        for problem in opened.problems:
            print(problem, file=sys.stderr)
        path = Path(options.output or Path("out", f"{Path(job).stem if job else 'blank'}.xlsx"))
        put(path, make(opened), options.force)
        print(f"{path}: {opened.summary()}")
    return 0


def _check(options):
    from builder.checking import check

    problems = check([Path(path) for path in options.paths], options.catalogs)
    if options.format == "json":
        print(as_json(problems))
    else:
        print("\n".join(map(str, problems)) or "no problems")
    return 1 if any(problem.severity == ERROR for problem in problems) else 0


def _schema(options):
    from builder.schema import schema

    print(json.dumps(schema(options.kind), indent=1, ensure_ascii=False))
    return 0


def _new(options):
    from builder.starter import new

    for path in new(options.folder):
        print(path)
    print(f"next: cd {options.folder} && wetfilm build boathouse.yaml")
    return 0


def _impact(options):
    from builder.review.impact import impact, report

    found = []
    for number, path in enumerate(options.jobs, start=1):
        if len(options.jobs) > 4:
            print(f"{number} of {len(options.jobs)}: {path}", file=sys.stderr)
        found.append(impact(path, _catalogs(None), options.catalogs))
    for one in sorted(found, key=lambda one: -abs(one.moved())):
        print("\n".join(report(one)))
    return 1 if any(one.changes for one in found) else 0


def _read(options):
    from builder.files import put
    from builder.review.inspect import inspect
    from builder.review.taken import as_job
    from builder.workbook.read import returned

    look = inspect(returned(options.book), options.catalogs)
    one = look.taken
    for finding in look.touched:
        print(f"{options.book}: {finding}", file=sys.stderr)
    text = as_job(one, options.catalogs)
    if options.output:
        put(options.output, text.encode(), options.force)
        print(f"{options.output}: {one.opened.summary()}")
    else:
        print(text, end="")
    return 1 if one.draft or look.touched else 0


def _inspect(options):
    from builder.review.inspect import inspect
    from builder.workbook.read import returned

    found = inspect(returned(options.book), options.catalogs)
    if options.format == "json":
        print(json.dumps({"facts": found.facts, "findings": [finding.as_dict() for finding in found.findings]}, indent=2, ensure_ascii=False))
    else:
        print("\n".join([f"{options.book}: {fact}" for fact in found.facts] + [f"  {finding}" for finding in found.findings] or ["nothing"]))
    return 1 if found.findings else 0


def _compare(options):
    from builder.files import put
    from builder.review.compare import as_workbook, compare, report
    from builder.workbook.read import returned

    found = compare(returned(options.before), returned(options.after), options.catalogs)
    print("\n".join(report(found)))
    if options.output:
        put(options.output, as_workbook(found, (Path(options.before).name, Path(options.after).name)), options.force)
        print(options.output)
    return 1 if found.differ else 0


def _reissue(options):
    from builder.files import put
    from builder.review.reissue import reissue, report
    from builder.workbook.make import make
    from builder.workbook.read import returned

    found = reissue(returned(options.book), options.catalogs, options.instead, options.keep)
    print("\n".join(report(found)))
    if not options.dry_run:
        path = Path(options.output or Path("out", f"{Path(options.book).stem}-reissued.xlsx"))
        put(path, make(found.after), options.force)
        print(f"{path}: {found.after.summary()}")
    return 0


def _letter(options):
    from builder.files import put
    from builder.review.letter import letter

    path = Path(options.output or Path(options.book).with_suffix(".eml"))
    data, opened = letter(options.book, options.to, not options.without_book, options.anyway)
    put(path, data, options.force)
    print(f"{path}: {opened.summary()}")
    if not options.without_book:
        print("the attached workbook shows costs, wages and margin; --without-book leaves it out")
    return 0


def _catalogs(folders):
    """The folders named, or `catalogs` in this folder, or those that came with the program."""
    from builder.jobs import SHIPPED

    if folders:
        return tuple(map(Path, folders))
    return (Path("catalogs"),) if Path("catalogs").is_dir() else SHIPPED


def _parser():
    parser = argparse.ArgumentParser(prog="wetfilm", description="Estimate workbooks for spray-painting contractors.")
    parser.add_argument("--version", action="version", version=f"wetfilm {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    build = commands.add_parser("build", help="write the workbook of each job, or a blank one")
    build.add_argument("jobs", nargs="*", metavar="JOB.yaml", help="job files; none: a blank workbook")
    build.add_argument("-o", "--output", metavar="FILE", help="the workbook (out/JOB.xlsx)")
    build.add_argument("--units", choices=("us", "metric"), help="units of the workbook (the job's)")
    build.add_argument("--paper", choices=("letter", "a4"), help="paper of the workbook (letter for us, a4 for metric)")
    build.add_argument("--lines", type=_lines, metavar="N", help="rows of takeoff (100)")
    build.add_argument("--force", action="store_true", help="overwrite a workbook that was changed")
    build.set_defaults(run=_build)
    check = commands.add_parser("check", help="say what is wrong with catalogues and jobs, and where")
    check.add_argument("paths", nargs="+", metavar="PATH", help="a folder of catalogues, or a job file")
    check.add_argument("--format", choices=("text", "json"), default="text", help="how to say it (text)")
    check.set_defaults(run=_check)
    schema = commands.add_parser("schema", help="JSON Schema of a kind of file, for editors")
    schema.add_argument("kind", choices=("coatings", "nozzles", "pumps", "surfaces", "profiles", "tasks", "terms", "job"))
    schema.set_defaults(run=_schema)
    new = commands.add_parser("new", help="a starter folder: catalogues and an example job")
    new.add_argument("folder", metavar="DIR")
    new.set_defaults(run=_new)
    impact = commands.add_parser("impact", help="what a change of the catalogues does to jobs")
    impact.add_argument("jobs", nargs="+", metavar="JOB_OR_BOOK", help="job files, or workbooks with the catalogues they were built on")
    impact.set_defaults(run=_impact)
    read = commands.add_parser("read", help="the inputs of a returned workbook as a job file")
    read.add_argument("book", metavar="BOOK", help="a workbook of wetfilm, whatever program has saved it")
    read.add_argument("-o", "--output", metavar="JOB.yaml", help="the job file (printed)")
    read.add_argument("--force", action="store_true", help="overwrite the job file")
    read.set_defaults(run=_read)
    inspect = commands.add_parser("inspect", help="what in a returned workbook is not as it was made")
    inspect.add_argument("book", metavar="BOOK")
    inspect.add_argument("--format", choices=("text", "json"), default="text", help="how to say it (text)")
    inspect.set_defaults(run=_inspect)
    compare = commands.add_parser("compare", help="what the other side changed, and what that did to the results")
    compare.add_argument("before", metavar="BOOK")
    compare.add_argument("after", metavar="BOOK")
    compare.add_argument("-o", "--output", metavar="FILE.xlsx", help="the comparison as a workbook as well")
    compare.add_argument("--force", action="store_true", help="overwrite that workbook")
    compare.set_defaults(run=_compare)
    reissue = commands.add_parser("reissue", help="the same inputs on today's catalogues, and what moved the price")
    reissue.add_argument("book", metavar="BOOK")
    reissue.add_argument("-o", "--output", metavar="FILE", help="the new workbook (out/BOOK-reissued.xlsx)")
    reissue.add_argument("--instead", metavar="OLD=NEW", type=_renaming, action="append", default=[], help="a record that is called otherwise today")
    reissue.add_argument("--keep", metavar="NAME", action="append", default=[], help="a record that is gone today, to carry as the book has it")
    reissue.add_argument("--dry-run", action="store_true", help="say what would change, and write nothing")
    reissue.add_argument("--force", action="store_true", help="overwrite a workbook that was changed")
    reissue.set_defaults(run=_reissue)
    letter = commands.add_parser("letter", help="a draft e-mail: the estimate in words, with the workbook attached")
    letter.add_argument("book", metavar="BOOK", help="a workbook of wetfilm, whatever program has saved it")
    letter.add_argument("--to", metavar="ADDRESS", help="who gets it; several with commas between")
    letter.add_argument("-o", "--output", metavar="FILE", help="the draft (BOOK.eml, beside the book)")
    letter.add_argument("--without-book", action="store_true", help="do not attach the workbook, which shows costs")
    letter.add_argument("--anyway", action="store_true", help="even where the price is not complete, or not what the book shows")
    letter.add_argument("--force", action="store_true", help="overwrite a draft that was changed")
    letter.set_defaults(run=_letter)
    for command in (build, check, impact, read, inspect, compare, reissue):
        command.add_argument("--catalogs", metavar="DIR", action="append",
                             help="a folder of catalogues (catalogs); given again, it lies over those before, by name")
    return parser


def _renaming(text):
    old, equals, new = text.partition("=")
    if not (old and equals and new):
        raise ValueError(text)
    return old.strip(), new.strip()


def _lines(text):
    number = int(text)
    if not 1 <= number <= 1000:
        raise ValueError(text)
    return number


def main(arguments=None):
    options = _parser().parse_args(arguments)
    try:
        if "catalogs" in options:
            options.catalogs = _catalogs(options.catalogs)
        return options.run(options)
    except Refused as refused:
        for problem in refused.problems:
            print(problem, file=sys.stderr)
        return 1
    except BrokenPipeError:                      # the reader of our output has seen enough
        sys.stdout = None
        return 1
