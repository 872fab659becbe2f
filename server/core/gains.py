"""Heat that reaches indoors from sun, sky, people and appliances."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from server.core import solar
from server.core.arrays import Array, Real, by_month, larger, smaller
from server.core.assembly import Assembly
from server.core.energy import Sources, people_and_appliances
from server.core.house import OUTDOORS, Component, House
from server.core.network import Balance
from server.core.transmittance import Transmittance

LEVEL: solar.Plane = (0.0, None)
SUN_THROUGH_GLASS = 0.9  # oblique incidence, ISO 13790 11.4.2 (memory)
RADIANT_SHARE = 0.5  # of people and appliances, ISO 13790 C.2 (memory)
SURFACES_A_FLOOR = 4.5  # area of all inside surfaces over floor area


def plane_of(part: Component) -> solar.Plane:
    """The plane of a part that faces outdoors: tilt and azimuth, degrees; a level one has none.

    Shapes: floats.
    Range: azimuths that are single figures; turning a house is another geometry, not a draw.
    Raises: nothing.
    Source: definition.
    """
    tilt = part.plane_tilt
    if part.azimuth is None or tilt in (0.0, 180.0):
        return tilt, None
    return tilt, float(part.azimuth) % 360.0


def planes_of(houses: Sequence[House]) -> tuple[solar.Plane, ...]:
    """The distinct planes of some houses that face outdoors, the level one always first.

    Shapes: pairs of degrees.
    Range: any houses.
    Raises: nothing.
    Source: definition.
    """
    parts = (part for house in houses for part in house.components if part.to_space == OUTDOORS)
    return tuple(dict.fromkeys([LEVEL, *(plane_of(part) for part in parts)]))


def sources(
    house: House,
    graph: Balance,
    transmittances: Sequence[Transmittance],
    geometry: solar.SunGeometry,
) -> Sources:
    """All gains, as they reach indoors.

    Through an opening 0.9 SHGC shading A I; on an opaque surface U A R_se absorptance shading I;
    to the sky U A R_se F h_r 11 K. Nothing of the last two behind a well-ventilated gap. What falls
    on a buffer reaches indoors by the buffer's share. Sun let in indoors, and half of people and
    appliances, are less by what the surfaces that they fall on lead out (`led_out`).
    Shapes: the house's, months last; W.
    Range: any house; the geometry must hold all its planes.
    Raises: nothing.
    Source: ISO 13790:2008 11.3 and 11.4 (memory).
    """
    collected: list[Real | Array] = [0.0] * len(geometry.planes)
    sky: Real = 0.0
    index = {plane: position for position, plane in enumerate(geometry.planes)}
    led = led_out(house, graph, transmittances)
    stays = 1.0 - led
    for part, transmittance in zip(house.components, transmittances, strict=True):
        if part.to_space != OUTDOORS:
            continue
        buffer = graph.buffers.get(part.from_space)
        reaches = 1.0 if buffer is None else buffer.source_share
        surface = passed_on(part, transmittance.u_value, house.films.outside)
        aperture = sun_aperture(part, surface)
        if part.lets_sun_in and buffer is None:
            aperture = aperture * stays
        position = index[plane_of(part)]
        collected[position] = collected[position] + _shaded(aperture * reaches, part.shading)
        radiated = solar.SKY_RADIATION * solar.SKY_TEMPERATURE_DIFFERENCE
        sky = sky + surface * reaches * solar.sky_view(part.plane_tilt) * radiated
    people = house.people_and_appliances
    if people is None:
        people = people_and_appliances(house.floor_area, house.bedrooms)
    people = people * (1.0 - RADIANT_SHARE * led)
    apertures = np.stack(np.broadcast_arrays(*map(_with_months, collected)), axis=-1)
    return _gather(house, geometry, apertures, people, sky, led)


def led_out(house: House, graph: Balance, transmittances: Sequence[Transmittance]) -> Real:
    """Share of the radiant gains indoors that never warms the room.

    Radiation falls on the inside surfaces. A watt on a surface that leads out has R_si on its room
    side of R = 1/U in all, so U R_si of it leaves. Spread evenly over all inside surfaces, 4.5
    times the floor area: sum(A U R_si)/(4.5 A_f). What leaves into a buffer comes back in part, by
    the buffer's share of a source.
    Shapes: the house's; result dimensionless.
    Range: 0 to 1; of one surface never more than all, and never less area in all than leads out.
    Raises: nothing.
    Source: own derivation (two resistances in series); 4.5 of ISO 13790 7.2.2.2 (memory).
    """
    leaving: Real = 0.0
    area: Real = 0.0
    for part, transmittance in zip(house.components, transmittances, strict=True):
        if not house.is_inside(part.from_space) or house.is_inside(part.to_space):
            continue
        buffer = graph.buffers.get(part.to_space)
        kept = 0.0 if buffer is None else buffer.source_share
        outward = smaller(transmittance.u_value * house.films.inside(part.heat_flow), 1.0)
        leaving = leaving + outward * part.area * (1.0 - kept)
        area = area + part.area
    return leaving / larger(SURFACES_A_FLOOR * house.floor_area, area)


def passed_on(part: Component, u_value: Real, outside_film: float) -> Real:
    """U A R_se: the share of what its outer surface takes up that a part passes on, as an area.

    Shapes: any that broadcast; W/(m2 K) and m2 K/W; result m2.
    Range: a part that faces outdoors; nothing behind a well-ventilated gap.
    Raises: nothing.
    Source: ISO 13790:2008 11.3.5 (memory).
    """
    if isinstance(part.construction, Assembly) and part.construction.stands_off:
        return 0.0
    return u_value * part.area * outside_film


def sun_aperture(part: Component, surface: Real) -> Real:
    """Area that, fully lit and unshaded, would pass on as much sun as the part does.

    0.9 SHGC A through an opening, else the absorptance of what `passed_on` gives.
    Shapes: any that broadcast, m2; result m2.
    Range: a part that faces outdoors.
    Raises: nothing.
    Source: ISO 13790:2008 11.3 (memory).
    """
    if part.lets_sun_in:
        return 0.0 if part.shgc is None else SUN_THROUGH_GLASS * part.shgc * part.area
    return surface * part.solar_absorptance


def _shaded(aperture: Real, shading: Real | Array) -> Array | float:
    """Aperture times shading, with a month axis unless both are plain numbers."""
    if isinstance(aperture, float) and isinstance(shading, float):
        return aperture * shading
    return np.asarray(by_month(aperture) * shading)


def _with_months(aperture: Real | Array) -> Array:
    return np.asarray(aperture, dtype=float).reshape(1) if isinstance(aperture, float) else aperture


def _gather(
    house: House,
    geometry: solar.SunGeometry,
    apertures: Array,
    people: Real,
    sky: Real,
    led: Real,
) -> Sources:
    """Apertures (..., 1 or 12, planes) and the month's sun to gains by month."""
    horizontal = house.climate.horizontal_irradiation
    irradiance = np.moveaxis(solar.plane_irradiance(geometry, horizontal), 0, -1)
    sun = (apertures * irradiance).sum(axis=-1)
    months = np.zeros(12)
    within: Array = months
    with_temperature: Array = months
    if house.climate.diurnal_deviation is not None:
        within, with_temperature = solar.variation_within_day(geometry, horizontal, apertures)
    return Sources(
        people=people,
        led_out=led,
        sun=sun,
        sky=by_month(sky) + months,
        sun_within_day=within,
        sun_with_temperature=with_temperature,
    )
