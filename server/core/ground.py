"""Heat through the ground: slabs, edge insulation, basements. The steady part."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from server.core.arrays import Real
from server.core.errors import require_within

FILM_DOWN = 0.17  # m2 K/W, inside film over a floor, ISO 13370
FILM_LEVEL = 0.13  # m2 K/W, inside film of a basement wall, ISO 13370
FILM_OUTSIDE = 0.04  # m2 K/W
DEFAULT_WALL_THICKNESS = 0.3  # m, where the survey does not say
SOIL_CONDUCTIVITY = {"clay": 1.5, "sand": 2.0, "rock": 3.5}  # W/(m K), ISO 13370 table of soils
SOIL_HEAT_CAPACITY = {"clay": 3.0e6, "sand": 2.0e6, "rock": 2.0e6}  # J/(m3 K), same (memory)
UNKNOWN_HEAT_CAPACITY = 2.0e6  # J/(m3 K), where only the soil's conductivity is known
DEFAULT_SOIL = "sand"  # the standard's value where the soil is unknown


@dataclass(frozen=True, slots=True, eq=False)
class EdgeInsulation:
    """Insulation along a slab's edge: resistance m2 K/W, thickness m, extent m.

    `extent` is the width of a horizontal strip or the depth of a vertical one.
    Raises: ImpossibleValue.
    """

    resistance: Real
    extent: Real
    vertical: bool
    thickness: Real

    def __post_init__(self) -> None:
        require_within("resistance", self.resistance, 0.0, 1000.0)
        require_within("depth" if self.vertical else "width", self.extent, 0.0, 100.0, above=True)
        require_within("thickness", self.thickness, 0.0, 10.0)


@dataclass(frozen=True, slots=True, eq=False)
class GroundContact:
    """How a part meets the ground.

    exposed_perimeter m (floors), depth_below_grade m (basements), soil_conductivity W/(m K),
    soil_heat_capacity J/(m3 K), wall_thickness m of the walls above. Raises: ImpossibleValue.
    """

    exposed_perimeter: Real | None = None
    depth_below_grade: Real | None = None
    soil_conductivity: Real = SOIL_CONDUCTIVITY[DEFAULT_SOIL]
    soil_heat_capacity: float = UNKNOWN_HEAT_CAPACITY
    wall_thickness: Real = DEFAULT_WALL_THICKNESS
    edge_insulation: EdgeInsulation | None = None

    def __post_init__(self) -> None:
        if self.exposed_perimeter is not None:
            require_within("exposed_perimeter", self.exposed_perimeter, 0.0, 1e5, above=True)
        if self.depth_below_grade is not None:
            require_within("depth_below_grade", self.depth_below_grade, 0.0, 100.0, above=True)
        require_within("soil_conductivity", self.soil_conductivity, 0.0, 20.0, above=True)
        require_within("wall_thickness", self.wall_thickness, 0.0, 10.0)


def characteristic_dimension(area: Real, exposed_perimeter: Real) -> Real:
    """B' of a floor: its area over half its exposed perimeter.

    Shapes: any that broadcast; m2 and m; result m.
    Range: a perimeter above zero.
    Raises: nothing.
    Source: ISO 13370:2007 8.1.
    """
    return area / (0.5 * exposed_perimeter)


def equivalent_thickness(
    wall_thickness: Real, soil_conductivity: Real, floor_resistance: Real
) -> Real:
    """d_t of a floor: the soil as thick as wall and floor together.

    Shapes: any that broadcast; m, W/(m K), m2 K/W; result m.
    Range: zero resistance and up, without films.
    Raises: nothing.
    Source: ISO 13370:2007 8.1.
    """
    return wall_thickness + soil_conductivity * (FILM_DOWN + floor_resistance + FILM_OUTSIDE)


def slab_transmittance(
    dimension: Real, thickness: Real, soil_conductivity: Real, depth: Real = 0.0
) -> Real:
    """U of a slab on the ground or, at a depth, of a basement floor.

    With t = d_t + z/2: U = 2 k ln(pi B'/t + 1)/(pi B' + t) while t < B', else k/(0.457 B' + t).
    Shapes: any that broadcast; m, m, W/(m K), m; result W/(m2 K), soil included.
    Range: B' above zero.
    Raises: nothing.
    Source: ISO 13370:2007 9.1 and 9.3.2.
    """
    total = thickness + 0.5 * depth
    poorly = (
        2.0
        * soil_conductivity
        / (math.pi * dimension + total)
        * np.log(math.pi * dimension / total + 1.0)
    )
    well = soil_conductivity / (0.457 * dimension + total)
    if isinstance(total, float) and isinstance(dimension, float):
        return float(poorly) if total < dimension else well
    return np.where(total < dimension, poorly, well)


def edge_transmittance(
    insulation: EdgeInsulation, thickness: Real, soil_conductivity: Real
) -> Real:
    """psi of insulation along a slab's edge; negative, since it reduces the loss.

    With d' = k (R_n - d_n/k): psi = -(k/pi) [ln(D/d_t + 1) - ln(D/(d_t + d') + 1)], D twice the
    depth for a vertical strip.
    Shapes: any that broadcast; m and W/(m K); result W/(m K).
    Range: insulation better than the soil it replaces (otherwise no reduction is counted).
    Raises: nothing.
    Source: ISO 13370:2007 Annex B.
    """
    added = insulation.resistance - insulation.thickness / soil_conductivity
    extra = np.maximum(added, 0.0) * soil_conductivity
    extent = insulation.extent * (2.0 if insulation.vertical else 1.0)
    psi = (
        -soil_conductivity
        / math.pi
        * (np.log(extent / thickness + 1.0) - np.log(extent / (thickness + extra) + 1.0))
    )
    return float(psi) if np.ndim(psi) == 0 else psi


def basement_wall_thickness(wall_resistance: Real, soil_conductivity: Real) -> Real:
    """d_w of a basement wall: the soil that resists as much as it does with its films.

    Shapes: any that broadcast; m2 K/W without films, W/(m K); result m.
    Range: zero resistance and up.
    Raises: nothing.
    Source: ISO 13370:2007 9.3.3.
    """
    return soil_conductivity * (FILM_LEVEL + wall_resistance + FILM_OUTSIDE)


def basement_wall_transmittance(
    depth: Real, floor_thickness: Real, wall_resistance: Real, soil_conductivity: Real
) -> Real:
    """U of a basement wall against the ground over its whole depth.

    U = 2 k/(pi z) (1 + 0.5 d_t/(d_t + z)) ln(z/d_w + 1), d_w = k (R_si + R_w + R_se); d_t of the
    floor is replaced by d_w where that is smaller.
    Shapes: any that broadcast; m, m, m2 K/W without films, W/(m K); result W/(m2 K).
    Range: depth above zero.
    Raises: nothing.
    Source: ISO 13370:2007 9.3.3.
    """
    wall_thickness = basement_wall_thickness(wall_resistance, soil_conductivity)
    floor = np.minimum(floor_thickness, wall_thickness)
    result = (
        2.0
        * soil_conductivity
        / (math.pi * depth)
        * (1.0 + 0.5 * floor / (floor + depth))
        * np.log(depth / wall_thickness + 1.0)
    )
    return float(result) if np.ndim(result) == 0 else result
