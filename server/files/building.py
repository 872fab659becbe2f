"""From a HouseFile to the core's house and strategies; every refusal gets its place in the file."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from gettext import gettext as _
from typing import Any, TypeVar, overload

import numpy as np

from server.core.air import CRAWL_SHIELDING, Leakage, Ventilation, crawlspace_flow
from server.core.arrays import Array
from server.core.assembly import (
    AirLayer,
    Assembly,
    FramedLayer,
    Layer,
    ResistanceLayer,
    SolidLayer,
)
from server.core.assembly import Ventilation as LayerVentilation
from server.core.climate import Climate, annual_mean
from server.core.comparison import Comparison, compare
from server.core.errors import CoreError
from server.core.fasteners import Fasteners
from server.core.films import FILM_SETS
from server.core.findings.base import Finding
from server.core.findings.judging import judge
from server.core.ground import (
    DEFAULT_SOIL,
    DEFAULT_WALL_THICKNESS,
    SOIL_CONDUCTIVITY,
    SOIL_HEAT_CAPACITY,
    UNKNOWN_HEAT_CAPACITY,
    EdgeInsulation,
    GroundContact,
)
from server.core.house import (
    DEFAULT_ABSORPTANCE,
    GROUND,
    GROUND_KINDS,
    OUTDOORS,
    Component,
    FixedTransmittance,
    House,
    Junction,
    Kind,
    Plant,
    Space,
)
from server.core.materials import Material
from server.core.strategy import Change, LayerChange, NewLeakage, OpeningChange, Strategy, apply
from server.core.transmittance import storm_window_transmittance
from server.files import house_file as hf
from server.files import seeds
from server.files.faults import BadFile, Fault
from server.files.material_groups import group_of
from server.files.places import found_at, joined, steps_of, written
from server.files.reading import read_house_file
from server.files.site import site_of
from server.wording import sentence

HEAT_CAPACITY = {  # J/(m2 K) of floor area, ISO 13790:2008 Table 12 (memory)
    "very light": 80_000.0,
    "light": 110_000.0,
    "medium": 165_000.0,
    "heavy": 260_000.0,
    "very heavy": 370_000.0,
}

FASTENER_MATERIAL = "steel"
FASTENER_DIAMETER = 0.190 * 0.0254  # m, nominal, of a No. 10 screw (ASME B18.6.1, memory)
MOST_PER_KWH = 1000  # USD or kg
DEFAULT_DAILY_RANGE = 11.0  # K, a guess where the file does not say

# looked up once: gettext searches the disk at every call, and a house has hundreds of names
REGION, MATERIAL, ASSEMBLY = _("region"), _("material"), _("assembly")

STORM_OVER_LAYERS = _("a storm goes over a window, skylight or door known by its U")

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Project:
    """A house, its strategies, and the file they were read from."""

    file: hf.HouseFile
    house: House
    strategies: tuple[Strategy, ...]

    def compare(self) -> Comparison:
        """As found and every strategy, side by side. Raises BadFile where no balance exists."""
        try:
            return compare(self.house, self.strategies)
        except CoreError as error:
            raise BadFile([Fault(error.field or "", None, sentence(error))]) from None

    def judge(self, comparison: Comparison) -> tuple[tuple[Finding, ...], ...]:
        """What could go wrong, as found and under every strategy of its comparison."""
        return judge(comparison, site_of(self.file))


@dataclass(frozen=True, slots=True)
class Survey:
    """A house as found, and those of its strategies that fit it.

    A survey goes on while a strategy no longer fits what was found; faults says why not.
    """

    file: hf.HouseFile
    house: House
    strategies: tuple[Strategy, ...]
    faults: tuple[Fault, ...]

    @property
    def project(self) -> Project:
        """The house with the strategies that fit."""
        return Project(self.file, self.house, self.strategies)

    @property
    def not_fitting(self) -> dict[int, tuple[Fault, ...]]:
        """Why a strategy does not fit, by its place in the file."""
        found: dict[int, tuple[Fault, ...]] = {}
        for fault in self.faults:
            index = next(step for step in steps_of(fault.place) if isinstance(step, int))
            found[index] = (*found.get(index, ()), fault)
        return found


def read_project(text: bytes | str) -> Project:
    """Read, check and build a house file. Raises BadFile with every fault found, nothing else."""
    file, document = read_house_file(text)
    builder = _Builder(file, document)
    survey = builder.survey()
    if builder.faults:
        raise BadFile(builder.faults)
    return survey.project


def build_survey(file: hf.HouseFile) -> Survey:
    """Build a house whose strategies may no longer fit. Raises BadFile where the house is bad."""
    return _Builder(file, file.as_written()).survey()


class _Unknown(Exception):
    """A name the file refers to and does not have; already noted as a fault."""


@dataclass(slots=True)
class _Builder:
    file: hf.HouseFile
    document: Any
    faults: list[Fault] = field(default_factory=list)

    def survey(self) -> Survey:
        """Build all there is; faults of strategies are only noted where the house is sound."""
        materials = self._materials()
        climate = self._climate()
        assemblies = self._assemblies(materials)
        house = self._house(climate, assemblies)
        with self._at(""):
            site_of(self.file)
        faults_of_house = len(self.faults)
        strategies = self._strategies(materials, assemblies)
        if house is None or faults_of_house:
            raise BadFile(self.faults)
        fitting = []
        for index, strategy in strategies.items():
            with self._at(f"strategies[{index}]"):
                apply(strategy, house)
                fitting.append(strategy)
        return Survey(self.file, house, tuple(fitting), tuple(self.faults))

    # Faults

    def _note(self, place: str, words: str) -> None:
        place = written(steps_of(place))
        self.faults.append(Fault(place, found_at(self.document, place), words))

    @contextmanager
    def _at(self, place: str) -> Iterator[None]:
        """Turn what the core refuses inside into a fault at this place."""
        try:
            yield
        except CoreError as error:
            self._note(joined(place, error.field), sentence(error))
        except _Unknown:
            pass

    def _found(self, table: Mapping[str, T], name: str, place: str, what: str) -> T:
        if name in table:
            return table[name]
        near = difflib.get_close_matches(name, table, n=3, cutoff=0.5)
        words = _("no {what} is called “{name}”").format(what=what, name=name)
        if near:
            words += _("; near to it: {near}").format(near=", ".join(near))
        self._note(place, words)
        raise _Unknown

    # Parts

    def _materials(self) -> dict[str, Material]:
        known = dict(seeds.materials())
        for name, entry in self.file.materials.items():
            with self._at(written(["materials", name])):
                known[name] = Material(
                    name,
                    entry.conductivity.value,
                    _value(entry.density),
                    _value(entry.specific_heat),
                    _value(entry.vapour_resistance_factor),
                    _value(entry.compressive_strength),
                    entry.reaction_to_fire,
                    entry.group or group_of(name),
                )
        return known

    def _climate(self) -> Climate | None:
        entry = self.file.climate
        if isinstance(entry, hf.OwnClimate):
            with self._at("climate"):
                return _own_climate(entry)
            return None
        station = entry.station if isinstance(entry, hf.StationClimate) else None
        with self._at("climate"):
            if isinstance(entry, hf.RegionClimate):
                region = self._found(seeds.regions(), entry.region, "climate.region", REGION)
                station = region.station
            climate = seeds.station_climate(station or "")
            if climate is None:
                words = _("no station of the seed data has this number")
                self._note("climate.station", words)
            elif isinstance(entry, hf.StationClimate) and entry.iecc_zone:
                climate = replace(climate, iecc_zone=entry.iecc_zone)
            return climate
        return None

    def _assemblies(
        self, materials: Mapping[str, Material]
    ) -> dict[str, Assembly | FixedTransmittance | None]:
        """Every assembly by name; None for one that was refused, which is known all the same."""
        built: dict[str, Assembly | FixedTransmittance | None] = {}
        for name, entry in self.file.assemblies.items():
            place = written(["assemblies", name])
            built[name] = None
            if entry.u_value is not None:
                with self._at(place):
                    built[name] = _with_storm(
                        FixedTransmittance(entry.u_value.value), entry.storm_u_value
                    )
                continue
            if entry.storm_u_value is not None:
                self._note(f"{place}.storm_u_value", STORM_OVER_LAYERS)
            layers = self._layers(entry.layers or [], f"{place}.layers", materials)
            if len(layers) == len(entry.layers or []):
                with self._at(place):
                    built[name] = Assembly(name, layers)
        return built

    def _layers(
        self, entries: list[hf.LayerEntry], place: str, materials: Mapping[str, Material]
    ) -> tuple[Layer, ...]:
        layers: list[Layer] = []
        for index, entry in enumerate(entries):
            with self._at(f"{place}[{index}]"):
                layers.append(self._layer(entry, f"{place}[{index}]", materials))
        return tuple(layers)

    def _layer(self, entry: hf.LayerEntry, place: str, materials: Mapping[str, Material]) -> Layer:
        label = _value(entry.label_resistance)
        if isinstance(entry, hf.FramedEntry):
            with self._within("framed"):
                return self._framed(entry, f"{place}.framed", materials)
        if isinstance(entry, hf.SolidEntry):
            material = self._found(materials, entry.material, f"{place}.material", MATERIAL)
            thickness = entry.thickness.value
            fasteners = self._fasteners(entry.fasteners, f"{place}.fasteners", materials)
            thinnest = _value(entry.thinnest)
            return SolidLayer(material, thickness, entry.name, label, fasteners, thinnest)
        if isinstance(entry, hf.AirLayerEntry):
            return AirLayer(
                LayerVentilation(entry.air_layer),
                entry.thickness.value,
                _value(entry.opening_area, 1000e-6),
                entry.name,
                label,
            )
        return ResistanceLayer(entry.resistance.value, entry.name, label)

    def _fasteners(
        self, entry: hf.FastenersEntry | None, place: str, materials: Mapping[str, Material]
    ) -> Fasteners | None:
        if entry is None:
            return None
        name = entry.material or FASTENER_MATERIAL
        material = self._found(materials, name, f"{place}.material", MATERIAL)
        diameter = _value(entry.diameter, FASTENER_DIAMETER)
        section = _value(entry.cross_section, math.pi * diameter**2 / 4.0)
        with self._within("fasteners"):
            return Fasteners(material, section, entry.per_area.value, _value(entry.recess, 0.0))

    @contextmanager
    def _within(self, field_name: str) -> Iterator[None]:
        try:
            yield
        except CoreError as error:
            raise error.within(field_name) from None

    def _framed(
        self, entry: hf.FramedEntry, place: str, materials: Mapping[str, Material]
    ) -> FramedLayer:
        framed = entry.framed
        framing = self._found(materials, framed.framing, f"{place}.framing", MATERIAL)
        fill = None
        if framed.fill != "air":
            fill = self._found(materials, framed.fill, f"{place}.fill", MATERIAL)
        return FramedLayer(
            framing=framing,
            fraction=framed.fraction.value,
            depth=framed.depth.value,
            fill=fill,
            fill_thickness=_value(framed.fill_thickness),
            open=framed.open,
            aligned=framed.aligned,
            empty_share=_value(framed.empty_share, 0.0),
            open_ends=framed.open_ends,
            name=entry.name,
            label_resistance=_value(entry.label_resistance),
        )

    def _house(
        self,
        climate: Climate | None,
        assemblies: Mapping[str, Assembly | FixedTransmittance | None],
    ) -> House | None:
        file = self.file
        gains = file.gains or hf.Gains()
        spaces = self._spaces(climate)
        components = self._components(assemblies)
        junctions = self._junctions()
        heating = self._plant(file.heating, "heating")
        cooling = self._plant(file.cooling, "cooling")
        prices = self._factors(file.prices, "prices")
        carbon = self._factors(file.carbon, "carbon")
        leakage, ventilation = self._air(spaces)
        if self.faults or climate is None or leakage is None or heating is None:
            return None
        with self._at(""):
            return House(
                name=file.name,
                climate=climate,
                heating_set_point=file.set_points.heating.value,
                cooling_set_point=file.set_points.cooling.value,
                floor_area=file.floor_area.value,
                bedrooms=file.bedrooms.value,
                storeys=file.storeys.value,
                spaces=spaces,
                components=components,
                leakage=leakage,
                heating=heating,
                junctions=junctions,
                ventilation=ventilation,
                cooling=cooling,
                films=FILM_SETS[file.films],
                people_and_appliances=_value(gains.people_and_appliances),
                heat_capacity=HEAT_CAPACITY[file.thermal_mass],
                prices=prices,
                carbon=carbon,
            )
        return None

    def _spaces(self, climate: Climate | None) -> tuple[Space, ...]:
        spaces = []
        for name, entry in self.file.spaces.items():
            place = written(["spaces", name])
            if name in (OUTDOORS, GROUND):
                self._note(place, _("outdoors and the ground exist by themselves"))
            if entry.inside and entry.air_changes is not None:
                words = _("air changes are given for buffers only; a house's own stand under air")
                self._note(f"{place}.air_changes", words)
            if entry.inside and entry.crawl_vents is not None:
                words = _("vents are given for buffers only")
                self._note(f"{place}.crawl_vents", words)
            with self._at(place):
                air_changes = self._air_changes(entry, climate)
                spaces.append(Space(name, entry.inside, entry.volume.value, air_changes))
        if not any(entry.inside for entry in self.file.spaces.values()):
            self._note("spaces", _("at least one space must be inside the thermal boundary"))
        return tuple(spaces)

    @staticmethod
    def _air_changes(entry: hf.SpaceEntry, climate: Climate | None) -> float:
        """Of a buffer with outdoors, 1/h: as typed, or through the vents of a crawlspace."""
        vents = entry.crawl_vents
        if vents is None:
            return _value(entry.air_changes, 0.0)
        opening, perimeter = _value(vents.opening_area, 0.0), _value(vents.perimeter, 0.0)
        wind = 0.0 if climate is None else float(annual_mean(climate.wind_speed))
        shielding = CRAWL_SHIELDING[vents.shielding]
        flow = crawlspace_flow(opening, perimeter, wind, shielding)
        return float(flow) * 3600.0 / entry.volume.value if entry.volume.value > 0.0 else 0.0

    def _components(
        self, assemblies: Mapping[str, Assembly | FixedTransmittance | None]
    ) -> tuple[Component, ...]:
        components = []
        for index, entry in enumerate(self.file.components):
            place = f"components[{index}]"
            with self._at(place):
                built = self._construction(entry, place, assemblies)
                components.append(_component(entry, built, self._ground(entry, place)))
        return tuple(components)

    def _construction(
        self,
        entry: hf.ComponentEntry,
        place: str,
        assemblies: Mapping[str, Assembly | FixedTransmittance | None],
    ) -> Assembly | FixedTransmittance:
        if entry.u_value is not None:
            return _with_storm(FixedTransmittance(entry.u_value.value), entry.storm_u_value)
        name = entry.assembly or ""
        built = self._found(assemblies, name, f"{place}.assembly", ASSEMBLY)
        if built is None:
            raise _Unknown  # refused where it stands
        if entry.storm_u_value is None:
            return built
        if not isinstance(built, FixedTransmittance):
            self._note(f"{place}.storm_u_value", STORM_OVER_LAYERS)
            return built
        return _with_storm(built, entry.storm_u_value)

    def _ground(self, entry: hf.ComponentEntry, place: str) -> GroundContact | None:
        if Kind(entry.kind) not in GROUND_KINDS:
            for name in ("exposed_perimeter", "depth_below_grade", "soil", "edge_insulation"):
                if getattr(entry, name) is not None:
                    words = _("only a slab, basement wall or basement floor has this")
                    self._note(f"{place}.{name}", words)
            return None
        soil = entry.soil or DEFAULT_SOIL
        capacity = SOIL_HEAT_CAPACITY[soil]
        if entry.soil_conductivity is not None:
            capacity = UNKNOWN_HEAT_CAPACITY
        edge = None
        if entry.edge_insulation is not None:
            with self._within("edge_insulation"):
                edge = _edge_insulation(entry.edge_insulation)
        return GroundContact(
            exposed_perimeter=_value(entry.exposed_perimeter),
            depth_below_grade=_value(entry.depth_below_grade),
            soil_conductivity=_value(entry.soil_conductivity, SOIL_CONDUCTIVITY[soil]),
            soil_heat_capacity=capacity,
            wall_thickness=_value(entry.wall_thickness, DEFAULT_WALL_THICKNESS),
            edge_insulation=edge,
        )

    def _junctions(self) -> tuple[Junction, ...]:
        junctions = []
        for index, entry in enumerate(self.file.junctions):
            with self._at(f"junctions[{index}]"):
                ends = entry.from_, entry.to
                junctions.append(Junction(entry.name, *ends, entry.length.value, entry.psi.value))
        return tuple(junctions)

    def _plant(self, entry: hf.PlantEntry | None, place: str) -> Plant | None:
        if entry is None:
            return None
        with self._at(place):
            distribution = _value(entry.distribution, 1.0)
            return Plant(entry.fuel, entry.efficiency.value, distribution, entry.ducts_in)
        return None

    def _factors(self, entries: Mapping[str, hf.Entry], place: str) -> dict[str, float]:
        for fuel, entry in entries.items():
            if not 0.0 <= entry.value <= MOST_PER_KWH:
                words = _("must be 0 or more, and at most {most} a kWh").format(most=MOST_PER_KWH)
                self._note(written([place, fuel]), words)
        return {fuel: entry.value for fuel, entry in entries.items()}

    def _air(self, spaces: tuple[Space, ...]) -> tuple[Leakage | None, Ventilation]:
        air = self.file.air
        volume = sum(float(space.volume) for space in spaces if space.inside)
        leakage: Leakage | None = None
        with self._at("air"):
            leakage = _new_leakage(air).leakage(volume, air.shelter_class)
        return leakage, self._ventilation(air.ventilation, "air.ventilation") or Ventilation()

    def _ventilation(self, entry: hf.VentilationEntry | None, place: str) -> Ventilation | None:
        if entry is None:
            return None
        with self._at(place):
            return Ventilation(entry.flow.value, _value(entry.heat_recovery, 0.0), entry.balanced)
        return None

    # Strategies

    def _strategies(
        self,
        materials: Mapping[str, Material],
        assemblies: Mapping[str, Assembly | FixedTransmittance | None],
    ) -> dict[int, Strategy]:
        """Strategies without fault, by their place in the file."""
        strategies: dict[int, Strategy] = {}
        names: set[str] = set()
        for index, entry in enumerate(self.file.strategies):
            place = f"strategies[{index}]"
            if entry.name in names:
                self._note(f"{place}.name", _("another strategy has this name"))
            names.add(entry.name)
            before = len(self.faults)
            with self._at(place):
                made = self._strategy(entry, place, materials, assemblies)
                if len(self.faults) == before:
                    strategies[index] = made
        return strategies

    def _strategy(
        self,
        entry: hf.StrategyEntry,
        place: str,
        materials: Mapping[str, Material],
        assemblies: Mapping[str, Assembly | FixedTransmittance | None],
    ) -> Strategy:
        changes: dict[str, Change] = {}
        for name, change in entry.changes.items():
            change_place = f"{place}.{written(['changes', name])}"
            with self._at(change_place):
                changes[name] = self._change(change, change_place, materials, assemblies)
        edges = {}
        for name, edge in (entry.edge_insulation or {}).items():
            with self._at(f"{place}.{written(['edge_insulation', name])}"):
                edges[name] = _edge_insulation(edge)
        has_leakage = entry.ach50 or entry.cfm50 or entry.air_changes
        return Strategy(
            name=entry.name,
            recipe=entry.recipe,
            changes=changes,
            inside=tuple(entry.inside or ()),
            leakage=_new_leakage(entry) if has_leakage else None,
            ventilation=self._ventilation(entry.ventilation, f"{place}.ventilation"),
            heating=self._plant(entry.heating, f"{place}.heating"),
            cooling=self._plant(entry.cooling, f"{place}.cooling"),
            air_changes={
                name: space.air_changes.value for name, space in (entry.spaces or {}).items()
            },
            psi={name: psi.value for name, psi in (entry.psi or {}).items()},
            openings={
                name: OpeningChange(
                    u_value=_value(opening.u_value),
                    shgc=_value(opening.shgc),
                    storm=_value(opening.storm_u_value),
                )
                for name, opening in (entry.openings or {}).items()
            },
            edge_insulation=edges,
        )

    def _change(
        self,
        entry: hf.ChangeEntry,
        place: str,
        materials: Mapping[str, Material],
        assemblies: Mapping[str, Assembly | FixedTransmittance | None],
    ) -> Change:
        if isinstance(entry, str):
            built = self._found(assemblies, entry, place, ASSEMBLY)
            if built is None:
                raise _Unknown  # refused where it stands
            return built
        fill = None
        if entry.fill is not None:
            fill = self._found(materials, entry.fill, f"{place}.fill", MATERIAL)
        return LayerChange(
            remove=tuple(entry.remove or ()),
            fill=fill,
            fill_thickness=_value(entry.fill_thickness),
            fill_label=_value(entry.fill_label_resistance),
            inside=self._layers(entry.inside or [], f"{place}.inside", materials),
            outside=self._layers(entry.outside or [], f"{place}.outside", materials),
        )


@overload
def _value(entry: hf.Entry | None) -> float | None: ...
@overload
def _value(entry: hf.Entry | None, default: float) -> float: ...
def _value(entry: hf.Entry | None, default: float | None = None) -> float | None:
    return default if entry is None else entry.value


def _with_storm(built: FixedTransmittance, storm: hf.Entry | None) -> FixedTransmittance:
    """The whole of an opening and the storm over it."""
    if storm is None:
        return built
    return FixedTransmittance(storm_window_transmittance(built.u_value, storm.value))


def _values(entries: list[hf.Entry]) -> Array:
    return np.array([entry.value for entry in entries])


def _known_values(entries: list[hf.Entry] | None) -> Array | None:
    return None if entries is None else _values(entries)


def climate_of(entry: hf.StationClimate | hf.OwnClimate | hf.RegionClimate) -> Climate:
    """The climate that is meant. Raises: BadWeather's kin, BadFile, where it cannot be."""
    if isinstance(entry, hf.OwnClimate):
        return _own_climate(entry)
    station = entry.station if isinstance(entry, hf.StationClimate) else ""
    found = seeds.station_climate(station)
    if found is None:
        raise BadFile([Fault("climate", None, _("no station of the seed data has this number"))])
    return found


