"""Quantities worked out from typed ones; each knows whether all behind it was measured."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from server.files.house_file import Entry, Typed
from server.units import System, to_display

# Unit and decimals of a quantity that was worked out: finer than anybody measures a house.
_UNITS: dict[str, dict[System, tuple[str, int]]] = {
    "length": {"ip": ("ft", 1), "si": ("m", 2)},
    "area": {"ip": ("ft^2", 1), "si": ("m^2", 2)},
    "volume": {"ip": ("ft^3", 0), "si": ("m^3", 1)},
}
_KIND_READ = {"length": "thickness"}  # the file reads every length as a thickness
_LAST_WORD = re.compile(r"([a-z]+)[^a-z]*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Figure:
    """A value in SI, measured only if all it was worked out from was."""

    value: float
    measured: bool

    @classmethod
    def of(cls, entry: Entry) -> Figure:
        """The figure of a typed quantity."""
        return cls(entry.value, entry.basis == "measured")

    def __add__(self, other: Figure) -> Figure:
        return Figure(self.value + other.value, self.measured and other.measured)

    def __sub__(self, other: Figure) -> Figure:
        return Figure(self.value - other.value, self.measured and other.measured)

    def __mul__(self, other: Figure | float) -> Figure:
        if isinstance(other, Figure):
            return Figure(self.value * other.value, self.measured and other.measured)
        return Figure(self.value * other, self.measured)

    def __truediv__(self, other: Figure | float) -> Figure:
        if isinstance(other, Figure):
            return Figure(self.value / other.value, self.measured and other.measured)
        return Figure(self.value / other, self.measured)

    def tangent(self) -> Figure:
        """Of an angle in degrees."""
        return Figure(math.tan(math.radians(self.value)), self.measured)

    def cosine(self) -> Figure:
        """Of an angle in degrees."""
        return Figure(math.cos(math.radians(self.value)), self.measured)

    def entry(self, kind: str, system: System) -> Entry:
        """As the house file holds it: a length, an area or a volume, rounded, with its basis."""
        unit, digits = _UNITS[kind][system]
        number = f"{to_display(self.value, kind, system):.{digits}f}"
        if digits:
            number = number.rstrip("0").rstrip(".")
        basis = "measured" if self.measured else "guess"
        return typed(_KIND_READ.get(kind, kind), f"{number} {unit}", basis)


def typed(kind: str | None, text: str | float, basis: str | None = None) -> Entry:
    """An entry as if somebody had typed it."""
    return Typed(kind).read(text if basis is None else {"value": text, "basis": basis})


def system_of(entry: Entry) -> System:
    """The system in which a length was typed: `8.5 m` and `850 mm` are SI, `28'` is not."""
    word = _LAST_WORD.search(str(entry.typed))
    return "si" if word is not None and word[1].lower().startswith(("m", "c")) else "ip"
