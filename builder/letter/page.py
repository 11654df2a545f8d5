"""The Bid or the Bill as a PDF: what a customer gets instead of the workbook, which shows costs.

LibreOffice prints it, where it is installed; nothing else of the workbook is in the file.
"""

import re
import shutil
import subprocess
import tempfile
from pathlib import Path

from builder.jobs import Opened
from builder.workbook.make import make

SAME = {14: b"20260101000000", 32: b"0" * 32}
PROGRAM = "soffice"
SECONDS = 120  # that a start of LibreOffice and one page may take
# What LibreOffice writes anew each time: when, and an identity in two copies. Others of the same length stand in its
# place, so that the same page gives the same bytes.
_EACH_TIME = re.compile(rb"(?<=/CreationDate\(D:)\d{14}(?=Z)|(?<=/DocChecksum /)\w{32}|(?<=<)[0-9A-F]{32}(?=>)")


def printed_page(opened: Opened, title: str) -> bytes | None:
    """The bytes of a sheet of one page, by its title; None where LibreOffice is not installed or does not print it."""
    program = shutil.which(PROGRAM)
    if program is None:
        return None
    with tempfile.TemporaryDirectory(prefix="page-") as folder:
        book = Path(folder, f"{title}.xlsx")
        book.write_bytes(make(opened, only=title))
        command = [program, f"-env:UserInstallation={Path(folder, 'profile').as_uri()}", "--headless", "--norestore"]
        command += ["--convert-to", "pdf:calc_pdf_Export", "--outdir", folder, str(book)]
        try:
            subprocess.run(command, capture_output=True, check=True, timeout=SECONDS)
            return _EACH_TIME.sub(lambda found: SAME[len(found[0])], book.with_suffix(".pdf").read_bytes())
        except (OSError, subprocess.SubprocessError):
            return None
