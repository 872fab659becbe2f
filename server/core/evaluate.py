"""One house, as it stands, to one result."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from server.core import energy, solar
from server.core.air import (
    AirFlows,
    BlowerDoor,
    air_density,
    air_flows,
    air_heat_capacity,
    linear_loss,
)
from server.core.arrays import Array, Real, by_month
from server.core.assembly import Assembly, ResistanceLimits
from server.core.climate import annual_mean
from server.core.gains import planes_of, sources
from server.core.ground_wave import LAG_MONTHS, Harmonic, first_harmonic
from server.core.house import GROUND, GROUND_KINDS, OUTDOORS, Component, House, Plant
from server.core.network import INDOORS, Balance, Edge, balance
from server.core.transmittance import Transmittance, transmittances

METHOD_VERSION = "3"
OUTDOOR_AIR = "(outdoor air)"  # as a way that heat leaves


@dataclass(frozen=True, slots=True, eq=False)
class ComponentResult:
    """One part. U W/(m2 K) and R m2 K/W, soil included in the ground; UA W/K; kWh a year.

    limits are None where only U is known. A part between two spaces inside the boundary has a U
    but a UA of zero: no heat flows.
    """

    component: Component
    u_value: Real
    resistance: Real
    limits: ResistanceLimits | None
    label_resistance: Real | None
    conductance: Real
    heating_share_kwh: Real


@dataclass(frozen=True, slots=True, eq=False)
class JunctionResult:
    """One linear thermal bridge: psi L W/K, and its share of the heating, kWh a year."""

    name: str
    conductance: Real
    heating_share_kwh: Real


@dataclass(frozen=True, slots=True, eq=False)
class FuelUse:
    """Fuel of one use, kWh a year; cost USD and carbon kg, None where the factor is unknown."""

    use: str
    fuel: str
    energy_kwh: Real
    cost: Real | None
    carbon: Real | None


@dataclass(frozen=True, slots=True, eq=False)
class GroundWave:
    """The ground as indoors feels it. temperature (..., 12) and mean deg C.

    share: how much of outdoors' yearly wave it takes part in, a month late (H_pe over H_g).
    """

    share: Real
    harmonic: Harmonic
    mean: Real
    temperature: Array


@dataclass(frozen=True, slots=True, eq=False)
class Working:
    """What stands between a house and its result, kept so that every figure can be explained.

    edges: components, junctions, then the buffers' air. periodic: H_pe of each component, W/K. warm
    and cool: the balance at the heating and at the cooling set point. ways and shares: of the
    heating load, by what indoors touches.
    """

    edges: tuple[Edge, ...]
    graph: Balance
    sources: energy.Sources
    warm: energy.Envelope
    cool: energy.Envelope
    cool_air: AirFlows
    open_window_conductance: Real
    ground: GroundWave
    periodic: tuple[Real, ...]
    ways: Mapping[str, energy.Way]
    shares: Mapping[str, energy.Share]


@dataclass(frozen=True, slots=True, eq=False)
class Result:
    """What one house does in a year. Months last; conductances W/K; energies kWh."""

    house: House
    to_outdoors: Real
    to_ground: Real
    air: Real
    air_heating_share_kwh: Real
    components: tuple[ComponentResult, ...]
    junctions: tuple[JunctionResult, ...]
    heating: energy.Heating
    cooling: energy.Cooling
    gains: Array
    ground_temperature: Array
    fuels: tuple[FuelUse, ...]
    working: Working

    @property
    def heating_load_kwh(self) -> Real:
        """Heating load of the year, kWh."""
        return _year(self.heating.load_kwh)

    @property
    def cooling_load_kwh(self) -> Real:
        """Sensible cooling load of the year, kWh."""
        return _year(self.cooling.load_kwh)

    @property
    def latent_load_kwh(self) -> Real:
        """Latent cooling load of the year, kWh."""
        return _year(self.cooling.latent_kwh)

    @property
    def annual_cost(self) -> Real | None:
        """Cost of all fuels, USD a year; None where a price is unknown."""
        return _sum_known([use.cost for use in self.fuels])

    @property
    def carbon(self) -> Real | None:
        """Carbon dioxide of all fuels, kg a year; None where a factor is unknown."""
        return _sum_known([use.carbon for use in self.fuels])

    @property
    def air_changes_at_50_pa(self) -> Real | None:
        """Blower-door air changes, 1/h, of the volume inside; None where there is no test."""
        if not isinstance(self.house.leakage, BlowerDoor):
            return None
        return self.house.leakage.flow_at_50_pa * 3600.0 / self.house.inside_volume


def evaluate(house: House, geometry: solar.SunGeometry | None = None) -> Result:
    """Compute a house: conductances, monthly balance, loads, fuel, cost and carbon.

    geometry: the sun on at least the house's planes, where several houses share it.
    Shapes: any quantity of the house may lead with draw axes; results broadcast alike.
    Range: as the parts of the house.
    Raises: NegativeConductance.
    Source: the functions used here each name theirs.
    """
    sun = geometry or solar.sun_geometry(float(house.climate.latitude), planes_of([house]))
    each = transmittances(house)
    conductances = [
        part_u.u_value * part.area for part, part_u in zip(house.components, each, strict=True)
    ]
    edges = _edges(house, conductances)
    buffers = [space.name for space in house.buffers]
    all_edges = [*edges, *_buffer_air(house)]
    graph = balance(all_edges, buffers, OUTDOORS, GROUND)
    gains = sources(house, graph, each, sun)
    wave = _ground_wave(house, graph, each)
    ground_temperature = wave.temperature
    envelope = _envelope(house, graph, house.heating_set_point)
    warm = energy.heating(envelope, house.climate, gains, ground_temperature)
    cool_air = _air(house, house.cooling_set_point, house.climate.mean_temperature)
    cool_envelope = _envelope(house, graph, house.cooling_set_point)
    open_windows = _open_window_conductance(house)
    latent = _latent(house, cool_air)
    cool = energy.cooling(
        cool_envelope, house.climate, gains, ground_temperature, open_windows, latent
    )
    ways = _ways(house, graph, edges, envelope, ground_temperature)
    shares = energy.heating_shares(warm.load_kwh, ways)
    return Result(
        house=house,
        to_outdoors=graph.to_outdoors,
        to_ground=graph.to_ground,
        air=annual_mean(envelope.air),
        air_heating_share_kwh=shares[OUTDOOR_AIR].energy_kwh,
        components=_component_results(house, each, edges[: len(each)], shares),
        junctions=_junction_results(house, edges[len(each) :], shares),
        heating=warm,
        cooling=cool,
        gains=gains.total,
        ground_temperature=ground_temperature,
        fuels=_fuels(house, warm, cool),
        working=Working(
            edges=tuple(all_edges),
            graph=graph,
            sources=gains,
            warm=envelope,
            cool=cool_envelope,
            cool_air=cool_air,
            open_window_conductance=open_windows,
            ground=wave,
            periodic=tuple(part_u.periodic for part_u in each),
            ways=ways,
            shares=shares,
        ),
    )


def _ground_wave(
    house: House, graph: Balance, transmittances: Sequence[Transmittance]
) -> GroundWave:
    """The temperature at which the ground would lose what all parts in it lose, month by month.

    Each part's swing is H_pe times outdoors' own; indoors feels of one at a buffer what reaches it
    through that buffer, as of its conductance.
    """
    climate = house.climate
    swing: Real = 0.0
    for part, transmittance in zip(house.components, transmittances, strict=True):
        if part.kind in GROUND_KINDS:
            buffer = graph.buffers.get(part.from_space)
            reaches = 1.0 if buffer is None else buffer.source_share
            swing = swing + transmittance.periodic * reaches
    steady = np.asarray(graph.to_ground)
    share = np.where(steady > 0.0, swing / np.where(steady > 0.0, steady, 1.0), 0.0)
    harmonic = first_harmonic(climate.mean_temperature)
    mean = annual_mean(climate.mean_temperature)
    late = harmonic.late_by(LAG_MONTHS)
    return GroundWave(
        share=float(share) if share.ndim == 0 else share,
        harmonic=harmonic,
        mean=mean,
        temperature=by_month(mean) + by_month(share) * late,
    )


def _edges(house: House, conductances: Sequence[Real]) -> list[Edge]:
    """Components, then junctions, as edges between nodes, in the house's order."""
    indoors = {space.name: INDOORS for space in house.spaces if space.inside}
    ends = [(part.from_space, part.to_space) for part in house.components]
    ends += [(junction.from_space, junction.to_space) for junction in house.junctions]
    bridges = [junction.psi * junction.length for junction in house.junctions]
    return [
        Edge(indoors.get(first, first), indoors.get(second, second), conductance)
        for (first, second), conductance in zip(ends, [*conductances, *bridges], strict=True)
    ]


