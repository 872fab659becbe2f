"""The tables. Attributes are named as in the house file; `__` steps into a nested object."""

from __future__ import annotations

from datetime import datetime
from typing import ClassVar

from sqlalchemy import (
    CheckConstraint,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    LargeBinary,
    MetaData,
    String,
    UniqueConstraint,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, declared_attr, mapped_column

from server.files.house_file import Entry
from server.storage.columns import KEY, NAME, UtcTime, Words, quantity


class Row(DeclarativeBase):
    """The base of all tables; constraints have names, so that migrations can change them."""

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "ck": "ck_%(table_name)s_%(constraint_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s",
            "pk": "pk_%(table_name)s",
        }
    )


# Firms and people


class FirmRow(Row):
    """A firm: everything else belongs to one."""

    __tablename__ = "firms"

    key: Mapped[str] = mapped_column(KEY, primary_key=True)
    name: Mapped[str] = mapped_column(NAME)
    created_at: Mapped[datetime] = mapped_column(UtcTime)


class PersonRow(Row):
    """Someone of a firm who can sign in."""

    __tablename__ = "people"
    __table_args__ = (
        UniqueConstraint("firm_key", "key"),
        CheckConstraint("role IN ('contractor', 'lead')", name="role"),
        CheckConstraint("units IN ('ip', 'si')", name="units"),
    )

    key: Mapped[str] = mapped_column(KEY, primary_key=True)
    firm_key: Mapped[str] = mapped_column(ForeignKey("firms.key"), index=True)
    name: Mapped[str] = mapped_column(NAME)
    email: Mapped[str] = mapped_column(String(254), unique=True)
    role: Mapped[str] = mapped_column(String(10))
    units: Mapped[str] = mapped_column(String(2))
    password_hash: Mapped[str | None] = mapped_column(String(200))
    created_at: Mapped[datetime] = mapped_column(UtcTime)
    disabled_at: Mapped[datetime | None] = mapped_column(UtcTime)


class _OfAPerson:
    """A row that belongs to a person, and so to the person's firm."""

    token_hash: Mapped[str] = mapped_column(String(64), primary_key=True)
    firm_key: Mapped[str] = mapped_column(KEY)
    person_key: Mapped[str] = mapped_column(KEY)
    expires_at: Mapped[datetime] = mapped_column(UtcTime)

    @declared_attr.directive
    def __table_args__(cls) -> tuple[ForeignKeyConstraint, Index]:  # noqa: N805
        columns = ["firm_key", "person_key"]
        return (
            ForeignKeyConstraint(columns, ["people.firm_key", "people.key"], ondelete="CASCADE"),
            Index(None, *columns),
        )


class SessionRow(_OfAPerson, Row):
    """A signed-in browser; only the hash of its token is kept."""

    __tablename__ = "sessions"

    created_at: Mapped[datetime] = mapped_column(UtcTime)


class SignInLinkRow(_OfAPerson, Row):
    """A link that signs in once; only the hash of its token is kept."""

    __tablename__ = "sign_in_links"

    used_at: Mapped[datetime | None] = mapped_column(UtcTime)


# Houses


