"""Heat that reaches indoors from sun, sky, people and appliances."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from server.core import solar
from server.core.arrays import Array, Real, by_month
from server.core.assembly import Assembly
from server.core.energy import Sources, people_and_appliances
from server.core.house import OUTDOORS, Component, House
from server.core.network import Balance
from server.core.transmittance import Transmittance

LEVEL: solar.Plane = (0.0, None)
SUN_THROUGH_GLASS = 0.9  # oblique incidence, ISO 13790 11.4.2 (memory)


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
    on a buffer reaches indoors by the buffer's share.
    Shapes: the house's, months last; W.
    Range: any house; the geometry must hold all its planes.
    Raises: nothing.
    Source: ISO 13790:2008 11.3 and 11.4 (memory).
    """
    collected: list[Real | Array] = [0.0] * len(geometry.planes)
    sky: Real = 0.0
    index = {plane: position for position, plane in enumerate(geometry.planes)}
    for part, transmittance in zip(house.components, transmittances, strict=True):
        if part.to_space != OUTDOORS:
            continue
        buffer = graph.buffers.get(part.from_space)
        reaches = 1.0 if buffer is None else buffer.source_share
        surface = passed_on(part, transmittance.u_value, house.films.outside)
        aperture = sun_aperture(part, surface)
        position = index[plane_of(part)]
        collected[position] = collected[position] + _shaded(aperture * reaches, part.shading)
        radiated = solar.SKY_RADIATION * solar.SKY_TEMPERATURE_DIFFERENCE
        sky = sky + surface * reaches * solar.sky_view(part.plane_tilt) * radiated
    people = house.people_and_appliances
    if people is None:
        people = people_and_appliances(house.floor_area, house.bedrooms)
    apertures = np.stack(np.broadcast_arrays(*map(_with_months, collected)), axis=-1)
    return _gather(house, geometry, apertures, people, sky)


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
        sun=sun,
        sky=by_month(sky) + months,
        sun_within_day=within,
        sun_with_temperature=with_temperature,
    )
