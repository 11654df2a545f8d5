"""A draft e-mail of paragraphs and tables, as text and as HTML. The same input gives the same bytes."""

import datetime
import html
import re
import textwrap
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from email.headerregistry import Address
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import getaddresses
from pathlib import Path

from builder.problems import BadValue
from builder.seals import SEAL, sealed

TYPES = {  # ending of a file -> what it is, to a mail program
    ".xlsx": ("application", "vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
    ".pdf": ("application", "pdf"),
}
LINE, LABEL = 76, 42  # letters of a line of the text, and of a label that stands on one line with its value
# categories of letters that are not shown, line breaks among them
HIDDEN = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")
CELL = "padding: 3px 12px 3px 0; border-bottom: 1px solid #bbbbbb; vertical-align: top"
# RFC 5322 dot-atom; a domain of two labels and more
_ADDRESS = re.compile(r"[A-Za-z0-9!#$%&'*+/=?^_`{|}~.-]+@[A-Za-z0-9-]+(\.[A-Za-z0-9-]+)+")
# at commas and semicolons outside of quotes
_SPLIT = re.compile(r'(?:"(?:\\.|[^"\\])*"|[^",;])+')


@dataclass(frozen=True)
class Table:
    """A title and rows of (label, value), both text. `figures`: values stand to the right."""

    title: str
    rows: tuple[tuple[str, str], ...]
    figures: bool = False


def one_line(text: str, most: int = 400) -> str:
    """Text of a cell as one line: no line break, no letter that is not shown or turns others round, not endless."""
    shown = "".join(" " if unicodedata.category(letter) in HIDDEN else letter for letter in text)
    words = " ".join(shown.split())
    return words if len(words) <= most else words[: most - 1].rstrip() + "…"


def addresses(text: str) -> tuple[Address, ...]:
    """'a@b.example, Ann Doe <c@d.example>' as addresses. BadValue where one is none."""
    example = "write it as in office@club.example or 'Ann Doe <ann@club.example>'"
    if not text.strip() or any(unicodedata.category(letter) in HIDDEN for letter in text):
        raise BadValue("the address is blank, or holds line breaks or hidden characters", example)
    found = []
    for part in _SPLIT.findall(text):
        pairs = getaddresses([part])
        if len(pairs) != 1 or not _ADDRESS.fullmatch(pairs[0][1]):
            raise BadValue(f"'{part.strip()}' is not an address", example)
        found.append(Address(pairs[0][0], addr_spec=pairs[0][1]))
    return tuple(found)


def file_name(text: str, ending: str) -> str:
    """A name that any program may save a file under."""
    stem = re.sub(r"[^\w .()-]", "_", one_line(text.removesuffix(ending), 80)).strip(" .")
    return (stem or "estimate") + ending


def as_text(blocks: Sequence[str | Table]) -> str:
    """The blocks as plain text in lines that no program needs to break."""
    return (
        "\n\n".join(
            _table_as_text(block) if isinstance(block, Table) else textwrap.fill(block, LINE) for block in blocks
        )
        + "\n"
    )


def _table_as_text(table: Table) -> str:
    wide = max(min(len(label), LABEL) for label, _ in table.rows) + 2
    right = max(len(value) for _, value in table.rows) if table.figures else 0
    lines = [table.title, "-" * len(table.title)]
    for label, value in table.rows:
        if len(label) > wide - 2:
            lines.append(label)
            label = ""
        lines += textwrap.wrap(
            f"{value:>{right}}",
            LINE,
            initial_indent=f"{label:<{wide}}",
            subsequent_indent=" " * wide,
            drop_whitespace=False,
        )
    return "\n".join(line.rstrip() for line in lines)


def as_html(blocks: Sequence[str | Table]) -> str:
    """The blocks as HTML: nothing from outside, readable in gray and without styles."""
    inner = "\n".join(
        _table_as_html(block) if isinstance(block, Table) else f"<p>{html.escape(block)}</p>" for block in blocks
    )
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head><meta charset="utf-8"></head>\n'
        '<body style="font-family: sans-serif; font-size: 15px; line-height: 1.4; color: #222222; max-width: 42em">\n'
        f"{inner}\n</body>\n</html>\n"
    )


def _table_as_html(table: Table) -> str:
    side = ' align="right"' if table.figures else ""  # for programs that show no styles
    value_style = f"{CELL}; text-align: right; white-space: nowrap" if table.figures else CELL
    rows = [
        f'<tr><th scope="row" align="left" style="{CELL}; text-align: left; font-weight: normal">'
        f"{html.escape(label)}</th>"
        f'<td{side} style="{value_style}">{html.escape(value)}</td></tr>'
        for label, value in table.rows
    ]
    title = f'<caption align="left" style="text-align: left; font-weight: bold">{html.escape(table.title)}</caption>'
    return "\n".join(['<table style="border-collapse: collapse; margin: 0 0 1em 0">', title, *rows, "</table>"])


def draft(
    subject: str,
    to: Sequence[Address],
    date: datetime.date | None,
    blocks: Sequence[str | Table],
    attached: tuple[str, bytes] | None = None,
) -> bytes:
    """The bytes of an unsent message. to: addresses; date: a date or None; attached: (file name, bytes), or
    None.
    """
    message = EmailMessage(SMTP)
    message["X-Unsent"] = "1"
    if to:
        message["To"] = to
    message["Subject"] = subject
    if date:
        message["Date"] = datetime.datetime.combine(date, datetime.time())
    message.set_content(as_text(blocks), cte="quoted-printable")
    message.add_alternative(as_html(blocks), subtype="html", cte="quoted-printable")
    if attached:
        name, data = attached
        message.add_attachment(data, *TYPES[Path(name).suffix], filename=name)
    for number, part in enumerate(part for part in message.walk() if part.is_multipart()):
        part.set_boundary(f"{SEAL}_{number}")
    return sealed(message.as_bytes())
