"""The `wetfilm` command: parse, call, print. Exit status 0 done, 1 problems found, 2 cannot do it."""
import argparse
import sys
from pathlib import Path

from builder import __version__
from builder.problems import Refused


def _build(options):
    from builder.files import put
    from builder.jobs import open_job
    from builder.workbook.make import make

    jobs = options.jobs or [None]
    if options.output and len(jobs) > 1:
        raise SystemExit("wetfilm: -o names one file, but there are several jobs")
    for job in jobs:
        opened = open_job(job, options.catalogs, options.units, options.paper, options.lines)
        if opened.problems:
            raise Refused(opened.problems)
        path = Path(options.output or Path("out", f"{Path(job).stem if job else 'blank'}.xlsx"))
        put(path, make(opened), options.force)
        print(f"{path}: {opened.summary()}")
    return 0


def _check(options):
    from builder.checking import check

    problems = check([Path(path) for path in options.paths], options.catalogs)
    for problem in problems:
        print(problem)
    if not problems:
        print("no problems")
    return 1 if problems else 0


def _catalogs(folder):
    """The folder named, or `catalogs` in this folder, or those that came with the program."""
    from builder.jobs import SHIPPED

    if folder:
        return Path(folder)
    return Path("catalogs") if Path("catalogs").is_dir() else SHIPPED


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
    check.set_defaults(run=_check)
    for command in (build, check):
        command.add_argument("--catalogs", metavar="DIR", help="the folder of catalogues (catalogs)")
    return parser


def _lines(text):
    number = int(text)
    if not 1 <= number <= 1000:
        raise ValueError(text)
    return number


def main(arguments=None):
    options = _parser().parse_args(arguments)
    try:
        options.catalogs = _catalogs(options.catalogs)
        return options.run(options)
    except Refused as refused:
        for problem in refused.problems:
            print(problem, file=sys.stderr)
        return 1
