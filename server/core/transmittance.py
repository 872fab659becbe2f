"""U of every component of a house, the ground included."""

from __future__ import annotations

from dataclasses import dataclass

from server.core import ground, ground_wave
from server.core.arrays import Real, larger
from server.core.assembly import Assembly, ResistanceLimits, total_resistance
from server.core.errors import require_within
from server.core.films import FilmSet, HeatFlow
from server.core.house import (
    GROUND_KINDS,
    OUTDOORS,
    Component,
    FixedTransmittance,
    House,
    Kind,
)


@dataclass(frozen=True, slots=True, eq=False)
class Transmittance:
    """U W/(m2 K); total resistance m2 K/W; both limits, None where only U is known.

    periodic: W/K, how much of outdoors' yearly swing a part in the ground passes on; nothing where
    its U is all that is known.
    """

    u_value: Real
    resistance: Real
    limits: ResistanceLimits | None
    periodic: Real = 0.0


def transmittances(house: House) -> list[Transmittance]:
    """U and R of every component, in the house's order.

    A layered part has films by its direction of heat flow; one that faces a space has the inside
    film on both sides; one in the ground includes the soil.
    Shapes: the house's; W/(m2 K) and m2 K/W.
    Range: the layer methods' (no metal framing).
    Raises: nothing beyond what the house refused.
    Source: ISO 6946:2017; ISO 13370:2007.
    """
    computed: dict[tuple[int, HeatFlow, bool], Transmittance] = {}
    results = []
    for part in house.components:
        built = part.construction
        if isinstance(built, FixedTransmittance):
            results.append(Transmittance(built.u_value, 1.0 / built.u_value, None))
        elif part.kind in GROUND_KINDS:
            results.append(_in_ground(house, part, built))
        else:
            faces_outdoors = part.to_space == OUTDOORS
            key = (id(built), part.heat_flow, faces_outdoors)
            if key not in computed:
                computed[key] = _in_air(part, built, house.films)
            results.append(computed[key])
    return results


def storm_window_transmittance(window: Real, storm: Real) -> Real:
    """U of a window behind a storm window, each known by itself.

    1/U = 1/U1 + 1/U2 - R_si - R_se + R_gap, with 0.17 and 0.18 m2 K/W.
    Shapes: any that broadcast; W/(m2 K); result the same.
    Range: above zero; the storm up to 100.
    Raises: ImpossibleValue.
    Source: ISO 10077-1, coupled windows (memory).
    """
    require_within("storm_u_value", storm, 0.0, 100.0, above=True)
    return 1.0 / (1.0 / window + 1.0 / storm - 0.17 + 0.18)


def films_of(part: Component, films: FilmSet) -> tuple[float, float]:
    """The surface resistances on the warm side of a part and on the other, m2 K/W.

    Shapes: scalars.
    Range: every kind; in the ground those of ISO 13370, soil not among them.
    Raises: nothing.
    Source: ISO 6946:2017 6.8; ISO 13370:2007 for the ground.
    """
    if part.kind in GROUND_KINDS:
        level = part.heat_flow is HeatFlow.LEVEL
        return (ground.FILM_LEVEL if level else ground.FILM_DOWN), ground.FILM_OUTSIDE
    inside = films.inside(part.heat_flow)
    return inside, films.outside if part.to_space == OUTDOORS else inside


def _in_air(part: Component, built: Assembly, films: FilmSet) -> Transmittance:
    limits = total_resistance(built.layers, part.heat_flow, *films_of(part, films))
    return Transmittance(1.0 / limits.resistance, limits.resistance, limits)


@dataclass(frozen=True, slots=True, eq=False)
class _Bare:
    """Layers in the ground without films, m2 K/W: both limits, and what counts."""

    upper: Real
    lower: Real
    resistance: Real


