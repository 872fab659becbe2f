"""The simple hourly method: five resistances and one capacitance, solved hour by hour.

Equations and factors are those of ISO 13790:2008, 7.2.2, 12.2.2 and Annex C (from memory), with
these choices, none of them fitted to anything:

- Heating and cooling act on the air without limit, so that the operative temperature, 0.3 air +
  0.7 surfaces, stands exactly at the set point (Annex C.4).
- Doors and openings are without mass (H_w, straight to the surfaces' node); all else goes through
  the mass. What leads to the ground, or to a buffer, is one conductance of the mass whose far end
  stands at the mean of outdoor and ground temperature weighted by conductance: linear, so exact.
- A buffer has no storage, so its balance of any hour is the steady one. It is solved here for a
  watt at each buffer: indoors receives a source there by that buffer's share.
- Sun on opaque parts and radiation to the sky enter as gains, as 11.3 of the standard has it.
- Infiltration follows the hour's wind and the difference of the last hour's air to outdoors.
- Windows: each month's share of households (1 below 9 g/kg, 0 above 13 g/kg of the month's mean
  humidity ratio, linear between) opens them whenever the operative temperature would pass
  `OPENS_BELOW` under the cooling set point and outdoors is cooler than indoors, for as much of the
  hour as brings it down to there, at 2 air changes an hour in place of infiltration and fan. When
  that does not keep the hour under the cooling set point they are shut and the house is cooled.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from benchmarks.hourly.weather import HOURS, Array, Plane, Year, monthly_mean
from server.core.air import BlowerDoor, air_heat_capacity, basic_model_flow, leakage_area
from server.core.assembly import Assembly
from server.core.house import GROUND, OPENINGS, OUTDOORS, Component, House
from server.core.transmittance import transmittances

SURFACES_TO_AIR = 3.45  # W/(m2 K), h_is
MASS_TO_SURFACES = 9.1  # W/(m2 K), h_ms
SURFACES_A_FLOOR = 4.5  # A_tot / A_f
MASS_AREAS = ((212_500.0, 2.5), (315_000.0, 3.0))  # J/(m2 K) up to which A_m / A_f; classes between
HEAVIEST_MASS_AREA = 3.5
SUN_THROUGH_GLASS = 0.9
SKY = 0.9 * 5.0 * 11.0  # W/m2: emissivity, radiative coefficient, air over sky
OPEN_AIR_CHANGES = 2.0  # 1/h
OPENS_BELOW = 1.0  # K under the cooling set point
DRIEST_SHUT, WETTEST_OPEN = 0.009, 0.013  # kg/kg
WARM_UP = 31 * 24  # hours of December before the year begins
AIR_IN_OPERATIVE = 0.3
BTU_A_DAY = 1055.05585262 / 86400.0  # W
FT2 = 0.09290304  # m2


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """Some houses side by side, each figure (houses,) or hours x houses. W/K, W, J/K, deg C."""

    openings: Array
    mass_out: Array
    mass_ground: Array
    mass_area: Array
    surface_area: Array
    capacity: Array
    people: Array
    sun: Array
    mass_share: Array
    surface_share: Array
    air_share: Array
    air_capacity: Array
    stack: Array
    wind: Array
    leakage: Array
    fan: Array
    fan_balanced: Array
    recovery: Array
    open_windows: Array
    heat_to: Array
    cool_to: Array


@dataclass(frozen=True, slots=True, eq=False)
class Loads:
    """Heating and sensible cooling, kWh by month: houses x 12."""

    heating: Array
    cooling: Array


def people_and_appliances(house: House) -> float:
    """Internal gains, W: as surveyed, else the IECC reference design's (memory)."""
    if house.people_and_appliances is not None:
        return float(house.people_and_appliances)
    return (17900.0 + 23.8 * house.floor_area / FT2 + 4104.0 * house.bedrooms) * BTU_A_DAY


def build(houses: Sequence[House], year: Year) -> Network:
    """Houses as networks of five resistances, with the sun of a year on them."""
    rows = [_figures(house, year) for house in houses]
    return Network(**{name: np.stack([row[name] for row in rows], axis=-1) for name in rows[0]})