def _buffer_air(house: House) -> list[Edge]:
    heat_capacity = air_heat_capacity(house.climate.elevation)
    return [
        Edge(space.name, OUTDOORS, heat_capacity * space.volume * space.air_changes / 3600.0)
        for space in house.buffers
    ]


def _air(house: House, indoor_temperature: Real, outdoor_temperature: Array) -> AirFlows:
    return air_flows(
        house.leakage,
        house.ventilation,
        house.storeys,
        indoor_temperature,
        outdoor_temperature,
        house.climate.wind_speed,
    )


def _envelope(house: House, graph: Balance, set_point: Real) -> energy.Envelope:
    climate = house.climate
    heat_capacity = by_month(air_heat_capacity(climate.elevation))

    def conductance(outdoor_temperature: Array) -> Array:
        return np.asarray(
            heat_capacity * _air(house, set_point, outdoor_temperature).net_of_recovery
        )

    def loss(outdoor_temperature: Array) -> Array:
        colder = by_month(set_point) - outdoor_temperature
        return np.asarray(conductance(outdoor_temperature) * colder)

    mean = climate.mean_temperature
    air_slope = air = conductance(mean)
    air_loss = loss(mean)
    if climate.diurnal_deviation is not None:
        hours = np.hypot(climate.daily_deviation, climate.diurnal_deviation)
        air_loss, air_slope = linear_loss(loss, mean, hours)
    return energy.Envelope(
        to_outdoors=graph.to_outdoors,
        to_ground=graph.to_ground,
        air=air,
        air_loss=air_loss,
        air_slope=air_slope,
        set_point=set_point,
        heat_capacity=house.heat_capacity * house.floor_area,
        band=house.cooling_set_point - house.heating_set_point,
    )


