"""The yearly wave of the ground: how far, and how late, heat into it follows the weather.

A part in the ground loses its steady heat to the year's mean outdoor temperature, and beside it a
share that swings with the seasons: H_pe times the swing of the outdoor temperature, a month late.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from server.core.arrays import Array, Real, by_month
from server.core.ground import UNKNOWN_HEAT_CAPACITY, EdgeInsulation

YEAR = 3.15e7  # s, as the standard rounds it
LAG_MONTHS = 1.0  # of heat through slabs and basements behind the weather, ISO 13370 (memory)
PERIODIC_FACTOR = 0.37  # ISO 13370 Annex H (memory)


def penetration_depth(conductivity: Real, heat_capacity: float = UNKNOWN_HEAT_CAPACITY) -> Real:
    """delta: how deep the yearly wave reaches, to 1/e of itself.

    delta = sqrt(3.15e7 k/(pi rho c)).
    Shapes: any, W/(m K); result m.
    Range: above zero.
    Raises: nothing.
    Source: ISO 13370:2007 Annex H (memory), which tabulates 2.2 clay, 3.2 sand, 4.2 rock.
    """
    result: Real = np.sqrt(YEAR * conductivity / (math.pi * heat_capacity))
    return float(result) if np.ndim(result) == 0 else result


def slab_periodic(
    perimeter: Real,
    soil_conductivity: Real,
    depth: Real,
    thickness: Real,
    edge: EdgeInsulation | None = None,
) -> Real:
    """H_pe of a slab on the ground, with or without insulation along its edge.

    0.37 P k ln(delta/d_t + 1); with an edge of D (twice the depth of a vertical one) the part
    e^(-D/delta) of it, and (1 - e^(-D/delta)) with d_t + d' for d_t.
    Shapes: any that broadcast; m, W/(m K), m (penetration depth), m (d_t); result W/K.
    Range: above zero.
    Raises: nothing.
    Source: ISO 13370:2007 Annex H (memory).
    """
    bare = np.log(depth / thickness + 1.0)
    if edge is not None:
        added = np.maximum(edge.resistance - edge.thickness / soil_conductivity, 0.0)
        extent = edge.extent * (2.0 if edge.vertical else 1.0)
        beyond = np.exp(-extent / depth)
        within = np.log(depth / (thickness + added * soil_conductivity) + 1.0)
        bare = (1.0 - beyond) * within + beyond * bare
    return _plain(PERIODIC_FACTOR * perimeter * soil_conductivity * bare)


def basement_floor_periodic(
    perimeter: Real, soil_conductivity: Real, depth: Real, thickness: Real, below_grade: Real
) -> Real:
    """H_pe of a basement floor: 0.37 P k e^(-z/delta) ln(delta/d_t + 1).

    Shapes: any that broadcast; m, W/(m K), m (penetration depth), m (d_t), m (z); result W/K.
    Range: above zero.
    Raises: nothing.
    Source: ISO 13370:2007 Annex H (memory), its first term.
    """
    falls = np.exp(-below_grade / depth) * np.log(depth / thickness + 1.0)
    return _plain(PERIODIC_FACTOR * perimeter * soil_conductivity * falls)


def basement_wall_periodic(
    length: Real, soil_conductivity: Real, depth: Real, thickness: Real, below_grade: Real
) -> Real:
    """H_pe of a basement wall: 0.37 P k 2 (1 - e^(-z/delta)) ln(delta/d_w + 1).

    Shapes: any that broadcast; m (length of wall), W/(m K), m (penetration depth), m (d_w), m (z);
    result W/K.
    Range: above zero.
    Raises: nothing.
    Source: ISO 13370:2007 Annex H (memory), its second term.
    """
    falls = 2.0 * (1.0 - np.exp(-below_grade / depth)) * np.log(depth / thickness + 1.0)
    return _plain(PERIODIC_FACTOR * length * soil_conductivity * falls)


@dataclass(frozen=True, slots=True, eq=False)
class Harmonic:
    """First harmonic of twelve monthly means about their mean, K: cosine and sine of the month.

    T(m) = mean + cosine cos(2 pi m/12) + sine sin(2 pi m/12), m from 1 to 12.
    """

    cosine: Real
    sine: Real

    @property
    def amplitude(self) -> Real:
        """Half of the swing from winter to summer, K."""
        return np.hypot(self.cosine, self.sine)

    def late_by(self, months: float) -> Array:
        """The wave of each month, that many months late, K.

        Shapes: (...,) to (..., 12). Range: any. Raises: nothing.
        Source: a shifted harmonic.
        """
        angle = 2.0 * math.pi * (np.arange(1.0, 13.0) - months) / 12.0
        result: Array = by_month(self.cosine) * np.cos(angle) + by_month(self.sine) * np.sin(angle)
        return result


def first_harmonic(monthly: Array) -> Harmonic:
    """The yearly wave in twelve monthly means.

    Shapes: (..., 12); result (...,) in the same unit.
    Range: any.
    Raises: nothing.
    Source: Fourier's sum over twelve equal months.
    """
    angle = 2.0 * math.pi * np.arange(1.0, 13.0) / 12.0
    return Harmonic(
        cosine=_plain((monthly * np.cos(angle)).sum(axis=-1) / 6.0),
        sine=_plain((monthly * np.sin(angle)).sum(axis=-1) / 6.0),
    )


def _plain(value: Real) -> Real:
    return float(value) if np.ndim(value) == 0 else value