def simulate(
    network: Network,
    year: Year,
    ground_temperature: Array,
    *,
    windows: bool = True,
    gains_to_air: bool = False,
) -> Loads:
    """A year of all houses; ground_temperature houses x 12.

    Without windows nobody opens any. gains_to_air leaves the standard for an experiment: all gains
    enter the air, where the heating does, and none the surfaces.
    """
    if gains_to_air:
        none = np.zeros_like(network.people)
        network = replace(network, mass_share=none, surface_share=none, air_share=none + 1.0)
    shut = _run(network, year, ground_temperature, opened=False)
    if not windows:
        return shut
    opened = _run(network, year, ground_temperature, opened=True)
    humidity = monthly_mean(year, year.humidity_ratio)
    share = np.clip((WETTEST_OPEN - humidity) / (WETTEST_OPEN - DRIEST_SHUT), 0.0, 1.0)
    return Loads(
        heating=share * opened.heating + (1.0 - share) * shut.heating,
        cooling=share * opened.cooling + (1.0 - share) * shut.cooling,
    )


def _figures(house: House, year: Year) -> dict[str, Array]:
    to_out, to_ground, reaches = _fold(house)
    openings = sum(
        (u_value * part.area)
        for part, u_value in _with_u(house)
        if part.kind in OPENINGS and house.is_inside(part.from_space) and part.to_space == OUTDOORS
    )
    capacity = float(house.heat_capacity)
    ratio = next((area for most, area in MASS_AREAS if capacity <= most), HEAVIEST_MASS_AREA)
    leakage = house.leakage
    if isinstance(leakage, BlowerDoor):
        cm2 = leakage_area(leakage.flow_at_50_pa)
        one, none = np.ones(1), np.zeros(1)
        site = (house.storeys, leakage.shelter_class)
        stack = basic_model_flow(cm2, one, none, *site)[0] ** 2
        wind = basic_model_flow(cm2, none, one, *site)[0] ** 2
        steady = 0.0
    else:
        stack, wind, steady = 0.0, 0.0, leakage.flow
    heat_capacity = air_heat_capacity(house.climate.elevation)
    fan = house.ventilation
    mass_area, surface_area = ratio * house.floor_area, SURFACES_A_FLOOR * house.floor_area
    mass_share = mass_area / surface_area
    lost = openings / (MASS_TO_SURFACES * surface_area)
    figures = {
        "openings": openings,
        "mass_out": to_out - openings,
        "mass_ground": to_ground,
        "mass_area": mass_area,
        "surface_area": surface_area,
        "capacity": capacity * house.floor_area,
        "people": people_and_appliances(house),
        "sun": _sun(house, year, reaches),
        "mass_share": mass_share,
        "surface_share": 1.0 - mass_share - lost,
        "air_share": 0.0,
        "air_capacity": heat_capacity,
        "stack": stack,
        "wind": wind,
        "leakage": steady,
        "fan": fan.flow,
        "fan_balanced": fan.balanced,
        "recovery": fan.heat_recovery,
        "open_windows": heat_capacity * house.inside_volume * OPEN_AIR_CHANGES / 3600.0,
        "heat_to": house.heating_set_point,
        "cool_to": house.cooling_set_point,
    }
    return {name: np.asarray(value) for name, value in figures.items()}


def _with_u(house: House) -> list[tuple[Component, float]]:
    each = transmittances(house)
    return [(part, float(u.u_value)) for part, u in zip(house.components, each, strict=True)]


