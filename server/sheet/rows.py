"""What a sheet is made of: figures, rows, sections. Numbers in the base unit of their kind."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from server.core.arrays import Real
from server.core.evaluate import Result
from server.core.explain.base import Explanation

JOULES_PER_KWH = 3.6e6


@dataclass(frozen=True, slots=True)
class Figure:
    """One number in the base unit of its row's kind; None where it is not known.

    label: a label value beside it. note: words in place of a number.
    """

    value: float | None
    label: float | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Row:
    """One line across all results. strong: a total or a headline.

    explanations: how each figure comes about; empty where nothing is behind it.
    """

    name: str
    kind: str
    figures: tuple[Figure, ...]
    strong: bool = False
    explanations: tuple[Explanation | None, ...] = ()


@dataclass(frozen=True, slots=True)
class Section:
    """Rows that belong together, with a line on how to read them."""

    title: str
    words: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The whole comparison. columns: the results' names, as found first."""

    house: str
    climate: str
    columns: tuple[str, ...]
    sections: tuple[Section, ...]
    parts: tuple[Row, ...]


def row_of(
    name: str,
    kind: str,
    results: Sequence[Result],
    read: Callable[[Result], Real | None],
    *,
    strong: bool = False,
    explain: Callable[[Result], Explanation | None] | None = None,
) -> Row:
    """One line across all results, read off each."""
    figures = tuple(Figure(number(read(result))) for result in results)
    behind = () if explain is None else tuple(explain(result) for result in results)
    return Row(name, kind, figures, strong, behind)


def number(value: Real | None) -> float | None:
    """A figure of one house as a plain float; None stays None."""
    return None if value is None else float(value)


def whole_parts(parts: Sequence[float]) -> list[float]:
    """Parts as whole numbers that sum to their rounded sum: the largest remainders go up."""
    whole = [float(math.floor(part)) for part in parts]
    missing = round(sum(parts)) - int(sum(whole))
    by_remainder = sorted(range(len(parts)), key=lambda index: whole[index] - parts[index])
    for index in by_remainder[:missing]:
        whole[index] += 1.0
    return whole