class HouseRow(Row):
    """A house: what stands once in its file, its version and whether it is put away."""

    __tablename__ = "houses"
    __table_args__ = (Index(None, "firm_key", "changed_at"),)

    firm_key: Mapped[str] = mapped_column(ForeignKey("firms.key"), primary_key=True)
    key: Mapped[str] = mapped_column(KEY, primary_key=True)
    version: Mapped[int]
    created_at: Mapped[datetime] = mapped_column(UtcTime)
    changed_at: Mapped[datetime] = mapped_column(UtcTime)
    archived_at: Mapped[datetime | None] = mapped_column(UtcTime)
    binned_at: Mapped[datetime | None] = mapped_column(UtcTime)

    name: Mapped[str] = mapped_column(NAME)
    year_built: Mapped[int | None]
    films: Mapped[str | None] = mapped_column(String(20))
    thermal_mass: Mapped[str | None] = mapped_column(String(20))
    floor_area: Mapped[Entry | None] = quantity("floor_area")
    bedrooms: Mapped[Entry | None] = quantity("bedrooms")
    storeys: Mapped[Entry | None] = quantity("storeys")
    set_points__heating: Mapped[Entry | None] = quantity("heating_set_point")
    set_points__cooling: Mapped[Entry | None] = quantity("cooling_set_point")
    gains__people_and_appliances: Mapped[Entry | None] = quantity("people_and_appliances")

    air__ach50: Mapped[Entry | None] = quantity("ach50")
    air__cfm50: Mapped[Entry | None] = quantity("cfm50")
    air__air_changes: Mapped[Entry | None] = quantity("air_changes")
    air__shelter_class: Mapped[int | None]
    air__ventilation__flow: Mapped[Entry | None] = quantity("ventilation_flow")
    air__ventilation__heat_recovery: Mapped[Entry | None] = quantity("heat_recovery")
    air__ventilation__balanced: Mapped[bool | None]

    heating__fuel: Mapped[str | None] = mapped_column(NAME)
    heating__efficiency: Mapped[Entry | None] = quantity("heating_efficiency")
    heating__distribution: Mapped[Entry | None] = quantity("heating_distribution")
    heating__ducts_in: Mapped[str | None] = mapped_column(NAME)
    cooling__fuel: Mapped[str | None] = mapped_column(NAME)
    cooling__efficiency: Mapped[Entry | None] = quantity("cooling_efficiency")
    cooling__distribution: Mapped[Entry | None] = quantity("cooling_distribution")
    cooling__ducts_in: Mapped[str | None] = mapped_column(NAME)

    seen__gutters: Mapped[str | None] = mapped_column(String(30))
    seen__ground_slope: Mapped[str | None] = mapped_column(String(30))
    seen__flashing: Mapped[str | None] = mapped_column(String(30))
    seen__below_grade: Mapped[str | None] = mapped_column(String(30))
    seen__crawl_ground_cover: Mapped[str | None] = mapped_column(String(30))
    seen__termites: Mapped[str | None] = mapped_column(String(30))
    seen__radon: Mapped[str | None] = mapped_column(String(30))
    seen__combustion: Mapped[str | None] = mapped_column(String(30))
    seen__chimney: Mapped[str | None] = mapped_column(String(30))
    seen__flues_through_attic: Mapped[bool | None]
    seen__wiring: Mapped[str | None] = mapped_column(String(30))
    seen__loose_fill: Mapped[str | None] = mapped_column(String(30))
    seen__asbestos: Mapped[str | None] = mapped_column(String(30))
    seen__lead_paint: Mapped[str | None] = mapped_column(String(30))
    seen__framing: Mapped[str | None] = mapped_column(String(30))
    seen__plaster: Mapped[str | None] = mapped_column(String(30))
    seen__inside_paint: Mapped[str | None] = mapped_column(String(30))
    seen__veneer_weeps: Mapped[str | None] = mapped_column(String(30))
    seen__beams_in_masonry: Mapped[bool | None]

    indoor_humidity__humidity_class: Mapped[int | None]
    energy_code__edition: Mapped[str | None] = mapped_column(String(20))
    energy_code__window: Mapped[Entry | None] = quantity("energy_code_window")
    energy_code__skylight: Mapped[Entry | None] = quantity("energy_code_skylight")
    energy_code__shgc: Mapped[Entry | None] = quantity("energy_code_shgc")
    energy_code__ceiling: Mapped[Entry | None] = quantity("energy_code_ceiling")
    energy_code__frame_wall: Mapped[Entry | None] = quantity("energy_code_frame_wall")
    energy_code__mass_wall: Mapped[Entry | None] = quantity("energy_code_mass_wall")
    energy_code__floor: Mapped[Entry | None] = quantity("energy_code_floor")
    energy_code__basement_wall: Mapped[Entry | None] = quantity("energy_code_basement_wall")
    energy_code__crawl_wall: Mapped[Entry | None] = quantity("energy_code_crawl_wall")

    defaults__region: Mapped[str | None] = mapped_column(NAME)
    defaults__version: Mapped[int | None]
    climate__region: Mapped[str | None] = mapped_column(NAME)
    climate__station: Mapped[str | None] = mapped_column(NAME)
    climate__name: Mapped[str | None] = mapped_column(NAME)
    climate__latitude: Mapped[Entry | None] = quantity("latitude")
    climate__longitude: Mapped[Entry | None] = quantity("longitude")
    climate__elevation: Mapped[Entry | None] = quantity("elevation")
    climate__heating_design_temperature: Mapped[Entry | None] = quantity("heating_design")
    climate__cooling_design_temperature: Mapped[Entry | None] = quantity("cooling_design")
    climate__cooling_daily_range: Mapped[Entry | None] = quantity("cooling_daily_range")
    climate__sensible_heat_ratio: Mapped[Entry | None] = quantity("sensible_heat_ratio")
    climate__iecc_zone: Mapped[str | None] = mapped_column(NAME)


