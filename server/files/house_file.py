"""The house file, `warmside-house/1`, as typed: every text and basis is kept as it was written."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from gettext import gettext as _
from typing import Annotated, Any, Literal, TypeAlias, TypeVar, cast

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Discriminator,
    Field,
    GetCoreSchemaHandler,
    SerializationInfo,
    SerializerFunctionWrapHandler,
    Tag,
    ValidationInfo,
    model_serializer,
    model_validator,
)
from pydantic_core import core_schema

from server.units import read_quantity

FORMAT = "warmside-house/1"
STORED = "stored"  # the context in which parts carry their permanent keys
BASES = ("measured", "document", "default", "guess")


@dataclass(frozen=True, slots=True)
class Entry:
    """One quantity: what was typed, its value in the core's unit, and its basis where given."""

    typed: str | int | float
    value: float
    basis: str | None = None

    def as_written(self) -> Any:
        """What the file holds for it."""
        return self.typed if self.basis is None else {"value": self.typed, "basis": self.basis}


def _entry(kind: str | None, given: Any) -> Entry:
    if isinstance(given, Entry):
        return given
    if not isinstance(given, dict):
        return Entry(given, _read(kind, given))
    if set(given) != {"value", "basis"}:
        raise ValueError(_("an object here has exactly the keys value and basis"))
    if given["basis"] not in BASES:
        allowed = ", ".join(BASES)
        raise ValueError(_("the basis is one of {allowed}").format(allowed=allowed))
    return Entry(given["value"], _read(kind, given["value"]), given["basis"])


def _read(kind: str | None, typed: Any) -> float:
    if kind is not None:
        if not isinstance(typed, str):
            raise ValueError(_("a text with a number and its unit is needed"))
        return read_quantity(typed, kind)
    if isinstance(typed, bool) or not isinstance(typed, int | float):
        raise ValueError(_("a plain number is needed, without unit and without quotes"))
    try:
        value = float(typed)
    except OverflowError:
        value = math.inf
    if not math.isfinite(value):
        raise ValueError(_("the number must be finite"))
    return value


