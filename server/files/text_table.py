"""A sheet as text, at most 100 columns wide."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from gettext import gettext as _

from server.formatting import figure_text, unit_text
from server.sheet import Row, Section, Sheet
from server.units import System

WIDTH = 100
NAME_WIDTH = 36
COLUMN_WIDTH = 15
COLUMNS_ABREAST = (WIDTH - NAME_WIDTH) // (COLUMN_WIDTH + 1)


def text_table(sheet: Sheet, system: System) -> str:
    """The whole sheet as text; more than four results stand in blocks, as found in each."""
    lines = [*_wrapped(sheet.house), *_wrapped(sheet.climate), ""]
    for block in _blocks(len(sheet.columns)):
        lines += _headings([sheet.columns[index] for index in block])
        for section in sheet.sections:
            lines += _section(section, block, system)
        lines.append("")
    lines += _wrapped(
        _("Estimates for choosing, not equipment selection or structural design.")
        + " "
        + _("Local codes and licensed practice decide.")
    )
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _blocks(count: int) -> Iterator[list[int]]:
    """Column numbers in blocks that fit, as found first in each."""
    rest = list(range(1, count))
    abreast = COLUMNS_ABREAST - 1
    for start in range(0, max(len(rest), 1), abreast):
        yield [0, *rest[start : start + abreast]]


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH) or [""]


def _headings(names: Sequence[str]) -> list[str]:
    columns = [textwrap.wrap(name, COLUMN_WIDTH) or [""] for name in names]
    height = max(map(len, columns))
    lines = []
    for level in range(height):
        cells = [column[level - height + len(column) :][:1] for column in columns]
        texts = [
            cell[0] if cell and level >= height - len(column) else ""
            for cell, column in zip(cells, columns, strict=True)
        ]
        lines.append(_line("", texts))
    lines.append("=" * (NAME_WIDTH + len(names) * (COLUMN_WIDTH + 1)))
    return lines


def _section(section: Section, block: Sequence[int], system: System) -> list[str]:
    lines = ["", section.title]
    lines += textwrap.wrap(section.words, WIDTH, initial_indent="  ", subsequent_indent="  ")
    for row in section.rows:
        lines += _row(row, block, system)
    return lines


def _row(row: Row, block: Sequence[int], system: System) -> list[str]:
    unit = unit_text(row.kind, system)
    name = f"{row.name}, {unit}" if unit else row.name
    names = textwrap.wrap(name, NAME_WIDTH - 2) or [""]
    texts = [figure_text(row.figures[index], row.kind, system) for index in block]
    return [*(f"  {part}" for part in names[:-1]), _line(f"  {names[-1]}", texts)]


def _line(name: str, texts: Sequence[str]) -> str:
    return f"{name:{NAME_WIDTH}}" + "".join(f" {text:>{COLUMN_WIDTH}}" for text in texts)