def _parent(table: str, column: str) -> ForeignKeyConstraint:
    return ForeignKeyConstraint(
        ["firm_key", "house_key", column],
        [f"{table}.firm_key", f"{table}.house_key", f"{table}.key"],
        ondelete="CASCADE",
    )


class OfAHouse(Row):
    """A row of a house. position: its place in the list it stands in."""

    __abstract__ = True

    firm_key: Mapped[str] = mapped_column(KEY, primary_key=True)
    house_key: Mapped[str] = mapped_column(KEY, primary_key=True)
    key: Mapped[str] = mapped_column(KEY, primary_key=True)
    position: Mapped[int]

    parents: ClassVar[tuple[tuple[str, str], ...]] = ()

    @declared_attr.directive
    def __table_args__(cls) -> tuple[ForeignKeyConstraint, ...]:  # noqa: N805
        house = ForeignKeyConstraint(
            ["firm_key", "house_key"], ["houses.firm_key", "houses.key"], ondelete="CASCADE"
        )
        return (house, *(_parent(table, column) for table, column in cls.parents))


class ClimateMonthRow(OfAHouse):
    """One month of a house's own climate."""

    __tablename__ = "climate_months"

    mean_temperature: Mapped[Entry | None] = quantity("mean_temperature")
    temperature_deviation: Mapped[Entry | None] = quantity("temperature_deviation")
    horizontal_irradiation: Mapped[Entry | None] = quantity("horizontal_irradiation")
    wind_speed: Mapped[Entry | None] = quantity("wind_speed")
    humidity_ratio: Mapped[Entry | None] = quantity("humidity_ratio")
    sun_variation: Mapped[Entry | None] = quantity("sun_variation")
    diurnal_deviation: Mapped[Entry | None] = quantity("diurnal_deviation")


class IndoorHumidityMonthRow(OfAHouse):
    """The relative humidity of the rooms in one month."""

    __tablename__ = "indoor_humidity_months"

    relative_humidity: Mapped[Entry | None] = quantity("relative_humidity")


class FuelFactorRow(OfAHouse):
    """What a unit of a fuel costs, or how much carbon dioxide it makes."""

    __tablename__ = "fuel_factors"

    sort: Mapped[str] = mapped_column(String(10))
    fuel: Mapped[str] = mapped_column(NAME)
    amount: Mapped[Entry | None] = quantity("amount")


class SpaceRow(OfAHouse):
    """A space."""

    __tablename__ = "spaces"

    name: Mapped[str] = mapped_column(NAME)
    inside: Mapped[bool]
    volume: Mapped[Entry | None] = quantity("volume")
    air_changes: Mapped[Entry | None] = quantity("air_changes")
    crawl_vents__opening_area: Mapped[Entry | None] = quantity("crawl_vents_opening_area")
    crawl_vents__perimeter: Mapped[Entry | None] = quantity("crawl_vents_perimeter")
    crawl_vents__shielding: Mapped[str | None] = mapped_column(String(10))


