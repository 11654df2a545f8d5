"""The options of the `wetfilm` command, and what each may be."""

import argparse

from builder import __version__
from builder.problems import BadValue


def parser(run):
    """The parser of the command line. run: command -> what it calls."""
    parser = argparse.ArgumentParser(prog="wetfilm", description="Estimate workbooks for spray-painting contractors.")
    parser.add_argument("--version", action="version", version=f"wetfilm {__version__}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    build = commands.add_parser("build", help="write the workbook of each job, or a blank one")
    build.add_argument("jobs", nargs="*", type=_file, metavar="JOB.yaml", help="job files; none for a blank workbook")
    build.add_argument("-o", "--output", type=_file, metavar="FILE", help="the workbook to write (out/JOB.xlsx)")
    build.add_argument("--units", choices=("us", "metric"), help="units of the workbook (the job's)")
    build.add_argument("--paper", choices=("letter", "a4"), help="paper of the workbook (letter for us, a4 for metric)")
    _rows_of(build)
    build.add_argument("--workings", action="store_true", help="show the sheets of workings, which are hidden else")
    build.add_argument("--force", action="store_true", help="overwrite a workbook that somebody changed")
    build.set_defaults(run=run["build"])
    check = commands.add_parser("check", help="what is wrong with catalogs and jobs, and where")
    check.add_argument("paths", nargs="+", type=_file, metavar="PATH", help="a folder of catalogs, or a job file")
    check.add_argument("--format", choices=("text", "json"), default="text", help="form of the answer (text)")
    check.set_defaults(run=run["check"])
    schema = commands.add_parser("schema", help="JSON Schema of a kind of file, for editors")
    one_or_all = schema.add_mutually_exclusive_group(required=True)
    one_or_all.add_argument(
        "kind",
        nargs="?",
        help="printed",
        choices=("coatings", "nozzles", "pumps", "surfaces", "profiles", "tasks", "terms", "job"),
    )
    one_or_all.add_argument(
        "--all",
        type=_file,
        metavar="DIR",
        help="write every schema as KIND.json into this folder; none where one there differs",
    )
    schema.add_argument("--force", action="store_true", help="write those anew that differ")
    schema.set_defaults(run=run["schema"])
    new = commands.add_parser("new", help="a starter folder: catalogs and an example job")
    new.add_argument("folder", type=_file, metavar="DIR")
    new.set_defaults(run=run["new"])
    impact = commands.add_parser("impact", help="what a change of the catalogs does to jobs")
    impact.add_argument(
        "jobs",
        nargs="+",
        type=_file,
        metavar="JOB_OR_BOOK",
        help="job files, or workbooks with the catalogs they were built on",
    )
    impact.set_defaults(run=run["impact"])
    carry = commands.add_parser("carry", help="which nozzle sizes to keep on the van for a season's jobs")
    carry.add_argument(
        "jobs", nargs="+", type=_file, metavar="JOB_OR_BOOK", help="job files, or workbooks with their own catalogs"
    )
    carry.add_argument("--sizes", type=_sizes, metavar="N", required=True, help="how many sizes, at most")
    carry.set_defaults(run=run["carry"])
    read = commands.add_parser("read", help="the inputs of returned workbooks as job files")
    read.add_argument(
        "books", nargs="+", type=_file, metavar="BOOK", help="a workbook of wetfilm, saved by any program"
    )
    read.add_argument(
        "-o",
        "--output",
        type=_file,
        metavar="JOB.yaml",
        help="the job file to write (printed; out/BOOK.yaml of several)",
    )
    read.add_argument("--force", action="store_true", help="overwrite a job file of that name, but never a BOOK")
    read.set_defaults(run=run["read"])
    inspect = commands.add_parser("inspect", help="what was touched in returned workbooks, and what is out of date")
    inspect.add_argument("books", nargs="+", type=_file, metavar="BOOK")
    inspect.add_argument("--format", choices=("text", "json"), default="text", help="form of the answer (text)")
    inspect.set_defaults(run=run["inspect"])
    compare = commands.add_parser("compare", help="what the other side changed, and what that did to the results")
    compare.add_argument("before", type=_file, metavar="BOOK")
    compare.add_argument("after", type=_file, metavar="BOOK")
    compare.add_argument(
        "-o", "--output", type=_file, metavar="FILE.xlsx", help="write the comparison as a workbook too"
    )
    compare.add_argument(
        "--force", action="store_true", help="overwrite a workbook that somebody changed, but never either BOOK"
    )
    compare.set_defaults(run=run["compare"])
    reissue = commands.add_parser("reissue", help="the same inputs on today's catalogs, and what moved the price")
    reissue.add_argument("books", nargs="+", type=_file, metavar="BOOK")
    reissue.add_argument(
        "-o", "--output", type=_file, metavar="FILE", help="the workbook to write (out/BOOK-reissued.xlsx)"
    )
    reissue.add_argument(
        "--instead",
        metavar="OLD=NEW",
        type=_renaming,
        action="append",
        default=[],
        help="a catalog record that has a new name today",
    )
    reissue.add_argument(
        "--keep",
        metavar="NAME",
        action="append",
        default=[],
        help="a catalog record that is gone today: use the workbook's own",
    )
    _rows_of(reissue)
    reissue.add_argument("--dry-run", action="store_true", help="tell what would change, and write nothing")
    reissue.add_argument(
        "--force", action="store_true", help="overwrite a workbook that somebody changed, but never a BOOK"
    )
    reissue.set_defaults(run=run["reissue"])
    sign = commands.add_parser("sign", help="keep the plan and the price in the book, as they are signed")
    sign.add_argument("job", type=_file, metavar="BOOK_OR_JOB", help="a workbook of wetfilm, or a job file")
    sign.add_argument(
        "--on", type=_date, metavar="DATE", help="the day of signing, as 2026-05-20 (the estimate's date)"
    )
    sign.add_argument(
        "--with",
        dest="accepted",
        type=str.upper,
        choices=("A", "B", "C"),
        action="append",
        default=[],
        help="an alternate that is signed too; again for another",
    )
    sign.add_argument("-o", "--output", type=_file, metavar="OUT.xlsx", help="the workbook to write (BOOK-signed.xlsx)")
    sign.add_argument("--anyway", action="store_true", help="sign a draft too, or a book whose price may be wrong")
    sign.add_argument(
        "--force", action="store_true", help="overwrite a workbook that somebody changed, but never BOOK itself"
    )
    sign.set_defaults(run=run["sign"])
    letter = commands.add_parser("letter", help="a draft e-mail: the estimate in words, with the workbook attached")
    letter.add_argument("book", type=_file, metavar="BOOK", help="a workbook of wetfilm, saved by any program")
    letter.add_argument("--to", metavar="ADDRESS", help="who gets it; several with commas between")
    letter.add_argument(
        "-o", "--output", type=_file, metavar="FILE", help="the draft to write (BOOK.eml, beside the workbook)"
    )
    letter.add_argument("--without-book", action="store_true", help="do not attach the workbook, which shows costs")
    page = letter.add_mutually_exclusive_group()
    page.add_argument(
        "--customer",
        action="store_true",
        help="for the customer: the bid in words, with its page as PDF where LibreOffice is installed; no workbook",
    )
    page.add_argument(
        "--bill", action="store_true", help="for the customer: the last bill in words, with its page; no workbook"
    )
    letter.add_argument(
        "--anyway", action="store_true", help="write it even if there is no price, a draft, or one that may be wrong"
    )
    letter.add_argument(
        "--force", action="store_true", help="overwrite a draft that somebody changed, but never BOOK itself"
    )
    letter.set_defaults(run=run["letter"])
    learn = commands.add_parser("learn", help="what closed jobs teach the catalogs")
    learn.add_argument(
        "books", nargs="+", type=_file, metavar="BOOK_OR_DIR", help="workbooks of closed jobs, or folders of them"
    )
    learn.add_argument("--write", action="store_true", help="change the values in the catalogs, each with a dated note")
    learn.add_argument(
        "--report",
        type=_file,
        metavar="FILE.xlsx",
        help="write estimate against actual, by job and driver, as a workbook",
    )
    learn.add_argument("--force", action="store_true", help="overwrite a report that somebody changed")
    learn.set_defaults(run=run["learn"])
    for command in (build, check, impact, carry, read, inspect, compare, reissue, sign, learn):
        command.add_argument(
            "--catalogs",
            type=_file,
            metavar="DIR",
            action="append",
            help="a folder of catalogs (catalogs); given again, its records replace or change those before, by name",
        )
    return parser


def _date(text):
    from builder.records.rules import Day
    from builder.values import day

    try:
        number = day(text)
    except BadValue as error:
        raise argparse.ArgumentTypeError(f"{error.message}: {error.hint}") from None
    if not Day().low <= number <= Day().high:
        raise argparse.ArgumentTypeError(f"'{text}' is not a date from 2000-01-01 to 2099-12-31")
    return number


def _renaming(text):
    old, equals, new = text.partition("=")
    if not (old and equals and new):
        raise argparse.ArgumentTypeError(f"{text!r} is not a pair of names: write OLD=NEW")
    return old.strip(), new.strip()


def _rows_of(command):
    command.add_argument(
        "--rows",
        metavar="TABLE=N",
        type=_rows,
        action="append",
        default=[],
        help="rows of a table, as takeoff=200; again for another (as many as the job needs, and some to spare)",
    )


def _rows(text):
    from builder.records.kinds import TABLES

    table, _, count = text.partition("=")
    table = table.strip().lower()
    if table not in TABLES:
        raise argparse.ArgumentTypeError(f"{text!r} names no table: write TABLE=N with one of {', '.join(TABLES)}")
    if not (count.strip().isdecimal() and len(count) < 9 and 1 <= int(count) <= TABLES[table].most):
        raise argparse.ArgumentTypeError(
            f"{text!r}: rows of {table} are a whole number from 1 to {TABLES[table].most:,}"
        )
    return table, int(count)


def _sizes(text):
    if not (text.isdecimal() and len(text) < 3 and 1 <= int(text) <= 50):
        raise argparse.ArgumentTypeError(f"{text!r} is not a whole number from 1 to 50")
    return int(text)


def _file(text):
    if not text.strip():
        raise argparse.ArgumentTypeError("blank: enter a name")
    return text
