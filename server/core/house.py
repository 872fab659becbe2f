"""The house as a graph: spaces are nodes, components and junctions are edges."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

import numpy as np

from server.core.air import NO_FANS, Leakage, Ventilation
from server.core.arrays import Array, Real
from server.core.assembly import Assembly
from server.core.climate import Climate
from server.core.errors import (
    BasementWithoutFloor,
    ComponentWithinOneSpace,
    CoolingBelowHeating,
    GroundFactsMissing,
    LooseSpace,
    NameTaken,
    NothingInside,
    UnknownName,
    WrongSide,
    require_within,
)
from server.core.films import ISO_6946, FilmSet, HeatFlow
from server.core.ground import GroundContact

OUTDOORS = "outdoors"
GROUND = "ground"
DEFAULT_ABSORPTANCE = 0.6  # of sun on opaque surfaces, a middling paint colour
STEEP = 60.0  # degrees: a plane steeper than this passes heat as a wall does


class Kind(Enum):
    """What a component is, as the trade says it."""

    WALL = "wall"
    ROOF = "roof"
    CEILING = "ceiling"
    FLOOR = "floor"
    DOOR = "door"
    WINDOW = "window"
    SKYLIGHT = "skylight"
    SLAB = "slab"
    BASEMENT_WALL = "basement wall"
    BASEMENT_FLOOR = "basement floor"
    PARTITION = "partition"
    INNER_FLOOR = "inner floor"


OPENINGS = frozenset({Kind.DOOR, Kind.WINDOW, Kind.SKYLIGHT})
GROUND_KINDS = frozenset({Kind.SLAB, Kind.BASEMENT_WALL, Kind.BASEMENT_FLOOR})
INNER_KINDS = frozenset({Kind.PARTITION, Kind.INNER_FLOOR})
_UPWARD = frozenset({Kind.ROOF, Kind.CEILING, Kind.SKYLIGHT})
_DOWNWARD = frozenset({Kind.FLOOR, Kind.SLAB, Kind.BASEMENT_FLOOR, Kind.INNER_FLOOR})
_TILTS = {Kind.ROOF: 30.0, Kind.SKYLIGHT: 30.0, Kind.CEILING: 0.0} | dict.fromkeys(_DOWNWARD, 180.0)


@dataclass(frozen=True, slots=True, eq=False)
class Space:
    """A volume of air: inside the thermal boundary, or a buffer.

    volume m3; air_changes 1/h with outdoors, of a buffer only. Raises: ImpossibleValue.
    """

    name: str
    inside: bool
    volume: Real
    air_changes: Real = 0.0

    def __post_init__(self) -> None:
        require_within("volume", self.volume, 0.0, 1e4, above=True)
        require_within("air_changes", self.air_changes, 0.0, 1000.0)


@dataclass(frozen=True, slots=True, eq=False)
class FixedTransmittance:
    """A part of which only U is known, W/(m2 K): films included and, in the ground, soil."""

    u_value: Real

    def __post_init__(self) -> None:
        require_within("u_value", self.u_value, 0.0, 100.0, above=True)


@dataclass(frozen=True, slots=True, eq=False)
class Component:
    """A piece of envelope between two spaces, `from_space` its warm side.

    area m2, net. azimuth degrees from north, clockwise; None is spread evenly round the compass.
    tilt degrees from level, None takes the kind's. shgc: of the whole opening. shading: share of
    the sun that arrives, one figure or twelve. solar_absorptance: of opaque surfaces.
    Raises: ImpossibleValue, WrongSide, ComponentWithinOneSpace, GroundFactsMissing.
    """

    name: str
    kind: Kind
    from_space: str
    to_space: str
    area: Real
    construction: Assembly | FixedTransmittance
    azimuth: Real | None = None
    tilt: float | None = None
    shgc: Real | None = None
    shading: Real | Array = 1.0
    solar_absorptance: Real = DEFAULT_ABSORPTANCE
    ground: GroundContact | None = None

    def __post_init__(self) -> None:
        require_within("area", self.area, 0.0, 1e4, above=True)
        if self.azimuth is not None:
            require_within("azimuth", self.azimuth, -360.0, 360.0)
        if self.tilt is not None:
            require_within("tilt", self.tilt, 0.0, 180.0)
        if self.shgc is not None:
            require_within("shgc", self.shgc, 0.0, 1.0)
        require_within("shading", self.shading, 0.0, 1.0)
        require_within("solar_absorptance", self.solar_absorptance, 0.0, 1.0)
        self._check_sides()

    def _check_sides(self) -> None:
        if self.from_space in (OUTDOORS, GROUND):
            raise WrongSide("from", kind=self.kind.value, space=self.from_space)
        if self.from_space == self.to_space and self.kind not in INNER_KINDS:
            raise ComponentWithinOneSpace("to", kind=self.kind.value, space=self.to_space)
        if (self.to_space == GROUND) != (self.kind in GROUND_KINDS):
            raise WrongSide("to", kind=self.kind.value, space=self.to_space)
        if self.kind in GROUND_KINDS and isinstance(self.construction, Assembly):
            for needs in _ground_needs(self.kind):
                if self.ground is None or getattr(self.ground, needs) is None:
                    raise GroundFactsMissing(needs, kind=self.kind.value, needs=needs)

    @property
    def plane_tilt(self) -> float:
        """Tilt of the plane, degrees: as given, else the kind's usual one."""
        return _TILTS.get(self.kind, 90.0) if self.tilt is None else self.tilt

    @property
    def heat_flow(self) -> HeatFlow:
        """Direction of heat leaving through the part."""
        if STEEP < self.plane_tilt < 180.0 - STEEP:
            return HeatFlow.LEVEL
        if self.kind in _UPWARD:
            return HeatFlow.UP
        return HeatFlow.DOWN if self.kind in _DOWNWARD else HeatFlow.LEVEL

    @property
    def lets_sun_in(self) -> bool:
        """Whether sun passes through it, rather than being taken up by its surface."""
        return self.shgc is not None or self.kind in (Kind.WINDOW, Kind.SKYLIGHT)