@dataclass(frozen=True, slots=True)
class Typed:
    """Marks a field as a quantity of a kind; None is a plain number."""

    kind: str | None

    def read(self, given: Any) -> Entry:
        """The entry of what the file holds."""
        return _entry(self.kind, given)

    def __get_pydantic_core_schema__(
        self, _source: Any, _handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(
            self.read,
            serialization=core_schema.plain_serializer_function_ser_schema(Entry.as_written),
        )


@dataclass(frozen=True, slots=True)
class TypedFlowAt50Pa(Typed):
    """cfm50 is named after its unit, so a plain number of it is in cubic feet a minute."""

    kind: str | None = "flow"

    def read(self, given: Any) -> Entry:
        """The entry of what the file holds."""
        if isinstance(given, Entry):
            return given
        bare = given["value"] if isinstance(given, dict) and "value" in given else given
        if isinstance(bare, str):
            return _entry("flow", given)
        entry = _entry(None, given)
        return Entry(entry.typed, entry.value * read_quantity("1 cfm", "flow"), entry.basis)


Number: TypeAlias = Annotated[Entry, Typed(None)]
Length: TypeAlias = Annotated[Entry, Typed("thickness")]
Area: TypeAlias = Annotated[Entry, Typed("area")]
Volume: TypeAlias = Annotated[Entry, Typed("volume")]
Temperature: TypeAlias = Annotated[Entry, Typed("temperature")]
TemperatureDifference: TypeAlias = Annotated[Entry, Typed("temperature_difference")]
Conductivity: TypeAlias = Annotated[Entry, Typed("conductivity")]
LinearTransmittance: TypeAlias = Annotated[Entry, Typed("linear_transmittance")]
UValue: TypeAlias = Annotated[Entry, Typed("u_value")]
Resistance: TypeAlias = Annotated[Entry, Typed("resistance")]
Flow: TypeAlias = Annotated[Entry, Typed("flow")]
FlowAt50Pa: TypeAlias = Annotated[Entry, TypedFlowAt50Pa()]
AirChangeRate: TypeAlias = Annotated[Entry, Typed("air_change_rate")]
Speed: TypeAlias = Annotated[Entry, Typed("speed")]
Irradiation: TypeAlias = Annotated[Entry, Typed("irradiation")]
Angle: TypeAlias = Annotated[Entry, Typed("angle")]
Power: TypeAlias = Annotated[Entry, Typed("power")]
Price: TypeAlias = Annotated[Entry, Typed("price_of_energy")]
Carbon: TypeAlias = Annotated[Entry, Typed("carbon_of_energy")]
Density: TypeAlias = Annotated[Entry, Typed("density")]
SpecificHeat: TypeAlias = Annotated[Entry, Typed("specific_heat")]
HumidityRatio: TypeAlias = Annotated[Entry, Typed("humidity_ratio")]
OpeningArea: TypeAlias = Annotated[Entry, Typed("opening_area")]
CountPerArea: TypeAlias = Annotated[Entry, Typed("count_per_area")]
Pressure: TypeAlias = Annotated[Entry, Typed("pressure")]
CrossSection: TypeAlias = Annotated[Entry, Typed("cross_section")]

_NO_TEXT = re.compile("[\0\ud800-\udfff]")  # what a database cannot keep


def _storable(text: str) -> str:
    if _NO_TEXT.search(text):
        raise ValueError(_("this holds a character that is none"))
    return text


Text: TypeAlias = Annotated[str, AfterValidator(_storable)]
Name: TypeAlias = Annotated[str, Field(min_length=1, max_length=200), AfterValidator(_storable)]


T = TypeVar("T")
Twelve = Annotated[list[T], Field(min_length=12, max_length=12)]


class _Part(BaseModel):
    model_config = ConfigDict(
        extra="forbid", populate_by_name=True, strict=True, arbitrary_types_allowed=True
    )


class _Keyed(_Part):
    """A part of a stored house has a permanent key; a house file knows none."""

    key: str | None = None

    @model_validator(mode="before")
    @classmethod
    def _keys_are_not_from_files(cls, given: Any, info: ValidationInfo) -> Any:
        if isinstance(given, dict) and "key" in given and info.context != STORED:
            raise ValueError(_("the key “key” is not known here"))
        return given

    @model_serializer(mode="wrap")
    def _with_key_only_where_stored(
        self, handler: SerializerFunctionWrapHandler, info: SerializationInfo
    ) -> dict[str, Any]:
        written: dict[str, Any] = handler(self)
        if info.context != STORED:
            written.pop("key", None)
        return written


def _one_of(part: BaseModel, names: tuple[str, ...], *, needed: bool = True) -> None:
    given = [name for name in names if getattr(part, name) is not None]
    if len(given) > 1 or (needed and not given):
        listed = ", ".join(names)
        words = _("exactly one of {names}") if needed else _("at most one of {names}")
        raise ValueError(words.format(names=listed))


class RegionClimate(_Part):
    region: Name


class StationClimate(_Part):
    station: Name
    iecc_zone: Name | None = None


class TakenDefaults(_Part):
    """Whose defaults the house has: a region of the firm, and which version of it."""

    region: Name
    version: Annotated[int, Field(ge=1, le=1_000_000)]


class OwnClimate(_Part):
    name: Name
    latitude: Angle
    longitude: Angle
    elevation: Length
    mean_temperature: Twelve[Temperature]
    temperature_deviation: Twelve[TemperatureDifference] | None = None
    horizontal_irradiation: Twelve[Irradiation]
    wind_speed: Twelve[Speed]
    humidity_ratio: Twelve[HumidityRatio] | None = None
    sun_variation: Twelve[Number] | None = None
    diurnal_deviation: Twelve[TemperatureDifference] | None = None
    heating_design_temperature: Temperature | None = None
    cooling_design_temperature: Temperature | None = None
    cooling_daily_range: TemperatureDifference | None = None
    sensible_heat_ratio: Number | None = None
    iecc_zone: Name | None = None


def _climate_tag(given: Any) -> str:
    if isinstance(given, BaseModel):
        given = given.model_fields_set
    if isinstance(given, dict | set):
        for key in ("region", "station"):
            if key in given:
                return f"<{key}>"
    return "<own>"


ClimateEntry: TypeAlias = Annotated[
    Annotated[RegionClimate, Tag("<region>")]
    | Annotated[StationClimate, Tag("<station>")]
    | Annotated[OwnClimate, Tag("<own>")],
    Discriminator(_climate_tag),
]


class SetPoints(_Part):
    heating: Temperature
    cooling: Temperature


class Gains(_Part):
    people_and_appliances: Power | None = None


class CrawlVentsEntry(_Part):
    """Vents along the walls of a crawlspace, ISO 13370: opening for each length of perimeter.

    They let air through once both are known.
    """

    opening_area: OpeningArea | None = None
    perimeter: Length | None = None
    shielding: Literal["sheltered", "average", "exposed"] = "average"


class SpaceEntry(_Keyed):
    inside: bool
    volume: Volume
    air_changes: AirChangeRate | None = None
    crawl_vents: CrawlVentsEntry | None = None

    @model_validator(mode="after")
    def _air_is_given_once(self) -> SpaceEntry:
        _one_of(self, ("air_changes", "crawl_vents"), needed=False)
        return self


class VentilationEntry(_Part):
    flow: Flow
    heat_recovery: Number | None = None
    balanced: bool = True


class AirEntry(_Part):
    ach50: Number | None = None
    cfm50: FlowAt50Pa | None = None
    air_changes: AirChangeRate | None = None
    shelter_class: Annotated[int, Field(ge=1, le=5)] = 3
    ventilation: VentilationEntry | None = None

    @model_validator(mode="after")
    def _has_one_leakage(self) -> AirEntry:
        _one_of(self, ("ach50", "cfm50", "air_changes"))
        return self


class PlantEntry(_Part):
    fuel: Name
    efficiency: Number
    distribution: Number | None = None
    ducts_in: Name | None = None


GroupName: TypeAlias = Literal[
    "structure",
    "sheathing",
    "cladding",
    "plaster",
    "board",
    "batt",
    "dense-pack",
    "loose-fill",
    "rigid-foam",
    "sprayed-foam",
    "rigid-mineral-wool",
    "rigid-natural",
    "rigid-mineral",
    "membrane",
    "air-tight",
    "glass",
    "masonry-old",
    "masonry-new",
    "concrete",
    "roofing",
    "flooring",
    "soil",
    "metal",
]


class MaterialEntry(_Keyed):
    conductivity: Conductivity
    density: Density | None = None
    specific_heat: SpecificHeat | None = None
    vapour_resistance_factor: Number | None = None
    compressive_strength: Pressure | None = None
    reaction_to_fire: Literal["A1", "A2", "B", "C", "D", "E", "F"] | None = None
    group: GroupName | None = None
    source: Text | None = None


class _LayerPart(_Keyed):
    name: Name | None = None
    label_resistance: Resistance | None = None


class FastenersEntry(_Part):
    per_area: CountPerArea
    material: Name | None = None
    diameter: Length | None = None
    cross_section: CrossSection | None = None
    recess: Length | None = None

    @model_validator(mode="after")
    def _has_one_size(self) -> FastenersEntry:
        _one_of(self, ("diameter", "cross_section"), needed=False)
        return self


class SolidEntry(_LayerPart):
    material: Name
    thickness: Length
    thinnest: Length | None = None
    fasteners: FastenersEntry | None = None


class AirLayerEntry(_LayerPart):
    air_layer: Literal["unventilated", "slightly ventilated", "well ventilated"]
    thickness: Length
    opening_area: OpeningArea | None = None


class Framing(_Part):
    framing: Name
    fraction: Number
    fill: Name
    depth: Length
    fill_thickness: Length | None = None
    open: bool = False
    aligned: bool = False
    empty_share: Number | None = None
    open_ends: bool = False


class FramedEntry(_LayerPart):
    framed: Framing


class ResistanceEntry(_LayerPart):
    resistance: Resistance


_LAYER_KEYS = ("material", "air_layer", "framed", "resistance")


def _layer_tag(given: Any) -> str | None:
    if isinstance(given, BaseModel):
        given = given.model_fields_set
    if isinstance(given, dict | set):
        keys = [key for key in _LAYER_KEYS if key in given]
        if len(keys) == 1:
            return f"<{keys[0]}>"
    return None


LayerEntry: TypeAlias = Annotated[
    Annotated[SolidEntry, Tag("<material>")]
    | Annotated[AirLayerEntry, Tag("<air_layer>")]
    | Annotated[FramedEntry, Tag("<framed>")]
    | Annotated[ResistanceEntry, Tag("<resistance>")],
    Discriminator(_layer_tag),
]


class AssemblyEntry(_Keyed):
    layers: Annotated[list[LayerEntry], Field(min_length=1)] | None = None
    u_value: UValue | None = None
    storm_u_value: UValue | None = None

    @model_validator(mode="after")
    def _has_one_form(self) -> AssemblyEntry:
        _one_of(self, ("layers", "u_value"))
        return self


class EdgeInsulationEntry(_Part):
    resistance: Resistance
    width: Length | None = None
    depth: Length | None = None
    thickness: Length | None = None

    @model_validator(mode="after")
    def _has_one_extent(self) -> EdgeInsulationEntry:
        _one_of(self, ("width", "depth"))
        return self


KindName: TypeAlias = Literal[
    "wall",
    "roof",
    "ceiling",
    "floor",
    "door",
    "window",
    "skylight",
    "slab",
    "basement wall",
    "basement floor",
    "partition",
    "inner floor",
]


def _shading_tag(given: Any) -> str:
    return "<twelve>" if isinstance(given, list) else "<one>"


Shading: TypeAlias = Annotated[
    Annotated[Number, Tag("<one>")] | Annotated[Twelve[Number], Tag("<twelve>")],
    Discriminator(_shading_tag),
]


class ComponentEntry(_Keyed):
    name: Name
    kind: KindName
    from_: Name = Field(alias="from")
    to: Name
    area: Area
    azimuth: Angle | None = None
    tilt: Angle | None = None
    assembly: Name | None = None
    u_value: UValue | None = None
    storm_u_value: UValue | None = None
    shgc: Number | None = None
    shading: Shading | None = None
    solar_absorptance: Number | None = None
    exposed_perimeter: Length | None = None
    depth_below_grade: Length | None = None
    soil: Literal["clay", "sand", "rock"] | None = None
    soil_conductivity: Conductivity | None = None
    wall_thickness: Length | None = None
    edge_insulation: EdgeInsulationEntry | None = None
    access: Literal["open", "closed"] | None = None
    reached_from: Literal["inside", "outside"] | None = None
    wetness: Literal["dry", "damp", "wet"] | None = None
    condition: list[Text] | None = None

    @model_validator(mode="after")
    def _has_one_construction(self) -> ComponentEntry:
        _one_of(self, ("assembly", "u_value"))
        _one_of(self, ("soil", "soil_conductivity"), needed=False)
        return self


class JunctionEntry(_Keyed):
    name: Name
    from_: Name = Field(alias="from")
    to: Name
    length: Length
    psi: LinearTransmittance


class LayerChangeEntry(_Part):
    remove: list[Name] | None = None
    fill: Name | None = None
    fill_thickness: Length | None = None
    fill_label_resistance: Resistance | None = None
    inside: list[LayerEntry] | None = None
    outside: list[LayerEntry] | None = None

    @model_validator(mode="after")
    def _does_something(self) -> LayerChangeEntry:
        if not (self.remove or self.fill or self.fill_thickness or self.inside or self.outside):
            raise ValueError(
                _("a change does something: remove, fill, fill_thickness, inside or outside")
            )
        return self


def _change_tag(given: Any) -> str:
    return "<assembly>" if isinstance(given, str) else "<layers>"


ChangeEntry: TypeAlias = Annotated[
    Annotated[Name, Tag("<assembly>")] | Annotated[LayerChangeEntry, Tag("<layers>")],
    Discriminator(_change_tag),
]


class StrategySpaceEntry(_Part):
    air_changes: AirChangeRate


class OpeningEntry(_Part):
    u_value: UValue | None = None
    storm_u_value: UValue | None = None
    shgc: Number | None = None

    @model_validator(mode="after")
    def _changes_something(self) -> OpeningEntry:
        if self.u_value is None and self.storm_u_value is None and self.shgc is None:
            raise ValueError(_("at least one of u_value, storm_u_value, shgc"))
        return self


class StrategyEntry(_Keyed):
    name: Name
    recipe: Literal["cavity-only", "exterior continuous", "hybrid", "own"]
    changes: dict[Name, ChangeEntry] = Field(default_factory=dict)
    inside: list[Name] | None = None
    ach50: Number | None = None
    cfm50: FlowAt50Pa | None = None
    air_changes: AirChangeRate | None = None
    ventilation: VentilationEntry | None = None
    heating: PlantEntry | None = None
    cooling: PlantEntry | None = None
    spaces: dict[Name, StrategySpaceEntry] | None = None
    psi: dict[Name, LinearTransmittance] | None = None
    openings: dict[Name, OpeningEntry] | None = None
    edge_insulation: dict[Name, EdgeInsulationEntry] | None = None

    @model_validator(mode="after")
    def _has_one_leakage(self) -> StrategyEntry:
        _one_of(self, ("ach50", "cfm50", "air_changes"), needed=False)
        return self

    def target_of(self, component: ComponentEntry) -> Name | None:
        """Under which name a change stands that acts on a component: its own, or its kind's."""
        named = (name for name in (component.name, component.kind) if name in self.changes)
        return next(named, None)

    def change_of(self, component: ComponentEntry) -> ChangeEntry | None:
        """What is done to a component; None where it stays, or is given the assembly it has."""
        target = self.target_of(component)
        change = None if target is None else self.changes[target]
        return None if change == component.assembly else change


class SeenEntry(_Part):
    """What was looked at in the house before anything is closed up; what is left out was not.

    below_grade: walls and floor of a basement or crawlspace. combustion: the one that draws most
    on the air of the rooms. chimney: flues that stay in use. wiring: replaced or dead where an
    electrician has replaced old wiring or certified that it is dead. beams_in_masonry: joists or
    beams that end in an outside wall of brick or stone. inside_paint: on the linings of outside
    walls, latex where nothing is said.
    """

    gutters: Literal["sound", "leaking", "missing"] | None = None
    ground_slope: Literal["away from the house", "level", "toward the house"] | None = None
    flashing: Literal["sound", "doubtful"] | None = None
    below_grade: Literal["dry", "damp", "wet"] | None = None
    crawl_ground_cover: Literal["covered", "bare"] | None = None
    termites: Literal["no signs", "signs"] | None = None
    radon: Literal["below 4 pCi/L", "4 pCi/L or more"] | None = None
    combustion: Literal["none", "sealed", "open flue"] | None = None
    chimney: Literal["none in use", "lined", "unlined"] | None = None
    flues_through_attic: bool | None = None
    wiring: Literal["modern", "replaced or dead", "knob-and-tube"] | None = None
    loose_fill: Literal["no vermiculite", "vermiculite"] | None = None
    asbestos: Literal["tested, none", "suspected", "found"] | None = None
    lead_paint: Literal["tested, none", "found"] | None = None
    framing: Literal["platform", "balloon"] | None = None
    plaster: Literal["sound", "loose"] | None = None
    inside_paint: Literal["none", "latex", "oil", "vapour retarder"] | None = None
    veneer_weeps: Literal["open", "blocked or none"] | None = None
    beams_in_masonry: bool | None = None


class IndoorHumidityEntry(_Part):
    """How humid the rooms are: a class of ISO 13788, or twelve relative humidities."""

    humidity_class: Annotated[int, Field(ge=1, le=5)] | None = None
    relative_humidity: Twelve[Number] | None = None

    @model_validator(mode="after")
    def _is_given_once(self) -> IndoorHumidityEntry:
        _one_of(self, ("humidity_class", "relative_humidity"))
        return self


class EnergyCodeEntry(_Part):
    """The energy code that is held beside the strategies, and limits of one's own in place of its.

    shgc: at most; all others U, at most.
    """

    edition: Literal["IECC 2021", "IECC 2018"] = "IECC 2021"
    window: UValue | None = None
    skylight: UValue | None = None
    shgc: Number | None = None
    ceiling: UValue | None = None
    frame_wall: UValue | None = None
    mass_wall: UValue | None = None
    floor: UValue | None = None
    basement_wall: UValue | None = None
    crawl_wall: UValue | None = None


ThermalMass: TypeAlias = Literal["very light", "light", "medium", "heavy", "very heavy"]


class HouseFile(_Part):
    """One house and its strategies, as written."""

    format: Literal["warmside-house/1"]
    name: Name
    year_built: Annotated[int, Field(ge=1600, le=2100)] | None = None
    climate: ClimateEntry
    defaults: TakenDefaults | None = None
    set_points: SetPoints
    floor_area: Area
    bedrooms: Number
    storeys: Number
    films: Literal["ISO 6946", "ASHRAE winter"] = "ISO 6946"
    thermal_mass: ThermalMass = "light"
    gains: Gains | None = None
    spaces: Annotated[dict[Name, SpaceEntry], Field(min_length=1)]
    air: AirEntry
    heating: PlantEntry
    cooling: PlantEntry | None = None
    seen: SeenEntry | None = None
    indoor_humidity: IndoorHumidityEntry | None = None
    energy_code: EnergyCodeEntry | None = None
    prices: dict[Name, Price] = Field(default_factory=dict)
    carbon: dict[Name, Carbon] = Field(default_factory=dict)
    materials: dict[Name, MaterialEntry] = Field(default_factory=dict)
    assemblies: dict[Name, AssemblyEntry] = Field(default_factory=dict)
    components: Annotated[list[ComponentEntry], Field(min_length=1)]
    junctions: list[JunctionEntry] = Field(default_factory=list)
    strategies: list[StrategyEntry] = Field(default_factory=list)

    def as_written(self) -> dict[str, Any]:
        """The file's content, every value as it was typed; what is null or empty is left out."""
        return self._dumped(None)

    def as_stored(self) -> dict[str, Any]:
        """The same with the permanent keys of its parts."""
        return self._dumped(STORED)

    @classmethod
    def from_stored(cls, document: Any) -> HouseFile:
        """The house of a document with keys. Raises pydantic.ValidationError."""
        return cls.model_validate(document, context=STORED)

    def _dumped(self, context: str | None) -> dict[str, Any]:
        dumped = self.model_dump(
            mode="python", by_alias=True, exclude_unset=True, exclude_none=True, context=context
        )
        return cast("dict[str, Any]", _without_empty(dumped))


def _without_empty(part: Any) -> Any:
    """The same without empty lists and objects, which say no more than none."""
    if isinstance(part, dict):
        within = {name: _without_empty(each) for name, each in part.items()}
        return {name: each for name, each in within.items() if each not in ({}, [])}
    if isinstance(part, list):
        return [_without_empty(each) for each in part]
    return part
