"""Thicknesses as they are bought, from the resistance wanted."""

from __future__ import annotations

import math

INCH = 0.0254  # m
R_PER_SI = 5.678263337  # h ft2 degF/Btu in one m2 K/W

# Nominal label resistance per inch, h ft2 degF/Btu, common practice.
BOARD_R = 4.0  # rigid mineral wool, and expanded polystyrene
DENSE_PACK_R = 3.6
BATT_R = 4.2

BATTS_IN = (3.5, 5.5, 7.25, 9.25)
MOST_ON_WALLS_IN = 4.0  # screws through more carry no siding without further design
MOST_ON_ROOFS_IN = 8.0
SINGLE_BOARD_IN = 2.5  # up to here in one layer


def board_in(resistance: float, most_in: float) -> float:
    """Board of R-4 an inch for a label resistance, in steps of 1/2 in; 0 for none."""
    return min(_up_to_half(resistance / BOARD_R), most_in)


def batt_in(resistance: float) -> float:
    """The thinnest batt in stock for a label resistance, in; the thickest where none will do."""
    enough = (batt for batt in BATTS_IN if batt * BATT_R >= resistance)
    return next(enough, BATTS_IN[-1])


def blown_depth_in(resistance: float, conductivity: float) -> float:
    """Settled depth of loose fill for a resistance, in steps of 1/2 in; conductivity W/(m K)."""
    return _up_to_half(resistance / R_PER_SI * conductivity / INCH)


def halves_in(thickness_in: float) -> tuple[float, float]:
    """A thickness in two layers of whole half inches, the thicker one first."""
    thicker = _up_to_half(thickness_in / 2.0)
    return thicker, thickness_in - thicker


def _up_to_half(thickness_in: float) -> float:
    return math.ceil(thickness_in * 2.0 - 1e-9) / 2.0


def label(resistance: float) -> str:
    """A nominal resistance as on the package: R-13."""
    return f"R-{math.floor(resistance + 0.5)}"
