"""What an explanation is: a formula with its source, and the inputs that were put into it.

A formula is one expression in SI, in the units that stand beside its inputs, so that anyone can
work it out again with a calculator. Signs: + - * / ** and parentheses; sqrt, abs, max, min; exp,
ln, sin and cos; Phi and phi, the standard normal distribution and density; pi; `a if b > c else d`.
"""

from __future__ import annotations

from dataclasses import dataclass

from server.core.arrays import Real


@dataclass(frozen=True, slots=True)
class Formula:
    """How a figure follows from its inputs.

    code: names its words. symbol: of the figure. expression: over the symbols of the inputs; SUM
    adds all inputs up. where: symbols of the expression that are short for another one, in the
    order they are worked out. source: the publication, and what of it is from memory.
    """

    code: str
    symbol: str
    expression: str
    unit: str
    source: str
    where: tuple[tuple[str, str], ...] = ()


SUM = "sum of all inputs"


class Label(str):
    """A name that somebody gave to a thing, as opposed to a code for words of ours."""

    __slots__ = ()


@dataclass(frozen=True, slots=True, eq=False)
class Input:
    """One quantity that goes into a formula, in SI.

    name: a code for its words, or a Label. value: None where it is a column of
    the table in which the figure stands. place: where the house file holds it, as steps.
    """

    symbol: str
    name: str
    value: Real | None
    unit: str
    place: tuple[str | int, ...] | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Explanation:
    """A figure, its formula and its inputs. share: of the whole it is a part of, 0 to 1."""

    formula: Formula
    value: Real
    inputs: tuple[Input, ...]
    share: Real | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Column:
    """One quantity by month or by part, with the formula that makes it; None: given, not made.

    values: in SI, one for each row. inputs of the formula: what is no column of the same table.
    source: where given values come from.
    """

    symbol: str
    name: str
    unit: str
    values: tuple[Real | None, ...]
    formula: Formula | None = None
    inputs: tuple[Input, ...] = ()
    source: str | None = None
