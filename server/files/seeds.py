"""The seed data: materials, climate stations and regions."""

from __future__ import annotations

import csv
import functools
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from server.core.arrays import Array
from server.core.climate import Climate
from server.core.materials import Material

SEED_DATA = Path(__file__).resolve().parent.parent.parent / "seed_data"
DEMO_HOUSE = SEED_DATA / "demo-house.json"


@dataclass(frozen=True, slots=True)
class Region:
    """A region's defaults; its climate is a station's."""

    key: str
    name: str
    station: str
    note: str


@dataclass(frozen=True, slots=True)
class MaterialRow:
    """One row of the material table: every figure as text beside the key of its source."""

    figures: dict[str, str]

    @property
    def name(self) -> str:
        """The material's name."""
        return self.figures["name"]


def _rows(path: Path) -> Iterator[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


@functools.cache
def material_rows() -> tuple[MaterialRow, ...]:
    """The seed materials as the table holds them."""
    return tuple(MaterialRow(row) for row in _rows(SEED_DATA / "materials.csv"))


@functools.cache
def material_sources() -> dict[str, dict[str, str]]:
    """Source key to its row: publication, clause, and whether it was read or remembered."""
    return {row["key"]: row for row in _rows(SEED_DATA / "material_sources.csv")}


@functools.cache
def materials() -> dict[str, Material]:
    """Name to the seed material of that name."""
    return {row.name: _material(row.figures) for row in material_rows()}


@functools.cache
def regions() -> dict[str, Region]:
    """Key to region."""
    rows = _rows(SEED_DATA / "regions.csv")
    return {row["key"]: Region(**row) for row in rows}


@functools.cache
def station_climate(station: str) -> Climate | None:
    """The climate of a station, None where the seed data has no such station."""
    row = next(
        (row for row in _rows(SEED_DATA / "climate" / "stations.csv") if row["station"] == station),
        None,
    )
    if row is None:
        return None
    months = [m for m in _rows(SEED_DATA / "climate" / "months.csv") if m["station"] == station]

    def column(name: str, factor: float = 1.0) -> Array:
        return np.array([float(month[name]) for month in months]) * factor

    return Climate(
        name=f"{row['name']}, {row['state']}",
        latitude=float(row["latitude_deg"]),
        longitude=float(row["longitude_deg"]),
        elevation=float(row["elevation_m"]),
        mean_temperature=column("mean_c"),
        temperature_deviation=column("deviation_k"),
        horizontal_irradiation=column("horizontal_mj_m2_day", 1e6),
        wind_speed=column("wind_m_s"),
        humidity_ratio=column("humidity_ratio_g_kg", 1e-3),
        sun_variation=column("sun_variation"),
        diurnal_deviation=column("diurnal_deviation_k"),
        heating_design_temperature=float(row["low_1pct_c"]),
        cooling_design_temperature=float(row["high_99pct_c"]),
        cooling_daily_range=float(row["cooling_daily_range_k"]),
        iecc_zone=row["iecc_zone"] or None,
    )


def _material(figures: dict[str, str]) -> Material:
    return Material(
        name=figures["name"],
        conductivity=float(figures["conductivity_w_per_mk"]),
        density=_known(figures["density_kg_per_m3"]),
        specific_heat=_known(figures["specific_heat_j_per_kgk"]),
        vapour_resistance_factor=_known(figures["vapour_resistance_factor"]),
        compressive_strength=_known(figures["compressive_strength_kpa"], 1e3),
        reaction_to_fire=figures["reaction_to_fire"],
        group=figures["group"],
    )


def _known(text: str, factor: float = 1.0) -> float | None:
    return float(text) * factor if text else None
