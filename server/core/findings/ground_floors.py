"""Floors on the ground: which spaces are cellars, and which are crawlspaces over earth."""

from __future__ import annotations

import re

from server.core.findings.layers import layers_of, materials_of
from server.core.house import Component, House, Kind

CRAWLSPACE = re.compile(r"\bcrawl", re.IGNORECASE)  # a name
_FOR_CARS = re.compile(r"garage|carport", re.IGNORECASE)
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


def crawlspaces(house: House) -> tuple[str, ...]:
    """The spaces below a floor whose ground is not under concrete; one for cars is none.

    Shapes: one house. Range: where no ground is surveyed the name tells. Raises: nothing.
    Source: definition.
    """
    below = {part.to_space for part in house.components if part.kind is Kind.FLOOR}
    names = (space.name for space in house.spaces if space.name in below)
    stood_in = (name for name in names if not _FOR_CARS.search(name))
    return tuple(name for name in stood_in if _is_over_earth(house, name))


def _is_over_earth(house: House, space: str) -> bool:
    if not floors_of(house, space):
        return CRAWLSPACE.search(space) is not None
    return not has_concrete_floor(house, space)