class MaterialRow(OfAHouse):
    """A material of the house's own."""

    __tablename__ = "house_materials"

    name: Mapped[str] = mapped_column(NAME)
    conductivity: Mapped[Entry | None] = quantity("conductivity")
    density: Mapped[Entry | None] = quantity("density")
    specific_heat: Mapped[Entry | None] = quantity("specific_heat")
    vapour_resistance_factor: Mapped[Entry | None] = quantity("vapour_resistance_factor")
    compressive_strength: Mapped[Entry | None] = quantity("compressive_strength")
    reaction_to_fire: Mapped[str | None] = mapped_column(String(2))
    group: Mapped[str | None] = mapped_column("material_group", String(30))
    source: Mapped[str | None]


class AssemblyRow(OfAHouse):
    """An assembly: its layers, or only a U."""

    __tablename__ = "assemblies"

    name: Mapped[str] = mapped_column(NAME)
    u_value: Mapped[Entry | None] = quantity("u_value")
    storm_u_value: Mapped[Entry | None] = quantity("storm_u_value")


class ComponentRow(OfAHouse):
    """A piece of envelope between two spaces."""

    __tablename__ = "components"

    name: Mapped[str] = mapped_column(NAME)
    kind: Mapped[str] = mapped_column(String(20))
    from_: Mapped[str] = mapped_column("from_space", NAME)
    to: Mapped[str] = mapped_column("to_space", NAME)
    area: Mapped[Entry | None] = quantity("area")
    azimuth: Mapped[Entry | None] = quantity("azimuth")
    tilt: Mapped[Entry | None] = quantity("tilt")
    assembly: Mapped[str | None] = mapped_column(NAME)
    u_value: Mapped[Entry | None] = quantity("u_value")
    storm_u_value: Mapped[Entry | None] = quantity("storm_u_value")
    shgc: Mapped[Entry | None] = quantity("shgc")
    shading: Mapped[Entry | None] = quantity("shading")
    solar_absorptance: Mapped[Entry | None] = quantity("solar_absorptance")
    exposed_perimeter: Mapped[Entry | None] = quantity("exposed_perimeter")
    depth_below_grade: Mapped[Entry | None] = quantity("depth_below_grade")
    soil: Mapped[str | None] = mapped_column(String(10))
    soil_conductivity: Mapped[Entry | None] = quantity("soil_conductivity")
    wall_thickness: Mapped[Entry | None] = quantity("wall_thickness")
    edge_insulation__resistance: Mapped[Entry | None] = quantity("edge_resistance")
    edge_insulation__width: Mapped[Entry | None] = quantity("edge_width")
    edge_insulation__depth: Mapped[Entry | None] = quantity("edge_depth")
    edge_insulation__thickness: Mapped[Entry | None] = quantity("edge_thickness")
    access: Mapped[str | None] = mapped_column(String(10))
    reached_from: Mapped[str | None] = mapped_column(String(10))
    wetness: Mapped[str | None] = mapped_column(String(10))
    condition: Mapped[list[str] | None] = mapped_column(Words)


class ShadingMonthRow(OfAHouse):
    """The share of sun that arrives at a component in one month."""

    __tablename__ = "shading_months"
    parents = (("components", "component_key"),)

    component_key: Mapped[str] = mapped_column(KEY)
    share: Mapped[Entry | None] = quantity("share")


class JunctionRow(OfAHouse):
    """A linear thermal bridge."""

    __tablename__ = "junctions"

    name: Mapped[str] = mapped_column(NAME)
    from_: Mapped[str] = mapped_column("from_space", NAME)
    to: Mapped[str] = mapped_column("to_space", NAME)
    length: Mapped[Entry | None] = quantity("length")
    psi: Mapped[Entry | None] = quantity("psi")


