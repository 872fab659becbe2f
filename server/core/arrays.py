"""The numeric types of the core, and the few operations that treat floats and arrays alike.

Every quantity is a float or an array whose leading axes are draws (variations of one house).
A quantity by month carries the twelve months on its last axis.
"""

from __future__ import annotations

import math
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.floating[Any]]
Real: TypeAlias = float | Array


def by_month(value: Real) -> Real:
    """Append a month axis of length one, so that a quantity without months meets one with them.

    Shapes: (draws,) to (draws, 1); a float stays a float.
    Range: any.
    Raises: nothing.
    Source: NumPy's broadcasting rule.
    """
    return value if isinstance(value, float | int) else np.asarray(value)[..., np.newaxis]


def smaller(first: Real, second: Real) -> Real:
    """The smaller of two quantities, element by element, without making floats into arrays.

    Shapes: any two that broadcast.
    Range: any.
    Raises: nothing.
    Source: definition.
    """
    if isinstance(first, float | int) and isinstance(second, float | int):
        return min(first, second)
    return np.minimum(first, second)


def larger(first: Real, second: Real) -> Real:
    """The larger of two quantities, element by element, without making floats into arrays.

    Shapes: any two that broadcast.
    Range: any.
    Raises: nothing.
    Source: definition.
    """
    if isinstance(first, float | int) and isinstance(second, float | int):
        return max(first, second)
    return np.maximum(first, second)


def all_within(value: Real, low: float, high: float, *, open_low: bool = False) -> bool:
    """Whether every element is finite and between two limits (the lower one excluded on request).

    Shapes: any.
    Range: any; nan and infinity are never within.
    Raises: nothing.
    Source: definition.
    """
    if isinstance(value, float | int):
        return (
            math.isfinite(value) and (low < value if open_low else low <= value) and value <= high
        )
    array = np.asarray(value)
    above = array > low if open_low else array >= low
    return bool(np.all(np.isfinite(array) & above & (array <= high)))