def _ground_needs(kind: Kind) -> tuple[str, ...]:
    if kind is Kind.SLAB:
        return ("exposed_perimeter",)
    if kind is Kind.BASEMENT_FLOOR:
        return ("exposed_perimeter", "depth_below_grade")
    return ("depth_below_grade",)


@dataclass(frozen=True, slots=True, eq=False)
class Junction:
    """A linear thermal bridge: length m, psi W/(m K), which may be negative."""

    name: str
    from_space: str
    to_space: str
    length: Real
    psi: Real

    def __post_init__(self) -> None:
        require_within("length", self.length, 0.0, 1e4, above=True)
        require_within("psi", self.psi, -10.0, 10.0)
        if self.from_space in (OUTDOORS, GROUND):
            raise WrongSide("from", kind="junction", space=self.from_space)
        if self.from_space == self.to_space:
            raise ComponentWithinOneSpace("to", kind="junction", space=self.to_space)


@dataclass(frozen=True, slots=True, eq=False)
class Plant:
    """Heating or cooling equipment and its distribution.

    efficiency: seasonal, load over fuel. distribution: share that arrives, while the ducts or
    pipes run through `ducts_in` outside the thermal boundary. Raises: ImpossibleValue.
    """

    fuel: str
    efficiency: Real
    distribution: Real = 1.0
    ducts_in: str | None = None

    def __post_init__(self) -> None:
        require_within("efficiency", self.efficiency, 0.01, 20.0)
        require_within("distribution", self.distribution, 0.01, 1.0)


