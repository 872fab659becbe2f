"""Sections of figures as CSV for a spreadsheet: one line a row, the unit in a column of its own."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from gettext import gettext as _

from server.formatting import figure_text, unit_text
from server.sheet import Section
from server.units import System

_FOR_MACHINES = {0x2009: None, 0x202F: None, 0x2212: "-", 0x2013: ""}  # spaces, minus, not known
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def csv_table(columns: Sequence[str], sections: Iterable[Section], system: System) -> str:
    """The rows of sections; a text that a spreadsheet would take for a formula is kept a text."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow([_("Section"), _("Figure"), _("Unit"), *map(as_text, columns)])
    for section in sections:
        for row in section.rows:
            unit = unit_text(row.kind, system)
            figures = [
                figure_text(figure, row.kind, system).translate(_FOR_MACHINES)
                if figure.note is None
                else as_text(figure.note)
                for figure in row.figures
            ]
            writer.writerow([as_text(section.title), as_text(row.name), unit, *figures])
    return text.getvalue()


def as_text(cell: str) -> str:
    """A cell with an apostrophe before what would be read as a formula."""
    return f"'{cell}" if cell.startswith(_FORMULA) else cell