def _bare(part: Component, built: Assembly, films_set: FilmSet) -> _Bare:
    """By the standard's own films, then without them."""
    each = films_of(part, films_set)
    limits = total_resistance(built.layers, part.heat_flow, *each)
    films = sum(each)
    return _Bare(limits.upper - films, limits.lower - films, limits.resistance - films)


def _floor_thickness(part: Component, resistance: Real) -> Real:
    contact = part.ground
    assert contact is not None  # House has seen to it
    return ground.equivalent_thickness(
        contact.wall_thickness, contact.soil_conductivity, resistance
    )


def _in_ground(house: House, part: Component, built: Assembly) -> Transmittance:
    bare = _bare(part, built, house.films)
    upper = _ground_u(house, part, bare.upper)
    lower = _ground_u(house, part, bare.lower)
    u_value = _ground_u(house, part, bare.resistance)
    return Transmittance(
        u_value,
        1.0 / u_value,
        ResistanceLimits(1.0 / upper, 1.0 / lower),
        _periodic(part, bare.resistance),
    )


def bare_resistance(house: House, part: Component) -> Real:
    """What the layers of a part in the ground resist, without films and soil, m2 K/W.

    Shapes: the house's. Range: a layered part in the ground. Raises: nothing.
    Source: ISO 6946:2017 6.7, its films taken off again.
    """
    assert isinstance(part.construction, Assembly)
    return _bare(part, part.construction, house.films).resistance


def basement_floor_thickness(house: House, space: str) -> Real:
    """d_t of the basement floor of a space, m, from which its walls take theirs.

    Shapes: the house's. Range: a space with a layered basement floor. Raises: nothing.
    Source: ISO 13370:2007 9.3.3.
    """
    floor = house.basement_floor_of(space)
    assert floor is not None
    return _floor_thickness(floor, bare_resistance(house, floor))


def _ground_u(house: House, part: Component, resistance: Real) -> Real:
    contact = part.ground
    assert contact is not None  # House has seen to it
    soil = contact.soil_conductivity
    if part.kind is Kind.BASEMENT_WALL:
        assert contact.depth_below_grade is not None
        floor = basement_floor_thickness(house, part.from_space)
        return ground.basement_wall_transmittance(
            contact.depth_below_grade, floor, resistance, soil
        )
    assert contact.exposed_perimeter is not None
    dimension = ground.characteristic_dimension(part.area, contact.exposed_perimeter)
    thickness = _floor_thickness(part, resistance)
    depth = contact.depth_below_grade or 0.0 if part.kind is Kind.BASEMENT_FLOOR else 0.0
    u_value = ground.slab_transmittance(dimension, thickness, soil, depth)
    if contact.edge_insulation is None or part.kind is not Kind.SLAB:
        return u_value
    edge = ground.edge_transmittance(contact.edge_insulation, thickness, soil)
    return larger(u_value + edge * contact.exposed_perimeter / part.area, 0.0)


def _periodic(part: Component, resistance: Real) -> Real:
    """H_pe of a part in the ground, W/K. A wall is as long as its area over its depth."""
    contact = part.ground
    assert contact is not None  # House has seen to it
    soil = contact.soil_conductivity
    reach = ground_wave.penetration_depth(soil, contact.soil_heat_capacity)
    if part.kind is Kind.BASEMENT_WALL:
        depth = contact.depth_below_grade
        assert depth is not None
        wall = ground.basement_wall_thickness(resistance, soil)
        return ground_wave.basement_wall_periodic(part.area / depth, soil, reach, wall, depth)
    perimeter, thickness = contact.exposed_perimeter, _floor_thickness(part, resistance)
    assert perimeter is not None
    if part.kind is Kind.BASEMENT_FLOOR:
        depth = contact.depth_below_grade
        assert depth is not None
        return ground_wave.basement_floor_periodic(perimeter, soil, reach, thickness, depth)
    return ground_wave.slab_periodic(perimeter, soil, reach, thickness, contact.edge_insulation)
