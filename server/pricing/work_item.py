"""One thing that a crew does or buys, with its quantity."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias, get_args

from server.pricing.steps import Step

Unit: TypeAlias = Literal["ft2", "board foot", "linear ft", "each", "opening", "lump sum"]
UNITS: tuple[Unit, ...] = get_args(Unit)

FOOT = 0.3048  # m
INCH = 0.0254  # m
SQUARE_FOOT = FOOT**2
# One of the unit in base SI: m2, m3, m, or a count. A board foot is a square foot, an inch thick.
IN_SI: dict[Unit, float] = {
    "ft2": SQUARE_FOOT,
    "board foot": SQUARE_FOOT * INCH,
    "linear ft": FOOT,
    "each": 1.0,
    "opening": 1.0,
    "lump sum": 1.0,
}


@dataclass(frozen=True, slots=True)
class WorkItem:
    """One thing to do or buy.

    component: None where it is for the whole house. quantity: in base SI of its unit: m2, m3, m or
    a count. thickness: m, None where it has none. estimated: the count was not surveyed.
    """

    component: str | None
    step: Step
    material: str | None
    quantity: float
    unit: Unit
    thickness: float | None
    words: str
    estimated: bool = False

    def quantity_in(self, unit: Unit) -> float | None:
        """The quantity in a unit of the trade; None where it cannot be told in this one.

        An area with a thickness can be told in board feet, and board feet of a thickness in ft2.
        """
        if unit == self.unit:
            return self.quantity / IN_SI[unit]
        if self.thickness is None or self.thickness <= 0.0:
            return None
        if (self.unit, unit) == ("ft2", "board foot"):
            return self.quantity * self.thickness / IN_SI[unit]
        if (self.unit, unit) == ("board foot", "ft2"):
            return self.quantity / self.thickness / IN_SI[unit]
        return None
