"""Lines of a house left without power: points of a drawing, nothing of its look."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from server.core.power_cut import Drift

HOURS = 72.0  # told by the drawing
STEPS = 48
WIDTH, HEIGHT = 600.0, 260.0  # of the field of the lines
TICK_HOURS = 12.0


@dataclass(frozen=True, slots=True)
class DriftLine:
    """One line: its name, its points in the field, and where it leaves it at the right."""

    name: str
    points: str
    end: float


@dataclass(frozen=True, slots=True)
class Level:
    """A temperature, deg C, and its height in the field."""

    temperature: float
    height: float


@dataclass(frozen=True, slots=True)
class DriftDrawing:
    """The lines of several results over the same hours; hours: ticks and their places."""

    lines: tuple[DriftLine, ...]
    levels: tuple[Level, ...]
    limits: tuple[Level, ...]
    hours: tuple[tuple[float, float], ...]


def drift_drawing(
    names: Sequence[str],
    drifts: Sequence[Drift],
    limits: Sequence[float],
    levels: Sequence[float],
) -> DriftDrawing:
    """The lines of some drifts. limits and levels: temperatures to mark, deg C."""
    hours = np.linspace(0.0, HOURS, STEPS + 1)
    courses = [np.asarray(drift.temperature(hours)) for drift in drifts]
    low = min(*(float(course.min()) for course in courses), *limits, *levels)
    high = max(*(float(course.max()) for course in courses), *limits, *levels)

    def height(temperature: float) -> float:
        return round(HEIGHT * (high - temperature) / (high - low), 1)

    lines = []
    for name, course in zip(names, courses, strict=True):
        points = " ".join(
            f"{WIDTH * hour / HOURS:.1f},{height(float(temperature))}"
            for hour, temperature in zip(hours, course, strict=True)
        )
        lines.append(DriftLine(name, points, height(float(course[-1]))))
    ticks = np.arange(0.0, HOURS + 1.0, TICK_HOURS)
    return DriftDrawing(
        lines=tuple(lines),
        levels=tuple(Level(each, height(each)) for each in levels),
        limits=tuple(Level(each, height(each)) for each in limits),
        hours=tuple((float(hour), round(WIDTH * float(hour) / HOURS, 1)) for hour in ticks),
    )
