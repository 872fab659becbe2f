"""Surface films and air layers."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

import numpy as np

from server.core.arrays import Array, Real
from server.core.errors import require_within

HOUR_FT2_DEGF_PER_BTU = 0.1761102  # m2 K/W


class HeatFlow(Enum):
    """The direction in which heat leaves through a plane."""

    UP = "up"
    LEVEL = "level"
    DOWN = "down"


@dataclass(frozen=True, slots=True)
class FilmSet:
    """Surface resistances, m2 K/W: inside by direction of heat flow, and outside."""

    name: str
    up: float
    level: float
    down: float
    outside: float

    def inside(self, flow: HeatFlow) -> float:
        """Inside film for one direction of heat flow.

        Shapes: scalar, m2 K/W.
        Range: the three directions.
        Raises: nothing.
        Source: ISO 6946:2017 Table 7, or the handbook set, as the film set says.
        """
        return {HeatFlow.UP: self.up, HeatFlow.LEVEL: self.level, HeatFlow.DOWN: self.down}[flow]


ISO_6946 = FilmSet("ISO 6946", up=0.10, level=0.13, down=0.17, outside=0.04)
ASHRAE_WINTER = FilmSet(
    "ASHRAE winter",
    up=0.61 * HOUR_FT2_DEGF_PER_BTU,
    level=0.68 * HOUR_FT2_DEGF_PER_BTU,
    down=0.92 * HOUR_FT2_DEGF_PER_BTU,
    outside=0.17 * HOUR_FT2_DEGF_PER_BTU,
)
FILM_SETS = {films.name: films for films in (ISO_6946, ASHRAE_WINTER)}

_THICKNESS_MM = (0.0, 5.0, 7.0, 10.0, 15.0, 25.0, 50.0, 100.0, 300.0)
_AIR_LAYERS = {
    HeatFlow.UP: (0.00, 0.11, 0.13, 0.15, 0.16, 0.16, 0.16, 0.16, 0.16),
    HeatFlow.LEVEL: (0.00, 0.11, 0.13, 0.15, 0.17, 0.18, 0.18, 0.18, 0.18),
    HeatFlow.DOWN: (0.00, 0.11, 0.13, 0.15, 0.17, 0.19, 0.21, 0.22, 0.23),
}


def unventilated_air_layer(thickness: Real, flow: HeatFlow) -> Real:
    """Resistance of a still air layer between ordinary (not foil-faced) surfaces.

    Shapes: thickness any shape, m; result the same, m2 K/W.
    Range: 0 m and up; between the table's rows linear, beyond 0.3 m its last row.
    Raises: ImpossibleValue.
    Source: ISO 6946:2017 Table 8 (2007 Table 2).
    """
    require_within("thickness", thickness, 0.0)
    if isinstance(thickness, float):
        return float(np.interp(thickness * 1000.0, _THICKNESS_MM, _AIR_LAYERS[flow]))
    millimetres: Array = np.asarray(thickness) * 1000.0
    return np.interp(millimetres, _THICKNESS_MM, _AIR_LAYERS[flow])
