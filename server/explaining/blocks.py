"""An explained row of a table as blocks: one for each formula that its columns rest on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from server.core.explain.base import SUM, Explanation, Formula, Input
from server.explaining.setting import formula_text, si_text
from server.explaining.words import formula_words, quantity_words

Place = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class InputLine:
    """One input across the columns of a block: texts in SI. basis: how it is known, or empty."""

    symbol: str
    words: str
    unit: str
    texts: tuple[str, ...]
    basis: str = ""


@dataclass(frozen=True, slots=True)
class Block:
    """One formula with its inputs, for the columns it holds for."""

    symbol: str
    formula: str
    where: tuple[tuple[str, str], ...]
    words: str
    source: str
    columns: tuple[str, ...]
    lines: tuple[InputLine, ...]
    result: InputLine
    shares: tuple[str, ...] = ()


def blocks(
    explanations: Sequence[Explanation | None],
    columns: Sequence[str],
    basis: Callable[[Place], str] | None = None,
) -> tuple[Block, ...]:
    """Columns that rest on the same formula stand in one block; what is unexplained in none.

    Sums stand together whatever is added up: what a column does not have is a dash there.
    """
    groups: dict[tuple[Formula, tuple[tuple[str, str], ...]], list[int]] = {}
    for index, each in enumerate(explanations):
        if each is not None:
            is_sum = each.formula.expression == SUM
            named = () if is_sum else tuple((given.symbol, given.name) for given in each.inputs)
            groups.setdefault((each.formula, named), []).append(index)
    return tuple(
        _block(
            [explained for index in members if (explained := explanations[index])],
            tuple(columns[index] for index in members),
            basis,
        )
        for members in groups.values()
    )


def _block(
    members: Sequence[Explanation],
    columns: tuple[str, ...],
    basis: Callable[[Place], str] | None,
) -> Block:
    formula = members[0].formula
    shares = [each.share for each in members]
    return Block(
        symbol=formula.symbol,
        formula=formula_text(formula.expression),
        where=tuple((symbol, formula_text(short)) for symbol, short in formula.where),
        words=formula_words(formula.code),
        source=formula.source,
        columns=columns,
        lines=tuple(
            _line(symbol, given, basis)
            for symbol, given in (
                _summands(members) if formula.expression == SUM else _inputs(members)
            )
        ),
        result=InputLine(
            formula.symbol, "", formula.unit, tuple(si_text(each.value) for each in members)
        ),
        shares=tuple(f"{float(share) * 100:.1f}" for share in shares if share is not None),
    )


_Across = tuple[str, list[Input | None]]  # a symbol, and the input of each column


def _inputs(members: Sequence[Explanation]) -> list[_Across]:
    """The inputs of columns that have the same ones."""
    return [
        (given.symbol, [each.inputs[number] for each in members])
        for number, given in enumerate(members[0].inputs)
    ]


def _summands(members: Sequence[Explanation]) -> list[_Across]:
    """All that is added up in any column, numbered anew, in the order it first appears.

    The same name twice in one column is two lines.
    """
    lines: dict[tuple[str, int], list[Input | None]] = {}
    for column, each in enumerate(members):
        seen: dict[str, int] = {}
        for given in each.inputs:
            seen[given.name] = seen.get(given.name, 0) + 1
            key = given.name, seen[given.name]
            lines.setdefault(key, [None] * len(members))[column] = given
    symbol = members[0].formula.symbol
    return [(f"{symbol}_{number}", given) for number, given in enumerate(lines.values(), start=1)]


def _line(
    symbol: str, across: Sequence[Input | None], basis: Callable[[Place], str] | None
) -> InputLine:
    first = next(each for each in across if each is not None)
    return InputLine(
        symbol=symbol,
        words=quantity_words(first.name),
        unit=first.unit,
        texts=tuple(si_text(None if each is None else each.value) for each in across),
        basis="" if first.place is None or basis is None else basis(first.place),
    )
