"""The heat of a year as one bar for every result, divided among the parts of the house."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from server.core.parts import PARTS

ROOM_FOR_TEXT = 9.0  # percent of the drawing's width that a printed figure needs


@dataclass(frozen=True, slots=True)
class Segment:
    """One part of the house in a bar: place and width in percent of the drawing."""

    part: str
    start: float
    width: float
    energy_kwh: float

    @property
    def middle(self) -> float:
        """Where a figure stands, percent."""
        return self.start + self.width / 2.0

    @property
    def has_room(self) -> bool:
        """Whether the figure fits inside."""
        return self.width >= ROOM_FOR_TEXT


@dataclass(frozen=True, slots=True)
class Bar:
    """One result's bar."""

    name: str
    energy_kwh: float
    segments: tuple[Segment, ...]


def heat_bars(names: Sequence[str], shares: Sequence[Mapping[str, float]]) -> tuple[Bar, ...]:
    """Bars on one scale, the longest across the whole drawing; parts in their usual order."""
    totals = [sum(share.values()) for share in shares]
    longest = max(totals, default=0.0) or 1.0
    bars = []
    for name, share, total in zip(names, shares, totals, strict=True):
        segments = []
        start = 0.0
        for part in PARTS:
            width = max(share[part], 0.0) / longest * 100.0
            segments.append(Segment(part, start, width, share[part]))
            start += width
        bars.append(Bar(name, total, tuple(segments)))
    return tuple(bars)