class StrategyRow(OfAHouse):
    """A strategy: what it does once to the whole house."""

    __tablename__ = "strategies"

    name: Mapped[str] = mapped_column(NAME)
    recipe: Mapped[str] = mapped_column(String(20))
    inside: Mapped[list[str] | None] = mapped_column(Words)
    ach50: Mapped[Entry | None] = quantity("ach50")
    cfm50: Mapped[Entry | None] = quantity("cfm50")
    air_changes: Mapped[Entry | None] = quantity("air_changes")
    ventilation__flow: Mapped[Entry | None] = quantity("ventilation_flow")
    ventilation__heat_recovery: Mapped[Entry | None] = quantity("heat_recovery")
    ventilation__balanced: Mapped[bool | None]
    heating__fuel: Mapped[str | None] = mapped_column(NAME)
    heating__efficiency: Mapped[Entry | None] = quantity("heating_efficiency")
    heating__distribution: Mapped[Entry | None] = quantity("heating_distribution")
    heating__ducts_in: Mapped[str | None] = mapped_column(NAME)
    cooling__fuel: Mapped[str | None] = mapped_column(NAME)
    cooling__efficiency: Mapped[Entry | None] = quantity("cooling_efficiency")
    cooling__distribution: Mapped[Entry | None] = quantity("cooling_distribution")
    cooling__ducts_in: Mapped[str | None] = mapped_column(NAME)


class ChangeRow(OfAHouse):
    """One thing a strategy does to one target.

    sort says which: `changes` (target a component or a kind), `spaces`, `psi` (a junction),
    `openings` or `edge_insulation` (a component).
    """

    __tablename__ = "changes"
    parents = (("strategies", "strategy_key"),)

    strategy_key: Mapped[str] = mapped_column(KEY)
    sort: Mapped[str] = mapped_column(String(20))
    target: Mapped[str] = mapped_column(NAME)
    assembly: Mapped[str | None] = mapped_column(NAME)
    remove: Mapped[list[str] | None] = mapped_column(Words)
    fill: Mapped[str | None] = mapped_column(NAME)
    fill_thickness: Mapped[Entry | None] = quantity("fill_thickness")
    fill_label_resistance: Mapped[Entry | None] = quantity("fill_label")
    air_changes: Mapped[Entry | None] = quantity("air_changes")
    psi: Mapped[Entry | None] = quantity("psi")
    u_value: Mapped[Entry | None] = quantity("u_value")
    storm_u_value: Mapped[Entry | None] = quantity("storm_u_value")
    shgc: Mapped[Entry | None] = quantity("shgc")
    resistance: Mapped[Entry | None] = quantity("resistance")
    width: Mapped[Entry | None] = quantity("width")
    depth: Mapped[Entry | None] = quantity("depth")
    thickness: Mapped[Entry | None] = quantity("thickness")


class LayerRow(OfAHouse):
    """A layer of an assembly, or one that a change adds inside or outside."""

    __tablename__ = "layers"
    parents = (("assemblies", "assembly_key"), ("changes", "change_key"))

    assembly_key: Mapped[str | None] = mapped_column(KEY)
    change_key: Mapped[str | None] = mapped_column(KEY)
    side: Mapped[str | None] = mapped_column(String(10))
    name: Mapped[str | None] = mapped_column(NAME)
    label_resistance: Mapped[Entry | None] = quantity("label")
    material: Mapped[str | None] = mapped_column(NAME)
    air_layer: Mapped[str | None] = mapped_column(String(25))
    thickness: Mapped[Entry | None] = quantity("thickness")
    opening_area: Mapped[Entry | None] = quantity("opening_area")
    resistance: Mapped[Entry | None] = quantity("resistance")
    thinnest: Mapped[Entry | None] = quantity("thinnest")
    fasteners__per_area: Mapped[Entry | None] = quantity("fasteners_per_area")
    fasteners__material: Mapped[str | None] = mapped_column(NAME)
    fasteners__diameter: Mapped[Entry | None] = quantity("fasteners_diameter")
    fasteners__cross_section: Mapped[Entry | None] = quantity("fasteners_cross_section")
    fasteners__recess: Mapped[Entry | None] = quantity("fasteners_recess")
    framed__framing: Mapped[str | None] = mapped_column(NAME)
    framed__fraction: Mapped[Entry | None] = quantity("framing_fraction")
    framed__fill: Mapped[str | None] = mapped_column(NAME)
    framed__depth: Mapped[Entry | None] = quantity("depth")
    framed__fill_thickness: Mapped[Entry | None] = quantity("fill_thickness")
    framed__open: Mapped[bool | None]
    framed__aligned: Mapped[bool | None]
    framed__empty_share: Mapped[Entry | None] = quantity("empty_share")
    framed__open_ends: Mapped[bool | None]


