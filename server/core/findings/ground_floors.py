"""Floors on the ground: which spaces are cellars, and which are crawlspaces over earth."""

from __future__ import annotations

from server.core.findings.layers import layers_of, materials_of
from server.core.house import Component, House, Kind

FLOORS = (Kind.BASEMENT_FLOOR, Kind.SLAB)
LEAST_CELLAR = 1.2  # m: about 4 ft, deeper than crawlspaces are dug (common practice)


def floors_of(house: House, space: str) -> tuple[Component, ...]:
    """The floors of a space on the ground.

    Shapes: one space. Range: any. Raises: nothing. Source: definition.
    """
    return tuple(p for p in house.components if p.from_space == space and p.kind in FLOORS)


def has_concrete_floor(house: House, space: str) -> bool:
    """Whether the ground of a space lies under concrete: a cellar, no crawlspace.

    Shapes: one space. Range: a floor without known materials goes by its depth. Raises: nothing.
    Source: definition; the depth is common practice.
    """
    return any(map(is_concrete_floor, floors_of(house, space)))


def is_concrete_floor(floor: Component) -> bool:
    """Whether a floor on the ground is of concrete.

    Shapes: one floor. Range: one without known materials goes by its depth. Raises: nothing.
    Source: definition; the depth is common practice.
    """
    groups = {material.group for material in materials_of(layers_of(floor))}
    if groups:
        return "concrete" in groups
    depth = None if floor.ground is None else floor.ground.depth_below_grade
    return depth is not None and float(depth) >= LEAST_CELLAR
