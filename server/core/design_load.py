"""Heating and cooling load on the design days, part by part. No equipment selection."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass

import numpy as np

from server.core import air, energy
from server.core.air import AirFlows, air_flows, air_heat_capacity
from server.core.arrays import Array, Real, larger
from server.core.assembly import Assembly
from server.core.design_night import design_night
from server.core.evaluate import Result
from server.core.house import GROUND, OUTDOORS, Component, House, Kind, Plant

JULY = 6
CLEAR_SKY = (1085.0, 0.207, 0.136)  # A W/m2, B, C of 21 July, ASHRAE clear sky (memory)
JULY_DAY = 202.0  # of the year
ALBEDO = 0.2
STEPS = 288  # of the day, in which the peak of the sun is sought
SWING_ON_GLASS = 0.46  # of the daily range, residential load factors (memory)

_COMPASS = (0.44, 0.21, 0.31, 0.37, 0.47, 0.58, 0.56, 0.46)  # N, NE, … NW (memory)
_LEVEL_GLASS = 0.58


@dataclass(frozen=True, slots=True, eq=False)
class OutdoorFactors:
    """What stands for outdoors on an opaque part: q/(U A) = time dT + base + range DR."""

    time: float
    base: Real
    range: float


@dataclass(frozen=True, slots=True, eq=False)
class DesignHeating:
    """Heat on the design night, W, by component and junction in the house's order, and by air.

    outdoors, inside deg C; ground: of its coldest month. on_equipment: with what ducts or pipes
    outside the insulation lose.
    """

    outdoors: Real
    inside: Real
    ground: Real
    parts: tuple[Real, ...]
    junctions: tuple[Real, ...]
    air: Real
    total: Real
    on_equipment: Real


@dataclass(frozen=True, slots=True, eq=False)
class DesignCooling:
    """Heat to remove on the design day, W, by component in the house's order, by air, by people.

    difference K: outdoors over the set point. on_equipment: sensible and latent, with what ducts
    outside the insulation lose of the sensible part.
    """

    difference: Real
    daily_range: Real
    parts: tuple[Real, ...]
    air: Real
    people: Real
    sensible: Real
    latent: Real
    on_equipment: Real


def heating_load(result: Result) -> DesignHeating | None:
    """Heat lost on a long night at the design temperature, without gains.

    Each part loses to what it leads to: outdoors, the ground in its coldest month, a buffer in its
    own balance. Air by the basic model at the design difference in the windiest month, and fans.
    Shapes: the result's, W. Range: any result; None where no design temperature is known.
    Raises: nothing.
    Source: ASHRAE Fundamentals, residential heating load: steady, no gains (memory).
    """
    temperatures = design_night(result)
    if temperatures is None:
        return None
    house = result.house
    inside, outside = house.heating_set_point, temperatures[OUTDOORS]
    ground = np.min(result.ground_temperature, axis=-1)
    known = {**temperatures, GROUND: ground}
    losses = []
    for first, second, edge in _ends(result):
        between = first in known and second in known
        apart = known[first] - known[second] if between and house.is_inside(first) else 0.0
        losses.append(edge * apart)
    count = len(house.components)
    windiest = np.max(house.climate.wind_speed, axis=-1)
    flows = _flows(house, inside, outside, windiest)
    by_air = air_heat_capacity(house.climate.elevation) * flows.net_of_recovery[..., 0]
    lost_by_air = by_air * (inside - outside)
    total = sum(losses, start=lost_by_air)
    return DesignHeating(
        outdoors=outside,
        inside=inside,
        ground=ground,
        parts=tuple(losses[:count]),
        junctions=tuple(losses[count:]),
        air=lost_by_air,
        total=total,
        on_equipment=total / _delivered(house, house.heating),
    )


def cooling_load(result: Result) -> DesignCooling | None:
    """Heat to remove on the design day, by load factors.

    Opaque parts U A (OF_t dT + OF_b + OF_r DR); glass A (U (dT - 0.46 DR) + I SHGC FF), I the
    clear-sky peak of July on its plane; air by the basic model in the windiest month; people and
    appliances 136 + 2.2 A + 22 N W, their moisture 20 + 0.22 A + 12 N W, N the bedrooms and one.
    Moisture of outdoor air is that of the year's most humid month.
    Shapes: the result's, W. Range: any result; None where no design temperature is known.
    Raises: nothing.
    Source: ASHRAE Fundamentals, residential cooling load factors (memory).
    """
    house, climate = result.house, result.house.climate
    outside, daily = climate.cooling_design_temperature, climate.cooling_daily_range
    if outside is None or daily is None:
        return None
    difference = outside - house.cooling_set_point
    parts = tuple(
        _part_load(result, part, each.u_value, difference, daily)
        for part, each in zip(house.components, result.components, strict=True)
    )
    windiest = np.max(climate.wind_speed, axis=-1)
    flows = _flows(house, house.cooling_set_point, outside, windiest)
    capacity = air_heat_capacity(climate.elevation)
    by_air = capacity * flows.net_of_recovery[..., 0] * difference
    people = 136.0 + 2.2 * house.floor_area + 22.0 * (house.bedrooms + 1.0)
    sensible = larger(sum(parts, start=by_air + people), 0.0)
    latent = _latent(house, flows)
    delivered = 1.0 if house.cooling is None else _delivered(house, house.cooling)
    return DesignCooling(
        difference=difference,
        daily_range=daily,
        parts=parts,
        air=by_air,
        people=people,
        sensible=sensible,
        latent=latent,
        on_equipment=sensible / delivered + latent,
    )


def outdoor_factors(house: House, part: Component) -> OutdoorFactors | None:
    """The load factors of an opaque part; None for one that takes no part.

    Under an attic that is a buffer the roof's own absorptance counts; a part towards any other
    buffer is taken as shaded; one in the ground, or inside, takes no part.
    Shapes: scalars and arrays. Range: any part that is no glass. Raises: nothing.
    Source: ASHRAE Fundamentals, residential cooling load factors (memory).
    """
    if not house.is_inside(part.from_space) or house.is_inside(part.to_space):
        return None
    if part.to_space == GROUND:
        return None
    if part.to_space != OUTDOORS:
        return _towards_buffer(house, part)
    if part.kind is Kind.FLOOR:
        return OutdoorFactors(1.0, 0.0, -0.06)
    behind = isinstance(part.construction, Assembly) and part.construction.stands_off
    if part.kind in (Kind.ROOF, Kind.CEILING):
        base: Real = 0.0 if behind else 38.3 * part.solar_absorptance - 7.0
        return OutdoorFactors(1.0, base, -0.36)
    return OutdoorFactors(1.0, 0.0 if behind else 8.2, -0.36)


def _towards_buffer(house: House, part: Component) -> OutdoorFactors:
    if part.kind is Kind.FLOOR:
        return OutdoorFactors(0.33, 0.0, -0.28)
    absorptance = roof_absorptance(house, part.to_space)
    if absorptance is None:
        return OutdoorFactors(1.0, 0.0, -0.36)
    return OutdoorFactors(0.62, 14.3 * absorptance - 4.5, -0.19)


def roof_absorptance(house: House, space: str) -> Real | None:
    """Absorptance of the roofs over a space, by area; None where it has none.

    Shapes: the house's. Range: any space. Raises: nothing.
    Source: definition.
    """
    roofs = [
        part
        for part in house.components
        if part.from_space == space and part.to_space == OUTDOORS and part.kind is Kind.ROOF
    ]
    if not roofs:
        return None
    area: Real = 0.0
    taken: Real = 0.0
    for part in roofs:
        area, taken = area + part.area, taken + part.area * part.solar_absorptance
    return taken / area


def fenestration_factor(tilt: float, azimuth: float | None) -> float:
    """FF of glass: how much of its peak sun is load at the house's own peak.

    Shapes: degrees; dimensionless. Range: by exposure, between two of eight straight; up to 30
    degrees from level as level; all round the mean. Raises: nothing.
    Source: ASHRAE Fundamentals, residential cooling load factors (memory).
    """
    if tilt <= 30.0 or tilt >= 150.0:
        return _LEVEL_GLASS
    if azimuth is None:
        return sum(_COMPASS) / len(_COMPASS)
    place = (azimuth % 360.0) / 45.0
    low = int(place) % 8
    share = place - int(place)
    return (1.0 - share) * _COMPASS[low] + share * _COMPASS[(low + 1) % 8]


@functools.cache
def clear_sky_peak(latitude: float, tilt: float, azimuth: float | None) -> float:
    """Highest irradiance on a plane on a clear 21 July, W/m2; all round the mean of eight.

    Beam A exp(-B/sin b) and its cosine, sky C of it, ground 0.2 of both.
    Shapes: degrees; W/m2. Range: -89 to 89 degrees north; the south's July is its winter.
    Raises: nothing.
    Source: ASHRAE clear sky, July's A, B and C (memory); sky isotropic.
    """
    if azimuth is None and 0.0 < tilt < 180.0:
        peaks = [clear_sky_peak(latitude, tilt, side * 45.0) for side in range(8)]
        return sum(peaks) / len(peaks)
    steps = np.arange(STEPS) / STEPS * 2.0 * math.pi - math.pi
    phi = math.radians(latitude)
    delta = math.radians(23.45) * math.sin(math.radians(360.0 * (284.0 + JULY_DAY) / 365.0))
    height = math.sin(phi) * math.sin(delta) + math.cos(phi) * math.cos(delta) * np.cos(steps)
    height = np.maximum(height, 1e-3)
    a, b, c = CLEAR_SKY
    beam = np.where(height > 1e-3, a * np.exp(-b / height), 0.0)
    beta, gamma = math.radians(tilt), math.radians(azimuth or 0.0)
    east = -math.cos(delta) * np.sin(steps)
    north = math.cos(phi) * math.sin(delta) - math.sin(phi) * math.cos(delta) * np.cos(steps)
    facing = math.sin(beta) * (math.sin(gamma) * east + math.cos(gamma) * north)
    cosine: Array = np.maximum(facing + math.cos(beta) * height, 0.0)
    sky = c * beam * (1.0 + math.cos(beta)) / 2.0
    ground = ALBEDO * beam * (c + height) * (1.0 - math.cos(beta)) / 2.0
    return float(np.max(beam * cosine + sky + ground))


def glass_irradiance(house: House, part: Component) -> Real:
    """The sun on glass that counts on the design day, W/m2: its peak, shaded as in July.

    Shapes: the house's. Range: a part that lets sun in. Raises: nothing.
    Source: `clear_sky_peak`.
    """
    azimuth = None if part.azimuth is None else float(part.azimuth)
    peak = clear_sky_peak(float(house.climate.latitude), part.plane_tilt, azimuth)
    shading = part.shading if np.ndim(part.shading) == 0 else np.asarray(part.shading)[..., JULY]
    return peak * shading


def _part_load(
    result: Result, part: Component, u_value: Real, difference: Real, daily: Real
) -> Real:
    house = result.house
    if part.lets_sun_in:
        if not house.is_inside(part.from_space) or house.is_inside(part.to_space):
            return 0.0
        through = u_value * part.area * (difference - SWING_ON_GLASS * daily)
        if part.to_space != OUTDOORS or part.shgc is None:
            return through
        azimuth = None if part.azimuth is None else float(part.azimuth)
        factor = fenestration_factor(part.plane_tilt, azimuth)
        return through + part.area * glass_irradiance(house, part) * part.shgc * factor
    factors = outdoor_factors(house, part)
    if factors is None:
        return 0.0
    outdoors = factors.time * difference + factors.base + factors.range * daily
    return u_value * part.area * outdoors


def _latent(house: House, flows: AirFlows) -> Real:
    climate = house.climate
    indoor = 20.0 + 0.22 * house.floor_area + 12.0 * (house.bedrooms + 1.0)
    if climate.humidity_ratio is None:
        return indoor
    wettest = larger(np.max(climate.humidity_ratio, axis=-1) - energy.INDOOR_HUMIDITY, 0.0)
    density = air.air_density(climate.elevation)
    return density * energy.EVAPORATION_HEAT * flows.outdoor[..., 0] * wettest + indoor


def _flows(house: House, inside: Real, outside: Real, wind: Real) -> AirFlows:
    return air_flows(
        house.leakage,
        house.ventilation,
        house.storeys,
        inside,
        np.asarray(outside, dtype=float)[..., np.newaxis],
        np.asarray(wind, dtype=float)[..., np.newaxis],
    )


def _delivered(house: House, plant: Plant) -> Real:
    inside = plant.ducts_in is not None and house.is_inside(plant.ducts_in)
    return 1.0 if inside else plant.distribution


def _ends(result: Result) -> list[tuple[str, str, Real]]:
    """From, to and conductance of every component and junction that leaves indoors, else zero."""
    house = result.house
    ends = [(part.from_space, part.to_space) for part in house.components]
    ends += [(junction.from_space, junction.to_space) for junction in house.junctions]
    out: list[tuple[str, str, Real]] = []
    for (first, second), edge in zip(ends, result.working.edges, strict=False):
        warm, cold = (first, second) if house.is_inside(first) else (second, first)
        leads_out = house.is_inside(warm) and not house.is_inside(cold)
        out.append((warm, cold, edge.conductance if leads_out else 0.0))
    return out