def _open_window_conductance(house: House) -> Real:
    heat_capacity = air_heat_capacity(house.climate.elevation)
    return heat_capacity * house.inside_volume * energy.OPEN_WINDOW_AIR_CHANGES / 3600.0


def _latent(house: House, air: AirFlows) -> energy.LatentLoad:
    return energy.LatentLoad(
        outdoor_air=air.outdoor,
        air_density=air_density(house.climate.elevation),
        floor_area=house.floor_area,
        bedrooms=house.bedrooms,
    )


def _ways(
    house: House,
    graph: Balance,
    edges: Sequence[Edge],
    envelope: energy.Envelope,
    ground_temperature: Array,
) -> dict[str, energy.Way]:
    """Every node that indoors touches, with its conductance and its temperature difference."""
    to_outdoors = by_month(envelope.set_point) - house.climate.mean_temperature
    to_ground = by_month(envelope.set_point) - ground_temperature
    difference = {OUTDOORS: to_outdoors, GROUND: to_ground}
    for name, weights in graph.buffers.items():
        difference[name] = (
            by_month(weights.outdoors) * to_outdoors + by_month(weights.ground) * to_ground
        )
    touched: dict[str, Real] = {}
    for edge in edges:
        other = other_than_indoors(edge)
        if other is not None:
            touched[other] = touched.get(other, 0.0) + edge.conductance
    ways = {
        name: energy.Way(np.asarray(by_month(conductance)), difference[name])
        for name, conductance in touched.items()
    }
    ways[OUTDOOR_AIR] = energy.Way(envelope.air, to_outdoors)
    return ways


def other_than_indoors(edge: Edge) -> str | None:
    """The far node of an edge that leaves indoors; None for any other edge.

    Shapes: one edge. Range: any. Raises: nothing.
    Source: definition.
    """
    if (edge.first == INDOORS) == (edge.second == INDOORS):
        return None
    return edge.second if edge.first == INDOORS else edge.first


def _share_of(edge: Edge, shares: Mapping[str, energy.Share]) -> Real:
    other = other_than_indoors(edge)
    return 0.0 if other is None else edge.conductance * shares[other].per_conductance


def _component_results(
    house: House,
    each: Sequence[Transmittance],
    edges: Sequence[Edge],
    shares: Mapping[str, energy.Share],
) -> tuple[ComponentResult, ...]:
    results = []
    for part, part_u, edge in zip(house.components, each, edges, strict=True):
        built = part.construction
        results.append(
            ComponentResult(
                component=part,
                u_value=part_u.u_value,
                resistance=part_u.resistance,
                limits=part_u.limits,
                label_resistance=built.label_resistance if isinstance(built, Assembly) else None,
                conductance=0.0 if edge.first == edge.second else edge.conductance,
                heating_share_kwh=_share_of(edge, shares),
            )
        )
    return tuple(results)


def _junction_results(
    house: House, edges: Sequence[Edge], shares: Mapping[str, energy.Share]
) -> tuple[JunctionResult, ...]:
    return tuple(
        JunctionResult(
            name=junction.name,
            conductance=0.0 if edge.first == edge.second else edge.conductance,
            heating_share_kwh=_share_of(edge, shares),
        )
        for junction, edge in zip(house.junctions, edges, strict=True)
    )


def _fuels(house: House, warm: energy.Heating, cool: energy.Cooling) -> tuple[FuelUse, ...]:
    uses = [_fuel_use(house, "heating", house.heating, _year(warm.load_kwh))]
    if house.cooling is not None:
        removed = _year(cool.load_kwh) + _year(cool.latent_kwh)
        uses.append(_fuel_use(house, "cooling", house.cooling, removed))
    return tuple(uses)


def _fuel_use(house: House, use: str, plant: Plant, load_kwh: Real) -> FuelUse:
    """Load over efficiency and distribution; ducts that run inside lose nothing."""
    inside = plant.ducts_in is not None and house.is_inside(plant.ducts_in)
    distribution = 1.0 if inside else plant.distribution
    energy_kwh = load_kwh / (plant.efficiency * distribution)
    price = (house.prices or {}).get(plant.fuel)
    carbon = (house.carbon or {}).get(plant.fuel)
    return FuelUse(
        use=use,
        fuel=plant.fuel,
        energy_kwh=energy_kwh,
        cost=None if price is None else energy_kwh * price,
        carbon=None if carbon is None else energy_kwh * carbon,
    )


def _year(monthly: Array) -> Real:
    total = monthly.sum(axis=-1)
    return float(total) if np.ndim(total) == 0 else total


def _sum_known(values: Sequence[Real | None]) -> Real | None:
    total: Real = 0.0
    for value in values:
        if value is None:
            return None
        total = total + value
    return total