@dataclass(frozen=True, slots=True, eq=False)
class House:
    """A surveyed house, as found or after a strategy.

    heating_set_point, cooling_set_point deg C. floor_area m2. storeys: count, fractions allowed.
    people_and_appliances W, None takes the reference design's. heat_capacity J/(m2 K) of floor
    area. prices USD per kWh and carbon kg per kWh, by fuel.
    Raises: ImpossibleValue, NameTaken, UnknownName, NothingInside, BasementWithoutFloor,
    LooseSpace.
    """

    name: str
    climate: Climate
    heating_set_point: Real
    cooling_set_point: Real
    floor_area: Real
    bedrooms: float
    storeys: float
    spaces: tuple[Space, ...]
    components: tuple[Component, ...]
    leakage: Leakage
    heating: Plant
    junctions: tuple[Junction, ...] = ()
    ventilation: Ventilation = NO_FANS
    cooling: Plant | None = None
    films: FilmSet = ISO_6946
    people_and_appliances: Real | None = None
    heat_capacity: Real = 110_000.0
    prices: Mapping[str, Real] | None = None
    carbon: Mapping[str, Real] | None = None

    def __post_init__(self) -> None:
        require_within("set_points.heating", self.heating_set_point, 0.0, 40.0)
        require_within("set_points.cooling", self.cooling_set_point, 0.0, 45.0)
        if bool(np.any(np.asarray(self.cooling_set_point) < np.asarray(self.heating_set_point))):
            raise CoolingBelowHeating("set_points.cooling")
        require_within("floor_area", self.floor_area, 0.0, 1e4, above=True)
        require_within("bedrooms", self.bedrooms, 0.0, 100.0)
        require_within("storeys", self.storeys, 0.0, 10.0, above=True)
        if self.people_and_appliances is not None:
            require_within("gains.people_and_appliances", self.people_and_appliances, 0.0, 1e6)
        require_within("heat_capacity", self.heat_capacity, 0.0, 1e8, above=True)
        self._check_names()
        self._check_basements()
        self._check_loose_spaces()

    @property
    def inside_volume(self) -> Real:
        """Volume inside the thermal boundary, m3."""
        volumes = [space.volume for space in self.spaces if space.inside]
        return sum(volumes[1:], start=volumes[0])

    @property
    def buffers(self) -> tuple[Space, ...]:
        """The spaces outside the thermal boundary, in order."""
        return tuple(space for space in self.spaces if not space.inside)

    def is_inside(self, name: str) -> bool:
        """Whether a space name lies inside the thermal boundary."""
        return any(space.name == name and space.inside for space in self.spaces)

    def basement_floor_of(self, space: str) -> Component | None:
        """The basement floor of a space, from which its basement walls take d_t."""
        for component in self.components:
            if component.kind is Kind.BASEMENT_FLOOR and component.from_space == space:
                return component
        return None

    def _check_names(self) -> None:
        if not any(space.inside for space in self.spaces):
            raise NothingInside("spaces")
        known = {space.name for space in self.spaces}
        lists: tuple[tuple[str, tuple[Component | Junction, ...]], ...] = (
            ("components", self.components),
            ("junctions", self.junctions),
        )
        for field, parts in lists:
            taken: set[str] = set()
            for index, part in enumerate(parts):
                if part.name in taken:
                    raise NameTaken(f"{field}[{index}].name", name=part.name)
                taken.add(part.name)
                for side, space in (("from", part.from_space), ("to", part.to_space)):
                    if space not in known and space not in (OUTDOORS, GROUND):
                        place = f"{field}[{index}].{side}"
                        raise UnknownName(place, what="space", name=space, known=_listed(known))
        for field, plant in (("heating", self.heating), ("cooling", self.cooling)):
            if plant is not None and plant.ducts_in is not None and plant.ducts_in not in known:
                place = f"{field}.ducts_in"
                raise UnknownName(place, what="space", name=plant.ducts_in, known=_listed(known))

    def _check_basements(self) -> None:
        for index, component in enumerate(self.components):
            if component.kind is not Kind.BASEMENT_WALL:
                continue
            if isinstance(component.construction, FixedTransmittance):
                continue
            floor = self.basement_floor_of(component.from_space)
            if floor is None or isinstance(floor.construction, FixedTransmittance):
                raise BasementWithoutFloor(f"components[{index}]", space=component.from_space)

    def _check_loose_spaces(self) -> None:
        """Every buffer must reach a known temperature, or its own is not determined."""
        reached = {OUTDOORS, GROUND} | {space.name for space in self.spaces if space.inside}
        reached |= {s.name for s in self.buffers if bool(np.all(np.asarray(s.air_changes) > 0))}
        edges = [(part.from_space, part.to_space) for part in self.components]
        edges += [(junction.from_space, junction.to_space) for junction in self.junctions]
        while True:
            more = {a for pair in edges for a in pair if reached.intersection(pair)} - reached
            if not more:
                break
            reached |= more
        for space in self.buffers:
            if space.name not in reached:
                raise LooseSpace("spaces", space=space.name)


def _listed(names: set[str]) -> str:
    return ", ".join(sorted(names))
