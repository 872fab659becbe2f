"""Formulas and numbers of explanations as they are printed."""

from __future__ import annotations

import functools
import re

from server.core.arrays import Real
from server.core.explain.base import SUM

DIGITS = 6  # enough to work a figure out again to the last digit it is printed with

# a printed sign for each of the calculator's, in the order in which they are replaced
_SIGNS = (
    (re.compile(r"\*\*2\b"), "²"),
    (re.compile(r"\*\*"), "^"),
    (re.compile(r"\*"), "·"),
    (re.compile(r"\bsqrt\("), "√("),
    (re.compile(r"\bPhi\("), "Φ("),
    (re.compile(r"\bphi\("), "φ("),
    (re.compile(r"\bpi\b"), "π"),
    (re.compile(r"(?<= )- "), "− "),
    (re.compile(r"(.+) if (.+) else (.+)"), r"\1 where \2, else \3"),
)


@functools.lru_cache(maxsize=4096)
def formula_text(expression: str) -> str:
    """An expression in the signs of print; empty where all inputs are added up."""
    if expression == SUM:
        return ""
    for sign, printed in _SIGNS:
        expression = sign.sub(printed, expression)
    return expression


_INDEX = re.compile(r"_(\w+)")


def with_indices(text: str) -> list[tuple[str, bool]]:
    """A formula or symbol in pieces, each with whether it is an index."""
    pieces = _INDEX.split(text)
    return [(piece, number % 2 == 1) for number, piece in enumerate(pieces) if piece]


def si_text(value: Real | None) -> str:
    """A number of the working: six significant digits, a dash where there is none."""
    if value is None:
        return "–"
    return f"{float(value):.{DIGITS}g}".replace("-", "−")
