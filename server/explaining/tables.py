"""Tables of the working: columns with their formulas as texts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from server.core.explain.base import Column
from server.explaining.setting import formula_text, si_text
from server.explaining.words import formula_words, quantity_words


@dataclass(frozen=True, slots=True)
class Made:
    """How a column comes about: its formula, and the inputs that are no columns, as texts."""

    formula: str
    where: tuple[tuple[str, str], ...]
    words: str
    source: str
    inputs: tuple[tuple[str, str, str, str], ...]


@dataclass(frozen=True, slots=True)
class Heading:
    """One column: symbol, words, unit; made: None where it is given. source: of what is given."""

    symbol: str
    words: str
    unit: str
    made: Made | None
    source: str


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of texts below headings that say where they come from. code: names the table."""

    code: str
    headings: tuple[Heading, ...]
    names: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def table(code: str, columns: Sequence[Column], names: Sequence[str]) -> Table:
    """A table of the working; names: of its rows."""
    return Table(
        code,
        tuple(_heading(column) for column in columns),
        tuple(names),
        tuple(
            tuple(si_text(column.values[row]) for column in columns) for row in range(len(names))
        ),
    )


def _heading(column: Column) -> Heading:
    return Heading(
        column.symbol,
        quantity_words(column.name),
        column.unit,
        _made(column),
        column.source or "",
    )


def _made(column: Column) -> Made | None:
    formula = column.formula
    if formula is None:
        return None
    return Made(
        formula=formula_text(formula.expression),
        where=tuple((symbol, formula_text(short)) for symbol, short in formula.where),
        words=formula_words(formula.code),
        source=formula.source,
        inputs=tuple(
            (given.symbol, quantity_words(given.name), si_text(given.value), given.unit)
            for given in column.inputs
        ),
    )