def _own_climate(entry: hf.OwnClimate) -> Climate:
    return Climate(
        name=entry.name,
        latitude=entry.latitude.value,
        longitude=entry.longitude.value,
        elevation=entry.elevation.value,
        mean_temperature=_values(entry.mean_temperature),
        temperature_deviation=_known_values(entry.temperature_deviation),
        horizontal_irradiation=_values(entry.horizontal_irradiation),
        wind_speed=_values(entry.wind_speed),
        humidity_ratio=_known_values(entry.humidity_ratio),
        sun_variation=_known_values(entry.sun_variation),
        diurnal_deviation=_known_values(entry.diurnal_deviation),
        heating_design_temperature=_value(entry.heating_design_temperature),
        cooling_design_temperature=_value(entry.cooling_design_temperature),
        cooling_daily_range=_value(entry.cooling_daily_range, DEFAULT_DAILY_RANGE),
        sensible_heat_ratio=_value(entry.sensible_heat_ratio),
        iecc_zone=entry.iecc_zone,
    )


def _component(
    entry: hf.ComponentEntry,
    construction: Assembly | FixedTransmittance,
    ground: GroundContact | None,
) -> Component:
    shading: float | Array = 1.0
    if isinstance(entry.shading, list):
        shading = _values(entry.shading)
    elif entry.shading is not None:
        shading = entry.shading.value
    return Component(
        name=entry.name,
        kind=Kind(entry.kind),
        from_space=entry.from_,
        to_space=entry.to,
        area=entry.area.value,
        construction=construction,
        azimuth=_value(entry.azimuth),
        tilt=_value(entry.tilt),
        shgc=_value(entry.shgc),
        shading=shading,
        solar_absorptance=_value(entry.solar_absorptance, DEFAULT_ABSORPTANCE),
        ground=ground,
    )


def _edge_insulation(entry: hf.EdgeInsulationEntry) -> EdgeInsulation:
    vertical = entry.depth is not None
    extent = entry.depth or entry.width
    assert extent is not None  # the file's own check
    return EdgeInsulation(
        resistance=entry.resistance.value,
        extent=extent.value,
        vertical=vertical,
        thickness=_value(entry.thickness, 0.0),
    )


def _new_leakage(entry: hf.AirEntry | hf.StrategyEntry) -> NewLeakage:
    return NewLeakage(
        air_changes_at_50_pa=_value(entry.ach50),
        flow_at_50_pa=_value(entry.cfm50),
        air_changes=_value(entry.air_changes),
    )
