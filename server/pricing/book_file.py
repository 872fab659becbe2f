"""A price book as CSV, as a spreadsheet opens and saves it.

The first row is `version` with its number, the second names the columns, one line follows in each.
A cell that a spreadsheet would take for a formula is written with an apostrophe before it.
"""

from __future__ import annotations

import csv
import functools
import io
import re
from collections.abc import Sequence
from dataclasses import fields
from decimal import Decimal
from gettext import gettext as _
from typing import cast

from server.files.faults import BadFile, Fault
from server.files.seeds import SEED_DATA
from server.pricing.book import BadPrice, PriceBook, PriceLine, Reason
from server.pricing.work_item import Unit

COLUMNS = tuple(field.name for field in fields(PriceLine))
LARGEST_TEXT = 1_000_000  # characters
SEED_BOOK = SEED_DATA / "price_book.csv"

_FORMULA = re.compile(r"'*[=+\-@＝＋－＠]")
_CENTS = re.compile(r"[0-9]{1,12}(\.[0-9]{1,12})?", re.ASCII)
_WHOLE = re.compile(r"[0-9]{1,12}", re.ASCII)


@functools.cache
def seed_price_book() -> PriceBook:
    """The price book of the seed data; its prices are invented."""
    return read_price_book(SEED_BOOK.read_text(encoding="utf-8"))


def write_price_book(book: PriceBook) -> str:
    """A price book as CSV; `read_price_book` gives the same book back."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(["version", book.version])
    writer.writerow(COLUMNS)
    for line in book.lines:
        writer.writerow([_cell(getattr(line, column)) for column in COLUMNS])
    return text.getvalue()


def _cell(value: str | Decimal | int) -> str:
    if isinstance(value, Decimal):
        return f"{value:f}"
    text = str(value)
    return f"'{text}" if _FORMULA.match(text) else text


def read_price_book(text: str) -> PriceBook:
    """The price book of a CSV text. Raises BadFile with every fault found, by row and column."""
    rows = _rows(text)
    faults: list[Fault] = []
    version = _version(rows[0] if rows else [], faults)
    _check_columns(rows[1] if len(rows) > 1 else [], faults)
    if faults:
        raise BadFile(faults)
    lines: list[PriceLine] = []
    seen: dict[tuple[str, str], int] = {}
    for number, row in enumerate(rows[2:], start=3):
        if any(row):
            line = _line(number, row, faults)
            if line is not None:
                _check_seen(number, line, seen, faults)
                lines.append(line)
    if faults:
        raise BadFile(faults)
    return PriceBook(version, tuple(lines))


def _rows(text: str) -> list[list[str]]:
    """Every cell without spaces at its ends; rows count as a spreadsheet numbers them."""
    if len(text) > LARGEST_TEXT:
        words = _("at most {most} characters").format(most=LARGEST_TEXT)
        raise BadFile([Fault("", None, words)])
    try:
        lines = io.StringIO(text.removeprefix("\ufeff"), newline="")
        return [[cell.strip() for cell in row] for row in csv.reader(lines, strict=True)]
    except csv.Error as error:
        words = _("this is no CSV: {reason}").format(reason=error)
        raise BadFile([Fault("", None, words)]) from None


def _place(row: int, column: str) -> str:
    return _("row {row}, {column}").format(row=row, column=column)


def _version(row: Sequence[str], faults: list[Fault]) -> int:
    read = row[1] if len(row) > 1 else None
    is_number = read is not None and _WHOLE.fullmatch(read) and int(read) > 0
    if not row or row[0] != "version" or any(row[2:]) or not is_number:
        words = _("the first row is “version” and a whole number, 1 or more")
        faults.append(Fault(_place(1, "version"), read or None, words))
        return 0
    return int(row[1])


def _check_columns(row: Sequence[str], faults: list[Fault]) -> None:
    for index in range(max(len(row), len(COLUMNS))):
        read = row[index] if index < len(row) else ""
        wanted = COLUMNS[index] if index < len(COLUMNS) else ""
        if read != wanted:
            words = _("the columns are {names}").format(names=", ".join(COLUMNS))
            faults.append(Fault(_place(2, wanted or str(index + 1)), read or None, words))
            return


def _line(number: int, row: Sequence[str], faults: list[Fault]) -> PriceLine | None:
    """The line of a row; None where it has faults, all of which are noted."""
    if any(row[len(COLUMNS) :]):
        words = _("this row has more cells than there are columns")
        faults.append(Fault(_place(number, str(len(COLUMNS) + 1)), row[len(COLUMNS)], words))
        return None
    cells = dict(zip(COLUMNS, [*row, *[""] * len(COLUMNS)], strict=False))
    before = len(faults)
    cents = {
        column: _cents(number, column, cells[column], faults)
        for column in ("material_cents", "labour_cents", "minimum_cents")
    }
    if len(faults) > before:
        return None
    try:
        return PriceLine(
            key=_text(cells["key"]),
            name=_text(cells["name"]),
            matches=_text(cells["matches"]),
            unit=cast("Unit", _text(cells["unit"])),
            material_cents=cents["material_cents"],
            labour_cents=cents["labour_cents"],
            minimum_cents=int(cents["minimum_cents"]),
            reason=cast("Reason", _text(cells["reason"])),
            note=_text(cells["note"]),
        )
    except BadPrice as error:
        read = cells[error.field] or None
        faults.append(Fault(_place(number, error.field), read, str(error)))
        return None


def _text(cell: str) -> str:
    """A text without the apostrophe that keeps a spreadsheet from taking it for a formula."""
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell) else cell


def _cents(number: int, column: str, cell: str, faults: list[Fault]) -> Decimal:
    is_whole = column == "minimum_cents"
    if (_WHOLE if is_whole else _CENTS).fullmatch(cell):
        return Decimal(cell)
    if is_whole:
        words = _("a whole number of cents, like 2500, without a comma or a sign")
    else:
        words = _("a number of cents, like 120 or 87.5, without a comma or a sign")
    faults.append(Fault(_place(number, column), cell or None, words))
    return Decimal(0)


def _check_seen(
    number: int, line: PriceLine, seen: dict[tuple[str, str], int], faults: list[Fault]
) -> None:
    for column, text in (("key", line.key), ("matches", line.matches)):
        first = seen.setdefault((column, text), number)
        if first != number:
            words = _("row {row} has the same already").format(row=first)
            faults.append(Fault(_place(number, column), text, words))
