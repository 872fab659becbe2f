"""The parts of the house in which heat loss is told, always in the same order."""

from __future__ import annotations

from collections.abc import Mapping

from server.core.arrays import Real
from server.core.evaluate import Result
from server.core.house import GROUND_KINDS, OPENINGS, Component, Kind

ROOF = "roof"
WALLS = "walls"
OPENINGS_PART = "openings"
FLOOR = "floor"
JUNCTIONS = "junctions"
AIR = "air"
PARTS = (ROOF, WALLS, OPENINGS_PART, FLOOR, JUNCTIONS, AIR)


def part_of(component: Component) -> str:
    """The part of the house a component belongs to.

    Shapes: one of PARTS.
    Range: every kind.
    Raises: nothing.
    Source: definition.
    """
    if component.kind in OPENINGS:
        return OPENINGS_PART
    if component.kind in (Kind.ROOF, Kind.CEILING):
        return ROOF
    if component.kind in GROUND_KINDS or component.kind in (Kind.FLOOR, Kind.INNER_FLOOR):
        return FLOOR
    return WALLS


def heating_by_part(result: Result) -> Mapping[str, Real]:
    """What each part of the house answers for in the yearly heating load.

    Shapes: the result's, kWh a year; the parts sum to the heating load.
    Range: any result.
    Raises: nothing.
    Source: `energy.heating_shares`.
    """
    shares: dict[str, Real] = dict.fromkeys(PARTS, 0.0)
    for each in result.components:
        part = part_of(each.component)
        shares[part] = shares[part] + each.heating_share_kwh
    for junction in result.junctions:
        shares[JUNCTIONS] = shares[JUNCTIONS] + junction.heating_share_kwh
    shares[AIR] = result.air_heating_share_kwh
    return shares