def _fold(house: House) -> tuple[float, float, dict[str, float]]:
    """Conductance from indoors to outdoors and to ground, and each buffer's share of a source.

    Nodes 0 outdoors, 1 ground, 2 indoors, then the buffers; Laplacian L; with buffers b and the
    rest r, L_rr - L_rb L_bb^-1 L_br is what the rest feel, -L_bb^-1 L_br the share of a source.
    """
    number = {OUTDOORS: 0, GROUND: 1}
    number |= {space.name: 2 for space in house.spaces if space.inside}
    number |= {space.name: 3 + index for index, space in enumerate(house.buffers)}
    size = 3 + len(house.buffers)
    ties = np.zeros((size, size))

    def tie(first: str, second: str, conductance: float) -> None:
        one, other = number[first], number[second]
        if one != other:
            ties[one, other] += conductance
            ties[other, one] += conductance

    for part, u_value in _with_u(house):
        tie(part.from_space, part.to_space, u_value * part.area)
    for junction in house.junctions:
        tie(junction.from_space, junction.to_space, junction.psi * junction.length)
    for space in house.buffers:
        air = air_heat_capacity(house.climate.elevation) * space.volume
        tie(space.name, OUTDOORS, air * space.air_changes / 3600.0)
    laplacian = np.diag(ties.sum(axis=1)) - ties
    to_rest = np.linalg.solve(laplacian[3:, 3:], laplacian[3:, :3])
    felt = laplacian[:3, :3] - laplacian[:3, 3:] @ to_rest
    reaches = {space.name: float(-to_rest[number[space.name] - 3, 2]) for space in house.buffers}
    return -felt[2, 0], -felt[2, 1], reaches


def _sun(house: House, year: Year, reaches: Mapping[str, float]) -> Array:
    """Sun through openings and on opaque parts less radiation to the sky, W by hour."""
    total = np.zeros(HOURS)
    for part, u_value in _with_u(house):
        if part.to_space != OUTDOORS:
            continue
        share = reaches.get(part.from_space, 1.0)
        built = part.construction
        drained = isinstance(built, Assembly) and built.stands_off
        surface = 0.0 if drained else u_value * part.area * house.films.outside
        if part.lets_sun_in:
            aperture = 0.0 if part.shgc is None else SUN_THROUGH_GLASS * part.shgc * part.area
        else:
            aperture = surface * part.solar_absorptance
        shading = np.broadcast_to(part.shading, 12)[year.month]
        total += share * aperture * shading * year.on_plane(_plane(part))
        view = (1.0 + np.cos(np.radians(part.plane_tilt))) / 2.0
        total -= share * surface * view * SKY * year.sky_radiation
    return total


def _plane(part: Component) -> Plane:
    level = part.plane_tilt in (0.0, 180.0)
    azimuth = 0.0 if level else part.azimuth
    return part.plane_tilt, azimuth if azimuth is None else float(azimuth) % 360.0


@dataclass(frozen=True, slots=True, eq=False)
class _Hour:
    """One hour of the balance at some conductance of air; all (houses,)."""

    net: _Fixed
    outdoor: float
    far_end: Array
    gain_air: Array
    gain_surface: Array
    gain_mass: Array
    mass: Array

    def end(self, air: Array, power: Array | float) -> tuple[Array, Array, Array]:
        """Operative, air and (at the hour's end) mass temperature with some power into the air."""
        net = self.net
        to_air = 1.0 / (1.0 / air + 1.0 / net.is_)
        to_surface = to_air + net.w
        to_mass = 1.0 / (1.0 / to_surface + 1.0 / net.ms)
        blown = self.outdoor + (self.gain_air + power) / air
        into_surface = self.gain_surface + net.w * self.outdoor + to_air * blown
        into_mass = self.gain_mass + net.em * self.far_end + to_mass * into_surface / to_surface
        loss = 0.5 * (to_mass + net.em)
        after = (self.mass * (net.store - loss) + into_mass) / (net.store + loss)
        mean = (self.mass + after) / 2.0
        surface = (net.ms * mean + into_surface) / (net.ms + net.w + to_air)
        inside = (net.is_ * surface + air * self.outdoor + self.gain_air + power) / (net.is_ + air)
        return AIR_IN_OPERATIVE * inside + (1.0 - AIR_IN_OPERATIVE) * surface, inside, after


@dataclass(frozen=True, slots=True, eq=False)
class _Fixed:
    """The conductances that stay all year, W/K; store is C_m / 1 h."""

    is_: Array
    ms: Array
    em: Array
    w: Array
    store: Array