class RevisionRow(Row):
    """One version of a house as saved: by whom, when, what was changed, and the whole of it.

    content: the house with its keys, as packed JSON, to restore or show a version, and to tell
    whether a house is still what something was drawn from.
    """

    __tablename__ = "revisions"
    __table_args__ = (
        ForeignKeyConstraint(
            ["firm_key", "house_key"], ["houses.firm_key", "houses.key"], ondelete="CASCADE"
        ),
    )

    firm_key: Mapped[str] = mapped_column(KEY, primary_key=True)
    house_key: Mapped[str] = mapped_column(KEY, primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[datetime] = mapped_column(UtcTime)
    by: Mapped[str] = mapped_column(NAME)
    what: Mapped[list[dict[str, str | None]]] = mapped_column(Words)
    content: Mapped[bytes] = mapped_column(LargeBinary)


# What a firm sets once for all its houses


class PriceBookRow(Row):
    """One version of a firm's price book, in the form in which it is saved as a file."""

    __tablename__ = "price_books"

    firm_key: Mapped[str] = mapped_column(ForeignKey("firms.key"), primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[datetime] = mapped_column(UtcTime)
    by: Mapped[str] = mapped_column(NAME)
    content: Mapped[str]


class RegionRow(Row):
    """One version of a region's defaults; a change makes a new one and leaves houses alone."""

    __tablename__ = "regions"

    firm_key: Mapped[str] = mapped_column(ForeignKey("firms.key"), primary_key=True)
    key: Mapped[str] = mapped_column(String(40), primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[datetime] = mapped_column(UtcTime)
    by: Mapped[str] = mapped_column(NAME)
    content: Mapped[str]


# Offers


class OfferRow(Row):
    """A comparison with its prices as sent. content never changes; sha256 says so."""

    __tablename__ = "offers"
    __table_args__ = (
        ForeignKeyConstraint(
            ["firm_key", "house_key"], ["houses.firm_key", "houses.key"], ondelete="CASCADE"
        ),
        UniqueConstraint("firm_key", "house_key", "number"),
        UniqueConstraint("firm_key", "key"),
    )

    key: Mapped[str] = mapped_column(KEY, primary_key=True)
    firm_key: Mapped[str] = mapped_column(KEY)
    house_key: Mapped[str] = mapped_column(KEY)
    number: Mapped[int]
    token_hash: Mapped[str] = mapped_column(String(64), unique=True)
    created_at: Mapped[datetime] = mapped_column(UtcTime)
    by: Mapped[str] = mapped_column(NAME)
    note: Mapped[str]
    expires_at: Mapped[datetime | None] = mapped_column(UtcTime)
    revoked_at: Mapped[datetime | None] = mapped_column(UtcTime)
    opened_at: Mapped[datetime | None] = mapped_column(UtcTime)
    content: Mapped[bytes] = mapped_column(LargeBinary)
    sha256: Mapped[str] = mapped_column(String(64))


class OfferAnswerRow(Row):
    """What an owner said to an offer."""

    __tablename__ = "offer_answers"
    __table_args__ = (
        ForeignKeyConstraint(
            ["firm_key", "offer_key"], ["offers.firm_key", "offers.key"], ondelete="CASCADE"
        ),
        Index(None, "firm_key", "offer_key"),
    )

    key: Mapped[str] = mapped_column(KEY, primary_key=True)
    firm_key: Mapped[str] = mapped_column(KEY)
    offer_key: Mapped[str] = mapped_column(KEY)
    at: Mapped[datetime] = mapped_column(UtcTime)
    name: Mapped[str] = mapped_column(NAME)
    choice: Mapped[str] = mapped_column(NAME)
    question: Mapped[str]


HOUSE_PARTS: tuple[type[OfAHouse], ...] = (
    ClimateMonthRow,
    IndoorHumidityMonthRow,
    FuelFactorRow,
    SpaceRow,
    MaterialRow,
    AssemblyRow,
    ComponentRow,
    ShadingMonthRow,
    JunctionRow,
    StrategyRow,
    ChangeRow,
    LayerRow,
)
"""The tables of a house's parts, parents before children."""