def _run(network: Network, year: Year, ground_temperature: Array, *, opened: bool) -> Loads:
    n = network
    out_and_ground = n.mass_out + n.mass_ground
    fixed = _Fixed(
        is_=SURFACES_TO_AIR * n.surface_area,
        ms=MASS_TO_SURFACES * n.mass_area,
        em=1.0 / (1.0 / out_and_ground - 1.0 / (MASS_TO_SURFACES * n.mass_area)),
        w=n.openings,
        store=n.capacity / 3600.0,
    )
    month = year.month
    far_ends = (
        n.mass_out * year.temperature[:, np.newaxis] + n.mass_ground * ground_temperature.T[month]
    ) / out_and_ground
    spread = 0.5 * n.people + n.sun
    power = np.zeros_like(n.sun)
    mass, inside = n.heat_to.astype(float), n.heat_to.astype(float)
    unit = 10.0 * n.surface_area / SURFACES_A_FLOOR
    for hour in (*range(HOURS - WARM_UP, HOURS), *range(HOURS)):
        outdoor = year.temperature[hour]
        air = _air(n, inside - outdoor, year.wind_speed[hour])
        now = _Hour(
            net=fixed,
            outdoor=outdoor,
            far_end=far_ends[hour],
            gain_air=0.5 * n.people + n.air_share * spread[hour],
            gain_surface=n.surface_share * spread[hour],
            gain_mass=n.mass_share * spread[hour],
            mass=mass,
        )
        shut = now.end(air, 0.0)
        free, shut_inside, shut_after = shut
        aired, inside, after = _aired(n, now, air, shut) if opened else shut
        target = np.clip(aired, n.heat_to, n.cool_to)
        acts = target != aired
        if bool(np.any(acts)):
            # the hour is linear in power: one more try gives what brings it to the set point
            more, inside_more, after_more = now.end(air, unit)
            ratio = np.where(acts, (target - free) / (more - free), 0.0)
            power[hour] = ratio * unit
            inside = np.where(acts, shut_inside + ratio * (inside_more - shut_inside), inside)
            after = np.where(acts, shut_after + ratio * (after_more - shut_after), after)
        else:
            power[hour] = 0.0
        mass = after
    return Loads(_by_month(year, power.clip(min=0.0)), _by_month(year, (-power).clip(min=0.0)))


def _aired(
    network: Network, now: _Hour, air: Array, shut: tuple[Array, Array, Array]
) -> tuple[Array, Array, Array]:
    """The hour as `_Hour.end` gives it, with windows open for the part of it that helps enough."""
    free, inside, _after = shut
    too_warm = free - (network.cool_to - OPENS_BELOW)
    helps = (too_warm > 0.0) & (inside > now.outdoor)
    if not bool(np.any(helps)):
        return shut
    wide = now.end(np.maximum(air, network.open_windows), 0.0)
    part = np.clip(too_warm / np.maximum(free - wide[0], 1e-9), 0.0, 1.0)
    enough = free + part * (wide[0] - free) <= network.cool_to
    part = np.where(helps & enough, part, 0.0)
    operative, air_end, mass_end = (
        closed + part * (open_ - closed) for closed, open_ in zip(shut, wide, strict=True)
    )
    return operative, air_end, mass_end


def _air(network: Network, difference: Array, wind_speed: float) -> Array:
    """Conductance of infiltration and fan, W/K: in quadrature with a fan that blows one way."""
    n = network
    leaks = n.leakage + np.sqrt(n.stack * np.abs(difference) + n.wind * wind_speed**2)
    both = np.where(
        n.fan_balanced, leaks + n.fan * (1.0 - n.recovery), np.sqrt(leaks**2 + n.fan**2)
    )
    return np.maximum(n.air_capacity * both, 1e-6)


def _by_month(year: Year, power: Array) -> Array:
    """Hourly power, W, to kWh: houses x 12."""
    return np.stack([power[year.month == month].sum(axis=0) for month in range(12)], axis=-1) / 1e3
